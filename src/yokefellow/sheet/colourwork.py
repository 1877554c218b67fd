"""The colour bands as frozen values: charts and the yoke from above, every string ready made."""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple

__all__ = [
    "PLACES",
    "Above",
    "BandRow",
    "ChartCell",
    "ChartDrawing",
    "ChartPart",
    "ChartRowView",
    "ChartView",
    "Colour",
    "Fill",
    "Mark",
    "Ring",
    "Sign",
    "Spot",
]


class Colour(NamedTuple):
    """One yarn of the bands."""

    code: str
    """`MC`, `CC1`, ..."""
    letter: str
    """`A`, `B`, ... in the charts: read without colours, in any print."""
    shade: str
    """Its colour or name, in the knitter's own words; empty where there are none."""


class ChartCell(NamedTuple):
    """One square of a chart."""

    letter: str
    code: str
    work: str
    """`knit`, `purl`, `slip` or `make`."""


class ChartRowView(NamedTuple):
    """One line of a chart as drawn: the rounds that are worked from it."""

    first: int
    """Its first row in the section,"""
    last: int
    """and its last."""
    numbers: str
    """`21–22`."""
    hand: str
    """Letter of the one yarn in hand; empty in a stranded chart."""
    cells: tuple[ChartCell | None, ...]
    """As wide as the widest row; None where no stitch is yet."""
    words: str
    """`2 B, 2 A slipped`."""
    text: str
    """The row in characters as it is drawn: `AvAvB B `, its first stitch at the arrow."""


class Sign(NamedTuple):
    """A sign of the trade in a chart, and what it means."""

    work: str
    sign: str
    """As the text format has it."""
    words: str


PLACES = MappingProxyType(
    {"yoke": "on the yoke", "body": "on the body", "sleeve": "on each sleeve"}
)
"""Where a band lies, by its section."""


class ChartView(NamedTuple):
    """The chart of one band, at its place in its section."""

    number: int
    """The band's, from 1."""
    section: str
    """`yoke`, `body` or `sleeve`."""
    name: str
    kind: str
    first: int
    """Its first row in the section,"""
    last: int
    """and its last."""
    repeats: int
    first_width: int
    last_width: int
    times: int
    """Rounds worked from each line."""
    colours: tuple[Colour, ...]
    rows: tuple[ChartRowView, ...]
    signs: tuple[Sign, ...]
    title: str
    """`Chart of band 1, pebbles: mosaic, 4 stitches and 6 rounds`."""
    counted: str
    """`57 repeats of 4`, or `57 repeats of 4, growing to 6`."""
    as_it_hangs: bool
    """Drawn from the top down and from left to right, not as worked on the needle."""
    reading: str
    """How it is read, in a sentence or two."""
    description: str
    """Every row in words, for those who do not see it."""


class Fill(NamedTuple):
    """All squares of one colour, as one path."""

    letter: str
    tint: str
    d: str


class Mark(NamedTuple):
    """A round number, or a ring with a number in it."""

    text: str
    x: str
    y: str
    baseline: str


class ChartDrawing(NamedTuple):
    """A chart, or a part of it: every coordinate a ready-made string."""

    view_box: str
    size: str
    """`s`, `m` or `l` beside its rounds; `xl` or `xxl` above them."""
    fills: tuple[Fill, ...]
    """The squares of the repeat, and of the yarn in hand,"""
    ghosts: tuple[Fill, ...]
    """and of the repeats on either side."""
    empty: str
    """Squares where no stitch is."""
    grid: str
    hands: str
    """Frames of the squares that name the yarn in hand."""
    outline: str
    """Round one repeat."""
    letters: str
    signs: str
    dots: str
    """Purls,"""
    ghost_dots: str
    """and those of the repeats on either side."""
    arrows: str
    numbers: tuple[Mark, ...]
    anchor: str
    """On which side of its place a round number ends: `end` or `start`."""
    columns: tuple[Mark, ...]
    """Numbers of the first and the last stitch of the repeat, and of every tenth."""


class ChartPart(NamedTuple):
    """A chart, or as much of it as stands on one page with its rounds."""

    chart: ChartView
    rows: tuple[ChartRowView, ...]
    drawing: ChartDrawing
    id: str
    part: str
    """`part 1 of 2`; empty where the chart is whole."""
    is_first: bool


class BandRow(NamedTuple):
    """A band in the list beside the yoke seen from above."""

    number: str
    name: str
    counted: str
    where: str
    """`rounds 21–26 of the yoke, 82.9 cm round`."""


class Ring(NamedTuple):
    """The stitches of one colour in a row of the yoke, repeated all round by its dashes."""

    letter: str
    tint: str
    d: str
    """Once round, from the centre back."""
    width: str
    dashes: str
    """Stitches and gaps of one repeat, along the line; empty where the row has one colour."""
    offset: str


class Spot(NamedTuple):
    """A word in the picture."""

    text: str
    x: str
    y: str
    turn: str
    """Degrees by which it is turned about this place."""


class Above(NamedTuple):
    """The yoke seen from above: every coordinate a ready-made string."""

    view_box: str
    badge: str
    """Radius of the rings round the numbers of the bands."""
    edges: tuple[str, ...]
    """The neck and the underarm,"""
    rounds: str
    """the increase rounds, or the lines of a raglan,"""
    dashed: str
    """and which of the two, in words;"""
    parts: str
    """where body and sleeves will part,"""
    beginning: str
    """and the beginning of the round."""
    rings: tuple[Ring, ...]
    """The rows of the bands: each whole in its commonest colour, the others dashed on top."""
    rims: str
    """The edges of the bands."""
    leaders: str
    marks: tuple[Mark, ...]
    spots: tuple[Spot, ...]
    bands: tuple[BandRow, ...]
    colours: tuple[Colour, ...]
    title: str
    description: str
