"""A raglan of few numbers, worked out by hand: its shares, its pins, its bands, its refusals."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from tests.raglan.raglans import SECOND, banded, raglan, refused
from tests.shaping.parts import task, yoke, zones
from tests.sweaters import Sections, edited, planned, sized
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.raglan.bands import OverEnd, place_below, room_if_spread, room_of
from yokefellow.shaping.raglan.by_round import solve_by_round
from yokefellow.shaping.raglan.explain import Asked, raglan_pins_refused
from yokefellow.shaping.raglan.search import solve_raglan, with_pins
from yokefellow.shaping.raglan.shares import RaglanSolution, RaglanTask
from yokefellow.shaping.refusals import (
    NarrowFront,
    OverLastRound,
    PinChanged,
    PinnedLine,
    PinReason,
    PinsUnmet,
    RaglanRules,
    TooFewRounds,
    TooManyRounds,
)


def asked(fixed: Fixed | None = None, **changes: object) -> RaglanTask:
    """From 96 stitches, 32 of them the back's, to 84, 84 and twice 50 in 60 rounds."""
    wanted = RaglanTask(
        counts=yoke(shoulder=0.0, fixed=fixed or Fixed()),
        back_neck=32.0,
        line_width=2,
        rounds=60,
        room=60,
        shoulder_round=40,
    )
    return replace(wanted, **changes)  # type: ignore[arg-type]


def starts(found: RaglanSolution | None) -> tuple[int, int, int] | None:
    return None if found is None else (found.back.start, found.front.start, found.sleeve.start)


def times(found: RaglanSolution) -> tuple[int, int, int]:
    return len(found.back.rounds), len(found.front.rounds), len(found.sleeve.rounds)


def test_every_piece_grows_by_twos_to_its_end() -> None:
    found = solve_raglan(asked())
    assert found is not None
    assert found.neck.got == 96  # derived: as asked for; it leaves no rest by four, as 268 does
    for piece, end in ((found.back, 84), (found.front, 84), (found.sleeve, 50)):
        assert piece.stitches_at(60) == end


def test_shares_of_the_neck_that_are_pinned() -> None:
    pins = {"neck_back": 34, "neck_front": 32, "neck_sleeve": 16}
    # derived: all of them by twos to 84, 84 and 50
    assert starts(solve_raglan(asked(Fixed(**pins)))) == (34, 32, 16)
    # derived: 84 - 33 is odd
    assert solve_raglan(asked(Fixed(**{**pins, "neck_back": 33}))) is None
    assert solve_raglan(asked(Fixed(**{**pins, "neck_sleeve": 17}))) is None


def test_a_pinned_share_keeps_room_for_its_lines() -> None:
    # derived: half of two lines of two, and two stitches between them, are four
    pins = {"neck_back": 32, "neck_front": 32}
    assert starts(solve_raglan(asked(Fixed(neck_sleeve=4, **pins)))) == (32, 32, 4)
    assert solve_raglan(asked(Fixed(neck_sleeve=2, **pins))) is None
    assert starts(solve_raglan(asked(Fixed(neck_back=4, neck_front=4)))) is not None
    assert solve_raglan(asked(Fixed(neck_back=2, neck_front=2))) is None


def test_a_pinned_neck_leaves_the_sleeves_what_back_and_front_do_not_take() -> None:
    # derived: 96 less 64 are 16 for each sleeve
    assert starts(solve_raglan(asked(Fixed(neck=96, neck_back=32, neck_front=32)))) == (32, 32, 16)
    # derived: 97 leave half a stitch for each
    assert solve_raglan(asked(Fixed(neck=97, neck_back=32))) is None
    # derived: 64 and 32 are 96
    both = {"neck_back": 32, "neck_front": 32, "neck_sleeve": 16}
    assert starts(solve_raglan(asked(Fixed(neck=96, **both)))) == (32, 32, 16)
    assert solve_raglan(asked(Fixed(neck=100, **both))) is None


BEADS: Sections = {"chart": "beads"}

EIGHTS = tuple(range(100, 269, 8))
"""22 rounds of all four pieces, from 92 to 268."""


def test_gains_say_which_pieces_grow() -> None:
    pins = {"body": 200, "sleeve": 66, "underarm": 16}
    found = solve_by_round(asked(Fixed(increases=EIGHTS, **pins)))
    assert found is not None
    # derived: every piece grows 22 times by two, to 84, 84 and 50
    assert times(found) == (22, 22, 22)
    assert starts(found) == (40, 40, 6)
    assert [step.after for step in found.steps] == list(EIGHTS)


def test_a_round_that_adds_seven_is_no_raglans() -> None:
    assert solve_by_round(asked(Fixed(increases=(100, 107, *range(115, 269, 8))))) is None
    assert solve_by_round(asked(Fixed(increases=(100, 110, *range(118, 269, 8))))) is None


def test_pinned_counts_end_at_a_multiple_of_the_bands() -> None:
    # derived: 268 is 67 fours and no multiple of eight
    assert solve_by_round(asked(Fixed(increases=EIGHTS), repeat=4)) is not None
    assert solve_by_round(asked(Fixed(increases=EIGHTS), repeat=8)) is None
    assert solve_by_round(asked(Fixed(increases=EIGHTS), pinned=(268, 268))) is not None
    assert solve_by_round(asked(Fixed(increases=EIGHTS), pinned=(268, 272))) is None


def test_a_pinned_front_leaves_four_stitches_of_the_back() -> None:
    found = solve_by_round(asked(Fixed(increases=EIGHTS, front=170)))
    # derived: the 22 rounds make the front begin with 126 of the 92 there are
    assert found is None
    found = solve_by_round(asked(Fixed(increases=EIGHTS, front=88)))
    assert found is not None
    assert found.split.front == 88
    assert found.split.yoke == 268


@pytest.mark.parametrize("at", [tuple(range(2, 60, 2)), tuple(range(2, 47)), tuple(range(2, 40))])
def test_rounds_in_which_no_piece_grows_are_none(at: tuple[int, ...]) -> None:
    found = solve_by_round(asked(Fixed(increase_at=at)))
    assert found is not None
    # derived: in 45 rounds no piece grows every time: a back of 84 would begin with less than none
    assert [step.number for step in found.steps] == list(at)
    assert (max(times(found)) < len(at)) is (len(at) >= 45)
    for piece, end in (
        (found.back, found.split.back),
        (found.front, found.split.front),
        (found.sleeve, found.split.held),
    ):
        assert piece.stitches_at(60) == end


def test_bands_lie_below_the_increases() -> None:
    band, other = task(8), task(8, name="under")
    placed = place_below(
        [replace(band, at_cm=15.0), other], depth_cm=20.0, rounds_per_cm=3.0, least_rounds=8
    )
    assert not isinstance(placed, OverEnd)
    # derived: after 45 rounds; and with two plain rounds above the underarm, in 53 to 58
    assert [one.first for one in placed.bands] == [46, 53]
    assert (placed.rounds, room_of(placed)) == (60, 44)
    plain = place_below([], depth_cm=20.0, rounds_per_cm=3.0, least_rounds=8)
    assert not isinstance(plain, OverEnd)
    assert room_of(plain) == 60


@pytest.mark.parametrize(
    ("depths", "over"),
    [
        # derived: 45 and 48 rounds down, where the first takes six
        ((15.0, 16.0), "under"),
        # derived: two rounds are kept free at the neck; 0.3 cm is a round
        ((0.3, 15.0), "dots"),
        # derived: from round 58 on there are three
        ((10.0, 19.0), "under"),
    ],
)
def test_a_band_that_runs_into_something_is_named(depths: tuple[float, float], over: str) -> None:
    bands = [task(8, at_cm=depths[0]), task(8, name="under", at_cm=depths[1])]
    found = place_below(bands, depth_cm=20.0, rounds_per_cm=3.0, least_rounds=8)
    assert isinstance(found, OverEnd)
    assert (found.band.name, found.rounds) == (over, 60)


def test_two_bands_in_one_another_are_refused() -> None:
    found = refused(banded({"chart": "beads", "at": "15 cm"}, {"chart": "beads", "at": "15.5 cm"}))
    assert (found.code, found.field) == ("raglan.band-room", "garment.yoke.bands")
    assert "'beads' takes" in found.message


def test_bands_are_not_blamed_for_a_raglan_that_could_not_be_without_them() -> None:
    steep = raglan(size="3X", ease__chest="oversized", garment__yoke__depth="12 cm")
    bands = [{"chart": "beads"}]
    found = refused(edited(steep, garment__yoke__bands=bands, yarn__CC1=dict(SECOND)))
    assert (found.code, found.field) == ("raglan.steep", "garment.yoke.depth")
    assert found.message == refused(steep).message


def test_only_a_raglan_can_be_asked_for_its_neck() -> None:
    circular = planned(sized()).finished
    with pytest.raises(ValueError, match="no raglan"):
        _ = Asked(asked(), (), zones(), circular, "cm").fit


def test_bands_as_low_as_they_can_lie_leave_the_rounds_above_them() -> None:
    # derived: twice six rounds, three between and two below leave 43 of 60, and one stays plain
    two = zones((task(8, at_cm=5.0), 16), (task(8, at_cm=10.0), 31))
    assert room_if_spread(two) == 42
    # derived: ten bands of six with three between take 89 with the two below
    many = zones(*((task(8), at) for at in range(1, 60, 6)))
    assert room_if_spread(many) == 60 - 89 - 1


def test_a_band_inside_is_told_how_far_down_it_may_lie() -> None:
    found = refused(banded({"chart": "beads", "at": "4 cm"}, garment__yoke__depth="14 cm"))
    assert found.code == "raglan.bands-inside"
    # derived: 34 rounds and a plain one are 11.8 cm at 2.97 rounds to the cm
    assert "take at least 34 rounds" in found.message
    assert found.remedy == 'Write at = "spread", or at least 12 cm.'
    found = refused(
        banded({"chart": "beads", "at": "4 cm"}, garment__yoke__depth="14 cm", sheet__units="in")
    )
    assert found.remedy == 'Write at = "spread", or at least 4¾ in.'  # derived: 11.8 cm is 4.64 in


def test_a_first_band_is_not_sent_into_the_second() -> None:
    bands: list[Sections] = [{**BEADS, "at": "4 cm"}, {**BEADS, "at": "9 cm"}]
    assert refused(banded(*bands)).remedy == 'Write at = "spread".'
    planned(banded(*({**band, "at": "spread"} for band in bands)))


def test_bands_that_are_spread_already_need_a_deeper_yoke() -> None:
    three = banded(*[BEADS] * 3, garment__yoke__depth="14 cm")
    found = refused(three)
    assert found.code == "raglan.bands-inside"
    deeper = found.remedy.removeprefix("Make the yoke at least ").split(" deep,")[0]
    planned(edited(three, garment__yoke__depth=deeper))


def test_bands_at_their_depth_are_told_to_be_spread_in_a_deeper_yoke() -> None:
    bands: list[Sections] = [{**BEADS, "at": at} for at in ("2 cm", "5 cm", "8 cm")]
    high = banded(*bands, garment__yoke__depth="14 cm")
    remedy = refused(high).remedy
    spread = [{**band, "at": "spread"} for band in bands]
    start = 'Write at = "spread" and make the yoke at least '
    deeper = remedy.removeprefix(start).split(" deep,")[0]
    assert remedy == f"{start}{deeper} deep, or take fewer rounds of colour."
    planned(edited(high, garment__yoke__depth=deeper, garment__yoke__bands=spread))


def test_bands_deeper_than_the_yoke_are_told_to_be_spread_only_where_they_are_not() -> None:
    shallow = {"garment__yoke__depth": "12 cm"}
    many = banded(*[BEADS] * 9, **shallow)
    assert refused(many).code == "raglan.band-room"
    assert refused(many).remedy == "Take fewer bands, or choose a deeper yoke."
    low = refused(banded({"chart": "beads", "at": "11.8 cm"}, **shallow))
    assert low.remedy == 'Write at = "spread", take fewer bands, or choose a deeper yoke.'


def test_an_underarm_is_offered_only_where_a_raglan_can_have_it() -> None:
    steep = raglan(size="3X", ease__chest="oversized", garment__yoke__depth="12 cm")
    # derived: 58 times where 35 can be take 46 stitches more of an underarm, more than 30 cm
    assert "underarm" not in refused(steep).remedy
    for depth in ("13 cm", "16.5 cm"):
        tried = edited(steep, garment__yoke__depth=depth)
        wide = re.search("or the underarm ([0-9.]+ cm) wide", refused(tried).remedy)
        assert wide is not None
        planned(edited(tried, garment__yoke__underarm=wide[1]))


def test_a_pinned_neck_may_ask_for_a_front_two_wider_than_the_back() -> None:
    # derived: 98 leaves another rest by four than 268, so back and front differ by two
    found = solve_raglan(asked(Fixed(neck=98)))
    assert found is not None
    back, front, sleeve = starts(found) or (0, 0, 0)
    assert abs(front - back) == 2
    assert back + front + 2 * sleeve == 98
    assert solve_raglan(asked(Fixed(neck=97))) is None


def test_pinned_rounds_lie_between_the_second_and_the_last_that_may_increase() -> None:
    at = tuple(range(2, 60, 2))
    assert solve_by_round(asked(Fixed(increase_at=at), room=58)) is not None
    assert solve_by_round(asked(Fixed(increase_at=at), room=57)) is None
    assert solve_by_round(asked(Fixed(increase_at=(1, *at)))) is None


WHOLE = {"body": 200, "sleeve": 66, "underarm": 16}


@pytest.mark.parametrize(
    ("pins", "got"),
    [
        # derived: 22 rounds of all four pieces end at 84, 84 and 50
        ({"neck": 92}, (40, 40, 6)),
        ({"neck_sleeve": 6}, (40, 40, 6)),
        ({"neck_back": 40}, (40, 40, 6)),
        ({"neck_front": 40}, (40, 40, 6)),
        # derived: then the first round adds 4, and one piece or two do not grow in it
        ({"neck": 96}, (40, 40, 8)),
        ({"neck_front": 42}, (42, 42, 6)),
        # derived: no round adds 5, none of 23 is there, and no piece grows by one
        ({"neck": 95}, None),
        ({"neck_back": 38}, None),
        ({"neck_front": 38}, None),
        ({"neck_sleeve": 7}, None),
        ({"neck_back": 40, "neck_front": 38}, None),
    ],
)
def test_pinned_counts_and_pinned_shares_agree_or_do_not(
    pins: dict[str, int], got: tuple[int, int, int] | None
) -> None:
    assert starts(solve_by_round(asked(Fixed(increases=EIGHTS, **WHOLE, **pins)))) == got


def test_where_a_count_leaves_the_choice_open_the_shares_decide() -> None:
    # derived: 18 rounds of 8, and 8 of 4 that are the sleeves' or back and front's
    steps = (*range(100, 237, 8), *range(240, 269, 4))
    for sleeve, often in ((14, 18), (6, 22), (0, 25)):
        pins = Fixed(increases=steps, neck_sleeve=sleeve, **WHOLE)
        found = solve_by_round(asked(pins))
        assert found is not None
        # derived: 50 less what it begins with, by twos; the rounds of four that are left are the
        # others'
        assert times(found) == (26 + 18 - often, 26 + 18 - often, often)
    by_back = solve_by_round(asked(Fixed(increases=steps, neck_back=40, **WHOLE)))
    assert by_back is not None
    assert times(by_back) == (22, 22, 22)  # derived: 84 less 40


def test_an_increase_worked_in_a_stitch_needs_stitches_there() -> None:
    pins = Fixed(increases=tuple(68 + 8 * at for at in range(1, 26)), **WHOLE)
    # derived: 25 rounds of all four begin with 34, 34 and none of the sleeves
    assert starts(solve_by_round(asked(pins))) == (34, 34, 0)
    assert solve_by_round(asked(pins, takes_stitches=True)) is None
    # derived: half of two lines of two and two between them
    pins = Fixed(increases=tuple(84 + 8 * at for at in range(1, 24)), **WHOLE)
    assert starts(solve_by_round(asked(pins, takes_stitches=True))) == (38, 38, 4)


def test_a_sleeve_of_an_odd_share_grows_to_no_even_end() -> None:
    at = tuple(range(2, 54, 2))
    assert solve_by_round(asked(Fixed(increase_at=at, neck_sleeve=16))) is not None
    assert solve_by_round(asked(Fixed(increase_at=at, neck_sleeve=17))) is None


def test_pins_of_a_raglan_that_no_split_meets() -> None:
    free = asked()
    assert solve_raglan(with_pins(free, Fixed(yoke=269, body=200, underarm=16))) is None
    found = solve_raglan(with_pins(free, Fixed(body=204)))
    assert found is not None
    assert (found.split.body.got, found.split.body.wanted) == (204, 200.0)  # derived: the pin


@pytest.mark.parametrize(
    ("pins", "reason"),
    [
        # derived: 60 rounds, the first of which sets the markers
        ({"increase_at": (4, 61)}, OverLastRound(61, 60, of_raglan=True)),
        ({"increases": tuple(range(94, 94 + 120, 2))}, TooManyRounds(60, 59, has_bands=False)),
        # derived: 96 and three times eight, where 268 are wanted
        ({"neck": 96, "increase_at": (4, 8, 12)}, TooFewRounds(3, 96, 120, 268)),
        ({"increases": (100, 107, 268)}, RaglanRules(has_rounds=True)),
        ({"neck": 97}, RaglanRules(has_rounds=False)),
    ],
)
def test_pins_of_a_raglan_are_refused_with_their_rule(
    pins: dict[str, object], reason: PinReason
) -> None:
    pinned = with_pins(asked(), Fixed.model_validate(pins))
    assert solve_raglan(pinned) is None
    found = raglan_pins_refused(pinned, ())
    assert isinstance(found, PinsUnmet)
    assert found.reason == reason
    for offer in found.offers:
        if isinstance(offer, PinChanged):
            tried = pinned.counts.fixed.model_copy(update={offer.name: offer.value})
            assert solve_raglan(with_pins(pinned, tried)) is not None


def test_pins_that_leave_no_back_or_no_room_for_a_line_are_told_first() -> None:
    wide = raglan_pins_refused(with_pins(asked(), Fixed(front=165)), ())
    # derived: 200 round the body less two underarms of 16
    assert wide == NarrowFront("front", 165, 168)
    pins = Fixed(neck=68, increases=tuple(68 + 8 * at for at in range(1, 26)), **WHOLE)
    kfb = raglan_pins_refused(with_pins(asked(takes_stitches=True), pins), ())
    assert kfb == PinnedLine("line_increase", 2, None, takes_stitches=True)
    # derived: back and front begin with 34, and lines of 17 take 34 and need two between them
    line = raglan_pins_refused(with_pins(asked(line_width=17), pins), ())
    assert line == PinnedLine("line_width", 17, 16, takes_stitches=False)
    both = raglan_pins_refused(with_pins(asked(line_width=17, takes_stitches=True), pins), ())
    assert both == PinnedLine("line_width", 17, 16, takes_stitches=True)


def test_an_odd_front_begins_a_stitch_apart_from_an_even_back() -> None:
    found = solve_raglan(with_pins(asked(), Fixed(front=85, back=84)))
    assert found is not None
    # derived: each grows by twos, so the one stitch is there from the neck on
    assert (found.split.front, found.split.back, found.split.body.got) == (85, 84, 201)
    back, front, _ = starts(found) or (0, 0, 0)
    assert abs(front - back) == 1
    assert (85 - front) % 2 == (84 - back) % 2 == 0
