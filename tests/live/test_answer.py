"""What the page shows is what the sheet and the command line say."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.hostile.tables import as_toml
from tests.sweaters import written
from yokefellow.findings import PlanError, Severity
from yokefellow.live import along, answer, typed_values
from yokefellow.plan import plan
from yokefellow.project_file.load import load, parse
from yokefellow.project_file.new_file import fresh
from yokefellow.sheet.view import view

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_numbers_are_those_of_the_sheet(path: Path) -> None:
    made = answer(path.read_text("utf-8"), {})
    sheet = view(plan(load(path)))
    assert made.drawing == sheet.drawing
    assert made.fit == sheet.fit
    assert [one.finished for one in made.measures] == [
        one.finished for one in sheet.glance.dimensions
    ]
    assert made.findings == tuple(
        sorted(
            plan(load(path)).findings, key=lambda finding: list(Severity).index(finding.severity)
        )
    )
    verdicts = {bar.code: bar.verdict for bar in made.yarns}
    assert verdicts == {code: one.verdict for code, one in plan(load(path)).yarns.items()}


def test_a_change_is_written_into_the_text_and_followed() -> None:
    text = EXAMPLES[-1].read_text("utf-8")
    longer = answer(text, {"garment.sleeves.length": "15 1/2"})
    assert 'length = "15 1/2 in"' in longer.text
    assert longer.sweater is not None
    assert longer.sweater.finished.sleeve.length_cm == pytest.approx(39.37)  # derived: 15.5 in
    assert longer.sweater.key == plan(parse(longer.text)).key


def test_what_is_refused_stays_as_it_was_typed_and_the_file_as_it_was() -> None:
    text = EXAMPLES[-1].read_text("utf-8")
    wrong = answer(text, {"body.chest": "38-39", "ease.chest": "close"})
    assert wrong.refused == {"body.chest": "38-39"}
    assert typed_values(wrong.text)["body.chest"] == typed_values(text)["body.chest"]
    assert typed_values(wrong.text)["ease.chest"] == "close"
    assert wrong.at_fields["body.chest"].code == "value.span"
    (shown,) = (one for one in wrong.groups[0].inputs if one.field == "body.chest")
    assert shown.typed == "38-39"
    assert wrong.sweater is not None


def test_an_unfinished_sweater_says_what_is_needed() -> None:
    made = answer(fresh({"unit": "in", "wearer.size": "M"}), {})
    assert made.state == "unfinished"
    assert (made.sweater, made.drawing, made.yarns) == (None, None, ())
    assert {one.code for one in made.findings} == {"field.missing"}
    # The page never speaks of the file's own marks.
    assert not any(set('[]="') & set(one.message + one.way) for one in made.told)
    filled = answer(
        made.text,
        {
            "swatch.plain.washed.stitches": "26; 26.5",
            "swatch.plain.washed.rounds": "37",
            "yarn.MC.ball_weight": "50",
            "yarn.MC.ball_length": "219 yd",
            "yarn.MC.balls": "7",
            "needles.main": "US 4",
        },
    )
    assert filled.refused == {}
    assert filled.state in {"enough", "close", "short"}
    assert filled.sweater is not None


def test_a_name_that_is_no_field_changes_nothing() -> None:
    text = EXAMPLES[-1].read_text("utf-8")
    made = answer(text, {"body.tail": "3 in"})
    assert made.text == text
    assert [one.code for one in made.findings if one.field == "body.tail"] == ["page.not-changed"]


def test_a_slider_shows_where_the_yarn_ends() -> None:
    text = EXAMPLES[-1].read_text("utf-8")
    stops = along(text, "garment.sleeves.length")
    order = ["enough", "close", "short"]
    verdicts = [order.index(stop.verdict) for stop in stops if stop.verdict in order]
    assert len(stops) > 10
    # derived: a longer sleeve never costs less yarn
    assert verdicts == sorted(verdicts)
    for stop in stops[::6]:
        there = answer(text, {"garment.sleeves.length": f"{stop.value:g} in"})
        assert there.state == stop.verdict
    assert along(text, "body.chest") == ()


@pytest.mark.parametrize("seed", range(0, 60, 3))
def test_random_sweaters_are_shown_as_they_are_planned(seed: int) -> None:
    text = as_toml(written(seed))
    made = answer(text, {})
    refusals: set[str] = set()
    planned = None
    try:
        planned = plan(parse(text))
    except PlanError as refused:
        refusals = {one.code for one in refused.findings}
    if planned is None:
        assert made.sweater is None
        assert {one.code for one in made.findings} == refusals
    else:
        assert made.sweater is not None
        assert made.sweater.key == planned.key
        assert {bar.code: bar.verdict for bar in made.yarns} == {
            code: one.verdict for code, one in planned.yarns.items()
        }
