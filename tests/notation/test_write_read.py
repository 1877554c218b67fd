"""The written form: what it looks like, and that it says exactly what the row does."""

from __future__ import annotations

import re
from itertools import groupby

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from tests.notation.steps import STEPS
from tests.often import often
from tests.plain_speech import is_phrase, is_sentence, shouted
from yokefellow.notation.grammar import DEEPEST, LARGEST, UNMARKED, NotationError, excess
from yokefellow.notation.read import read, read_between
from yokefellow.notation.write import canonical, write
from yokefellow.rows.model import STITCHES, Op, Repeat, Step, flat_ops, made, taken, worked

# The forms are common practice, in the abbreviations of the Craft Yarn
# Council's master list ("Knit abbreviations"); DS, the wording of stitches
# that rest, and "in all" are common practice, no source.
WRITTEN: list[tuple[tuple[Step, ...], str]] = [
    ((Op("k", 5),), "k5"),
    ((Op("p", 3),), "p3"),
    ((Op("k tbl", 1),), "k1 tbl"),
    ((Op("M1L"),), "M1L"),
    ((Op("M1L", 2),), "M1L 2 times"),
    ((Op("k2tog", 3), Op("ssk")), "k2tog 3 times, ssk"),
    ((Op("k", 3, "MC"), Op("sl wyib", 1)), "k3 MC, sl1 wyib"),
    ((Op("k2tog", 2, "CC1"),), "k2tog CC1 2 times"),
    ((Op("sl wyif", 2),), "sl2 wyif"),
    ((Op("DS"), Op("p", 75), Op("turn")), "DS, p75, turn"),
    ((Op("k", 38), Op("w&t")), "k38, w&t"),
    ((Op("k", 38), Op("k wrap")), "k38, k wrap"),
    (
        (Op("k", 14), Op("k DS"), Repeat((Op("k", 3), Op("k DS")), 3), Op("k", 81)),
        "k14, k DS, [k3, k DS] 3 times, k81",
    ),
    ((Op("CO", 108),), "CO 108"),
    ((Op("BO", 212),), "BO 212"),
    ((Op("pm"), Op("sm"), Op("rm")), "pm, sm, rm"),
    ((Op("hold", 62), Op("hold", 1), Op("k", 1)), "place 63 sts on waste yarn, k1"),
    ((Op("hold", 1),), "place 1 st on waste yarn"),
    ((Op("PU", 9), Op("k", 62), Op("PU", 9)), "pick up and k9, k62, pick up and k9"),
    ((Repeat((Op("k", 5), Op("M1L")), 24),), "[k5, M1L] 24 times"),
    # Deeper, and two nests in one row: brackets in brackets, and no star.
    (
        (
            Repeat(
                (Op("p"), Repeat((Op("k"), Repeat((Op("p"), Op("ssk"), Op("k")), 2)), 3)),
                4,
            ),
        ),
        "*p1, [k1, (p1, ssk, k1) 2 times] 3 times; rep from * 3 more times",
    ),
    (
        (
            Repeat((Op("p"), Repeat((Op("k"), Op("M1L")), 2)), 3),
            Repeat((Op("p"), Repeat((Op("k"), Op("M1R")), 2)), 3),
        ),
        "[p1, (k1, M1L) 2 times] 3 times, [p1, (k1, M1R) 2 times] 3 times",
    ),
]


@pytest.mark.parametrize(("steps", "text"), WRITTEN, ids=[text for _, text in WRITTEN])
def test_each_form_is_written_so_and_read_back(steps: tuple[Step, ...], text: str) -> None:
    assert write(steps) == text
    assert read(text) == canonical(steps)


@pytest.mark.parametrize("code", sorted(STITCHES))
@pytest.mark.parametrize("times", [1, 2, LARGEST])
def test_every_kind_of_stitch_can_be_written(code: str, times: int) -> None:
    assert read(write((Op(code, times),))) == (Op(code, times),)


# derived: 100 sts with 16 increases, 6 sts before 12 of them and 7 before 4,
# 12 × 6 + 4 × 7 = 100; the remainder is spread, as handbooks do.
HUNDRED_PLUS_SIXTEEN = "*[k6, M1L] 3 times, k7, M1L; rep from * 3 more times"


def test_a_nested_repeat_has_a_star_and_says_in_all() -> None:
    inner = Repeat((Op("k", 6), Op("M1L")), 3)
    steps = (Repeat((inner, Op("k", 7), Op("M1L")), 4),)
    assert write(steps) == HUNDRED_PLUS_SIXTEEN
    assert taken(steps) == 100  # derived: above
    assert made(steps) == 116  # derived: 100 + 16


def test_rep_from_star_means_in_all_with_or_without_the_words() -> None:
    assert read(HUNDRED_PLUS_SIXTEEN.removesuffix(" in all")) == read(HUNDRED_PLUS_SIXTEEN)


def test_steps_may_stand_beside_the_star() -> None:
    text = "k2, *[k6, M1L] 3 times, k7; rep from * once more, k3, [p1, k1] 5 times"
    assert write(read(text)) == text


# derived: each repeat takes and makes what its figures say.
@pytest.mark.parametrize(
    ("text", "before", "after"),
    [
        ("[k8, M1L] 6 times", 48, 54),  # derived: 48 + 6 in 6 groups of 8
        ("[k6, k2tog] 6 times", 48, 42),  # derived: 48 − 6, each group holds the 2 sts it eats
        ("[k10, M1L] 10 times", 100, 110),  # derived: every 10th
        ("[k10, M1L] 9 times, [k5, M1L] 2 times", 100, 111),  # derived: 9 × 10 + 2 × 5
        ("[k2, k2tog] 67 times", 268, 201),  # derived: 67 groups of 4
    ],
)
def test_the_counts_follow_from_the_text(text: str, before: int, after: int) -> None:
    steps = read(text)
    assert (taken(steps), made(steps)) == (before, after)


@often(600)
@given(STEPS)
@example((Op("pm", 2, "MC"), Op("pm", 1)))
@example((Repeat((Repeat((Op("k", 1), Op("p", 1)), 2),), 3),))
def test_reading_is_the_exact_inverse_of_writing(steps: tuple[Step, ...]) -> None:
    plain = canonical(steps)
    assume(not excess(plain))
    text = write(plain)
    assert "\n" not in text
    assert read(text) == plain
    assert write(steps) == text


@often(300)
@given(STEPS)
def test_the_canonical_form_is_the_same_knitting(steps: tuple[Step, ...]) -> None:
    plain = canonical(steps)
    assert _stitches(plain) == _stitches(steps)
    assert (taken(plain), made(plain), worked(plain)) == (taken(steps), made(steps), worked(steps))
    assert canonical(plain) == plain
    assert _is_plain(plain)


def _stitches(steps: tuple[Step, ...]) -> list[tuple[tuple[str, str], int]]:
    marked = [
        ((op.code, "" if op.code in UNMARKED else op.yarn), op.times) for op in flat_ops(steps)
    ]
    runs = groupby(marked, key=lambda op: op[0])
    return [(kind, sum(times for _, times in run)) for kind, run in runs]


def _is_plain(steps: tuple[Step, ...]) -> bool:
    for step, following in zip(steps, (*steps[1:], None), strict=True):
        if isinstance(step, Repeat):
            if step.times < 2 or len(step.steps) < 2 or not _is_plain(step.steps):
                return False
        elif isinstance(following, Op) and (step.code, step.yarn) == (
            following.code,
            following.yarn,
        ):
            return False
    return True


# derived: the place of the first character that cannot be read, counted
@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("", 0),
        ("   ", 3),
        ("k", 0),
        ("k0", 1),
        ("k05", 1),
        ("k10000", 1),
        ("k" + "9" * 5000, 1),
        ("k5 k5", 3),
        ("k5,", 3),
        ("k5, , k3", 4),
        ("k22tog", 0),
        ("M1L twice", 4),
        ("k5 2 times", 3),
        ("[k5, M1L] times", 9),
        ("[k5, M1L", 8),
        ("[k5, M1L) 3 times", 8),
        ("[] 3 times", 1),
        ("[k5] 0 times", 5),
        ("k5] 3 times", 2),
        ("*k5", 3),
        ("*k5; rep from * to end", 3),
        ("[*k5; rep from * 2 times, p1] 2 times", 1),
        ("*k5, p1; rep from * 2 times, *k4, p1; rep from * 2 times", 29),
        ("k5 mc", 3),
        ("k5 RS", 3),
        ("k5 DS", 3),
        ("pm MC", 3),
        ("K5", 0),
        ("k٣", 0),
        ("place 5 sts on waste yarn for the third sleeve", 26),
        ("k5 for the first sleeve", 3),
    ],
)
def test_a_row_that_cannot_be_read_says_where(text: str, position: int) -> None:
    with pytest.raises(NotationError) as refused:
        read(text)
    assert refused.value.position == position
    assert refused.value.text == text
    assert is_phrase(refused.value.expected)
    assert f"character {position + 1} " in str(refused.value)
    assert f"expected {refused.value.expected}, found " in str(refused.value)


def test_what_was_found_is_quoted_by_its_beginning_or_is_the_end() -> None:
    told = str(_refused("k5, oops, and so on and on"))
    # derived: the first twelve characters from the one that does not fit
    assert told.endswith("found 'oops, and so'.")
    assert str(_refused("k5,")).endswith("found the end.")
    assert is_sentence(str(_refused("k5,")))


@pytest.mark.parametrize(
    ("text", "example"),
    [("k5, oops", "k5, M1L or k2tog"), ("[k5, M1L]", "' 4 times'"), ("*k5", "'; rep from * ")],
)
def test_a_refusal_gives_an_example(text: str, example: str) -> None:
    assert example in _refused(text).expected


def test_the_example_in_a_refusal_can_be_read() -> None:
    for stitch in ("k5", "M1L", "k2tog"):
        assert stitch in _refused("oops").expected
        assert write(read(stitch)) == stitch


def _refused(text: str) -> NotationError:
    with pytest.raises(NotationError) as refused:
        read(text)
    return refused.value


def test_too_long_a_row_is_refused_before_it_is_written_out() -> None:
    with pytest.raises(NotationError, match="at most 99999 stitches"):
        read("[[[[k9, p9] 9999 times, k1] 9999 times, k1] 9999 times, k1] 9999 times")
    with pytest.raises(NotationError, match="no number above 9999"):
        read("k9999, k1")


def test_the_longest_row_can_be_written_and_no_longer_one() -> None:
    # derived: 10 times 9,998 and 1, and 9 more: the 99,999 of the limit
    block = Repeat((Op("k", 9998), Op("p")), 10)
    longest = (block, Op("ssk", 9))
    assert read(write(longest)) == longest
    with pytest.raises(ValueError, match="at most 99999 stitches"):
        write((block, Op("ssk", 10)))


def test_several_blanks_are_read_as_one() -> None:
    wide = "k1   tbl,  CO  8,  place  3  sts  on  waste  yarn"
    assert read(wide) == read("k1 tbl, CO 8, place 3 sts on waste yarn")


def test_a_comma_needs_no_blank() -> None:
    assert read("k5,k2tog,[k3,M1L] 2 times") == read("k5, k2tog, [k3, M1L] 2 times")


def test_a_star_holds_as_many_repeats_as_brackets_do() -> None:
    def starred(inside: int) -> str:
        nest = "[k1, " * inside + "p1" + "] 2 times" * inside
        return f"*p1, {nest}; rep from * once more"

    text = starred(DEEPEST - 1)
    # derived: twice p1 and what the nest takes, which is the sum below with one level less
    assert taken(read(text)) == 2 * (1 + 2**DEEPEST - 2 + 2 ** (DEEPEST - 1))
    with pytest.raises(NotationError):
        read(starred(DEEPEST))
    step: Step = Op("p")
    for _ in range(DEEPEST):
        step = Repeat((Op("k"), step), 2)
    assert read(write((step,))) == (step,)


def test_repeats_nest_to_a_bounded_depth() -> None:
    def nested(depth: int) -> str:
        return "[k1, " * depth + "p1" + "] 2 times" * depth

    assert taken(read(nested(DEEPEST))) == 2 ** (DEEPEST + 1) - 2 + 2**DEEPEST  # derived: a sum
    for depth in (DEEPEST + 1, 5000):
        with pytest.raises(NotationError) as refused:
            read(nested(depth))
        assert refused.value.position == DEEPEST * len("[k1, ")
        assert is_phrase(refused.value.expected)


# Half of these are near-rows: pieces of the notation in any order.
PIECES = st.sampled_from(
    [
        *("k5", "p", "k1 tbl", "M1L", " ", ", ", ",", "[", "]", "(", ")", "*", "; rep from * "),
        *(" 4 times", " in all", " MC", " CC1", "CO 8", "place 3 sts on waste yarn", "sl1 wyib"),
        *("0", "99999", "k DS", "w&t", ";", "\n", "é", "pick up and k9"),
    ]
)


@often(500)
@given(st.one_of(st.text(), st.lists(PIECES, max_size=30).map("".join)))
def test_any_text_is_read_or_refused_with_a_place(text: str) -> None:
    position = 0
    try:
        steps = read(text)
    except NotationError as refused:
        position = refused.position
    else:
        assert read(write(steps)) == steps
    assert 0 <= position <= len(text)


def test_part_of_a_sentence_is_read_with_places_of_the_whole() -> None:
    text = "first: k5, oops; then rest"
    assert read_between(text, start=7, end=9) == (Op("k", 5),)
    with pytest.raises(NotationError) as refused:
        read_between(text, start=7, end=15)
    assert refused.value.position == text.index("oops")


@pytest.mark.parametrize(
    ("steps", "reason"),
    [
        ((), "at least one step"),
        ((Op("k", LARGEST + 1),), "no number above"),
        ((Op("k", 1, "dark blue"),), "capitals and digits"),
        ((Op("k", 1, "DS"),), "capitals and digits"),
        ((Repeat((Op("k", 9999), Op("p", 1)), 11),), "at most 99999 stitches"),
        ((Repeat((Op("k", LARGEST + 1), Op("p", 1)), 2),), "no number above"),
    ],
)
def test_what_no_row_can_say_is_not_written(steps: tuple[Step, ...], reason: str) -> None:
    with pytest.raises(ValueError, match=re.escape(reason)) as refused:
        write(steps)
    assert not shouted(str(refused.value))


def test_too_deep_a_row_is_not_written() -> None:
    step: Step = Op("p")
    for _ in range(DEEPEST + 1):
        step = Repeat((Op("k"), step), 2)
    with pytest.raises(ValueError, match="repeats inside one another"):
        write((step,))
