"""The independent knitter itself: right sweaters come off the needles, planted mistakes do not."""

from __future__ import annotations

import ast
import re
from dataclasses import replace
from pathlib import Path

import pytest

from tests.knitter import Kind, Mistake, Part, knit, knit_page
from tests.knitter.page import read_page
from tests.knitter.printed import Line
from tests.knitter.small_sweaters import (
    GERMAN,
    SPLIT,
    WRAPPED,
    changed,
    printed,
    rnd,
    sweater,
    tube,
)

SHORT_ROWS = {"german": GERMAN, "wrapped": WRAPPED}


@pytest.mark.parametrize("short_rows", SHORT_ROWS.values(), ids=SHORT_ROWS)
def test_a_right_sweater_comes_off_the_needles(short_rows: tuple[Line, ...]) -> None:
    knitted = knit(sweater(short_rows))
    # derived: counted along the rows of small_sweaters.py.
    assert knitted.rows == 3 + 6 + 5 + 2 + 6 + 3 + 2 * (5 + 3)
    assert knitted.held == (8, 8)
    assert knitted.underarms == (4, 4)
    assert knitted.picked_up == 2 * 6
    assert knitted.bound_off == 32 + 2 * 10
    assert knitted.counts["yoke", ""] == (36, 36, 36, 42, 42)
    assert knitted.counts["sleeve", "right"] == (14, 12, 12, 12, 10)
    assert knitted.counts["cuff", "left"] == (10, 10, 0)


def test_loops_of_yarn_are_counted_stitch_by_stitch() -> None:
    # derived: 10 cast on, 5 rounds of 10, 10 bound off.
    assert knit(tube(10, *[("knit", 10)] * 5)).loops == 70
    # derived: 6 cast on; 3 worked and 3 slipped; k2tog 3 times; 3 bound off.
    assert knit(tube(6, ("k3, sl3 wyib", 6), ("k2tog 3 times", 3))).loops == 6 + 3 + 3 + 3


def test_a_round_may_begin_with_a_slipped_stitch() -> None:
    # derived: 6 cast on; 3 slipped and 3 worked; k2tog 3 times; 3 bound off.
    assert knit(tube(6, ("sl3 wyib, k3", 6), ("k2tog 3 times", 3))).loops == 6 + 3 + 3 + 3


# Even spreading: the counts are those of the published answers.
@pytest.mark.parametrize(
    ("start", "row", "end"),
    [
        # published: Woolpack Yarn, article on increasing evenly: 112 + 16, every 7.
        (112, "[k7, M1L] 16 times", 128),
        # published: Knitting with Karma, mitten: 40 to 48 by 8 increases, 5 sts between.
        (40, "[k5, M1L] 8 times", 48),
        # derived: 48 + 6 in 6 groups of 8; 48 − 6, each group with the 2 sts it eats.
        (48, "[k8, M1L] 6 times", 54),
        (48, "[k6, k2tog] 6 times", 42),
        # derived: 100 + 10; 100 + 11 as 9 × 10 + 2 × 5; 100 + 16 as 12 × 6 + 4 × 7.
        (100, "[k10, M1L] 10 times", 110),
        (100, "[k10, M1L] 9 times, [k5, M1L] 2 times", 111),
        (100, "*[k6, M1L] 3 times, k7, M1L; rep from * 3 more times", 116),
        (100, "*[k6, M1L] 3 times, k7, M1L; rep from * 4 times", 116),
        # derived: 140 + 21 as 7 × (7, 7, 6).
        (140, "*[k7, M1L] 2 times, k6, M1L; rep from * 6 more times", 161),
        # published: Zimmermann, Knitting Around (1989), K = 200, yoke 268, 201, 134:
        # derived: every 3rd and 4th, every 2nd and 3rd stitch eaten.
        (268, "[k2, k2tog] 67 times", 201),
        (201, "[k1, k2tog] 67 times", 134),
        (134, "[k2, M1L] 67 times", 201),
    ],
)
def test_even_spreading_meets_its_count(start: int, row: str, end: int) -> None:
    assert knit(tube(start, (row, end))).counts["tube", ""] == (start, end, 0)
    for wrong in (start - 1, start + 1):
        with pytest.raises(Mistake) as found:
            knit(tube(wrong, (row, end)))
        assert found.value.kind in (Kind.TOO_FEW, Kind.LEFT_OVER)


PLANTED: list[tuple[str, int, str, Kind]] = [
    ("neckband", 1, "cast on 23 sts; join in the round without twisting", Kind.UNREADABLE),
    ("neckband", 2, "*k2, p3; rep from * to end", Kind.TOO_FEW),
    ("neckband", 2, "*k1, k4tog; rep from * to end", Kind.UNREADABLE),
    ("back_neck", 1, "k8", Kind.TURN),
    ("back_neck", 1, "k8, turn, k1", Kind.TURN),
    ("back_neck", 1, "k8, w&t", Kind.GAP),
    ("back_neck", 2, "p16, turn", Kind.GAP),
    ("back_neck", 3, "DS, k15, turn", Kind.GAP),
    ("back_neck", 4, "DS, DS, p8, turn", Kind.GAP),
    ("back_neck", 4, "DS 2 times, p8, turn", Kind.GAP),
    ("back_neck", 5, "DS, k3 to BOR", Kind.LEFT_OVER),
    ("back_neck", 5, "DS, k5", Kind.TOO_FEW),
    ("back_neck", 6, "knit", Kind.GAP),
    ("back_neck", 6, "k5, k DS, k1, k DS, k8, k DS, k2, k DS, k4", Kind.GAP),
    ("back_neck", 6, "k4, k DS, k2, k DS, k8, k DS, k2, k DS, k DS, k3", Kind.GAP),
    ("back_neck", 6, "k4, k wrap, k2, k DS, k8, k DS, k2, k DS, k4", Kind.GAP),
    ("yoke", 1, "[k1, M1L, k1] 13 times", Kind.TOO_FEW),
    ("yoke", 1, "[k1, M1L, k1] 11 times", Kind.LEFT_OVER),
    ("yoke", 1, "[k1, M1L 2 times, k3] 6 times", Kind.INCREASE),
    ("yoke", 1, "M1L, k24, M1L", Kind.INCREASE),
    ("yoke", 2, "k36, turn", Kind.TURN),
    ("yoke", 2, "sm, k36", Kind.MARKER),
    ("yoke", 2, "DS, k35", Kind.GAP),
    ("yoke", 2, "k DS, k35", Kind.GAP),
    ("yoke", 2, "pick up and k2, k36", Kind.PICK_UP),
    ("yoke", 2, "k37", Kind.TOO_FEW),
    ("yoke", 2, "k35", Kind.LEFT_OVER),
    ("yoke", 2, "k34, k2tog", Kind.COUNT),
    ("yoke", 4, "*[k5, M1L] 2 times, k8, M1L; rep from * 2 more times", Kind.TOO_FEW),
    ("yoke", 4, "*[k5, M1L] 2 times, k8, M1L; rep from * 2 times more", Kind.UNREADABLE),
    ("split", 1, SPLIT.replace("CO 2, pm, CO 2, k13", "CO 4, k13"), Kind.LEFT_OVER),
    ("split", 1, SPLIT.replace("first sleeve, CO 2", "first sleeve, M1L, CO 2"), Kind.INCREASE),
    ("split", 1, SPLIT.replace("k13, place 8", "k14, place 7"), Kind.COUNT),
    ("split", 2, "rm, k7 to the next marker; this is BOR from now on", Kind.LEFT_OVER),
    ("split", 2, "k8 to the next marker; this is BOR from now on", Kind.LEFT_OVER),
    ("split", 2, "rm, k8 to BOR", Kind.MARKER),
    ("body", 3, "k1, ssk, k11, k2tog, sm, k2, ssk, k11, k2tog, k1", Kind.MARKER),
    ("body", 3, "k1, ssk, k10, k2tog, k2, sm, k2, ssk, k10, k2tog, k1, sm", Kind.MARKER),
    ("body", 3, "k2tog 8 times, k1, k2tog, rm, k15", Kind.MARKER),
    ("hem", 3, "bind off all 30 sts in rib", Kind.LEFT_OVER),
    ("hem", 3, "BO 30", Kind.LEFT_OVER),
    ("hem", 3, "knit", Kind.COUNT),
    ("sleeve", 1, "from the centre of the underarm: k8; pm for BOR", Kind.COUNT),
    ("sleeve", 2, "k2, k2tog, k6, k2", Kind.LEFT_OVER),
    ("cuff", 3, "", Kind.UNREADABLE),
]


@pytest.mark.parametrize(("key", "first", "what", "kind"), PLANTED)
def test_a_planted_mistake_is_caught(key: str, first: int, what: str, kind: Kind) -> None:
    wrong = changed(sweater(), key, first, what=what)
    with pytest.raises(Mistake) as found:
        knit(wrong)
    assert found.value.kind is kind, found.value


def test_two_stitches_are_not_worked_together_across_a_marker() -> None:
    over_the_side = changed(sweater(), "body", 6, what="k16, k2tog, k14, k2tog")
    knit(over_the_side)
    with pytest.raises(Mistake) as found:
        knit(changed(over_the_side, "body", 5, what="knit"))
    assert found.value.kind is Kind.MARKER


@pytest.mark.parametrize(
    ("first", "what"),
    [(2, "DS, p15, w&t"), (3, "k7, w&t"), (6, "knit"), (6, "k6, k wrap, k17")],
)
def test_a_wrap_is_closed_once_and_only_once(first: int, what: str) -> None:
    with pytest.raises(Mistake) as found:
        knit(changed(sweater(WRAPPED), "back_neck", first, what=what))
    assert found.value.kind is Kind.GAP


_NUMBER = re.compile(r"(?<![M0-9])[0-9]+(?!tog|[0-9])")


def _every_number() -> list[tuple[str, int, str]]:
    wrong = []
    for part in (*sweater(), replace(sweater(WRAPPED)[1], key="wrapped")):
        for line in part.lines:
            if line.what.endswith("to end"):
                continue  # another rib may divide the round as well
            for number in _NUMBER.finditer(line.what):
                for off in (-1, 1):
                    other = str(int(number[0]) + off)
                    text = line.what[: number.start()] + other + line.what[number.end() :]
                    wrong.append((part.key, line.first, text))
    return wrong


@pytest.mark.parametrize(("key", "first", "what"), _every_number())
def test_no_number_of_any_row_can_be_off_by_one(key: str, first: int, what: str) -> None:
    right = sweater(WRAPPED if key == "wrapped" else GERMAN)
    with pytest.raises(Mistake):
        knit(changed(right, "back_neck" if key == "wrapped" else key, first, what=what))


def _every_line() -> list[tuple[str, int, int]]:
    return [(part.key, line.first, line.count) for part in sweater() for line in part.lines]


@pytest.mark.parametrize(("key", "first", "count"), _every_line())
def test_no_printed_count_can_be_off_by_one(key: str, first: int, count: int) -> None:
    for wrong in (count - 1, count + 1):
        with pytest.raises(Mistake) as found:
            knit(changed(sweater(), key, first, count=wrong))
        assert found.value.kind is Kind.COUNT
        assert key in found.value.where


@pytest.mark.parametrize("kind", ["RS", "WS", "part", "rnd", "row"])
@pytest.mark.parametrize(("first", "right"), [(1, "RS"), (2, "WS"), (5, "part"), (6, "rnd")])
def test_a_row_for_the_other_side_is_caught(first: int, right: str, kind: str) -> None:
    parts = changed(sweater(), "back_neck", first, kind=kind)
    if kind == right or (first, kind) == (6, "part"):  # a part from BOR to BOR is a round
        knit(parts)
        return
    with pytest.raises(Mistake) as found:
        knit(parts)
    assert found.value.kind in (Kind.SIDE, Kind.TURN, Kind.UNREADABLE)


@pytest.mark.parametrize("key", [part.key for part in sweater()])
def test_no_section_can_be_left_out_or_start_otherwise(key: str) -> None:
    rest = [part for part in sweater() if part.key != key]
    if key == "back_neck":  # a sweater without short rows is a sweater
        knit(rest)
    else:
        with pytest.raises(Mistake):
            knit(rest)
    for off in (-1, 1):
        with pytest.raises(Mistake) as found:
            knit(
                replace(part, start=part.start + off) if part.key == key else part
                for part in sweater()
            )
        assert found.value.kind is Kind.START


@pytest.mark.parametrize(
    ("copies", "kind"),
    [(("left",), Kind.HELD), (("left", "right", "third"), Kind.HELD), ((), Kind.START)],
)
def test_each_held_sleeve_is_worked_once(copies: tuple[str, ...], kind: Kind) -> None:
    wrong = [replace(part, copies=copies if part.copies else ()) for part in sweater()]
    with pytest.raises(Mistake) as found:
        knit(wrong)
    assert found.value.kind is kind


def test_sleeves_may_be_worked_before_the_body() -> None:
    parts = {part.key: part for part in sweater()}
    order = ("neckband", "back_neck", "yoke", "split", "sleeve", "cuff", "body", "hem")
    assert knit(parts[key] for key in order).bound_off == 52  # derived: 32 + 2 × 10


def test_what_is_not_bound_off_is_caught() -> None:
    parts = sweater()
    with pytest.raises(Mistake) as body:
        knit(part for part in parts[:5])
    assert body.value.kind is Kind.BIND_OFF
    with pytest.raises(Mistake) as sleeve:
        knit(parts[:-1])
    assert sleeve.value.kind is Kind.BIND_OFF
    with pytest.raises(Mistake) as forgotten:
        knit(parts[:6])
    assert forgotten.value.kind is Kind.HELD


@pytest.mark.parametrize(("first", "last"), [(3, 4), (1, 2), (2, 1), (2, 4)])
def test_rows_are_numbered_without_a_gap(first: int, last: int) -> None:
    lines = (rnd(1, "CO 4", 4), rnd(first, "knit", 4, last=last), rnd(4, "BO 4", 0))
    with pytest.raises(Mistake) as found:
        knit((Part("tube", 0, lines),))
    assert found.value.kind is Kind.ROW_NUMBERS


@pytest.mark.parametrize(
    "what",
    [
        *("", ",", "k5,", ",k5", "k5,,k5", "[k5", "k5]", "[] 2 times", "[k5) 2 times", "(k5) 2"),
        *("*k5", "*k5; rep 2 times", "*k5; rep from *", "k5 k5", "k0", "k999999", "knit 5", "K5"),
        *("[k5, ] 2 times", "*k5; rep from * 0 times", "[k5] 2 times k5", "place 5 sts", "M1"),
    ],
)
def test_an_unreadable_row_is_a_mistake_not_a_crash(what: str) -> None:
    with pytest.raises(Mistake) as found:
        knit(tube(10, (what, 10)))
    assert found.value.kind is Kind.UNREADABLE


@pytest.mark.parametrize("what", ["*CO 1; rep from * to end", "*pm; rep from * to end"])
def test_a_repeat_that_never_ends_is_given_up(what: str) -> None:
    with pytest.raises(Mistake) as found:
        knit(tube(10, (what, 10)))
    assert found.value.kind is Kind.TOO_FEW


@pytest.mark.parametrize("short_rows", SHORT_ROWS.values(), ids=SHORT_ROWS)
def test_a_page_is_read_as_it_is_printed(short_rows: tuple[Line, ...]) -> None:
    parts = sweater(short_rows)
    assert read_page(printed(parts)) == parts
    assert knit_page(printed(parts)) == knit(parts)


def test_markup_inside_a_line_does_not_change_its_words() -> None:
    page = printed(tube(6, ("k6", 6), ("BO 2, k4", 4)))
    page = page.replace(">k6<", "><b>k</b><wbr>6\n<!-- k7 --><br/><")
    page = page.replace(">BO 2, k4<", ">BO\u00a0<em class='count'>2</em>,&nbsp;k\u200b4<")
    page = page.replace('<span class="count">4</span>', '<span class="n count">4 sts</span>')
    (part,) = read_page(page)
    assert [line.what for line in part.lines] == ["CO 6", "k6", "BO 2, k4", "BO 4"]
    assert [line.count for line in part.lines] == [6, 6, 4, 0]  # derived: as printed


def test_words_outside_the_lines_are_not_knitted() -> None:
    page = printed(tube(6))
    noise = '<p><span class="what">k99</span> <span class="count">99</span></p>'
    assert read_page(page.replace("<h2>", noise + "<h2>")) == read_page(noise + page)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('class="what"', 'class="that"'),
        ('class="count"', 'class="what"'),
        ('data-section="tube"', 'data-section="yoke"'),
        ('data-first="1"', ""),
        ('data-last="1"', 'data-last="x"'),
        ('data-start="0"', ""),
        ('class="rounds"', ""),
        ('<span class="count">6', '<span class="count">six'),
    ],
)
def test_a_page_that_lacks_a_mark_is_refused(old: str, new: str) -> None:
    page = printed(tube(6))
    assert old in page
    with pytest.raises(Mistake) as found:
        knit_page(page.replace(old, new, 1))
    assert found.value.kind is Kind.UNREADABLE


def test_the_knitter_does_not_know_the_program() -> None:
    for file in Path(__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            if isinstance(node, ast.ImportFrom):
                names = [node.module or ""]
            assert not any(name.split(".")[0] == "yokefellow" for name in names), file.name
