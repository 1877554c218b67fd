"""What a yoke says of its rounds: the stitches after each, and the row each one is."""

from __future__ import annotations

import pytest

from tests.kept.telling import whole
from tests.sweaters import edited, project, sized
from yokefellow.plan import Draft, draft
from yokefellow.shaping.counts import Count
from yokefellow.shaping.model import BandShape, IncreaseRound, stitches_at


def made(**changes: object) -> Draft:
    return draft(project(whole(edited(sized(), **changes))))


def test_the_stitches_after_a_round_are_those_of_the_last_change_above_it() -> None:
    steps = (IncreaseRound(3, 80, 100), IncreaseRound(20, 120, 150))
    # derived: five repeats of 20 that grow to 24 in the second of three rounds from the 8th on
    band = BandShape("one", 8, 5, Count(100, 99.0, 2.0), (100, 120, 120))
    by_round = {0: 80, 2: 80, 3: 100, 8: 100, 9: 120, 10: 120, 19: 120, 20: 150, 70: 150}
    assert {number: stitches_at(number, 80, steps, [band]) for number in by_round} == by_round
    # derived: a band that lies alone
    assert [stitches_at(number, 100, (), [band]) for number in (0, 7, 8, 9, 99)] == [
        100,
        100,
        100,
        120,
        120,
    ]
    assert stitches_at(5, 80, ()) == 80  # derived: nothing changes


def test_a_round_of_the_yoke_lies_in_the_front_or_below_it() -> None:
    level = made().shaped.shape
    assert (level.flat_rows, level.at(1), level.at(30)) == (0, ("yoke", 1), ("yoke", 30))
    flat = made(garment__yoke__style="raglan", garment__neck__front="V").shaped.shape
    assert flat.flat_rows > 0
    # derived: the cast-on is the first row of the front
    assert flat.at(1) == ("front", 2)
    assert flat.at(flat.flat_rows) == ("front", flat.flat_rows + 1)
    assert flat.at(flat.flat_rows + 1) == ("yoke", 1)


@pytest.mark.parametrize("style", ["circular", "raglan"])
def test_the_stitches_of_every_round_add_up(style: str) -> None:
    found = made(garment__yoke__style=style).shaped.shape
    yoke = found.yoke
    assert yoke.start == yoke.stitches_at(0) == found.neck.stitches.got
    for step in yoke.increase_rounds:
        assert (yoke.stitches_at(step.number - 1), yoke.stitches_at(step.number)) == (
            step.before,
            step.after,
        )
    assert yoke.last_increase == yoke.increase_rounds[-1].number
    assert yoke.stitches_at(yoke.last_increase) == found.split.yoke
