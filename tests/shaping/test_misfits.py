"""Why bands do not fit, in whole sentences whose every number is worked out by hand."""

from __future__ import annotations

import pytest

from tests.shaping.parts import task
from tests.sweaters import project, sized
from yokefellow.findings import Severity
from yokefellow.shaping.banded import Misfit, Narrow
from yokefellow.shaping.misfits import misfit_finding, misfit_message
from yokefellow.shaping.placing import Crowded
from yokefellow.shaping.reach import Unreached

CM = project(sized())
INCHES = project(sized(sheet__units="in"))


def test_a_repeat_that_fits_no_count_names_its_neighbours_and_what_would_fit() -> None:
    found = misfit_finding(Misfit(task(16), 120.0, 7, 8, (6, 9)), [task(16)], (), CM)
    assert (found.code, found.severity) == ("bands.misfit", Severity.ERROR)
    assert found.field == "garment.yoke.bands"
    # derived: 120 stitches are 60 cm at two a cm; 7 and 8 sixteens are 112 and 128, both 6.7 %
    # off; of 14 to 18, 15 and 17 go near it: 8 fifteens are 120, 7 seventeens 119
    assert found.message == (
        "The repeat of 'dots' is 16 stitches, and the yoke wants 120 stitches there (60 cm round); "
        "7 repeats make 112 and 8 repeats make 128, and neither lies within 4 %. A repeat of "
        "15 or 17 stitches would fit."
    )


def test_a_repeat_wider_than_the_yoke_has_one_neighbour() -> None:
    asked = Misfit(task(60), 49.0, 0, 1, (1, 1))
    # derived: 60 stitches are more than 49, and so is any repeat from 58 to 62; 49 are 24.5 cm
    assert misfit_message(asked, [task(60)], CM) == (
        "The repeat of 'dots' is 60 stitches, and the yoke wants 49 stitches there (24.5 cm "
        "round); 1 repeat makes 60, which does not lie within 4 %."
    )
    # derived: 60 and 120 are both more than 4 % off 88
    two = misfit_message(Misfit(task(60), 88.0, 1, 2, (1, 2)), [task(60)], CM)
    assert "; 1 repeat makes 60 and 2 repeats make 120, and neither lies within 4 %." in two
    # derived: of one to five, 10 is a multiple of 1, 2 and 5
    narrow = misfit_message(Misfit(task(3), 10.0, 3, 4, (3, 4)), [task(3)], CM)
    assert narrow.endswith(" A repeat of 1, 2 or 5 stitches would fit.")
    # derived: 13 is a repeat of itself alone, and three more than ten
    none = misfit_message(Misfit(task(10), 13.0, 1, 2, (1, 2)), [task(10)], CM)
    assert none.endswith("and neither lies within 4 %.")
    # derived: 24.5 cm are 9.65 in
    assert "(9¾ in round)" in misfit_message(asked, [task(60)], INCHES)


@pytest.mark.parametrize(
    ("wanted", "there", "words"),
    [
        # derived: the first and last of n rounds three apart span 3 n - 2
        (1, 0, "takes an increase round, and there is no plain round."),
        (4, 1, "takes 2 increase rounds three apart, and there is one plain round."),
        (7, 5, "takes 3 increase rounds three apart, and there are 5 plain rounds."),
    ],
)
def test_too_few_plain_rounds_are_told_from_what_to_what(
    wanted: int, there: int, words: str
) -> None:
    asked = Narrow("dots", wanted, there, before=80.4, after=180.0)
    found = misfit_finding(asked, [task()], ("eat", "sleep"), CM)
    assert found.code == "bands.narrow"
    assert found.message == f"To go from 80 to 180 stitches before 'dots' {words}"
    below = Narrow("", wanted, there, before=80.4, after=180.0)
    assert misfit_message(below, [task()], CM) == (
        f"To go from 80 to 180 stitches after the last band {words}"
    )


def test_bands_without_room_are_told_where_they_stand() -> None:
    spread = Crowded("dots", 30, 24, 10.0, 20.0)
    assert misfit_message(spread, [task()], CM) == (
        "The bands are 10 cm deep together, 30 rounds of them where there are 24, and the yoke "
        "is 20 cm deep with its increases between them."
    )
    over = Crowded("dots", 30, 12, 10.0, 20.0, 16.0, is_over_end=True)
    assert misfit_message(over, [task()], CM) == (
        "'dots' begins 16 cm below the neckband and is 30 rounds deep; 12 rounds are left to the "
        "underarm."
    )
    upon = Crowded("dots", 12, 5, 10.0, 20.0, 8.0)
    # derived: 12 rounds above where there are 5
    assert misfit_message(upon, [task()], CM) == (
        "'dots' is to begin 8 cm below the neckband, and the bands above it end 7 rounds below "
        "that."
    )
    under = Crowded("dots", 0, 0, 10.0, 20.0, 8.0, lacks_plain=True)
    assert misfit_message(under, [task()], CM) == (
        "'dots' is to begin 8 cm below the neckband, right under the band above it, and slips "
        "stitches of the round before its first: a plain round must lie between the two."
    )
    # derived: 16 cm are 6.3 in
    assert misfit_message(over, [task()], INCHES).startswith("'dots' begins 6¼ in below")
    found = misfit_finding(over, [task()], ("something",), CM)
    assert (found.code, found.remedy) == ("bands.crowded", "This was tried and works: something.")


def test_a_yoke_that_cannot_be_reached_below_its_bands_tells_both_counts() -> None:
    asked = Unreached(None, (300, 300), (180, 240))
    found = misfit_finding(asked, [task()], (), CM)
    assert found.code == "bands.unreached"
    assert found.message == (
        "After the last band 300 stitches can be reached, and the body and sleeves take 180 to 240."
    )


def test_limits_that_are_alike_are_told_once() -> None:
    band = task(8, repeats=40)
    told = misfit_message(Unreached(band, (96, 200), (96, 200)), [band], CM)
    # derived: the least is told of what lies above, the most of what lies below
    assert "; 96 or more stitches can be there after what lies above it" in told
    assert "and at most 200 still lead to what lies below" in told


def test_a_pinned_band_out_of_reach_tells_what_can_be() -> None:
    band = task(8, repeats=40)
    # derived: 40 eights are 320; 96 to 200 of both are 12 to 25 eights; that no more than 240 can
    # be there from above is left out, since no more than 200 lead on
    assert misfit_message(Unreached(band, (96, 240), (60, 200)), [band], CM) == (
        "'dots': 40 repeats make 320 stitches; 96 or more stitches can be there after what "
        "lies above it, with at most half again in a round, and at most 200 still lead to what "
        "lies below: 12 to 25 repeats can be reached."
    )
    # derived: 96 to 200 of above, 120 to 180 of below: 15 to 22 eights; the limits of one side
    # that those of the other make idle are left out
    assert misfit_message(Unreached(band, (96, 200), (120, 180)), [band], CM) == (
        "'dots': 40 repeats make 320 stitches; 96 or more stitches can be there after what "
        "lies above it, with at most half again in a round, and 120 to 180 still lead to what "
        "lies below: 15 to 22 repeats can be reached."
    )


def test_a_pinned_band_between_sides_that_do_not_meet_tells_so() -> None:
    band = task(8, repeats=11)
    # derived: no count is 100 or more and at most 92
    assert misfit_message(Unreached(band, (100, 120), (60, 92)), [band], CM).endswith(
        "100 or more stitches can be there after what lies above it, with at most half again in "
        "a round, and at most 92 still lead to what lies below: none can be both."
    )
    alone = task(8, repeats=1)
    assert misfit_message(Unreached(alone, (100, 120), (60, 92)), [alone], CM).startswith(
        "'dots': 1 repeat makes 8 stitches; 100 or more"
    )
    # derived: 12 eights are 96, alone between 94 and 100
    one = misfit_message(Unreached(band, (94, 120), (60, 100)), [band], CM)
    assert one.endswith(": 12 repeats can be reached.")


def test_a_growing_band_without_a_multiple_tells_how_it_grows() -> None:
    band = task(16, grown=20)
    assert misfit_message(Unreached(band, (97, 111), (60, 200)), [band], CM) == (
        "Before 'dots' (each repeat grows from 16 to 20) 97 to 111 stitches can be there after "
        "what lies above it, with at most half again in a round, and at most 200 still lead to "
        "what lies below: no multiple of 16 is both."
    )
    steady = task(16)
    message = misfit_message(Unreached(steady, (97, 111), (60, 200)), [steady], CM)
    assert message.startswith("Before 'dots' 97 to 111 stitches can be there")


def test_where_no_chain_leads_every_repeat_is_told() -> None:
    bands = [task(16, name="a"), task(12, name="b", repeats=14)]
    found = misfit_finding(None, bands, (), CM)
    assert found.code == "bands.no-chain"
    assert found.message == (
        "No chain of increase rounds meets every repeat ('a': repeat of 16, 'b': repeat of 12, 14 "
        "pinned) near the line of the yoke and ends at a count the body and sleeves permit, even "
        "when those give way by a centimetre."
    )
    assert found.remedy == (
        "No small change helps: neither moving a band, nor another number of repeats, nor a yoke "
        "two inches (5 cm) deeper. Take fewer bands, with a narrower repeat and fewer rounds."
    )
    alone = misfit_finding(None, bands[:1], (), CM).remedy
    assert "Take another chart, with a narrower repeat" in alone


def test_what_was_tried_is_told_and_nothing_else() -> None:
    both = misfit_finding(None, [task()], ("leave it out", "move it"), CM)
    assert both.remedy == "Each of these was tried and works: leave it out; move it."
