"""A yoke that no counts lead to is refused in the numbers of this very sweater."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.raglan.raglans import SECOND
from tests.sweaters import Sections, planned, project, sized, swatch
from yokefellow.advice.refusals import refusal_finding
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.fit.finished import Finished
from yokefellow.plan import Plan
from yokefellow.shaping.raglan.raglan_yoke import raglan_yoke
from yokefellow.shaping.refusals import Crowded, RefusedError
from yokefellow.shaping.yoke.round_yoke import round_yoke, yoke_task
from yokefellow.shaping.yoke.search import places_of


def made(**changes: object) -> Plan:
    """A sweater at 2 stitches and 3 rounds to the cm."""
    plain = swatch(2.0, rounds_per_cm=3.0)
    return planned(sized(swatch__plain__washed=plain, **changes))  # type: ignore[arg-type]


def changed(finished: Finished, *, underarm_cm: float, arm_cm: float, neck_cm: float) -> Finished:
    """A yoke 20 cm deep over a chest of a metre."""
    return replace(
        finished,
        neck=replace(finished.neck, opening_cm=neck_cm),
        yoke=replace(finished.yoke, depth_cm=20.0, underarm_cm=underarm_cm, chest_cm=100.0),
        sleeve=replace(finished.sleeve, upper_arm_cm=arm_cm),
    )


def refused(
    plan: Plan, *, underarm_cm: float = 8.0, arm_cm: float = 33.0, neck_cm: float = 48.0
) -> Finding:
    finished = changed(plan.finished, underarm_cm=underarm_cm, arm_cm=arm_cm, neck_cm=neck_cm)
    with pytest.raises(RefusedError) as error:
        round_yoke(plan.project, finished, plan.gauges, ())
    found = refusal_finding(error.value.refusal, plan.project.sheet.units)
    assert found.severity is Severity.ERROR
    return found


def test_an_underarm_that_leaves_nothing_of_a_sleeve() -> None:
    found = refused(made(), underarm_cm=32.0)
    assert (found.code, found.field) == ("yoke.underarm-wide", "garment.yoke.underarm")
    assert found.message == (
        "An underarm of 32 cm leaves fewer than 4 stitches of a sleeve of 33 cm, or of half a "
        "body of 50 cm."
    )
    # derived: 4 stitches are 2 cm
    assert found.remedy == "Choose an underarm of at most 31 cm."
    plan = made()
    fits = changed(plan.finished, underarm_cm=31.0, arm_cm=33.0, neck_cm=24.0)
    solution = round_yoke(plan.project, fits, plan.gauges, ())
    assert solution.split.held == 4  # derived: 66 stitches less 62


def test_an_underarm_that_leaves_nothing_of_the_front() -> None:
    found = refused(made(), underarm_cm=49.0, arm_cm=60.0)
    assert found.code == "yoke.underarm-wide"
    assert found.remedy == "Choose an underarm of at most 48 cm."  # derived: 50 cm less 2
    inches = refused(made(sheet__units="in"), underarm_cm=49.0, arm_cm=60.0)
    # derived: 48 cm are 18.9 in, of which 18¾ keep the rule
    assert inches.remedy == "Choose an underarm of at most 18¾ in."


def test_a_neck_wider_than_the_yoke() -> None:
    found = refused(made(), neck_cm=140.0)
    assert (found.code, found.field) == ("yoke.no-way", "garment.neck.opening")
    # derived: 100 + 2 * 33 - 4 * 8 = 134 cm, and two stitches to the cm
    assert found.message == (
        "No even increases lead from a neck of 140 cm (280 stitches) to a yoke of 134 cm (268 "
        "stitches) in 20 cm of depth."
    )
    assert found.remedy == (
        "Choose a smaller neck opening, a narrower underarm, more ease or a deeper yoke."
    )


def test_the_rounds_of_a_plain_yoke() -> None:
    plan = made()
    finished = changed(plan.finished, underarm_cm=8.0, arm_cm=33.0, neck_cm=48.0)
    yoke = round_yoke(plan.project, finished, plan.gauges, ()).yoke
    # derived: 20 cm at 3 rounds a cm; the first closes the gaps of the short rows
    assert yoke.rounds.got == 60
    assert yoke.increase_rounds[0].number >= 2
    flat = replace(finished, yoke=replace(finished.yoke, depth_cm=1.0))
    places = places_of(yoke_task(plan.project, flat, plan.gauges))
    assert not isinstance(places, Crowded)
    assert [zones.rounds for zones in places] == [8]  # derived: our choice, the least


def test_a_garment_that_was_fitted_as_a_round_yoke_has_no_raglan() -> None:
    circular, raglan = made(), made(garment__yoke__style="raglan")
    with pytest.raises(ValueError, match="no raglan"):
        raglan_yoke(raglan.project, circular.finished, raglan.gauges, ())


def test_the_plain_body_has_its_band_only_where_it_fits() -> None:
    band = {"chart": "stairs", "at": "45 cm"}
    ball = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 9}
    plan = made(garment__body={"length": "60 cm", "bands": [band]}, yarn__CC1=ball, yarn__CC2=ball)
    shape = plan.shape
    # derived: the hip length, with which it is compared, ends above 45 cm
    assert plan.finished.plain_body.length_cm < 45
    assert [one.chart.name for one in shape.body.bands] == ["stairs"]
    assert plan.unmodified.body.bands == ()
    short = made(
        garment__body={"length": "60 cm", "bands": [{**band, "at": "10 cm"}]},
        yarn__CC1=ball,
        yarn__CC2=ball,
    )
    assert [one.chart.name for one in short.unmodified.body.bands] == ["stairs"]


def pinned(**pins: object) -> Plan:
    """The same sweater with pins, in a yoke whose counts are round: see `changed`."""
    return replace(made(), project=project({**sized(), "fixed": pins}))


def counts(plan: Plan) -> tuple[int, int, int]:
    finished = changed(plan.finished, underarm_cm=8.0, arm_cm=33.0, neck_cm=48.0)
    solution = round_yoke(plan.project, finished, plan.gauges, ())
    return solution.split.body.got, solution.split.sleeve.got, solution.split.yoke


def test_pins_are_met_by_themselves_or_by_another_yoke() -> None:
    # derived: 200 + 2 * 66 - 4 * 16
    assert counts(made()) == counts(pinned(body=200)) == (200, 66, 268)
    assert counts(pinned(body=204)) == (204, 66, 272)


def test_pins_that_cannot_be_met_are_refused_with_some_that_were_tried() -> None:
    found = refused(pinned(yoke=269, body=200, underarm=16))
    assert (found.code, found.field) == ("fixed.no-way", "fixed")
    # derived: an odd yoke leaves half a stitch to each sleeve
    assert "yoke = 269, body = 200, underarm = 16" in found.message
    assert found.remedy.startswith("Each of these was tried and works: yoke = 268; body = 199; ")
    assert "the line with yoke taken out" in found.remedy


def test_a_pinned_round_below_the_yoke_is_refused_with_the_depth_that_would_hold_it() -> None:
    for at in ([5, 20, 30, 61], [5, 20, 30, 70]):
        found = refused(pinned(increase_at=at))
        assert (found.code, found.field) == ("fixed.no-way", "fixed")
        # derived: 20 cm at 3 rounds
        assert f"Round {at[-1]} would increase, and this yoke has 60 rounds." in found.message
        assert found.remedy == (
            f"Each of these was tried and works: yoke_rounds = {at[-1]} written beside them; "
            "the line with increase_at taken out."
        )
    # derived: half as many again in each of two rounds make 216 of 96, however deep the yoke
    found = refused(pinned(increase_at=[5, 61]))
    assert found.remedy == "This was tried and works: the line with increase_at taken out."


def test_an_increase_in_the_last_round_is_not_below_the_yoke() -> None:
    found = refused(pinned(increase_at=[5, 60]))  # too few rounds, as above
    assert "would increase" not in found.message


def test_with_bands_the_depth_offered_holds_their_rounds_too() -> None:
    band: Sections = {
        "garment__yoke__bands": [{"chart": "beads", "at": "6 cm"}],
        "yarn__CC1": dict(SECOND),
    }
    free = planned(sized(**band)).shape.yoke
    rounds = free.rounds.got
    at = [*(step.number for step in free.increase_rounds[:-1]), rounds + 5]
    with pytest.raises(PlanError) as error:
        planned(sized(fixed={"increase_at": at}, **band))
    (found,) = (one for one in error.value.findings if one.severity is Severity.ERROR)
    assert found.code == "fixed.bands"
    assert f"Round {at[-1]} would increase, and this yoke has {rounds} rounds." in found.message
    assert f"yoke_rounds = {at[-1]} written beside them" in found.remedy
    deeper = planned(sized(fixed={"increase_at": at, "yoke_rounds": at[-1]}, **band))
    assert deeper.shape.yoke.rounds.got == at[-1]
    assert [step.number for step in deeper.shape.yoke.increase_rounds] == at
