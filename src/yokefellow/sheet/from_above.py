"""The yoke seen from above: neck, bands and underarm as rings, every repeat in its place.

The rings of the neck and of the underarm have the size of their stitches. The
rounds between are spread evenly over the depth, as the yoke lies when its
fabric evens out; in the rows the circle widens in steps. The back is above.
Worked from the top, a round runs from the centre back to the wearer's right,
over the front to the left: against the clock, as seen from above.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from yokefellow.plan import Plan
from yokefellow.quantities import length
from yokefellow.shaping import AnyYoke, RaglanShape
from yokefellow.sheet.charting import charts
from yokefellow.sheet.colourwork import Above, BandRow, ChartRowView, ChartView, Mark, Ring, Spot
from yokefellow.sheet.tints import PURL_TINT, TINTS, colours

__all__ = ["from_above"]

HALF = 1000
"""Half the width of the picture, in its own units."""
OUTER = 860
"""Radius of the underarm."""
BADGE = 48
"""Radius of the ring round the number of a band."""
LAP = 1.0
"""By which rings overlap, so that no paper shines through."""

_KAPPA = 4 / 3 * (2**0.5 - 1)
"""How far the handles of a quarter circle reach, in radii."""

_FEW = 8
_NUMBERS_FEW, _NUMBERS_MANY = (0.555, 0.7), (0.53, 0.97)
"""Between which shares of the round the numbers of a few or of many bands stand."""


class _Paper(NamedTuple):
    """From rounds and shares of a round to the units of the picture."""

    neck: float
    """Radius of the neck."""
    rounds: int

    def radius(self, number: float) -> float:
        """Give the radius after so many rounds."""
        return self.neck + (OUTER - self.neck) * number / self.rounds


def _spot(radius: float, share: float) -> tuple[float, float]:
    """Give the point at a share of the round, from the centre back against the clock."""
    angle = 2 * math.pi * share
    return HALF - radius * math.sin(angle), HALF - radius * math.cos(angle)


def _n(value: float) -> str:
    return f"{value:.1f}".rstrip("0").rstrip(".")


def _circle(radius: float) -> str:
    """Go once round, from the centre back against the clock.

    In four curves that leave the circle by less than 0.03 %, the same in every
    program that draws them: the dashes of the rings are measured along them.
    """
    r, k = radius, radius * _KAPPA
    steps = ((-k, 0, -r, r - k, -r, r), (0, k, r - k, r, r, r))
    quarters = (*steps, *(tuple(-step for step in quarter) for quarter in steps))
    curves = (f"c{' '.join(map(_n, quarter))}" for quarter in quarters)
    return f"M{HALF} {_n(HALF - radius)}{''.join(curves)}"


def _spoke(start: float, end: float, share: float) -> str:
    (x1, y1), (x2, y2) = _spot(start, share), _spot(end, share)
    return f"M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}"


def from_above(plan: Plan) -> Above | None:
    """Draw the yoke from above; nothing when it has no band."""
    bands = tuple(chart for chart in charts(plan) if chart.section == "yoke")
    if not bands:
        return None
    shape = plan.shape
    whole_cm = shape.split.yoke / plan.gauges.plain.stitches_per_cm
    neck = min(OUTER * shape.neck.stitches.cm / whole_cm, 0.8 * OUTER)
    paper = _Paper(neck, shape.yoke.rounds.got)
    rows = tuple(_list(plan, bands))
    used = {colour.code for band in bands for colour in band.colours}
    return Above(
        view_box=f"0 0 {2 * HALF} {2 * HALF}",
        badge=f"{BADGE}",
        edges=(_circle(neck), _circle(OUTER)),
        rounds=_increases(paper, shape.yoke),
        dashed="the lines of the raglan"
        if isinstance(shape.yoke, RaglanShape)
        else "the increase rounds",
        parts="".join(_spoke(OUTER, OUTER + 40, share) for share in _part_shares(plan)),
        beginning=_spoke(neck - 70, OUTER + 40, 0),
        rings=tuple(ring for band in bands for ring in _rings(paper, band)),
        rims="".join(
            _circle(paper.radius(number)) for b in bands for number in (b.first - 1, b.last)
        ),
        leaders="".join(
            _spoke(_middle(paper, band), OUTER + 30, share) for band, share in _shares(bands)
        ),
        marks=tuple(
            _mark(band.number, _spot(OUTER + 30 + BADGE, share)) for band, share in _shares(bands)
        ),
        spots=_spots(neck),
        bands=rows,
        colours=tuple(colour for colour in colours(plan).values() if colour.code in used),
        title=f"The yoke seen from above, with {len(bands)} "
        f"colour band{'s' if len(bands) > 1 else ''} and their repeats, drawn to scale",
        description="The back is above, the front below. "
        + " ".join(f"{row.number}: {row.name}, {row.counted}, {row.where}." for row in rows),
    )


def _increases(paper: _Paper, yoke: AnyYoke) -> str:
    """Draw the increase rounds of a circular yoke as rings, and a raglan's lines from the neck."""
    if not isinstance(yoke, RaglanShape):
        return "".join(_circle(paper.radius(step.number)) for step in yoke.increase_rounds)
    numbers = (0, *(step.number for step in yoke.increase_rounds))
    corners = [(paper.radius(number), _corner_shares(yoke, number)) for number in numbers]
    lines = ("L".join(_at(radius, shares[line]) for radius, shares in corners) for line in range(4))
    return "".join(f"M{line}" for line in lines)


def _at(radius: float, share: float) -> str:
    x, y = _spot(radius, share)
    return f"{_n(x)} {_n(y)}"


def _corner_shares(yoke: RaglanShape, number: int) -> tuple[float, ...]:
    """Tell at which shares of a round the four lines stand."""
    back, sleeve, front = (
        piece.stitches_at(number) for piece in (yoke.back, yoke.sleeve, yoke.front)
    )
    half, whole = back // 2, yoke.stitches_at(number)
    ends = (half, half + sleeve, half + sleeve + front, half + 2 * sleeve + front)
    return tuple(stitch / whole for stitch in ends)


def _rings(paper: _Paper, band: ChartView) -> Iterator[Ring]:
    """Draw the rows of a band, those alike as one."""
    for _, alike in groupby(band.rows, key=_stitches):
        rows = tuple(alike)
        inner, outer = paper.radius(rows[0].first - 1), paper.radius(rows[-1].last)
        yield from _row(band, rows[0], inner, outer)


def _stitches(row: ChartRowView) -> tuple[str, ...]:
    """Give the colours of one repeat, stitch by stitch; purls as a colour of their own."""
    return tuple(
        "purl" if cell.work == "purl" else cell.letter for cell in row.cells if cell is not None
    )


def _row(band: ChartView, row: ChartRowView, inner: float, outer: float) -> Iterator[Ring]:
    stitches = _stitches(row)
    radius = (inner + outer) / 2
    stitch = 2 * math.pi * radius / (band.repeats * len(stitches))
    for place, (letter, _) in enumerate(Counter(stitches).most_common()):
        # The commonest colour comes first, and whole: the others lie on it.
        dashes, start = _dashes(stitches, letter) if place else ((), 0)
        yield Ring(
            letter,
            PURL_TINT if letter == "purl" else TINTS[letter],
            _circle(radius),
            _n(outer - inner + LAP),
            " ".join(f"{count * stitch:.3f}" for count in dashes),
            f"{(len(stitches) - start) * stitch:.3f}" if start else "",
        )


def _dashes(stitches: tuple[str, ...], letter: str) -> tuple[tuple[int, ...], int]:
    """Give the runs with and without a colour by turns, and where the first of them begins."""
    shown = [stitch == letter for stitch in stitches]
    start = next(n for n, here in enumerate(shown) if here and not shown[n - 1])
    turned = (*shown[start:], *shown[:start])
    return tuple(sum(1 for _ in run) for _, run in groupby(turned)), start


def _part_shares(plan: Plan) -> tuple[float, ...]:
    """Tell at which shares of the round body and sleeves will part."""
    split = plan.shape.split
    half = split.back // 2
    first, front = half + split.held, half + split.held + split.front
    return tuple(stitch / split.yoke for stitch in (half, first, front, front + split.held))


def _middle(paper: _Paper, band: ChartView) -> float:
    return paper.radius((band.first - 1 + band.last) / 2)


def _shares(bands: Sequence[ChartView]) -> Iterator[tuple[ChartView, float]]:
    first, last = _NUMBERS_FEW if len(bands) <= _FEW else _NUMBERS_MANY
    for place, band in enumerate(bands):
        yield band, first + (last - first) * (place + 0.5) / len(bands)


def _mark(number: int, at: tuple[float, float]) -> Mark:
    x, y = at
    return Mark(f"{number}", _n(x), _n(y), _n(y + 20))


def _spots(neck: float) -> tuple[Spot, ...]:
    side = OUTER + 96
    return (
        Spot("back", f"{HALF + 80}", f"{HALF - OUTER - 40}", "0"),
        Spot("BOR", f"{HALF}", _n(HALF - neck + 130), "0"),
        Spot("front", f"{HALF}", f"{HALF + OUTER + 90}", "0"),
        Spot("right sleeve", f"{HALF - side + 40}", f"{HALF}", "-90"),
        Spot("left sleeve", f"{HALF + side - 40}", f"{HALF}", "90"),
    )


def _list(plan: Plan, bands: Sequence[ChartView]) -> Iterator[BandRow]:
    unit = plan.project.sheet.units
    for band, shape in zip(bands, plan.shape.yoke.bands, strict=True):
        yield BandRow(
            f"{band.number}",
            band.name,
            band.counted,
            f"rounds {band.first}–{band.last} of the yoke, {length(shape.start.cm, unit)} round",
        )
