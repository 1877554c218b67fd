"""The shipped motifs: workable, with short floats, and described."""

from __future__ import annotations

import pytest

from yokefellow.charts.chart import ChartKind
from yokefellow.charts.checks import chart_findings
from yokefellow.charts.library import motifs
from yokefellow.charts.reading import read_chart
from yokefellow.charts.text import colours_of

# common practice, no source: from lace weight to the heaviest yarn that is knitted in colours
GAUGES = (2.0, 2.6, 4.0)


def test_there_is_one_of_each_kind() -> None:
    assert {text.kind for text in motifs().values()} == set(ChartKind)
    assert [name for name, text in motifs().items() if text.grows] == ["buds"]


@pytest.mark.parametrize("name", motifs())
def test_each_motif_can_be_worked_and_its_floats_are_short(name: str) -> None:
    text = motifs()[name]
    chart, said = read_chart(text)
    assert said == ()
    assert chart is not None
    for per_cm in GAUGES:
        assert chart_findings(chart, stitches_per_cm=per_cm, field="", unit="cm") == ()
    # common practice, no source: what fits between two increase rounds of a yoke
    assert chart.last_width <= 12
    assert len(chart.rows) <= 20


@pytest.mark.parametrize("name", motifs())
def test_each_motif_says_what_it_is_in_the_yarns_that_are_usual(name: str) -> None:
    text = motifs()[name]
    assert text.title
    assert text.about.endswith(".")
    assert set(colours_of(text)) <= {"MC", "CC1"}


def test_the_motifs_are_read_once() -> None:
    assert motifs() is motifs()
