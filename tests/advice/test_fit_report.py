"""The fit report: every height beside the body, and beside the fit that was chosen."""

from __future__ import annotations

import pytest

from tests.sweaters import Sections, edited, planned, sized
from yokefellow.advice.fit_report import FitLine, Verdict, body_at_cm, sleeve_at_cm
from yokefellow.findings import PlanError
from yokefellow.fit.trunk import trunk_cm
from yokefellow.plan import Plan

BODY = {
    "chest": "96 cm",
    "waist": "80 cm",
    "hip": "104 cm",
    "upper_arm": "30 cm",
    "elbow": "27 cm",
    "wrist": "16 cm",
    "neck": "37 cm",
    "shoulder_girth": "104 cm",
}


def lines(plan: Plan) -> dict[str, FitLine]:
    return {line.key: line for line in plan.fit_report}


def worn(**changes: object) -> Plan:
    return planned(edited(sized("women", "M", body=dict(BODY)), **changes))


def test_every_height_has_body_garment_and_their_difference() -> None:
    plan = worn(garment__body__length="tunic")
    found = lines(plan)
    assert list(found) == [
        *("neck", "shoulder", "chest", "waist", "hip", "hem"),
        *("upper_arm", "elbow", "cuff"),
    ]
    # derived: the body's own numbers, and at the cuff the wrist
    own = {"chest": 96, "waist": 80, "hip": 104, "upper_arm": 30, "elbow": 27, "cuff": 16}
    for key, cm in own.items():
        assert found[key].body_cm == pytest.approx(cm), key
    assert found["chest"].garment_cm == plan.shape.split.body.cm
    for line in plan.fit_report:
        assert line.ease_cm == pytest.approx(line.garment_cm - line.body_cm)
        assert not line.filled


def test_a_sleeve_to_the_elbow_ends_there_and_has_no_cuff_at_the_wrist() -> None:
    found = lines(worn(garment__sleeves__length="elbow"))
    assert "cuff" not in found
    assert found["elbow"].body_cm == 27  # derived: the elbow measured
    short = lines(worn(garment__sleeves__length="short"))
    assert "elbow" not in short
    # derived: between upper arm and elbow
    assert 27 < short["cuff"].body_cm <= 30


def test_a_short_body_has_no_hip_and_a_cropped_one_no_waist() -> None:
    assert "hip" not in lines(worn(garment__body__length="waist"))
    assert "waist" not in lines(worn(garment__body__length="cropped"))


@pytest.mark.parametrize("fit", ["very close", "close", "classic", "loose", "oversized"])
@pytest.mark.parametrize("stitches_per_cm", [1.2, 2.4, 4.0])
def test_a_plain_sweater_has_the_fit_that_was_chosen(fit: str, stitches_per_cm: float) -> None:
    changes = {"ease__chest": fit, "ease__upper_arm": fit, "garment__body__shape": "a-line"}
    for size in ("XS", "M", "2X", "5X"):
        sections = sized("women", size, stitches_per_cm=stitches_per_cm)
        for line in planned(edited(sections, **changes)).fit_report:
            if line.key in ("chest", "upper_arm", "neck"):
                assert line.verdict is Verdict.INSIDE, (size, line)


def test_what_is_off_is_told() -> None:
    tight = worn(body__hip="125 cm", garment__body__length="tunic", garment__body__shape="straight")
    assert lines(tight)["hem"].verdict is Verdict.TIGHT
    narrow = worn(garment__yoke__proportions="percentage 1971", body__upper_arm="40 cm")
    assert lines(narrow)["upper_arm"].verdict is Verdict.TIGHT
    wide = worn(garment__yoke__proportions="percentage 1971", body__upper_arm="22 cm")
    assert lines(wide)["upper_arm"].verdict is Verdict.LOOSE
    straight = worn(garment__body__shape="straight", body__waist="70 cm")
    assert lines(straight)["waist"].verdict is Verdict.FREE


def test_a_shaped_waist_is_judged_and_a_straight_one_hangs() -> None:
    shaped = lines(worn(garment__body__shape="waist"))["waist"]
    straight = lines(worn(garment__body__shape="straight"))["waist"]
    assert shaped.garment_cm < straight.garment_cm
    assert shaped.verdict is Verdict.INSIDE


def test_the_trunk_goes_by_its_own_heights() -> None:
    plan = worn()
    fit = plan.finished.body
    at = {"chest": fit.bust.at_cm, "waist": fit.waist_at_cm, "hip": fit.hip_at_cm}
    for name, cm in at.items():
        assert trunk_cm(plan.figures, fit, cm) == pytest.approx(plan.figures.cm(name))
    half_way = (fit.waist_at_cm + fit.hip_at_cm) / 2
    # derived: half-way between 80 and 104
    assert trunk_cm(plan.figures, fit, half_way) == pytest.approx(92)


def test_the_knitted_girths_are_those_of_the_rounds() -> None:
    plan = worn(garment__body__shape="waist")
    per_cm = plan.gauges.plain.rounds_per_cm
    top = plan.shape.split.sleeve.got
    for row in plan.rows:
        at = (row.number + 0.01) / per_cm
        if row.number in (1, 2) or row.number == len(row.section.rows):
            continue
        if row.section.key == "body":
            wide = body_at_cm(plan.shape.body, at)
        elif row.section.key == "sleeve":
            wide = sleeve_at_cm(plan.shape.sleeve, top, at)
        else:
            continue
        assert wide * plan.gauges.plain.stitches_per_cm == pytest.approx(row.after), row.number


def test_the_full_bust_is_judged_where_it_is_fullest() -> None:
    found = lines(planned(sized("women", "L", body={"chest": "112 cm", "high_chest": "95 cm"})))
    assert found["high_chest"].body_cm == 95  # derived: as measured
    assert found["chest"].garment_cm > found["high_chest"].garment_cm
    assert found["chest"].verdict is Verdict.INSIDE


@pytest.mark.parametrize("fit", ["very close", "close", "classic", "loose", "oversized"])
@pytest.mark.parametrize("arm_cm", [26, 31, 38, 46])
@pytest.mark.parametrize("pinned", [None, 70, 76, 82, 88])
def test_a_sleeve_grips_where_the_report_calls_it_tighter(
    fit: str, arm_cm: int, pinned: int | None
) -> None:
    sections = worn_sections(body__upper_arm=f"{arm_cm} cm", ease__upper_arm=fit)
    if pinned is not None:
        sections = edited(sections, fixed={"sleeve": pinned})
    plan = planned_or_refused_pins(sections)
    if plan is None:
        return
    is_told = "arm.tight" in {found.code for found in plan.findings}
    assert is_told == (lines(plan)["upper_arm"].verdict is Verdict.TIGHT)


def worn_sections(**changes: object) -> Sections:
    return edited(sized("women", "M", body=dict(BODY)), **changes)


def planned_or_refused_pins(sections: Sections) -> Plan | None:
    try:
        return planned(sections)
    except PlanError:
        return None
