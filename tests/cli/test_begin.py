"""`begin`: a file to fill in, never over another."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from tests.cli.running import REFUSED, STOPPED, WRONG_USAGE, names, one_line, run
from yokefellow.body.size_tables import tables
from yokefellow.project_file.load import load
from yokefellow.project_file.new_file import hint
from yokefellow.project_file.statements import first_questions
from yokefellow.quantities import show_tape

QUESTIONS = first_questions()
ANSWERS = {
    "unit": "in",
    "title": "Quiet hours",
    "wearer.table": "men",
    "wearer.size": "l",
    "body.chest": "43 1/2",
    "swatch.plain.washed.stitches": "22",
    "swatch.plain.washed.rounds": "30 over 4 in",
    "yarn.MC.ball_weight": "50 g",
    "yarn.MC.ball_length": "120 yd",
    "yarn.MC.balls": "14",
    "needles.main": "US 6",
    "garment.sleeves.length": "full",
}


def typed(answers: dict[str, str]) -> str:
    """Answer every question; none more after a first reading, and no second color."""
    lines = []
    for field in QUESTIONS:
        lines.append(answers.get(field.field, ""))
        if field.is_list and field.field in answers:
            lines.append("")
    return "\n".join([*lines, "", ""])


def test_writes_a_file_that_toml_reads(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    result = run("begin", file)
    assert result.exit_code == 0
    assert str(file) in result.stdout
    assert tomllib.loads(file.read_text("utf-8"))["wearer"]["table"] == "women"


def test_what_is_missing_is_told_by_check(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    run("begin", file)
    result = run("check", file)
    assert result.exit_code == REFUSED
    assert "swatch.plain.washed.stitches" in result.stderr


def test_never_over_a_file_that_is_there(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_text("years of work")
    for more in ([], ["--ask"], ["--size", "M"]):
        result = run("begin", file, *more, typed="in\n")
        assert result.exit_code == REFUSED
        assert "already exists" in result.stderr
    assert file.read_text() == "years of work"


def test_a_folder_that_is_not_there_is_told_before_the_first_question(tmp_path: Path) -> None:
    result = run("begin", tmp_path / "nowhere" / "mine.toml", "--ask")
    assert result.exit_code == REFUSED
    assert "folder" in result.stderr
    assert QUESTIONS[0].stated.question not in result.stdout


def test_a_dangling_link_is_a_file_that_is_there(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.symlink_to(tmp_path / "elsewhere.toml")
    assert run("begin", file).exit_code == REFUSED
    assert not (tmp_path / "elsewhere.toml").exists()


def test_measurements_of_a_size_stand_as_remarks(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    assert run("begin", file, "--table", "men", "--size", "l", "--unit", "in").exit_code == 0
    sections = tomllib.loads(file.read_text("utf-8"))
    assert sections["wearer"] == {"name": "", "table": "men", "size": "L"}
    assert sections["unit"] == "in"
    assert sections["body"] == {}, "a number of the table is not a measurement"
    shown = show_tape(tables()["men"].middle_cm("upper_arm", "L"), unit="in")
    assert f'# upper_arm = "{shown}"' in file.read_text("utf-8")


@pytest.mark.parametrize(
    "options", [["--table", "giants"], ["--size", "XXXS"], ["--unit", "ell"], ["--table", ""]]
)
def test_an_unknown_choice_is_wrong_usage_and_writes_nothing(
    tmp_path: Path, options: list[str]
) -> None:
    result = run("begin", tmp_path / "mine.toml", *options)
    assert result.exit_code == WRONG_USAGE
    assert names(tmp_path) == []


def test_an_unknown_size_is_told_with_those_there_are(tmp_path: Path) -> None:
    result = run("begin", tmp_path / "mine.toml", "--table", "babies", "--size", "M")
    assert "3, 6, 12, 18, 24 months" in one_line(result.stderr)


# derived: as answered, in inches of 2.54 cm
def test_answers_make_a_file_that_can_be_planned(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    result = run("begin", file, "--ask", typed=typed(ANSWERS))
    assert result.exit_code == 0, result.stderr
    project = load(file)
    assert project.title == "Quiet hours"
    assert project.wearer.size == "L"
    assert project.body.chest == pytest.approx(43.5 * 2.54)
    assert run("check", file).exit_code == 0


def test_every_question_is_asked_in_order(tmp_path: Path) -> None:
    asked = run("begin", tmp_path / "mine.toml", "--ask", typed=typed(ANSWERS)).stdout
    places = [asked.index(question.stated.question) for question in QUESTIONS]
    assert places == sorted(places)


def test_what_an_option_says_is_not_asked(tmp_path: Path) -> None:
    asked = run(
        "begin",
        tmp_path / "mine.toml",
        "--ask",
        "--unit",
        "cm",
        "--table",
        "women",
        typed="\n" * 30,
    ).stdout
    by_key = {question.field: question.stated.question for question in QUESTIONS}
    assert by_key["unit"] not in asked
    assert by_key["wearer.table"] not in asked
    assert by_key["wearer.size"] in asked


# derived: as answered, in inches of 2.54 cm
def test_an_answer_that_cannot_be_taken_is_asked_again(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    lines = typed(ANSWERS).replace("l\n43", "XXXS\nl\n43").replace("\n43 1/2\n", "\nwide\n43 1/2\n")
    result = run("begin", file, "--ask", typed=lines)
    assert result.exit_code == 0
    assert "XXXS" in result.stderr
    assert "body.chest" in result.stderr
    assert load(file).body.chest == pytest.approx(43.5 * 2.54)


def test_when_the_answers_end_what_was_answered_is_kept(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    result = run("begin", file, "--ask", typed="in\nQuiet\n")
    assert result.exit_code == 0
    assert "is kept in" in one_line(result.stdout)
    kept = tomllib.loads(file.read_text("utf-8"))
    assert (kept["unit"], kept["title"]) == ("in", "Quiet")


def test_when_nothing_was_answered_nothing_is_written(tmp_path: Path) -> None:
    result = run("begin", tmp_path / "mine.toml", "--ask", typed="")
    assert result.exit_code == STOPPED
    assert names(tmp_path) == []


def test_a_question_can_be_gone_back_to(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    lines = typed(ANSWERS).replace("Quiet hours\n", "Quiet hors\n\nback\nback\nQuiet hours\n")
    assert run("begin", file, "--ask", typed=lines).exit_code == 0
    assert load(file).title == "Quiet hours"


def test_the_sizes_of_the_table_are_listed(tmp_path: Path) -> None:
    asked = run("begin", tmp_path / "mine.toml", "--ask", typed="in\n\n\nbabies\n").stdout
    assert "The table has 3, 6, 12, 18, 24" in one_line(asked)


def test_a_second_color_and_its_motif_are_asked_for(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    lines = typed(ANSWERS).removesuffix("\n\n") + "\n50\n100 yd\n2\nbuds\n"
    assert run("begin", file, "--ask", typed=lines).exit_code == 0
    project = load(file)
    assert project.yarn["CC1"].balls == 2  # derived: as answered
    assert [band.chart for band in project.garment.yoke.bands] == ["buds"]


def test_a_size_by_another_name_is_asked_for(tmp_path: Path) -> None:
    result = run("begin", tmp_path / "mine.toml", "--size", "Medium")
    assert result.exit_code == WRONG_USAGE
    assert "Did you mean M?" in one_line(result.stderr)


def test_each_hint_stands_below_its_own_question(tmp_path: Path) -> None:
    asked = one_line(run("begin", tmp_path / "mine.toml", "--ask", typed=typed(ANSWERS)).stdout)
    for question in QUESTIONS:
        if question.field not in {"unit", "wearer.size"}:
            hinted = f"{question.stated.question} {hint(question, unit='in')}"
            assert one_line(hinted) in asked
    assert "10 cm" not in asked


def test_the_next_command_is_told_as_this_one_was_typed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for at, (name, told) in enumerate(
        [
            (".venv/bin/yokefellow", ".venv/bin/yokefellow check"),
            (str(tmp_path / "my tools" / "yokefellow"), "'my tools/yokefellow' check"),
            ("/nowhere/site/yokefellow/__main__.py", "-m yokefellow check"),
            ("a-test-runner", "then: yokefellow check"),
        ]
    ):
        monkeypatch.setattr("sys.argv", [name])
        assert told in one_line(run("begin", f"{at}.toml").stdout)
