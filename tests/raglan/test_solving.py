"""The counts of a raglan: exact at the underarm, near what was wanted, and as published."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.often import often
from tests.raglan.raglans import codes, pieces_of, raglan, yoke_of
from tests.sweaters import (
    GAUGES,
    LINE_INCREASES,
    every_size,
    planned,
    planned_or_refused,
    written,
)
from yokefellow.plan import Plan
from yokefellow.project_file.models import FIT_NAMES
from yokefellow.rows.model import Feature, flat_ops
from yokefellow.shaping.model import RaglanShape
from yokefellow.shaping.percentages import raglan_percentages
from yokefellow.shaping.raglan.rates import Rate


def random_raglan(seed: int) -> Plan | None:
    sections = written(seed)
    sections["garment"]["yoke"]["style"] = "raglan"
    if sections["garment"]["yoke"].get("line_increase") is None:
        sections["garment"]["yoke"]["line_width"] = seed % 5 + 1
    return planned_or_refused(sections)


RAGLANS = st.integers(0, 10**6).map(random_raglan).filter(lambda made: made is not None)


def test_the_percentage_raglan_as_published() -> None:
    # published: E. Zimmermann, Knitting Without Tears, 1971 (retold): K = 200, yoke 268 of
    # front and back 84 and sleeves 50, two decreased at each line in every 2nd of 50 rounds
    counts = raglan_percentages(200)
    assert (counts.back, counts.held, counts.times) == (84, 50, 25)
    assert 2 * counts.back + 2 * counts.held == 268
    # derived: 84 - 50 = 34, so the neck is 34 + 34 + 0 + 0
    assert (counts.back_neck, counts.sleeve_top) == (34, 0)


def test_the_percentage_raglan_is_planned_as_published() -> None:
    made = planned(
        raglan(
            stitches_per_cm=2.0,
            body__chest="100 cm",
            ease__chest="0 cm",
            garment__yoke__proportions="percentage 1971",
        )
    )
    yoke = yoke_of(made)
    # published: E. Zimmermann, Knitting Without Tears, 1971 (retold), as above
    assert made.shape.split.body.got == 200
    assert made.shape.split.yoke == 268
    assert [piece.stitches_at(50) for piece in pieces_of(yoke)] == [84, 84, 50]
    assert yoke.rounds.got == 50
    assert {piece.rates for piece in pieces_of(yoke)} == {(Rate(2, 25),)}
    # derived: 84 - 50 of front and back, nothing of the sleeves
    assert (yoke.start, yoke.back.start, yoke.sleeve.start) == (68, 34, 0)


@pytest.mark.parametrize("body", range(60, 420, 2))
def test_percentages_of_every_body_hang_together(body: int) -> None:
    counts = raglan_percentages(body)
    assert counts.sleeve_top in (0, 1)
    assert counts.back_neck + 2 * counts.times == counts.back
    assert counts.sleeve_top + 2 * counts.times == counts.held
    assert 2 * counts.back + 2 * counts.underarm == body


@often(60)
@given(RAGLANS)
def test_every_piece_comes_exactly_to_its_count(made: Plan) -> None:
    yoke, split = yoke_of(made), made.shape.split
    ends = [piece.stitches_at(yoke.rounds.got) for piece in pieces_of(yoke)]
    assert ends == [split.back, split.front, split.held]
    assert yoke.start == made.shape.neck.stitches.got
    assert yoke.stitches_at(yoke.rounds.got) == split.yoke
    assert yoke.last_increase <= yoke.rounds.got


@often(40)
@given(RAGLANS)
def test_each_increase_stands_beside_its_line(made: Plan) -> None:
    """Read the rows again: markers part them into the pieces, whose counts must agree."""
    yoke = yoke_of(made)
    for row in made.rows:
        if row.section.key != "yoke" or row.row.feature is not Feature.INCREASE:
            continue
        parts, marks = [0], 0
        for op in flat_ops(row.row.steps):
            if op.code == "sm":
                parts.append(0)
                marks += 1
            else:
                parts[-1] += {"kfb": 2}.get(op.code, 1) * op.times
        assert marks == 4  # derived: a marker in each of four lines
        back, front, sleeve = (piece.stitches_at(row.number) for piece in pieces_of(yoke))
        assert parts[1:4] == [sleeve, front, sleeve]
        assert parts[0] + parts[4] == back
        assert parts[0] == back // 2


@often(40)
@given(RAGLANS)
def test_the_neck_is_shared_among_the_pieces(made: Plan) -> None:
    yoke = yoke_of(made)
    if made.project.garment.yoke.proportions != "measured":
        return
    assert abs(yoke.front.start - yoke.back.start) <= 1
    width = yoke.line.width
    assert yoke.body_share + yoke.sleeve_share == width
    for piece, share in ((yoke.back, yoke.body_share), (yoke.sleeve, yoke.sleeve_share)):
        assert piece.start >= 2 * share + 2  # derived: two stitches between the lines
    fit = made.finished.yoke.raglan
    assert fit is not None
    wanted = fit.back_neck_cm * yoke.stitches_per_cm
    assert abs(yoke.back.start - wanted) <= max(2, 0.35 * wanted)


@often(40)
@given(RAGLANS)
def test_no_short_row_turns_in_the_front(made: Plan) -> None:
    yoke = yoke_of(made)
    turns = yoke.short_rows.turns
    if turns and yoke.sleeve.start >= 8:
        # derived: at the front's line, or where a round yoke has its first turn, 35 % of the neck
        line = yoke.back.start // 2 + yoke.sleeve.start
        assert turns[0] <= max(line, 0.35 * yoke.start + 1)
        assert turns[-1] < yoke.start / 2


def test_half_a_sleeve_top_counts_toward_the_armhole() -> None:
    made = planned(raglan())
    round_yoke = planned(raglan(garment__yoke__style="circular"))
    yoke, fit = yoke_of(made), made.finished.yoke.raglan
    assert fit is not None
    # derived: the depth by size less half of what a sleeve has at the neck
    wanted = round_yoke.finished.yoke.depth_cm - fit.sleeve_top_cm / 2
    assert made.finished.yoke.depth_cm == pytest.approx(wanted)
    assert yoke.armhole_cm == pytest.approx(yoke.rounds.cm + yoke.sleeve_top_cm / 2)
    own = planned(raglan(garment__yoke__depth="20 cm"))
    assert yoke_of(own).rounds.wanted_cm == pytest.approx(20)  # derived: the knitter's own stays


@pytest.mark.parametrize("per_cm", GAUGES)
@pytest.mark.parametrize("fit", FIT_NAMES)
def test_every_size_makes_a_raglan(per_cm: float, fit: str) -> None:
    for group, size in every_size():
        made = planned(
            raglan(group, size, stitches_per_cm=per_cm, ease__chest=fit, ease__upper_arm=fit)
        )
        yoke, split = yoke_of(made), made.shape.split
        assert yoke.stitches_at(yoke.rounds.got) == split.yoke, (group, size)
        if fit in ("loose", "oversized"):
            # derived: with so much ease the shoulders are covered where they are fullest
            assert "raglan.shoulder" not in codes(made), (group, size)


def test_a_front_over_a_full_bust_has_a_rate_of_its_own() -> None:
    made = planned(raglan(body__chest="110 cm", body__high_chest="98 cm"))
    yoke = yoke_of(made)
    assert yoke.front.stitches_at(yoke.rounds.got) > yoke.back.stitches_at(yoke.rounds.got)
    assert yoke.front.rates != yoke.back.rates
    if len(yoke.front.rates) == 2:  # the faster comes last: the width is needed below
        assert yoke.front.rates[0].every > yoke.front.rates[1].every


@pytest.mark.parametrize("increase", LINE_INCREASES)
@pytest.mark.parametrize("width", range(7))
def test_every_line_is_worked_as_chosen(increase: str, width: int) -> None:
    if width == 0 and increase != "front and back":
        return
    made = planned(raglan(garment__yoke__line_width=width, garment__yoke__line_increase=increase))
    yoke = yoke_of(made)
    assert isinstance(yoke, RaglanShape)
    # derived: two increases at each of four lines in a round in which every piece grows
    whole = next(
        row for row in made.rows if row.section.key == "yoke" and row.after - row.before == 8
    )
    found = Counter[str]()
    for op in flat_ops(whole.row.steps):
        found[op.code] += op.times
    wanted = {"lifted": {"M1L": 4, "M1R": 4}, "yarn over": {"yo": 8}, "front and back": {"kfb": 8}}
    assert {code: found[code] for code in wanted[increase]} == wanted[increase]
