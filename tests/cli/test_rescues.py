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
