"""`suppose`, `longest` and `weigh`; and what `check` says of the yarn."""

from __future__ import annotations

import json
import re
import shutil
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import EXAMPLE, REFUSED, ROOT, WRONG_USAGE, names, one_line, run
from yokefellow.cli.commands.suppose import file_lines
from yokefellow.cli.row_places import place_words, read_place
from yokefellow.plan import Plan, plan
from yokefellow.project_file.load import load, parse
from yokefellow.what_if import change, learn, longest, table
from yokefellow.yarn import verdict_words
from yokefellow.yarn.weighing_log import log_path, read

THREE_COLOURS = EXAMPLE.parent / "late-veranda.toml"
AT = ("--at", "2025-03-01T20:00:00+00:00")


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    return Path(shutil.copy(THREE_COLOURS, tmp_path / "mine.toml"))


@pytest.fixture
def made(mine: Path) -> Plan:
    return plan(load(mine))


def answer(*words: str | Path) -> dict[str, Any]:
    result = run(*words, "--as", "json")
    assert result.exit_code == 0, result.stderr
    found: dict[str, Any] = json.loads(result.stdout)
    return found


def said(*words: str | Path) -> str:
    result = run(*words)
    assert result.exit_code == 0, result.stderr
    return one_line(result.stdout)


def expected_g(made: Plan, section: str, side: str = "") -> float:
    """What the scale should show when a section is done, by the JSON of a reading far off."""
    from yokefellow.what_if import learn
    from yokefellow.yarn.weighing_log import Entry

    row = next(len(s.rows) for s in made.schedule.sections if s.key == section)
    learnt = learn(made, [Entry(AT[1], "MC", 1.0, section, row, side)])
    return learnt.checkpoints[0].expected.mean


def test_check_says_of_every_yarn_whether_it_lasts(mine: Path, made: Plan) -> None:
    shown = said("check", mine)
    assert len(made.yarns) == 3  # derived: the file has three
    for code, estimate in made.yarns.items():
        colour = made.project.yarn[code].colour
        assert f"{code}, {colour}: {verdict_words(estimate, 'cm', colour=colour)}" in shown


def test_the_example_of_three_colours_shows_all_that_yarn_can_teach(made: Plan) -> None:
    assert made.yarns["MC"].evidence == "weighed"
    # The grams of the swatch agree with the put-up: within 5 %, as labels do
    # (common practice, no source).
    assert made.yarns["MC"].ratio == pytest.approx(1, abs=0.05)
    assert longest(made).limit == "yarn"
    verdicts = {variant.yarns["MC"].verdict for variant in table(made) if variant.yarns}
    assert verdicts == {"enough", "close", "short"}


def test_suppose_without_a_choice_shows_every_one(mine: Path, made: Plan) -> None:
    variants = table(made)
    lines = run("suppose", mine).stdout.splitlines()
    for variant in variants:
        mark = "*" if variant.chosen else " "
        assert any(line.startswith(f"{mark} {variant.choice} ") for line in lines), variant.choice
        stitches = f"{variant.yarns['MC'].need.mean.stitches:,}"
        assert any(f"{variant.choice} " in line and stitches in line for line in lines)
    # common practice, no source: a terminal has 80 columns
    assert max(map(len, lines)) <= 80
    found = answer("suppose", mine)["variants"]
    assert [one["choice"] for one in found] == [variant.choice for variant in variants]


def test_what_is_supposed_is_what_the_changed_file_plans(mine: Path, made: Plan) -> None:
    choices = {"garment.sleeves.length": "short", "garment.body.hem": "3 cm"}
    other = plan(change(made.project, **choices))
    before = mine.read_bytes()
    found = answer("suppose", mine, "--sleeves", "short", "--hem", "3 cm")
    assert mine.read_bytes() == before
    assert names(mine.parent) == ["mine.toml"]
    assert found["choices"] == choices
    for sweater, of in ((made, found["file"]), (other, found["supposed"])):
        for estimate, told in zip(sweater.yarns.values(), of["yarns"], strict=True):
            assert told["need"]["mean"]["grams"] == round(estimate.need.mean.grams, 1)
            assert told["verdict"] == estimate.verdict
    shown = said("suppose", mine, "--sleeves", "short", "--hem", "3 cm")
    saved = made.yarns["MC"].need.mean.stitches - other.yarns["MC"].need.mean.stitches
    assert f"It saves {saved:,} stitches" in shown


def test_the_lines_to_write_make_the_sweater_supposed(mine: Path) -> None:
    words = ("--sleeves", "40 cm", "--rib", "2x2", "--field", "garment.body.gather = 10")
    text = run("suppose", mine, *words).stdout
    lines = text.partition("write into the file:\n")[2]
    garment = tomllib.loads(lines)["garment"]
    # derived: as typed; a rib is chosen for all three edges
    assert garment == {
        "sleeves": {"length": "40 cm", "rib": "2x2"},
        "neck": {"rib": "2x2"},
        "body": {"rib": "2x2", "gather": 10},
    }


def test_a_table_stands_once_among_the_lines_to_write() -> None:
    assert file_lines({"a.b": "x", "c.d": "1", "a.e": "y"}) == [
        "  [a]",
        '  b = "x"',
        '  e = "y"',
        "  [c]",
        "  d = 1",
    ]


def test_longer_sleeves_are_told_to_take_more(mine: Path) -> None:
    assert "balls more." in said("suppose", mine, "--sleeves", "full")


@pytest.mark.parametrize(
    ("words", "status"),
    [
        (("--neck", "tight"), REFUSED),
        (("--field", "garment.nose = 1"), REFUSED),
        (("--field", "garment.body.gather"), WRONG_USAGE),
        (("--as", "papyrus"), WRONG_USAGE),
    ],
)
def test_what_cannot_be_supposed(mine: Path, words: tuple[str, ...], status: int) -> None:
    result = run("suppose", mine, *words)
    assert result.exit_code == status
    assert result.stdout == ""
    assert result.stderr


@pytest.mark.parametrize("wish", ["sleeves", "body", "both"])
def test_the_longest_is_the_one_found(mine: Path, made: Plan, wish: Any) -> None:
    found = longest(made, wish)
    told = answer("longest", mine, f"--{wish}")
    assert told["choices"] == found.choices
    assert told["sleeves"]["rounds"] == found.sleeve.rounds
    assert told["limit"] == found.limit == "yarn"
    text = run("longest", mine, f"--{wish}").stdout
    lines = tomllib.loads(text.partition("write into the file:\n")[2])
    for field, value in found.choices.items():
        _, piece, key = field.split(".")
        assert lines["garment"][piece][key] == value


def test_the_longest_keeps_what_it_promises(mine: Path) -> None:
    found = longest(plan(load(mine)))
    made = plan(change(load(mine), **found.choices))
    assert made.yarns["MC"].verdict == "enough"


def test_surer_is_shorter_and_a_preference_is_heard(mine: Path) -> None:
    by_sure = [
        answer("longest", mine, "--sure", sure)["sleeves"]["cm"] for sure in ("60", "90", "98")
    ]
    assert by_sure == sorted(by_sure, reverse=True)
    assert by_sure[0] > by_sure[-1]
    by_share = [answer("longest", mine, "--both", "--prefer", share) for share in ("0", "1")]
    assert by_share[0]["sleeves"]["cm"] < by_share[1]["sleeves"]["cm"]
    assert by_share[0]["body"]["cm"] > by_share[1]["body"]["cm"]


def test_a_preference_without_both_and_a_sureness_beyond_all() -> None:
    assert run("longest", EXAMPLE, "--prefer", "0.5").exit_code == WRONG_USAGE
    assert run("longest", EXAMPLE, "--both", "--prefer", "3").exit_code == WRONG_USAGE
    assert run("longest", EXAMPLE, "--sure", "120").exit_code == REFUSED


def test_where_the_arm_and_not_the_yarn_is_the_limit() -> None:
    assert "not the yarn but the arm" in said("longest", EXAMPLE)


def test_a_reading_goes_into_the_log_and_not_into_the_file(mine: Path, made: Plan) -> None:
    before = mine.read_bytes()
    grams = round(expected_g(made, "yoke"))
    shown = said("weigh", mine, "--left", f"{grams} g", "--after", "yoke", *AT, "--note", "wet")
    assert mine.read_bytes() == before
    ((entry,), notes) = read(log_path(mine))
    assert not notes
    rows = len(next(s.rows for s in made.schedule.sections if s.key == "yoke"))
    assert (entry.time, entry.yarn, entry.grams) == (AT[1], "MC", grams)
    assert (entry.section, entry.row, entry.note) == ("yoke", rows, "wet")
    assert f"MC after round {rows} of the yoke: {grams} g" in shown
    assert "The longest sleeves that last now" in shown


def test_without_a_time_the_reading_gets_one(mine: Path) -> None:
    said("weigh", mine, "--left", "0 g", "--after", "left cuff")
    ((entry,), _) = read(log_path(mine))
    assert entry.grams == 0
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\+00:00", entry.time)


def test_a_reading_narrows_what_every_verb_says(mine: Path, made: Plan) -> None:
    grams = round(expected_g(made, "yoke")) - 3
    told = answer("weigh", mine, "--left", str(grams), "--after", "yoke", *AT)
    (mc,) = (one for one in told["yarns"] if one["code"] == "MC")
    before = made.yarns["MC"].left
    after = mc["left"]
    assert after["high"]["grams"] - after["low"]["grams"] < before.high.grams - before.low.grams
    assert mc["words"] in said("check", mine)
    assert mc["words"] in said("suppose", mine, "--sleeves", "short")
    assert answer("longest", mine)["choices"] == told["longest"]["sleeves"]["choices"]
    chosen = [one for one in answer("suppose", mine)["variants"] if one["chosen"]]
    assert {one["yarns"][0]["words"] for one in chosen} == {mc["words"]}
    again = answer("weigh", mine)
    assert again == told


def test_sleeves_that_are_knitted_are_no_longer_open(mine: Path, made: Plan) -> None:
    grams = round(expected_g(made, "cuff", "left"))
    said("weigh", mine, "--left", f"{grams} g", "--after", "left cuff", *AT)
    result = run("longest", mine)
    assert result.exit_code == REFUSED
    assert "no longer open" in one_line(result.stderr)
    assert "No length is open any more" in said("weigh", mine)


@pytest.mark.parametrize(
    "words",
    [
        ("--left", "212 g"),
        ("--after", "yoke"),
        ("--note", "alone"),
        ("--left", "212 g", "--after", "neck 4"),
        ("--left", "212 g", "--after", "yoke 900"),
        ("--left", "212 g", "--after", "sleeve 3"),
        ("--left", "212 g", "--after", "left yoke 3"),
        ("--left", "212 g", "--after", "yoke", "--yarn", "CC9"),
        ("--left", "a little", "--after", "yoke"),
    ],
)
def test_a_reading_that_cannot_be_is_not_written(mine: Path, words: tuple[str, ...]) -> None:
    assert run("weigh", mine, *words).exit_code == WRONG_USAGE
    assert names(mine.parent) == ["mine.toml"]


def test_a_reading_at_no_time_is_refused_by_the_log(mine: Path) -> None:
    result = run("weigh", mine, "--left", "212 g", "--after", "yoke", "--at", "last night")
    assert result.exit_code == REFUSED
    assert names(mine.parent) == ["mine.toml"]


def test_a_torn_line_is_told_and_the_others_are_kept(mine: Path, made: Plan) -> None:
    grams = round(expected_g(made, "yoke"))
    said("weigh", mine, "--left", f"{grams} g", "--after", "yoke", *AT)
    with log_path(mine).open("a", encoding="utf-8") as log:
        log.write('{"time": "2025-')
    result = run("weigh", mine)
    assert result.exit_code == 0
    assert "passed over" in one_line(result.stderr)
    assert "MC after round" in one_line(result.stdout)


def test_a_reading_far_off_is_kept_and_left_out(mine: Path) -> None:
    shown = said("weigh", mine, "--left", "20 g", "--after", "yoke", *AT)
    assert "left out" in shown
    assert len(read(log_path(mine))[0]) == 1


def test_places_as_one_types_them(made: Plan) -> None:
    for typed in ("yoke 58", "yoke:58", "Yoke, round 58", "round 58 of the yoke"):
        assert read_place(typed, made.schedule) == ("yoke", 58, "")  # derived: as typed
    assert read_place("left sleeve 30", made.schedule) == ("sleeve", 30, "left")
    assert read_place("sleeve right 30", made.schedule) == ("sleeve", 30, "right")
    assert read_place("back neck", made.schedule)[0] == "back_neck"
    for section in made.schedule.sections:
        for side in section.copies:
            row = len(section.rows)
            words = place_words(section.key, row, side)
            assert read_place(words, made.schedule) == (section.key, row, side)


def test_the_yarn_that_the_readme_shows_is_read() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    (shown,) = re.findall(r"```text\n(\[swatch\.plain\.weighed\].*?)```", readme, re.DOTALL)
    whole = next(b for b in re.findall(r"```toml\n(.*?)```", readme, re.DOTALL) if "title" in b)
    without = re.sub(r"\[yarn\.MC\].*?(?=^\[)", "", whole, flags=re.DOTALL | re.MULTILINE)
    made = plan(parse(f"{without}\n{shown}"))
    # derived: as the README has it
    assert made.yarns["MC"].stash.grams == 50 + 50 + 50 + 23
    assert made.yarns["MC"].evidence == "weighed"


def test_a_pin_against_what_is_supposed_is_named_with_the_lines_to_write(mine: Path) -> None:
    mine.write_text(mine.read_text("utf-8") + "\n[fixed]\nsleeve_rounds = 60\n", "utf-8")
    for words in (("suppose", mine, "--sleeves", "short"), ("longest", mine)):
        lines = run(*words).stdout.partition("write into the file:\n")[2]
        assert "# and take out of [fixed]: sleeve_rounds" in lines
        assert "length" in tomllib.loads(lines)["garment"]["sleeves"]
    assert "[fixed]" not in run("longest", mine, "--body").stdout


def test_the_neck_of_a_pattern_is_shown_as_it_is_knitted(tmp_path: Path) -> None:
    mine = tmp_path / "green.toml"
    mine.write_bytes((EXAMPLE.parent / "grandmothers-green.toml").read_bytes())
    made = plan(load(mine))
    found = answer("suppose", mine, "--neck", "wide")
    neck_cm = round(made.shape.neck.edge.cm, 2)
    assert found["file"]["neck_cm"] == found["supposed"]["neck_cm"] == neck_cm


@pytest.mark.parametrize(("words", "by_cm"), [("longer by 5 cm", 5), ("shorter by 4 cm", -4)])
@pytest.mark.parametrize("piece", ["body", "sleeves"])
def test_a_change_of_length_is_of_the_sweater_in_the_file(
    mine: Path, piece: str, words: str, by_cm: float
) -> None:
    whole = mine.read_text(encoding="utf-8")
    given = {"body": "cropped", "sleeves": "three-quarter"}
    changed = re.sub(
        rf"(\[garment\.{piece}\][^\[]*?\nlength = )[^\n]*", rf'\1"{given[piece]}"', whole
    )
    if changed == whole:
        changed = whole + f'\n[garment.{piece}]\nlength = "{given[piece]}"\n'
    mine.write_text(changed, encoding="utf-8")
    own = _long(plan(load(mine)), piece)
    found = answer("suppose", mine, f"--{piece}", words)
    (kept,) = file_lines(found["choices"])[-1:]
    other = plan(change(load(mine), **found["choices"]))
    # derived: whole rounds of one and the other
    assert _long(other, piece) == pytest.approx(own + by_cm, abs=0.6)
    assert "by" not in kept.split("=")[1]


def _long(made: Plan, piece: str) -> float:
    body, sleeve = made.shape.body, made.shape.sleeve
    if piece == "body":
        return body.rounds.cm + body.hem_rounds.cm
    return sleeve.rounds.cm + sleeve.cuff_rounds.cm


def test_after_a_weighing_there_is_one_verdict_and_none_before_casting_on(
    mine: Path, made: Plan
) -> None:
    balls = made.yarns["MC"].need.mean.balls
    whole = mine.read_text(encoding="utf-8")
    few = re.sub(
        r"(\[yarn\.MC\].*?\n)weights = [^\n]*", rf"\1balls = {balls:.2f}", whole, flags=re.S
    )
    mine.write_text(few, encoding="utf-8")
    stands = plan(load(mine))
    assert {found.code for found in stands.findings} & {"yarn.short", "yarn.close"}
    assert "before casting on" in said("check", mine).replace("\n", " ")
    said("weigh", mine, "--left", "1 g", "--after", "yoke", *AT)
    (unlikely,) = learn(stands, read(log_path(mine))[0]).checkpoints
    expected = unlikely.expected
    for left in (expected.mean + expected.sd, expected.mean - 2 * expected.sd, 1):
        said("weigh", mine, "--left", f"{left:.0f} g", "--after", "yoke", *AT)
        told = answer("weigh", mine)["yarns"][0]["verdict"]
        entries, _ = read(log_path(mine))
        after = learn(stands, entries).of(stands)
        assert after.yarns["MC"].verdict == told
        cautioned = {one.code for one in after.findings} & {"yarn.short", "yarn.close"}
        assert cautioned == ({f"yarn.{told}"} if told != "enough" else set())
        words = verdict_words(after.yarns["MC"], "cm").split(":")[0].split(" of ")[0]
        for verb in (("check",), ("glance",), ("suppose", "--hem", "4 cm")):
            shown = " ".join(said(verb[0], mine, *verb[1:]).split())
            assert "before casting on" not in shown
            assert words.split(" by ")[0] in shown, verb
