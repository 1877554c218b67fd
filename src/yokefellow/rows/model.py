"""The row model: what a row does, stitch by stitch.

A row is a tuple of steps. A step is an `Op` (so many stitches of one kind) or
a `Repeat` of steps. Each kind of stitch takes stitches off the left needle and
makes stitches on the right one; counts are computed from that and never
written beside it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple, TypeAlias


class Stitch(NamedTuple):
    """A kind of stitch: what one of it takes from the left needle and makes on the right."""

    code: str
    takes: int
    makes: int
    worked: int
    """Loops of yarn drawn through for one of it: what it costs the yarn."""


STITCHES = MappingProxyType(
    {
        stitch.code: stitch
        for stitch in (
            Stitch("k", 1, 1, 1),
            Stitch("p", 1, 1, 1),
            Stitch("k tbl", 1, 1, 1),
            Stitch("sl wyib", 1, 1, 0),
            Stitch("sl wyif", 1, 1, 0),
            Stitch("M1L", 0, 1, 1),
            Stitch("M1R", 0, 1, 1),
            Stitch("yo", 0, 1, 1),
            Stitch("kfb", 1, 2, 2),
            Stitch("k2tog", 2, 1, 1),
            Stitch("ssk", 2, 1, 1),
            Stitch("p2tog", 2, 1, 1),
            Stitch("M1LP", 0, 1, 1),
            Stitch("M1RP", 0, 1, 1),
            Stitch("pfb", 1, 2, 2),
            Stitch("CDD", 3, 1, 1),
            Stitch("DS", 1, 1, 0),
            Stitch("k DS", 1, 1, 1),
            Stitch("k wrap", 1, 1, 1),
            Stitch("w&t", 0, 0, 0),
            Stitch("turn", 0, 0, 0),
            Stitch("CO", 0, 1, 1),
            Stitch("BO", 1, 0, 1),
            Stitch("sew", 1, 0, 1),
            Stitch("hold", 1, 0, 0),
            Stitch("PU", 0, 1, 1),
            Stitch("pm", 0, 0, 0),
            Stitch("sm", 0, 0, 0),
            Stitch("rm", 0, 0, 0),
        )
    }
)
"""Every kind of stitch the schedule knows, by its abbreviation.

`DS` is the double stitch made at the start of a German short row, `k DS` the
same stitch knitted as one in the round that closes the gap; `k wrap` knits a
wrapped stitch together with its wrap; `yo` is a yarn over; `sew` sews a live
stitch down inside, instead of binding it off; `hold` puts stitches on waste yarn; `PU`
picks up and knits one.
"""


@dataclass(frozen=True, slots=True)
class Op:
    """`times` stitches of one kind: `Op("k", 5)` is k5."""

    code: str
    times: int = 1
    yarn: str = ""
    """The yarn when it is not the row's own (`MC`, `CC1`, ...)."""

    def __post_init__(self) -> None:
        if self.code not in STITCHES:
            raise ValueError(f"unknown stitch {self.code!r}")
        if self.times < 1:
            raise ValueError(f"{self.code} is worked at least once, not {self.times} times")


@dataclass(frozen=True, slots=True)
class Repeat:
    """Steps worked `times` times in all."""

    steps: tuple[Step, ...]
    times: int

    def __post_init__(self) -> None:
        if not self.steps:
            raise ValueError("a repeat holds at least one step")
        if self.times < 1:
            raise ValueError(f"a repeat is worked at least once, not {self.times} times")


Step: TypeAlias = Op | Repeat


@lru_cache(maxsize=1 << 14)
def op(code: str, times: int = 1, yarn: str = "") -> Op:
    """Give an op, the same object each time: a sweater is made of few different ones.

    Raises:
        ValueError: as `Op`.
    """
    return Op(code, times, yarn)


_TURNS = {code: (stitch.takes, stitch.makes) for code, stitch in STITCHES.items()}


def turnover(steps: Iterable[Step]) -> tuple[int, int]:
    """Count the stitches taken off the left needle, and those made on the right one."""
    takes = makes = 0
    for step in steps:
        if isinstance(step, Op):
            off, on = _TURNS[step.code]
        else:
            off, on = turnover(step.steps)
        takes += step.times * off
        makes += step.times * on
    return takes, makes


def taken(steps: Iterable[Step]) -> int:
    """Count the stitches the steps take off the left needle."""
    return turnover(steps)[0]


def made(steps: Iterable[Step]) -> int:
    """Count the stitches the steps make on the right needle."""
    return turnover(steps)[1]


def worked(steps: Iterable[Step]) -> int:
    """Count the loops drawn through: the stitches that cost yarn."""
    return sum(
        step.times * (STITCHES[step.code].worked if isinstance(step, Op) else worked(step.steps))
        for step in steps
    )


def net(steps: tuple[Step, ...]) -> int:
    """Count by how many stitches the steps change the work."""
    takes, makes = turnover(steps)
    return makes - takes


def runs(rows: Iterable[Row]) -> Iterator[tuple[Row, int]]:
    """Yield each row once with how often it stands one after another: most rounds repeat.

    >>> list(runs([Row((Op("k", 8),)), Row((Op("k", 8),))])) == [(Row((Op("k", 8),)), 2)]
    True
    """
    last: Row | None = None
    times = 0
    for row in rows:
        if last is not None and (row is last or row == last):
            times += 1
            continue
        if last is not None:
            yield last, times
        last, times = row, 1
    if last is not None:
        yield last, times


def flat_ops(steps: Iterable[Step]) -> Iterator[Op]:
    """Yield the ops in knitting order, with every repeat written out."""
    for step in steps:
        if isinstance(step, Op):
            yield step
        else:
            for _ in range(step.times):
                yield from flat_ops(step.steps)


class RowKind(StrEnum):
    """How a row goes round the work."""

    ROUND = "rnd"
    """Every stitch once, from BOR to BOR."""
    RIGHT_SIDE = "RS"
    """A short row worked on the right side; stops before the end."""
    WRONG_SIDE = "WS"
    """A short row worked on the wrong side, back over BOR."""
    PART = "part"
    """Some stitches on the right side, to bring BOR to a new place."""
    FLAT_RIGHT = "flat RS"
    """Every stitch once, worked flat with the right side facing."""
    FLAT_WRONG = "flat WS"
    """Every stitch once, worked flat on the way back, with the wrong side facing."""

    @property
    def uses_every_stitch(self) -> bool:
        """Tell whether a row of this kind leaves no stitch unworked."""
        return self is _ROUND or self in _FLAT

    @property
    def is_flat(self) -> bool:
        """Tell whether the work lies open: the row is turned at its end, unless it joins."""
        return self in _FLAT


_ROUND, _FLAT = RowKind.ROUND, (RowKind.FLAT_RIGHT, RowKind.FLAT_WRONG)


class Feature(StrEnum):
    """Why a row exists: the part of the shaping it carries out."""

    CAST_ON = "cast on"
    PROVISIONAL = "provisional cast-on"
    """A cast-on over waste yarn, whose loops are taken up again later."""
    EDGE = "edge"
    PLAIN = "plain"
    INCREASE = "increase"
    MARK = "mark"
    BAND = "band"
    SHORT_ROW = "short row"
    CLOSE_GAPS = "close gaps"
    SPLIT = "split"
    MOVE_BOR = "move BOR"
    SHAPE = "shape"
    ADJUST = "adjust"
    JOIN = "join"
    """The end of the rows worked flat: from here on the work goes round."""
    PICK_UP = "pick up"
    NECK_EDGE = "neck edge"
    """Stitches picked up round the neck, for a band worked last."""
    CORNERS = "corners"
    BIND_OFF = "bind off"


class Row(NamedTuple):
    """One row or round: its steps and why it is there."""

    steps: tuple[Step, ...]
    feature: Feature = Feature.PLAIN
    kind: RowKind = RowKind.ROUND
    fabric: str = "plain"
    """`plain`, `rib`, `garter`, `facing` (plain on the finer needle), or a kind of chart."""
    yarn: str = "MC"
    why: str = ""
    """The rule it came from, in a few words, for a curious reader."""
    bind_off: str = ""
    """How a bind-off is done, by its name in `shaping.bindoffs`."""


_ONCE = ("",)


@dataclass(frozen=True, slots=True)
class Section:
    """A run of rows worked one after another on the same stitches."""

    key: str
    """`neckband`, `cast_on`, `front`, `back_neck`, `yoke`, `split`, `body`, `hem`, `sleeve` or
    `cuff`; the neckband comes first, or last where it is worked last."""
    start: int
    """Live stitches before its first row."""
    rows: tuple[Row, ...]
    copies: tuple[str, ...] = _ONCE
    """Worked once for each: `("right", "left")` for the sleeves."""


class Schedule(NamedTuple):
    """The whole sweater in knitting order."""

    sections: tuple[Section, ...]

    @property
    def total_rows(self) -> int:
        """Rows and rounds in all; those of a sleeve count once for both sleeves."""
        return sum(len(section.rows) for section in self.sections)


class WorkedRow(NamedTuple):
    """A row at its place in the schedule, with the counts that follow from its steps."""

    section: Section
    number: int
    """Its number in the section, from 1."""
    place: int
    """Its number in the whole schedule, from 1; a sleeve row is numbered once for both sleeves."""
    row: Row
    before: int
    after: int


class Stretch(NamedTuple):
    """Like rows one after another that leave the count as it is; or one row that changes it."""

    section: Section
    number: int
    """Of its first row in the section, from 1."""
    place: int
    """Of its first row in the whole schedule, from 1."""
    row: Row
    before: int
    after: int
    times: int


def stretches(schedule: Schedule) -> Iterator[Stretch]:
    """Work the schedule on a needle that can only count, and yield its rows, like ones together.

    Raises:
        ValueError: a round or a flat row does not use every stitch, a row needs more
            than there are, or a section does not begin with the stitches it finds.
    """
    place, left = 1, 0
    for section in schedule.sections:
        if left and section.copies == _ONCE and section.start != left:
            raise ValueError(f"{section.key} begins with {section.start} stitches; {left} are left")
        live, number = section.start, 1
        for row, times in runs(section.rows):
            used, makes = turnover(row.steps)
            must_use_all = row.kind.uses_every_stitch
            at_once = times if used == makes else 1
            for _ in range(times // at_once):
                if used > live or (must_use_all and used != live):
                    raise ValueError(
                        f"{section.key} row {number} takes {used} stitches; "
                        f"{live} are on the needle"
                    )
                after = live - used + makes
                yield Stretch(section, number, place, row, live, after, at_once)
                live, number, place = after, number + at_once, place + at_once
        if section.copies == _ONCE:  # A sleeve is worked on a needle of its own.
            left = live


def walk(schedule: Schedule) -> Iterator[WorkedRow]:
    """Yield every row with its counts.

    Raises:
        ValueError: as `stretches`.
    """
    for section, number, place, row, before, after, times in stretches(schedule):
        for more in range(times):
            yield WorkedRow(section, number + more, place + more, row, before, after)
