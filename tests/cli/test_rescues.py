"""`check` offers what would help a colour that is short."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from yokefellow.cli.program import program

EXAMPLE = Path(__file__).parents[2] / "examples" / "late-veranda.toml"


def check(path: Path) -> str:
    return CliRunner().invoke(program, ["check", str(path)]).output


def test_a_short_colour_is_told_with_what_would_help(tmp_path: Path) -> None:
    written = EXAMPLE.read_text(encoding="utf-8")
    assert 'weights = ["20 g"]' in written
    short = tmp_path / "short.toml"
    short.write_text(written.replace('weights = ["20 g"]', 'weights = ["5 g"]'), encoding="utf-8")
    said = " ".join(check(short).split())
    assert "What would help: CC2: take CC1 in place of CC2 in band 2 (lanterns)" in said
    assert "What would help" not in check(EXAMPLE)


def test_more_than_the_stash_is_not_written_down(tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text(EXAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
    asked = ["weigh", str(mine), "--left", "400 g", "--after", "yoke"]
    refused = CliRunner().invoke(program, asked)
    assert refused.exit_code == 2
    assert "more than all the MC of the file" in " ".join(refused.output.split())
    assert list(tmp_path.iterdir()) == [mine]


def test_a_reading_that_is_left_out_is_counted(tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text(EXAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
    # derived: the yoke and the body alone take more than the 17 g that would be gone
    CliRunner().invoke(program, ["weigh", str(mine), "--left", "300 g", "--after", "body"])
    assert "can be knitted: 1 caution." in " ".join(check(mine).split())
