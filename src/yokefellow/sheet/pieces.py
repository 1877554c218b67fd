"""The sheet as frozen values, ready-made strings for every format; nothing is computed from them.

`yokefellow.sheet.view.view` makes them from a plan. The templates and the
other formats only put them in order: each format tells the same numbers.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from yokefellow.notation.abbreviations import Abbreviation
from yokefellow.project_file.models import Printed
from yokefellow.sheet.colourwork import Above, ChartView
from yokefellow.sheet.fit_pieces import FitView
from yokefellow.sheet.lines import SectionView
from yokefellow.sheet.pattern_pieces import PatternView
from yokefellow.sheet.yarn_pieces import OtherLengths, SavingLine, YarnView

__all__ = [
    "Before",
    "Caution",
    "CountOf",
    "Dimension",
    "Drawing",
    "Filled",
    "Glance",
    "Label",
    "NeedleUse",
    "Path",
    "RaglanView",
    "RateView",
    "Residual",
    "Sheet",
    "YokePiece",
]


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
class CountOf:
    """One of the counts the sweater stands on."""

    letter: str
    count: int
    what: str


class NeedleUse(NamedTuple):
    """A needle and the row from which it is used."""

    where: str
    needle: str


@dataclass(frozen=True, slots=True)
class RateView:
    """Every so many rounds, so many times."""

    every: int
    times: int


@dataclass(frozen=True, slots=True)
class YokePiece:
    """Back, front or each sleeve of a raglan."""

    name: str
    neck: int
    """Stitches at the neck,"""
    underarm: int
    """and at the end of the yoke."""
    rates: tuple[RateView, ...]


@dataclass(frozen=True, slots=True)
class RaglanView:
    """A raglan yoke in figures."""

    line_width: int
    line_increase: str
    pieces: tuple[YokePiece, ...]
    armhole_cm: float


class Glance(NamedTuple):
    """The sweater at a glance."""

    dimensions: tuple[Dimension, ...]
    any_filled: bool
    gauge: tuple[str, ...]
    yarns: tuple[YarnView, ...]
    needles: tuple[NeedleUse, ...]
    savings: tuple[SavingLine, ...]
    counts: tuple[CountOf, ...]
    equation: str
    equation_in_words: str
    equation_in_numbers: str


class Caution(NamedTuple):
    """A finding of the plan."""

    code: str
    severity: str
    word: str
    """`Caution` or `Note`."""
    field: str
    where: str
    """Where that is in the project file, in words; empty where it is no field."""
    message: str
    remedy: str


class Materials(NamedTuple):
    """What to have and to know before casting on."""

    skills: str
    notions: tuple[str, ...]
    notes: tuple[str, ...]


class Before(NamedTuple):
    """What to look at before casting on."""

    swatch: tuple[str, ...]
    cautions: tuple[Caution, ...]
    safety: tuple[str, ...]


class Filled(NamedTuple):
    """A measure that was not taken, and where its number comes from."""

    key: str
    place: str
    value: str
    spread: str
    source: str
    cm: float


class Residual(NamedTuple):
    """What was wanted and what whole stitches and rounds give."""

    place: str
    wanted: str
    got: str
    difference: str
    counted: str


class Path(NamedTuple):
    """A line of the drawing: its class and its `d`."""

    style: str
    d: str


class Label(NamedTuple):
    """A letter of the drawing in its ring."""

    letter: str
    x: str
    y: str
    baseline: str


class Drawing(NamedTuple):
    """The schematic: every coordinate a ready-made string."""

    view_box: str
    ring: str
    """Radius of the rings."""
    paths: tuple[Path, ...]
    labels: tuple[Label, ...]
    dashed: str
    """What the dashed lines are."""
    title: str
    description: str


class Sheet(NamedTuple):
    """The whole sheet in reading order."""

    title: str
    wearer: str
    subtitle: str
    key: str
    paper: str
    """`A4` or `letter`, as CSS names it."""
    large: bool
    printed: Printed
    """Which parts of it stand on the page."""
    unit: str
    total_rows: int
    total_stitches: int
    glance: Glance
    pattern: PatternView | None
    """What is followed of a pattern; nothing where there is none."""
    fit: FitView
    others: OtherLengths | None
    """What other lengths would take; nothing unless it was asked."""
    raglan: RaglanView | None
    """Nothing for a circular yoke."""
    drawing: Drawing
    above: Above | None
    """The yoke from above; nothing where there are no bands."""
    charts: tuple[ChartView, ...]
    materials: Materials
    before: Before
    sections: tuple[SectionView, ...]
    finishing: tuple[tuple[str, tuple[str, ...]], ...]
    """Headings with their paragraphs."""
    abbreviations: tuple[Abbreviation, ...]
    filled: tuple[Filled, ...]
    assumed: tuple[str, ...]
    residuals: tuple[Residual, ...]
