"""Counts that are pinned are met exactly; the rest is solved around them, and each is priced."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.knitter import knit_page
from tests.often import often
from tests.sweaters import SECTIONS, Sections, edited, planned, planned_or_refused, sized
from yokefellow.findings import Finding, PlanError, ProjectError, Severity
from yokefellow.plan import Plan, plan
from yokefellow.project_file.load import load
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import OF_A_RAGLAN, Fixed
from yokefellow.shaping.model import RaglanShape
from yokefellow.sheet.glance import render_glance
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.text import render_text
from yokefellow.what_if import change

EXAMPLES = Path(__file__).parents[2] / "examples"

# published: Zimmermann, Knitting Without Tears, 1971 (as retold), K = 200: the yoke 268, two
# rounds that take [k1, k2tog] going up, the neck 40 per cent; each sleeve 66, each underarm 16.
WITHOUT_TEARS = {
    "neck": 80,
    "increases": [120, 179, 268],
    "body": 200,
    "sleeve": 66,
    "underarm": 16,
}


def chosen(made: Plan) -> dict[str, object]:
    """Every count of a plan, by the name it is pinned with."""
    shape = made.shape
    steps = shape.yoke.increase_rounds
    shares: dict[str, object] = {}
    if isinstance(shape.yoke, RaglanShape):
        yoke = shape.yoke
        starts = (yoke.back.start, yoke.front.start, yoke.sleeve.start)
        shares = dict(zip(OF_A_RAGLAN, starts, strict=True))
    return shares | {
        "neck": shape.neck.stitches.got,
        "cast_on": shape.neck.band_stitches,
        "increases": [step.after for step in steps],
        "increase_at": [step.number for step in steps],
        "yoke_rounds": shape.yoke.rounds.got,
        "yoke": shape.split.yoke,
        "body": shape.split.body.got,
        "sleeve": shape.split.sleeve.got,
        "underarm": shape.split.underarm.got,
        "front": shape.split.front,
        "back": shape.split.back,
        "hem": shape.body.hem_stitches,
        "cuff": shape.sleeve.edge.got,
        "body_rounds": shape.body.rounds.got,
        "sleeve_rounds": shape.sleeve.rounds.got,
    }


def with_pins(sections: Sections, **pins: object) -> Sections:
    return {**sections, "fixed": pins}


def prices(made: Plan) -> dict[str, Finding]:
    return {one.field: one for one in made.findings if one.code == "fixed.cost"}


def refused(sections: Sections) -> tuple[Finding, ...]:
    with pytest.raises((PlanError, ProjectError)) as error:
        planned(sections)
    return tuple(one for one in error.value.findings if one.severity is Severity.ERROR)


def made_or_codes(sections: Sections) -> Plan | set[str]:
    try:
        return planned(sections)
    except (PlanError, ProjectError) as error:
        return {one.code for one in error.findings}


def change_pins(project: Project, **pins: object) -> Project:
    return project.model_copy(update={"fixed": Fixed().model_copy(update=pins)})


def test_every_count_of_a_plan_can_be_pinned() -> None:
    raglan = planned(sized(garment__yoke__style="raglan"))
    assert set(chosen(raglan)) == set(Fixed.model_fields)
    assert set(chosen(planned(sized()))) == set(Fixed.model_fields) - set(OF_A_RAGLAN)


@often(25)
@given(SECTIONS, st.sets(st.sampled_from(list(Fixed.model_fields)), min_size=1))
def test_pinning_what_the_engine_chose_changes_nothing(sections: Sections, names: set[str]) -> None:
    if sections["garment"]["yoke"]["proportions"] != "measured":
        names = {name for name in names if name in ("body", "hem", "cuff", "cast_on")}
    free = planned_or_refused(sections)
    if free is None:
        return
    pins = {name: pin for name, pin in chosen(free).items() if name in names and pin != []}
    again = planned(with_pins(sections, **pins))
    assert again.shape == free.shape
    assert again.schedule == free.schedule
    assert again.key == free.key


@often(40)
@given(
    st.sampled_from(["S", "M", "2X"]),
    st.sampled_from([1.6, 2.2, 3.3]),
    st.dictionaries(
        st.sampled_from(["neck", "cast_on", "yoke", "body", "sleeve", "underarm", "hem", "cuff"]),
        st.integers(-4, 4),
        min_size=1,
        max_size=3,
    ),
)
def test_a_pin_is_met_exactly(size: str, per_cm: float, moved: dict[str, int]) -> None:
    sections = sized(size=size, stitches_per_cm=per_cm, garment__sleeves__length="elbow")
    free = chosen(planned(sections))
    if {"yoke", "body", "sleeve", "underarm"} <= set(moved):
        del moved["yoke"]
    pins: dict[str, object] = {}
    for name, by in moved.items():
        was = free[name]
        assert isinstance(was, int)
        pins[name] = was + 2 * by if name in ("cast_on", "hem", "cuff") else was + by
    if pins.get("underarm") in (0, 1):
        pins["underarm"] = 2
    made = made_or_codes(with_pins(sections, **pins))
    if isinstance(made, set):
        # Half a stitch, or a chain that no round can climb: said with what would agree.
        assert made <= {"fixed.equation", "fixed.no-way"}
        return
    got = chosen(made)
    assert {name: got[name] for name in pins} == pins
    knitted = knit_page(render_html(made))
    assert knitted.held == (made.shape.split.held,) * 2


def is_free(project: Project) -> bool:
    """A round yoke, and no pattern whose counts are pins already."""
    return project.pattern is None and project.garment.yoke.style == "circular"


FREE = [file for file in sorted(EXAMPLES.glob("*.toml")) if is_free(load(file))]


@pytest.mark.parametrize("file", FREE, ids=lambda file: file.stem)
def test_pins_of_a_banded_or_a_plain_example_hold(file: Path) -> None:
    project = load(file)
    free = chosen(plan(project))
    body, increases = free["body"], free["increases"]
    assert isinstance(body, int)
    assert isinstance(increases, list)
    wider = plan(change_pins(project, body=body + 4))
    assert wider.shape.split.body.got == body + 4  # derived: the pin
    same = plan(change_pins(project, increases=tuple(increases), body=body))
    assert same.shape == plan(project).shape
    at = free["increase_at"]
    assert isinstance(at, list)
    later = [number + 1 for number in at]
    moved = plan(change_pins(project, increase_at=tuple(later)))
    assert [step.number for step in moved.shape.yoke.increase_rounds] == later


def test_the_percentage_numbers_can_be_pinned_one_by_one() -> None:
    made = planned(with_pins(sized(), **WITHOUT_TEARS))
    got = chosen(made)
    assert {name: got[name] for name in WITHOUT_TEARS} == WITHOUT_TEARS
    # derived: (200 - 2 * 16) + 2 * (66 - 16)
    assert made.shape.split.yoke == 268
    knitted = knit_page(render_html(made))
    assert knitted.underarms == (16, 16)  # published: see WITHOUT_TEARS


# derived: the pins themselves
@pytest.mark.parametrize(
    "pins",
    [
        {"front": 104, "back": 96},
        {"front": 104},
        {"back": 90, "yoke": 301},
        {"front": 103, "back": 92, "underarm": 15, "yoke": 309},
    ],
)
def test_front_and_back_of_their_own_add_up_and_can_be_knitted(pins: dict[str, int]) -> None:
    made = planned(with_pins(sized(), **pins))
    got, split = chosen(made), made.shape.split
    assert {name: got[name] for name in pins} == pins
    assert split.front + split.back + 2 * split.underarm.got == split.body.got
    knitted = knit_page(render_html(made))
    assert knitted.underarms == (split.underarm.got,) * 2


def test_each_pin_says_what_it_gives_and_what_would_be_chosen_without_it() -> None:
    free = planned(sized())
    made = planned(with_pins(sized(), body=240))
    price = prices(made)["fixed.body"]
    wanted = free.shape.split.body.wanted_cm
    off = f"{round(240 / 2.2 - wanted, 1):g} cm"  # derived: stitches by the gauge
    assert price.message.startswith(
        f"Body pinned at 240 stitches: {off} more than you asked at the chest"
    )
    assert price.remedy == f"Without this pin it would be {free.shape.split.body.got}."
    assert price.severity is Severity.NOTE


def test_each_sentence_stands_on_the_sheet_and_at_a_glance() -> None:
    made = planned(with_pins(sized(), neck=90, sleeve=76))
    said = prices(made)
    assert set(said) == {"fixed.neck", "fixed.sleeve"}
    for page in (render_text(made), render_glance(made), render_json(made)):
        words = " ".join(page.split())
        assert all(price.message in words for price in said.values())


def test_a_pin_says_what_it_moves_elsewhere() -> None:
    free = planned(sized())
    made = planned(with_pins(sized(), increases=[120, 179, 268]))
    price = prices(made)["fixed.increases"]
    narrower = free.shape.split.body.cm - made.shape.split.body.cm
    assert f"the body becomes {round(narrower, 1):g} cm narrower" in price.message


# snapshot: 217 stitches at 21.4 to 10 cm
def test_what_is_harder_to_count_is_told_of_a_round_yoke_alone() -> None:
    """A raglan's increases stand at its lines, with a pin and without one."""
    yoke = prices(planned(with_pins(sized(stitches_per_cm=2.14), body=217)))["fixed.body"]
    assert "cannot be knitted as one repeat all round, 1 without the pin" in yoke.message
    raglan = planned(with_pins(sized(garment__yoke__style="raglan"), body=223))
    assert "repeat" not in prices(raglan)["fixed.body"].message


def test_a_yoke_that_squeezes_the_sleeve_is_named_as_the_cause() -> None:
    made = planned(with_pins(sized(), yoke=280, body=224))
    (tight,) = [one for one in made.findings if one.code == "arm.tight"]
    assert tight.field == "fixed.yoke"
    enough = int(tight.remedy.split("sleeve of ")[1].split()[0])
    wide = planned(with_pins(sized(), sleeve=enough, body=224))
    assert "arm.tight" not in {one.code for one in wide.findings}
    narrow = planned(with_pins(sized(), sleeve=enough - 8, body=224))
    assert [one.field for one in narrow.findings if one.code == "arm.tight"] == ["fixed.sleeve"]


def test_a_pin_that_breaks_a_rule_is_a_caution() -> None:
    price = prices(planned(with_pins(sized(), increase_at=[5, 20, 40])))["fixed.increase_at"]
    assert price.severity is Severity.CAUTION
    assert "does not yet go round the shoulders" in price.message


def test_a_pinned_round_that_more_than_half_again_is_knitted_and_told() -> None:
    made = planned(with_pins(sized(), neck=70, increases=[126, 180, 240]))
    assert made.shape.yoke.increase_rounds[0].increases == 56  # derived: 126 - 70
    assert "yoke.steep" in {one.code for one in made.findings}
    knit_page(render_html(made))


def test_a_sleeve_of_pinned_rounds_suits_the_arm_where_it_ends() -> None:
    full, pinned = planned(sized()), planned(with_pins(sized(), sleeve_rounds=50))
    assert pinned.shape.sleeve.rounds.got == 50  # derived: the pin
    assert pinned.finished.sleeve.arm_cm > full.finished.sleeve.arm_cm
    assert pinned.shape.sleeve.edge.got > full.shape.sleeve.edge.got


def test_a_pin_on_the_depth_of_the_yoke_is_what_the_cautions_judge() -> None:
    made = planned(with_pins(sized(), yoke_rounds=40))
    assert made.shape.yoke.rounds.got == 40  # derived: the pin
    assert "yoke.shallow" in {one.code for one in made.findings}


def test_the_equation_is_shown_with_its_numbers_and_what_would_agree() -> None:
    wrong = with_pins(sized(), **{**WITHOUT_TEARS, "sleeve": 67})
    (found,) = refused(wrong)
    assert found.code == "fixed.equation"
    assert "(200 − 2 × 16) + 2 × (67 − 16) = 270, not 268" in found.message
    assert "yoke = 270; body = 198; sleeve = 66" in found.remedy
    for name, count in (("body", 198), ("sleeve", 66)):
        planned(edited(wrong, **{f"fixed__{name}": count}))


def test_half_a_stitch_is_refused_with_the_nearest_that_agree() -> None:
    wrong = with_pins(sized(), yoke=267, body=200, underarm=16)
    (found,) = refused(wrong)
    assert (found.code, "65.5" in found.message) == ("fixed.equation", True)
    assert "yoke = 266 and sleeve = 65" in found.remedy
    assert planned(edited(wrong, fixed__yoke=266)).shape.split.sleeve.got == 65  # derived


@pytest.mark.parametrize(("pins", "code"), [
    ({"cast_on": 101}, "fixed.rib"),
    ({"hem": 199}, "fixed.rib"),
    ({"cuff": 61}, "fixed.rib"),
    ({"hem": 20}, "fixed.edge-leap"),
    ({"cuff": 600}, "fixed.edge-leap"),
    ({"neck": 8}, "fixed.no-way"),
    ({"front": 400}, "fixed.front-back"),
])  # fmt: skip
def test_what_cannot_be_knitted_is_refused_with_what_can(pins: Sections, code: str) -> None:
    (found,) = refused(with_pins(sized(), **pins))
    assert found.code == code
    assert found.remedy


def test_a_pin_is_not_laid_to_the_repeat_of_a_band() -> None:
    project = load(EXAMPLES / "late-veranda.toml")
    body = plan(project).shape.split.body.got + 2
    told = {one.code for one in plan(change_pins(project, body=body)).findings}
    assert "fixed.cost" in told
    assert "band.gives-way" not in told


def test_a_repeat_that_divides_no_pinned_count_is_refused_with_counts_that_were_tried() -> None:
    project = load(EXAMPLES / "late-veranda.toml")
    increases = [step.after + 1 for step in plan(project).shape.yoke.increase_rounds]
    with pytest.raises(PlanError) as error:
        plan(change_pins(project, increases=tuple(increases)))
    (found,) = error.value.findings
    assert found.code == "fixed.bands"
    assert "'pebbles' is 4 stitches, which divides none of" in found.message
    offered = found.remedy.split("increases = [")[1].split("]")[0]
    tried = plan(change_pins(project, increases=tuple(map(int, offered.split(", ")))))
    assert tried.shape.yoke.bands


def test_another_length_is_tried_without_the_pin_that_holds_for_this_one() -> None:
    project = load(EXAMPLES / "warm-evenings.toml")
    pinned = change_pins(project, sleeve_rounds=60, cuff=80)
    assert change(pinned, sleeves="full").fixed == Fixed()
    assert change(pinned, body="hip").fixed == pinned.fixed


def test_the_one_thing_that_helps_is_told_as_one() -> None:
    (found,) = refused(with_pins(sized(), neck=340))
    assert found.remedy == "This was tried and works: the line with neck taken out."
