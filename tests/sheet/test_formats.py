"""Every format tells the same numbers."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator

import pytest

from tests.knitter import Line as PrintedLine
from tests.knitter import Part, knit
from tests.sheet.pages import read
from tests.sheet.plans import NAMES, hostile, inches, named, small
from tests.sweaters import planned, sized
from yokefellow.plan import Plan
from yokefellow.sheet.formats import FORMATS
from yokefellow.sheet.glance import render_glance
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.lines import Halt, Line, SectionView
from yokefellow.sheet.pieces import Glance, Sheet
from yokefellow.sheet.text import render_text
from yokefellow.sheet.view import view


def told(sheet: Sheet) -> Iterator[str]:
    """Everything with a number in it that all formats must tell."""
    yield from told_at_a_glance(sheet.glance)
    yield from sheet.before.swatch
    for found in sheet.before.cautions:
        yield from (found.message, found.remedy)
    for section in sheet.sections:
        yield from told_in_section(section)
    yield from told_at_the_end(sheet)


def told_at_a_glance(glance: Glance) -> Iterator[str]:
    for measure in glance.dimensions:
        yield from (measure.place, measure.finished, measure.counted)
    for yarn in glance.yarns:
        yield from (yarn.name, yarn.verdict)
        for amount in yarn.lines:
            yield from (amount.length, amount.weight, amount.balls)
    for saving in glance.savings:
        yield f"{saving.what}: {saving.saves} {saving.amount}."
    yield from glance.gauge


def told_in_section(section: SectionView) -> Iterator[str]:
    yield from (section.title, section.rows, section.yarn, section.done, *section.intro)
    for item in section.items:
        if isinstance(item, Line):
            yield from (item.what, item.why)
        else:
            yield item.text


def told_at_the_end(sheet: Sheet) -> Iterator[str]:
    for _, paragraphs in sheet.finishing:
        yield from paragraphs
    for entry in sheet.abbreviations:
        yield entry.how
    for measure in sheet.filled:
        yield from (measure.value, measure.source)
    yield from sheet.assumed
    for residual in sheet.residuals:
        yield from (residual.wanted, residual.got, residual.difference, residual.counted)


def test_page_text_and_data_tell_the_same(plan: Plan) -> None:
    body = next(element for element in read(render_html(plan)) if element.tag == "body").text
    text = " ".join(render_text(plan).split())
    data = json.dumps(json.loads(render_json(plan)), ensure_ascii=False)
    for words in told(view(plan)):
        assert words in body
        assert words in text
        assert json.dumps(words, ensure_ascii=False)[1:-1] in data


def test_the_text_has_every_line_with_its_count_and_its_boxes(plan: Plan) -> None:
    text = " ".join(render_text(plan).split())
    found = 1  # derived: one [ ] in the sentence that explains it
    for section in view(plan).sections:
        for item in section.items:
            if isinstance(item, Line):
                side = f" {item.side}" if item.side else ""
                yarn = f" ({item.yarn})" if item.yarn else ""
                label = f"{item.word} {item.numbers}{side}{yarn}"
                assert f"{label}: {item.what} → {item.count}" in text
                found += len(item.ticks) * (item.last - item.first + 1)
            elif isinstance(item, Halt):
                found += len(item.ticks)
    rounds, _, _ = text.partition("Abbreviations in this sheet")
    assert rounds.count("[ ]") == found


def test_the_data_can_be_knitted(plan: Plan) -> None:
    sections = json.loads(render_json(plan))["sections"]
    parts = [
        Part(
            section["key"],
            section["start"],
            tuple(
                PrintedLine(i["first"], i["last"], i["kind"], i["what"], i["count"])
                for i in section["items"]
                if i["is"] == "line"
            ),
            tuple(section["copies"]),
        )
        for section in sections
    ]
    assert knit(parts).loops == plan.total_stitches


@pytest.mark.parametrize("which", [small, inches, hostile])
def test_text_and_glance_keep_to_eighty_columns(which: Callable[[], Plan]) -> None:
    for shown in (render_text(which()), render_glance(which())):
        assert max(map(len, shown.splitlines())) <= 80  # derived: the width they promise
        assert shown.endswith("\n")


def test_the_data_has_the_keys_it_promises() -> None:
    document = json.loads(render_json(small()))
    assert document["edition"] == 1
    # snapshot: keys of edition 1; one may be added, none taken away or renamed
    assert set(document) >= {
        "edition", "title", "wearer", "key", "units", "rows", "stitches", "dimensions",
        "gauge", "counts", "yarns", "savings", "needles", "cautions", "safety", "swatch",
        "sections", "finishing", "abbreviations", "filled", "assumed", "residuals",
    }  # fmt: skip
    counts = document["counts"]
    n, y, b, s, u = (counts[letter] for letter in "NYBSU")
    # published: the identity of the split, Zimmermann, Knitting Without Tears, 1971 (retold)
    assert y == (b - 2 * u) + 2 * (s - u)
    assert n == small().shape.neck.stitches.got


def test_every_format_is_listed_once() -> None:
    assert set(FORMATS) == {"html", "pdf", "text", "json", "glance"}


# common practice, no source: what one or two screens of a terminal hold
def test_the_glance_is_short() -> None:
    assert len(render_glance(small()).splitlines()) <= 60  # our own limit: two screens


def test_the_key_changes_with_the_rows_and_not_with_the_title() -> None:
    keys = {view(named(name)).key for name in NAMES}
    assert len(keys) == len(NAMES)
    renamed = planned(sized("babies", "12", stitches_per_cm=2.0, title="Another"))
    assert view(renamed).key == view(small()).key
