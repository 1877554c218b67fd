"""The independent knitter finds the same garment on every kind of paper.

She reads the HTML page as it is seen, the PDF back through its tags, the plain text and the
data, each with a reader of its own that shares no code with the program, and knits from each.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import count, islice
from pathlib import Path
from typing import Any

import pytest

from tests.banded.sweaters import banded
from tests.knitter import Line, Part, knit
from tests.knitter.html_text import read_html
from tests.knitter.json_data import read_json
from tests.knitter.page import read_page
from tests.knitter.pdf_text import read_pdf
from tests.knitter.plain_text import read_text
from tests.knitter.sheets import Sheet
from tests.often import portions
from tests.sweaters import Sections, edited, necked, planned_or_refused, project, written
from yokefellow.findings import PlanError
from yokefellow.plan import Plan, plan
from yokefellow.project_file.load import load
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.pages import page
from yokefellow.sheet.pdf import render_pdf, typeset
from yokefellow.sheet.text import render_text
from yokefellow.sheet.view import view
from yokefellow.what_if import Prospects, prospects

EXAMPLES = sorted((Path(__file__).parents[1] / "examples").glob("*.toml"))

QUICK = 24
"""Random sweaters that are read in every format but the PDF, which takes two seconds each."""
BANDED = 8
FIRST_SEED = 70_000


def quick(made: Plan, more: Prospects | None = None) -> dict[str, Sheet]:
    """Read a sweater from every format that is made in a moment."""
    return {
        "html": read_html(render_html(made, more)),
        "text": read_text(render_text(made, more)),
        "json": read_json(render_json(made, more)),
    }


def every(made: Plan, more: Prospects | None = None) -> dict[str, Sheet]:
    return {**quick(made, more), "pdf": read_pdf(render_pdf(made, more))}


def are_one_garment(sheets: dict[str, Sheet], made: Plan) -> None:
    """The same words, numbers and yarns everywhere, and the same sweater off the needles."""
    one = sheets["json"]
    for format_, sheet in sheets.items():
        assert sheet.title == one.title, format_
        assert sheet.measures == one.measures, format_
        assert sheet.yarns == one.yarns, format_
        assert sheet.spends == one.spends, format_
        assert by_row(sheet) == by_row(one), format_
    # What is printed alike to the letter is knitted once.
    off_the_needles = [knit(parts) for parts in {sheet.parts for sheet in sheets.values()}]
    for knitted in off_the_needles:
        assert knitted == off_the_needles[0]
        assert knitted.loops == made.total_stitches
    # The marks that the page carries for programs say what the eye sees.
    assert [replace(part, key="") for part in read_page(render_html(made))] == [
        Part("", part.start, tuple(replace(line, yarn="") for line in part.lines), part.copies)
        for part in one.parts
    ]


def by_row(sheet: Sheet) -> list[tuple[str, int, tuple[str, ...], list[Line]]]:
    """Every section with its rows one by one, however they were drawn together."""
    return [
        (
            part.key,
            part.start,
            part.copies,
            [
                replace(line, first=number, last=number)
                for line in part.lines
                for number in range(line.first, line.last + 1)
            ],
        )
        for part in sheet.parts
    ]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_is_the_same_in_every_format(path: Path) -> None:
    made = plan(load(path))
    are_one_garment(every(made, prospects(made)), made)


def sweaters() -> Iterator[tuple[Sections, Plan]]:
    """Random sweaters, every third with the sleeves first and every fourth in large print."""
    for seed in count(FIRST_SEED):
        sections = edited(
            necked(seed),
            garment__work_order="body first" if seed % 3 else "sleeves first",
            sheet__large_print=seed % 4 == 0,
        )
        made = planned_or_refused(sections)
        if made is not None:
            yield sections, made


@cache
def sample() -> tuple[tuple[Sections, Plan], ...]:
    return (*islice(sweaters(), QUICK), *with_fronts())


def with_fronts() -> Iterator[tuple[Sections, Plan]]:
    """A small raglan with each front that is worked flat."""
    for front in ("scooped", "V"):
        sections = edited(
            written(FIRST_SEED),
            wearer={"table": "children", "size": "2"},
            body={},
            garment={
                "work_order": "body first",
                "neck": {"front": front, "short_rows": "german"},
                "yoke": {"style": "raglan"},
            },
        )
        yield sections, plan(project(sections))


def kinds(sections: Sections) -> set[str]:
    """What is special about a sweater and its sheet."""
    garment, sheet = sections["garment"], sections["sheet"]
    return {
        garment["neck"]["short_rows"],
        garment["work_order"],
        garment["yoke"].get("style", "circular"),
        f"{garment['neck'].get('front', 'level')} front",
        sheet["units"],
        sheet["paper"],
        "large print" if sheet["large_print"] else "small print",
    }


def few() -> list[tuple[Sections, Plan]]:
    """The smallest sweaters of the sample that together are of every kind: for the slow PDF."""
    missing = set().union(*(kinds(sections) for sections, _ in sample()))
    taken = []
    for sections, made in sorted(sample(), key=lambda one: len(one[1].rows)):
        if kinds(sections) & missing:
            taken.append((sections, made))
            missing -= kinds(sections)
    return taken


@pytest.mark.parametrize("part", portions(4))
def test_random_sweaters_are_the_same_in_every_quick_format(part: int) -> None:
    for _, made in sample()[part::4]:
        are_one_garment(quick(made), made)


def test_random_sweaters_are_the_same_in_the_pdf() -> None:
    for _, made in few():
        are_one_garment(every(made), made)


def test_the_few_are_of_every_kind() -> None:
    seen = Counter(kind for sections, _ in few() for kind in kinds(sections))
    assert set(seen) == {
        *("german", "wrapped", "body first", "sleeves first", "circular", "raglan"),
        *("cm", "in", "A4", "Letter", "large print", "small print"),
        *("level front", "scooped front", "V front"),
    }


def with_bands() -> Iterator[Plan]:
    for seed in count(FIRST_SEED):
        try:
            yield plan(project(banded(seed)))
        except PlanError:
            continue


def test_banded_sweaters_are_the_same_in_every_quick_format() -> None:
    for one in islice(with_bands(), BANDED):
        are_one_garment(quick(one), one)


@cache
def harbour() -> tuple[Plan, dict[str, Any]]:
    made = plan(load(next(path for path in EXAMPLES if path.stem == "little-harbour")))
    return made, {
        "html": render_html(made),
        "text": render_text(made),
        "json": render_json(made),
    }


READERS = {"html": read_html, "text": read_text, "json": read_json}


@pytest.mark.parametrize("spoilt", READERS)
def test_a_number_that_is_other_in_one_format_is_found(spoilt: str) -> None:
    made, printed = harbour()
    split = str(made.shape.split.yoke)
    wrong = str(made.shape.split.yoke + 1)
    marks = {
        "html": f'class="count">{split}<',
        "text": f"→ {split}",
        "json": f'"count": {split},',
    }
    assert marks[spoilt] in printed[spoilt]
    other = printed | {
        spoilt: printed[spoilt].replace(marks[spoilt], marks[spoilt].replace(split, wrong), 1)
    }
    sheets = {format_: READERS[format_](text) for format_, text in other.items()}
    with pytest.raises(AssertionError):
        are_one_garment(sheets, made)


def test_a_number_that_is_other_in_the_pdf_is_found() -> None:
    _, made = few()[0]
    split = made.shape.split.yoke
    html = page(view(made), medium="paper")
    wrong = html.replace(f'class="count">{split}<', f'class="count">{split + 1}<', 1)
    assert wrong != html
    read = read_pdf(typeset(wrong, key="0" * 16))
    assert by_row(read) != by_row(read_json(render_json(made)))
    assert read.measures == read_json(render_json(made)).measures


def test_a_line_that_is_missing_in_the_text_is_found() -> None:
    made, printed = harbour()
    lines = printed["text"].splitlines(keepends=True)
    at = next(at for at, line in enumerate(lines) if line.startswith("Round 2: "))
    sheets = {format_: READERS[format_](text) for format_, text in printed.items()}
    are_one_garment(sheets, made)
    shorter = read_text("".join(lines[:at] + lines[at + 1 :]))
    assert by_row(shorter) != by_row(sheets["json"])
