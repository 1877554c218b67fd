"""The shipped motifs: workable, with short floats, and described."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.plain_speech import kindly
from yokefellow.charts import library
from yokefellow.charts.chart import ChartKind
from yokefellow.charts.check import chart_findings
from yokefellow.charts.library import MotifError, motifs
from yokefellow.charts.read import read_chart
from yokefellow.charts.text import ChartText, colours_of
from yokefellow.findings import Severity

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


WIDENING = """\
title = "A path"
about = "It widens."
kind = "stranded"
colours = { "." = "MC", "#" = "CC2" }
grows = true
times = 3
rows = ["#.", "#.."]
"""


@pytest.fixture
def motif_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of our own, with no motif on it yet."""
    (tmp_path / "motifs").mkdir()
    monkeypatch.setattr(library, "package_folder", lambda _: tmp_path)
    return tmp_path / "motifs"


def test_a_motif_is_all_that_its_file_says(motif_folder: Path) -> None:
    (motif_folder / "path.toml").write_text(WIDENING)
    (motif_folder / "below.toml").write_text(
        'kind = "purl"\ncolours = { "." = "MC" }\nrows = [".-"]\n'
    )
    found = motifs.__wrapped__()
    assert list(found) == ["below", "path"]
    assert found["path"] == ChartText(
        name="path",
        kind=ChartKind.STRANDED,
        legend={".": "MC", "#": "CC2"},
        lines=("#.", "#.."),
        times=3,
        grows=True,
        title="A path",
        about="It widens.",
    )
    assert found["below"].kind is ChartKind.PURL


@pytest.mark.parametrize("content", [b"kind = 3", b"kind = purl", b"title = '\xff'"])
def test_a_spoiled_motif_is_told(motif_folder: Path, content: bytes) -> None:
    (motif_folder / "dots.toml").write_bytes(content)
    with pytest.raises(MotifError) as error:
        motifs.__wrapped__()
    (finding,) = map(kindly, error.value.findings)
    assert finding.code == "motif.unreadable"
    assert finding.severity is Severity.ERROR
    assert finding.field == ""  # derived: no field of the knitter's file is to blame
    assert "dots.toml" in finding.message
