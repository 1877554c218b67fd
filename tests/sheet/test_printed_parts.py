"""What is printed by choice: the whole, what is needed at the needle, or the appendix."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.sheet.pages import read
from tests.sheet.plans import small
from yokefellow.sheet.html import render_html

AT_THE_NEEDLE = {"rounds", "abbreviations"}
BEFORE_AND_AFTER = {"glance", "before", "finishing"}
APPENDIX = {"fit", "counts", "assumed"}


def sections(printed: str) -> list[str]:
    plan = small()
    choices = plan.project.sheet.model_copy(update={"print": printed})
    project = plan.project.model_copy(update={"sheet": choices})
    known = AT_THE_NEEDLE | BEFORE_AND_AFTER | APPENDIX
    page = read(render_html(replace(plan, project=project)))
    found = (element.attributes.get("id") for element in page)
    return [one for one in found if one in known]


@pytest.mark.parametrize(
    ("printed", "parts"),
    [
        ("whole", AT_THE_NEEDLE | BEFORE_AND_AFTER | APPENDIX),
        ("knitting", AT_THE_NEEDLE),
        ("appendix", APPENDIX),
    ],
)
def test_what_is_printed_is_chosen(printed: str, parts: set[str]) -> None:
    assert set(sections(printed)) == parts


def test_the_appendix_comes_last() -> None:
    order = sections("whole")
    assert set(order[-len(APPENDIX) :]) == APPENDIX
    assert order.index("rounds") < order.index("finishing") < order.index("abbreviations")
