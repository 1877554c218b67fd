"""Hostile words and names through the real verbs, within little memory and against a clock."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.running import names
from tests.hostile.bounded import Said, bounded
from tests.hostile.tables import as_toml
from tests.hostile.words import WORDS, tables_with
from tests.project_file.sample import SOUND
from tests.sheet.pages import read

ENDINGS = ("html", "json", "txt")
ALL = ("--as", "html", "--as", "json", "--as", "text")


def elements(page: Path) -> list[str]:
    return [element.tag for element in read(page.read_text())]


def is_calm(said: Said) -> bool:
    """Whether it went well, and what it says turns nothing and hides nothing."""
    return said.status == 0 and (said.out + said.err).replace("\n", "").isprintable()


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder in a folder, with a project for each of the words and what `sheet` made of it."""
    folder = tmp_path_factory.mktemp("outside") / "inside"
    folder.mkdir()
    for number, words in enumerate(("plain words", *WORDS.values())):
        (folder / f"{number}.toml").write_text(as_toml(tables_with(words)))
    commands = [["sheet", f"{number}.toml", *ALL] for number in range(len(WORDS) + 1)]
    for said in bounded(commands, cwd=folder):
        assert said.status == 0, said
    return folder


def test_words_decide_neither_where_a_sheet_goes_nor_what_it_is_called(written: Path) -> None:
    numbers = range(len(WORDS) + 1)
    expected = {f"{number}.{ending}" for number in numbers for ending in ("toml", *ENDINGS)}
    assert set(names(written)) == expected
    assert names(written.parent) == ["inside"]


def test_no_words_become_elements_of_the_page(written: Path) -> None:
    plain = elements(written / "0.html")
    for number, name in enumerate(WORDS, start=1):
        assert elements(written / f"{number}.html") == plain, name


NAMES = (
    "</script>".replace("/", "∕"),
    "<script>alert(1)",
    "{{7*7}}",
    "..x",
    "...",
    "$(touch mine)",
    "a;b",
    "'",
    '"',
    "%s%n",
    "א",
    "n" * 200,
)
"""That a file can have; those that cannot be printed are refused (`test_project_files`)."""


def test_a_file_of_any_name_gets_its_sheet_beside_it(tmp_path: Path) -> None:
    for name in NAMES:
        (tmp_path / f"{name}.toml").write_text(SOUND)
    commands = [["sheet", f"{name}.toml", *ALL] for name in NAMES]
    for name, said in zip(NAMES, bounded(commands, cwd=tmp_path), strict=True):
        assert is_calm(said), (name, said)
    expected = {f"{name}.{ending}" for name in NAMES for ending in ("toml", *ENDINGS)}
    assert set(names(tmp_path)) == expected
    plain = elements(tmp_path / "a;b.html")
    assert all(elements(tmp_path / f"{name}.html") == plain for name in NAMES)


@pytest.mark.parametrize("name", ["a\nb", "a\x1b[31mb", "\u202eb"])
def test_a_name_that_cannot_be_printed_is_shown_with_its_signs(name: str, tmp_path: Path) -> None:
    (tmp_path / f"{name}.toml").write_text(SOUND)
    (said,) = bounded([["sheet", f"{name}.toml", *ALL]], cwd=tmp_path)
    assert is_calm(said), said
    assert "\\u" in said.out
    assert names(tmp_path) == sorted(f"{name}.{ending}" for ending in ("toml", *ENDINGS))
