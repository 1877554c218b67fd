"""The list of abbreviations at the end of the sheet."""

from __future__ import annotations

import pytest

from yokefellow.notation.abbreviations import ABBREVIATIONS, abbreviations_used
from yokefellow.rows.model import STITCHES, Feature, Op, Repeat, Row, RowKind


def _codes(*rows: Row) -> list[str]:
    return [entry.code for entry in abbreviations_used(rows)]


def test_only_what_the_rows_use_is_listed() -> None:
    assert _codes(Row((Op("k", 20),))) == ["BOR", "k", "rnd(s)", "st(s)"]
    assert _codes(Row((Repeat((Op("k"), Op("p")), 10),))) == [
        *("BOR", "k", "p", "rep", "rnd(s)", "st(s)", "*…; rep from *")
    ]
    assert _codes(Row((Repeat((Op("k"), Op("M1L")), 10),))) == [
        *("BOR", "k", "M1L", "rnd(s)", "st(s)", "[ ] or ( ) … times")
    ]


def test_short_rows_bring_their_sides_and_yarn_marks_their_colours() -> None:
    rows = (
        Row((Op("k", 8), Op("turn")), Feature.SHORT_ROW, RowKind.RIGHT_SIDE),
        Row((Op("DS"), Op("p", 15, "CC2"), Op("turn")), Feature.SHORT_ROW, RowKind.WRONG_SIDE),
    )
    codes = _codes(*rows)
    assert {"RS", "WS", "DS", "turn", "CC", "p"} <= set(codes)
    assert not {"MC", "w&t", "k DS", "rep"} & set(codes)


def test_a_cast_on_sentence_needs_the_marker_explained() -> None:
    row = Row((Op("CO", 108),), Feature.CAST_ON)
    assert {"CO", "pm", "BOR"} <= set(_codes(row))


def test_the_order_of_the_list_does_not_depend_on_the_order_of_the_rows() -> None:
    rows = [Row((Op(code),), kind=RowKind.PART) for code in sorted(STITCHES)]
    assert _codes(*rows) == _codes(*reversed(rows))


@pytest.mark.parametrize("code", sorted(STITCHES))
def test_every_kind_of_stitch_is_explained(code: str) -> None:
    always = set(_codes())
    assert set(_codes(Row((Op(code),), kind=RowKind.PART))) - always


def test_no_entry_is_listed_twice_or_left_empty() -> None:
    codes = [entry.code for entry in ABBREVIATIONS]
    assert len(codes) == len(set(codes))
    for entry in ABBREVIATIONS:
        assert entry.code
        assert entry.meaning
        assert entry.how.endswith(".")


def test_the_words_come_in_the_order_of_a_dictionary() -> None:
    words = [entry.code for entry in ABBREVIATIONS if entry.code[0].isalpha()]
    assert words == sorted(words, key=str.casefold)


# published: Craft Yarn Council, Knit abbreviations (master list), as printed
# in pattern publishers' lists: meanings of these codes.
MEANINGS = {
    "BO": "bind off",
    "CO": "cast on",
    "k": "knit",
    "p": "purl",
    "k2tog": "knit 2 together",
    "p2tog": "purl 2 together",
    "ssk": "slip, slip, knit",
    "pm": "place marker",
    "sm": "slip marker",
    "rnd(s)": "round(s)",
    "RS": "right side",
    "WS": "wrong side",
    "w&t": "wrap and turn",
    "MC": "main colour",
    "CC": "contrasting colour",
    "rep": "repeat",
}


def test_meanings_are_those_of_the_trade() -> None:
    ours = {entry.code: entry.meaning for entry in ABBREVIATIONS}
    assert {code: ours[code] for code in MEANINGS} == MEANINGS


def test_the_two_lifted_increases_mirror_each_other() -> None:
    # published: Craft Yarn Council master list: M1L lifts the bar from front
    # to back and knits the back loop, M1R from back to front and the front loop.
    how = {entry.code: entry.how for entry in ABBREVIATIONS}
    assert "from front to back" in how["M1L"]
    assert "back loop" in how["M1L"]
    assert "from back to front" in how["M1R"]
    assert "front loop" in how["M1R"]
