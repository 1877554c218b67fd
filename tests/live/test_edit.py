"""Changing one field of a file: exactly that, and every remark stays."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from tests.project_file.sample import SOUND
from yokefellow.live import EditError, edited
from yokefellow.project_file.load import parse
from yokefellow.project_file.new_file import fresh
from yokefellow.project_file.statements import FieldFacts, every_field

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
TEXTS = {path.stem: path.read_text("utf-8") for path in EXAMPLES}
TEXTS["fresh"] = fresh({"unit": "in", "wearer.size": "M"})
TEXTS["sample"] = SOUND


def alone() -> list[FieldFacts]:
    """The fields that stand in no list of tables."""
    within = ("garment.yoke.bands", "garment.body.bands", "garment.sleeves.bands", "pattern.sizes")
    return [field for field in every_field() if not field.field.startswith(within)]


def at(tables: object, place: tuple[str, ...]) -> object:
    for step in place:
        tables = tables.get(step, {}) if isinstance(tables, dict) else {}
    return tables


def remarks(text: str) -> set[str]:
    """The lines that explain, without those that show a field."""
    lines = (line.strip() for line in text.splitlines())
    return {
        line for line in lines if line.startswith("#") and " = " not in line and "[" not in line
    }


@pytest.mark.parametrize("name", TEXTS)
def test_every_field_can_be_written_and_taken_out_and_nothing_else_changes(name: str) -> None:
    text = TEXTS[name]
    before = tomllib.loads(text)
    tried = 0
    for field in alone():
        example = field.typed.example("in")
        value = f"[{example}]" if field.is_list or "increase" in field.name else example
        if field.name in {"increases", "increase_at"} and not value.startswith("["):
            continue
        try:
            new = edited(text, {field.field: value})
        except EditError:
            # Only what stands inside braces or in a list of one line may be refused.
            assert at(before, field.place[:-1]) is not None
            continue
        tried += 1
        after = tomllib.loads(new)
        wanted = tomllib.loads(f"v = {value}")["v"]
        assert at(after, field.place) == wanted, field.field
        for other in alone():
            if other.place != field.place:
                assert at(after, other.place) == at(before, other.place), (field.field, other.field)
        lost = {line for line in remarks(text) - remarks(new) if "FILL IN" not in line}
        assert not lost, (field.field, lost)
        gone = edited(new, {field.field: None})
        assert at(tomllib.loads(gone), field.place) == {}, field.field
    assert tried > 100  # derived: nearly all of the fields that stand alone


def test_a_fresh_file_filled_in_field_by_field_has_no_call_to_fill_in() -> None:
    text = TEXTS["fresh"]
    needed = [field for field in alone() if field.is_required and "swatch.plain" in field.field]
    needed += [field for field in alone() if field.field.startswith(("yarn.MC", "needles.main"))]
    for field in needed:
        example = field.typed.example("in")
        if field.field.startswith(("swatch.plain.w", "yarn", "needles")) and field.is_required:
            text = edited(text, {field.field: f"[{example}]" if field.is_list else example})
    assert "FILL IN the next line and take its # away:" not in text
    parse(text)


def test_a_remark_behind_a_value_stays() -> None:
    text = SOUND.replace('chest = "38 in"', 'chest = "38 in"   # over a thin layer')
    new = edited(text, {"body.chest": '"39 in"'})
    assert 'chest = "39 in"   # over a thin layer' in new


def test_what_cannot_be_read_is_refused() -> None:
    with pytest.raises(EditError):
        edited("chest = = 3", {"body.chest": "3"})
    with pytest.raises(EditError):
        edited("body = 3", {"body.chest": "3"})


def test_braces_and_dotted_names_are_changed_too() -> None:
    text = SOUND.replace("[body]\n", "").replace('chest = "38 in"\n', "")
    inline = 'body = { chest = "38 in", waist = "30 in" }\n' + text
    new = edited(inline, {"body.chest": '"40 in"'})
    assert tomllib.loads(new)["body"] == {"chest": "40 in", "waist": "30 in"}
    dotted = 'body.chest = "38 in"\n' + text
    assert tomllib.loads(edited(dotted, {"body.chest": '"40 in"'}))["body"] == {"chest": "40 in"}
