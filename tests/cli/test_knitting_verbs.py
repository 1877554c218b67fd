"""`knitted`, `log` and `pace`: what a knitter enters in an evening."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.cli.running import REFUSED, WRONG_USAGE, names, one_line, run
from yokefellow.knitting import log_path, read_log

EXAMPLE = Path(__file__).parents[2] / "examples" / "warm-evenings.toml"


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    return Path(shutil.copy(EXAMPLE, tmp_path / "mine.toml"))


def test_a_row_is_written_down_and_the_next_one_told(mine: Path) -> None:
    result = run("knitted", mine, "yoke 30")
    assert result.exit_code == 0, result.stderr
    assert "round 31 of the yoke" in one_line(result.stdout)
    assert [one.event.event for one in read_log(mine).events] == ["knitted"]
    assert names(mine.parent) == ["mine.knitting.jsonl", "mine.toml"]


def test_a_wrong_count_gets_the_round_that_mends_it(mine: Path) -> None:
    right = run("knitted", mine, "yoke 13", "--count", "180").stdout
    assert "as planned" in one_line(right)
    wrong = one_line(run("knitted", mine, "yoke 13", "--count", "176").stdout)
    assert "4 stitches too few" in wrong
    assert "round 14 of the yoke as: [k44, M1L] 4 times" in wrong  # derived: 176 = 4 × 44


@pytest.mark.parametrize(
    ("words", "status"),
    [
        (("yoke 999",), WRONG_USAGE),
        (("toe 3",), WRONG_USAGE),
        (("yoke 13", "--count", "30"), WRONG_USAGE),
        (("yoke 13", "--at", "yesterday"), WRONG_USAGE),
        (("yoke 13", "--at", "2999-01-01T10:00"), REFUSED),
    ],
)
def test_what_cannot_be_is_told_and_nothing_written(
    mine: Path, words: tuple[str, ...], status: int
) -> None:
    result = run("knitted", mine, *words)
    assert result.exit_code == status
    assert not log_path(mine).exists()


def test_an_event_can_be_taken_back(mine: Path) -> None:
    run("knitted", mine, "yoke 13", "--at", "2026-03-01T20:00")
    run("log", mine, "--note", "wrong row")
    assert run("log", mine, "--take-back", "1").exit_code == 0
    shown = run("log", mine).stdout
    assert "yoke" not in shown
    assert "wrong row" in shown
    assert run("log", mine, "--take-back", "7").exit_code == REFUSED


def test_ripping_back_is_an_event(mine: Path) -> None:
    run("knitted", mine, "yoke 40", "--at", "2026-03-01T20:00")
    told = one_line(run("knitted", mine, "yoke 30", "--ripped").stdout)
    assert "ripped back to round 30 of the yoke" in told
    assert "round 31 of the yoke" in told


def test_the_pace_is_common_first_and_then_hers(mine: Path) -> None:
    before = one_line(run("pace", mine, "--hours", "5").stdout)
    assert "1,000 stitches an hour are common" in before
    assert "At 5 h a week" in before
    run("knitted", mine, "yoke 20", "--at", "2026-03-01T20:00")
    run("knitted", mine, "yoke 26", "--at", "2026-03-01T21:00")
    after = one_line(run("pace", mine).stdout)
    assert "You knit about" in after
    past = one_line(run("pace", mine, "--by", "2020-01-01").stdout)
    assert "is not after today" in past


def test_an_empty_log_says_how_to_begin_it(mine: Path) -> None:
    assert "yokefellow knitted FILE" in one_line(run("log", mine).stdout)
