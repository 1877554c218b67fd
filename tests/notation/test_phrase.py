"""What the sheet prints for a row, and that it can be read back."""

from __future__ import annotations

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from tests.notation.steps import STEPS
from tests.often import often
from tests.plain_speech import is_phrase
from yokefellow.notation.grammar import NotationError, excess
from yokefellow.notation.phrase import phrase, read_phrase
from yokefellow.notation.write import canonical, write
from yokefellow.rows.model import Feature, Op, Repeat, Row, RowKind, taken

RIB = Repeat((Op("k"), Op("p")), 54)
SPLIT = (
    *(Op("k", 42), Op("hold", 62), Op("CO", 8), Op("pm"), Op("CO", 8)),
    *(Op("k", 84), Op("hold", 62), Op("CO", 8), Op("pm"), Op("CO", 8), Op("k", 42)),
)

# The sentences are common practice, no source.
PRINTED: list[tuple[Row, int, str]] = [
    (Row((Op("k", 142),)), 142, "knit"),
    (Row((Op("p", 142),)), 142, "purl"),
    (Row((Op("k", 100), Op("k", 42))), 142, "knit"),
    # Not the whole round, not one stitch, or not the row's own yarn: exact counts.
    (Row((Op("k", 141),), kind=RowKind.PART), 142, "k141"),
    (Row((Op("k", 71), Op("sm"), Op("k", 71))), 142, "k71, sm, k71"),
    (Row((Op("k", 142, "CC1"),)), 142, "k142 CC1"),
    (Row((RIB,), Feature.EDGE, fabric="rib"), 108, "*k1, p1; rep from * to end"),
    (
        Row((Repeat((Op("k tbl"), Op("p")), 54),), Feature.EDGE, fabric="rib"),
        108,
        "*k1 tbl, p1; rep from * to end",
    ),
    (Row((Repeat((Op("k", 6), Op("M1L")), 18),)), 108, "[k6, M1L] 18 times"),
    (
        Row((Op("CO", 108),), Feature.CAST_ON, fabric="rib"),
        0,
        "cast on 108 sts; join in the round without twisting and pm for BOR",
    ),
    (
        Row((Op("BO", 212),), Feature.BIND_OFF, fabric="rib"),
        212,
        "bind off all 212 sts in rib",
    ),
    (Row((Op("BO", 212),), Feature.BIND_OFF), 212, "bind off all 212 sts"),
    (Row((Op("BO", 8), Op("k", 4)), Feature.BIND_OFF), 12, "BO 8, k4"),
    (Row((Op("BO", 2),), Feature.BIND_OFF), 2, "bind off all 2 sts"),
    (Row((Op("sew", 90),), Feature.BIND_OFF), 90, "sew down all 90 live sts inside"),
    # One stitch, some of the stitches, another yarn or another purpose: exact counts.
    (Row((Op("BO", 1),), Feature.BIND_OFF), 1, "BO 1"),
    (Row((Op("CO", 1),), Feature.CAST_ON), 0, "CO 1"),
    (Row((Op("CO", 2, "CC1"),), Feature.CAST_ON), 0, "CO 2 CC1"),
    (Row((Op("CO", 9),)), 0, "CO 9"),
    (Row((Op("CO", 9),), Feature.CAST_ON), 4, "CO 9"),
    (Row((Op("PU", 9),), Feature.CAST_ON), 0, "pick up and k9"),
    (Row((Op("sew", 5),), Feature.BIND_OFF, RowKind.PART), 9, "sew down 5 live sts"),
    (Row((Op("sew", 9),)), 9, "sew down 9 live sts"),
    (
        Row(SPLIT, Feature.SPLIT),
        292,
        "k42, place 62 sts on waste yarn for the first sleeve, CO 8, pm, CO 8, k84, "
        "place 62 sts on waste yarn for the second sleeve, CO 8, pm, CO 8, k42",
    ),
    (
        Row((Op("rm"), Op("k", 50)), Feature.MOVE_BOR, RowKind.PART),
        200,
        "rm, k50 to the next marker; this is BOR from now on",
    ),
    (Row((Op("DS"), Op("k", 13)), Feature.SHORT_ROW, RowKind.PART), 108, "DS, k13 to BOR"),
    (
        Row((Op("k", 38), Op("turn")), Feature.SHORT_ROW, RowKind.RIGHT_SIDE),
        108,
        "k38, turn",
    ),
    (
        Row((Op("PU", 9), Op("k", 62), Op("PU", 9)), Feature.PICK_UP),
        62,
        "from the centre of the underarm: pick up and k9, k62, pick up and k9; pm for BOR",
    ),
    # Rows worked flat are turned at their end without a word.
    (Row((Op("p", 74),), kind=RowKind.FLAT_WRONG), 74, "purl"),
    (Row((Op("k", 74),), kind=RowKind.FLAT_RIGHT), 74, "knit"),
    (
        Row((Op("CO", 74),), Feature.CAST_ON, RowKind.FLAT_RIGHT),
        0,
        "cast on 74 sts; turn without joining",
    ),
    (
        Row((Op("k", 80), Op("CO", 16)), Feature.JOIN, RowKind.FLAT_RIGHT),
        80,
        "k80, CO 16; do not turn: join in the round",
    ),
    (
        Row((Op("k", 80),), Feature.JOIN, RowKind.FLAT_RIGHT),
        80,
        "k80; do not turn: join in the round",
    ),
    (
        Row((Op("k", 52),), Feature.JOIN, RowKind.PART),
        96,
        "k52 to the centre back; pm for BOR",
    ),
    (
        Row((Op("CO", 100),), Feature.PROVISIONAL, RowKind.PART),
        0,
        "provisionally cast on 100 sts; join in the round without twisting and pm for BOR",
    ),
    (
        Row((Op("PU", 112),), Feature.NECK_EDGE),
        0,
        "along the neck edge: pick up and k112; pm for BOR",
    ),
]


@pytest.mark.parametrize(("row", "before", "text"), PRINTED, ids=[text for *_, text in PRINTED])
def test_each_row_is_printed_so_and_read_back(row: Row, before: int, text: str) -> None:
    assert phrase(row, before) == text
    assert read_phrase(text, before) == canonical(row.steps)


ROWS = st.builds(
    Row,
    steps=STEPS,
    feature=st.sampled_from(Feature),
    kind=st.sampled_from(RowKind),
    fabric=st.sampled_from(["plain", "rib"]),
)


@often(500)
@given(ROWS, st.integers(min_value=0, max_value=3))
@example(Row((Op("k", 1),)), 0)
@example(Row((Op("BO", 1),), Feature.BIND_OFF), 0)
@example(Row((Op("CO", 1),), Feature.CAST_ON), 0)
@example(Row((Repeat((Op("hold", 3), Op("k")), 2),), Feature.SPLIT), 0)
def test_what_is_printed_can_be_read_back(row: Row, over: int) -> None:
    plain = canonical(row.steps)
    assume(not excess(plain))
    before = taken(plain) + over
    assert read_phrase(phrase(row, before), before) == plain


@pytest.mark.parametrize("kind", RowKind)
@pytest.mark.parametrize(
    "steps", [(Op("k", 6),), (Op("p", 6),), (Repeat((Op("k"), Op("p")), 3),), (Op("BO", 6),)]
)
@pytest.mark.parametrize("before", [6, 7])
def test_words_for_all_stitches_are_used_for_all_stitches_only(
    steps: tuple[Op | Repeat, ...], kind: RowKind, before: int
) -> None:
    text = phrase(Row(steps, Feature.BIND_OFF, kind), before)
    if before == 7:
        assert not any(word in text for word in ("knit", "purl", "all", "end"))
    assert read_phrase(text, before) == steps


# derived: the place of the first character that does not fit, counted
@pytest.mark.parametrize(
    ("text", "before", "position"),
    [
        ("knit", 0, 0),
        ("bind off all 212 sts", 210, 13),
        ("sew down all 90 live sts inside", 91, 13),
        ("bind off all 0 sts", 0, 0),
        ("*k1, p1; rep from * to end", 9, 1),
        ("*k1, p1; rep from * to end", 0, 1),
        ("*M1L; rep from * to end", 8, 1),
        ("*k1, oops; rep from * to end", 8, 5),
        ("from the centre of the underarm: oops", 8, 33),
        ("knit to the end", 8, 0),
        ("DS, oops to BOR", 8, 4),
    ],
)
def test_a_phrase_that_does_not_fit_says_where(text: str, before: int, position: int) -> None:
    with pytest.raises(NotationError) as refused:
        read_phrase(text, before)
    assert refused.value.position == position
    assert text.startswith(refused.value.text)
    assert is_phrase(refused.value.expected)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("bind off all 9 sts", "8 sts to bind off"),
        ("sew down all 9 live sts inside", "8 sts to sew down"),
    ],
)
def test_the_stitches_there_are_to_end_with_are_named(text: str, expected: str) -> None:
    with pytest.raises(NotationError, match=expected):
        read_phrase(text, 8)


# derived: as many repeats as go into the stitches
@pytest.mark.parametrize(
    ("text", "before", "exact"),
    [
        ("*k1, p1; rep from * to end", 8, "[k1, p1] 4 times"),
        ("*k1, p1; rep from * to end", 2, "k1, p1"),
        ("*k1; rep from * to end", 5, "k5"),
        ("*k1; rep from * to end", 1, "k1"),
    ],
)
def test_to_the_end_is_as_often_as_the_stitches_hold(text: str, before: int, exact: str) -> None:
    assert write(read_phrase(text, before)) == exact


PIECES = st.sampled_from(
    [
        *("knit", "cast on ", "8", " sts", "; pm for BOR", " to BOR", "*", "k1", ", ", "p1"),
        *("; rep from * to end", "from the centre of the underarm: ", "bind off all ", " in rib"),
        *("; join in the round without twisting and pm for BOR", "place 5 sts on waste yarn"),
        *("; do not turn: join in the round", "along the neck edge: ", "; turn without joining"),
    ]
)


@often(400)
@given(st.one_of(st.text(), st.lists(PIECES, max_size=12).map("".join)), st.integers(0, 20))
def test_any_text_is_read_or_refused(text: str, before: int) -> None:
    position = 0
    try:
        read_phrase(text, before)
    except NotationError as refused:
        position = refused.position
    assert 0 <= position <= len(text)
