"""The shipped motifs as a page and in letters: the picture each of them knits."""

from __future__ import annotations

from pathlib import Path

from tests.cli.running import run
from tests.sheet.pages import read
from yokefellow.charts.chart import picture
from yokefellow.charts.library import motifs
from yokefellow.charts.read import read_chart
from yokefellow.sheet.motifs import SHOWN, motif_views


def test_the_letters_are_the_picture_as_it_is_worked() -> None:
    views = motif_views()
    assert [view.name for view in views] == list(motifs())
    for view in views:
        chart, _ = read_chart(motifs()[view.name])
        assert chart is not None
        letter_of = {colour.code: colour.letter for colour in view.colours}
        assert letter_of.get("MC", "A") == "A"
        shown = picture(chart)[:: chart.times]
        for row, seen in zip(reversed(view.letters), shown, strict=True):
            letters = [letter for letter in reversed(row) if letter != " "]
            repeats = len(letters) // len(seen)
            assert repeats * chart.last_width >= SHOWN
            for letter, code in zip(letters, repeats * seen, strict=True):
                assert letter in (letter_of[code], "-")


def test_the_page_draws_every_motif_and_the_terminal_prints_it(tmp_path: Path) -> None:
    assert run("motifs", "--into", str(tmp_path)).exit_code == 0
    page = (tmp_path / "motifs.html").read_text("utf-8")
    elements = read(page)
    drawn = [e for e in elements if e.tag == "svg"]
    assert len(drawn) == len(motifs())
    told = run("motifs").stdout
    for name in motifs():
        assert f'id="{name}"' in page
        assert f"{name}: " in told
