"""A fresh file loads, keeps her numbers, and teaches every choice."""

import re
import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from yokefellow.charts.library import motifs
from yokefellow.charts.resolve import resolve
from yokefellow.findings import ProjectError
from yokefellow.project_file.checks.project import check_project
from yokefellow.project_file.field_errors import typed_at
from yokefellow.project_file.fields import NamedLength, Reading
from yokefellow.project_file.load import parse
from yokefellow.project_file.models import BODY_LENGTHS, FIT_NAMES, SLEEVE_LENGTHS, Body
from yokefellow.project_file.new_file import Answers, check, fresh, hint, usual
from yokefellow.project_file.schema import schema
from yokefellow.project_file.statements import (
    every_field,
    first_questions,
    second_color_questions,
)
from yokefellow.quantities import LengthUnit

UNITS: tuple[LengthUnit, ...] = ("cm", "in")
NEEDED: Answers = {
    "wearer.size": "M",
    "swatch.plain.washed.stitches": "26",
    "swatch.plain.washed.rounds": "36",
    "yarn.MC.ball_weight": "50",
    "yarn.MC.ball_length": "200 m",
    "yarn.MC.balls": "6",
    "needles.main": "3.5",
}
FIELDS = {field.field: field for field in every_field()}


def with_answers(**answers: Any) -> Answers:
    """Give the answers needed and others; `__` stands for the dots of a field."""
    given = {name.replace("__", "."): answer for name, answer in answers.items()}
    return {**NEEDED, **given}


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


# derived: as answered in NEEDED
def test_what_is_needed_is_enough() -> None:
    project = parse(fresh(NEEDED))
    assert check_project(project) == ()
    assert project.wearer.size == "M"
    assert project.swatch.plain.washed is not None
    assert project.swatch.plain.washed.stitches == (Reading(26, 10),)
    assert project.yarn["MC"].balls == 6
    assert project.garment.sleeves.length == NamedLength("full")
    assert project.sheet.paper == "A4"


def test_in_inches_everything_is_in_inches() -> None:
    project = parse(
        fresh(
            with_answers(unit="in", body__chest="38 1/2", garment__sleeves__length="shorter by 2")
        )
    )
    assert project.body.chest == 97.79  # derived: 38.5 in
    assert project.swatch.plain.washed is not None
    assert project.swatch.plain.washed.stitches == (Reading(26, 10.16),)  # derived: 4 in
    assert project.sheet.paper == "Letter"
    assert project.sheet.units == "in"


def test_the_numbers_of_the_table_stand_as_remarks_only() -> None:
    # derived: 27.94 cm is 11 in
    text = fresh(with_answers(unit="in"), table_cm={"upper_arm": 27.94, "neck_opening": 48.0})
    assert '# upper_arm = "11 in"   # from the table, size M; measure yours' in text
    assert '# high_chest = "36 in"   # an example; measure yours' in text
    assert parse(text).body == Body()
    hers = fresh(with_answers(body__upper_arm="31"), table_cm={"upper_arm": 27.94})
    assert parse(hers).body.upper_arm == 31
    assert "from the table" not in hers


def test_each_remark_becomes_a_sound_line_when_its_mark_is_taken_away() -> None:
    for unit in ("cm", "in"):
        text = fresh(with_answers(unit=unit, wearer__size=""))
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
    weighed = parse(awake(fresh(NEEDED), *other_ways[:4]).replace("\nballs = 6", "\n", 1))
    assert len(weighed.yarn["MC"].weights) == len(weighed.yarn["MC"].lots)
    assert project.charts["my-dots"].times == 2
    assert project.charts["my-dots"].rows == ("#...", "....", "..#.")
    assert [band.chart for band in project.garment.yoke.bands] == ["pebbles"]
    assert [finding.code for finding in check_project(project)] == ["charts.unused"]
    assert [chart.name for chart in resolve(project)[0]] == ["pebbles"]
    assert resolve(project)[1] == ()


# snapshot: the fields without a default
def test_an_empty_form_asks_for_what_is_missing() -> None:
    text = fresh({})
    assert text.count("FILL IN") == 7
    with pytest.raises(ProjectError) as error:
        parse(text)
    assert {finding.code for finding in error.value.findings} == {"field.missing", "body.no-chest"}
    lines = text.splitlines()
    for at, line in enumerate(lines):
        if line.startswith("# FILL IN"):
            lines[at + 1] = lines[at + 1].removeprefix("# ")
    assert check_project(parse("\n".join(lines))) == ()


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
        text = fresh(with_answers(title=typed, wearer__name=typed, body__chest="96"))
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
        ("body.chest", "38", "38 in"),
        ("body.chest", "38½", "38½ in"),
        ("body.chest", " 96.5  cm ", "96.5 cm"),
        ("swatch.plain.washed.stitches", "26.5", "26.5 over 4 in"),
        ("swatch.plain.washed.stitches", "26 over 10 cm", "26 over 10 cm"),
        ("swatch.plain.washed.rounds", "40 over 4", "40 over 4 in"),
        ("swatch.plain.washed.rounds", "40", "40 over 4 in"),
        ("swatch.plain.washed.rounds", "40 Over 4 in", "40 Over 4 in"),
        ("unit", "Inches", "in"),
        ("unit", "centimetres", "cm"),
        ("ease.chest", "3", "3 in"),
        ("ease.chest", "-1 1/2", "-1 1/2 in"),
        ("ease.upper_arm", "loose", "loose"),
        ("yarn.MC.balls", "5 balls", "5"),
        ("yarn.MC.balls", "5,5", "5.5"),
        ("needles.main", "#4", "#4"),
        ("yarn.MC.ball_weight", "50", "50 g"),
        ("yarn.MC.ball_length", "219 yd", "219 yd"),
        ("yarn.MC.balls", "5 1/2", "5.5"),
        ("yarn.MC.balls", "12", "12"),
        ("needles.main", "3.5", "3.5 mm"),
        ("needles.main", "US 4", "US 4"),
        ("garment.sleeves.length", "elbow", "elbow"),
        ("garment.sleeves.length", "shorter by 2", "shorter by 2"),
        ("garment.body.length", "14", "14 in"),
        ("garment.body.shape", "Waist", "Waist"),
    ],
)
def test_a_bare_answer_gets_its_unit(key: str, typed: str, written: str) -> None:
    assert check(FIELDS[key], typed, unit="in") == written


@pytest.mark.parametrize(
    ("key", "typed", "code"),
    [
        ("unit", "foot", "value.choice"),
        ("body.chest", "3", "value.range"),
        ("body.chest", "", "value.unreadable"),
        ("body.chest", "large", "value.unreadable"),
        ("swatch.plain.washed.stitches", "26 in", "value.reading"),
        ("swatch.plain.washed.stitches", "6 over 1 in", "value.swatch-narrow"),
        ("yarn.MC.balls", "0", "value.range"),
        ("yarn.MC.balls", "999", "value.range"),
        ("yarn.MC.balls", "many", "value.number"),
        ("yarn.MC.balls", "1e3", "value.number"),
        ("yarn.MC.balls", "5 skeins", "value.number"),
        ("yarn.MC.ball_length", "230", "value.no-unit"),
        ("needles.main", "3", "value.no-unit"),
        ("swatch.plain.washed.stitches", "28 over 10", "value.no-unit"),
        ("swatch.plain.washed.stitches", "over 4", "value.reading"),
        ("ease.chest", "snug", "value.choice"),
        ("needles.main", "US 12", "value.needle-size"),
        ("garment.sleeves.length", "to the knee", "value.choice"),
        ("wearer.name", "a\u202eb", "value.text-hidden"),
        ("wearer.name", "a\x1cb", "value.text-hidden"),
    ],
)
def test_a_wrong_answer_is_told_at_once(key: str, typed: str, code: str) -> None:
    with pytest.raises(ProjectError) as error:
        check(FIELDS[key], typed, unit="in")
    (finding,) = error.value.findings
    assert finding.code == code
    assert finding.field == key
    assert finding.remedy.startswith(("Type ", "Type, for example: ", "Did you mean "))


def test_a_file_in_inches_shows_no_other_unit_of_length() -> None:
    text = fresh({"unit": "inches"}, table_cm={"forearm": 23.7, "neck_opening": 56.11})
    units = re.findall(r'"[^"]*?[0-9½] ?(cm|mm|m|yd|in)"', text)
    # What is told of both units: how lengths are written, and the needles.
    assert text.count("96.5 cm") == units.count("cm") == 1
    assert "m" not in units
    assert '# forearm = "9 1/4 in"' in text  # derived: 23.7 cm = 9.33 in, to the nearest quarter
    for asked in (*first_questions(), *second_color_questions()):
        if asked.place == ("unit",):
            continue
        assert " cm" not in hint(asked, unit="in")
        assert re.search(r"[0-9] in\b", hint(asked, unit="cm")) is None


def test_the_eases_answered_stand_in_the_file() -> None:
    project = parse(fresh(with_answers(unit="in", ease__chest="-1", ease__upper_arm="Loose")))
    assert project.ease.chest == -2.54  # derived: 1 in
    assert project.ease.upper_arm == "loose"


# derived: one for each of the wrong answers
def test_all_wrong_answers_are_told_together() -> None:
    with pytest.raises(ProjectError) as error:
        fresh(with_answers(body__chest="3", needles__main="US 12", garment__body__shape="round"))
    assert len(error.value.findings) == 3


def test_each_question_fills_a_field_and_each_default_is_taken_by_it() -> None:
    assert len({asked.field for asked in first_questions()}) == len(first_questions())
    for asked in (*first_questions(), *second_color_questions()[:-1]):
        assert typed_at(asked.first_value) is not None
        for unit in UNITS:
            default = usual(asked, unit=unit)
            if default is not None:
                assert not asked.is_required
                check(asked, default, unit="cm")


def test_what_is_needed_is_among_the_first_questions() -> None:
    asked = {field.field for field in first_questions()}
    needed = {field.field for field in every_field() if field.is_required}
    optional = ("pattern.", "charts.", "garment.", "swatch.")
    assert {field for field in needed if not field.startswith(optional)} <= asked


def test_a_second_color_stands_awake_when_it_is_answered() -> None:
    yarn = {"ball_weight": "50", "ball_length": "180 m", "balls": "1"}
    answers = {**NEEDED, **{f"yarn.CC1.{name}": given for name, given in yarn.items()}}
    project = parse(fresh({**answers, "garment.yoke.bands.chart": "buds"}))
    assert project.yarn["CC1"].ball_length == 180  # derived: as answered
    assert [band.chart for band in project.garment.yoke.bands] == ["buds"]


def test_several_readings_of_one_swatch_are_taken() -> None:
    several = {**NEEDED, "swatch.plain.washed.stitches": ["26", "26.5", "25.5 over 10 cm"]}
    plain = parse(fresh(several)).swatch.plain.washed
    assert plain is not None
    assert [one.count for one in plain.stitches] == [26, 26.5, 25.5]  # derived: as answered
