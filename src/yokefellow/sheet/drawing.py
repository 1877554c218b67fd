"""The schematic: the sweater from the front, to scale, with letters for its measures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from math import dist
from typing import NamedTuple, TypeAlias

from yokefellow.plan import Plan
from yokefellow.shaping import ROLL_SHOWS_CM, RaglanShape, Shape
from yokefellow.sheet.lettering import places
from yokefellow.sheet.outline import DOWN_ARM, Outline, Point, along, outline
from yokefellow.sheet.pieces import Dimension, Drawing, Label, Path

__all__ = [
    "MARGIN",
    "NARROWS",
    "WIDE",
    "Paper",
    "drawing",
    "front_edge",
    "mirror",
    "shoulder_of",
    "yoke_words",
]

WIDE = 1000.0
"""Width of the picture in its own units; the height follows."""
MARGIN = 30.0
RING = 23.0
"""Radius of the ring round a letter."""
GAP = 3.0
"""Between two rings at the least."""
TICK = 9.0
"""Half the stroke across each end of a dimension line."""
RIB_CM = 1.1
"""Between two lines of rib."""
GARTER_CM = 0.7
"""Between two ridges of garter stitch."""
FOLD_CM = 0.3
"""From a fold to the line that marks it."""


class Paper(NamedTuple):
    """From cm on the sweater to the units of the picture."""

    scale: float
    left: float
    top: float

    def at(self, point: Point) -> Point:
        """Give the place of a point in the picture."""
        return MARGIN + (point[0] - self.left) * self.scale, (
            MARGIN + (point[1] - self.top) * self.scale
        )

    def spot(self, point: Point) -> str:
        """Write it as a path does."""
        x, y = self.at(point)
        return f"{x:.1f} {y:.1f}"

    def line(self, points: Iterable[Point], *, closed: bool = False) -> str:
        """Draw straight from point to point."""
        return "M" + " L".join(self.spot(point) for point in points) + ("Z" if closed else "")

    def curve(self, start: Point, through: Point, end: Point) -> str:
        """Draw a curve that passes `through` half-way."""
        pull = tuple(2 * t - (s + e) / 2 for s, t, e in zip(start, through, end, strict=True))
        return f"M{self.spot(start)} Q{self.spot((pull[0], pull[1]))} {self.spot(end)}"


def drawing(plan: Plan, dimensions: tuple[Dimension, ...]) -> Drawing:
    """Draw the sweater, with the letters of the dimensions it can show."""
    o = outline(plan.shape)
    paper, height = _paper(o)
    letters = {dimension.key: dimension.letter for dimension in dimensions}
    marks = tuple(mark for mark in _marks(o) if mark.key in letters)
    listed = ", ".join(f"{d.letter}: {d.place.lower()} {d.finished}" for d in dimensions)
    return Drawing(
        view_box=f"0 0 {WIDE:.0f} {height:.0f}",
        ring=f"{RING:.0f}",
        paths=(
            *_sweater(paper, o, plan.shape),
            *(Path("measure", _mark(paper, mark)) for mark in marks),
        ),
        labels=tuple(_labels(paper, marks, letters)),
        dashed="the lines of the raglan" if o.line else "the increase rounds of the yoke",
        title="The sweater from the front, laid flat, drawn to scale",
        description=f"A pullover with {yoke_words(plan)}. {listed}.",
    )


def yoke_words(plan: Plan) -> str:
    """Name the yoke inside a sentence."""
    return "a raglan yoke" if isinstance(plan.shape.yoke, RaglanShape) else "a round yoke"


def _paper(o: Outline) -> tuple[Paper, float]:
    points = (*o.outer, *o.cuff, *o.body, *o.hem, o.sleeve_top)
    right = max(x for x, _ in points) + 0.5
    top = -max(0.0, o.rise) - o.band - 0.5
    bottom = max(y for _, y in points) + 0.5
    scale = (WIDE - 2 * MARGIN) / (2 * right)
    # Room above for the letters of the neck.
    paper = Paper(scale, -right, top - 2 * RING / scale)
    return paper, 2 * MARGIN + (bottom - paper.top) * scale


def mirror(point: Point) -> Point:
    """Give the same point of the other half."""
    return -point[0], point[1]


def _both(paper: Paper, style: str, points: tuple[Point, ...]) -> Iterator[Path]:
    yield Path(style, paper.line(points))
    yield Path(style, paper.line(map(mirror, points)))


def _sweater(paper: Paper, o: Outline, shape: Shape) -> Iterator[Path]:
    neck: Point = (o.neck, 0.0)
    top: Point = (o.neck * NARROWS, -o.band)
    inside = paper.curve(mirror(top), (0, -o.rise - o.band), top)
    front_top = front_edge(paper, o, above=True, backwards=True).replace("M", "L", 1)
    yield Path("inside", f"{inside} {front_top}Z")
    for start, end in o.bands:
        upper = _across(paper, o, start)
        lower = _across(paper, o, end, backwards=True).replace("M", "L", 1)
        yield Path("band", f"{upper} {lower}Z")
    yield from _bands_below(paper, o)
    shoulder = shoulder_of(o)
    for sign in (1, -1):
        side = [(sign * x, y) for x, y in (neck, shoulder, o.sleeve_top)]
        yield Path("edge", paper.curve(*side))
    yield from _both(paper, "edge", (*o.outer, o.cuff[0], o.cuff[1], *reversed(o.inner)))
    yield from _both(paper, "edge", (*o.body, *o.hem))
    yield Path("edge", paper.line((mirror(o.hem[-1]), o.hem[-1])))
    yield from _both(paper, "edge", (neck, top))
    yield Path("edge", front_edge(paper, o))
    yield Path("edge", paper.curve(mirror(top), (0, -o.rise - o.band), top))
    yield Path("edge", front_edge(paper, o, above=True))
    yield from _folds(paper, o)
    yield Path("rib", " ".join(_edge_marks(paper, o, shape)))


NARROWS = 0.94
"""A neckband is so much narrower at its edge."""


def front_edge(paper: Paper, o: Outline, *, above: bool = False, backwards: bool = False) -> str:
    """Draw the front of the neck from the left of the picture, or the edge of its band above it."""
    narrow, up = (NARROWS, o.band) if above else (1.0, 0.0)
    if not o.neckline:
        end: Point = (o.neck * narrow, -up)
        ends = (end, mirror(end)) if backwards else (mirror(end), end)
        return paper.curve(ends[0], (0, o.dip - up), ends[1])
    right = [(x * narrow, y - up) for x, y in o.neckline]
    points = [*map(mirror, right), *reversed(right)]
    return paper.line(reversed(points) if backwards else points)


def _sag(o: Outline, across: float) -> float:
    """Tell how deep the front of the neck lies, at a share of the way from its middle to a side."""
    if not o.neckline:
        return o.dip * (1 - across * across)
    at = abs(across) * o.neck
    for (out, above), (inward, below) in pairwise(o.neckline):
        if inward <= at <= out:
            way = (out - at) / (out - inward) if out > inward else 1.0
            return above + way * (below - above)
    return 0.0


def _bands_below(paper: Paper, o: Outline) -> Iterator[Path]:
    for upper, lower in o.body_bands:
        corners = (mirror(upper), upper, lower, mirror(lower))
        yield Path("band", paper.line(corners, closed=True))
    for corners in o.sleeve_bands:
        yield Path("band", paper.line(corners, closed=True))
        yield Path("band", paper.line(map(mirror, corners), closed=True))


def shoulder_of(o: Outline) -> Point:
    """A point half-way from neck to sleeve, lifted a little: shoulders are round."""
    way_x = (o.neck + o.sleeve_top[0]) / 2
    return way_x + 0.02 * o.depth, o.sleeve_top[1] / 2 - 0.07 * o.depth


def _on_shoulder(o: Outline, share: float) -> Point:
    """Give the point at a share of the shoulder's curve."""
    start, end = (o.neck, 0.0), o.sleeve_top
    through = shoulder_of(o)
    pull = [2 * t - (s + e) / 2 for s, t, e in zip(start, through, end, strict=True)]
    back = 1 - share
    x, y = (
        back * back * s + 2 * back * share * p + share * share * e
        for s, p, e in zip(start, pull, end, strict=True)
    )
    return x, y


def _across(paper: Paper, o: Outline, share: float, *, backwards: bool = False) -> str:
    """Draw a round of the yoke over the front, from the left of the picture to the right."""
    end = _on_shoulder(o, share)
    middle = (0.0, o.dip + share * o.depth)
    return paper.curve(*((end, middle, mirror(end)) if backwards else (mirror(end), middle, end)))


def _folds(paper: Paper, o: Outline) -> Iterator[Path]:
    """Draw the increase rounds or the raglan lines, the split, and where the ribs begin."""
    for share in o.rounds:
        yield Path("round", _across(paper, o, share))
    if o.line:
        yield from _both(paper, "round", o.line)
    yield Path("split", paper.line((mirror(o.underarm), o.underarm)))
    yield from _both(paper, "split", (o.underarm, o.sleeve_top))
    yield Path("split", paper.line((mirror(o.body[-1]), o.body[-1])))
    yield from _both(paper, "split", (o.outer[-1], o.inner[-1]))


def _edge_marks(paper: Paper, o: Outline, shape: Shape) -> Iterator[str]:
    """Draw what tells the fabric of each edge."""
    (x, top), (_, bottom) = o.hem
    hem = (((-x, top), (x, top)), ((-x, bottom), (x, bottom)))
    for start, end in _texture(shape.body.hem.finish, *hem):
        yield paper.line((start, end))
    cuff = ((o.inner[-1], o.outer[-1]), (o.cuff[1], o.cuff[0]))
    for start, end in _texture(shape.sleeve.cuff.finish, *cuff):
        yield paper.line((start, end))
        yield paper.line((mirror(start), mirror(end)))
    if shape.neck.band.finish == "rib":
        yield from _neck_ribs(paper, o)
        return
    for share in _across_at(shape.neck.band.finish, o.band):
        half, up = o.neck * (0.94 + 0.06 * share), o.band * (1 - share)
        yield paper.curve((-half, -up), (0, o.dip - up), (half, -up))


_Side: TypeAlias = tuple[Point, Point]


def _texture(finish: str, above: _Side, below: _Side) -> Iterator[_Side]:
    """Give the strokes of an edge between the line where it begins and the one where it ends."""
    if finish == "rib":
        lines = max(3, round(dist(*above) / RIB_CM))
        for step in range(1, lines):
            yield _between(*above, step / lines), _between(*below, step / lines)
        return
    for share in _across_at(finish, dist(above[0], below[0])):
        yield _between(below[0], above[0], share), _between(below[1], above[1], share)


def _across_at(finish: str, deep_cm: float) -> Iterator[float]:
    """Give where strokes go across an edge, as shares of its depth from the free side."""
    if finish == "garter":
        lines = max(2, round(deep_cm / GARTER_CM))
        yield from (step / lines for step in range(1, lines))
    elif finish == "rolled":
        yield min(0.5, ROLL_SHOWS_CM / deep_cm)
    elif finish == "folded":
        yield min(0.3, FOLD_CM / deep_cm)


def _neck_ribs(paper: Paper, o: Outline) -> Iterator[str]:
    lines = max(4, round(2 * o.neck / RIB_CM))
    for step in range(1, lines):
        across = -1 + 2 * step / lines
        sag = _sag(o, across)
        yield paper.line(((o.neck * across, sag), (o.neck * NARROWS * across, sag - o.band)))


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


class _Mark(NamedTuple):
    """A dimension line from one point to another, with its letter at a share of the way."""

    key: str
    start: Point
    end: Point
    at: float = 0.5
    leader: bool = False
    """A line that only points at something, with its letter at its start."""


def _marks(o: Outline) -> Iterator[_Mark]:
    underarm_x, underarm_y = o.underarm
    yield _Mark(
        "neck",
        (o.neck * 1.75, -o.band - max(0.0, o.rise) * 0.6),
        (o.neck * 0.5, _sag(o, 0.5)) if o.neckline else (o.neck * 0.9, o.dip * 0.19),
        leader=True,
    )
    drop_x = -0.3 * o.neck
    yield _Mark("neck_drop", (drop_x, -o.rise), (drop_x, o.dip), 0.5)
    yield _Mark(
        "back_raise",
        (-o.neck * 1.75, -o.band - max(0.0, o.rise) * 0.6),
        (-o.neck * 0.35, -o.rise * 0.88 - o.band * 0.97),
        leader=True,
    )
    yoke_top = -o.rise if o.neckline else o.dip
    yield _Mark("yoke_depth", (0, yoke_top), (0, underarm_y), 0.8 if o.neckline else 0.55)
    armhole_x = -0.55 * underarm_x
    yield _Mark("armhole", (armhole_x, o.shoulder_top), (armhole_x, underarm_y), 0.6)
    down = o.hem[-1][1] - underarm_y
    high_y, chest_y = underarm_y + 0.02 * down, underarm_y + 0.09 * down
    yield _Mark("high_chest", (-underarm_x, high_y), (underarm_x, high_y), 0.74)
    yield _Mark("chest", (-underarm_x, chest_y), (underarm_x, chest_y), 0.26)
    narrow = min(o.body, key=lambda point: point[0])
    yield _Mark("waist", mirror(narrow), narrow, 0.26)
    edge = o.body[-1]
    yield _Mark("edge", (-edge[0], edge[1] - 1.4), (edge[0], edge[1] - 1.4), 0.26)
    length_x = underarm_x * 0.4
    yield _Mark("body_length", (length_x, underarm_y), (length_x, o.hem[-1][1]), 0.5)
    low = along(o.underarm, DOWN_ARM, 1.6)
    yield _Mark("upper_arm", low, along(o.sleeve_top, DOWN_ARM, 1.6), 0.5)
    left_top = mirror(_between(o.inner[0], o.outer[0], 0.5))
    left_end = mirror(_between(*o.cuff, 0.5))
    yield _Mark("sleeve_length", left_top, left_end, 0.55)
    off = 1.5
    yield _Mark("cuff", along(o.cuff[1], DOWN_ARM, off), along(o.cuff[0], DOWN_ARM, off), 0.5)


def _mark(paper: Paper, mark: _Mark) -> str:
    drawn = paper.line((mark.start, mark.end))
    if mark.leader:
        return drawn
    (x1, y1), (x2, y2) = paper.at(mark.start), paper.at(mark.end)
    long = max(1e-6, ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5)
    across_x, across_y = -(y2 - y1) / long * TICK, (x2 - x1) / long * TICK
    ends = " ".join(
        f"M{x - across_x:.1f} {y - across_y:.1f} L{x + across_x:.1f} {y + across_y:.1f}"
        for x, y in ((x1, y1), (x2, y2))
    )
    return f"{drawn} {ends}"


def _labels(paper: Paper, marks: Sequence[_Mark], letters: Mapping[str, str]) -> Iterator[Label]:
    """Put each letter on its line, where it covers no other one."""
    lines = [
        (paper.at(mark.start), paper.at(mark.start if mark.leader else mark.end), mark.at)
        for mark in marks
    ]
    spots = places(lines, apart=2 * RING + GAP)
    for mark, (x, y) in zip(marks, spots, strict=True):
        yield Label(letters[mark.key], f"{x:.1f}", f"{y:.1f}", f"{y + 0.36 * RING:.1f}")
