"""Finishes and bands from the command line: supposed, refused, offered."""

from __future__ import annotations

from pathlib import Path

from tests.cli.running import EXAMPLE, REFUSED, one_line, run


def test_suppose_tries_another_finish_at_all_three_edges() -> None:
    found = run("suppose", EXAMPLE, "--finish", "garter")
    assert found.exit_code == 0
    for field in ("garment.neck.finish", "garment.body.finish", "garment.sleeves.finish"):
        assert field.split(".")[1] in found.stdout
    assert "[garment.body]" in found.stdout
    assert 'finish = "garter"' in found.stdout


def test_a_finish_that_there_is_not_is_refused_with_those_there_are(tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    text = EXAMPLE.read_text(encoding="utf-8")
    mine.write_text(text.replace("[garment.body]", '[garment.body]\nfinish = "lace"', 1), "utf-8")
    found = run("check", mine)
    assert found.exit_code == REFUSED
    words = one_line(found.stdout + found.stderr)
    assert "garment.body.finish" in words
    for name in ("rib", "garter", "rolled", "folded"):
        assert f'"{name}"' in words


def test_a_band_on_the_body_is_told_on_the_sheet(tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    text = EXAMPLE.read_text(encoding="utf-8")
    mine.write_text(text + '\n[[garment.body.bands]]\nchart = "drizzle"\n', "utf-8")
    assert run("sheet", mine, "--as", "text").exit_code == 0
    told = one_line((tmp_path / "mine.txt").read_text("utf-8"))
    assert "of 6, on the body" in told
