"""The independent knitter on rows worked flat, and on a neck taken up again."""

from __future__ import annotations

import pytest

from tests.knitter import Kind, Line, Mistake, Part, knit
from tests.knitter.small_sweaters import rnd

FRONTS = (
    rnd(1, "cast on 10 sts; turn without joining", 10, kind="flat RS"),
    rnd(2, "p5, pm, p5", 10, kind="flat WS"),
    rnd(3, "k1, M1L, k4, sm, k4, M1R, k1", 12, kind="flat RS"),
    rnd(4, "purl", 12, kind="flat WS"),
    rnd(5, "k12, CO 4; do not turn: join in the round", 16, kind="flat RS"),
    rnd(6, "k6 to the next marker; this is BOR from now on", 16, kind="part"),
    rnd(7, "knit", 16),
    rnd(8, "bind off all 16 sts", 0),
)
"""Two rows and two more, four stitches cast on between the edges, and once round."""


def fronts(*lines: Line) -> tuple[Part, ...]:
    """The same with some lines printed otherwise."""
    by_number = {line.first: line for line in (*FRONTS, *lines)}
    return (Part("front", 0, tuple(by_number[number] for number in sorted(by_number))),)


def test_rows_worked_flat_come_off_the_needles() -> None:
    knitted = knit(fronts())
    # derived: 10 cast on, 10 + 12 + 12, 12 and 4 cast on, 6, 16, 16 bound off
    assert knitted.loops == 10 + 10 + 12 + 12 + 16 + 6 + 16 + 16
    assert knitted.counts["front", ""] == (10, 10, 12, 12, 16, 16, 16, 0)
    assert knitted.bumps == 0


def test_a_wrong_side_row_that_is_knitted_shows_bumps() -> None:
    knitted = knit(fronts(rnd(4, "knit", 12, kind="flat WS")))
    assert knitted.bumps == 12  # derived: all twelve of the row


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        (rnd(4, "p11", 12, kind="flat WS"), Kind.LEFT_OVER),
        (rnd(4, "p13", 12, kind="flat WS"), Kind.TOO_FEW),
        (rnd(4, "purl", 12, kind="flat RS"), Kind.SIDE),
        (rnd(4, "knit", 12), Kind.SIDE),
        (rnd(3, "knit", 10), Kind.JOIN),
        (rnd(5, "k12, CO 4", 16, kind="flat RS"), Kind.SIDE),
        (rnd(7, "knit", 16, kind="flat RS"), Kind.JOIN),
        (rnd(3, "M1L, k5, sm, k5, M1R", 12, kind="flat RS"), Kind.INCREASE),
        (rnd(3, "k1, M1L, k8, M1R, k1, sm", 12, kind="flat RS"), Kind.MARKER),
    ],
)
def test_what_cannot_be_knitted_flat_is_found(line: Line, kind: Kind) -> None:
    with pytest.raises(Mistake) as found:
        knit(fronts(line))
    assert found.value.kind is kind


CAST_ON = "provisionally cast on 8 sts; join in the round without twisting and pm for BOR"
TUBE = Part("cast_on", 0, (rnd(1, CAST_ON, 8), rnd(2, "knit", 8), rnd(3, "bind off all 8 sts", 0)))
BAND = Part("neckband", 8, (rnd(1, "knit", 8), rnd(2, "bind off all 8 sts in rib", 0)))


def test_a_provisional_cast_on_is_taken_up_again() -> None:
    knitted = knit((TUBE, BAND))
    assert (knitted.taken_up, knitted.bound_off) == (8, 16)  # derived: both edges


def test_a_provisional_cast_on_may_not_be_forgotten() -> None:
    with pytest.raises(Mistake, match="never taken up"):
        knit((TUBE,))


def test_a_plain_cast_on_cannot_be_taken_up() -> None:
    plain = rnd(1, CAST_ON.removeprefix("provisionally "), 8)
    with pytest.raises(Mistake) as found:
        knit((Part("cast_on", 0, (plain, *TUBE.lines[1:])), BAND))
    assert found.value.kind is Kind.START


def test_stitches_are_picked_up_round_the_neck() -> None:
    # derived: eight along the neck, none at an underarm
    picked_up = rnd(1, "along the neck edge: pick up and k8; pm for BOR", 8)
    band = Part("neckband", 0, (picked_up, *BAND.lines[1:]))
    knitted = knit((*fronts(), band))
    assert (knitted.at_neck, knitted.picked_up) == (8, 0)


def test_an_increase_on_the_way_back_is_purled() -> None:
    right = rnd(4, "p1, M1LP, p5, sm, p5, M1RP, p1", 14, kind="flat WS")
    parts = fronts(
        right,
        rnd(5, "k14, CO 4; do not turn: join in the round", 18, kind="flat RS"),
        rnd(6, "k7 to the centre back; pm for BOR", 18, kind="part"),
        rnd(7, "knit", 18),
        rnd(8, "bind off all 18 sts", 0),
    )
    assert knit(parts).bumps == 0  # derived: purled on the wrong side is plain on the right
    # derived: two made knitwise on the wrong side
    wrong = rnd(4, right.what.replace("P", ""), 14, kind="flat WS")
    assert knit(fronts(wrong, *parts[0].lines[4:])).bumps == 2


def test_a_centred_double_decrease_makes_one_of_three() -> None:
    lines = (rnd(1, "CO 9", 9), rnd(2, "k3, CDD, k3", 7), rnd(3, "BO 7", 0))
    assert knit((Part("tube", 0, lines),)).counts["tube", ""] == (9, 7, 0)  # derived
