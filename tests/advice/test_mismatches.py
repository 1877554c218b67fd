"""Each mismatch of a body is met, and told in one sentence."""

from __future__ import annotations

import pytest

from tests.knitter import knit_page
from tests.sweaters import Sections, planned, sized
from yokefellow.body.usual import bust_cm, departure_cm, frame_cm, usual, usual_bust_cm
from yokefellow.findings import Finding, Severity
from yokefellow.plan import Plan
from yokefellow.sheet.html import render_html

IN = 2.54

# A woman of the council's size L has a chest of 41 in; the usual measures beside it are
# published: ANSUR II (Gordon et al., 2014) and NHANES 2017 to March 2020, as the table has them.
BODIES: dict[str, dict[str, str]] = {
    "fit.front-longer": {"front_length": "49 cm", "back_length": "43 cm"},
    "fit.back-longer": {"front_length": "41 cm", "back_length": "48 cm"},
    "fit.back-raised": {"front_length": "43 cm", "back_length": "45 cm"},
    "fit.full-bust": {"high_chest": "94 cm", "chest": "112 cm"},
    "fit.front-wider": {"front_chest": "57 cm"},
    "fit.back-wider": {"front_chest": "47 cm"},
    "fit.full-arm": {"upper_arm": "40 cm"},
    "fit.broad-shoulders": {"shoulder_girth": "118 cm"},
    "fit.narrow-shoulders": {"shoulder_girth": "98 cm"},
    "fit.long-torso": {"back_waist_length": "50 cm"},
    "fit.short-torso": {"back_waist_length": "38 cm"},
}


def of(body: dict[str, str]) -> Sections:
    return sized("women", "L", body={"chest": "104.1 cm", **body})


def told(plan: Plan) -> dict[str, Finding]:
    return {one.code: one for one in plan.findings if one.code.startswith("fit.")}


@pytest.mark.parametrize("code", BODIES)
def test_each_mismatch_is_told_in_one_sentence_and_knitted(code: str) -> None:
    plan = planned(of(BODIES[code]))
    found = told(plan)[code]
    assert found.severity is Severity.NOTE
    assert found.field.removeprefix("body.") in BODIES[code]
    assert found.message.startswith("Your ")
    assert found.message.endswith(".")
    assert ". " not in found.message
    knitted = knit_page(render_html(plan))
    assert knitted.loops == plan.yarn.knitted.stitches


def test_a_usual_body_is_told_nothing() -> None:
    usual_body = {
        "front_length": "43 cm",
        "back_length": "43 cm",
        "high_chest": "100 cm",
        "front_chest": "53 cm",
        "upper_arm": "33 cm",
        "shoulder_girth": "107 cm",
        "back_waist_length": "44.5 cm",
    }
    assert told(planned(of(usual_body))) == {}


def test_a_full_bust_is_what_the_round_above_does_not_explain() -> None:
    # published: ASTM D5585-11e1, women's misses: chest less upper chest, by the chest, inches
    for chest, upper in ((33, 33.25), (36.25, 35.875), (40.375, 39.25), (46, 43.875)):
        expected = max(0.0, chest - upper)
        assert usual_bust_cm(chest * IN) / IN == pytest.approx(expected, abs=0.13)
        assert bust_cm(chest * IN, upper * IN) == 0.0
    # derived: 112 - 94 - (0.184 x 112 - 16) = 13.4
    assert bust_cm(112, 94) == pytest.approx(13.4, abs=0.05)
    assert frame_cm(112, 94) == pytest.approx(112 - 13.4, abs=0.05)
    assert frame_cm(112, None) == 112


def test_a_mismatch_begins_at_one_and_a_half_deviations() -> None:
    at_l = planned(sized("women", "L")).figures
    known = usual(at_l, "upper_arm")
    assert known is not None
    # published: NHANES 2017 to March 2020, women of the hip of size L: 33.2 cm, SD 2.6
    assert (known.cm, known.spread_cm) == pytest.approx((33.2, 2.6), abs=0.01)
    for more, is_one in ((1.45, False), (1.55, True)):
        arm = known.cm + more * known.spread_cm
        figures = planned(of({"upper_arm": f"{arm:.2f} cm"})).figures
        assert bool(departure_cm(figures, "upper_arm")) is is_one


def test_a_full_bust_keeps_the_shoulders_and_widens_the_front() -> None:
    plain = planned(of({"chest": "100 cm"}))
    full = planned(of({"chest": "112 cm", "high_chest": "97 cm"}))
    # derived: 112 - 97 - (0.184 x 112 - 16) = 10.4: a frame of 101.6
    for name in ("shoulder_girth", "neck_opening", "yoke_depth"):
        assert full.figures.cm(name) == pytest.approx(plain.figures.cm(name), rel=0.02)
    split, body = full.shape.split, full.shape.body
    assert split.front == split.back
    assert split.underarm_front > split.underarm_back
    assert body.fullest is not None
    # derived: half a stitch of the body and one of each pair of growing stitches
    assert abs(body.fullest.residual_cm) <= 1.5 / body.fullest.per_cm
    # common practice, no source: underarms of 9 % of the body at the most, printed patterns'
    assert split.underarm.cm <= 0.09 * body.fullest.cm + 1 / split.body.per_cm
    by = body.growing / plain.gauges.plain.rounds_per_cm
    assert by <= max(full.finished.body.bust.at_cm, 2.5) + 6


def test_the_knitters_own_underarm_stays() -> None:
    full = of({"chest": "112 cm", "high_chest": "97 cm"})
    full["garment"] = {"yoke": {"underarm": "6 cm"}}
    plan = planned(full)
    # derived: within a stitch of the length written
    assert plan.shape.split.underarm.cm == pytest.approx(6.0, abs=1.0)
    assert plan.shape.body.growing > 0


def test_front_and_back_of_their_own_widths_add_up_to_the_chest() -> None:
    for front_chest in (45, 49, 54, 58, 62):
        plan = planned(of({"front_chest": f"{front_chest} cm"}))
        split = plan.shape.split
        per_cm = split.body.per_cm
        wanted = 2 * front_chest - 104.1
        wanted = wanted if abs(wanted) >= 2.5 else 0.0
        got = (split.front_total - split.back_total) / per_cm
        # derived: front and back are whole stitches, each underarm's share too
        assert got == pytest.approx(wanted, abs=2.1 / per_cm)
        assert split.front_total + split.back_total == split.body.got
        assert min(split.underarm_front, split.underarm_back) >= 1


def test_broad_shoulders_take_from_the_underarms() -> None:
    plan = planned(of({"shoulder_girth": "158 cm"}))
    narrow = planned(of({})).shape.split.underarm.got
    # derived: (112.4 + 2 x 36 - 158) / 4 = 6.6 cm, where the table has 7.8
    assert plan.shape.split.underarm.got < narrow
    assert (
        plan.shape.split.yoke / plan.shape.split.body.per_cm >= 158 - 1
    )  # derived: a stitch or two


def test_a_dart_that_finds_no_room_is_told_of() -> None:
    body = {"front_length": "60 cm", "back_length": "42 cm", "bust_points": "44 cm"}
    plan = planned(of(body))
    assert told(plan)["fit.dart-short"].severity is Severity.CAUTION
    (dart,) = plan.shape.body.darts
    assert dart.rows < dart.wanted_rows


def test_what_found_no_room_is_not_said_to_be_taken_by_the_neck() -> None:
    body = {"front_length": "43 cm", "back_length": "51 cm", "front_chest": "84 cm"}
    found = told(planned(of(body)))
    assert "none of them finds room" in found["fit.dart-short"].message
    assert "fit.back-raised" not in found


def test_a_full_bust_says_where_its_yoke_comes_from() -> None:
    found = told(planned(of({"chest": "112 cm", "high_chest": "97 cm"})))
    # derived: 112 - (112 - 97 - (0.184 x 112 - 16)) = 101.6
    assert "97 cm, as it usually is with a chest of 101.6 cm: the yoke is sized for that" in (
        found["fit.full-bust"].message
    )


def test_waist_and_hip_lie_at_their_own_heights() -> None:
    body = {"underarm_to_waist": "24 cm", "underarm_to_hip": "40 cm", "waist": "80 cm"}
    sections = of(body)
    sections["garment"] = {"body": {"shape": "waist", "length": "tunic"}}
    plan = planned(sections)
    narrowing = [change.number for change in plan.shape.body.changes if change.front < 0]
    widening = [change.number for change in plan.shape.body.changes if change.front > 0]
    per_cm = plan.gauges.plain.rounds_per_cm
    # common practice, no source: about an inch of plain rounds at the waist
    assert max(narrowing) / per_cm == pytest.approx(24, abs=1.6)
    assert min(widening) / per_cm > 24
    # derived: to half a round
    assert max(widening) / per_cm == pytest.approx(40, abs=0.5)


def test_lengths_go_by_the_waist_where_it_was_measured() -> None:
    low = planned(of({"underarm_to_waist": "28 cm"}))
    usual_waist = planned(of({}))
    lower = low.finished.body.waist_at_cm - usual_waist.finished.body.waist_at_cm
    assert low.finished.body.length_cm - usual_waist.finished.body.length_cm == pytest.approx(lower)
