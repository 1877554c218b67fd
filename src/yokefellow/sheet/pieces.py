"""The sheet as frozen values, ready-made strings for every format; nothing is computed from them.

`yokefellow.sheet.view.view` makes them from a plan. The templates and the
other formats only put them in order: each format tells the same numbers.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from yokefellow.notation.abbreviations import Abbreviation
from yokefellow.sheet.colourwork import Above, ChartPart, ChartView, Colour

__all__ = [
    "Before",
    "Block",
    "Box",
    "Caution",
    "CountOf",
    "Dimension",
    "Drawing",
    "Filled",
    "Glance",
    "Halt",
    "Item",
    "Label",
    "Line",
    "NeedleNote",
    "NeedleUse",
    "Path",
    "Residual",
    "Run",
    "SavingLine",
    "SectionView",
    "Sheet",
    "Ticks",
    "YarnLine",
    "YarnView",
]


@dataclass(frozen=True, slots=True)
class Box:
    """One tick box: one row of one copy, or one check."""

    id: str
    label: str
    """What it ticks off, for a screen reader: `Left sleeve round 4`."""
    place: int
    """The row of the whole schedule it belongs to."""
    copy: str
    """`left`, `right`, or empty for what is knitted once."""


@dataclass(frozen=True, slots=True)
class Run:
    """Up to five boxes, so that a place is found without counting."""

    first: str
    """Row number of its first box; empty where the line's own number says it."""
    boxes: tuple[Box, ...]


@dataclass(frozen=True, slots=True)
class Ticks:
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


@dataclass(frozen=True, slots=True)
class Halt:
    """A check between two rows."""

    kind: str
    """`count`, `measure`, `try-on` or `look`."""
    word: str
    title: str
    """Empty where the word says it."""
    text: str
    ticks: tuple[Ticks, ...]
    after: int
    """The row of the section after which it stands."""
    is_line: bool = False
    is_halt: bool = True


@dataclass(frozen=True, slots=True)
class NeedleNote:
    """From the next row on, this needle."""

    number: int
    text: str
    is_line: bool = False
    is_halt: bool = False


Item: TypeAlias = Line | Halt | NeedleNote


@dataclass(frozen=True, slots=True)
class Block:
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


@dataclass(frozen=True, slots=True)
class SectionView:
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
    """`begins with 108 stitches`; empty where nothing is on the needle yet."""
    yarn: str
    """Which yarn, and how much of it."""
    intro: tuple[str, ...]
    items: tuple[Item, ...]
    blocks: tuple[Block, ...]
    """The same items, as they stand together on the page."""
    done: str
    """`Row 102 of 309. 41 % of all stitches are knitted.`"""


@dataclass(frozen=True, slots=True)
class Dimension:
    """One measure of the sweater beside the body's."""

    key: str
    letter: str
    place: str
    body: str
    body_of: str
    """Which measure of the body it is, where the place does not say it."""
    filled: bool
    """The body's number comes from a sizing table, not from the knitter."""
    ease: str
    finished: str
    counted: str
    """`270 stitches`, `81 rounds`."""
    body_cm: float | None
    ease_cm: float | None
    finished_cm: float
    count: int


@dataclass(frozen=True, slots=True)
class YarnLine:
    """An amount of yarn and what it is for."""

    key: str
    what: str
    length: str
    weight: str
    balls: str
    length_m: float
    weight_g: float
    ball_count: float


@dataclass(frozen=True, slots=True)
class YarnView:
    """One yarn: what the sweater takes of it, and what there is."""

    code: str
    name: str
    lines: tuple[YarnLine, ...]
    verdict_key: str
    """`enough`, `close` or `short`."""
    verdict: str


@dataclass(frozen=True, slots=True)
class SavingLine:
    """What one length modification saves, or costs."""

    key: str
    what: str
    """`Sleeves 8 in instead of 17 in`."""
    saves: str
    """`saves` or `costs`."""
    amount: str
    stitches: int
    length_m: float
    weight_g: float
    ball_count: float


@dataclass(frozen=True, slots=True)
class CountOf:
    """One of the counts the sweater stands on."""

    letter: str
    count: int
    what: str


@dataclass(frozen=True, slots=True)
class NeedleUse:
    """A needle and the row from which it is used."""

    where: str
    needle: str


@dataclass(frozen=True, slots=True)
class Glance:
    """The sweater at a glance."""

    dimensions: tuple[Dimension, ...]
    any_filled: bool
    gauge: tuple[str, ...]
    yarns: tuple[YarnView, ...]
    needles: tuple[NeedleUse, ...]
    savings: tuple[SavingLine, ...]
    counts: tuple[CountOf, ...]
    equation: str
    equation_in_numbers: str


@dataclass(frozen=True, slots=True)
class Caution:
    """A finding of the plan."""

    code: str
    severity: str
    word: str
    """`Caution` or `Note`."""
    field: str
    message: str
    remedy: str


@dataclass(frozen=True, slots=True)
class Before:
    """What to look at before casting on."""

    swatch: tuple[str, ...]
    cautions: tuple[Caution, ...]
    safety: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Filled:
    """A measure that was not taken, and where its number comes from."""

    key: str
    place: str
    value: str
    spread: str
    source: str
    cm: float


@dataclass(frozen=True, slots=True)
class Residual:
    """What was wanted and what whole stitches and rounds give."""

    place: str
    wanted: str
    got: str
    difference: str
    counted: str


@dataclass(frozen=True, slots=True)
class Path:
    """A line of the drawing: its class and its `d`."""

    style: str
    d: str


@dataclass(frozen=True, slots=True)
class Label:
    """A letter of the drawing in its ring."""

    letter: str
    x: str
    y: str
    baseline: str


@dataclass(frozen=True, slots=True)
class Drawing:
    """The schematic: every coordinate a ready-made string."""

    view_box: str
    ring: str
    """Radius of the rings."""
    paths: tuple[Path, ...]
    labels: tuple[Label, ...]
    title: str
    description: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """The whole sheet in reading order."""

    title: str
    wearer: str
    subtitle: str
    key: str
    paper: str
    """`A4` or `letter`, as CSS names it."""
    large: bool
    unit: str
    total_rows: int
    total_stitches: int
    glance: Glance
    drawing: Drawing
    above: Above | None
    """The yoke from above; nothing where there are no bands."""
    charts: tuple[ChartView, ...]
    before: Before
    sections: tuple[SectionView, ...]
    finishing: tuple[tuple[str, tuple[str, ...]], ...]
    """Headings with their paragraphs."""
    abbreviations: tuple[Abbreviation, ...]
    filled: tuple[Filled, ...]
    assumed: tuple[str, ...]
    residuals: tuple[Residual, ...]
