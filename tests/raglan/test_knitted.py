"""The independent knitter works raglans of every kind from the printed page."""

from __future__ import annotations

import re

import pytest

from tests.knitter import knit_page
from tests.raglan.raglans import banded, raglan, yoke_of
from tests.sweaters import LINE_INCREASES, Sections, planned
from yokefellow.sheet.html import render_html
from yokefellow.sheet.text import render_text

KINDS: dict[str, Sections] = {
    **{
        f"{increase}, {width}": raglan(
            garment__yoke__line_width=width, garment__yoke__line_increase=increase
        )
        for increase in LINE_INCREASES
        for width in (1, 2, 3, 6)
    },
    "no line": raglan(garment__yoke__line_width=0, garment__yoke__line_increase="front and back"),
    "wrapped": raglan(garment__neck__short_rows="wrapped"),
    "no short rows": raglan(garment__neck__back_raise="none"),
    "by percentage": raglan(garment__yoke__proportions="percentage 1971"),
    "by percentage, odd": raglan(
        size="L", stitches_per_cm=1.9, garment__yoke__proportions="percentage 1989"
    ),
    "by percentage, yarn over": raglan(
        garment__yoke__proportions="percentage 1971", garment__yoke__line_increase="yarn over"
    ),
    "full bust": raglan(body__chest="112 cm", body__high_chest="100 cm"),
    "bands": banded({"chart": "beads"}, {"chart": "low-wall"}),
    "baby": raglan("babies", "3"),
    "largest": raglan(size="5X", ease__chest="oversized"),
    "sleeves first": raglan(garment__work_order="sleeves first"),
}


@pytest.mark.parametrize("sections", KINDS.values(), ids=KINDS)
def test_a_raglan_is_knitted_as_printed(sections: Sections) -> None:
    made = planned(sections)
    knitted = knit_page(render_html(made))
    split = made.shape.split
    assert knitted.held == (split.held,) * 2
    assert knitted.underarms == (split.underarm.got,) * 2
    assert knitted.loops == made.yarn.knitted.stitches or yoke_of(made).bands


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_the_yoke_says_its_rates_and_its_pieces(unit: str) -> None:
    made = planned(raglan(unit=unit))
    page, yoke = render_html(made), yoke_of(made)
    for piece in (yoke.back, yoke.sleeve):
        for rate in piece.rates:
            assert f" {rate.times} times" in page or rate.times == 1
    assert "Dashed lines: the lines of the raglan" in page
    assert "A pullover with a raglan yoke" in page
    assert "make the circle wider" not in page
    assert "the increase rounds of the yoke" not in page


def test_the_words_of_a_line_stand_in_the_rows() -> None:
    for increase, width in (("lifted", 2), ("yarn over", 4), ("front and back", 0)):
        line = {"garment__yoke__line_width": width, "garment__yoke__line_increase": increase}
        text = render_text(planned(raglan("women", "M", **line))).replace("\n", " ")
        text = re.sub(" +", " ", text)
        said = re.search("it reads: ([^.]+)\\.", text)
        assert said is not None
        assert text.count(said[1]) > 4  # derived: there, and at least once at each of four lines
