"""Rounds that are pinned, as the lengths they make."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.shaping.parts import chart, gauge, task
from tests.sweaters import Sections, planned, project, sized, swatch
from yokefellow.plan import Plan
from yokefellow.shaping.pieces.piece_bands import Banding, piece_length
from yokefellow.shaping.pieces.pinned_lengths import with_pinned_lengths

BALL = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 10}

BANDED = sized(
    yarn__CC1=BALL,
    swatch__mosaic__washed=swatch(2.2, rounds_per_cm=4.4),
    garment__body__bands=[{"chart": "winding-path"}],
    garment__sleeves__bands=[{"chart": "winding-path", "at": "20 cm"}],
)
"""Bands of ten rounds, 4.4 to the cm, in a fabric of 2.97 to the cm."""


def made(**pins: int) -> Plan:
    return planned({**BANDED, "fixed": pins} if pins else BANDED)


def free() -> Sections:
    shape = made().shape
    return {"body_rounds": shape.body.rounds.got, "sleeve_rounds": shape.sleeve.rounds.got}


def test_the_length_that_rounds_make() -> None:
    packed = Banding(chart(8, 10), task(8, 10, rounds_per_cm=4.0))
    # derived: 54 rounds at 3 to the cm, and 10 at 4
    assert piece_length(64, [packed], plain=gauge()) == pytest.approx(18 + 2.5)
    assert piece_length(60, [], plain=gauge()) == 20.0
    # derived: a band is never cut
    assert piece_length(4, [packed], plain=gauge()) == 2.5


@pytest.mark.parametrize("name", ["body_rounds", "sleeve_rounds"])
def test_rounds_as_they_were_chosen_change_nothing(name: str) -> None:
    assert made(**{name: free()[name]}).shape == made().shape


def test_a_banded_piece_is_as_long_as_its_rounds() -> None:
    usual = free()
    longer = made(body_rounds=usual["body_rounds"] + 6, sleeve_rounds=usual["sleeve_rounds"] - 6)
    body, sleeve = longer.shape.body, longer.shape.sleeve
    assert body.rounds.got == usual["body_rounds"] + 6
    assert sleeve.rounds.got == usual["sleeve_rounds"] - 6
    per_cm = longer.gauges.plain.rounds_per_cm
    for piece, length_cm in (
        (body, longer.finished.body.length_cm - longer.finished.body.hem_cm),
        (sleeve, longer.finished.sleeve.length_cm - longer.finished.sleeve.cuff_cm),
    ):
        # derived: ten rounds of the band at 4.4 to the cm, the others at the plain gauge
        assert length_cm == pytest.approx((piece.rounds.got - 10) / per_cm + 10 / 4.4)
        assert piece.rounds.cm == pytest.approx(length_cm)


def test_a_yoke_is_as_deep_as_its_rounds() -> None:
    plain = sized(swatch__plain__washed=swatch(2.0, rounds_per_cm=3.0))
    usual = planned(plain).shape.yoke.rounds.got
    assert planned({**plain, "fixed": {"yoke_rounds": usual}}).shape == planned(plain).shape
    deeper = planned({**plain, "fixed": {"yoke_rounds": 72}})
    # derived: 72 rounds at 3 to the cm
    assert deeper.finished.yoke.depth_cm == 24.0
    assert deeper.shape.yoke.rounds.got == 72


def test_the_rounds_of_a_yokes_bands_are_its_own() -> None:
    packed = sized(
        yarn__CC1=BALL,
        swatch__plain__washed=swatch(2.0, rounds_per_cm=3.0),
        swatch__mosaic__washed=swatch(2.0, rounds_per_cm=4.0),
        garment__yoke__bands=[{"chart": "winding-path"}],
    )
    deeper = planned({**packed, "fixed": {"yoke_rounds": 70}})
    # derived: ten rounds at 4 to the cm, the other 60 at 3
    assert deeper.finished.yoke.depth_cm == 22.5
    assert deeper.shape.yoke.rounds.got == 70


def test_pins_that_are_met_by_themselves_leave_the_project_as_it_is() -> None:
    usual = planned(sized())
    colours = chart(8, 40)
    per_cm = usual.gauges.plain.rounds_per_cm
    colours_per_cm = usual.gauges.of(colours.kind).rounds_per_cm
    # derived: the yoke is as deep as the 40 rounds of its band, and has no plain one besides;
    # half a round of the body is made three, the fewest of a piece
    shallow = replace(usual.finished.yoke, depth_cm=40 / colours_per_cm)
    hem_cm = usual.finished.body.hem_cm
    short = replace(usual.finished.body, length_cm=hem_cm + 0.5 / per_cm)
    finished = replace(usual.finished, yoke=shallow, body=short)
    for pins, same in (
        ({"yoke_rounds": 40}, True),
        ({"yoke_rounds": 41}, False),
        ({"body_rounds": 3}, True),
        ({"body_rounds": 4}, False),
    ):
        made = project({**sized(), "fixed": pins})
        found = with_pinned_lengths(
            made, usual.figures, finished, usual.gauges, [colours], usual.piece_charts
        )
        assert (found is made) is same, pins
