"""The outline of the sweater laid flat, in cm, from its own stitches and rounds.

x goes to the right from the centre front, y downwards from the sides of the
neck. Laid flat, a tube is half as wide as it is round. Only the right half is
given; the left one mirrors it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple, TypeAlias

from yokefellow.shaping import AnyYoke, BodyShape, RaglanShape, Shape, SleeveShape

__all__ = ["ACROSS_ARM", "DOWN_ARM", "Outline", "Point", "along", "outline"]

Point: TypeAlias = tuple[float, float]

ARM_ANGLE = math.radians(54)
"""How far the sleeves hang below the horizontal; a choice of the picture."""
DOWN_ARM: Point = (math.cos(ARM_ANGLE), math.sin(ARM_ANGLE))
ACROSS_ARM: Point = (math.sin(ARM_ANGLE), -math.cos(ARM_ANGLE))
"""From the underside of the sleeve to its upper side."""

LEAST_NECK_CM = 0.9
"""How far open the neck is drawn when its back is not raised."""
FRONT_SHARE = 0.62
"""Of the raise, drawn as the dip of the front; the rest is the rise of the back."""


class Outline(NamedTuple):
    """The sweater's corners, in cm."""

    neck: float
    """Half the width of the neck."""
    dip: float
    """The front of the neck below its sides,"""
    rise: float
    """and the back above them; less than nothing where it, too, lies below."""
    band: float
    depth: float
    underarm: Point
    sleeve_top: Point
    """Above the underarm, on the upper side of the sleeve."""
    body: tuple[Point, ...]
    """Down the side, from the underarm to the top of the hem."""
    hem: tuple[Point, ...]
    """Down the side of the hem."""
    outer: tuple[Point, ...]
    """Down the upper side of the sleeve to the top of the cuff,"""
    inner: tuple[Point, ...]
    """and down its underside."""
    cuff: tuple[Point, Point]
    """The lower edge of the cuff, upper side and underside."""
    rounds: tuple[float, ...]
    """The increase rounds, as shares of the depth,"""
    bands: tuple[tuple[float, float], ...]
    """and the beginning and the end of each colour band."""
    body_bands: tuple[tuple[Point, Point], ...]
    """The right ends of the upper and the lower edge of each band of the body."""
    sleeve_bands: tuple[tuple[Point, Point, Point, Point], ...]
    """The corners of each band of the sleeve, going round."""
    line: tuple[Point, ...] = ()
    """Down a raglan's line over the front, from the neck to the underarm."""
    neckline: tuple[Point, ...] = ()
    """Of a front worked flat: from the side of the neck along its edge to the centre front."""
    shoulder_top: float = 0.0
    """The top of a raglan's shoulder: half a sleeve's top above the front of the neck."""


def along(start: Point, step: Point, far: float) -> Point:
    """Go from a point so far in a direction."""
    return start[0] + step[0] * far, start[1] + step[1] * far


def outline(shape: Shape) -> Outline:
    """Give the outline of the sweater as it will be after washing."""
    lens = max(LEAST_NECK_CM, shape.yoke.short_rows.raise_cm)
    dip, depth = _dip(shape.yoke, lens), shape.yoke.rounds.cm
    rise = lens - dip
    if shape.front is not None:
        # The yoke is measured at the back, and the front begins lower.
        dip, rise = shape.front.rows.cm, LEAST_NECK_CM * (1 - FRONT_SHARE)
        depth -= dip
    underarm = (shape.split.body.cm / 4, dip + depth)
    middle = along(underarm, ACROSS_ARM, shape.split.sleeve.cm / 4)
    sides = tuple(_sleeve_side(shape.sleeve, shape.split.sleeve.got))
    end = along(middle, DOWN_ARM, shape.sleeve.rounds.cm + shape.sleeve.cuff_rounds.cm)
    edge = shape.sleeve.edge.cm / 4
    body = tuple(_body_side(shape.body, underarm, shape.split.body.got))
    hem_x = shape.body.hem_cm / 4
    hem_top = body[-1][1]
    return Outline(
        neck=shape.neck.stitches.cm / 4,
        dip=dip,
        rise=rise,
        band=shape.neck.worn_cm,
        depth=depth,
        underarm=underarm,
        sleeve_top=along(underarm, ACROSS_ARM, shape.split.sleeve.cm / 2),
        body=body,
        hem=((hem_x, hem_top), (hem_x, hem_top + shape.body.hem_rounds.cm)),
        outer=tuple(_beside(middle, far, half) for far, half in sides),
        inner=tuple(_beside(middle, far, -half) for far, half in sides),
        cuff=(along(end, ACROSS_ARM, edge), along(end, ACROSS_ARM, -edge)),
        rounds=_increase_shares(shape.yoke),
        bands=tuple(
            ((band.first - 1) / shape.yoke.rounds.got, band.last / shape.yoke.rounds.got)
            for band in shape.yoke.bands
        ),
        line=tuple(_raglan_line(shape, dip)) if isinstance(shape.yoke, RaglanShape) else (),
        neckline=tuple(_neckline(shape)),
        shoulder_top=_shoulder_top(shape.yoke, 0.0 if shape.front else dip),
        body_bands=tuple(_body_bands(shape.body, underarm)),
        sleeve_bands=tuple(_sleeve_bands(shape.sleeve, middle)),
    )


def _dip(yoke: AnyYoke, lens: float) -> float:
    """Give how far the front of the neck lies below its sides.

    Half of a raglan sleeve's top lies before the shoulder, and is depth of the neck.
    """
    usual = FRONT_SHARE * lens
    return max(usual, yoke.sleeve_top_cm / 2) if isinstance(yoke, RaglanShape) else usual


def _increase_shares(yoke: AnyYoke) -> tuple[float, ...]:
    """Give the increase rounds of a circular yoke as shares of its depth."""
    if isinstance(yoke, RaglanShape):
        return ()
    return tuple(step.number / yoke.rounds.got for step in yoke.increase_rounds)


def _shoulder_top(yoke: AnyYoke, dip: float) -> float:
    return dip - yoke.sleeve_top_cm / 2 if isinstance(yoke, RaglanShape) else 0.0


def _raglan_line(shape: Shape, dip: float) -> Iterator[Point]:
    """Follow the end of the front through every round, from the neck's curve to the underarm."""
    yoke = shape.yoke
    if not isinstance(yoke, RaglanShape):
        return
    half = shape.neck.stitches.cm / 4
    halves = [
        yoke.front.stitches_at(number) / yoke.stitches_per_cm / 2
        for number in range(yoke.rounds.got + 1)
    ]
    top = 0.0 if shape.front else dip * (1 - min(1.0, halves[0] / half) ** 2)
    fall = yoke.rounds.cm + (0.0 if shape.front else dip) - top
    for number, x in enumerate(halves):
        yield x, top + fall * number / yoke.rounds.got


def _neckline(shape: Shape) -> Iterator[Point]:
    """Follow the neck edge of a front worked flat, row by row."""
    yoke, front = shape.yoke, shape.front
    if front is None or not isinstance(yoke, RaglanShape):
        return
    yield shape.neck.stitches.cm / 4, 0.0
    gained = 0
    for row in range(front.rows.got + 1):
        gained += row in front.increases
        gap = yoke.front.start / 2 - front.edge - gained
        yield gap / yoke.stitches_per_cm, row / front.rows.per_cm
    yield 0.0, front.rows.cm


def _body_bands(body: BodyShape, underarm: Point) -> Iterator[tuple[Point, Point]]:
    for band in body.bands:
        half = band.around / body.edge.per_cm / 4
        start, end = band.shape.first - 1, band.shape.last
        yield (
            (half, underarm[1] + start / body.rounds.per_cm),
            (half, underarm[1] + end / body.rounds.per_cm),
        )


def _sleeve_bands(
    sleeve: SleeveShape, middle: Point
) -> Iterator[tuple[Point, Point, Point, Point]]:
    for band in sleeve.bands:
        half = band.around / sleeve.per_cm / 4
        far = [at / sleeve.rounds.per_cm for at in (band.shape.first - 1, band.shape.last)]
        yield (
            _beside(middle, far[0], half),
            _beside(middle, far[0], -half),
            _beside(middle, far[1], -half),
            _beside(middle, far[1], half),
        )


def _beside(middle: Point, far: float, half: float) -> Point:
    return along(along(middle, DOWN_ARM, far), ACROSS_ARM, half)


def _body_side(body: BodyShape, underarm: Point, stitches: int) -> Iterator[Point]:
    """Follow the side of the body through every shaping round."""
    per_cm = body.edge.per_cm
    x, top = underarm
    yield underarm
    for change in body.changes:
        stitches += change.added
        yield stitches / per_cm / 4, top + change.number / body.rounds.per_cm
    yield body.edge.got / per_cm / 4 if body.changes else x, top + body.rounds.cm


def _sleeve_side(sleeve: SleeveShape, stitches: int) -> Iterator[tuple[float, float]]:
    """Follow the sleeve down: how far from the underarm, and half its width there."""
    per_cm = sleeve.per_cm
    yield 0.0, stitches / per_cm / 4
    for number in sleeve.decreases:
        stitches -= 2
        yield number / sleeve.rounds.per_cm, stitches / per_cm / 4
    yield sleeve.rounds.cm, sleeve.edge.cm / 4
