"""The page: well formed, whole in itself, harmless, and usable with any hands and eyes."""

from __future__ import annotations

import re
from base64 import b64encode
from hashlib import sha256
from itertools import pairwise

import pytest

from tests.sheet.pages import Element, read
from tests.sheet.plans import HOSTILE, hostile, inches, small
from yokefellow.plan import Plan
from yokefellow.sheet.html import render_html
from yokefellow.sheet.pages import page
from yokefellow.sheet.view import view


@pytest.fixture(params=["small", "inches", "hostile"])
def html(request: pytest.FixtureRequest) -> str:
    return render_html({"small": small, "inches": inches, "hostile": hostile}[request.param]())


def of(elements: list[Element], tag: str) -> list[Element]:
    return [element for element in elements if element.tag == tag]


def test_it_is_well_formed_and_every_reference_has_its_end(plan: Plan) -> None:
    for html in (render_html(plan), page(view(plan), medium="paper")):
        elements = read(html)
        ids = [element.attributes["id"] for element in elements if "id" in element.attributes]
        assert len(ids) == len(set(ids))
        for element in elements:
            refers = element.attributes.get("aria-labelledby", "").split()
            refers += [element.attributes["for"]] if "for" in element.attributes else []
            if element.attributes.get("href", "").startswith("#"):
                refers.append(element.attributes["href"][1:])
            assert set(refers) <= set(ids)


def test_headings_go_down_one_step_at_a_time(html: str) -> None:
    levels = [int(e.tag[1]) for e in read(html) if re.fullmatch("h[1-6]", e.tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(below - above <= 1 for above, below in pairwise(levels))


def test_landmarks_language_and_tables(html: str) -> None:
    elements = read(html)
    assert of(elements, "html")[0].attributes["lang"] == "en"
    assert len(of(elements, "main")) == 1
    assert of(elements, "title")[0].text
    for heading in of(elements, "th"):
        assert heading.attributes["scope"] in ("col", "row")
    assert len(of(elements, "caption")) == len(of(elements, "table"))
    assert of(elements, "svg")[0].attributes["role"] == "img"
    assert of(elements, "desc")[0].text


def test_every_box_is_a_real_one_and_has_words(html: str) -> None:
    ticks = [e for e in of(read(html), "input") if e.attributes["type"] == "checkbox"]
    assert ticks
    assert all(e.attributes["aria-label"] and e.attributes["id"] for e in ticks)


def test_it_asks_nothing_of_anywhere_and_holds_no_inline_handler(html: str) -> None:
    for element in read(html):
        assert not element.attributes.get("src")
        assert element.tag not in ("link", "iframe", "object", "embed", "img", "base", "form")
        assert element.attributes.get("href", "#").startswith("#")
        assert "style" not in element.attributes
        assert not [name for name in element.attributes if name.startswith("on")]
    assert "@import" not in html
    assert "url(" not in html


def test_the_policy_allows_its_own_style_and_script_and_no_other(html: str) -> None:
    elements = read(html)
    (policy,) = (
        e.attributes["content"]
        for e in of(elements, "meta")
        if e.attributes.get("http-equiv") == "Content-Security-Policy"
    )
    for tag, directive in (("style", "style-src"), ("script", "script-src")):
        (element,) = of(elements, tag)
        # published: W3C, Content Security Policy Level 3, section 2.3.1, hash-source
        digest = b64encode(sha256("".join(element.texts).encode()).digest()).decode()
        assert f"{directive} 'sha256-{digest}'" in policy
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy


def test_hostile_words_stay_words() -> None:
    elements = read(render_html(hostile()))
    assert len(of(elements, "script")) == 1
    assert len(of(elements, "style")) == 1
    assert not of(elements, "img")
    assert of(elements, "h1")[0].text == HOSTILE[:80].strip()
    whole = of(elements, "body")[0].text
    assert "{{7*7}}" in whole
    assert "<style>*{display:none}</style>" in whole


def test_paper_has_no_script_and_no_boxes_to_click() -> None:
    elements = read(page(view(small()), medium="paper"))
    assert not of(elements, "script")
    assert not of(elements, "input")
    assert not of(elements, "button")


def test_paper_has_as_many_boxes_as_the_screen() -> None:
    screen = of(read(render_html(small())), "input")
    paper = page(view(small()), medium="paper")
    assert paper.count("☐") == len(screen)


def test_page_size_follows_the_choice() -> None:
    assert "size: A4;" in render_html(small())
    assert "size: letter;" in render_html(inches())
    assert 'class="screen large"' in render_html(inches())


def test_filled_measures_are_marked_with_a_sign_and_in_words() -> None:
    rows = [e for e in of(read(render_html(small())), "tr") if "tbody" in e.inside]
    chest = next(row for row in rows if "Chest, all round" in row.text)
    assert "○ filled in" in chest.text
