"""The building blocks of rows on so few stitches that a reader can follow each one."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest

from tests.charts.drawn import read as drawn
from tests.knitter import knit
from tests.notation.printed_rows import parts_of
from yokefellow.charts.library import motifs
from yokefellow.charts.read import read_chart
from yokefellow.rows.bands import band_rows, bands_by_round
from yokefellow.rows.body import body_section, dart_loops
from yokefellow.rows.build import body_sections
from yokefellow.rows.edges import edge_rows, edge_section, outer_fabric
from yokefellow.rows.model import (
    Feature,
    Op,
    Repeat,
    Row,
    RowKind,
    Schedule,
    Section,
    Step,
    flat_ops,
    made,
    runs,
    taken,
    walk,
    worked,
)
from yokefellow.rows.neck import (
    adjust,
    back_neck,
    closing_round,
    last_neckband,
    marks,
    mitred_rows,
    neckband,
    pick_up,
    provisional,
)
from yokefellow.rows.sleeve import sleeve_section
from yokefellow.rows.steps import (
    change_evenly,
    decrease_evenly,
    increase_evenly,
    rib,
    tidy,
    with_markers,
)
from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.edges import Edge
from yokefellow.shaping.edges.picked_up import Mitre, PickedUp
from yokefellow.shaping.model import (
    BandShape,
    BodyShape,
    ChartedBand,
    NeckShape,
    SideChange,
    SleeveShape,
    Split,
)
from yokefellow.shaping.pieces.darts import Dart
from yokefellow.shaping.short_rows import ShortRows


def count(got: int) -> Count:
    return Count(got, float(got), 2.0)


def ops(steps: tuple[Step, ...]) -> list[tuple[str, int]]:
    return [(op.code, op.times) for op in flat_ops(steps)]


def columns(*sections: Section, stitches: int) -> tuple[int, ...]:
    """The rows in each column of the last section, worked on stitches cast on for it."""
    begin = Section("cast_on", 0, (Row((Op("CO", stitches),), Feature.CAST_ON, RowKind.PART),))
    left = made(sections[-1].rows[-1].steps)
    end = Section("hem", left, (Row((Op("BO", left),), Feature.BIND_OFF, bind_off="plain"),))
    parts = parts_of(Schedule((begin, *sections, end)))
    return knit(parts).heights[sections[-1].key, ""]


TURNS = (7, 5, 2)
"""Of short rows about BOR, on 20 stitches."""


@pytest.mark.parametrize("wrapped", [False, True])
def test_every_pair_of_short_rows_raises_the_columns_within_its_turns(wrapped: bool) -> None:
    plan = ShortRows(TURNS, 6.0, 3.0)
    section = back_neck(plan, stitches=20, wrapped=wrapped)
    assert section is not None
    closing = closing_round(plan, stitches=20, wrapped=wrapped)
    heights = columns(Section("back_neck", 20, (*section.rows, closing)), stitches=20)
    for away in range(1, 11):
        # derived: a pair is two rows over every stitch within its turn; then one round
        rows = 2 * sum(turn >= away for turn in TURNS) + 1
        # derived: a German turn slips the last stitch it works, on its way back
        rows -= not wrapped and away in TURNS
        assert heights[away - 1] == heights[-away] == rows, away


def test_without_turns_there_are_no_short_rows() -> None:
    assert back_neck(ShortRows((), 0.0, 3.0), stitches=20, wrapped=False) is None


DART = (2, 5, 8)
"""Turns from the side markers, on a front of 22 and a back of 20 stitches."""


def a_body(*darts: Dart, rounds: int = 6) -> BodyShape:
    hem = Edge("garter", "1x1", count(3))
    return BodyShape(count(rounds), 22, (), count(42), 42, hem, darts=darts)


@pytest.mark.parametrize("half", ["front", "back"])
@pytest.mark.parametrize("wrapped", [False, True])
def test_every_pair_of_a_dart_lengthens_the_columns_between_its_turns(
    half: str, wrapped: bool
) -> None:
    body = a_body(Dart(half, 2, DART, 6, 3.0))
    section = body_section(body, stitches=42, wrapped=wrapped)
    assert [row.feature for row in section.rows] == [
        Feature.PLAIN,
        *[Feature.SHORT_ROW] * 7,  # derived: three pairs, and the row that goes on to BOR
        Feature.CLOSE_GAPS,
        *[Feature.PLAIN] * 3,  # derived: six rounds less one above, the dart's own and the next
    ]
    above = Section("yoke", 42, (Row((Op("k", 22), Op("pm"), Op("k", 20))),))
    heights = columns(above, section, stitches=42)
    front, back = heights[:22], heights[22:]
    grown, other = (front, back) if half == "front" else (back, front)
    assert set(other) == {6}  # derived: as many rows as rounds
    for place in range(len(grown)):
        beside = min(place + 1, len(grown) - place)
        rows = 6 + 2 * sum(turn < beside for turn in DART)  # derived: two rows a pair
        # derived: a German turn slips the last stitch it works, on its way back
        rows -= not wrapped and beside - 1 in DART
        assert grown[place] == rows, place
    plain = 6 * 42  # derived: six rounds of 42 stitches
    loops = sum(worked(row.steps) for row in section.rows)
    assert dart_loops(body, 42, wrapped=wrapped) == loops - plain
    assert dart_loops(a_body(), 42, wrapped=wrapped) == 0


@pytest.mark.parametrize("wrapped", [False, True])
def test_a_single_pair_is_a_dart(wrapped: bool) -> None:
    section = body_section(a_body(Dart("front", 1, (4,), 2, 3.0)), stitches=42, wrapped=wrapped)
    above = Section("yoke", 42, (Row((Op("k", 22), Op("pm"), Op("k", 20))),))
    heights = columns(above, section, stitches=42)
    # derived: 6 rounds and two rows over all but 4 stitches at either side
    slips = 0 if wrapped else 1
    assert heights[:22] == (*[6] * 4, 8 - slips, *[8] * 12, 8 - slips, *[6] * 4)


def test_neighbours_of_one_kind_and_one_yarn_are_joined() -> None:
    repeat = Repeat((Op("k"),), 2)
    steps = (Op("k", 3), Op("k", 4), Op("p"), Op("p", 2, "CC1"), Op("p", 3, "CC1"), repeat, repeat)
    # derived: 3 and 4 of one kind, then 2 and 3 of one yarn
    assert tidy(steps) == (Op("k", 7), Op("p"), Op("p", 5, "CC1"), repeat, repeat)
    assert tidy(()) == ()


def test_markers_are_hung_within_ops_and_repeats() -> None:
    steps = (Op("k", 4), Repeat((Op("k2tog"), Op("k", 2)), 6), Op("k", 3))
    marked = with_markers(steps, (0, 3, 14, 28, 28))
    assert taken(marked) == 31  # derived: 4 + 6 x 4 + 3
    places, done = [], 0
    for op in flat_ops(marked):
        if op.code == "pm":
            places += [done] * op.times
        done += taken((op,))
    assert places == [0, 3, 14, 28, 28]  # derived: as asked
    assert [op.code for op in flat_ops(marked)].count("k2tog") == 6  # derived: as before
    # derived: the marker lies in the third of six; those before and after it stay together
    assert [step.times for step in marked if isinstance(step, Repeat)] == [2, 3]


def test_a_marker_in_the_colour_of_its_neighbours_parts_them() -> None:
    steps = with_markers((Op("k", 5, "CC1"), Op("k2tog", 4)), (2, 9))
    # derived: 2 of 5, and 2 pairs more than the 5 are 9
    assert ops(steps) == [("k", 2), ("pm", 1), ("k", 3), ("k2tog", 2), ("pm", 1), ("k2tog", 2)]
    assert [op.yarn for op in flat_ops(steps)] == ["CC1", "", "CC1", "", "", ""]


@pytest.mark.parametrize(("name", "width"), [("1x1", 2), ("2x2", 4), ("twisted", 2)])
def test_a_rib_goes_round_or_is_refused(name: str, width: int) -> None:
    # common practice, no source: stitches in one repeat of each rib
    (whole,) = rib(12, name)
    assert isinstance(whole, Repeat)
    assert (taken(whole.steps), taken((whole,))) == (width, 12)
    with pytest.raises(ValueError, match=f"a rib of {width} stitches does not divide 13"):
        rib(13, name)


def test_decreases_need_two_stitches_each() -> None:
    assert ops(decrease_evenly(8, 4)) == [("k2tog", 1)] * 4  # derived: every pair
    with pytest.raises(ValueError, match="7 stitches do not hold 4 decreases"):
        decrease_evenly(7, 4)


@pytest.mark.parametrize("size", [4, 5])
def test_increases_stand_at_the_end_of_their_groups_or_midway(size: int) -> None:
    at_end = ops(increase_evenly(3 * size, 3, midway=False))
    assert at_end == [("k", size), ("M1L", 1)] * 3
    first = (size + 1) // 2  # derived: the larger half goes first
    midway = [op.code for op in flat_ops(increase_evenly(3 * size, 3, midway=True))]
    assert midway[0] == "k"
    spread = [("k", first), ("M1L", 1), ("k", size - first)]
    assert ops(increase_evenly(size, 1, midway=True)) == spread


def test_unequal_groups_have_no_middle() -> None:
    assert increase_evenly(11, 3, midway=True) == increase_evenly(11, 3, midway=False)


@pytest.mark.parametrize(("before", "after"), [(20, 24), (24, 20), (20, 21), (21, 20)])
def test_a_round_goes_to_more_or_to_fewer(before: int, after: int) -> None:
    row = adjust(before, after, why="to the hem's count")
    # derived: as asked
    assert (taken(row.steps), made(row.steps)) == (before, after)
    assert (row.feature, row.why) == (Feature.ADJUST, "to the hem's count")


def test_what_goes_to_another_count_stands_at_the_end_of_its_groups() -> None:
    # derived: 20 stitches in 4 groups, and in 1
    assert change_evenly(20, 24) == (Repeat((Op("k", 5), Op("M1L")), 4),)
    assert change_evenly(24, 20) == (Repeat((Op("k", 4), Op("k2tog")), 4),)
    assert change_evenly(20, 21) == (Op("k", 20), Op("M1L"))
    assert change_evenly(21, 20) == (Op("k", 19), Op("k2tog"))
    with pytest.raises(ValueError, match="20 stitches do not make 0 groups"):
        change_evenly(20, 20)


def test_equal_neighbours_are_a_repeat_and_others_are_not() -> None:
    one, other = (Op("k", 3), Op("k DS")), (Op("k", 4), Op("k DS"))
    assert marks([one, one, other, one]) == (Repeat(one, 2), *other, *one)
    assert marks([]) == ()


def test_equal_rows_one_after_another_are_a_run() -> None:
    plain, purl = Row((Op("k", 8),)), Row((Op("p", 8),))
    again = Row((Op("k", 8),))
    assert list(runs([plain, again, purl, plain])) == [(plain, 2), (purl, 1), (plain, 1)]
    assert list(runs([])) == []


def beads(*, first: int, repeats: int, around: int) -> ChartedBand:
    chart = read_chart(motifs()["beads"])[0]
    assert chart is not None
    stitches = repeats * len(chart.rows[0].cells)
    counts = (stitches,) * len(chart.rows)
    return ChartedBand(BandShape("beads", first, repeats, count(stitches), counts), chart, around)


def a_sleeve(band: ChartedBand, *, rounds: int, edge: int) -> SleeveShape:
    cuff = Edge("garter", "1x1", count(3))
    return SleeveShape(count(rounds), (), count(edge), cuff, (band,))


def test_a_sleeve_goes_to_the_count_of_its_band_and_back() -> None:
    band = beads(first=5, repeats=5, around=21)
    last, stitches = band.shape.last, band.shape.start.got
    sleeve = sleeve_section(a_sleeve(band, rounds=last + 3, edge=20), held=17, underarm=4)
    counts = [row.after for row in walk(Schedule((sleeve,)))]
    # derived: 17 held and 4 picked up, with two more in the first round
    assert counts == [23, 21, 21, *[stitches] * (last - 3), 21, 21, 20]
    whys = [row.why for row in sleeve.rows]
    assert whys[3] == "to the band's count"
    assert whys[last] == "back from the band's count"
    features = [row.feature for row in sleeve.rows]
    assert features[3:] == [
        Feature.ADJUST,
        *[Feature.BAND] * (last - 4),
        *(Feature.ADJUST, Feature.PLAIN, Feature.ADJUST),
    ]


@pytest.mark.parametrize("same", [True, False])
def test_a_sleeve_goes_from_its_band_to_the_cuff(same: bool) -> None:
    band = beads(first=5, repeats=5, around=21)
    last, stitches = band.shape.last, band.shape.start.got
    edge = stitches if same else stitches - 2
    sleeve = sleeve_section(a_sleeve(band, rounds=last + 1, edge=edge), held=17, underarm=4)
    assert sleeve.rows[-1].feature is (Feature.PLAIN if same else Feature.ADJUST)
    assert list(walk(Schedule((sleeve,))))[-1].after == edge


def test_halves_of_a_body_are_shared_as_they_are() -> None:
    band = beads(first=3, repeats=11, around=42)
    body = replace(a_body(rounds=band.shape.last + 2), front=14, bands=(band,))
    section = body_section(body, stitches=42, wrapped=False)
    to, back = section.rows[1], section.rows[band.shape.last]
    for row, whole in ((to, band.shape.start.got), (back, 42)):
        marker = [op.code for op in flat_ops(row.steps)].index("sm")
        front = made(tuple(flat_ops(row.steps))[:marker])
        # derived: a third of the stitches are the front's, before and after
        assert front == pytest.approx(whole / 3, abs=0.5)
        assert made(row.steps) == whole
    assert to.why == "to the band's count"
    assert back.why == "back from the band's count"
    assert section.rows[-1].feature is Feature.PLAIN


def test_a_change_that_makes_room_for_the_bust_says_so() -> None:
    change = SideChange(2, 2, 0, for_bust=True)
    body = replace(a_body(), changes=(change,), edge=count(44), hem_stitches=44)
    row = body_section(body, stitches=42, wrapped=False).rows[1]
    assert row.why == "makes room in the front"
    assert made(row.steps) == 44  # derived: two more


def test_a_stranded_row_names_every_colour_and_another_row_its_own_yarn() -> None:
    stranded = band_rows(drawn("stranded", "##.", "..#"), repeats=3)
    assert [ops(row.steps) for row in stranded] == [[("k", 2), ("k", 1)] * 3] * 2
    yarns = [[op.yarn for op in flat_ops(row.steps)] for row in stranded]
    assert yarns == [["CC1", "MC"] * 3, ["MC", "CC1"] * 3]
    mosaic = band_rows(drawn("mosaic", "CC1: ##.#", "MC: #..."), repeats=2)
    assert [row.yarn for row in mosaic] == ["CC1", "MC"]
    assert {op.yarn for row in mosaic for op in flat_ops(row.steps)} == {""}
    # derived: three of four worked in each, one slipped
    assert [op.code for op in flat_ops(mosaic[0].steps)] == ["k", "sl wyib", "k"] * 2
    assert [row.why for row in mosaic] == ["dots, row 1 of 2", "dots, row 2 of 2"]
    assert {row.fabric for row in (*stranded, *mosaic)} == {"stranded", "mosaic"}


def test_a_row_of_one_colour_is_one_run_of_stitches() -> None:
    (row,) = band_rows(drawn("stripes", "CC1: ####"), repeats=5)
    assert row.steps == (Op("k", 20),)  # derived: five repeats of four
    assert row.yarn == "CC1"
    (only,) = band_rows(drawn("stranded", "###"), repeats=4)
    assert only.steps == (Op("k", 12, "CC1"),)  # derived: four repeats of three
    (once,) = band_rows(drawn("stranded", "#.#."), repeats=1)
    assert once.steps == tuple(Op("k", 1, yarn) for yarn in ("CC1", "MC") * 2)
    (twice,) = band_rows(drawn("stranded", "#.#."), repeats=2)
    assert twice.steps == (Repeat(once.steps, 2),)


def test_every_band_has_its_chart() -> None:
    band = beads(first=4, repeats=3, around=12)
    rows = bands_by_round([band.shape], [band.chart])
    assert list(rows) == list(range(4, band.shape.last + 1))
    assert list(rows.values()) == list(band_rows(band.chart, repeats=3))
    with pytest.raises(ValueError, match="shorter"):
        bands_by_round([band.shape], [])


def test_below_a_band_the_body_goes_to_the_hem_and_its_marker_comes_off() -> None:
    band = beads(first=3, repeats=10, around=42)
    hem = 36
    body = replace(a_body(rounds=band.shape.last + 1), bands=(band,), hem_stitches=hem)
    last = body_section(body, stitches=42, wrapped=False).rows[-1]
    assert made(last.steps) == hem
    codes = [op.code for op in flat_ops(last.steps)]
    assert codes.count("rm") == 1
    assert "sm" not in codes
    assert last.why == "to the hem's count"


def test_the_darts_of_a_body_are_german_unless_they_are_wrapped() -> None:
    split = Split(count(42), count(20), count(4))
    body = a_body(Dart("front", 2, DART, 6, 3.0))

    def turns(sections: tuple[Section, ...]) -> set[str]:
        found = {op.code for row in sections[0].rows for op in flat_ops(row.steps)}
        return found & {"turn", "w&t"}

    assert turns(body_sections(body, split)) == {"turn"}
    assert turns(body_sections(body, split, wrapped=True)) == {"w&t"}


@pytest.mark.parametrize("turning", ["picot", "purl"])
@pytest.mark.parametrize("hem", [42, 40])
def test_the_side_marker_comes_off_before_stitches_are_worked_together(
    turning: str, hem: int
) -> None:
    folded = Edge("folded", "1x1", count(3), hidden=2, turning=turning)
    body = replace(a_body(), hem=folded, hem_stitches=hem)
    last = body_section(body, stitches=42, wrapped=False).rows[-1]
    taken_off = [op.code for op in flat_ops(last.steps)].count("rm")
    # derived: 42 stitches of the body, and 2 fewer of the hem or none
    assert taken_off == (turning == "picot" or hem != 42)
    whys = {True: "takes off the marker" if hem == 42 else "to the hem's count", False: ""}
    assert last.why == whys[bool(taken_off)]


@pytest.mark.parametrize(
    ("front", "back", "why"),
    [
        (2, 2, "widens the sides"),
        (-2, -2, "narrows the sides"),
        (2, 0, "widens the front"),
        (-2, 0, "narrows the front"),
        (0, 2, "widens the back"),
        (0, -2, "narrows the back"),
    ],
)
def test_a_change_at_the_sides_says_what_it_does(front: int, back: int, why: str) -> None:
    change = SideChange(3, front, back)
    stitches = 42 + change.added
    body = replace(a_body(), changes=(change,), edge=count(stitches), hem_stitches=stitches)
    section = body_section(body, stitches=42, wrapped=False)
    assert section.rows[2].why == why
    codes = [op.code for op in flat_ops(section.rows[2].steps)]
    (at,) = (place for place, code in enumerate(codes) if code == "sm")
    before, after = Counter(codes[:at]), Counter(codes[at:])
    for half, added in ((before, front), (after, back)):
        assert half["M1L"] == half["M1R"] == (added > 0)
        assert half["ssk"] == half["k2tog"] == (added < 0)
    # derived: from the third of six rounds on
    assert [row.after for row in walk(Schedule((section,)))][2:] == [stitches] * 4


@pytest.mark.parametrize("wrapped", [False, True])
def test_darts_cost_what_they_add_to_a_body_shaped_above_and_between_them(wrapped: bool) -> None:
    darts = (Dart("front", 3, DART, 6, 3.0), Dart("back", 8, (3, 6), 4, 3.0))
    changes = (SideChange(2, 2, 0), SideChange(6, 2, 2))
    body = replace(a_body(*darts, rounds=12), changes=changes, hem_stitches=48, edge=count(48))
    plain = replace(body, darts=())
    loops = [
        sum(worked(row.steps) for row in body_section(one, stitches=42, wrapped=wrapped).rows)
        for one in (body, plain)
    ]
    assert dart_loops(body, 42, wrapped=wrapped) == loops[0] - loops[1] > 0


PLAIN_, FACING = ("k", "plain"), ("k", "facing")
FINISHES = {
    "garter": (Edge("garter", "", count(3)), [("p", "garter"), ("k", "garter"), ("p", "garter")]),
    "rolled": (Edge("rolled", "", count(1), hidden=2), [PLAIN_] * 3),
    "purl": (
        Edge("folded", "", count(2), hidden=1, turning="purl"),
        [PLAIN_, PLAIN_, ("p", "facing"), FACING],
    ),
    "picot": (
        Edge("folded", "", count(2), hidden=1, turning="picot"),
        [PLAIN_, PLAIN_, ("k2tog", "facing"), FACING],
    ),
}
"""Edges on twelve stitches, and the first stitch and the fabric of each of their rounds."""


@pytest.mark.parametrize("finish", FINISHES)
def test_an_edge_is_worked_in_its_finish_downwards_and_upwards(finish: str) -> None:
    edge, rounds = FINISHES[finish]
    edge = replace(edge, bind_off="sewn")
    section = edge_section("cuff", edge, stitches=12, copies=("right", "left"))
    assert (section.key, section.start, section.copies) == ("cuff", 12, ("right", "left"))
    *worked_down, end = section.rows
    upwards = edge_rows(12, edge, from_top=True)
    for rows, wanted in ((worked_down, rounds), (upwards, rounds[::-1])):
        found = [(next(flat_ops(row.steps)).code, row.fabric) for row in rows]
        assert found == wanted
        assert {row.feature for row in rows} == {Feature.EDGE}
        # derived: no edge changes its twelve stitches
        assert [(taken(row.steps), made(row.steps)) for row in rows] == [(12, 12)] * len(rows)
    assert end.steps == (Op("sew" if edge.finish == "folded" else "BO", 12),)
    assert (end.fabric, end.bind_off) == (rounds[-1][1], "sewn")


def test_a_picot_is_two_stitches_and_the_yarn_over_in_their_place() -> None:
    edge, _ = FINISHES["picot"]
    turn = edge_rows(12, edge, from_top=False)[2]
    assert turn.steps == (Repeat((Op("k2tog"), Op("yo")), 6),)  # derived: half of 12


@pytest.mark.parametrize("band", [20, 22, 18])
def test_a_neckband_worked_last_goes_from_the_open_neck_to_its_own_count(band: int) -> None:
    edge = Edge("folded", "", count(1), hidden=1, turning="purl")
    neck = NeckShape(count(20), band, edge, is_last=True)
    cast_on = provisional(neck)
    assert (cast_on.key, cast_on.start) == ("cast_on", 0)
    first, base = cast_on.rows
    assert (first.feature, first.kind) == (Feature.PROVISIONAL, RowKind.PART)
    assert first.steps == (Op("CO", 20),)
    assert (base.steps, base.why) == ((Op("k", 20),), "a base for what follows")
    section = last_neckband(neck)
    assert (section.key, section.start) == ("neckband", 20)
    to_band, *rest = section.rows
    # derived: as the shape has them
    assert (taken(to_band.steps), made(to_band.steps)) == (20, band)
    assert to_band.feature is (Feature.PLAIN if band == 20 else Feature.ADJUST)
    assert to_band.why == ("" if band == 20 else "from the yoke's count to the band's")
    # It is worked in the fabric of the round that follows: the outside of the fold.
    assert to_band.fabric == rest[0].fabric == "plain"
    assert tuple(rest) == edge_section("neckband", edge, stitches=band).rows
    ribbed = last_neckband(replace(neck, band_stitches=24, band=Edge("rib", "2x2", count(2))))
    assert {row.fabric for row in ribbed.rows} == {"rib"}
    same = last_neckband(replace(neck, band_stitches=20, band=Edge("rib", "2x2", count(2))))
    assert {row.fabric for row in same.rows} == {"rib"}


@pytest.mark.parametrize("band", [20, 22, 18])
def test_a_neckband_worked_first_goes_to_the_count_of_the_yoke(band: int) -> None:
    edge = Edge("folded", "", count(2), hidden=1, turning="purl")
    section = neckband(NeckShape(count(20), band, edge))
    first, *rest = section.rows
    assert (section.key, section.start) == ("neckband", 0)
    assert (first.feature, first.kind, first.fabric) == (Feature.CAST_ON, RowKind.PART, "facing")
    assert first.steps == (Op("CO", band),)
    assert tuple(rest[:4]) == edge_rows(band, edge, from_top=True)
    whys = [] if band == 20 else ["from the band's count to the yoke's"]
    assert [row.why for row in rest[4:]] == whys
    # derived: the yoke begins with 20
    assert list(walk(Schedule((section,))))[-1].after == 20


def test_a_band_is_picked_up_in_the_fabric_of_its_edge() -> None:
    edge = Edge("garter", "", count(3))
    row = pick_up(30, fabric=outer_fabric(edge))
    assert (row.steps, row.feature, row.fabric) == ((Op("PU", 30),), Feature.NECK_EDGE, "garter")


def test_a_folded_band_of_one_round_is_picked_up_in_the_fabric_of_its_outside() -> None:
    edge = Edge("folded", "", count(1), hidden=1, turning="purl")
    picked = PickedUp(count(12), 3, (3, 3), Fraction(1))
    start, *rounds = last_neckband(NeckShape(count(20), 12, edge, is_last=True, picked=picked)).rows
    assert (start.steps, start.feature, start.fabric) == (
        (Op("PU", 12),),
        Feature.NECK_EDGE,
        "plain",
    )
    assert [row.fabric for row in rounds] == ["plain", "facing", "facing", "facing"]


MITRED = {
    # derived: by hand; the first round, and the rounds that decrease
    "1x1": (Edge("rib", "1x1", count(5)), 2, "kpkpkpkpkpkpk", "k", [2, 4]),
    "every round": (Edge("rib", "1x1", count(4)), 1, "kpkpkpkpkpkpk", "k", [2, 3, 4]),
    "2x2": (Edge("rib", "2x2", count(4)), 2, "kppkkppkppkkppk"[1:-1], "k", [2, 4]),
    "garter": (Edge("garter", "", count(5)), 1, "ppppppppppppp", "p", [2, 4]),
    "rolled": (Edge("rolled", "", count(1), hidden=3), 2, "kkkkkkkkkkkkk", "k", [2, 4]),
}


@pytest.mark.parametrize("kind", MITRED)
def test_a_band_decreases_at_the_point_of_a_v(kind: str) -> None:
    edge, every, first, middle, falls = MITRED[kind]
    rows = mitred_rows(Mitre(6, 6, every), edge)
    worked_as = [[op.code for op in flat_ops(row.steps) for _ in range(op.times)] for row in rows]
    assert "".join(worked_as[0]) == first
    assert worked_as[0][6] == middle
    told = [number for number, codes in enumerate(worked_as, start=1) if "CDD" in codes]
    assert told == falls
    assert [n for n, row in enumerate(rows, start=1) if row.feature is Feature.ADJUST] == falls
    each = 6
    for number, (row, codes) in enumerate(zip(rows, worked_as, strict=True), start=1):
        falling = number in falls
        # derived: every double decrease takes one stitch on either side
        each -= falling
        assert (taken(row.steps), made(row.steps)) == (2 * each + 1 + 2 * falling, 2 * each + 1)
        # The columns from BOR go on as they were, and both sides are alike.
        if edge.finish != "garter":
            assert codes[:each] == worked_as[0][:each]
        else:
            assert set(codes) - {"CDD"} == {"p" if number % 2 else "k"}
        assert codes == codes[::-1]
        assert row.fabric == outer_fabric(edge)
        if falling:
            order = falls.index(number) + 1
            assert row.why == f"decreases at the point, {order} of {len(falls)}"
        else:
            assert row.why == (f"{edge.rib} rib" if edge.finish == "rib" else "the neckband")


def test_a_long_run_of_rib_is_written_as_a_repeat() -> None:
    row, *_ = mitred_rows(Mitre(21, 22, 2), Edge("rib", "1x1", count(2)))
    assert len(row.steps) < 8  # derived: a repeat and an odd stitch on either side of the point
    assert taken(row.steps) == 44  # derived: 21 and 22 and the point
    assert sum(step.times for step in row.steps if isinstance(step, Repeat)) >= 20  # derived


K2, P2 = Op("k", 2), Op("p", 2)
SIDES: dict[int, tuple[Step, ...]] = {
    # derived: by hand; stitches of k2, p2 rib that end with the purls beside the point
    5: (Op("p"), K2, P2),
    6: (P2, K2, P2),
    7: (Op("k"), P2, K2, P2),
    8: (Repeat((K2, P2), 2),),
    9: (Op("p"), Repeat((K2, P2), 2)),
    10: (Repeat((P2, K2), 2), P2),
    11: (Op("k"), Repeat((P2, K2), 2), P2),
    12: (Repeat((K2, P2), 3),),
    14: (Repeat((P2, K2), 3), P2),
}


@pytest.mark.parametrize("stitches", SIDES)
def test_a_side_of_a_v_is_written_with_its_equal_groups_as_one_repeat(stitches: int) -> None:
    side = SIDES[stitches]
    assert taken(side) == stitches
    row, *_ = mitred_rows(Mitre(stitches, 4, 2), Edge("rib", "2x2", count(2)))
    # derived: the point, and the four stitches of the other side
    assert row.steps == (*side, Op("k"), P2, K2)
