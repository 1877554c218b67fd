"""The PDF: everything is in it, nothing is fetched for it, and it is the same every time."""

from __future__ import annotations

import logging
import os
import re
import subprocess
import sys
import threading
from collections.abc import Sequence
from functools import cache
from hashlib import sha256
from http.server import BaseHTTPRequestHandler, HTTPServer
from io import BytesIO
from pathlib import Path

import pypdf
import pytest

from tests.sheet.pages import squeezed
from tests.sheet.plans import HOSTILE, hostile, inches, small
from yokefellow.plan import plan
from yokefellow.project_file.load import load
from yokefellow.sheet.lines import Line
from yokefellow.sheet.pdf import render_pdf, typeset
from yokefellow.sheet.view import view
from yokefellow.what_if import prospects


@cache
def printed(which: str) -> pypdf.PdfReader:
    plan = {"small": small, "inches": inches, "hostile": hostile}[which]()
    return pypdf.PdfReader(BytesIO(render_pdf(plan)))


@cache
def text_of(which: str) -> str:
    return "\n".join(page.extract_text() for page in printed(which).pages)


SMALL_AND_INCHES = {"small": small, "inches": inches}


@pytest.mark.parametrize("which", SMALL_AND_INCHES)
def test_every_line_is_printed_with_its_count(which: str) -> None:
    text = squeezed(text_of(which))
    at = 0
    for section in view(SMALL_AND_INCHES[which]()).sections:
        for item in section.items:
            if isinstance(item, Line):
                for words in (squeezed(f"{item.what} {item.why}"), f"{item.count}"):
                    found = text.find(words, at)
                    assert found >= 0, f"{section.key} {item.numbers}: {item.what}"
                    at = found + len(words)


def test_every_row_has_its_box() -> None:
    rows = sum(len(s.rows) * len(s.copies) for s in small().schedule.sections)
    copies = {section.key: len(section.copies) for section in small().schedule.sections}
    checks = sum(copies[check.section] for check in small().checks)
    assert text_of("small").count("☐") == rows + checks


# published: A4, ISO 216, 210 x 297 mm; Letter, ANSI/ASME Y14.1, 8.5 x 11 in; in points of 1/72 in
@pytest.mark.parametrize(
    ("which", "size"),
    [("small", (210 / 25.4 * 72, 297 / 25.4 * 72)), ("inches", (8.5 * 72, 11 * 72))],
)
def test_the_paper_is_the_one_chosen(which: str, size: tuple[float, float]) -> None:
    for page in printed(which).pages:
        box = page.mediabox
        assert (float(box.width), float(box.height)) == pytest.approx(size, abs=0.1)


def test_pages_say_where_they_are() -> None:
    pages = printed("small").pages
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in page.extract_text()
    rows = len(small().rows)
    ends = [page for page in pages if f"of {rows} done · " in page.extract_text()]
    assert len(ends) >= 2
    assert f"rows 1–{rows} of {rows} done · 100 %" in text_of("small")


def test_the_last_row_of_a_table_does_not_stand_alone_on_a_page() -> None:
    made = plan(load(Path(__file__).parents[2] / "examples" / "warm-evenings.toml"))
    pages = pypdf.PdfReader(BytesIO(render_pdf(made, prospects(made)))).pages
    short_rows = [len(re.findall(r"[0-9]+ [RW]S", page.extract_text())) for page in pages]
    assert sum(short_rows) == 11 + 1  # derived: 11 short rows, and BOR moves in one after the split
    back_neck = [number for number in short_rows if number][:2]
    assert len(back_neck) == 2, "the table is on one page: choose another sweater"
    assert min(back_neck) > 1


def test_it_is_tagged_titled_and_bookmarked() -> None:
    reader = printed("inches")
    root = reader.trailer["/Root"].get_object()
    assert isinstance(root, pypdf.generic.DictionaryObject)
    # published: ISO 14289-1 (PDF/UA-1), section 7.1 tagging and title, section 7.2 language
    assert _of(root, "/MarkInfo")["/Marked"]
    assert str(root["/Lang"]) == "en"
    assert _of(root, "/ViewerPreferences")["/DisplayDocTitle"]
    assert "/StructTreeRoot" in root
    assert reader.metadata is not None
    assert reader.metadata.title == "A yoke sweater"
    marks = [mark.title for mark in _flat(reader.outline)]
    assert "Yoke" in marks
    assert "Finishing" in marks


def _of(holder: pypdf.generic.DictionaryObject, key: str) -> pypdf.generic.DictionaryObject:
    held = holder[key].get_object()
    assert isinstance(held, pypdf.generic.DictionaryObject)
    return held


def _flat(outline: Sequence[object]) -> list[pypdf.generic.Destination]:
    flat: list[pypdf.generic.Destination] = []
    for mark in outline:
        if isinstance(mark, list):
            flat += _flat(mark)
        elif isinstance(mark, pypdf.generic.Destination):
            flat.append(mark)
    return flat


def test_hostile_words_are_printed_and_no_more() -> None:
    assert squeezed(HOSTILE[:80]) in squeezed(text_of("hostile"))
    for page in printed("hostile").pages:
        for annotation in page.get("/Annots", []):
            assert "/URI" not in annotation.get_object().get("/A", {})


def test_typesetting_warns_of_nothing(caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.WARNING, logger="weasyprint"):
        render_pdf(small())
    assert not caplog.messages


def test_a_character_without_a_font_is_told() -> None:
    # derived: U+10FFFD is for private use; no font of the trade has it
    said: list[str] = []
    odd = small().project.model_copy(update={"title": "Cat \U0010fffd"})
    render_pdf(plan(odd), progress=said.append)
    assert said[0] == "Writing the page"
    assert said[-1] == "No font here has U+10FFFD: printed as empty boxes"


class _Counting(BaseHTTPRequestHandler):
    hits = 0

    def do_GET(self) -> None:
        type(self).hits += 1
        self.send_response(200)
        self.end_headers()


def test_nothing_is_fetched_from_network_or_disk(tmp_path: Path) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("the-knitter's-own-secret")
    server = HTTPServer(("127.0.0.1", 0), _Counting)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        there = f"http://127.0.0.1:{server.server_port}/"
        pdf = typeset(
            f"<html lang=en><title>t</title><link rel=stylesheet href='{there}a.css'>"
            f"<link rel=attachment href='{secret.as_uri()}'><img alt=a src='{there}b.png'>"
            f"<style>body {{ background: url({secret.as_uri()}) }}</style><p>hello",
            key="0" * 16,
        )
    finally:
        server.shutdown()
        thread.join()
        server.server_close()
    assert _Counting.hits == 0
    reader = pypdf.PdfReader(BytesIO(pdf))
    assert not reader.attachments
    assert "secret" not in reader.pages[0].extract_text()


_AGAIN = """
from hashlib import sha256
from tests.sheet.plans import small
from yokefellow.sheet.pdf import render_pdf
print(sha256(render_pdf(small())).hexdigest())
"""


def python(program: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", program],
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
        timeout=120,
        cwd=Path(__file__).parents[2],
    )


def test_the_same_plan_gives_the_same_bytes_in_every_process() -> None:
    here = sha256(render_pdf(small())).hexdigest()
    for seed in ("1", "2"):
        other = python(_AGAIN, PYTHONHASHSEED=seed, TZ="Asia/Tokyo", SOURCE_DATE_EPOCH="1")
        assert other.stdout.strip() == here, other.stderr


def test_the_knitters_own_date_setting_is_put_back(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "12345")
    typeset("<html lang=en><title>t</title><p>hello", key="0" * 16)
    assert os.environ["SOURCE_DATE_EPOCH"] == "12345"


_REFUSED = """
from tests.sheet.plans import small
from yokefellow.findings import YokefellowError
from yokefellow.sheet.pdf import render_pdf
try:
    render_pdf(small())
except YokefellowError as refused:
    (found,) = refused.findings
    print(found.code, found.message, found.remedy, sep="|")
"""

_NO_PANGO = """
import sys
sys.path.insert(0, {folder!r})
"""


def test_a_missing_library_is_told_with_what_to_install(tmp_path: Path) -> None:
    fake = tmp_path / "weasyprint"
    fake.mkdir()
    banner = "WeasyPrint could not import some external libraries"
    (fake / "__init__.py").write_text(
        f"print({banner!r})\nraise OSError(\"cannot load library 'libpango-1.0-0'\")\n"
    )
    said = python(_NO_PANGO.format(folder=str(tmp_path)) + _REFUSED)
    code, message, remedy = said.stdout.strip().split("|")
    assert code == "pdf.library-missing"
    assert "libpango-1.0-0" in message
    # published: package names of Debian 12 and of Homebrew
    assert "libpangoft2-1.0-0 libharfbuzz-subset0 fonts-dejavu-core" in remedy
    assert "brew install pango" in remedy
    assert said.stderr == ""


@pytest.mark.skipif(sys.platform != "linux", reason="fonts are configured otherwise here")
def test_a_computer_without_fonts_is_told_so(tmp_path: Path) -> None:
    none = tmp_path / "fonts.conf"
    none.write_text("<?xml version='1.0'?><fontconfig></fontconfig>")
    said = python(_REFUSED, FONTCONFIG_FILE=str(none))
    assert said.stdout.startswith("pdf.library-missing|"), said.stderr
    assert "no font" in said.stdout
