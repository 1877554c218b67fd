"""The drawing is to scale: measured with a ruler on the page, it gives the table's numbers."""

from __future__ import annotations

import re
from itertools import combinations
from math import dist

import pytest

from tests.sweaters import planned, sized
from yokefellow.plan import Plan
from yokefellow.sheet.view import view

_SPOT = re.compile(r"[ML](-?[0-9.]+) (-?[0-9.]+)")

HALF = {"chest", "waist", "edge", "upper_arm", "cuff"}
"""Measured all round, drawn flat."""
POINTERS = {"neck", "back_raise"}
"""Only pointed at."""


def ruler(d: str) -> float:
    """The length of the first stroke of a dimension line."""
    (x1, y1), (x2, y2) = ((float(x), float(y)) for x, y in _SPOT.findall(d)[:2])
    return dist((x1, y1), (x2, y2))


def test_every_dimension_line_has_the_length_of_its_number(plan: Plan) -> None:
    sheet = view(plan)
    lines = [path.d for path in sheet.drawing.paths if path.style == "measure"]
    keys = {dimension.letter: dimension for dimension in sheet.glance.dimensions}
    drawn = {
        keys[label.letter].key: ruler(d)
        for label, d in zip(sheet.drawing.labels, lines, strict=True)
    }
    shown = {dimension.key: dimension.finished_cm for dimension in sheet.glance.dimensions}
    scale = drawn["yoke_depth"] / shown["yoke_depth"]
    for key in set(drawn) - POINTERS:
        flat = shown[key] / 2 if key in HALF else shown[key]
        # derived: the picture is drawn to a tenth of its unit, 1000 units wide
        assert drawn[key] / scale == pytest.approx(flat, rel=0.01, abs=0.2), key


def test_nothing_leaves_the_picture(plan: Plan) -> None:
    drawing = view(plan).drawing
    _, _, width, height = map(float, drawing.view_box.split())
    ring = float(drawing.ring)
    for path in drawing.paths:
        for x, y in _SPOT.findall(path.d):
            assert 0 <= float(x) <= width
            assert 0 <= float(y) <= height
    for label in drawing.labels:
        assert ring <= float(label.x) <= width - ring
        assert ring <= float(label.y) <= height - ring


def test_every_letter_of_the_table_is_in_the_drawing(plan: Plan) -> None:
    sheet = view(plan)
    assert {label.letter for label in sheet.drawing.labels} == {
        dimension.letter for dimension in sheet.glance.dimensions
    }


def _no_ring_covers_another(plan: Plan) -> None:
    drawing = view(plan).drawing
    spots = {label.letter: (float(label.x), float(label.y)) for label in drawing.labels}
    for (one, here), (other, there) in combinations(spots.items(), 2):
        # derived: two rings touch when their middles are a diameter apart
        assert dist(here, there) >= 2 * float(drawing.ring), (one, other)


def test_no_letter_covers_another(plan: Plan) -> None:
    _no_ring_covers_another(plan)


@pytest.mark.parametrize("table", [("babies", "3"), ("women", "M"), ("women", "5X")])
@pytest.mark.parametrize("sleeves", ["cap", "full"])
@pytest.mark.parametrize("body", ["cropped", "tunic"])
def test_no_letter_covers_another_at_the_ends_of_what_can_be_knitted(
    table: tuple[str, str], sleeves: str, body: str
) -> None:
    garment = {"sleeves": {"length": sleeves}, "body": {"length": body, "shape": "straight"}}
    _no_ring_covers_another(planned(sized(*table, stitches_per_cm=2.0, garment=garment)))
