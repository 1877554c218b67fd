"""Floats and stretched stitches, by what is printed about them."""

from __future__ import annotations

import pytest

from tests.charts.drawn import read, refused
from tests.plain_speech import kindly
from yokefellow.charts.check import (
    MOST_FLOAT,
    MOST_FLOAT_CM,
    MOST_SLIPPED,
    chart_findings,
    floats,
)
from yokefellow.findings import Finding, Severity
from yokefellow.quantities import CM_PER_INCH, LengthUnit


def risks(
    kind: str, *lines: str, per_cm: float = 3.0, times: int = 1, unit: LengthUnit = "cm"
) -> tuple[Finding, ...]:
    chart, field = read(kind, *lines, times=times), "garment.yoke.bands[1]"
    found = chart_findings(chart, stitches_per_cm=per_cm, field=field, unit=unit)
    for finding in map(kindly, found):
        assert finding.field == field
        assert finding.severity is Severity.CAUTION
    return found


def test_floats_are_counted_round_the_work() -> None:
    (row,) = read("stranded", "..#...#.").rows
    # derived: counted in the line above; the last float goes on at its beginning
    assert floats(row, "MC") == ((2, 1), (6, 1))
    assert floats(row, "CC1") == ((3, 3), (7, 3))
    assert floats(row, "CC2") == ()


# published: P. Allen, T. Barr, S. Okey, "Knitting For Dummies" (from memory): a strand carried
# over more than 1 inch is caught. Common practice besides: 5 to 7 stitches.
# derived: 1 inch is 4 stitches at 16 to 4 inches, 5 at 20, 7 at 28.
INCH_RULE = [(16, 4), (20, 5), (28, 7)]


def test_a_float_may_be_an_inch_long() -> None:
    assert pytest.approx(CM_PER_INCH, abs=0.05) == MOST_FLOAT_CM
    assert 5 <= MOST_FLOAT <= 7  # common practice, no source


@pytest.mark.parametrize(("in_4_inches", "in_an_inch"), INCH_RULE)
def test_a_float_over_an_inch_or_five_stitches_is_told(in_4_inches: int, in_an_inch: int) -> None:
    """Published and common practice as above: whichever of the two is shorter."""
    per_cm = in_4_inches / 4 / CM_PER_INCH
    # An inch is 0.4 mm more than the 2.5 cm of the rule, so a whole inch may be told already.
    short, long = min(in_an_inch - 1, MOST_FLOAT), min(in_an_inch, MOST_FLOAT) + 1
    assert risks("stranded", "#" + "." * short, per_cm=per_cm) == ()
    (finding,) = risks("stranded", "#" + "." * long, per_cm=per_cm)
    assert finding.code == "chart.long-float"
    told = dict(finding.values)
    assert (told["color"], told["stitches"], told["column"]) == ("CC1", long, 2)
    assert told["width"] == f"{long / per_cm:.2g} cm"


def test_a_float_is_told_in_the_unit_of_the_sheet() -> None:
    (metric,) = risks("stranded", "#" + "." * 6, per_cm=2.0)
    (inches,) = risks("stranded", "#" + "." * 6, per_cm=2.0, unit="in")
    # derived: 6 stitches at 2 to the cm are 3 cm, which is 1.18 in; 2.5 cm are 0.98 in
    assert {("width", "3 cm"), ("most_width", "2.5 cm")} <= set(metric.values)
    assert {("width", "1.2 in"), ("most_width", "1 in")} <= set(inches.values)


def test_each_long_float_is_told_once_with_its_line() -> None:
    told = risks(
        "stranded", ".#.......", "#" * 9, "........#", times=2
    )  # 8 behind, nothing, 8 behind
    # derived: the first and the third line are the ones with 8 behind
    assert [dict(finding.values)["row"] for finding in told] == [1, 3]


@pytest.mark.parametrize("kind", ["mosaic", "slip"])
def test_more_than_three_stitches_slipped_side_by_side_are_told(kind: str) -> None:
    slipped = "." if kind == "mosaic" else "v"
    assert risks(kind, "#" + slipped * MOST_SLIPPED) == ()
    (finding,) = risks(kind, slipped + "#" + slipped * MOST_SLIPPED, times=2)
    assert finding.code == "chart.long-slip"
    # common practice, no source: three; derived: round the work the run begins in column 3
    assert {("row", 1), ("stitches", 4), ("column", 3)} <= set(finding.values)


def test_a_stitch_may_be_slipped_for_four_rounds() -> None:
    # common practice, no source: four; that five are refused is tested with the other refusals
    assert len(read("slip", *["#v"] * 4).rows) == 4
    assert len(read("slip", *["#v"] * 4, "##", *["#v"] * 4).rows) == 9
    assert len(read("mosaic", "#.", "CC1: #.", times=2).rows) == 4


def test_a_new_stitch_is_worked_in_the_row_that_makes_it() -> None:
    # common practice, no source: four rounds; the row that makes a stitch stretches nothing
    made = ("##", "###", *["##v"] * 4)
    assert len(read("slip", *made, grows=True).rows) == 6  # derived: as many as the lines
    (finding,) = refused("slip", *made, "##v", grows=True)
    assert finding.code == "chart.stretched"
    assert {("row", 7), ("column", 3)} <= set(finding.values)
