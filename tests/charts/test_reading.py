"""What is read from a chart, and what is refused with row and column."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import yokefellow.charts
from tests.charts.drawn import LEGEND, read, refused
from tests.plain_speech import kindly
from yokefellow.charts.chart import ChartKind, Work
from yokefellow.charts.read import made_places, read_chart, row_of
from yokefellow.charts.text import ChartText, Line, lines_of, with_other_yarns
from yokefellow.findings import Severity

K, S, M, P = Work.KNIT, Work.SLIP, Work.MAKE, Work.PURL


def works(kind: str, *lines: str, times: int = 1, grows: bool = False) -> list[list[Work]]:
    rows = read(kind, *lines, times=times, grows=grows).rows
    return [[cell.work for cell in row.cells] for row in rows]


def yarns(kind: str, *lines: str) -> list[str]:
    return [row.yarn for row in read(kind, *lines).rows]


def test_a_mosaic_slips_what_shows_the_resting_colour() -> None:
    assert works("mosaic", "##.#", ".#..") == [[K, K, S, K], [K, S, K, K]]
    assert yarns("mosaic", "##.#", ".#..") == ["CC1", "MC"]


def test_a_line_worked_twice_slips_the_same_stitches_twice() -> None:
    assert works("mosaic", "##.#", times=2) == [[K, K, S, K], [K, K, S, K]]


def test_a_line_of_one_colour_is_worked_in_it() -> None:
    assert yarns("mosaic", "....", "####", "####", "....") == ["MC", "CC1", "CC1", "MC"]


def test_where_either_yarn_would_do_they_take_turns() -> None:
    # Rows two to four show what is already there.
    assert yarns("mosaic", "#.", "#.", "#.", "#.") == ["CC1", "MC", "CC1", "MC"]


def test_a_yarn_in_front_of_a_line_is_obeyed() -> None:
    assert yarns("mosaic", "#.", "CC1: #.", "CC1:#.") == ["CC1", "CC1", "CC1"]


def test_blanks_are_for_the_eye() -> None:
    assert read("mosaic", " ##  .. ", "CC1 : # # . .") == read("mosaic", "##..", "CC1: ##..")


def test_a_widening_row_makes_its_stitches_apart_and_makes_them_once() -> None:
    assert works("stranded", "....", "##..##", times=2, grows=True) == [
        [K, K, K, K],
        [K, K, K, K],
        [K, K, M, K, K, M],
        [K] * 6,
    ]
    chart = read("stranded", "....", "##..##", times=2, grows=True)
    # derived: the repeat as drawn
    assert (chart.first_width, chart.last_width) == (4, 6)
    assert [row.made for row in chart.rows] == [0, 0, 2, 0]
    assert len(chart.lines) == 2


@pytest.mark.parametrize(("before", "after"), [(2, 3), (4, 6), (6, 8), (10, 15), (7, 10), (5, 5)])
def test_new_stitches_stand_in_equal_shares_and_never_side_by_side(before: int, after: int) -> None:
    places = sorted(made_places(before, after))
    assert len(places) == after - before
    gaps = [late - early for early, late in zip([-1, *places], places, strict=False)]
    assert all(gap >= 3 for gap in gaps)  # derived: at most one for every two
    assert not gaps or max(gaps) - min(gaps) <= 1


def test_a_purl_chart_purls() -> None:
    assert works("purl", "-..-") == [[P, K, K, P]]
    only = ChartText("dots", ChartKind.PURL, {"#": "CC1"}, ("--",))
    chart, _ = read_chart(only)
    assert chart is not None
    assert chart.rows[0].yarn == "CC1"


def test_a_row_that_is_all_purl_goes_on_in_the_yarn_in_hand() -> None:
    assert yarns("purl", "##", "--", "..", "--") == ["CC1", "CC1", "MC", "MC"]
    # The first row lies on the main colour.
    assert yarns("purl", "--") == ["MC"]


def test_the_first_yarn_of_a_stranded_row_is_the_one_in_front_of_it_or_the_first_to_show() -> None:
    assert yarns("stranded", "#.", ".#", "CC1: .#") == ["CC1", "MC", "CC1"]


def test_a_line_that_does_not_lie_on_the_row_below_cannot_be_worked() -> None:
    text = ChartText("dots", ChartKind.STRANDED, LEGEND, ("##",))
    for under in (("MC",), ("MC",) * 3):
        with pytest.raises(ValueError, match="zip"):
            row_of(text, Line(1, "", "##"), under, "MC")


@pytest.mark.parametrize(
    "lines",
    [
        # derived: the limits that `project/marks.py` names, 200 stitches and 200 rows
        ("#" * 200,),
        ("# " * 200,),
        ("#",) * 200,
    ],
)
def test_a_chart_may_be_as_large_as_is_said(lines: tuple[str, ...]) -> None:
    chart = read("stranded", *lines)
    assert chart.first_width * len(chart.rows) == 200  # derived: one by two hundred


def test_a_line_may_be_worked_up_to_four_times() -> None:
    assert len(read("stranded", "#", times=4).rows) == 4  # derived: one line


def test_other_yarns_change_what_stands_for_yarns_and_nothing_else() -> None:
    legend = {".": "MC", "M": "CC1", "C": "CC2", ":": "CC3"}
    text = ChartText("dots", ChartKind.STRANDED, legend, ("MC: .M", " CC1 : M.", "MC"))
    swapped = with_other_yarns(text, {"CC1": "CC4"})
    assert swapped.legend == {**legend, "M": "CC4"}
    drawn, changed = read_chart(text)[0], read_chart(swapped)[0]
    assert drawn is not None
    assert changed is not None
    other = {"CC1": "CC4"}
    for row, now in zip(drawn.rows, changed.rows, strict=True):
        assert now.yarn == other.get(row.yarn, row.yarn)
        assert [cell.colour for cell in now.cells] == [
            other.get(cell.colour, cell.colour) for cell in row.cells
        ]


def test_marks_that_look_like_a_yarn_inside_a_line_stay_as_they_are() -> None:
    legend = {".": "MC", "M": "CC1", "C": "CC2", ":": "CC3"}
    text = ChartText("dots", ChartKind.STRANDED, legend, (".MC:", "MC: .MC:"))
    swapped = with_other_yarns(text, {"MC": "CC4"})
    assert [line.marks for line in lines_of(swapped)] == [line.marks for line in lines_of(text)]
    assert [line.yarn for line in lines_of(swapped)] == ["", "CC4"]


def test_a_slipped_stitch_shows_what_it_was() -> None:
    rows = read("slip", "##", "CC2: ov", "v.").rows
    assert [[cell.colour for cell in row.cells] for row in rows] == [
        ["CC1", "CC1"],
        ["CC2", "CC1"],
        ["CC2", "MC"],
    ]


def test_a_repeat_may_stay_as_wide_as_it_is_where_it_may_grow() -> None:
    assert read("stranded", "#.", ".#", grows=True).last_width == 2


REFUSED: list[tuple[str, tuple[str, ...], dict[str, object], str, str]] = [
    # kind, lines, times and grows, code, what the message must say
    ("mosaic", (), {}, "empty", "no rows"),
    ("mosaic", ("##", " "), {}, "empty", "Row 2 "),
    ("slip", ("##", "CC1:"), {}, "empty", "Row 2 "),
    ("mosaic", ("#" * 201,), {}, "too-large", "201 stitches"),
    ("mosaic", ("#" * 401,), {}, "too-large", "401 letters"),
    ("mosaic", ("#",) * 201, {}, "too-large", "201 rows"),
    ("mosaic", ("#",), {"times": 5}, "times", "5 times"),
    ("mosaic", ("#",), {"times": 0}, "times", "0 times"),
    ("stranded", ("####", "###", "####"), {}, "unequal", "Row 2 is 3 stitches wide"),
    ("stranded", ("#####", "####", "####"), {}, "unequal", "Row 1 is 5 stitches wide"),
    ("stranded", ("####", "###"), {"grows": True}, "narrows", "Row 2 is 3 stitches wide and row 1"),
    ("stranded", ("####", "#######"), {"grows": True}, "grows-fast", "from 4 to 7"),
    ("stranded", ("#x##",), {}, "unknown-mark", "Row 1, column 2: 'x'"),
    ("stranded", ("CC1: #.", "CC1: #x"), {}, "unknown-mark", "Row 2, column 2: 'x'"),
    ("stranded", ("#v",), {}, "unknown-mark", "column 2: 'v'"),
    ("stranded", ("#-",), {}, "unknown-mark", "column 2: '-'"),
    ("slip", ("#-",), {}, "unknown-mark", "column 2: '-'"),
    ("purl", (".v",), {}, "unknown-mark", "column 2: 'v'"),
    ("stranded", ("#x",), {}, "unknown-mark", "colours ('#', '.', 'o')"),
    ("slip", ("#x",), {}, "unknown-mark", "colours ('#', '.', 'o', 'v')"),
    ("mosaic", ("CC7: ##",), {}, "unknown-yarn", "begins with CC7"),
    ("mosaic", ("##", "CC7: ##"), {}, "unknown-yarn", "Row 2 begins with CC7"),
    ("mosaic", ("CC2: ##",), {}, "yarn-not-shown", "begins with CC2"),
    ("stranded", ("CC2: #.",), {}, "yarn-not-shown", "begins with CC2"),
    ("mosaic", ("##.#", ".##."), {}, "not-mosaic", "Row 2, column 3 shows CC1 while MC"),
    ("mosaic", ("#o",), {}, "not-mosaic", "MC in the row before"),
    ("mosaic", ("....", "####.."), {"grows": True}, "not-mosaic", "column 6 shows MC while CC1"),
    (
        "mosaic",
        ("....", "####.."),
        {"grows": True},
        "not-mosaic",
        "the stitch there is a new stitch",
    ),
    ("slip", ("##", "#.v"), {"grows": True}, "two-colours", "Row 2, column 2 shows MC"),
    ("slip", ("CC1: v#.",), {}, "two-colours", "Row 1, column 3 shows MC while CC1"),
    ("stripes", ("##.#",), {}, "two-colours", "Row 1, column 3 shows MC"),
    ("purl", ("-#.",), {}, "two-colours", "Row 1, column 3 shows MC"),
    ("slip", ("##", "vv"), {}, "nothing-worked", "Row 2 "),
    ("slip", ("##", "##v"), {"grows": True}, "slip-made", "Row 2, column 3"),
    ("purl", ("..", "..-"), {"grows": True}, "purl-made", "Row 2, column 3"),
    ("stranded", ("#.", ".#o"), {"grows": True}, "three-colours", "third from column 3"),
    ("slip", ("#v",) * 5, {}, "stretched", "Row 5, column 2"),
    ("slip", ("#v",) * 3, {"times": 2}, "stretched", "Row 3, column 2"),
    ("mosaic", ("#.", "CC1: #.", "CC1: #."), {"times": 2}, "stretched", "Row 3, column 2"),
]


@pytest.mark.parametrize(("kind", "lines", "more", "code", "says"), REFUSED)
def test_what_cannot_be_knitted_is_refused_with_its_place(
    kind: str, lines: tuple[str, ...], more: dict[str, object], code: str, says: str
) -> None:
    chart, said = read_chart(ChartText("dots", ChartKind(kind), LEGEND, lines, **more))  # type: ignore[arg-type]
    assert chart is None
    assert {finding.code for finding in said} == {f"chart.{code}"}
    assert any(says in finding.message for finding in said), said
    for finding in map(kindly, said):
        assert finding.severity is Severity.ERROR
        assert finding.field == "charts.dots.rows"


@pytest.mark.parametrize(
    ("kind", "mark", "means"), [("slip", "v", "a slipped stitch"), ("purl", "-", "a purl stitch")]
)
def test_a_mark_with_a_meaning_of_its_own_is_no_yarn(kind: str, mark: str, means: str) -> None:
    _, said = read_chart(ChartText("dots", ChartKind(kind), {".": "MC", mark: "CC1"}, (".", mark)))
    (finding,) = map(kindly, said)
    assert finding.code == "chart.reserved-mark"
    assert means in finding.message
    other = ChartText("dots", ChartKind.STRANDED, {".": "MC", mark: "CC1"}, ("." + mark,))
    assert read_chart(other)[0] is not None


def test_every_code_in_the_source_is_tested() -> None:
    (room,) = yokefellow.charts.__path__
    sources = "".join(path.read_text() for path in Path(room).glob("*.py"))
    codes = set(re.findall(r'(?:refusal|found)\(\s*(?:text,\s*)?"([a-z.-]+)"', sources))
    assert len(codes) > 20  # snapshot
    tests = "".join(path.read_text() for path in Path(__file__).parent.glob("test_*.py"))
    assert [code for code in codes if f'{code}"' not in tests] == []


def test_a_growing_mosaic_makes_its_new_stitches_in_the_yarn_in_hand() -> None:
    # derived: stitches 3 and 6 are new, by `made_places(4, 6)`
    assert works("mosaic", "....", "#.#..#", "......", grows=True, times=2) == [
        [K, K, K, K],
        [K, K, K, K],
        [K, S, M, S, S, M],
        [K, S, K, S, S, K],
        *[[K] * 6] * 2,
    ]


def test_of_many_faults_of_one_kind_twenty_are_told() -> None:
    assert len(refused("stranded", *["x" * 100] * 100)) == 20  # derived: as the name says


class Unreadable(tuple[str, ...]):
    """Lines that may be counted, and not looked at."""

    def __iter__(self) -> Iterator[str]:
        raise AssertionError("the lines were read")


def test_a_chart_far_too_large_is_refused_before_it_is_read() -> None:
    for lines in (Unreadable(["#."] * 1_000_000), ("#" * 1_000_000,)):
        _, said = read_chart(ChartText("dots", ChartKind.MOSAIC, LEGEND, lines))
        assert [finding.code for finding in said] == ["chart.too-large"]
