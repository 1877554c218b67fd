"""The tags of the PDF, for those who have it read to them.

What is checked here are requirements of ISO 14289-1 (PDF/UA-1) that a program can
check; many others need a person, and no conformance is claimed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from itertools import pairwise
from typing import Any

import pypdf
import pytest
from pypdf.generic import DictionaryObject

from tests.sheet.pages import read, squeezed
from tests.sheet.plans import named
from tests.sheet.tags import Tag, Tagged, words_by_mark
from yokefellow.sheet.lines import Line
from yokefellow.sheet.pages import page
from yokefellow.sheet.pdf import render_pdf
from yokefellow.sheet.view import view
from yokefellow.what_if import prospects


@cache
def tagged_of(name: str) -> Tagged:
    made = named(name)
    return Tagged(pypdf.PdfReader(BytesIO(render_pdf(made, prospects(made)))))


@pytest.fixture(params=["small", "meadow"])
def name(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def tagged(name: str) -> Tagged:
    return tagged_of(name)


# published: ISO 32000-1, section 14.8.4, the standard types of structure
STANDARD = re.compile(
    "Document|Part|Art|Sect|Div|BlockQuote|Caption|TOC|TOCI|Index|NonStruct|Private|P|L|LI|Lbl"
    "|LBody|Table|T[RHD]|THead|TBody|TFoot|Span|Quote|Note|Reference|BibEntry|Code|Link|Annot"
    "|Figure|Formula|Form|H[1-6]?"
)


def test_everything_painted_is_tagged_or_marked_as_beside_the_text(tagged: Tagged) -> None:
    # published: ISO 14289-1, section 7.1: content is an artifact or tagged, and neither twice
    marks = list(tagged.marks())
    assert len(marks) == len(set(marks))
    assert set(marks) == set(tagged.owners)
    assert tagged.parents() == tagged.owners
    assert all(STANDARD.fullmatch(tag.kind) for tag in tagged.top.all())


def test_running_heads_are_beside_the_text(tagged: Tagged) -> None:
    # published: ISO 14289-1, section 7.8: running heads are artifacts of pagination
    whole = tagged.top.text
    count = len(tagged.reader.pages)
    for number, sheet in enumerate(tagged.reader.pages, start=1):
        words = f"page {number} of {count}"
        assert words in words_by_mark(sheet)[-1]
        assert words not in whole


def test_it_says_what_it_is_and_in_what_language(tagged: Tagged, name: str) -> None:
    # published: ISO 14289-1, sections 5, 7.1 and 7.2: identification, title, language
    metadata = tagged.root["/Metadata"].get_object().get_data().decode()
    title = view(named(name)).title
    assert 'pdfuaid:part="1"' in metadata
    assert re.search(rf"<dc:title>.*{re.escape(title)}.*</dc:title>", metadata, re.DOTALL)
    assert tagged.root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert tagged.root["/MarkInfo"]["/Marked"]
    assert not tagged.root["/MarkInfo"].get("/Suspects", False)
    assert str(tagged.root["/Lang"]) == "en"
    assert not tagged.reader.is_encrypted


def test_headings_go_down_one_step_at_a_time_and_are_the_bookmarks(tagged: Tagged) -> None:
    # published: ISO 14289-1, section 7.4: no level of headings is left out
    headings = tagged.tags("H1", "H2", "H3", "H4")
    levels = [int(heading.kind[1]) for heading in headings]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(below - above <= 1 for above, below in pairwise(levels))
    marks = [(depth, mark.title) for depth, mark in bookmarks(tagged.reader.outline)]
    assert [(level, squeezed(title)) for level, title in marks] == [
        (level, squeezed(heading.text)) for level, heading in zip(levels, headings, strict=True)
    ]


def bookmarks(outline: Any, depth: int = 1) -> Iterator[tuple[int, Any]]:
    for mark in outline:
        if isinstance(mark, list):
            yield from bookmarks(mark, depth + 1)
        else:
            yield depth, mark


def test_it_is_read_in_the_order_of_the_plan(tagged: Tagged, name: str) -> None:
    """Sections and rows follow one another in the tree as in the schedule."""
    sections = view(named(name)).sections
    titles = [squeezed(tag.text) for tag in tagged.tags("H2", "H3")]
    first = titles.index("Therounds") + 1
    assert titles[first : first + len(sections)] == [squeezed(each.title) for each in sections]
    lines = [item for section in sections for item in section.items if isinstance(item, Line)]
    for row, line in zip(rows_of_rounds(tagged), lines, strict=True):
        assert squeezed(row.kids[0].text) == squeezed(f"{line.numbers}{line.side}")
        assert squeezed(f"{line.what}{line.why}") in squeezed(row.text)
        assert squeezed(row.kids[-1].text) == squeezed(f"{line.count}{line.delta}")


def rows_of_rounds(tagged: Tagged) -> Iterator[Tag]:
    """The rows of the tables of rounds, without their heads, checks and notes."""
    for table in tagged.tags("Table"):
        if any(tag.kind == "THead" and tag.text.endswith("Work Stitches") for tag in table.kids):
            rows = (row for part in table.kids if part.kind == "TBody" for row in part.kids)
            yield from (row for row in rows if len(row.kids) > 1)


def test_every_drawing_is_told_in_words_and_stands_where_it_says(tagged: Tagged, name: str) -> None:
    # published: ISO 14289-1, section 7.3; ISO 32000-1, table 344, BBox in units of the page
    made = named(name)
    html = read(page(view(made, prospects(made)), medium="paper"))
    titles = [e.text for e in html if e.tag == "title" and "svg" in e.inside]
    figures = tagged.tags("Figure")
    assert [" ".join(str(figure.held["/Alt"]).split()) for figure in figures] == titles
    for figure in figures:
        left, bottom, right, top = place(figure)
        sheet: Any = figure.held["/Pg"]
        box = sheet["/MediaBox"]
        # derived: within the margins of the sheet's own style, 16 and 15 mm, in points
        assert 16 / 25.4 * 72 <= left + 0.01 < right <= float(box[2]) - 15 / 25.4 * 72 + 0.01
        assert 0 < bottom < top < float(box[3])
    # derived: the first drawing stands under the title, in the upper half of the page
    assert place(figures[0])[1] > float(tagged.reader.pages[0].mediabox.height) / 2


def place(figure: Tag) -> list[float]:
    box: Any = figure.look["/BBox"]
    return [float(value) for value in box]


def test_every_table_has_headers_with_a_scope_and_rows_of_one_width(tagged: Tagged) -> None:
    # published: ISO 14289-1, section 7.5; ISO 32000-1, table 349, Scope
    for table in tagged.tags("Table"):
        headers = [tag for tag in table.all() if tag.kind == "TH"]
        assert headers
        for header in headers:
            assert str(header.look["/Scope"]) in ("/Column", "/Row")
        widths = {width(row) for row in table.all() if row.kind == "TR"}
        assert len(widths) == 1, table.text[:200]
        assert {kid.kind for kid in table.kids} <= {"Caption", "THead", "TBody", "NonStruct"}


def width(row: Tag) -> int:
    return sum(int(cell.look.get("/ColSpan", 1)) for cell in row.kids)


def test_lists_hold_items_and_items_hold_bodies(tagged: Tagged) -> None:
    # published: ISO 32000-1, table 336, and its section 14.8.4.3.3, elements of lists
    for item in tagged.tags("L"):
        assert {kid.kind for kid in item.kids} <= {"L", "LI", "Caption"}
    for item in tagged.tags("LI"):
        assert [kid.kind for kid in item.kids] in (["LBody"], ["Lbl", "LBody"])


def test_every_font_is_inside_and_can_be_read_back(tagged: Tagged) -> None:
    # published: ISO 14289-1, sections 7.21.4 and 7.21.7: embedded, mapped to Unicode
    fonts = list(fonts_of(tagged.reader))
    assert fonts
    for font in fonts:
        (inner,) = font["/DescendantFonts"].get_object()
        described = inner.get_object()["/FontDescriptor"].get_object()
        assert {"/FontFile2", "/FontFile3"} & set(described)
        assert "/ToUnicode" in font


def fonts_of(reader: pypdf.PdfReader) -> Iterator[Any]:
    for sheet in reader.pages:
        resources: Any = sheet["/Resources"]
        for font in resources["/Font"].values():
            held = font.get_object()
            assert isinstance(held, DictionaryObject)
            yield held
