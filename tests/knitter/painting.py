"""A knitter who paints: she works the printed rows of a colour band and looks at what she made.

She knows the page and the yarn in her hand, and nothing of the program. Every
stitch on her needle shows a colour and a face; a worked stitch takes the
colour of the yarn that makes it, a slipped one keeps its own.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tests.knitter.mistakes import Kind, Mistake


@dataclass(frozen=True, slots=True)
class Loop:
    """One stitch on the needle, as seen from the right side."""

    colour: str
    purl: bool = False
    is_new: bool = False
    """Made in this very round, beside which there is no bar to lift."""


@dataclass(frozen=True, slots=True)
class Printed:
    """One row of the band as she has it in hand."""

    what: str
    yarn: str
    """The yarn that is in hand where the row names none."""


Round = tuple[Loop, ...]

_WORDS = re.compile(
    r"[\[(*]|[\])]\s*[0-9]+ times|; rep from \* (?:to end|once more|[0-9]+ more times)|[^][()*;,]+"
)
_STITCH = re.compile(
    r"(?:(k|p)([0-9]+)|sl([0-9]+) wyib|(M1L))(?: (MC|CC[1-9]))?(?: ([0-9]+) times)?"
)


def plain_round(stitches: int, colour: str = "MC") -> Round:
    return tuple(Loop(colour) for _ in range(stitches))


def paint(rows: Iterable[Printed], start: Round) -> tuple[Round, ...]:
    """Work the rows one after another, and give the fabric after each."""
    fabric: list[Round] = []
    work = start
    for number, row in enumerate(rows, start=1):
        try:
            work = _worked(row, work)
        except Mistake as mistake:
            raise mistake.at(f"band row {number}: {row.what}") from None
        fabric.append(work)
    return tuple(fabric)


def _worked(row: Printed, below: Round) -> Round:
    hands = _Hands(below, row.yarn)
    if row.what in ("knit", "purl"):
        hands.work(row.what[0], len(below), row.yarn)
    else:
        words = [word.strip() for word in _WORDS.findall(row.what) if word.strip()]
        if re.sub(r"[\s,]", "", row.what) != re.sub(r"[\s,]", "", "".join(words)):
            raise Mistake(Kind.UNREADABLE, "some of the words make no sense")
        hands.follow(words)
    return hands.finished()


class _Hands:
    def __init__(self, below: Round, yarn: str) -> None:
        self.left = list(below)
        self.right: list[Loop] = []
        self.yarn = yarn

    def follow(self, words: list[str]) -> None:
        """Work the words in order; at the end of a repeat go back, as the eye does on paper."""
        ends = _ends(words)
        at = 0
        begun: list[tuple[int, int]] = []  # where each open repeat begins, and how often so far
        while at < len(words):
            word = words[at]
            if at in ends:
                begun.append((at, 1))
            elif word[0] in "]);":
                start, so_far = begun.pop()
                if self._goes_on(word, so_far):
                    begun.append((start, so_far + 1))
                    at = start
            else:
                self._stitch(word)
            at += 1

    def _goes_on(self, word: str, so_far: int) -> bool:
        if word.endswith("to end"):
            return bool(self.left)
        if word.endswith("once more"):
            return so_far < 2
        times = re.search("[0-9]+", word)
        if times is None:
            raise Mistake(Kind.UNREADABLE, f"{word!r} does not say how often")
        return so_far < int(times[0]) + word.endswith("more times")

    def _stitch(self, word: str) -> None:
        read = _STITCH.fullmatch(word)
        if read is None:
            raise Mistake(Kind.UNREADABLE, f"{word!r} is no stitch of a band")
        kind, number, slipped, makes, yarn, times = read.groups()
        if slipped:
            self._slip(int(slipped))
        elif makes:
            for _ in range(int(times or 1)):
                self._make(yarn or self.yarn)
        else:
            self.work(kind, int(number), yarn or self.yarn)

    def _take(self) -> Loop:
        if not self.left:
            raise Mistake(Kind.TOO_FEW, "no stitch is left on the needle")
        return self.left.pop(0)

    def work(self, kind: str, stitches: int, yarn: str) -> None:
        for _ in range(stitches):
            self._take()
            self.right.append(Loop(yarn, purl=kind == "p"))

    def _slip(self, stitches: int) -> None:
        for _ in range(stitches):
            kept = self._take()
            self.right.append(Loop(kept.colour, purl=kept.purl))

    def _make(self, yarn: str) -> None:
        if not self.right or self.right[-1].is_new:
            raise Mistake(Kind.INCREASE, "there is no bar to lift here")
        self.right.append(Loop(yarn, is_new=True))

    def finished(self) -> Round:
        if self.left:
            raise Mistake(Kind.LEFT_OVER, f"{len(self.left)} sts are left at the end of the round")
        return tuple(Loop(loop.colour, purl=loop.purl) for loop in self.right)


def _ends(words: list[str]) -> frozenset[int]:
    """Give the places of the words that open a repeat; refuse brackets that do not pair."""
    pairs = {"]": "[", ")": "(", ";": "*"}
    openers: list[int] = []
    found: set[int] = set()
    for at, word in enumerate(words):
        if word in ("[", "(", "*"):
            openers.append(at)
            found.add(at)
        elif word[0] in pairs and (
            not openers or words[openers.pop()] != pairs[word[0]] or words[at - 1] in "[(*"
        ):
            raise Mistake(Kind.UNREADABLE, "the brackets do not pair")
    if openers:
        raise Mistake(Kind.UNREADABLE, "a bracket is left open")
    return frozenset(found)


def seen(fabric: Iterable[Round]) -> tuple[tuple[str, ...], ...]:
    """Look at the colours of the fabric, round by round."""
    return tuple(tuple(loop.colour for loop in work) for work in fabric)


def felt(fabric: Iterable[Round]) -> Iterator[tuple[bool, ...]]:
    """Feel for the purls of the fabric, round by round."""
    for work in fabric:
        yield tuple(loop.purl for loop in work)
