"""Every band of the sweater in one list: which section, which rows, which line of the file."""

from __future__ import annotations

from dataclasses import replace

from tests.shaping.parts import chart
from tests.sweaters import planned, sized
from yokefellow.shaping.counts import Count
from yokefellow.shaping.model import BandShape, ChartedBand
from yokefellow.shaping.pieces.darts import Dart
from yokefellow.shaping.pieces.section_bands import (
    SectionBand,
    all_increase_rounds,
    section_bands,
)


def band(name: str, first: int) -> BandShape:
    return BandShape(name, first, 11, Count(88, 88.0, 2.2), (88,) * 6)


def test_the_bands_of_a_sweater_are_numbered_from_the_neck_down() -> None:
    bare = planned(sized()).shape
    charts = [chart(8, 6, name) for name in ("a", "b", "c", "d")]
    darts = (Dart("front", 12, (4, 8, 12), 6, 3.0),)
    below = [ChartedBand(band(one.name, 20), one, 88) for one in charts]
    shape = replace(
        bare,
        yoke=replace(bare.yoke, bands=(band("a", 9),)),
        body=replace(bare.body, darts=darts, bands=(below[1], replace(below[2], around=90))),
        sleeve=replace(bare.sleeve, bands=(below[3],)),
    )
    # derived: the dart above them adds 6 rows to the body, and none to yoke or sleeve
    assert section_bands(shape, charts[:1]) == (
        SectionBand(1, "yoke", "garment.yoke.bands[1]", band("a", 9), charts[0]),
        SectionBand(2, "body", "garment.body.bands[1]", band("b", 26), charts[1]),
        SectionBand(3, "body", "garment.body.bands[2]", band("c", 26), charts[2]),
        SectionBand(4, "sleeve", "garment.sleeves.bands[1]", band("d", 20), charts[3]),
    )


def test_a_plain_sweater_has_no_bands() -> None:
    assert section_bands(planned(sized()).shape, ()) == ()


def test_increases_inside_a_chart_are_counted_among_the_increase_rounds() -> None:
    made = planned(
        sized(
            yarn__CC1={"ball_weight": "50 g", "ball_length": "200 m", "balls": 5},
            garment__yoke={"bands": [{"chart": "buds"}]},
        )
    )
    found = all_increase_rounds(made.shape.yoke)
    rows = [row for row in made.rows if row.section.key == "yoke" and row.after > row.before]
    # derived: those rows of the yoke that end with more stitches than they began with
    assert [(one.number, one.before, one.after) for one in found] == [
        (row.number, row.before, row.after) for row in rows
    ]
    assert len(found) > len(made.shape.yoke.increase_rounds)
