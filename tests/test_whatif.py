"""What if: every answer must be what a whole new plan says."""

from __future__ import annotations

from contextlib import suppress
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any, Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.often import often
from tests.sweaters import edited, planned, planned_or_refused, project, sized, written
from yokefellow.findings import PlanError, ProjectError
from yokefellow.plan import Plan, plan
from yokefellow.project_file.fields import NamedLength
from yokefellow.project_file.load import load
from yokefellow.what_if import (
    bodies,
    body_of,
    change,
    forecast,
    freed,
    learn,
    longest,
    rescues,
    sleeve_of,
    sleeves,
    table,
)
from yokefellow.yarn import counted, part_of
from yokefellow.yarn.weighing_log import Entry

EXAMPLE = Path(__file__).parents[1] / "examples" / "late-veranda.toml"
"""Three colours."""

Piece = Literal["sleeves", "body"]
FIELDS: dict[Piece, str] = {"sleeves": "garment.sleeves.length", "body": "garment.body.length"}


@cache
def example() -> Plan:
    return plan(load(EXAMPLE))


def changed(made: Plan, **choices: object) -> Plan:
    return plan(change(made.project, **choices))


def with_balls(made: Plan, balls: float, **choices: object) -> Plan:
    return changed(made, **{"yarn.MC.balls": balls}, **choices)


def test_a_change_touches_nothing_but_its_field() -> None:
    made = project(sized())
    other = change(made, sleeves="elbow", **{"yarn.MC.balls": "5.5", "garment.body.hem": "4 cm"})
    assert made == project(sized())
    # derived: as typed
    assert other == project(
        sized(
            garment__sleeves__length="elbow", yarn__MC__balls=5.5, garment__body__hem="4 cm"
        )
    )  # fmt: skip
    assert change(made) == made


def test_what_is_chosen_otherwise_is_read_in_the_files_own_unit() -> None:
    inches = project(sized(unit="in"))
    assert change(inches, body="14").garment.body.length == pytest.approx(14 * 2.54)  # derived


def test_other_balls_take_the_place_of_weighed_ones() -> None:
    weighed = project(
        sized(yarn__MC={"ball_weight": "50 g", "ball_length": "200 m", "weights": [50, 20]})
    )
    fewer = change(weighed, **{"yarn.MC.balls": 1}).yarn["MC"]
    assert (fewer.balls, fewer.weights) == (1, ())
    more = change(weighed, **{"yarn.MC.weights": [50, 50, 25]}).yarn["MC"]
    # derived: 125 g in balls of 50 g
    assert more.balls == pytest.approx(2.5)


@pytest.mark.parametrize(
    ("name", "value", "code"),
    [
        ("sleeves", "long", "value.choice"),
        ("garment.body.hem", "90 cm", "value.range"),
        ("yarn.MC.balls", "many", "value.number"),
        ("yarn.CC9.balls", 3, "field.unknown"),
        ("pocket", "yes", "field.unknown"),
        ("garment.sleeves", "elbow", "field.unknown"),
        ("garment.pockets.depth", "3 cm", "field.unknown"),
        ("", "", "field.unknown"),
    ],
)
def test_a_change_that_cannot_be_is_refused(name: str, value: object, code: str) -> None:
    with pytest.raises(ProjectError) as refused:
        change(project(sized()), **{name: value})
    (finding,) = refused.value.findings
    assert finding.code == code
    assert finding.remedy


def test_a_slip_in_a_choice_is_met_with_what_was_meant() -> None:
    with pytest.raises(ProjectError) as refused:
        change(project(sized()), sleeves="elbo")
    (finding,) = refused.value.findings
    assert finding.remedy == 'Did you mean garment.sleeves.length = "elbow"?'


@often(60)
@given(st.integers(0, 10**6))
def test_a_piece_costs_what_its_rows_cost(seed: int) -> None:
    """Counted from the shape, and stitch by stitch from the written rows."""
    made = planned_or_refused(written(seed))
    if made is None:
        return
    garment = made.project.garment
    parts = {
        part.key: part
        for part in (
            *sleeve_of(made, garment.sleeves.length).parts,
            *body_of(made, garment.body.length).parts,
        )
    }
    for section in made.schedule.sections:
        if section.key in parts:
            assert parts[section.key].counts == counted(section), section.key
            assert parts[section.key].tail == part_of(section).tail


@often(15)
@given(st.integers(0, 10**6))
def test_the_lengths_to_choose_from_are_a_round_apart(seed: int) -> None:
    made = planned_or_refused(written(seed))
    if made is None:
        return
    for lengths in (sleeves(made), bodies(made)):
        for shorter, longer in pairwise(lengths):
            assert shorter.cm < longer.cm
            if shorter.edge_rounds == longer.edge_rounds:
                assert longer.rounds == shorter.rounds + 1
            if longer.rounds - shorter.rounds > 1:  # then there is nothing between
                tried = (shorter.cm + 0.01 * step for step in range(200))
                of = sleeve_of if lengths[0].parts[0].key == "sleeve" else body_of
                for cm in tried:
                    if cm < longer.cm:
                        # Just past a jump of the edge there may be a round less again.
                        there = of(made, cm).rounds
                        assert not shorter.rounds < there < longer.rounds


def test_every_line_of_the_table_is_what_a_new_plan_says() -> None:
    made = example()
    whole = changed(made, sleeves="full", body="hip").yarns
    lines = table(made)
    assert {line.kind for line in lines} == {"sleeves", "body", "neck", "ribs", "edges"}
    for line in lines:
        anew = plan(change(made.project, **line.choices))
        assert line.chosen == (anew.key == made.key and not line.choices)
        assert not line.refused
        for code, estimate in anew.yarns.items():
            told = line.yarns[code]
            assert told.knitted.stitches == estimate.knitted.stitches
            assert told.chance == pytest.approx(estimate.chance)
            assert told.verdict == estimate.verdict
            saved = line.saved[code]
            assert saved.stitches == (whole[code].knitted.stitches - estimate.knitted.stitches)
            grams = whole[code].knitted.grams - estimate.knitted.grams
            assert saved.grams == pytest.approx(grams, abs=1e-9)
    for kind in ("sleeves", "body", "neck", "ribs"):
        assert [line.chosen for line in lines if line.kind == kind].count(True) == 1


def test_a_length_without_a_name_has_a_line_of_its_own() -> None:
    made = planned(sized(garment__sleeves__length="31 cm", garment__neck__opening="50 cm"))
    names = {(line.kind, line.choice) for line in table(made) if line.chosen}
    assert {("sleeves", "as chosen"), ("neck", "as chosen"), ("body", "hip")} <= names


def test_a_pinned_length_is_its_own_and_no_name_stands_for_it() -> None:
    free = planned(sized(garment__sleeves__length="elbow"))
    pins = {"sleeve_rounds": free.shape.sleeve.rounds.got + 9, "body_rounds": 90, "hem": 200}
    made = plan(change(free.project, **{f"fixed.{name}": pins[name] for name in pins}))
    chosen = {one.kind: one for one in table(made) if one.chosen}
    sleeve, body = made.shape.sleeve, made.shape.body
    # derived: rounds and edge, one above the other
    assert chosen["sleeves"].cm == pytest.approx(sleeve.rounds.cm + sleeve.cuff.rounds.cm)
    assert chosen["body"].cm == pytest.approx(body.rounds.cm + body.hem.rounds.cm)
    for one in (chosen["sleeves"], chosen["body"]):
        assert one.choice == "as chosen"
        assert one.yarns["MC"].need == made.yarns["MC"].need
    elbow = next(one for one in table(made) if one.choice == "elbow")
    as_short = changed(made, sleeves="elbow")
    assert elbow.yarns["MC"].need.mean.stitches == as_short.yarns["MC"].need.mean.stitches
    kept = longest(made, "body").sleeve
    assert kept.rounds == made.shape.sleeve.rounds.got + made.shape.sleeve.cuff.all_rounds


def test_pins_that_hold_against_a_choice_are_named() -> None:
    pinned = project({**sized(), "fixed": {"sleeve_rounds": 60, "body": 220}})
    assert freed(pinned, ["garment.sleeves.length"]) == ("sleeve_rounds",)
    assert freed(pinned, ["garment.body.length", "garment.body.hem"]) == ()


def test_what_cannot_be_knitted_says_why() -> None:
    narrow = planned(sized(body__shoulder_girth="52 cm"))
    lines = {(line.kind, line.choice): line for line in table(narrow)}
    assert lines["neck", "crew"].refused == ()
    wide = lines["neck", "wide"]
    assert [finding.code for finding in wide.refused] == ["neck.over-shoulders"]
    assert wide.yarns == {} == wide.saved


@pytest.mark.parametrize("wish", ["sleeves", "body", "both"])
@pytest.mark.parametrize("share", [0.7, 0.8, 0.9, 1.0])
def test_the_longest_lasts_and_one_round_more_does_not(
    wish: Literal["sleeves", "body", "both"], share: float
) -> None:
    made = with_balls(example(), share * 6.6)
    found = longest(made, wish)
    anew = plan(change(made.project, **found.choices))
    assert anew.yarn.chance == pytest.approx(found.estimate.chance)
    assert anew.yarn.left.mean.grams == pytest.approx(found.held_back.grams)
    if found.limit == "too little":
        assert anew.yarn.verdict != "enough"
        return
    assert anew.yarn.verdict == "enough"
    assert found.limit == "yarn"
    assert found.chance_of_more is not None
    # common practice, no source: nine in ten
    assert found.chance_of_more < 0.9 <= found.estimate.chance
    if wish == "both":
        return
    lengths, taken = (
        (sleeves(made), found.sleeve) if wish == "sleeves" else (bodies(made), found.body)
    )
    for longer in lengths[lengths.index(taken) + 1 :]:
        refused = changed(made, **{wish: f"{longer.cm} cm"})
        assert refused.yarn.verdict != "enough", longer.cm


def test_what_stops_it_is_told() -> None:
    plenty = with_balls(example(), 30)
    assert [longest(plenty, wish).limit for wish in ("sleeves", "body", "both")] == [
        "arm",
        "tunic",
        "arm and tunic",
    ]
    full = changed(plenty, sleeves="full")
    assert longest(plenty, "sleeves").sleeve.parts == sleeve_of(full, NamedLength("full")).parts
    assert longest(plenty).chance_of_more is None
    none = longest(with_balls(example(), 1))
    assert none.limit == "too little"
    assert none.sleeve == sleeves(example())[0]
    assert none.code == "MC"
    assert none.others == {"CC1": "enough", "CC2": "enough"}


SIZES = (("women", "M"), ("children", "8"), ("men", "L"))


@often(25)
@given(
    st.sampled_from(SIZES),
    st.sampled_from(("sleeves", "body", "both")),
    st.floats(0, 1),
    st.floats(0.5, 20),
    st.floats(0.02, 3),
    st.integers(0, 10**6),
)
def test_more_yarn_never_gives_less(
    size: tuple[str, str],
    wish: Literal["sleeves", "body", "both"],
    prefer: float,
    balls: float,
    more: float,
    seed: int,
) -> None:
    shapes = written(seed)["garment"]
    sections = edited(sized(*size), garment__body__shape=shapes["body"]["shape"])
    made = planned(edited(sections, garment__sleeves__cuff=shapes["sleeves"]["cuff"]))
    one, two = (
        longest(with_balls(made, amount), wish, prefer_sleeves=prefer)
        for amount in (balls, balls + more)
    )
    assert one.sleeve.rounds <= two.sleeve.rounds
    assert one.body.rounds <= two.body.rounds


def test_a_preference_is_kept() -> None:
    made = with_balls(example(), 5.5)
    sleeves_first, even, body_first = (
        longest(made, "both", prefer_sleeves=weight) for weight in (1.0, 0.5, 0.0)
    )
    assert body_first.sleeve.rounds < even.sleeve.rounds < sleeves_first.sleeve.rounds
    assert sleeves_first.body.rounds < even.body.rounds < body_first.body.rounds
    arm, torso = sleeves(made), bodies(made)
    share_of_arm = [length.cm for length in arm].index(even.sleeve.cm) / (len(arm) - 1)
    share_of_torso = [length.cm for length in torso].index(even.body.cm) / (len(torso) - 1)
    # derived: they keep pace to a round
    assert share_of_arm == pytest.approx(share_of_torso, abs=1.5 / min(len(arm), len(torso)))
    with pytest.raises(ValueError, match="between 0 and 1"):
        longest(made, "both", prefer_sleeves=1.5)


def test_sureness_costs_length() -> None:
    made = with_balls(example(), 6)
    rounds = [longest(changed(made, sure=sure)).sleeve.rounds for sure in (60, 80, 95)]
    assert rounds == sorted(rounds, reverse=True)
    assert len(set(rounds)) > 1


def test_a_short_colour_is_rescued_by_plans_that_last() -> None:
    made = changed(example(), **{"yarn.CC2.balls": 0.12})
    assert made.yarns["CC2"].verdict == "short"
    found = rescues(made, "CC2")
    assert {rescue.way for rescue in found} == {"swap", "narrow", "drop"}
    for rescue in found:
        anew = plan(rescue.project)
        assert anew.key == rescue.plan.key
        assert all(estimate.verdict == "enough" for estimate in anew.yarns.values())
        bands = anew.project.garment.yoke.bands
        # derived: three bands in the example
        assert len(bands) == (2 if rescue.way == "drop" else 3)
    (swap,) = (rescue for rescue in found if rescue.way == "swap")
    assert (swap.bands, swap.instead) == ((2,), "CC1")
    (narrow,) = (rescue for rescue in found if rescue.way == "narrow")
    one_less = len(made.project.charts["lanterns"].rows) - (narrow.rows_less - 1)
    charts = made.project.charts
    rows = charts["lanterns"].model_copy(update={"rows": charts["lanterns"].rows[:one_less]})
    wider = made.project.model_copy(update={"charts": {**charts, "lanterns": rows}})
    # With a line more it is still short, if it can be knitted at all.
    with suppress(PlanError):
        assert plan(wider).yarns["CC2"].verdict != "enough"
    assert rescues(made, "CC1") == ()


def yoke_end(made: Plan) -> int:
    return next(len(s.rows) for s in made.schedule.sections if s.key == "yoke")


def reading(grams: float, section: str, row: int, copy: str = "", **others: Any) -> Entry:
    return Entry("2025-03-01T20:00:00", others.pop("yarn", "MC"), grams, section, row, copy)


def unweighed() -> Plan:
    """The example without its weighed swatch, which leaves a weighing little to teach."""
    whole = example().project
    plain = whole.swatch.plain.model_copy(update={"weighed": None})
    swatch = whole.swatch.model_copy(update={"plain": plain})
    return plan(whole.model_copy(update={"swatch": swatch}))


def test_a_weighing_narrows_the_forecast_and_moves_it() -> None:
    made = unweighed()
    (seen,) = forecast(made, [reading(230, "yoke", yoke_end(made))]).checkpoints
    usual = round(seen.expected.mean)
    before = made.yarn.left
    lefts = []
    for grams in (usual - 8, usual, usual + 8):
        after = forecast(made, [reading(grams, "yoke", yoke_end(made))])
        left = after.yarns["MC"].left
        assert left.high.grams - left.low.grams < (before.high.grams - before.low.grams) / 2
        lefts.append(left.mean.grams)
        old, new = after.per_stitch["MC"]
        assert new.sd < old.sd
    assert lefts == sorted(lefts)
    # derived: the best guess stays when the scale shows what was expected, to the gram
    assert lefts[1] == pytest.approx(before.mean.grams, abs=3)


def test_readings_count_in_the_order_of_the_rows_and_again_and_again_the_same() -> None:
    made = example()
    entries = [reading(181, "body", 40), reading(232, "yoke", yoke_end(made))]
    one, two = forecast(made, entries), forecast(made, entries[::-1])
    assert [seen.entry for seen in one.checkpoints] == entries[::-1]
    assert one.yarns == two.yarns


@pytest.mark.parametrize(
    ("entry", "code"),
    [
        (reading(20, "split", 1), "weighings.unlikely"),
        (reading(200, "split", 9), "weighings.no-row"),
        (reading(200, "sleeve", 3), "weighings.no-row"),
        (reading(10, "yoke", 3, yarn="CC9"), "weighings.no-row"),
    ],
)
def test_a_reading_that_cannot_be_is_left_out_and_told(entry: Entry, code: str) -> None:
    made = example()
    after = forecast(made, [entry])
    assert [finding.code for finding in after.findings] == [code]
    assert after.yarns["MC"].left == made.yarn.left


def test_a_reading_in_ounces_is_told_back_as_a_scale_shows_it() -> None:
    made = planned(sized())
    # derived: 21 oz are 595.34 g
    (finding,) = forecast(made, [reading(21 * 28.349523125, "yoke", yoke_end(made))]).findings
    assert "595.3 g of MC were weighed" in finding.message


def test_what_is_still_open_is_found_anew() -> None:
    made = with_balls(example(), 6)
    nothing = forecast(made, [])
    assert nothing.open == ("sleeves", "body")
    assert nothing.longest["sleeves"].sleeve == longest(made).sleeve
    grams = {place: expected(made, *place) for place in (("body", 40), ("hem", 3))}
    growing = forecast(made, [reading(grams["body", 40], "body", 40)])
    assert growing.open == ("sleeves", "body")
    assert min(b.rounds - b.edge_rounds for b in [growing.longest["body"].body]) > 40  # derived
    assert forecast(made, [reading(grams["hem", 3], "hem", 3)]).open == ("sleeves",)
    in_sleeve = expected(made, "sleeve", 5, "right")
    assert forecast(made, [reading(in_sleeve, "sleeve", 5, "right")]).open == ()
    first = changed(made, order="sleeves first")
    done = expected(first, "cuff", 2, "left")
    after = forecast(first, [reading(done, "cuff", 2, "left")])
    assert after.open == ("body",)
    assert set(after.longest) == {"body"}


def expected(made: Plan, section: str, row: int, copy: str = "") -> float:
    (seen,) = forecast(made, [reading(0, section, row, copy)]).checkpoints
    return float(round(seen.expected.mean))


def test_a_shaped_body_is_closed_once_it_is_begun() -> None:
    made = planned(sized(garment__body__shape="a-line"))
    assert forecast(made, [reading(expected(made, "body", 9), "body", 9)]).open == ("sleeves",)


def test_the_sleeves_can_go_before_the_body() -> None:
    one = planned(sized())
    other = planned(sized(garment__work_order="sleeves first"))
    keys = [section.key for section in other.schedule.sections]
    assert keys[-4:] == ["sleeve", "cuff", "body", "hem"]
    assert other.yarn.need.mean.grams == pytest.approx(one.yarn.need.mean.grams)
    assert other.yarn.chance == pytest.approx(one.yarn.chance)


def test_weighing_again_at_the_same_row_takes_the_place_of_the_first() -> None:
    made = plan(load(EXAMPLE))
    first = Entry("2026-01-01T10:00:00Z", "MC", 240.0, "yoke", 93)
    again = Entry("2026-01-01T10:05:00Z", "MC", 235.0, "yoke", 93)
    both, alone = learn(made, [first, again]), learn(made, [again])
    assert [check.entry for check in both.checkpoints] == [again]
    assert [check.is_used for check in both.checkpoints] == [
        check.is_used for check in alone.checkpoints
    ]
    assert both.findings == alone.findings
