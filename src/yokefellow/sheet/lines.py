"""The rounds as frozen values, ready-made strings for every format."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from yokefellow.sheet.colourwork import ChartPart, Colour

__all__ = ["Block", "Box", "Halt", "Item", "Line", "Note", "Run", "SectionView", "Ticks"]


class Box(NamedTuple):
    """One tick box: one row of one copy, or one check."""

    id: str
    label: str
    """What it ticks off, for a screen reader: `Left sleeve round 4`."""
    place: int
    """The row of the whole schedule it belongs to."""
    copy: str
    """`left`, `right`, or empty for what is knitted once."""


class Run(NamedTuple):
    """Up to five boxes, so that a place is found without counting."""

    first: str
    """Row number of its first box; empty where the line's own number says it."""
    boxes: tuple[Box, ...]


class Ticks(NamedTuple):
    """The boxes of a line for one copy."""

    copy: str
    name: str
    """`Left`, `Right`, or empty."""
    runs: tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """Rows worked alike, one after another."""

    kind: str
    """`rnd`, `RS`, `WS` or `part`, as the row model has it."""
    first: int
    last: int
    numbers: str
    """`5` or `5–11`."""
    word: str
    """`Round`, `Rounds`, `Row` or `Rows`."""
    side: str
    """`RS` or `WS` for a short row, otherwise empty."""
    yarn: str
    """The yarn in hand, where the section has several and the row itself names none."""
    what: str
    count: int
    delta: str
    """`+56` or `−4` when the row changes the count; otherwise empty."""
    why: str
    ticks: tuple[Ticks, ...]
    stitches: int
    """Stitches worked in one row of one copy: how much a tick counts for."""
    so_far: str
    """Where the knitter stands after it: `row 37 of 309 · 18 % done`."""
    is_single: bool
    """One row, with one box for each copy."""
    is_many: bool
    """More boxes than a column holds: they stand under the words."""
    hands: tuple[Colour, ...]
    """In a band, the yarns in hand with their letters; elsewhere nothing."""
    is_line: bool = True
    is_halt: bool = False


class Halt(NamedTuple):
    """A check between two rows."""

    kind: str
    """`count`, `measure`, `try-on`, `look` or `weigh`."""
    word: str
    title: str
    """Empty where the word says it."""
    text: str
    ticks: tuple[Ticks, ...]
    after: int
    """The row of the section after which it stands."""
    blanks: tuple[str, ...] = ()
    """What is to be written down there: `MC`, with room for its grams."""
    is_line: bool = False
    is_halt: bool = True


class Note(NamedTuple):
    """From the next row on: another needle, a new ball, two lots in turn."""

    kind: str
    """`needle`, `ball`, `lots`, `end` (of the yarn) or `pattern`."""
    word: str
    number: int
    """The row of the section before which it stands."""
    text: str
    is_line: bool = False
    is_halt: bool = False


Item: TypeAlias = Line | Halt | Note


class Block(NamedTuple):
    """Items that stand together on the page: a stretch of plain rounds, or a band."""

    items: tuple[Item, ...]
    columns: int
    """Of its table."""
    part: ChartPart | None = None
    """The chart of the band, or as much of it as belongs to these rounds."""
    ahead: tuple[Halt, ...] = ()
    """What to look at before the band,"""
    behind: tuple[Halt, ...] = ()
    """and after it."""
    look: str = ""
    """Words for the style sheet: `few` boxes in a row or `more`, yarns only `lettered`."""


class SectionView(NamedTuple):
    """One section of the rounds."""

    key: str
    title: str
    row_word: str
    """Head of the column of numbers: `Round` or `Row`."""
    start: int
    copies: tuple[str, ...]
    """`left` and `right`, or nothing."""
    copy_names: tuple[str, ...]
    """Heads of the columns of boxes: `Left` and `Right`, or `Tick`."""
    rows: str
    """`rows 22–102 of 309`."""
    begins: str
    """`108 sts at the start`; empty where nothing is on the needle yet."""
    yarn: str
    """Which yarn, and how much of it."""
    intro: tuple[str, ...]
    items: tuple[Item, ...]
    blocks: tuple[Block, ...]
    """The same items, as they stand together on the page."""
    done: str
    """`Row 102 of 309. 41 % of all stitches are knitted.`"""
