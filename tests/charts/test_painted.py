"""The independent knitter works every chart from its printed rows, and gets the picture back."""

from __future__ import annotations

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from tests.charts.drawn import (
    any_text,
    as_written,
    mosaics,
    nearly_charts,
    purls,
    read,
    slips,
    stranded,
    stripes,
)
from tests.knitter.mistakes import Kind, Mistake
from tests.knitter.painting import Loop, Printed, felt, paint, plain_round, seen
from yokefellow.charts.chart import Chart, ChartKind, Work, picture
from yokefellow.charts.library import motifs
from yokefellow.charts.read import read_chart
from yokefellow.charts.text import ChartText
from yokefellow.notation.phrase import phrase
from yokefellow.notation.write import write
from yokefellow.rows.bands import band_rows
from yokefellow.rows.model import net

REPEATS = st.integers(1, 5)
WORDINGS = st.sampled_from(["exact", "as on the sheet"])


def painted(chart: Chart, *, repeats: int, wording: str) -> tuple[tuple[Loop, ...], ...]:
    """Print the band's rows and knit them over plain stitches of the main colour."""
    live = chart.first_width * repeats
    page: list[Printed] = []
    for row in band_rows(chart, repeats=repeats):
        what = write(row.steps) if wording == "exact" else phrase(row, live)
        page.append(Printed(what, row.yarn))
        live += net(row.steps)
    return paint(page, plain_round(chart.first_width * repeats))


def repeated(rows: tuple[tuple[str, ...], ...], repeats: int) -> tuple[tuple[str, ...], ...]:
    return tuple(row * repeats for row in rows)


def accepted(text: ChartText) -> Chart:
    chart, said = read_chart(text)
    assert chart is not None, said
    return chart


@given(st.one_of(mosaics(), stripes()), REPEATS, WORDINGS)
def test_a_mosaic_or_striped_chart_comes_back_as_it_was_drawn(
    text: ChartText, repeats: int, wording: str
) -> None:
    chart = accepted(text)
    lines = tuple(line.partition(": ")[2] or line for line in text.lines)
    drawn = as_written(ChartText("", text.kind, text.legend, lines, text.times))
    assert picture(chart) == drawn
    assert seen(painted(chart, repeats=repeats, wording=wording)) == repeated(drawn, repeats)


@given(mosaics(), REPEATS, WORDINGS)
def test_the_yarn_in_hand_of_a_mosaic_need_not_be_told(
    text: ChartText, repeats: int, wording: str
) -> None:
    lines = tuple(line.partition(": ")[2] for line in text.lines)
    bare = ChartText("dots", text.kind, text.legend, lines, text.times)
    chart, said = read_chart(bare)
    # Only a stitch stretched too far can be in the way: the knitter may have meant the other yarn.
    assert chart is not None or {finding.code for finding in said} == {"chart.stretched"}
    if chart is not None:
        fabric = painted(chart, repeats=repeats, wording=wording)
        assert seen(fabric) == repeated(as_written(bare), repeats)


@given(stranded(), REPEATS, WORDINGS)
def test_a_stranded_chart_that_may_grow_comes_back_as_it_was_drawn(
    text: ChartText, repeats: int, wording: str
) -> None:
    chart = accepted(text)
    assert picture(chart) == as_written(text)
    fabric = painted(chart, repeats=repeats, wording=wording)
    assert seen(fabric) == repeated(as_written(text), repeats)


@given(slips(), REPEATS, WORDINGS)
def test_a_slip_stitch_chart_comes_back_as_its_picture(
    text: ChartText, repeats: int, wording: str
) -> None:
    chart, said = read_chart(text)
    assert chart is not None or {finding.code for finding in said} == {"chart.stretched"}
    assume(chart is not None)
    assert chart is not None
    fabric = painted(chart, repeats=repeats, wording=wording)
    assert seen(fabric) == repeated(picture(chart), repeats)
    for line, row in zip(text.lines, seen(fabric)[:: text.times], strict=True):
        for mark, colour in zip(line, row, strict=False):
            assert mark == "v" or text.legend[mark] == colour


@given(purls(), REPEATS, WORDINGS)
def test_a_purl_chart_comes_back_as_it_was_drawn(
    text: ChartText, repeats: int, wording: str
) -> None:
    fabric = painted(accepted(text), repeats=repeats, wording=wording)
    drawn = [[mark == "-" for mark in line * repeats] for line in text.lines]
    assert [list(row) for row in felt(fabric)][:: text.times] == drawn


@pytest.mark.parametrize("name", motifs())
@pytest.mark.parametrize("repeats", [1, 2, 30])
@pytest.mark.parametrize("wording", ["exact", "as on the sheet"])
def test_every_shipped_motif_comes_back_as_it_was_drawn(
    name: str, repeats: int, wording: str
) -> None:
    text = motifs()[name]
    chart = accepted(text)
    fabric = painted(chart, repeats=repeats, wording=wording)
    assert seen(fabric) == repeated(picture(chart), repeats)
    if text.kind in {ChartKind.MOSAIC, ChartKind.STRANDED, ChartKind.STRIPES}:
        assert picture(chart) == as_written(text)
    if text.kind is ChartKind.PURL:
        drawn = [tuple(mark == "-" for mark in line * repeats) for line in text.lines]
        assert list(felt(fabric)) == drawn


@given(st.one_of(any_text(), nearly_charts()), REPEATS)
@example(ChartText("a", ChartKind.MOSAIC, {"M": "MC", "C": "CC1", ":": "CC1"}, ("MC:M",), 1), 1)
def test_whatever_is_accepted_can_be_knitted(text: ChartText, repeats: int) -> None:
    """No text makes a traceback: it is refused in words, or its picture comes off the needles."""
    chart, said = read_chart(text)
    assert (chart is None) == bool(said)
    for finding in said:
        assert finding.message.endswith(".")
        assert finding.remedy
    if chart is not None:
        fabric = painted(chart, repeats=repeats, wording="as on the sheet")
        assert seen(fabric) == repeated(picture(chart), repeats)
        assert len(chart.rows) == text.times * len(text.lines)


def test_a_band_that_does_not_fit_is_noticed() -> None:
    chart = read("mosaic", "##..", "....")
    (row, _) = band_rows(chart, repeats=3)
    printed = Printed(write(row.steps), row.yarn)
    for stitches, kind in ((11, Kind.TOO_FEW), (13, Kind.LEFT_OVER)):
        with pytest.raises(Mistake) as mistake:
            paint([printed], plain_round(stitches))
        assert mistake.value.kind is kind


@pytest.mark.parametrize(
    ("what", "colours"),
    [
        ("k2, sl1 wyib", "CC1 CC1 MC"),
        ("[k1, sl2 wyib] 1 times", "CC1 MC MC"),
        ("*k1 CC2, k2; rep from * to end", "CC2 CC1 CC1"),
        ("k1, *k1 MC; rep from * once more", "CC1 MC MC"),
        ("k1, M1L CC2, sl2 wyib", "CC1 CC2 MC MC"),
        ("k3 MC", "MC MC MC"),
        ("knit", "CC1 CC1 CC1"),
    ],
)
def test_the_painting_knitter_reads_as_people_do(what: str, colours: str) -> None:
    assert seen(paint([Printed(what, "CC1")], plain_round(3))) == (tuple(colours.split()),)


@pytest.mark.parametrize(
    ("what", "kind"),
    [
        ("k2", Kind.LEFT_OVER),
        ("k4", Kind.TOO_FEW),
        ("[k1] 4 times", Kind.TOO_FEW),
        ("M1L, k3", Kind.INCREASE),
        ("k1, M1L, M1L, k2", Kind.INCREASE),
        ("k1, yo, k2", Kind.UNREADABLE),
        ("[k1, k2", Kind.UNREADABLE),
        ("[k3) 1 times", Kind.UNREADABLE),
        ("k3; k3", Kind.UNREADABLE),
        ("[] 3 times, k3", Kind.UNREADABLE),
    ],
)
def test_the_painting_knitter_does_not_guess(what: str, kind: Kind) -> None:
    with pytest.raises(Mistake) as mistake:
        paint([Printed(what, "MC")], plain_round(3))
    assert mistake.value.kind is kind


def test_a_slipped_stitch_is_not_counted_as_worked() -> None:
    chart = read("slip", "##v", "v##")
    worked = [[cell.work is not Work.SLIP for cell in row.cells] for row in chart.rows]
    assert worked == [[True, True, False], [False, True, True]]
