"""A written row back into its steps."""

from __future__ import annotations

import re

from yokefellow.notation.grammar import (
    DEEPEST,
    LARGEST,
    PATTERNS,
    UNMARKED,
    YARN,
    NotationError,
    counted,
    excess,
)
from yokefellow.notation.write import canonical
from yokefellow.rows.model import Op, Repeat, Step

_CLOSING = {"[": "]", "(": ")"}
_TIMES = re.compile(r" +(?P<n>[0-9]+) +times(?![A-Za-z0-9])")
_REP = re.compile(
    r" *; *rep +from +\* +(?:once +more|(?P<n>[0-9]+) +(?P<more>more +)?times(?: +in +all)?)"
    r"(?![A-Za-z0-9])"
)


def read(text: str) -> tuple[Step, ...]:
    """Read a row written in the trade's abbreviations; the exact inverse of `write`.

    The steps come in canonical form. Brackets may be square or round, and
    `rep from * 3 more times` is four times in all, as is a bare `rep from * 4 times`.

    Raises:
        NotationError: the text is no such row; it says where, and what was
            expected there.

    Example:
        >>> read("k5, k2tog")
        (Op(code='k', times=5, yarn=''), Op(code='k2tog', times=1, yarn=''))
    """
    return read_between(text, start=0, end=len(text))


def read_between(text: str, *, start: int, end: int) -> tuple[Step, ...]:
    """Read the row that stands between two offsets of a longer sentence.

    Raises:
        NotationError: as `read`; the position counts from the start of the text.
    """
    reader = _Reader(text[:end], start)
    steps = canonical(reader.whole())
    if beyond := excess(steps):
        raise NotationError(text, position=start, expected=f"a row with {beyond}")
    return steps


class _Reader:
    """A place in the text, and what may stand there."""

    def __init__(self, text: str, at: int) -> None:
        self.text = text
        self.at = at
        self.starred = False

    def whole(self) -> tuple[Step, ...]:
        steps = self.steps(depth=0)
        if self.at < len(self.text):
            raise self.error("a comma or the end of the row")
        return steps

    def steps(self, *, depth: int) -> tuple[Step, ...]:
        steps = [self.step(depth=depth)]
        while self.peek() == ",":
            self.at += 1
            steps.append(self.step(depth=depth))
        return tuple(steps)

    def step(self, *, depth: int) -> Step:
        mark = self.peek()
        if mark not in ("*", "[", "("):
            return self.stitch()
        if depth >= DEEPEST:
            raise self.error(f"a stitch: at most {DEEPEST} repeats stand inside one another")
        return self.star() if mark == "*" and depth == 0 else self.bracket(mark, depth=depth)

    def star(self) -> Repeat:
        if self.starred:
            raise self.error("a stitch or a bracket: the star stands once in a row")
        self.starred = True
        self.at += 1
        steps = self.steps(depth=1)
        again = self.take(_REP, "'; rep from * … more times'")
        if again["n"] is None:
            return Repeat(steps, 2)
        times = self.number(again) + bool(again["more"])
        if times > LARGEST:
            raise self.error(f"a number from 1 to {LARGEST - 1}")
        return Repeat(steps, times)

    def bracket(self, opening: str, *, depth: int) -> Repeat:
        closing = _CLOSING.get(opening)
        if closing is None:
            raise self.error("a stitch: the star stands outside all brackets")
        self.at += 1
        steps = self.steps(depth=depth + 1)
        if self.peek() != closing:
            raise self.error(f"a comma or {closing!r}")
        self.at += 1
        return Repeat(steps, self.number(self.take(_TIMES, "how many times, as ' 4 times'")))

    def stitch(self) -> Op:
        for code, pattern in PATTERNS:
            if match := pattern.match(self.text, self.at):
                self.at = match.end()
                times = self.number(match) if counted(code) else 1
                yarn = "" if code in UNMARKED else self.yarn()
                if not counted(code) and (again := _TIMES.match(self.text, self.at)):
                    self.at = again.end()
                    times = self.number(again)
                return Op(code, times, yarn)
        raise self.error("a stitch, as k5, M1L or k2tog, or a repeat")

    def yarn(self) -> str:
        match = YARN.match(self.text, _skip(self.text, self.at))
        if match is None:
            return ""
        self.at = match.end()
        return match.group()

    def number(self, match: re.Match[str]) -> int:
        digits = match.group("n")
        # Length first: int() of a very long text is slow, or refuses it in its own words.
        if digits.startswith("0") or len(digits) > len(str(LARGEST)):
            self.at = match.start("n")
            raise self.error(f"a number from 1 to {LARGEST}")
        return int(digits)

    def take(self, pattern: re.Pattern[str], expected: str) -> re.Match[str]:
        match = pattern.match(self.text, self.at)
        if match is None:
            raise self.error(expected)
        self.at = match.end()
        return match

    def peek(self) -> str:
        self.at = _skip(self.text, self.at)
        return self.text[self.at : self.at + 1]

    def error(self, expected: str) -> NotationError:
        return NotationError(self.text, position=self.at, expected=expected)


def _skip(text: str, at: int) -> int:
    while text.startswith(" ", at):
        at += 1
    return at
