"""Sleeves before the body: the words say where the body waits, and the knitter arrives."""

from __future__ import annotations

from tests.knitter import knit_page
from tests.sweaters import planned, sized
from yokefellow.sheet.html import render_html
from yokefellow.sheet.view import view


def words(plan_of: str) -> dict[str, str]:
    sheet = view(planned(sized(garment__work_order=plan_of)))
    return {section.key: " ".join(section.intro) for section in sheet.sections}


def test_the_body_is_rested_and_taken_up_when_the_sleeves_come_first() -> None:
    first = words("sleeves first")
    assert list(first) == [
        "neckband",
        "back_neck",
        "yoke",
        "split",
        "sleeve",
        "cuff",
        "body",
        "hem",
    ]
    assert "slip the" in first["split"]
    assert "stitches of the body onto waste yarn" in first["split"]
    assert "Put the stitches of the body back on the needle" in first["body"]
    usual = words("body first")
    assert "of the body onto waste yarn" not in usual["split"]
    assert "back on the needle" not in usual["body"]


def test_the_independent_knitter_arrives_with_the_sleeves_first() -> None:
    plan = planned(sized(garment__work_order="sleeves first"))
    assert knit_page(render_html(plan)).loops == plan.total_stitches
