"""`check`, `glance`, `sizes` and `schema`."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import jsonschema
import pytest

from tests.cli.running import EXAMPLE, REFUSED, WRONG_USAGE, one_line, run
from yokefellow.body.size_tables import tables
from yokefellow.plan import plan
from yokefellow.project_file.load import load


@pytest.fixture
def faulty(tmp_path: Path) -> Path:
    """Two errors in two places."""
    text = EXAMPLE.read_text("utf-8")
    text = text.replace('upper_arm = "20.5 cm"', 'upper_arm = "20.5 furlong"')
    text = text.replace('paper = "A4"', 'paper = "foolscap"')
    file = tmp_path / "faulty.toml"
    file.write_text(text, "utf-8")
    return file


def test_check_shows_every_finding_of_the_plan() -> None:
    result = run("check", EXAMPLE)
    assert result.exit_code == 0
    found = plan(load(EXAMPLE)).findings
    assert found, "the example should have something to be careful of"
    for finding in found:
        assert finding.message in one_line(result.stdout)
        assert finding.remedy in one_line(result.stdout)
    assert result.stderr == ""


def test_check_shows_several_errors_together(faulty: Path) -> None:
    result = run("check", faulty)
    assert result.exit_code == REFUSED
    assert "body.upper_arm" in result.stderr
    assert "sheet.paper" in result.stderr
    assert "furlong" in result.stderr
    assert result.stdout == ""


@pytest.mark.parametrize("verb", ["check", "glance", "sheet"])
def test_a_file_that_is_not_there(verb: str, tmp_path: Path) -> None:
    result = run(verb, tmp_path / "none.toml")
    assert result.exit_code == REFUSED
    assert "none.toml" in result.stderr


@pytest.mark.parametrize("verb", ["check", "glance", "sheet"])
def test_an_unsound_file_stops_every_verb(verb: str, faulty: Path) -> None:
    result = run(verb, faulty)
    assert result.exit_code == REFUSED
    assert "furlong" in result.stderr
    assert list(faulty.parent.iterdir()) == [faulty]


@pytest.mark.parametrize(
    "words", [["check"], ["sheet", "a.toml", "--as", "papyrus"], ["knit"], ["sizes", "giants"], []]
)
def test_wrong_usage(words: list[str]) -> None:
    assert run(*words).exit_code == WRONG_USAGE


def test_glance_shows_the_title_and_the_chest() -> None:
    result = run("glance", EXAMPLE)
    assert result.exit_code == 0
    assert "Little harbour" in result.stdout


def test_sizes_lists_every_table_with_its_sizes() -> None:
    lines = run("sizes").stdout.splitlines()
    for line, table in zip(lines, tables().values(), strict=True):
        assert line.split()[0] == table.name
        assert ", ".join(table.sizes) in line


@pytest.mark.parametrize("name", list(tables()))
def test_a_table_shows_every_measure_size_and_source(name: str) -> None:
    result = run("sizes", name.upper())
    assert result.exit_code == 0
    shown = one_line(result.stdout)
    table = tables()[name]
    for row in table.rows.values():
        assert row.name.replace("_", " ") in shown
        assert row.source.full in shown
    assert all(size in shown.split() for size in table.sizes)


def test_a_table_in_inches_shows_the_published_numbers() -> None:
    # published: Craft Yarn Council, Standard Body Measurements, women, chest of M and L
    # and upper arm of M
    lines = run("sizes", "women", "--unit", "in").stdout.splitlines()
    columns = next(line for line in lines if line.split()[:2] == ["XS", "S"]).split()
    chest = next(line for line in lines if line.startswith("chest")).split()[1:]
    upper_arm = next(line for line in lines if line.startswith("upper arm")).split()[2:]
    assert chest[columns.index("M")] == "36–38"
    assert chest[columns.index("L")] == "40–42"
    assert upper_arm[columns.index("M")] == "11"


def test_no_line_of_a_table_is_wider_than_the_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    for width in (40, 60, 80):
        monkeypatch.setenv("COLUMNS", str(width))
        for name in tables():
            lines = run("sizes", name).stdout.splitlines()
            assert max(map(len, lines)) <= width


def test_the_nearest_size_and_where_the_body_departs(tmp_path: Path) -> None:
    # derived: by the Craft Yarn Council's women M, chest 36-38 in and waist 28-30 in,
    # a chest of 37 lies inside, and a waist of 32 lies 2 above
    text = (EXAMPLE.parent / "warm-evenings.toml").read_text("utf-8")
    file = tmp_path / "mine.toml"
    file.write_text(text.replace('chest = "38 1/2 in"', 'chest = "37 in"'), "utf-8")
    lines = run("sizes", "--body", file).stdout.splitlines()
    assert lines[0] == "Nearest by a chest of 37 in: women M."
    by_name = {line.split()[0]: one_line(line) for line in lines[1:] if line.strip()}
    assert by_name["chest"] == "chest 37 in 36–38 in"
    assert by_name["waist"] == "waist 32 in 28–30 in 2 in larger"


def test_the_nearest_size_of_a_body_that_was_not_measured(tmp_path: Path) -> None:
    text = EXAMPLE.read_text("utf-8").replace('upper_arm = "20.5 cm"', "").replace("head = 52", "")
    file = tmp_path / "mine.toml"
    file.write_text(text, "utf-8")
    result = run("sizes", "--body", file)
    assert "children 6" in result.stdout
    assert "No measure of this body was taken" in result.stdout


def test_an_unknown_size_in_the_file_is_an_error(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_text(EXAMPLE.read_text("utf-8").replace('size = "6"', 'size = "77"'), "utf-8")
    result = run("sizes", "--body", file)
    assert result.exit_code == REFUSED
    assert "wearer.size" in result.stderr


def test_a_table_and_a_body_together_are_wrong_usage() -> None:
    assert run("sizes", "women", "--body", EXAMPLE).exit_code == WRONG_USAGE


def test_the_schema_takes_the_examples() -> None:
    schema = json.loads(run("schema").stdout)
    for example in sorted(EXAMPLE.parent.glob("*.toml")):
        jsonschema.validate(tomllib.loads(example.read_text("utf-8")), schema)


def test_the_schema_into_a_file_is_the_schema_shown(tmp_path: Path) -> None:
    file = tmp_path / "schema.json"
    file.write_text("an older one")
    assert run("schema", "--into", file).exit_code == 0
    assert file.read_text() == run("schema").stdout


def test_the_version() -> None:
    assert run("--version").stdout.split()[0] == "yokefellow"
