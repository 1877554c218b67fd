"""The chart of each band: found, put into its yarns, read, or refused where the fault stands."""

from __future__ import annotations

import pytest

from tests.plain_speech import kindly
from tests.project_file.sample import SOUND
from yokefellow.charts.chart import picture
from yokefellow.charts.library import motifs
from yokefellow.charts.resolve import other_charts, resolve, resolve_pieces
from yokefellow.findings import Finding, Severity
from yokefellow.project_file.load import parse


def yarn(*codes: str) -> str:
    ball = 'ball_weight = "50 g"\nball_length = "200 m"\nballs = 1\n'
    return "".join(f"[yarn.{code}]\n{ball}" for code in codes)


def chart(name: str, *rows: str, kind: str = "mosaic") -> str:
    colours = 'colours = { "." = "MC", "#" = "CC1" }'
    return f'[charts.{name}]\nkind = "{kind}"\n{colours}\nrows = {list(rows)}\n'


def band(name: str, **swap: str) -> str:
    colours = ", ".join(f'{old} = "{new}"' for old, new in swap.items())
    last = f"colours = {{ {colours} }}\n" if swap else ""
    return f'[[garment.yoke.bands]]\nchart = "{name}"\n{last}'


def said(*parts: str) -> tuple[Finding, ...]:
    found = resolve(parse(SOUND + "".join(parts)))[1]
    return tuple(map(kindly, found))


def only(*parts: str) -> Finding:
    (finding,) = said(*parts)
    return finding


def test_without_bands_there_are_no_charts() -> None:
    assert resolve(parse(SOUND)) == ((), ())


def test_the_charts_come_in_the_order_of_the_bands() -> None:
    project = parse(SOUND + yarn("CC1") + chart("mine", "#.") + band("stairs") + band("mine") * 2)
    charts, found = resolve(project)
    assert [one.name for one in charts] == ["stairs", "mine", "mine"]
    assert found == ()


def test_a_chart_of_the_project_goes_before_a_motif() -> None:
    project = parse(SOUND + yarn("CC1") + chart("beads", "#.") + band("beads"))
    assert picture(resolve(project)[0][0])[0] == ("CC1", "MC")


def test_a_band_may_take_other_yarns() -> None:
    yarns = yarn("CC2")
    (swapped,), found = resolve(parse(SOUND + yarns + band("beads", CC1="CC2")))
    assert found == ()
    assert swapped.name == "beads"
    assert swapped.colours == ("MC", "CC2")
    exchanged = parse(SOUND + yarn("CC1") + band("tide-lines", CC1="MC", MC="CC1"))
    (one,) = resolve(exchanged)[0]
    as_shipped = [motifs()["tide-lines"].legend[line] for line in motifs()["tide-lines"].lines]
    other = {"MC": "CC1", "CC1": "MC"}
    assert [row.yarn for row in one.rows] == [other[colour] for colour in as_shipped]


def test_the_yarn_in_front_of_a_row_is_exchanged_too() -> None:
    drawn = chart("mine", "CC1: #v", "CC1: v#", kind="slip")
    (one,), found = resolve(parse(SOUND + yarn("CC2") + drawn + band("mine", CC1="CC2")))
    assert found == ()
    assert [row.yarn for row in one.rows] == ["CC2", "CC2"]


def test_an_unknown_chart_is_refused_with_the_nearest_name() -> None:
    finding = only(band("stirs"))
    assert finding.code == "band.unknown-chart"
    assert finding.field == "garment.yoke.bands[1].chart"
    assert finding.remedy == 'Did you mean "stairs"?'
    assert '"stirs"' in finding.message
    # Half of a name is enough.
    assert only(band("path")).remedy == 'Did you mean "winding-path"?'
    own = said(chart("my-dots", "."), band("beads"), band("my-dot"), yarn("CC1"))
    assert [f.remedy for f in own] == ['Did you mean "my-dots"?']
    assert "winding-path" in only(band("zzz")).remedy


REFUSED = [
    (yarn("CC1") + band("beads", CC1="MC"), "band.one-yarn-for-two", "[1].colours"),
    (yarn("CC1") + band("beads", MC="CC1"), "band.one-yarn-for-two", "[1].colours"),
    (yarn("CC1", "CC2") + band("beads", CC2="CC1"), "band.not-in-chart", "[1].colours"),
    (band("beads"), "band.no-yarn", "[1]"),
    (yarn("CC2") + band("beads"), "band.no-yarn", "[1]"),
    # Over plain MC no stitch can be slipped to show CC1.
    (yarn("CC1", "CC2") + band("pebbles", MC="CC2"), "chart.not-mosaic", "[1]"),
]


@pytest.mark.parametrize(("text", "code", "place"), REFUSED)
def test_a_fault_of_the_band_is_told_of_the_band(text: str, code: str, place: str) -> None:
    finding = only(text)
    assert (finding.code, finding.field) == (code, f"garment.yoke.bands{place}")
    assert finding.severity is Severity.ERROR


def test_two_yarns_that_would_be_one_are_both_named() -> None:
    finding = only(yarn("CC1"), band("beads", CC1="MC"))
    assert "MC and CC1 of the chart beads would both be MC" in finding.message


def test_a_yarn_that_is_missing_comes_with_what_to_type() -> None:
    assert only(band("beads")).remedy == "Add a table [yarn.CC1] with its ball."
    assert 'colours = { CC1 = "CC2" }' in only(yarn("CC2") + band("beads")).remedy


def test_a_fault_of_the_drawing_is_told_of_the_chart_and_once() -> None:
    wrong = yarn("CC1", "CC2") + chart("mine", "#.#", "#.")
    finding = only(wrong, band("mine") * 2, band("mine", CC1="CC2"))
    assert (finding.code, finding.field) == ("chart.unequal", "charts.mine.rows")


def test_only_yarns_that_no_band_uses_are_told() -> None:
    yarns = yarn("CC1", "CC2", "CC3")
    assert [f.field for f in said(yarns)] == ["yarn.CC1", "yarn.CC2", "yarn.CC3"]
    finding = only(yarns, band("beads"), band("pebbles", CC1="CC3"))
    assert (finding.code, finding.field) == ("yarn.unused", "yarn.CC2")
    assert finding.severity is Severity.NOTE


def piece_band(piece: str, name: str, **swap: str) -> str:
    return band(name, **swap).replace("garment.yoke", f"garment.{piece}")


def test_the_charts_of_body_and_sleeves_come_in_the_order_of_their_bands() -> None:
    project = parse(
        SOUND
        + yarn("CC1", "CC2")
        + piece_band("body", "stairs")
        + piece_band("body", "pebbles", CC1="CC2")
        + piece_band("sleeves", "beads")
    )
    charts, found = resolve_pieces(project)
    assert [chart.name for chart in charts.body] == ["stairs", "pebbles"]
    assert set(charts.body[1].colours) == {"MC", "CC2"}
    assert [chart.name for chart in charts.sleeves] == ["beads"]
    assert found == ()
    assert resolve(project) == ((), ())


@pytest.mark.parametrize("piece", ["body", "sleeves"])
def test_a_chart_that_grows_is_refused_below_the_underarm(piece: str) -> None:
    finding = only(yarn("CC1"), piece_band(piece, "pebbles"), piece_band(piece, "buds"))
    assert (finding.code, finding.field) == ("band.grows-here", f"garment.{piece}.bands[2].chart")
    assert finding.severity is Severity.ERROR
    # derived: from the drawing of the motif, whose rows widen from 4 stitches to 6
    assert "buds grows from 4 to 6 stitches" in finding.message


def test_a_fault_of_a_drawing_is_told_once_for_all_pieces() -> None:
    wrong = yarn("CC1") + chart("mine", "#.#", "#.")
    everywhere = (piece_band("body", "mine"), piece_band("sleeves", "mine"), band("mine"))
    assert only(wrong, *everywhere).code == "chart.unequal"
    assert only(wrong, *everywhere[:2]).code == "chart.unequal"


def test_a_fault_on_any_piece_is_told_of_that_piece() -> None:
    fields = [
        finding.field
        for finding in said(
            band("beads"), piece_band("body", "beads"), piece_band("sleeves", "beads")
        )
    ]
    assert fields == [
        *("garment.yoke.bands[1]", "garment.body.bands[1]", "garment.sleeves.bands[1]")
    ]


def test_a_yarn_that_only_a_sleeve_uses_is_used() -> None:
    yarns = yarn("CC1", "CC2", "CC3")
    pieces = piece_band("sleeves", "beads") + piece_band("body", "beads", CC1="CC2")
    assert only(yarns, pieces).field == "yarn.CC3"


def test_other_charts_are_those_that_could_be_worked_instead() -> None:
    own = (
        chart("mine", "#.")
        + chart("broken", "#.#", "#.")
        + chart("widening", "#...", "#.#...", kind="stranded").replace("rows", "grows = true\nrows")
    )
    project = parse(SOUND + yarn("CC1") + own)
    offered = dict(other_charts(project, but="beads"))
    fixed = {name for name, text in motifs().items() if not text.grows}
    # derived: what is broken, grows, lacks a yarn or is the chart itself cannot help
    assert set(offered) == {"mine", *fixed} - {"beads"}
    assert next(iter(offered)) == "mine"
    for name, one in offered.items():
        assert (one.name, one.first_width) == (name, one.last_width)
    # derived: without a second yarn only charts of one yarn are left
    plain = dict(other_charts(parse(SOUND), but="beads"))
    assert all(one.colours == ("MC",) for one in plain.values())
    assert set(plain) == {name for name in fixed if set(motifs()[name].legend.values()) == {"MC"}}
