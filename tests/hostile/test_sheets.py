"""Hostile words in every field: each format prints them as words, and is else the same.

The law: in a sheet with hostile words, put plain words in their place, and it
is the sheet with plain words, tag for tag and letter for letter.
"""

from __future__ import annotations

import json
import re
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdf
import pytest

from tests.hostile.words import PLACES, WORDS, with_words
from tests.sheet.pages import read, squeezed
from yokefellow.plan import Plan, plan
from yokefellow.sheet.formats import FORMATS
from yokefellow.sheet.pages import page
from yokefellow.sheet.pdf import render_pdf, typeset
from yokefellow.sheet.view import view

PLAIN = "plain words"
LEFT_TO_RIGHT = "\u200e"


@cache
def sheet(words: str, form: str) -> str:
    rendered = FORMATS[form](planned(words))
    assert isinstance(rendered, str)
    return rendered


@cache
def planned(words: str) -> Plan:
    return plan(with_words(words))


def made_plain(text: str, words: str, *, blanks: bool = True) -> str:
    """Put plain words in the place of the hostile ones, of any of their lengths."""
    for most in sorted({most for _, most in PLACES}, reverse=True):
        cut = (" " if blanks else "").join(words[:most].split())
        text = text.replace(f"{LEFT_TO_RIGHT}{cut}{LEFT_TO_RIGHT}", PLAIN).replace(cut, PLAIN)
    return text


def test_the_sample_holds_words_wherever_words_can_be() -> None:
    found = {place for place, _ in PLACES}
    assert {
        ("title",),
        ("wearer", "name"),
        ("yarn", "MC", "name"),
        ("yarn", "CC1", "colour"),
        ("yarn", "MC", "fibre"),
        ("yarn", "CC1", "lots", 0),
        ("charts", "dots", "title"),
        ("charts", "dots", "about"),
    } <= found
    assert sheet(PLAIN, "html").count(PLAIN) > len(found) / 2


# published: W3C, CSS Syntax Module Level 3, section 4.3.7, an escaped code point and its blank
ESCAPED = re.compile(r"\\([0-9a-f]{1,6}) ")
HASH = re.compile("'sha256-[^']*'")


def skeleton(html: str, words: str) -> Iterator[tuple[str, dict[str, str], str]]:
    """Every element; the title in the style sheet is unescaped, and the hash of that left out."""
    for element in read(html):
        attributes = {
            name: HASH.sub("", made_plain(value, words))
            for name, value in element.attributes.items()
        }
        text = ESCAPED.sub(lambda escape: chr(int(escape[1], 16)), element.text)
        yield element.tag, attributes, made_plain(text, words)


@pytest.mark.parametrize("name", WORDS)
def test_a_page_is_the_same_but_for_the_words(name: str) -> None:
    hostile = list(skeleton(sheet(WORDS[name], "html"), WORDS[name]))
    assert hostile == list(skeleton(sheet(PLAIN, "html"), PLAIN))


def on_paper(words: str) -> str:
    """The page that a PDF is set from."""
    return page(view(planned(words)), medium="paper")


def test_the_page_for_paper_is_the_same_but_for_the_words() -> None:
    plain = list(skeleton(on_paper(PLAIN), PLAIN))
    for words in (*WORDS.values(), *fetching("file:c")):
        assert list(skeleton(on_paper(words), words)) == plain, words


def without_rules(text: str) -> str:
    """The text without the lines drawn under its headings, which are as long as these are."""
    return squeezed("\n".join(line for line in text.splitlines() if set(line) - set("=-─")))


@pytest.mark.parametrize("form", ["text", "glance"])
@pytest.mark.parametrize("name", WORDS)
def test_a_text_is_the_same_but_for_the_words(name: str, form: str) -> None:
    hostile = sheet(WORDS[name], form)
    lines = squeezed(made_plain(without_rules(hostile), WORDS[name], blanks=False))
    assert lines == squeezed(without_rules(sheet(PLAIN, form)))
    assert hostile.replace("\n", "").replace(LEFT_TO_RIGHT, "").isprintable()


def data(given: Any, words: str) -> Any:
    if isinstance(given, dict):
        return {key: data(value, words) for key, value in given.items()}
    if isinstance(given, list):
        return [data(value, words) for value in given]
    return made_plain(given, words) if isinstance(given, str) else given


@pytest.mark.parametrize("name", WORDS)
def test_the_data_are_the_same_but_for_the_words(name: str) -> None:
    hostile = data(json.loads(sheet(WORDS[name], "json")), WORDS[name])
    assert hostile == data(json.loads(sheet(PLAIN, "json")), PLAIN)


@pytest.mark.parametrize("form", ["html", "text", "json", "glance"])
@pytest.mark.parametrize("name", ["letters that run to the left", "digits that run to the left"])
def test_letters_that_run_to_the_left_turn_nothing_around_them(name: str, form: str) -> None:
    # published: Unicode Standard Annex 9, rules W2, W7 and N1: behind a mark of direction, numbers
    # and signs no longer take theirs from the letters before it
    sheets = sheet(WORDS[name], form).split(WORDS[name])
    assert len(sheets) > 1
    mark = "\\u200e" if form == "json" and "\\u200e" in sheets[0] else LEFT_TO_RIGHT
    assert all(before.endswith(mark) for before in sheets[:-1])
    assert all(behind.startswith(mark) for behind in sheets[1:])


@contextmanager
def listening() -> Iterator[tuple[int, socket.socket]]:
    """A socket of our own machine, that nobody must call."""
    with socket.socket() as ear:
        ear.bind(("127.0.0.1", 0))
        ear.listen()
        ear.settimeout(0.2)
        yield ear.getsockname()[1], ear


def nobody_called(ear: socket.socket) -> bool:
    try:
        ear.accept()
    except TimeoutError:
        return True
    return False


CANARY = "the canary in the mine"


def fetching(url: str) -> tuple[str, ...]:
    """Ways to ask for a file, each of at most 80 letters."""
    return (
        f"<img src={url}>",
        f"<link rel=stylesheet href={url}>",
        f"<style>@import '{url}'</style>",
        f'<p style="content:url({url})">',
        f"<object data={url}>",
        f"<svg><image href={url}>",
        f"'); }} * {{ background: url({url}) }}",
        f"<link rel=attachment href={url}>",
        f"</title><base href={url}>",
    )


# derived: the sample has more fields than there are ways, so each way is tried
@pytest.mark.parametrize("where", ["network", "disk"])
def test_a_pdf_with_hostile_words_fetches_nothing(
    where: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "c").write_text(CANARY)
    monkeypatch.chdir(tmp_path)
    with listening() as (port, ear):
        url = f"http://127.0.0.1:{port}/" if where == "network" else "file:c"
        ways = fetching(url)
        assert len(ways) <= len(PLACES)
        pdf = render_pdf(plan(with_words(*ways)))
        assert nobody_called(ear)
    reader = pypdf.PdfReader(BytesIO(pdf))
    text = squeezed("".join(page.extract_text() for page in reader.pages))
    assert squeezed(ways[0]) in text
    assert CANARY not in text
    assert CANARY.encode() not in pdf
    harmless(reader)


def harmless(reader: pypdf.PdfReader) -> None:
    """It holds nothing that a reader would run, open or take out."""
    assert not reader.attachments
    for held in reader.resolved_objects.values():
        if isinstance(held, pypdf.generic.DictionaryObject):
            assert not {"/JS", "/JavaScript", "/Launch", "/URI", "/AA"} & set(held)
    root = reader.trailer["/Root"].get_object()
    assert isinstance(root, pypdf.generic.DictionaryObject)
    assert "/OpenAction" not in root


def test_even_a_page_that_asks_for_it_gets_nothing(tmp_path: Path) -> None:
    """Beyond the escaping: were a hostile word ever to become markup, still nothing is fetched."""
    secret = tmp_path / "c"
    secret.write_text(f"<svg xmlns='http://www.w3.org/2000/svg'><text>{CANARY}</text></svg>")
    with listening() as (port, ear):
        asking = "".join(
            way
            for url in (f"http://127.0.0.1:{port}/", secret.as_uri(), f"ftp://127.0.0.1:{port}/")
            for way in fetching(url)
        )
        face = f"@font-face {{ font-family: x; src: url({secret.as_uri()}) }}"
        html = page(view(planned(PLAIN)), medium="paper")
        start = html.index("</style>")
        spoilt = html[:start] + face + html[start:].replace("</body>", f"{asking}</body>")
        pdf = typeset(spoilt, key="0" * 16)
        assert nobody_called(ear)
    reader = pypdf.PdfReader(BytesIO(pdf))
    assert CANARY not in "".join(page.extract_text() for page in reader.pages)
    assert not reader.attachments
    assert not [image for page in reader.pages for image in page.images]
