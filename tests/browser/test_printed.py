"""Printed from the browser, the page is as good as the PDF."""

from __future__ import annotations

from functools import cache
from io import BytesIO
from pathlib import Path
from unicodedata import normalize

import pypdf
import pytest

from tests.browser.chromium import look, planned, written
from tests.sheet.pages import squeezed
from yokefellow.sheet.lines import Line
from yokefellow.sheet.pdf import render_pdf
from yokefellow.sheet.view import view
from yokefellow.what_if import prospects

NAMES = ("warm-evenings", "late-veranda", "little-harbour", "inches")


@cache
def set_by_us(name: str) -> pypdf.PdfReader:
    made = planned(name)
    return pypdf.PdfReader(BytesIO(render_pdf(made, prospects(made))))


@pytest.mark.parametrize("name", NAMES)
def test_the_printed_page_has_every_line_and_no_controls(name: str, tmp_path: Path) -> None:
    printed = tmp_path / "printed.pdf"
    (seen,) = look({"task": "print", "url": written(name, tmp_path).as_uri(), "into": str(printed)})
    assert seen["said"] == []
    pages = pypdf.PdfReader(printed).pages
    ours = set_by_us(name).pages
    assert pages[0].mediabox.width == pytest.approx(float(ours[0].mediabox.width), abs=1)
    # A page more or less is the letters' doing.
    assert abs(len(pages) - len(ours)) <= 1
    # The browser prints two letters in one, such as fi.
    texts = [normalize("NFKC", page.extract_text()) for page in pages]
    text = squeezed(" ".join(texts))
    sheet = view(planned(name))
    at = 0
    for section in sheet.sections:
        for item in section.items:
            if isinstance(item, Line):
                words = squeezed(normalize("NFKC", f"{item.what}{item.why}"))
                at = text.find(words, at)
                assert at >= 0, f"{section.key} {item.numbers}: {item.what}"
                at += len(words)
    for number, words in enumerate(map(squeezed, texts), start=1):
        assert f"page{number}of{len(pages)}" in words
        assert squeezed(sheet.title) in words
    for control in ("Continue where", "Save, restore", "Go to the rounds", "Your ticks are"):
        assert squeezed(control) not in text
