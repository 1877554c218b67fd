"""A raglan with pins: front and back, and the increase rounds, are met exactly or refused."""

from __future__ import annotations

import re
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.knitter import knit_page
from tests.often import often
from tests.raglan.raglans import banded, pieces_of, raglan, refused, yoke_of
from tests.sweaters import Sections, planned, planned_or_refused
from yokefellow.findings import PlanError
from yokefellow.plan import Plan
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.text import render_text


def starts(made: Plan) -> list[int]:
    return [piece.start for piece in pieces_of(yoke_of(made))]


def steps(made: Plan) -> tuple[list[int], list[int]]:
    """The rounds that increase, and the counts after them."""
    rounds = made.shape.yoke.increase_rounds
    return [one.number for one in rounds], [one.after for one in rounds]


def knitted_as_printed(made: Plan) -> None:
    assert knit_page(render_html(made)).held == (made.shape.split.held,) * 2


# derived: the pins themselves
@pytest.mark.parametrize(
    "pins",
    [
        {"front": 100},
        {"back": 90},
        {"front": 101, "back": 90},
        {"front": 98, "back": 94, "underarm": 18},
        {"front": 96, "yoke": 300},
        {"back": 95, "body": 221},
        {"front": 98, "back": 94, "neck_front": 36, "neck_back": 34},
    ],
)
def test_front_and_back_of_a_raglan_are_met_and_can_be_knitted(pins: dict[str, int]) -> None:
    made = planned(raglan(fixed=pins))
    split = made.shape.split
    got = {
        "front": split.front,
        "back": split.back,
        "underarm": split.underarm.got,
        "yoke": split.yoke,
        "body": split.body.got,
        "neck_back": starts(made)[0],
        "neck_front": starts(made)[1],
    }
    assert {name: got[name] for name in pins} == pins
    assert split.front + split.back == split.body.got - 2 * split.underarm.got
    knitted_as_printed(made)
    told = {one.field: one.message for one in made.findings if one.code == "fixed.cost"}
    assert set(told) == {f"fixed.{name}" for name in pins}
    words = " ".join(render_text(made).split())
    assert all(message in words for message in told.values())


def test_a_front_that_leaves_no_back_is_refused_with_the_most_there_can_be() -> None:
    free = planned(raglan()).shape.split
    found = refused(raglan(fixed={"front": 400}))
    assert (found.code, found.field) == ("fixed.front-back", "fixed.front")
    most = int(found.remedy.split("at most ")[1].split(",")[0])
    assert most == free.front + free.back - 4  # derived: four stitches stay for the back


def grown_by_dice(seed: int) -> dict[str, list[int]]:
    """The counts and rounds of a raglan that somebody else might have written.

    derived: every round widens pieces drawn by dice, by two stitches each.
    """
    dice = Random(seed)
    times = dice.randint(12, 30)
    gains = [dice.choice((8, 8, 8, 8, 4, 4, 6, 2)) for _ in range(times)]
    neck = dice.choice((84, 92, 96, 101))
    counts = [neck + sum(gains[: at + 1]) for at in range(times)]
    return {
        "neck": [neck],
        "increases": counts,
        "increase_at": sorted(dice.sample(range(2, 50), times)),
    }


@often(40)
@given(
    st.integers(0, 10**6).map(grown_by_dice),
    st.sets(st.sampled_from(["neck", "increases", "increase_at"]), min_size=1),
    st.sampled_from(["lifted", "yarn over"]),
)
def test_increase_rounds_are_met_exactly_or_refused(
    grown: dict[str, list[int]], names: set[str], increase: str
) -> None:
    pins: dict[str, object] = {name: grown[name] for name in names}
    if "neck" in pins:
        pins["neck"] = grown["neck"][0]
    try:
        made = planned(raglan(fixed=pins, garment__yoke__line_increase=increase))
    except PlanError as error:
        # Eight stitches to a round do not lead from every neck to a body that was not pinned.
        if "increases" in names or {one.code for one in error.findings} != {"fixed.no-way"}:
            raise
        return
    rounds, counts = steps(made)
    assert pins.get("increases", counts) == counts
    assert pins.get("increase_at", rounds) == rounds
    assert pins.get("neck", made.shape.neck.stitches.got) == made.shape.neck.stitches.got
    yoke, split = yoke_of(made), made.shape.split
    ends = [piece.stitches_at(yoke.rounds.got) for piece in pieces_of(yoke)]
    assert ends == [split.back, split.front, split.held]
    knitted_as_printed(made)


@often(25)
@given(st.integers(0, 10**6), st.sampled_from(["S", "M", "2X"]))
def test_counts_that_a_raglan_has_come_back_from_its_other_pieces(seed: int, size: str) -> None:
    """Pin everything but which pieces grow: as many of each, and the same whole counts."""
    free = planned_or_refused(raglan(size=size))
    assert free is not None
    dice, yoke, split = Random(seed), yoke_of(free), free.shape.split
    rounds, counts = steps(free)
    # derived: other rounds than the free raglan's, so that it cannot be met by itself
    moved = [number + 1 if number < rounds[-1] and dice.random() < 0.5 else number
             for number in rounds]  # fmt: skip
    at = sorted(set(moved))
    if len(at) != len(rounds) or at == rounds:
        return
    pins = {
        "neck_back": yoke.back.start,
        "neck_front": yoke.front.start,
        "neck_sleeve": yoke.sleeve.start,
        "increases": counts,
        "increase_at": at,
        "body": split.body.got,
        "sleeve": split.sleeve.got,
        "underarm": split.underarm.got,
    }
    made = planned(raglan(size=size, fixed=pins))
    assert steps(made) == (at, counts)
    for ours, theirs in zip(pieces_of(yoke_of(made)), pieces_of(yoke), strict=True):
        assert (ours.start, len(ours.rounds)) == (theirs.start, len(theirs.rounds))
    knitted_as_printed(made)


# derived: what two stitches to a piece come to
@pytest.mark.parametrize(
    ("gain", "pieces"), [(8, "all pieces"), (4, "back and front"), (4, "sleeves")]
)
def test_a_count_says_which_pieces_grow(gain: int, pieces: str) -> None:
    last = 92 + 8 * 20 + gain
    held = 20 + 2 * 20 + (2 if pieces != "back and front" else 0)
    pins = {
        "neck": 92,
        "neck_sleeve": 20,
        "increases": [*range(100, 92 + 8 * 20 + 1, 8), last],
        "increase_at": [*range(2, 41, 2), 47],
        "underarm": 16,
        "sleeve": held + 16,
    }
    made = planned(raglan(fixed=pins))
    row = next(row for row in made.rows if row.section.key == "yoke" and row.number == 47)
    assert row.row.why == f"increase round 21 of 21: {pieces}"
    knitted_as_printed(made)


def test_rounds_in_which_back_and_sleeves_take_turns_are_shared_out_evenly() -> None:
    free = yoke_of(planned(raglan()))
    counts = [84 + 8 * at for at in range(1, 13)]
    counts += [counts[-1] + 4 * at for at in range(1, 25)]
    made = planned(raglan(fixed={"neck": 84, "increases": counts}))
    sleeve = yoke_of(made).sleeve.rounds
    turns = [number for number, _ in zip(*steps(made), strict=True)][12:]
    own = [turns.index(number) for number in sleeve if number in turns]
    gaps = {late - early for early, late in pairwise(own)}
    assert not gaps or max(gaps) - min(gaps) <= 1  # derived: as even as whole rounds can be
    assert free.rounds == yoke_of(made).rounds


def test_rounds_that_no_rate_says_are_told_by_their_numbers() -> None:
    at = [3, 4, 8, 9, 15, 22, 23, 31, 40, 41, 46]
    free = planned(raglan(garment__neck__opening="70 cm"))
    made = planned(raglan(garment__neck__opening="70 cm", fixed={"increase_at": at}))
    assert steps(made)[0] == at
    page = " ".join(render_text(made).split())
    assert "3, 4, 8, 9, 15, 22, 23, 31, 40, 41 and 46" in page
    assert "increase in rounds" not in render_text(free)
    knitted_as_printed(made)


def test_many_such_rounds_are_told_by_the_first_and_the_last() -> None:
    rounds, _ = steps(planned(raglan()))
    at = [number + 1 for number in rounds[:-1] if number + 1 < rounds[-1]] + [rounds[-1]]
    made = planned(raglan(fixed={"increase_at": at}))
    page = " ".join(render_text(made).split())
    assert f"times, from round {at[0]} to round {at[-1]}." in page
    cost = next(one for one in made.findings if one.field == "fixed.increase_at")
    assert f"… {at[-1]} ({len(at)} of them)" in cost.message
    # A change from round to round is no reason to count after every one of them.
    counts = [check for check in made.checks if check.section == "yoke" and check.kind == "count"]
    assert len(counts) <= len(at) // 5 + 2  # derived: every fifth, the first and the last


def test_a_line_that_is_in_the_way_is_named() -> None:
    # derived: 68 + 25 * 8 = 268; the sleeves grow from nothing to 50
    pins: Sections = {
        "neck": 68,
        "increases": [68 + 8 * at for at in range(1, 26)],
        "body": 200,
        "sleeve": 66,
        "underarm": 16,
    }
    kfb = "front and back"
    found = refused(raglan(fixed=pins, stitches_per_cm=2.0, garment__yoke__line_increase=kfb))
    assert (found.code, found.field) == ("raglan.pinned-line", "garment.yoke.line_increase")
    planned(raglan(fixed=pins, stitches_per_cm=2.0, garment__yoke__line_increase="lifted"))
    # derived: back and front begin with 8 each, and lines of 6 would take 12 of them
    narrow = {**pins, "neck": 16, "increases": [16 + 8 * at for at in range(1, 26)], "body": 148}
    found = refused(raglan(fixed=narrow, stitches_per_cm=2.0, garment__yoke__line_width=6))
    assert found.code == "raglan.pinned-line"
    width = int(found.remedy.split("line_width = ")[1].split(".")[0])
    planned(raglan(fixed=narrow, stitches_per_cm=2.0, garment__yoke__line_width=width))


def test_an_increase_below_the_last_that_can_be_is_refused_with_its_round() -> None:
    rounds = yoke_of(planned(raglan())).rounds.got
    found = refused(raglan(fixed={"increase_at": [4, 8, rounds + 3]}))
    assert found.code == "fixed.no-way"
    # derived: the last of the pins
    assert f"Round {rounds + 3} would increase" in found.message
    assert "the line with increase_at taken out" in found.remedy
    at = steps(planned(raglan()))[0]
    found = refused(banded({"chart": "beads"}, fixed={"increase_at": at}))
    assert found.code == "fixed.bands"
    room = re.search("above the colour bands round ([0-9]+) is the last", found.message)
    assert room is not None
    assert int(room[1]) < at[-1]


def test_a_deeper_yoke_is_offered_where_it_holds_the_last_increase() -> None:
    free = planned(raglan())
    rounds = yoke_of(free).rounds.got
    at = [*steps(free)[0][:-1], rounds + 6]
    offered = f"yoke_rounds = {rounds + 6} written beside them"
    found = refused(raglan(fixed={"increase_at": at}))
    assert found.remedy.startswith(f"Each of these was tried and works: {offered}; ")
    deeper = planned(raglan(fixed={"increase_at": at, "yoke_rounds": rounds + 6}))
    assert steps(deeper)[0] == at
    assert yoke_of(deeper).last_increase == yoke_of(deeper).rounds.got == rounds + 6
    # derived: three rounds add 24 stitches to 92 at the most, however deep the yoke
    few = refused(raglan(fixed={"neck": 92, "increase_at": [4, 8, rounds + 6]}))
    assert "yoke_rounds" not in few.remedy
    # What is refused for another reason needs no deeper yoke.
    assert "yoke_rounds" not in refused(raglan(fixed={"neck": 92, "increase_at": [4, 8]})).remedy


def test_too_few_increase_rounds_for_the_neck_are_refused_with_how_far_they_lead() -> None:
    found = refused(raglan(fixed={"neck": 92, "increase_at": [4, 8, 12, 16, 20]}))
    assert found.code == "fixed.no-way"
    assert "so 5 of them lead from a neck of 92 to 132" in found.message  # derived: 92 + 5 * 8
    assert "the line with increase_at taken out" in found.remedy


def test_more_increase_rounds_than_rounds_are_refused() -> None:
    increases = [92 + 2 * at for at in range(1, 100)]
    found = refused(raglan(fixed={"increases": increases}))
    assert found.code == "fixed.no-way"
    assert "There are 99 increase rounds" in found.message


def test_pinned_rounds_above_a_band_are_met_with_its_repeat() -> None:
    free = planned(banded({"chart": "beads"}))
    rounds, counts = steps(free)
    at = [number - 1 if number > 3 else number for number in rounds]
    if len(set(at)) == len(rounds):
        made = planned(banded({"chart": "beads"}, fixed={"increases": counts, "increase_at": at}))
        assert steps(made) == (at, counts)
    made = planned(banded({"chart": "beads"}, fixed={"increases": counts}))
    assert made.shape == free.shape


def test_a_pinned_raglan_is_the_same_twice() -> None:
    pins = {"increases": [92 + 8 * at for at in range(1, 24)], "front": 90}
    once, again = (render_json(planned(raglan(fixed=pins))) for _ in range(2))
    assert once == again
