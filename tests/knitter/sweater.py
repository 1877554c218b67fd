"""The whole sweater, from cast-on to the last bind-off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from tests.knitter.hands import Basket, Hands
from tests.knitter.mistakes import Kind, Mistake
from tests.knitter.needle import Needle
from tests.knitter.printed import Line, Part
from tests.knitter.words import understand


@dataclass(frozen=True, slots=True)
class Knitted:
    """What came off the needles."""

    rows: int
    """Rows worked, both sleeves counted."""
    loops: int
    """Loops of yarn drawn through."""
    held: tuple[int, ...]
    """Stitches put on waste yarn, in order."""
    underarms: tuple[int, ...]
    """Stitches cast on in the place of each."""
    picked_up: int
    at_neck: int
    """Stitches picked up round the neck."""
    taken_up: int
    """Loops of a provisional cast-on that were knitted on later."""
    bumps: int
    """Stitches of flat rows that show a purl bump on the right side."""
    bound_off: int
    counts: dict[tuple[str, str], tuple[int, ...]]
    """Live stitches after each row, by section and copy (an empty name: worked once)."""
    heights: dict[tuple[str, str], tuple[int, ...]]
    """The rows worked in each column in each section, at its end and from BOR round."""


def knit(parts: Iterable[Part]) -> Knitted:
    """Work every row of every part in order; raise `Mistake` at the first fault."""
    knitter = _Knitter()
    for copies, run in groupby(parts, key=lambda part: part.copies):
        knitter.work_run(tuple(run), copies)
    return knitter.finished()


class _Knitter:
    def __init__(self) -> None:
        self.needle = Needle()
        self.basket = Basket()
        self.returned = 0
        self.taken_up = 0
        self.counts: dict[tuple[str, str], tuple[int, ...]] = {}
        self.heights: dict[tuple[str, str], tuple[int, ...]] = {}

    def work_run(self, parts: tuple[Part, ...], copies: tuple[str, ...]) -> None:
        if not copies:
            for part in parts:
                self.work_part(part, "")
            return
        # Other live stitches, if any, rest on their own needle meanwhile.
        resting = self.needle
        for copy in copies:
            self.needle = self._put_back(f"{parts[0].key}, {copy}")
            for part in parts:
                self.work_part(part, copy)
            if self.needle.live():
                raise Mistake(
                    Kind.BIND_OFF, f"{self.needle.live()} sts are not bound off", f"end of {copy}"
                )
        self.needle = resting

    def _put_back(self, where: str) -> Needle:
        if self.returned >= len(self.basket.held):
            raise Mistake(Kind.HELD, "no stitches rest on waste yarn", where)
        loops = self.basket.held[self.returned]
        edge = self.basket.edges[self.returned]
        self.returned += 1
        return Needle.holding(loops, edge=edge)

    def work_part(self, part: Part, copy: str) -> None:
        where = f"{part.key} {copy}".strip()
        if self.needle.waste and not self.needle.live() and part.start:
            # Everything else is bound off: what waits at the neck is next.
            self.taken_up = len(self.needle.waste)
            self.needle.take_up()
        if part.start != self.needle.live():
            raise Mistake(
                Kind.START,
                f"starts on {part.start} sts, {self.needle.live()} are on the needle",
                where,
            )
        after = []
        self.needle.level()
        for line in _numbered(part):
            for number in range(line.first, line.last + 1):
                try:
                    after.append(self.work_row(line))
                except Mistake as mistake:
                    place = f"{where}, row {number} ({line.label()}: {line.what!r})"
                    raise mistake.at(place) from None
        self.counts[part.key, copy] = tuple(after)
        self.heights[part.key, copy] = self.needle.heights()

    def work_row(self, line: Line) -> int:
        row = understand(line.what)
        self.basket.rows += 1
        hands = Hands(self.needle, self.basket, line.kind, row)
        hands.start()
        hands.follow(row.body)
        hands.finish()
        live = self.needle.live()
        if live != line.count:
            raise Mistake(Kind.COUNT, f"{live} sts are on the needle, {line.count} are printed")
        return live

    def finished(self) -> Knitted:
        if self.needle.live():
            raise Mistake(Kind.BIND_OFF, f"{self.needle.live()} sts are not bound off", "the end")
        if self.returned < len(self.basket.held):
            raise Mistake(Kind.HELD, "stitches still rest on waste yarn", "the end")
        if self.needle.waste:
            raise Mistake(Kind.HELD, "a provisional cast-on is never taken up", "the end")
        return Knitted(
            rows=self.basket.rows,
            loops=self.basket.gauge_loops,
            held=tuple(map(len, self.basket.held)),
            underarms=tuple(self.basket.edges),
            picked_up=self.basket.picked_up,
            at_neck=self.basket.at_neck,
            taken_up=self.taken_up,
            bumps=self.basket.bumps,
            bound_off=self.basket.bound_off,
            counts=self.counts,
            heights=self.heights,
        )


def _numbered(part: Part) -> Iterator[Line]:
    """The lines, as long as their numbers go on without a gap."""
    expected = 1
    for line in part.lines:
        if line.first != expected or line.last < line.first:
            raise Mistake(
                Kind.ROW_NUMBERS,
                f"row {expected} should follow",
                f"{part.key}, {line.label()}",
            )
        expected = line.last + 1
        yield line
