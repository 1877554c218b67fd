"""A fresh file loads, keeps her numbers, and teaches every choice."""

import dataclasses
import re
import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yokefellow.charts.library import motifs
from yokefellow.charts.resolve import resolve
from yokefellow.findings import ProjectError
from yokefellow.project_file.checks.body import sense
from yokefellow.project_file.field_errors import typed_at
from yokefellow.project_file.fields import NamedLength, Reading
from yokefellow.project_file.load import parse
from yokefellow.project_file.models import BODY_LENGTHS, FIT_NAMES, SLEEVE_LENGTHS, Body
from yokefellow.project_file.new_file import QUESTIONS, Answers, check, default_of, fresh
from yokefellow.project_file.schema import schema

NEEDED = Answers(
    size="M",
    swatch_stitches="26",
    swatch_rounds="36",
    ball_weight="50",
    ball_length="200 m",
    balls="6",
    needle="3.5",
)


def with_answers(**answers: Any) -> Answers:
    return dataclasses.replace(NEEDED, **answers)


LINE = re.compile(r"^# (\[+[a-zA-Z0-9.-]+\]+|[a-z_]+ = .*)$")


def awake(text: str, *asleep: str) -> str:
    """Take the mark from every remark that is a table or a line of one, but for those named."""
    lines = []
    in_pattern = False
    for line in text.splitlines():
        found = LINE.match(line)
        in_pattern = in_pattern or line == "# [pattern]"
        wanted = found and "table" not in line and not any(word in line for word in asleep)
        body = line.partition(" = ")[0][2:] in Body.model_fields
        body = body or (line.startswith("# size") and not in_pattern)
        lines.append(line[2:] if wanted and not body else line)
    return "\n".join(lines)


def test_the_file_names_every_motif() -> None:
    text = fresh(NEEDED)
    assert [name for name in motifs() if f'"{name}"' not in text] == []


def question(key: str) -> Any:
    return next(question for question in QUESTIONS if question.key == key)


# derived: as answered in NEEDED
def test_what_is_needed_is_enough() -> None:
    project = parse(fresh(NEEDED))
    assert sense(project) == ()
    assert project.wearer.size == "M"
    assert project.swatch.plain.washed is not None
    assert project.swatch.plain.washed.stitches == (Reading(26, 10),)
    assert project.yarn["MC"].balls == 6
    assert project.garment.sleeves.length == NamedLength("full")
    assert project.sheet.paper == "A4"


def test_in_inches_everything_is_in_inches() -> None:
    project = parse(fresh(with_answers(unit="in", chest="38 1/2", sleeve_length="shorter by 2")))
    assert project.body.chest == 97.79  # derived: 38.5 in
    assert project.swatch.plain.washed is not None
    assert project.swatch.plain.washed.stitches == (Reading(26, 10.16),)  # derived: 4 in
    assert project.sheet.paper == "Letter"
    assert project.sheet.units == "in"


def test_the_numbers_of_the_table_stand_as_remarks_only() -> None:
    # derived: 27.94 cm is 11 in
    text = fresh(with_answers(unit="in", table_cm={"upper_arm": 27.94, "neck_opening": 48.0}))
    assert '# upper_arm = "11 in"   # from the table, size M; measure yours' in text
    assert '# high_chest = "36 in"   # an example; measure yours' in text
    assert parse(text).body == Body()
    hers = fresh(with_answers(upper_arm="31", table_cm={"upper_arm": 27.94}))
    assert parse(hers).body.upper_arm == 31
    assert "from the table" not in hers


def test_each_remark_becomes_a_sound_line_when_its_mark_is_taken_away() -> None:
    for unit in ("cm", "in"):
        text = fresh(with_answers(unit=unit, size=None))
        assert parse(text.replace("\n# chest =", "\nchest =", 1)).body.chest is not None
        for key in Body.model_fields:
            line = next(x for x in text.splitlines() if x.startswith(f"# {key} = "))
            table = tomllib.loads(f"[body]\n{line[2:]}")
            Body.model_validate(table["body"], context={"unit": unit})
    other_ways = ("neck_", "colours = { CC1", "[charts.shells]", "file = ", "weights = ", "lots = ")
    project = parse(awake(fresh(NEEDED), *other_ways))
    assert project.swatch.rib is not None
    assert project.swatch.mosaic is not None
    assert project.swatch.plain.weighed is not None
    assert project.swatch.plain.unravelled is not None
    weighed = parse(awake(fresh(NEEDED), *other_ways[:4]).replace("\nballs = 6", "\n"))
    assert len(weighed.yarn["MC"].weights) == len(weighed.yarn["MC"].lots)
    assert project.charts["my-dots"].times == 2
    assert project.charts["my-dots"].rows == ("#...", "....", "..#.")
    assert [band.chart for band in project.garment.yoke.bands] == ["pebbles"]
    assert [finding.code for finding in sense(project)] == ["charts.unused"]
    assert [chart.name for chart in resolve(project)[0]] == ["pebbles"]
    assert resolve(project)[1] == ()


# snapshot: the fields without a default
def test_an_empty_form_asks_for_what_is_missing() -> None:
    text = fresh(Answers())
    assert text.count("FILL IN") == 7
    with pytest.raises(ProjectError) as error:
        parse(text)
    assert {finding.code for finding in error.value.findings} == {"field.missing", "body.no-chest"}
    lines = text.splitlines()
    for at, line in enumerate(lines):
        if line.startswith("# FILL IN"):
            lines[at + 1] = lines[at + 1].removeprefix("# ")
    assert sense(parse("\n".join(lines))) == ()


# snapshot: more words than the three lists alone hold
def test_the_file_names_every_word_that_is_allowed() -> None:
    text = fresh(NEEDED)
    words = {*FIT_NAMES, *BODY_LENGTHS, *SLEEVE_LENGTHS}
    for part in (schema(), *schema()["$defs"].values()):
        for field in part["properties"].values():
            for kind in (field, *field.get("anyOf", ())):
                words.update(kind.get("enum", ()))
    assert len(words) > 35
    assert [word for word in words if f'"{word}"' not in text] == []


def test_the_file_names_every_field() -> None:
    text = fresh(NEEDED)
    for part in schema()["$defs"].values():
        for field in part["properties"]:
            assert (
                f"{field} = " in text
                or f"[swatch.plain.{field}]" in text
                or (f".{field}]" in text or f".{field}." in text)
            ), field


@settings(deadline=None)
@given(st.text(max_size=60))
def test_any_text_she_types_comes_back_or_is_refused(typed: str) -> None:
    try:
        text = fresh(with_answers(title=typed, who=typed, chest="96"))
    except ProjectError as error:
        codes = {finding.code for finding in error.findings}
    else:
        # Words that run to the left are kept between two marks.
        assert parse(text).wearer.name.strip("\u200e") == " ".join(typed.split())
        return
    assert codes == {"value.text-hidden"}


@pytest.mark.parametrize(
    ("key", "typed", "written"),
    [
        ("chest", "38", "38 in"),
        ("chest", "38½", "38½ in"),
        ("chest", " 96.5  cm ", "96.5 cm"),
        ("swatch_stitches", "26.5", "26.5 over 4 in"),
        ("swatch_stitches", "26 over 10 cm", "26 over 10 cm"),
        ("swatch_rounds", "40 over 4", "40 over 4 in"),
        ("swatch_rounds", "40", "40 over 4 in"),
        ("swatch_rounds", "40 Over 4 in", "40 Over 4 in"),
        ("unit", "Inches", "in"),
        ("unit", "centimetres", "cm"),
        ("ease_chest", "3", "3 in"),
        ("ease_chest", "-1 1/2", "-1 1/2 in"),
        ("ease_upper_arm", "loose", "loose"),
        ("balls", "5 balls", "5"),
        ("balls", "5,5", "5.5"),
        ("needle", "#4", "#4"),
        ("ball_weight", "50", "50 g"),
        ("ball_length", "219 yd", "219 yd"),
        ("balls", "5 1/2", "5.5"),
        ("balls", "12", "12"),
        ("needle", "3.5", "3.5 mm"),
        ("needle", "US 4", "US 4"),
        ("sleeve_length", "elbow", "elbow"),
        ("sleeve_length", "shorter by 2", "shorter by 2"),
        ("body_length", "14", "14 in"),
        ("body_shape", "Waist", "Waist"),
    ],
)
def test_a_bare_answer_gets_its_unit(key: str, typed: str, written: str) -> None:
    assert check(question(key), typed, unit="in") == written


@pytest.mark.parametrize(
    ("key", "typed", "code"),
    [
        ("unit", "foot", "value.choice"),
        ("chest", "3", "value.range"),
        ("chest", "", "value.unreadable"),
        ("chest", "large", "value.unreadable"),
        ("swatch_stitches", "26 in", "value.reading"),
        ("swatch_stitches", "6 over 1 in", "value.swatch-narrow"),
        ("balls", "0", "value.range"),
        ("balls", "999", "value.range"),
        ("balls", "many", "value.number"),
        ("balls", "1e3", "value.number"),
        ("balls", "5 skeins", "value.number"),
        ("ball_length", "230", "value.no-unit"),
        ("needle", "3", "value.no-unit"),
        ("swatch_stitches", "28 over 10", "value.no-unit"),
        ("swatch_stitches", "over 4", "value.reading"),
        ("ease_chest", "snug", "value.choice"),
        ("needle", "US 12", "value.needle-size"),
        ("sleeve_length", "to the knee", "value.choice"),
        ("who", "a\u202eb", "value.text-hidden"),
        ("who", "a\x1cb", "value.text-hidden"),
    ],
)
def test_a_wrong_answer_is_told_at_once(key: str, typed: str, code: str) -> None:
    with pytest.raises(ProjectError) as error:
        check(question(key), typed, unit="in")
    (finding,) = error.value.findings
    assert finding.code == code
    assert finding.field == question(key).field
    assert finding.remedy.startswith(("Type ", "Type, for example: ", "Did you mean "))


def test_a_file_in_inches_shows_no_other_unit_of_length() -> None:
    text = fresh(Answers(unit="inches", table_cm={"forearm": 23.7, "neck_opening": 56.11}))
    units = re.findall(r'"[^"]*?[0-9½] ?(cm|mm|m|yd|in)"', text)
    # What is told of both units: how lengths are written, and the needles.
    assert text.count("96.5 cm") == units.count("cm") == 1
    assert "m" not in units
    assert '# forearm = "9 1/4 in"' in text  # derived: 23.7 cm = 9.33 in, to the nearest quarter
    for asked in QUESTIONS:
        assert " cm" not in asked.hint_in("in")
        assert re.search(r"[0-9] in\b", asked.hint_in("cm")) is None


def test_the_eases_answered_stand_in_the_file() -> None:
    project = parse(fresh(with_answers(unit="in", ease_chest="-1", ease_upper_arm="Loose")))
    assert project.ease.chest == -2.54  # derived: 1 in
    assert project.ease.upper_arm == "loose"


# derived: one for each of the wrong answers
def test_all_wrong_answers_are_told_together() -> None:
    with pytest.raises(ProjectError) as error:
        fresh(with_answers(chest="3", needle="US 12", body_shape="round"))
    assert len(error.value.findings) == 3


def test_each_question_fills_a_field_and_each_default_is_taken_by_it() -> None:
    names = [known.name for known in dataclasses.fields(Answers)]
    assert [question.key for question in QUESTIONS] == names[:-1]
    assert names[-1] == "table_cm"
    for asked in QUESTIONS:
        assert typed_at(asked.place) is not None
        for unit in ("cm", "in"):
            default = default_of(asked, unit="in" if unit == "in" else "cm")
            if default is not None:
                assert not asked.needed
                check(asked, default, unit="cm")
