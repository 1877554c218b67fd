"""`sheet`: which files it writes, whole or not at all."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import click
import pytest

from tests.cli.running import EXAMPLE, REFUSED, WRONG_USAGE, alone, names, one_line, run
from yokefellow.cli.commands.sheet import sheet
from yokefellow.findings import Finding, Severity, YokefellowError
from yokefellow.sheet.formats import FORMATS

MISSING_PANGO = """
print("a banner on standard output")
raise OSError("cannot load library 'libpango-1.0-0': no such file")
"""


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    return Path(shutil.copy(EXAMPLE, tmp_path / "mine.toml"))


def test_every_format_of_the_sheet_can_be_asked_for() -> None:
    forms = next(option for option in sheet.params if option.name == "forms").type
    assert isinstance(forms, click.Choice)
    # The glance has a verb of its own.
    assert {*forms.choices, "glance"} == set(FORMATS)


def test_writes_the_page_and_the_pdf_beside_the_file(mine: Path) -> None:
    result = run("sheet", mine)
    assert result.exit_code == 0, result.stderr
    assert names(mine.parent) == ["mine.html", "mine.pdf", "mine.toml"]
    assert mine.with_suffix(".pdf").read_bytes().startswith(b"%PDF-")
    assert "Little harbour" in mine.with_suffix(".html").read_text("utf-8")
    for name in ("mine.html", "mine.pdf"):
        assert str(mine.parent / name) in result.stdout
    assert result.stderr, "a PDF takes a while: something should say that it is being made"


def test_only_the_forms_asked_for_into_a_folder_that_it_makes(mine: Path) -> None:
    folder = mine.parent / "two new" / "folders"
    result = run("sheet", mine, "--into", folder, "--as", "json", "--as", "text")
    assert result.exit_code == 0, result.stderr
    assert names(folder) == ["mine.json", "mine.txt"]
    assert names(mine.parent) == ["mine.toml", "two new"]
    assert json.loads((folder / "mine.json").read_text("utf-8"))
    assert "Little harbour" in (folder / "mine.txt").read_text("utf-8")


def test_replaces_an_older_sheet(mine: Path) -> None:
    mine.with_suffix(".html").write_text("older")
    assert run("sheet", mine, "--as", "html").exit_code == 0
    assert "Little harbour" in mine.with_suffix(".html").read_text("utf-8")


def test_the_project_file_is_never_written_over(mine: Path) -> None:
    file = mine.rename(mine.with_suffix(".txt"))
    before = file.read_bytes()
    result = run("sheet", file, "--as", "text")
    assert result.exit_code == REFUSED
    assert "project file" in one_line(result.stderr)
    assert file.read_bytes() == before


def test_a_folder_that_cannot_be_made(mine: Path) -> None:
    (mine.parent / "taken").write_text("a file")
    result = run("sheet", mine, "--into", mine.parent / "taken" / "deeper", "--as", "html")
    assert result.exit_code == REFUSED
    assert "taken" in result.stderr or "deeper" in result.stderr


def test_a_file_is_no_folder_to_write_into(mine: Path) -> None:
    result = run("sheet", mine, "--into", mine, "--as", "html")
    assert result.exit_code == REFUSED
    assert "is a file; a folder is needed" in one_line(result.stderr)


@pytest.mark.parametrize("forms", ["html,pdf", "html, pdf", "html+pdf"])
def test_two_forms_in_one_are_told_how_they_are_given(mine: Path, forms: str) -> None:
    result = run("sheet", mine, "--as", forms)
    assert result.exit_code == WRONG_USAGE
    assert "Give --as twice: --as html --as pdf" in one_line(result.stderr)


def test_a_pdf_that_fails_leaves_the_page_and_the_older_pdf(
    mine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object, **__: object) -> bytes:
        raise YokefellowError(
            [Finding("test.no", Severity.ERROR, "", "The press is broken.", "Mend it.")]
        )

    monkeypatch.setattr("yokefellow.sheet.pdf.render_pdf", fails)
    mine.with_suffix(".pdf").write_bytes(b"older")
    result = run("sheet", mine, "--as", "pdf", "--as", "html")
    assert result.exit_code == REFUSED
    assert "The press is broken." in result.stderr
    assert names(mine.parent) == ["mine.html", "mine.pdf", "mine.toml"]
    assert mine.with_suffix(".pdf").read_bytes() == b"older"


def test_without_pango_the_page_is_written_and_the_package_named(mine: Path) -> None:
    broken = mine.parent / "broken" / "weasyprint"
    broken.mkdir(parents=True)
    (broken / "__init__.py").write_text(MISSING_PANGO)
    result = alone("sheet", "mine.toml", cwd=mine.parent, PYTHONPATH=str(broken.parent))
    assert result.returncode == REFUSED
    assert (mine.parent / "mine.html").stat().st_size > 0
    assert not (mine.parent / "mine.pdf").exists()
    assert b"pango" in result.stderr.lower()
    assert b"Traceback" not in result.stderr
    assert b"banner" not in result.stdout


def test_the_same_file_gives_the_same_bytes(mine: Path) -> None:
    every = [word for form in ("html", "pdf", "text", "json") for word in ("--as", form)]
    for folder in ("one", "two"):
        assert (
            alone("sheet", "mine.toml", "--into", folder, *every, cwd=mine.parent).returncode == 0
        )
    for name in names(mine.parent / "one"):
        one, two = (mine.parent / folder / name for folder in ("one", "two"))
        assert one.read_bytes() == two.read_bytes(), name
