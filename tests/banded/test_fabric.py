"""The gauge of a band's fabric: more stitches where it is tighter, or a caution that can be obeyed.

Also what is told where a swatch is missing, where a band lies inside the body, and where a
dimension gave way for a repeat.
"""

from __future__ import annotations

import re

import pytest

from tests.sweaters import Sections, edited, planned, sized, swatch
from yokefellow.findings import Finding
from yokefellow.plan import Plan

PER_CM = 2.6
BALL = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 20}


def with_band(*, tighter: float | None = 1.0, size: str = "M", **band: object) -> Sections:
    """A sweater with one band of beads, its swatch so much tighter than the plain one."""
    base = edited(
        sized("women", size, stitches_per_cm=PER_CM),
        yarn__CC1=BALL,
        garment__yoke__bands=[{"chart": "beads", **band}],
    )
    if tighter is None:
        return base
    own = swatch(PER_CM * tighter, rounds_per_cm=1.35 * PER_CM)
    return edited(base, swatch__stranded={"washed": own})


def finding(made: Plan, code: str) -> Finding | None:
    return next((one for one in made.findings if one.code == code), None)


@pytest.mark.parametrize("tighter", [0.94, 1.0, 1.05, 1.10, 1.15])
def test_a_tighter_fabric_gets_more_stitches_and_lies_on_the_line(tighter: float) -> None:
    plain, made = planned(with_band(at="9 cm")), planned(with_band(tighter=tighter, at="9 cm"))
    (was,), (band,) = plain.shape.yoke.bands, made.shape.yoke.bands
    # derived: the same circumference takes as many times more stitches, to the tolerances of
    # 3 % less and 4 % more at both
    assert band.start.got / was.start.got == pytest.approx(tighter, rel=0.075)
    assert 0.97 <= band.start.cm / band.start.wanted_cm <= 1.04
    assert finding(made, "band.pulls-in") is None


@pytest.mark.parametrize("tighter", [1.08, 1.15])
def test_a_tight_band_that_is_spread_stands_where_it_has_room(tighter: float) -> None:
    """Where the yoke is full, more stitches before the band would be more than the yoke's."""
    at_full = planned(with_band(tighter=tighter, at="16 cm"))
    assert finding(at_full, "band.pulls-in") is not None
    spread = planned(with_band(tighter=tighter))
    assert finding(spread, "band.pulls-in") is None


def pinned_low(*, short_by: float, **more: object) -> tuple[Sections, int]:
    """A band pinned to fewer repeats than it would have; and those it would have."""
    usual = planned(with_band(at="9 cm", **more)).shape.yoke.bands[0].repeats  # type: ignore[arg-type]
    low = round(usual * (1 - short_by))
    return with_band(at="9 cm", repeats=low, **more), usual  # type: ignore[arg-type]


def test_a_band_that_pulls_in_comes_with_remedies_that_mend_it() -> None:
    sections, usual = pinned_low(short_by=0.08, tighter=1.0)
    made = planned(sections)
    (band,) = made.shape.yoke.bands
    said = finding(made, "band.pulls-in")
    assert said is not None
    assert said.field == "garment.yoke.bands[1]"
    assert f"{1 - band.start.got / band.start.wanted:.0%}" in said.message

    # More stitches before the band: so many repeats.
    offered = re.search(r"repeats = (\d+), (\d+) stitches more", said.remedy)
    assert offered is not None
    repeats, more = int(offered[1]), int(offered[2])
    assert more == (repeats - band.repeats) * 4  # derived: a repeat of four stitches
    assert abs(repeats - usual) <= 0.04 * usual + 1
    again = planned(edited(sections, garment__yoke__bands=[{**BEADS, "repeats": repeats}]))
    assert finding(again, "band.pulls-in") is None

    # A larger needle: the gauge at which these stitches go round as the line does.
    gauge = re.search(r"gives ([\d.]+) stitches in 10 cm", said.remedy)
    assert gauge is not None
    per_cm = float(gauge[1]) / 10
    # derived: the count over the circumference wanted
    assert per_cm == pytest.approx(band.start.got / band.start.wanted_cm, abs=0.005)
    looser = edited(
        sections, swatch__stranded={"washed": swatch(per_cm, rounds_per_cm=1.35 * PER_CM)}
    )
    assert finding(planned(looser), "band.pulls-in") is None


BEADS = {"chart": "beads", "at": "9 cm"}


def test_a_band_just_under_three_per_cent_short_is_not_told() -> None:
    """Common practice: 3 %; and the band is told as soon as it is over that."""
    for short_by in (0.0, 0.01, 0.02, 0.03, 0.04, 0.05, 0.06):
        made = planned(pinned_low(short_by=short_by, tighter=1.0)[0])
        (band,) = made.shape.yoke.bands
        told = finding(made, "band.pulls-in") is not None
        assert told == (band.start.got < 0.97 * band.start.wanted)


def test_a_band_far_wider_than_the_line_is_told_with_the_gauge_that_mends_it() -> None:
    made = planned(pinned_low(short_by=-0.12, tighter=1.0)[0])
    (band,) = made.shape.yoke.bands
    said = finding(made, "band.stands-out")
    assert said is not None
    assert f"{band.start.got / band.start.wanted - 1:.0%}" in said.message
    gauge = re.search(r"gives ([\d.]+) stitches in 10 cm", said.remedy)
    assert gauge is not None
    per_cm = float(gauge[1]) / 10
    # derived: the count over the circumference wanted, to the tenth it is printed to
    assert per_cm == pytest.approx(band.start.got / band.start.wanted_cm, abs=0.005)


def test_a_band_inside_the_shoulders_is_told_with_what_goes_round_them() -> None:
    """A pinned band at the shoulders' depth, narrower than they are."""
    sections = with_band(at="12 cm")
    usual = planned(sections).shape.yoke.bands[0]
    shoulder_cm = planned(sections).figures.cm("shoulder_girth")
    inside = int(0.95 * shoulder_cm * usual.start.per_cm / 4)
    made = planned(with_band(at="12 cm", repeats=inside))
    said = finding(made, "band.inside-body")
    assert said is not None
    offered = re.search(r"repeats = (\d+)", said.remedy)
    assert offered is not None
    # derived: the fewest repeats of four that go round the shoulders
    assert int(offered[1]) * 4 >= shoulder_cm * usual.start.per_cm > (int(offered[1]) - 1) * 4
    again = planned(with_band(at="12 cm", repeats=int(offered[1])))
    assert finding(again, "band.inside-body") is None


def test_a_missing_swatch_is_told_with_how_wrong_it_can_be() -> None:
    made = planned(with_band(tighter=None))
    said = finding(made, "band.no-swatch")
    assert said is not None
    assert said.field == "swatch.stranded"
    (band,) = made.shape.yoke.bands
    # common practice, no source: up to 8 % of the widest band, in cm
    told = re.search(r"up to ([\d.]+) cm", said.message)
    assert told is not None
    assert float(told[1]) == pytest.approx(0.08 * band.start.cm, abs=0.051)
    assert finding(planned(with_band()), "band.no-swatch") is None


def test_without_a_swatch_the_plain_gauge_stands_in() -> None:
    assert (
        planned(with_band(tighter=None)).shape.yoke.bands[0].start.got
        == planned(with_band(tighter=1.0)).shape.yoke.bands[0].start.got
    )


def test_a_yarn_wanted_again_further_down_is_not_cut_for_good() -> None:
    bands = [
        {"chart": "beads"},
        {"chart": "pebbles", "colours": {"CC1": "CC2"}},
        {"chart": "beads"},
    ]
    made = planned(
        edited(
            sized("men", "L", stitches_per_cm=PER_CM),
            yarn__CC1=BALL,
            yarn__CC2=BALL,
            garment__yoke__bands=bands,
        )
    )
    first, second, third = made.shape.yoke.bands
    after = [check.text for check in made.checks if check.title == "After the band"]
    between = third.first - first.last - 1
    assert f"Break CC1; join it again in {between} rounds." in after[0]
    assert "Break CC2; it is no longer needed." in after[1]
    assert "Break CC1; it is no longer needed." in after[2]
    assert second.first > first.last


def test_the_yoke_is_measured_inside_a_band_at_the_bands_own_gauge() -> None:
    made = planned(with_band(at="9.5 cm", tighter=1.10))
    (band,) = made.shape.yoke.bands
    at = made.shape.yoke.shoulder_round
    (check,) = (one for one in made.checks if one.title == "Point of the shoulder")
    told = re.search(r"the work is ([\d.]+) cm round", check.text)
    assert told is not None
    # derived: stitches over the gauge of the very round, to the tenth it is printed to
    per_cm = PER_CM * (1.10 if band.first <= at <= band.last else 1)
    assert float(told[1]) == pytest.approx(made.shape.yoke.stitches_at(at) / per_cm, abs=0.051)
