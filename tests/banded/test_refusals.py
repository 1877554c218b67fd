"""Refusals read as a knitter reads them: which numbers, what each way out costs."""

from __future__ import annotations

import re

import pytest

from tests.sweaters import Sections, edited, planned, sized
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.plan import Plan
from yokefellow.shaping.bands import BandTask
from yokefellow.shaping.refusals import Unreached
from yokefellow.shaping.yoke.constraints import most_rounds, through

BALL = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 20}


def stripes(width: int, rounds: int = 4) -> Sections:
    rows = "\n".join(("#" if at % 2 else ".") * width for at in range(rounds))
    return {"kind": "stripes", "colours": {".": "MC", "#": "CC1"}, "rows": rows}


def with_bands(
    *bands: Sections, group: str = "women", size: str = "M", per_cm: float = 2.4, **charts: Sections
) -> Sections:
    base = edited(
        sized(group, size, stitches_per_cm=per_cm),
        yarn__CC1=BALL,
        garment__yoke__bands=list(bands),
    )
    return {**base, "charts": charts}


def refused(sections: Sections) -> Finding:
    with pytest.raises(PlanError) as error:
        planned(sections)
    (found,) = (one for one in error.value.findings if one.severity is Severity.ERROR)
    assert found.field == "garment.yoke.bands"
    assert found.message.endswith(".")
    assert found.remedy.endswith(".")
    return found


def test_a_pin_out_of_reach_says_its_count_and_what_is_possible() -> None:
    sections = with_bands({"chart": "mine", "at": "3 cm", "repeats": 120}, mine=stripes(4))
    found = refused(sections)
    assert found.code == "bands.unreached"
    # derived: 120 repeats of four
    assert "120 repeats make 480 stitches" in found.message
    read = re.search(r"(\d+) to (\d+) repeats can be reached", found.message)
    assert read is not None
    fewest, most = int(read[1]), int(read[2])
    free = planned(edited(sections, garment__yoke__bands=[{"chart": "mine", "at": "3 cm"}]))
    assert fewest <= free.shape.yoke.bands[0].repeats <= most
    # The neck is below, and one round adds half again at the most.
    neck = free.shape.neck.stitches.got
    rounds = most_rounds(2, free.shape.yoke.bands[0].first - 1)
    assert (fewest - 1) * 4 < neck <= fewest * 4 + 3  # derived: the neck, to one repeat
    assert most * 4 <= neck * 1.5**rounds
    for repeats in (fewest - 2, most + 1):
        pinned = {"chart": "mine", "at": "3 cm", "repeats": repeats}
        again = refused(edited(sections, garment__yoke__bands=[pinned]))
        assert again.code == "bands.unreached"
    offered = re.search(r"take out repeats = 120 of 'mine' \((\d+) go round then\)", found.remedy)
    assert offered is not None
    assert int(offered[1]) == free.shape.yoke.bands[0].repeats


def test_a_repeat_that_fits_no_count_names_the_two_beside_it_and_what_they_cost() -> None:
    sections = with_bands(
        {"chart": "mine", "at": "4 cm"}, group="babies", size="3", per_cm=1.6, mine=stripes(10)
    )
    found = refused(sections)
    assert found.code == "bands.misfit"
    wanted = re.search(r"the yoke wants (\d+) stitches there \(([\d.]+) cm round\)", found.message)
    assert wanted is not None
    count = int(wanted[1])
    assert float(wanted[2]) == pytest.approx(count / 1.6, abs=0.4)  # derived: the gauge
    near = [int(n) for n in re.findall(r"repeats make (\d+)", found.message)]
    # derived: the multiples of ten on either side, neither within 4 %
    assert near == [count // 10 * 10, count // 10 * 10 + 10]
    assert all(abs(one - count) > 0.04 * count - 1 for one in near)
    offered = re.findall(
        r"repeats = (\d+) for 'mine' \((\d+) stitches, ([\d.]+) cm (more|less) round",
        found.remedy,
    )
    assert [int(stitches) for _, stitches, _, _ in offered] == near
    for repeats, stitches, cost_cm, way in offered:
        # derived: ten stitches a repeat; the cost is the difference at the gauge, the count wanted
        # being printed to a whole stitch and the cost to a tenth
        assert int(stitches) == 10 * int(repeats)
        assert float(cost_cm) == pytest.approx(abs(int(stitches) - count) / 1.6, abs=0.37)
        assert way == ("more" if int(stitches) > count else "less")


def test_bands_that_overlap_say_by_how_many_rounds() -> None:
    bands = ({"chart": "mine", "at": "5 cm"}, {"chart": "mine", "at": "5.5 cm"})
    found = refused(with_bands(*bands, mine=stripes(4, 12)))
    assert found.code == "bands.crowded"
    # derived: 12 rounds at 3.24 rounds in a cm; 5.5 cm is 17.8 rounds and 5 cm 16.2, which puts
    # 1 or 2 of the 12 rounds between the two beginnings
    read = re.search(r"the bands above it end (\d+) rounds below that", found.message)
    assert read is not None
    assert 9 <= int(read[1]) <= 12
    # derived: 10 or 11 rounds are 3.1 or 3.4 cm, and moves are tried up to 4 cm by whole ones
    assert re.search(r'at = "1 cm" for band 1 \(.mine.\) \(4 cm higher\)', found.remedy)
    assert 'write at = "spread" for every band' in found.remedy
    assert "leave out band 1" in found.remedy


def test_a_band_that_runs_into_the_underarm_says_how_many_rounds_are_left() -> None:
    found = refused(with_bands({"chart": "mine", "at": "19 cm"}, mine=stripes(4, 40)))
    assert found.code == "bands.crowded"
    assert re.search(r"is 40 rounds deep; \d+ rounds are left to the underarm", found.message)
    assert "higher)" in found.remedy or 'at = "spread"' in found.remedy


def test_bands_deeper_than_the_yoke_are_told_in_cm() -> None:
    bands = [{"chart": "mine"}] * 4
    found = refused(with_bands(*bands, group="babies", size="3", per_cm=1.6, mine=stripes(4, 12)))
    assert found.code == "bands.crowded"
    # derived: 48 rounds at 2.16 rounds in a cm
    assert "22.2 cm deep together" in found.message


def test_too_few_plain_rounds_say_from_what_to_what() -> None:
    bands = ({"chart": "mine", "at": "3 cm"}, {"chart": "mine", "at": "15 cm"})
    found = refused(with_bands(*bands, mine=stripes(4, 38)))
    assert found.code in ("bands.narrow", "bands.crowded", "bands.unreached")
    assert re.search(r"\d+", found.message)


def test_units_follow_the_sheet() -> None:
    sections = with_bands({"chart": "mine", "at": "19 cm"}, mine=stripes(4, 40))
    found = refused(edited(sections, sheet__units="in"))
    assert "7½ in" in found.message  # derived: 19 cm is 7.48 in
    assert " cm" not in found.message + found.remedy
    move = re.search(r'at = "([\d.]+ in)"', found.remedy)
    if move is not None:
        again = edited(sections, garment__yoke__bands=[{"chart": "mine", "at": move[1]}])
        assert isinstance(planned(again), Plan)


# published: B. G. Walker, "A Treasury of Knitting Patterns", 1968 (from memory): each pattern is
# headed by "multiple of n sts plus m"; see tests/charts/test_repeats.py.
DICTIONARY = [(4, 2), (4, 3), (2, 1), (8, 5), (6, 1), (12, 1)]


@pytest.mark.parametrize(("n", "m"), DICTIONARY)
def test_a_band_takes_a_multiple_of_n_and_no_multiple_plus_m(n: int, m: int) -> None:
    """Published: Walker 1968, as above."""
    band = BandTask("dots", 4, (n,) * 4, n, 2.4, 3.2, at_cm=None, repeats=None)
    for repeats in (1, 7, 40):
        assert through(repeats * n, (band,)) == repeats * n
        assert through(repeats * n + m, (band,)) is None
    pinned = BandTask("dots", 4, (n,) * 4, n, 2.4, 3.2, at_cm=None, repeats=7)
    assert through(7 * n, (pinned,)) == 7 * n
    assert through(8 * n, (pinned,)) is None


@pytest.mark.parametrize(("n", "m"), DICTIONARY)
def test_a_planned_band_is_a_multiple_of_its_repeat(n: int, m: int) -> None:
    """Published: Walker 1968, as above."""
    made = planned(with_bands({"chart": "mine"}, mine=stripes(n)))
    (band,) = made.shape.yoke.bands
    assert band.start.got % n == 0
    assert (band.start.got - m) % n != 0 or m % n == 0
    assert band.start.got == n * band.repeats


def test_what_can_be_there_is_what_both_sides_leave() -> None:
    band = BandTask("dots", 4, (4,) * 4, 4, 2.4, 3.2, at_cm=None, repeats=99)
    # derived: 150 to 238 in both, which is 38 to 59 fours
    assert Unreached(band, (118, 240), (150, 238)).repeats == (38, 59)
    # derived: an increase round and two plain ones, over and over
    assert [most_rounds(5, end) for end in (4, 5, 7, 8, 10, 11)] == [0, 1, 1, 2, 2, 3]


def test_a_pin_of_exactly_half_again_is_kept() -> None:
    """derived: 48 stitches at the neck and 24 increases in one round make 72."""
    bands = {"chart": "mine", "at": "2 cm", "repeats": 8}
    made = planned(with_bands(bands, group="babies", size="3", per_cm=1.6, mine=stripes(9)))
    (band,) = made.shape.yoke.bands
    assert (made.shape.neck.stitches.got, band.start.got) == (48, 72)
    assert made.shape.yoke.increase_rounds[0].increases == 24
