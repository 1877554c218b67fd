"""A sweater sheet as the knitter has it in hand: lines of text in parts.

These are what an adapter (HTML, plain text, JSON) must produce.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """One printed line: a row, or several rows worked alike ("Rnds 5–11")."""

    first: int
    last: int
    kind: str
    """`rnd`, `RS`, `WS`, `part`, `flat RS` or `flat WS`."""
    what: str
    """The instruction, as printed."""
    count: int
    """The count printed beside it: live stitches after each of its rows."""
    yarn: str = ""
    """The code of the yarn in hand, where the line names one before its words."""

    def label(self) -> str:
        numbers = str(self.first) if self.first == self.last else f"{self.first}–{self.last}"
        return f"{self.kind} {numbers}"


@dataclass(frozen=True, slots=True)
class Part:
    """A section of the sheet."""

    key: str
    start: int
    """Live stitches before its first row, as printed."""
    lines: tuple[Line, ...]
    copies: tuple[str, ...] = ()
    """Names of its copies, when it is worked more than once: each takes the next stitches
    from waste yarn, in the order in which they were put there."""
