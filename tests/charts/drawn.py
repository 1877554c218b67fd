"""Charts for the tests: written ones, and any that can be worked, drawn by chance."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import strategies as st

from yokefellow.charts.chart import Chart, ChartKind
from yokefellow.charts.read import read_chart
from yokefellow.charts.text import ChartText
from yokefellow.findings import Finding

LEGEND = {".": "MC", "#": "CC1", "o": "CC2"}
MARK = {yarn: mark for mark, yarn in LEGEND.items()}


def text(kind: str, *lines: str, times: int = 1, grows: bool = False) -> ChartText:
    return ChartText("dots", ChartKind(kind), LEGEND, lines, times, grows)


def read(kind: str, *lines: str, times: int = 1, grows: bool = False) -> Chart:
    chart, said = read_chart(text(kind, *lines, times=times, grows=grows))
    assert chart is not None, said
    return chart


def refused(kind: str, *lines: str, times: int = 1, grows: bool = False) -> tuple[Finding, ...]:
    chart, said = read_chart(text(kind, *lines, times=times, grows=grows))
    assert chart is None
    return said


def as_written(written: ChartText) -> tuple[tuple[str, ...], ...]:
    """The colours as they stand in the text, each line once for every time it is worked."""
    return tuple(
        tuple(written.legend[mark] for mark in line)
        for line in written.lines
        for _ in range(written.times)
    )


WIDTHS = st.integers(1, 12)
TIMES = st.integers(1, 2)


@st.composite
def mosaics(draw: st.DrawFn) -> ChartText:
    """Any mosaic: in each line some stitches take the yarn in hand, the others stay as they are.

    A stitch that has been stretched as far as it may is always worked.
    """
    width, times = draw(WIDTHS), draw(TIMES)
    below, carried = ["MC"] * width, [0] * width
    lines: list[str] = []
    for _ in range(draw(st.integers(1, 8))):
        yarn = draw(st.sampled_from(["MC", "CC1"]))
        works = draw(st.lists(st.booleans(), min_size=width, max_size=width))
        works[draw(st.integers(0, width - 1))] = True
        works = [work or rounds + times > 4 for work, rounds in zip(works, carried, strict=True)]
        below = [yarn if work else old for work, old in zip(works, below, strict=True)]
        # A stitch of the yarn in hand's own colour is worked, whatever was meant.
        slips = [colour != yarn for colour in below]
        carried = [
            rounds + times if slip else 0 for slip, rounds in zip(slips, carried, strict=True)
        ]
        lines.append(f"{yarn}: " + "".join(MARK[colour] for colour in below))
    return ChartText("dots", ChartKind.MOSAIC, LEGEND, tuple(lines), times)


@st.composite
def stranded(draw: st.DrawFn) -> ChartText:
    """Any stranded chart, growing or not."""
    width = draw(st.integers(2, 10))
    lines: list[str] = []
    for _ in range(draw(st.integers(1, 8))):
        colours = draw(st.lists(st.sampled_from(".#o"), min_size=1, max_size=2))
        lines.append(
            "".join(draw(st.lists(st.sampled_from(colours), min_size=width, max_size=width)))
        )
        width += draw(st.integers(0, min(width // 2, 16 - width) if width < 16 else 0))
    grows = len(set(map(len, lines))) > 1
    return ChartText("dots", ChartKind.STRANDED, LEGEND, tuple(lines), draw(TIMES), grows)


@st.composite
def slips(draw: st.DrawFn) -> ChartText:
    """Any plain slip-stitch chart; stretched ones among them."""
    width = draw(WIDTHS)
    lines: list[str] = []
    for _ in range(draw(st.integers(1, 8))):
        mark = draw(st.sampled_from(".#o"))
        marks = draw(st.lists(st.sampled_from([mark, "v"]), min_size=width, max_size=width))
        marks[draw(st.integers(0, width - 1))] = mark
        lines.append("".join(marks))
    return ChartText("dots", ChartKind.SLIP, LEGEND, tuple(lines), draw(TIMES))


@st.composite
def stripes(draw: st.DrawFn) -> ChartText:
    width = draw(WIDTHS)
    marks: Sequence[str] = draw(st.lists(st.sampled_from(".#o"), min_size=1, max_size=8))
    return ChartText(
        "dots", ChartKind.STRIPES, LEGEND, tuple(mark * width for mark in marks), draw(TIMES)
    )


@st.composite
def purls(draw: st.DrawFn) -> ChartText:
    width = draw(WIDTHS)
    line = st.lists(st.sampled_from(".-"), min_size=width, max_size=width).map("".join)
    lines = draw(st.lists(line, min_size=1, max_size=8))
    return ChartText("dots", ChartKind.PURL, LEGEND, tuple(lines), draw(TIMES))


@st.composite
def any_text(draw: st.DrawFn) -> ChartText:
    """Anything at all: wild legends, lines and numbers."""
    marks = st.sampled_from(".#ov-:MC1 \u00e9")
    line = st.one_of(st.text(alphabet=marks, max_size=9), st.text(max_size=5))
    legend = st.dictionaries(
        st.one_of(marks, st.characters()), st.sampled_from(["MC", "CC1", "CC2"]), max_size=4
    )
    return ChartText(
        name="dots",
        kind=draw(st.sampled_from(ChartKind)),
        legend=draw(st.one_of(st.just(LEGEND), legend)),
        lines=tuple(draw(st.lists(line, max_size=8))),
        times=draw(st.integers(-1, 6)),
        grows=draw(st.booleans()),
    )


@st.composite
def nearly_charts(draw: st.DrawFn) -> ChartText:
    """Few marks, short rows of one width or a little wider: about half can be worked."""
    kind = draw(st.sampled_from(ChartKind))
    special = {ChartKind.SLIP: "v", ChartKind.PURL: "-"}.get(kind, "#")
    grows, width = draw(st.booleans()), draw(st.integers(1, 4))
    lines: list[str] = []
    for _ in range(draw(st.integers(1, 4))):
        row = st.lists(st.sampled_from("." + special), min_size=width, max_size=width)
        lines.append(draw(st.sampled_from(["", "", "MC:", "CC1: "])) + "".join(draw(row)))
        width += draw(st.integers(0, width // 2)) if grows else 0
    return ChartText("dots", kind, LEGEND, tuple(lines), draw(st.integers(1, 3)), grows)
