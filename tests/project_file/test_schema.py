"""The JSON Schema takes what the program takes, and refuses what is broken."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from tests.project_file.sample import SOUND, spoil, under
from yokefellow.project_file.checks.project import check_project
from yokefellow.project_file.load import load, parse
from yokefellow.project_file.new_file import fresh
from yokefellow.project_file.schema import schema

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
CHEST = 'chest = "38 in"'


def faults(text: str) -> list[Any]:
    return list(Draft202012Validator(schema()).iter_errors(tomllib.loads(text)))


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(schema())
    assert schema()["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert "$id" not in schema()


def test_there_are_examples() -> None:
    assert {path.stem for path in EXAMPLES} >= {"broad-oak", "little-harbour", "warm-evenings"}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_each_example_loads_without_a_finding_and_fits_the_schema(path: Path) -> None:
    assert check_project(load(path)) == ()
    assert faults(path.read_text()) == []


def test_a_fresh_file_fits_the_schema() -> None:
    text = fresh(
        {
            "unit": "in",
            "wearer.size": "M",
            "body.chest": "38½",
            "swatch.plain.washed.stitches": "26",
            "swatch.plain.washed.rounds": "36 1/2",
            "yarn.MC.ball_weight": "1 3/4 oz",
            "yarn.MC.ball_length": "219 yd",
            "yarn.MC.balls": "5.5",
            "needles.main": "US 10 1/2",
            "garment.sleeves.length": "shorter by 2 1/2 in",
            "garment.body.length": "12,5 cm",
        }
    )
    parse(text)
    assert faults(text) == []


def test_the_schema_takes_charts_and_bands() -> None:
    chart = under("charts.dots", 'rows = "#."', 'colours = { "#" = "CC1" }', 'kind = "slip"')
    bands = '[[garment.yoke.bands]]\nchart = "dots"\nat = "2 in"\ncolours = { CC1 = "CC2" }\n'
    assert faults(chart + '[charts.more]\nfile = "more.toml"\n' + bands) == []


def test_the_schema_takes_balls_by_their_number_or_by_their_weights() -> None:
    weighed = 'weights = ["50 g", 23]\nlots = ["A", "B"]\nstrands = 2'
    text = spoil(("balls = 6", weighed))
    assert faults(text) == []
    assert parse(text).yarn["MC"].weights == (50, 23)  # derived: as typed
    assert faults(under("weighing", 'scale = "0.1 oz"', "sure = 95")) == []


@pytest.mark.parametrize(
    "typed",
    ['"38 in"', '"38in."', '"38½"', '"1-1/2 in"', '"96,5 cm"', "38.5", '"965 mm"', '".5 in"'],
)
def test_the_schema_takes_what_is_read(typed: str) -> None:
    assert faults(spoil((CHEST, f"chest = {typed}"))) == []


@pytest.mark.parametrize(
    "text",
    [
        spoil((CHEST, 'chest = "38 stone"')),
        spoil((CHEST, 'chest = "wide"')),
        spoil((CHEST, 'chest = "9**9 in"')),
        spoil((CHEST, "chest = true")),
        spoil((CHEST, "chest = -3")),
        spoil((CHEST, "chest = [38]")),
        spoil((CHEST, "chset = 38")),
        spoil(("yarn.MC", "yarn.XX")),
        spoil(("yarn.MC", "yarn.CC1")),
        spoil(("balls = 6", "balls = 0")),
        spoil(("balls = 6", 'balls = "six"')),
        spoil(("balls = 6\n", "")),
        spoil(("26 over 4 in", "26 sts")),
        spoil(('["26 over 4 in"]', "[]")),
        spoil(("3.5 mm", "size four")),
        spoil(('unit = "in"', 'unit = "ft"')),
        spoil(('name = "me"', f'name = "{"x" * 81}"')),
        under("garment.sleeves", 'length = "long"'),
        under("garment.body", "gather = 26"),
        under("ease", 'chest = "snug"'),
        under("sheet", 'large_print = "yes"'),
        under("charts.dots", 'kind = "mosaic"'),
        under("charts.dots", 'rows = "#."', 'colours = { "#" = "CC1" }', 'kind = "lace"'),
        under("charts.dots", 'rows = "#."', 'colours = { "#" = "red" }', 'kind = "slip"'),
        under("charts.dots", 'rows = "#."', 'colours = { "##" = "CC1" }', 'kind = "slip"'),
        under("charts.dots", 'file = "/dots.toml"'),
        under("charts.dots", 'file = "dots.toml"', "times = 5"),
        under('charts."my dots"', 'file = "dots.toml"'),
        under("garment.yoke", "bands = [{ at = 3 }]"),
        under("garment.yoke", 'bands = [{ chart = "dots", repeats = 0 }]'),
        under("garment.yoke", 'bands = [{ chart = "dots", colours = { CC1 = "red" } }]'),
        "edition = 2\n" + SOUND,
        "body = 3\n",
        "",
    ],
)
def test_the_schema_refuses_what_is_broken(text: str) -> None:
    assert faults(text)


def test_every_field_says_what_it_is() -> None:
    parts = {"Project": schema(), **schema()["$defs"]}
    tables = {"wearer", "body", "ease", "swatch", "yarn", "needles", "garment", "sheet"}
    tables |= {"neck", "yoke", "sleeves"}
    dumb = [
        f"{name}.{field}"
        for name, part in parts.items()
        for field, says in part["properties"].items()
        if "description" not in says and field not in tables
    ]
    assert dumb == []
    assert parts["Body"]["properties"]["upper_arm"]["description"].startswith("Round the widest")
    length = parts["SleeveChoices"]["properties"]["length"]
    assert length["default"] == "full"
