"""The yarn on the sheet: how sure it is, where balls begin, what other lengths would take."""

from __future__ import annotations

import json
from functools import cache

import pytest

from tests.sheet.pages import read
from tests.sheet.plans import banded, inches, small
from tests.sweaters import planned, sized
from yokefellow.plan import Plan, plan
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.lines import Halt, Line, Note
from yokefellow.sheet.text import render_text
from yokefellow.sheet.view import view
from yokefellow.what_if import Prospects, prospects
from yokefellow.yarn import stash_use, verdict_words
from yokefellow.yarn.weighing_log import Entry

PLANS = {"small": small, "inches": inches, "banded": banded}


@cache
def asked(which: str) -> tuple[Plan, Prospects]:
    plan = PLANS[which]()
    return plan, prospects(plan)


@cache
def close() -> Plan:
    """As many grams as the best guess wants: nobody can call it."""
    usual = small()
    grams = usual.yarn.need.mean.grams
    ball = usual.project.yarn["MC"].ball_weight
    project = sized("babies", "12", stitches_per_cm=2.0, yarn__MC__balls=round(grams / ball, 2))
    return planned(project)


def test_a_length_that_is_as_long_as_can_be_asks_for_no_change() -> None:
    made = planned(sized(garment__body__length="hip"))
    others = view(made, prospects(made)).others
    assert others is not None
    told = {one.key: one.words for one in others.longest}
    assert told["sleeves"].startswith("The sleeves are as long as they can be")
    assert "write" not in told["sleeves"]
    assert told["body"].startswith("The body may be as long as it can be")
    assert 'write length = "' in told["body"]


def test_what_is_missing_is_told_without_a_minus() -> None:
    short = planned(sized("babies", "12", stitches_per_cm=2.0, yarn__MC__balls=0.5))
    left, estimate = view(short).glance.yarns[0].lines[-1], short.yarn.left
    assert left.what == "Short by"
    # derived: what is missing at most is the least that would be left, and the other way round
    assert left.weight == f"{-round(estimate.high.grams)}–{-round(estimate.low.grams)} g"
    assert (left.least_g, left.most_g) == (estimate.low.grams, estimate.high.grams)
    lines = [yarn.lines[-1] for yarn in view(close()).glance.yarns]
    assert [(line.what, line.weight[0]) for line in lines] == [("Left over", "−")]


def notes(plan: Plan, *kinds: str) -> list[tuple[str, int, str]]:
    return [
        (section.key, item.number, item.text)
        for section in view(plan).sections
        for item in section.items
        if isinstance(item, Note) and item.kind in kinds
    ]


def test_each_yarn_tells_its_range_its_verdict_and_what_it_rests_on(plan: Plan) -> None:
    unit = plan.project.sheet.units
    for yarn, estimate in zip(view(plan).glance.yarns, plan.yarns.values(), strict=True):
        lines = {line.key: line for line in yarn.lines}
        assert list(lines) == ["knitted", "need", "needed", "stash", "left"]
        assert lines["need"].least_g == estimate.need.low.grams
        assert lines["left"].most_g == estimate.left.high.grams
        colour = plan.project.yarn[estimate.code].colour
        assert yarn.verdict == verdict_words(estimate, unit, colour=colour)
        assert yarn.evidence_key == estimate.evidence == "gauge"
        assert "nine times in ten" in yarn.evidence  # derived: nobody said how sure; 90 %


def test_every_ball_begins_on_the_sheet_at_its_row(plan: Plan) -> None:
    found = sorted((section, row) for section, row, _ in notes(plan, "ball"))
    wanted = [
        (start.place.section, start.place.row)
        for code in plan.yarns
        for start in stash_use(plan.reckoning, plan.schedule, code).starts[1:]
    ]
    assert found == sorted(wanted)


def test_lots_take_turns_on_the_sheet() -> None:
    usual = small().project
    third = small().yarn.need.mean.grams / 3
    weights, lots = (third, third, 0.8 * third, 0.8 * third), ("A", "A", "B", "B")
    balls = sum(weights) / usual.yarn["MC"].ball_weight
    yarn = usual.yarn["MC"].model_copy(update={"weights": weights, "lots": lots, "balls": balls})
    made = plan(usual.model_copy(update={"yarn": {"MC": yarn}}))
    (use,) = (stash_use(made.reckoning, made.schedule, code) for code in made.yarns)
    said = notes(made, "lots")
    assert [(section, row) for section, row, _ in said] == [
        (change.first.section, change.first.row) for change in use.alternations
    ]
    assert said
    assert "take turns" in said[0][2]
    assert all("lot " in text for _, _, text in notes(made, "ball"))


def test_a_close_call_is_weighed_on_the_way() -> None:
    assert close().yarn.verdict == "close"
    halts = [
        (section.key, item)
        for section in view(close()).sections
        for item in section.items
        if isinstance(item, Halt) and item.kind == "weigh"
    ]
    # our choice: where a piece ends and yarn is still to come
    assert [key for key, _ in halts] == ["yoke", "body", "sleeve"]
    assert [len(halt.blanks) for _, halt in halts] == [1, 1, 2]
    assert render_text(close()).count("________ g") == 4  # derived: 1 + 1 + 2
    assert sum(e.has("blank") for e in read(render_html(close()))) == 4
    assert "MC" in {entry.code for entry in view(close()).abbreviations}


def test_enough_is_not_weighed() -> None:
    assert small().yarn.verdict == "enough"
    assert "________" not in render_text(small())


def test_one_yarn_needs_no_code() -> None:
    text = render_text(small())
    assert "MC" not in text
    assert "MC" in render_text(banded())


@pytest.mark.parametrize("which", PLANS)
# derived: the data keeps two decimals
def test_every_format_tells_what_other_lengths_would_take(which: str) -> None:
    plan, found = asked(which)
    others = view(plan, found).others
    assert others is not None
    body = next(e for e in read(render_html(plan, found)) if e.tag == "body").text
    text = " ".join(render_text(plan, found).split())
    data = json.loads(render_json(plan, found))["others"]
    lines = [line for group in others.groups for line in group.lines]
    assert len(lines) == len(found.variants) == len(data["lengths"])
    for line, variant, told in zip(lines, found.variants, data["lengths"], strict=True):
        assert (line.choice, line.is_chosen) == (variant.choice, variant.chosen)
        for words in (line.long, line.weight, line.saves, line.verdict):
            assert words in body
            assert words in text
        grams = {yarn["code"]: yarn["grams"] for yarn in told["yarns"]}
        for code, estimate in variant.yarns.items():
            assert grams[code] == pytest.approx(estimate.need.mean.grams, abs=0.01)
    for _, said in others.told:
        for words in said:
            assert words in body
            assert words in text


def test_unasked_it_tells_none_of_it() -> None:
    assert view(small()).others is None
    assert json.loads(render_json(small()))["others"] is None
    assert not [e for e in read(render_html(small())) if e.attributes.get("id") == "others"]


def test_the_bars_are_as_long_as_their_grams() -> None:
    plan, found = asked("banded")
    others = view(plan, found).others
    assert others is not None
    bars = others.bars
    needs = [
        variant.yarns["MC"].need.mean.grams
        for variant in found.variants
        if variant.kind in ("sleeves", "body")
    ]
    stash = float(bars.stash_x) - float(bars.left)
    for bar, grams in zip(bars.bars, needs, strict=True):
        # derived: all on one scale, drawn to a tenth of its unit
        assert float(bar.width) / stash == pytest.approx(grams / plan.yarn.stash.grams, rel=0.01)
        assert bar.verdict in ("enough", "close", "short")
    assert sum(bar.style == "chosen" for bar in bars.bars) == 2  # derived: sleeves and body


def test_after_a_weighing_the_sheet_speaks_of_it() -> None:
    plan = close()
    last = len(next(s for s in plan.schedule.sections if s.key == "yoke").rows)
    expected = prospects(plan, [_weighed(last, 100.0)]).forecast
    assert expected is not None
    grams = round(expected.checkpoints[0].expected.mean + 4)
    found = prospects(plan, [_weighed(last, grams)])
    others = view(plan, found).others
    assert others is not None
    assert others.weighed[0].startswith(f"After row {last} of the yoke: {grams} g of MC left")
    assert found.forecast is not None
    yarn = view(plan, found).glance.yarns[0]
    assert yarn.verdict_key == found.forecast.yarns["MC"].verdict
    assert "your weighings" in yarn.evidence


def _weighed(row: int, grams: float) -> Entry:
    return Entry("2026-01-02T03:04:05", "MC", grams, "yoke", row)


def test_the_short_row_that_ends_at_bor_has_its_side() -> None:
    neck = next(s for s in view(small()).sections if s.key == "back_neck")
    last = [item for item in neck.items if isinstance(item, Line)][-1]
    assert (last.kind, last.side) == ("part", "RS")


def test_the_sleeve_tells_both_sides_of_an_odd_underarm(plan: Plan) -> None:
    section = next(s for s in view(plan).sections if s.key == "sleeve")
    intro = " ".join(section.intro)
    underarm = plan.shape.split.underarm.got
    # derived: the centre of the underarm parts it
    assert f"each of the {underarm - underarm // 2} stitches" in intro
    assert f"its other {underarm // 2}" in intro
    assert ("is odd" in intro) == (underarm % 2 == 1)
