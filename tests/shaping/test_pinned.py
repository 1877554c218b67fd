"""A yoke around its pins, without the rest of the sweater; and what is said where none is."""

from __future__ import annotations

from itertools import pairwise, product

import pytest

from tests.shaping.parts import task, yoke, zones
from tests.sweaters import project, sized
from yokefellow.findings import PlanError, Severity
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.banded import Misfit
from yokefellow.shaping.circular import solve
from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.even import repeats_needed
from yokefellow.shaping.line import broken_rules
from yokefellow.shaping.meeting import split_meeting
from yokefellow.shaping.pinned import meets, solve_pinned
from yokefellow.shaping.pinned_front import front_too_wide, halved, with_pinned_front
from yokefellow.shaping.pins_refused import pins_refused
from yokefellow.shaping.shapes import Split
from yokefellow.shaping.taper import taper
from yokefellow.shaping.task import Solution, YokeTask, splits_for
from yokefellow.shaping.zones import BandTask, PlacedBand, Zones


def solved(asked: YokeTask) -> Solution:
    found = solve_pinned(asked)
    assert isinstance(found, Solution)
    return found


def test_pins_that_no_split_meets_have_no_yoke() -> None:
    pins = {"body": 200, "underarm": 16}
    # derived: Y = 168 + 2 S - 32, so an odd yoke would take half a stitch
    assert solve_pinned(yoke(fixed=Fixed(yoke=269, **pins))) is None
    assert solved(yoke(fixed=Fixed(yoke=268, **pins))).split.sleeve.got == 66
    assert solved(yoke(fixed=Fixed(yoke=270, **pins))).split.sleeve.got == 67


def test_what_was_asked_for_stands_beside_the_pin() -> None:
    found = solved(yoke(fixed=Fixed(neck=100, body=204)))
    # derived: the pins, and what was measured
    assert found.neck == Count(100, 96.0, 2.0)
    assert found.split.body == Count(204, 200.0, 2.0)
    assert found.split.sleeve == Count(66, 66.0, 2.0)


def test_a_round_adds_no_more_than_a_stitch_to_each() -> None:
    # derived: 130 is twice 65, and more than twice 64
    found = solved(yoke(fixed=Fixed(neck=65, increases=(130, 268))))
    assert (found.neck.got, found.split.yoke) == (65, 268)
    assert [(step.before, step.after) for step in found.increase_rounds] == [(65, 130), (130, 268)]
    assert "steep" in found.broken
    assert solve_pinned(yoke(fixed=Fixed(neck=64, increases=(130, 260)))) is None
    # A round that adds nothing is none.
    assert solve_pinned(yoke(fixed=Fixed(neck=130, increases=(130, 268)))) is None


def test_more_increase_rounds_than_fit_three_apart_stand_closer() -> None:
    counts = tuple(96 + 172 * at // 30 for at in range(1, 31))
    found = solved(yoke(fixed=Fixed(neck=96, increases=counts)))
    # derived: 59 rounds from the second on, shared among 30: twos and a last one
    assert [step.number for step in found.increase_rounds] == [*range(3, 60, 2), 60]
    assert [step.after for step in found.increase_rounds] == list(counts)
    assert "apart" in found.broken
    # derived: rounds 2 to 60 are 59
    for times, fits in ((59, True), (60, False)):
        counts = tuple(96 + 172 * at // times for at in range(1, times + 1))
        found_or_none = solve_pinned(yoke(fixed=Fixed(neck=96, increases=counts)))
        assert isinstance(found_or_none, Solution) is fits
    assert taper(59, 59) == tuple(range(1, 60))


def banded(band: BandTask, first: int, fixed: Fixed, **changes: object) -> YokeTask:
    return yoke(places=(zones((band, first)),), fixed=fixed, **changes)


def test_a_band_below_every_pinned_round_has_the_yokes_own_count() -> None:
    found = solved(banded(task(4), 40, Fixed(increase_at=(5, 12, 20))))
    assert [step.number for step in found.increase_rounds] == [5, 12, 20]
    # derived: nothing grows below the band, so it goes round the 268 of the yoke 67 times
    (band,) = found.bands
    assert (band.start.got, band.repeats, found.split.yoke) == (268, 67, 268)
    # derived: 268 is no multiple of 8, nor any split so near to what was wanted
    assert solve_pinned(banded(task(8), 40, Fixed(increase_at=(5, 12, 20)))) is None


def test_a_pinned_round_may_not_lie_in_a_band() -> None:
    assert solve_pinned(banded(task(4), 40, Fixed(increase_at=(5, 12, 42)))) is None
    # derived: the band lies in 40 to 45
    found = solved(banded(task(4), 40, Fixed(increase_at=(5, 20, 39, 46))))
    assert [step.number for step in found.increase_rounds] == [5, 20, 39, 46]


# derived: the yoke of these tests has 60 rounds
@pytest.mark.parametrize("places", [(), (zones((task(4), 40)),)], ids=["plain", "banded"])
def test_a_pinned_round_lies_in_the_yoke(places: tuple[Zones, ...]) -> None:
    last = solved(yoke(places=places, fixed=Fixed(increase_at=(5, 20, 30, 60))))
    assert [step.number for step in last.increase_rounds] == [5, 20, 30, 60]
    assert solve_pinned(yoke(places=places, fixed=Fixed(increase_at=(5, 20, 30, 61)))) is None
    counts = (130, 180, 230, 268)
    pins = Fixed(increases=counts, increase_at=(5, 20, 30, 61))
    assert solve_pinned(yoke(places=places, fixed=pins)) is None


def test_pinned_rounds_need_a_split_too() -> None:
    asked = banded(task(4), 40, Fixed(increase_at=(5, 12, 20)), underarm=70.0)
    assert solve_pinned(asked) is None


def split(body: int = 200) -> Split:
    return Split(Count(body, 200.0, 2.0), Count(66, 66.0, 2.0), Count(16, 16.0, 2.0))


def test_front_and_back_are_pinned_within_what_there_is() -> None:
    whole = split()
    assert halved(whole, Fixed()) is whole
    assert halved(whole, Fixed(front=84)) is whole
    narrow = halved(whole, Fixed(back=100))
    assert narrow is not None
    assert (narrow.front, narrow.back) == (68, 100)  # derived: 168 between the underarms
    both = halved(whole, Fixed(front=90, back=78))
    assert both is not None
    assert (both.front, both.back) == (90, 78)  # derived: the pins
    # derived: 90 and 90 are 180
    assert halved(whole, Fixed(front=90, back=90)) is None
    # derived: four stitches stay
    for front, fits in ((164, True), (165, False)):
        found = halved(whole, Fixed(front=front))
        assert (found is not None) is fits
    least = halved(whole, Fixed(back=164))
    assert least is not None
    assert least.front == 4  # derived: the rest


def test_a_half_that_leaves_too_little_is_told() -> None:
    assert front_too_wide(split(), Fixed(front=164)) is None
    found = front_too_wide(split(), Fixed(back=165))
    assert found is not None
    assert (found.code, found.severity) == ("fixed.front-back", Severity.ERROR)
    assert found.field == "fixed.back"
    # derived: 200 - 2 * 16, less four
    assert found.message == (
        "Front and back have 168 stitches together between the underarms, and a back of 165 "
        "leaves fewer than 4 for the other."
    )
    assert found.remedy == "Write at most 164, or pin a larger body."


def refused(
    pins: dict[str, object], *bands: BandTask, fits: Fixed | None = None
) -> tuple[str, str, str]:
    made = project({**sized(), "fixed": pins})
    why = Misfit(bands[0], 120.0, 7, 8, (6, 9)) if bands else None
    found = pins_refused(why, bands, lambda fixed, _: fixed == fits or None, made)
    assert (found.field, found.severity) == ("fixed", Severity.ERROR)
    return found.code, found.message, found.remedy


def test_pins_that_cannot_be_met_are_named_with_the_rule() -> None:
    code, message, remedy = refused({"neck": 300, "yoke": 268})
    assert code == "fixed.no-way"
    assert message == (
        "No yoke meets these pins together: neck = 300, yoke = 268. Between the neck and the "
        "underarm a round that is not pinned adds at most one stitch to every two, rounds of "
        "increase lie three rounds apart, and body, sleeves and underarms must add up to the yoke."
    )
    assert remedy == (
        "No pin within a few stitches of one of these helps: take two or more of them out."
    )


def test_what_else_was_tried_comes_first() -> None:
    made = project({**sized(), "fixed": {"neck": 300, "yoke": 268}})
    fits = Fixed(neck=300)
    found = pins_refused(None, (), lambda fixed, _: fixed == fits or None, made, "So.", ("this",))
    assert found.message.endswith("neck = 300, yoke = 268. So.")
    assert found.remedy == (
        "Each of these was tried and works: this; the line with yoke taken out."
    )


def test_pins_of_a_banded_yoke_say_what_the_band_met() -> None:
    code, message, _ = refused({"neck": 96, "yoke": 268}, task(16))
    assert code == "fixed.bands"
    # derived: 7 and 8 sixteens, worked out in test_misfits.py
    assert message == (
        "No yoke meets these pins together: neck = 96, yoke = 268. The repeat of 'dots' is 16 "
        "stitches, and the yoke wants 120 stitches there (60 cm round); 7 repeats make 112 and 8 "
        "repeats make 128, and neither lies within 4 %. A repeat of 15 or 17 stitches would fit."
    )


def test_counts_that_no_repeat_divides_are_told_with_the_repeat() -> None:
    pins: dict[str, object] = {"neck": 98, "increases": [150, 200, 268]}
    _, message, _ = refused(pins, task(16))
    assert message.endswith(
        "increases = [150, 200, 268]. The repeat of 'dots' is 16 stitches, which divides none of "
        "98, 150, 200, 268."
    )
    # derived: 200 is 25 eights, so the repeat of eight is not to blame
    _, message, _ = refused(pins, task(8))
    assert "divides none" not in message


@pytest.mark.parametrize(
    ("fits", "words"),
    [
        # derived: 2 less is tried before 2 more, and 12 are the most
        (Fixed(neck=98, yoke=268), "neck = 98"),
        (Fixed(neck=100, yoke=256), "yoke = 256"),
        (Fixed(neck=100), "the line with yoke taken out"),
        (Fixed(yoke=268), "the line with neck taken out"),
    ],
)
def test_one_change_that_was_tried_is_offered(fits: Fixed, words: str) -> None:
    _, _, remedy = refused({"neck": 100, "yoke": 268}, fits=fits)
    assert remedy == f"This was tried and works: {words}."


def test_counts_are_offered_at_multiples_of_the_repeat() -> None:
    pins: dict[str, object] = {"increases": [150, 201, 268]}
    # derived: 19 eights are 152, 25 are 200; 268 may stay as it is, or go to 34 eights, 272
    for counts in ((152, 200, 268), (152, 200, 272)):
        _, _, remedy = refused(pins, task(8), fits=Fixed(increases=counts))
        assert remedy == f"This was tried and works: increases = {list(counts)}."


def test_a_free_solution_may_meet_its_pins_by_itself() -> None:
    free = solve(yoke())
    assert isinstance(free, Solution)
    steps = free.increase_rounds
    met: dict[str, object] = {
        "neck": free.neck.got,
        "yoke": 268,
        "body": 200,
        "sleeve": 66,
        "underarm": 16,
        "front": 84,
        "back": 84,
        "increases": tuple(step.after for step in steps),
        "increase_at": tuple(step.number for step in steps),
    }
    assert meets(yoke(), free)
    assert meets(yoke(fixed=Fixed.model_validate(met)), free)
    for name in ("neck", "yoke", "body", "sleeve", "underarm"):
        pin = met[name]
        assert isinstance(pin, int)
        assert not meets(yoke(fixed=Fixed.model_validate({name: pin + 1})), free), name
    # Front and back together come to what they are; which has more is decided later.
    assert meets(yoke(fixed=Fixed(front=80, back=88)), free)
    assert not meets(yoke(fixed=Fixed(front=84, back=86)), free)
    assert not meets(yoke(fixed=Fixed(increase_at=(5, 12, 20))), free)
    assert not meets(yoke(fixed=Fixed(increases=(130, 268))), free)


def test_a_free_neck_gives_way_to_the_first_pinned_count() -> None:
    # derived: 150 is half again of 100, and so of no neck of 96; multiples of two
    assert solved(yoke(fixed=Fixed(increases=(150, 268)))).neck == Count(100, 96.0, 2.0)
    assert solved(yoke(fixed=Fixed(increases=(140, 268)))).neck.got == 96
    # derived: and it stays below the first count
    assert solved(yoke(fixed=Fixed(increases=(90, 130, 190, 268)))).neck.got == 88


def test_pinned_rounds_take_the_counts_of_the_line() -> None:
    found = solved(yoke(fixed=Fixed(increase_at=(10, 20, 30), neck=100)))
    assert [step.number for step in found.increase_rounds] == [10, 20, 30]
    # derived: the line is straight from 100 in round 0 to 268 in round 35, half a step below the
    # last; half-way between the rounds, at 15 and 25, it has 172 and 220. But a round adds less
    # than half, so the first comes to 148 at the most, and each may lie some stitches off
    first, second, last = (step.after for step in found.increase_rounds)
    assert abs(first - 148) <= 6
    assert abs(second - 219) <= 9
    assert last == found.split.yoke == 268
    alone = solved(yoke(fixed=Fixed(increase_at=(20,)), neck=200.0))
    assert [(step.number, step.after) for step in alone.increase_rounds] == [(20, 268)]


def test_pinned_counts_go_round_their_band() -> None:
    counts = (120, 144, 200, 268)
    found = solved(banded(task(8), 24, Fixed(neck=96, increases=counts)))
    assert [step.after for step in found.increase_rounds] == list(counts)
    (band,) = found.bands
    # derived: of 96, 120, 144 and 200 the band takes the one nearest to the line, which has 195 as
    # the band's middle comes, after 26 rounds: 96 + 172 * 26 / 45
    assert (band.start.got, band.repeats) == (200, 25)
    above = [step.number for step in found.increase_rounds if step.after <= 200]
    assert max(above) < 24
    # derived: 15 divides 120 alone, and the rounds of a band of 15 below 268 never
    only = solved(banded(task(15), 24, Fixed(neck=96, increases=counts)))
    assert only.bands[0].start.got == 120
    assert solve_pinned(banded(task(7), 24, Fixed(neck=96, increases=counts))) is None


def test_the_last_pinned_count_may_fill_the_stretch_below_a_band() -> None:
    # derived: a band of six from round 54 on leaves the 60th alone
    found = solved(banded(task(8), 54, Fixed(neck=96, increases=(120, 144, 200, 268))))
    assert found.bands[0].start.got == 200
    assert [step.number for step in found.increase_rounds if step.after == 268] == [60]


def test_more_pinned_counts_than_the_stretch_below_a_band_holds_have_no_yoke() -> None:
    # derived: 25 divides 200 alone, so two rounds come below the band, three apart: they fit into
    # the four rounds from 57 on, and not into the last one
    fixed = Fixed(neck=96, increases=(120, 144, 200, 235, 268))
    assert solved(banded(task(25), 51, fixed)).bands[0].start.got == 200
    assert solve_pinned(banded(task(25), 54, fixed)) is None


def test_a_round_that_is_pinned_to_more_than_half_is_said_to_be_steep() -> None:
    # derived: half of 96 is 48, and 160 is 64 more
    found = solved(banded(task(8), 30, Fixed(neck=96, increases=(160, 268))))
    assert found.bands[0].start.got == 160
    assert "steep" in found.broken


def test_a_half_that_leaves_too_little_is_refused() -> None:
    with pytest.raises(PlanError) as refused_with:
        with_pinned_front(split(), Fixed(front=165))
    (found,) = refused_with.value.findings
    assert found.field == "fixed.front"
    assert with_pinned_front(split(), Fixed(front=90)).back == 78  # derived: 168 less 90


def test_front_and_back_that_are_pinned_ask_for_a_body() -> None:
    wanted = (200.0, 66.0, 16.0)
    # derived: 90 and 82 between two underarms of 16 are 204
    assert split_meeting(None, (None, 66, 16), wanted, 172) == ((204, 66, 16),)
    assert split_meeting(None, (204, 66, 16), wanted, 172) == ((204, 66, 16),)
    assert split_meeting(None, (200, 66, 16), wanted, 172) == ()
    # derived: 200 - 172 are underarms of 14
    assert split_meeting(None, (200, 66, None), wanted, 172) == ((200, 66, 14),)
    assert solved(yoke(fixed=Fixed(front=90, back=82))).split.body.got == 204


def test_a_long_list_of_pins_is_cut_short() -> None:
    counts = list(range(100, 269, 12))
    _, message, _ = refused({"increases": counts})
    assert "increases = [100, 112, 124, 136, … 268]." in message
    _, message, _ = refused({"increases": counts[:12]})
    assert f"increases = {counts[:12]}." in message


def offered(pins: dict[str, object], *bands: BandTask) -> str:
    """What is offered where every other pin works."""
    made = project({**sized(), "fixed": pins})
    return pins_refused(None, bands, lambda fixed, _: fixed, made).remedy


def test_the_pin_itself_is_not_offered_nor_fewer_than_two_stitches() -> None:
    start = "Each of these was tried and works: "
    assert offered({"neck": 100}) == f"{start}neck = 99; the line with neck taken out."
    # derived: an underarm has two stitches at the least, and one less than three
    for pin, other in ((2, 3), (3, 2)):
        assert offered({"underarm": pin}) == (
            f"{start}underarm = {other}; the line with underarm taken out."
        )


def test_counts_that_would_no_longer_grow_are_not_offered() -> None:
    # derived: 150 and 152 are both nearest to 19 eights
    remedy = offered({"increases": [150, 152, 268]}, task(8))
    assert remedy == "This was tried and works: the line with increases taken out."


@pytest.mark.parametrize(
    ("pinned", "width", "counts"),
    [
        # derived: seven would be nearer to nine, and no round has fewer than eight
        ([9, 268], 7, (14, 268)),
        # derived: eight is an eight itself; 268 lies between 33 and 34 of them
        ([8, 268], 8, (8, 272)),
    ],
)
def test_no_round_is_offered_with_fewer_than_eight(
    pinned: list[int], width: int, counts: tuple[int, ...]
) -> None:
    _, _, remedy = refused({"increases": pinned}, task(width), fits=Fixed(increases=counts))
    assert remedy == f"This was tried and works: increases = {list(counts)}."


def test_every_band_that_divides_no_count_is_named() -> None:
    pins: dict[str, object] = {"increases": [150, 200, 268]}
    _, message, _ = refused(pins, task(16), task(7, name="dashes"))
    assert message.endswith(
        "increases = [150, 200, 268]. The repeat of 'dots' is 16 stitches, which divides none of "
        "150, 200, 268. The repeat of 'dashes' is 7 stitches, which divides none of 150, 200, 268."
    )


def test_rounds_that_just_fit_stay_three_apart() -> None:
    counts = tuple(96 + 172 * at // 20 for at in range(1, 21))
    found = solved(yoke(first_round=3, fixed=Fixed(neck=96, increases=counts)))
    # derived: twenty rounds from the third on end in the 60th, the last there is
    assert [step.number for step in found.increase_rounds] == list(range(3, 61, 3))
    assert "apart" not in found.broken


def test_rounds_that_are_pinned_may_fill_the_yoke() -> None:
    # derived: half as many again in each of four rounds are five times 100
    found = solved(yoke(neck=100.0, rounds=4, fixed=Fixed(increase_at=(1, 2, 3, 4))))
    assert [step.number for step in found.increase_rounds] == [1, 2, 3, 4]
    assert found.split.yoke == 268


def simplest(asked: YokeTask) -> tuple[int, ...]:
    """The counts of a yoke whose rounds are pinned, looked for among all there are."""
    at, necks = asked.fixed.increase_at, asked.necks
    full = at[-1] + ((at[-1] - at[-2]) / 2 if len(at) > 1 else 0)
    wanted, now = [], asked.neck
    for early, late in pairwise(at):
        line = asked.neck + (asked.yoke - asked.neck) * (early + late) / 2 / full
        # A round adds a stitch at the least, and less than half; its count may lie 4 % off the
        # line, three stitches at the least and ten at the most.
        now = min(max(line, now + 1), 1.48 * now)
        wanted.append(now)
    near = [
        range(round(want) - off, round(want) + off + 1)
        for want in wanted
        for off in [min(10, max(3, nearest(0.04 * want)))]
    ]
    tries: list[tuple[float, float, float, tuple[int, ...]]] = []
    for counts in product(necks, *near, sorted(splits_for(asked))):
        steps = list(pairwise(counts))
        if not all(0 < after - before <= after // 3 for before, after in steps):
            continue
        broken = broken_rules(counts, at, shoulder=asked.covering, rounds=asked.rounds)
        steep = any(2 * (after - before) > before for before, after in steps)
        hard = sum(repeats_needed(before, after - before) for before, after in steps)
        pairs = zip(counts[1:], (*wanted, asked.yoke), strict=True)
        off = sum(((count - want) / want) ** 2 for count, want in pairs)
        tries.append((len(broken) + steep, hard, off, counts))
    return min(tries)[-1]


@pytest.mark.parametrize(
    ("at", "changes"),
    [
        # The line ends half a step below the last of two rounds, too.
        ((12, 40), {"neck": 200.0}),
        ((38, 40), {"neck": 200.0}),
        ((2, 42), {"neck": 240.0, "body": 201.0}),
        # A round that lies right below another adds a stitch at the least.
        ((2, 3, 20), {"neck": 260.0}),
        ((2, 3, 4, 38), {"neck": 49.0, "body": 48.0, "sleeve": 13.0, "underarm": 4.0}),
        # Few stitches may lie three off.
        ((33, 54), {"neck": 50.0, "body": 32.0, "sleeve": 36.0, "underarm": 4.0}),
        # Of ends that are as simple to come to, the one that lies nearest to what was wanted.
        ((27, 32, 33), {"neck": 37.2, "body": 26.0, "sleeve": 25.0, "underarm": 4.0}),
    ],
)
def test_pinned_rounds_have_the_simplest_counts_near_the_line(
    at: tuple[int, ...], changes: dict[str, object]
) -> None:
    asked = yoke(fixed=Fixed(increase_at=at), shoulder=0.0, **changes)
    found = solved(asked)
    # derived: by trying all of them
    steps = tuple(step.after for step in found.increase_rounds)
    assert (found.neck.got, *steps) == simplest(asked)


def test_the_neck_nearest_to_what_was_wanted_has_the_pinned_counts() -> None:
    # derived: 97.2 lies 0.8 from 98 and 1.2 from 96; to 110 both add with one word more
    found = solved(yoke(neck=97.2, shoulder=0.0, fixed=Fixed(increases=(110, 130, 190, 268))))
    assert repeats_needed(96, 14) == repeats_needed(98, 12) == 2
    assert found.neck == Count(98, 97.2, 2.0)


def simplest_with(asked: YokeTask, band: PlacedBand) -> tuple[int, ...]:
    """The counts of a yoke whose rounds are pinned and all but one of its ends, round a band."""
    at, now = asked.fixed.increase_at, asked.neck
    (end,) = splits_for(asked)
    above = [number for number in at if number < band.first]
    # The line is straight from the neck to three quarters of the yoke.
    middle = (band.first - 1 + band.last) / 2
    there = asked.neck + (end - asked.neck) * min(1.0, middle / (0.75 * asked.rounds))
    wanted: list[float] = []
    near: list[range] = []
    for place, number in enumerate(at):
        goal, left = (
            (there, len(above) - place) if number < band.first else (float(end), len(at) - place)
        )
        # A round adds a stitch at the least, and half at the most; its count may lie 6 % off, and
        # four stitches at the least.
        now += max(1.0, min((goal - now) / left, 0.5 * now))
        off = max(4, nearest(0.06 * now))
        wanted.append(now)
        near.append(range(round(now) - off, round(now) + off + 1))
    if at[-1] > band.first:
        wanted[-1], near[-1] = float(end), range(end, end + 1)
    tries: list[tuple[float, float, tuple[int, ...]]] = []
    for counts in product(asked.necks, *near):
        steps = list(pairwise(counts))
        fits = counts[-1] == end and counts[len(above)] % band.task.first_width == 0
        if not fits or not all(0 < after - before <= after // 3 for before, after in steps):
            continue
        hard = sum(repeats_needed(before, after - before) for before, after in steps)
        pairs = zip(counts[1:], wanted, strict=True)
        off_line = sum(((count - want) / want) ** 2 for count, want in pairs)
        tries.append((hard, off_line, counts))
    return min(tries)[-1]


@pytest.mark.parametrize(
    ("at", "band", "changes"),
    [
        ((4, 9, 17, 43), (1, 11), {"neck": 260.0}),
        ((2, 3, 10), (4, 16), {"neck": 260.0}),
        ((30, 41), (2, 11), {"neck": 200.0}),
        ((22, 46), (2, 33), {"neck": 150.0}),
        ((14, 19, 25), (2, 17), {"neck": 46.0, "body": 30.0, "sleeve": 24.0, "underarm": 4.0}),
        ((31, 49), (4, 3), {"neck": 40.0, "body": 66.0, "sleeve": 14.0, "underarm": 6.0}),
        ((12, 30, 37), (5, 16), {"neck": 60.0, "body": 62.0, "sleeve": 32.0, "underarm": 4.0}),
    ],
)
def test_pinned_rounds_round_a_band_have_the_simplest_counts(
    at: tuple[int, ...], band: tuple[int, int], changes: dict[str, object]
) -> None:
    width, first = band
    asked = banded(task(width, 2), first, Fixed(increase_at=at), shoulder=0.0, **changes)
    found = solved(asked)
    # derived: by trying all of them
    steps = tuple(step.after for step in found.increase_rounds)
    assert (found.neck.got, *steps) == simplest_with(asked, asked.places[0].bands[0])
