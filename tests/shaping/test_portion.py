"""The stitches of the split, shared between front and back."""

from __future__ import annotations

import pytest

from yokefellow.shaping.counts import Count
from yokefellow.shaping.model import Split
from yokefellow.shaping.split import between_lines, portioned


def split(body: int = 200, sleeve: int = 66, underarm: int = 16) -> Split:
    counts = (Count(count, float(count), 2.0) for count in (body, sleeve, underarm))
    around, top, below = counts
    return Split(around, top, below)


def halves(found: Split) -> tuple[int, int, int, int]:
    """Front and back between the underarms, and what each has of an underarm."""
    return found.front, found.back, found.underarm_front, found.underarm_back


def test_nothing_is_moved_where_nothing_is_asked() -> None:
    whole = split()
    assert portioned(whole, front_more=0.0) is whole
    assert between_lines(whole, front_more=0.0) is whole
    # derived: less than half a stitch of each underarm, of which there are two at either side
    odd = split(body=201, underarm=15)
    assert portioned(odd, front_more=1.9) is odd
    assert (odd.front_total, odd.back_total) == (100, 101)
    # derived: less than half a stitch of either half
    assert between_lines(whole, front_more=0.9) is whole
    assert halves(whole) == (84, 84, 8, 8)  # derived: 200 - 2 * 16 halved, 16 halved


# derived: a stitch that goes over at each side makes the front four more than the back
@pytest.mark.parametrize(
    ("front_more", "got"),
    [
        (4.0, (84, 84, 9, 7)),
        (-4.0, (84, 84, 7, 9)),
        # derived: 12 / 4 = 3 stitches of each underarm
        (12.0, (84, 84, 11, 5)),
        # derived: 28 / 4 = 7, and one stitch stays behind the marker
        (28.0, (84, 84, 15, 1)),
        # derived: 32 / 4 = 8, of which the underarms give 7; 16 - 14 = 2 between them
        (32.0, (86, 82, 15, 1)),
        (-32.0, (82, 86, 1, 15)),
        # derived: a stitch too few to ask for parts nothing: 1.9 / 4 is none
        (1.9, (84, 84, 8, 8)),
        (2.0, (84, 84, 9, 7)),
    ],
)
def test_the_underarms_give_first(front_more: float, got: tuple[int, int, int, int]) -> None:
    found = portioned(split(), front_more=front_more)
    assert halves(found) == got
    assert found.yoke == split().yoke
    # derived: as asked for, to two stitches
    assert found.front_total - found.back_total == pytest.approx(front_more, abs=2)


def test_two_stitches_of_each_half_are_left_whatever_is_asked() -> None:
    # derived: 168 between the underarms, of which two stay
    assert halves(portioned(split(), front_more=900.0)) == (166, 2, 15, 1)
    assert halves(portioned(split(), front_more=-900.0)) == (2, 166, 1, 15)
    assert halves(between_lines(split(), front_more=900.0)) == (166, 2, 8, 8)
    assert halves(between_lines(split(), front_more=-900.0)) == (2, 166, 8, 8)
    for share in (portioned, between_lines):
        for more in (-900.0, 900.0):
            assert all(type(count) is int for count in halves(share(split(), front_more=more)))


def test_an_underarm_of_two_stitches_gives_none() -> None:
    # derived: 8 / 4 = 2 asked of each underarm, which keeps one at each side; 8 / 2 between them
    assert halves(portioned(split(underarm=2), front_more=8.0)) == (102, 94, 1, 1)
    # derived: of three stitches one lies in front of the marker
    assert halves(portioned(split(underarm=3), front_more=8.0))[2:] == (1, 2)


def test_the_front_of_a_raglan_is_wider_between_its_lines() -> None:
    # derived: half of it is gained by the front and lost by the back
    assert halves(between_lines(split(), front_more=12.0)) == (90, 78, 8, 8)
    assert halves(between_lines(split(), front_more=-12.0)) == (78, 90, 8, 8)
    assert halves(between_lines(split(), front_more=1.0)) == (85, 83, 8, 8)
