"""The fit report on the sheet: the same numbers in every format, and a drawing with words."""

from __future__ import annotations

import json
import re
from collections.abc import Callable

import pytest

from tests.sheet import plans
from tests.sweaters import planned, sized
from yokefellow.plan import Plan
from yokefellow.sheet.glance import render_glance
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.text import WIDTH, fit_lines, render_text
from yokefellow.sheet.view import view


def full() -> Plan:
    body = {
        "chest": "112 cm",
        "high_chest": "97 cm",
        "front_length": "48 cm",
        "back_length": "42 cm",
        "shoulder_girth": "108 cm",
    }
    return planned(sized("women", "L", body=body, garment__body__shape="waist"))


def scooped() -> Plan:
    """A raglan with everything that has a measure of its own."""
    return planned(
        sized(
            "women",
            "L",
            body={"chest": "112 cm", "high_chest": "97 cm"},
            garment__yoke={"style": "raglan"},
            garment__neck={"front": "scooped", "back_raise": "4 cm"},
            garment__body__shape="waist",
        )
    )


@pytest.mark.parametrize("made", [full, scooped, plans.small, plans.inches, plans.banded])
def test_every_format_tells_the_same_heights(made: Callable[[], Plan]) -> None:
    plan = made()
    fit = view(plan).fit
    assert len(fit.rows) == len(plan.fit_report)
    page, text, glance = render_html(plan), render_text(plan), render_glance(plan)
    told = json.loads(render_json(plan))["fit"]
    assert told["summary"] == list(fit.summary)
    for row, data in zip(fit.rows, told["heights"], strict=True):
        line = f"{row.place} .*{re.escape(row.garment)} +{re.escape(row.ease)} .*{row.verdict}"
        assert re.search(line, text), row
        assert re.search(line, glance), row
        assert f'<th scope="row">{row.place}</th><td>{row.body}' in page
        assert data["shown"]["verdict"] == row.verdict
        assert (data["most_cm"] is None) == (row.most_cm is None)
    assert max(map(len, fit_lines(fit))) <= WIDTH


def test_the_summary_names_what_is_off_in_words() -> None:
    narrow = planned(
        sized(
            "women",
            "M",
            body={"chest": "96 cm", "upper_arm": "42 cm"},
            garment__yoke__proportions="percentage 1971",
        )
    )
    summary = " ".join(view(narrow).fit.summary)
    assert "Tighter than you chose: " in summary
    assert "upper arm" in summary
    assert "fit you chose at every height" not in summary


def test_the_drawing_has_both_outlines_to_one_scale_and_words_for_them() -> None:
    plan = full()
    drawn = view(plan).fit.drawing
    page = render_html(plan)
    assert f'<desc id="fit-text">{drawn.description}</desc>' in page
    for row in view(plan).fit.rows:
        assert row.garment in drawn.description
    body = [float(x) for x in re.findall(r"([0-9.]+) [0-9.]+", drawn.body)]
    garment = [float(x) for x in re.findall(r"([0-9.]+) [0-9.]+", drawn.garment)]
    # derived: both mirror in the middle of a picture 1000 wide
    assert min(body) + max(body) == pytest.approx(1000, abs=0.3)
    assert min(garment) + max(garment) == pytest.approx(1000, abs=0.3)


@pytest.mark.parametrize("made", [full, scooped])
def test_letters_in_the_table_stand_in_the_drawing(made: Callable[[], Plan]) -> None:
    sheet = view(made())
    assert "cuff" in {dimension.key for dimension in sheet.glance.dimensions}
    drawn = {label.letter for label in sheet.drawing.labels}
    assert {dimension.letter for dimension in sheet.glance.dimensions} == drawn
