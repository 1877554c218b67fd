"""What is offered where bands do not fit: the nearest changes that work, and their cost."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest

from tests.shaping.parts import task
from tests.sweaters import project, sized
from yokefellow.shaping.banded import Misfit
from yokefellow.shaping.counts import Count
from yokefellow.shaping.offers import offers, typed
from yokefellow.shaping.reach import Unreached
from yokefellow.shaping.shapes import Split
from yokefellow.shaping.task import Solution
from yokefellow.shaping.yoke_shapes import BandShape
from yokefellow.shaping.zones import BandTask

CM = project(sized())
INCHES = project(sized(sheet__units="in"))

DEPTH_CM = 20.0

Fits = Callable[[Sequence[BandTask], float | None], bool]


def nothing(_bands: Sequence[BandTask], _depth_cm: float | None) -> bool:
    return False


def anything(_bands: Sequence[BandTask], _depth_cm: float | None) -> bool:
    return True


def as_deep(_bands: Sequence[BandTask], depth_cm: float | None) -> bool:
    return depth_cm is None


def solved(bands: Sequence[BandTask], wanted: float, free: int) -> Solution:
    """A yoke whose bands have their pinned repeats, or so many; they want `wanted` stitches."""
    shapes = tuple(
        BandShape(
            band.name,
            10,
            band.repeats or free,
            Count((band.repeats or free) * band.first_width, wanted, band.stitches_per_cm),
            (),
        )
        for band in bands
    )
    count = Count(96, 96.0, 2.0)
    return Solution(count, Split(count, count, count), (), (), shapes)


def offered(
    fits: Fits,
    *bands: BandTask,
    refused: object = None,
    wanted: float = 120.0,
    free: int = 15,
    inches: bool = False,
) -> tuple[str, ...]:
    """What is offered where a yoke can be planned with what fits, and with nothing else."""

    def works(tried: Sequence[BandTask], depth_cm: float | None) -> Solution | None:
        return solved(tried, wanted, free) if fits(tried, depth_cm) else None

    made = INCHES if inches else CM
    return offers(refused, bands, works, depth_cm=DEPTH_CM, project=made)


def repeats(*which: tuple[int | None, ...]) -> Fits:
    return lambda bands, depth: depth is None and tuple(b.repeats for b in bands) in which


def depths(*which: tuple[float | None, ...]) -> Fits:
    return lambda bands, depth: depth is None and tuple(b.at_cm for b in bands) in which


def test_nothing_is_offered_where_nothing_works() -> None:
    assert offered(nothing, task(at_cm=5.0), task(repeats=9)) == ()
    assert offered(nothing, task(repeats=8), task(repeats=9)) == ()


def test_the_nearest_repeats_on_either_side_and_what_they_cost() -> None:
    band = task(8)
    refused = Misfit(band, 120.0, 14, 15, (8, 30))
    fits = repeats((13,), (12,), (16,), (17,))
    # derived: from 14 down and from 15 up; 13 eights are 104, 16 less than 120, 8 cm at two a cm,
    # and too far off; 16 are 128, 8 more, 4 cm
    assert offered(fits, band, refused=refused) == (
        "write repeats = 16 for 'dots' (128 stitches, 4 cm more round than the yoke's line)",
    )
    # derived: 104 are 6 less than 110, 3 cm; 128 would be 18 more, which is over 12 %
    assert offered(fits, band, refused=refused, wanted=110.0) == (
        "write repeats = 13 for 'dots' (104 stitches, 3 cm less round than the yoke's line)",
    )
    # derived: 16 eights are 128, one more than 127, half a centimetre
    assert offered(fits, band, refused=refused, wanted=127.0) == (
        "write repeats = 16 for 'dots' (128 stitches, 0.5 cm more round than the yoke's line)",
    )
    # derived: 3 cm are 1.18 in
    assert "(104 stitches, 1¼ in less round" in offered(
        fits, band, refused=refused, wanted=110.0, inches=True
    )[0]  # fmt: skip


def test_repeats_are_looked_for_four_deep_and_within_reach() -> None:
    band = task(1)
    refused = Misfit(band, 120.0, 119, 120, (1, 400))
    # derived: 119, 118, 117, 116 and 120, 121, 122, 123
    assert len(offered(repeats((116,), (123,)), band, refused=refused)) == 2
    assert offered(repeats((115,), (124,)), band, refused=refused) == ()
    near = Misfit(band, 120.0, 119, 120, (118, 121))
    assert len(offered(repeats((118,), (121,)), band, refused=near)) == 2
    assert offered(repeats((117,), (122,)), band, refused=near) == ()


def test_a_pin_out_of_reach_is_offered_the_nearest_that_can_be() -> None:
    # derived: 20 eights are 160; from 96 to 128 can be there, 12 to 16 eights
    band = task(8, repeats=20)
    refused = Unreached(band, (90, 128), (80, 140))
    assert offered(repeats((16,), (15,)), band, refused=refused) == (
        "write repeats = 16 for 'dots' (128 stitches, 4 cm more round than the yoke's line)",
    )
    few = task(8, repeats=4)
    refused = Unreached(few, (90, 128), (80, 140))
    assert offered(repeats((13,), (14,)), few, refused=refused, wanted=112.0) == (
        "write repeats = 13 for 'dots' (104 stitches, 4 cm less round than the yoke's line)",
    )
    # derived: from 100 to 128 there are 13 to 16 eights; the next above 12 is 13
    one_off = task(8, repeats=12)
    refused = Unreached(one_off, (100, 128), (80, 140))
    assert offered(repeats((13,), (14,)), one_off, refused=refused, wanted=104.0) == (
        "write repeats = 13 for 'dots' (104 stitches, 0 cm less round than the yoke's line)",
    )
    free = task(8)
    # derived: nothing between 90 and 92 is a multiple of eight
    refused = Unreached(free, (90, 128), (80, 92))
    assert offered(repeats((11,), (12,)), free, refused=refused, wanted=92.0) == ()
    assert offered(repeats((11,)), free, refused=Unreached(None, (1, 2), (3, 4))) == ()


def test_of_several_bands_the_one_that_does_not_fit_changes() -> None:
    first, second = task(8, name="a"), task(8, name="b")
    refused = Misfit(second, 120.0, 14, 15, (8, 30))
    assert offered(repeats((None, 15)), first, second, refused=refused) == (
        "write repeats = 15 for band 2 ('b') (120 stitches, 0 cm less round than the yoke's line)",
    )


def test_a_pin_may_be_taken_out() -> None:
    assert offered(repeats((None,)), task(repeats=20)) == (
        "take out repeats = 20 of 'dots' (15 go round then)",
    )
    both = (task(8, name="a", repeats=20), task(8, name="b", repeats=21))
    assert offered(repeats((20, None)), *both) == (
        "take out repeats = 21 of band 2 ('b') (15 go round then)",
    )
    # One is enough, where one is.
    assert len(offered(repeats((20, None), (None, 21), (None, None)), *both)) == 1
    assert offered(repeats((None, None)), *both) == (
        "take out repeats = in every band (15, 15 go round then)",
    )
    # derived: the band between them has none to take out
    three = (both[0], task(8, name="c"), both[1])
    assert offered(repeats((None, None, None)), *three) == (
        "take out repeats = in every band (15, 15 go round then)",
    )


@pytest.mark.parametrize(
    ("to_cm", "words"),
    [
        # derived: the moves that are tried, the least first
        (4.5, "write at = \"4.5 cm\" for 'dots' (0.5 cm higher)"),
        (5.5, "write at = \"5.5 cm\" for 'dots' (0.5 cm lower)"),
        (8.0, "write at = \"8 cm\" for 'dots' (3 cm lower)"),
        (11.0, "write at = \"11 cm\" for 'dots' (6 cm lower)"),
        (12.0, None),
        # derived: 5 cm higher would be at the neckband itself
        (0.0, None),
    ],
)
def test_a_band_may_be_moved(to_cm: float, words: str | None) -> None:
    got = offered(depths((to_cm,)), task(at_cm=5.0))
    assert got == ((words,) if words else ())


def test_the_least_move_of_any_band_is_offered() -> None:
    bands = (task(name="a", at_cm=5.0), task(name="b"), task(name="c", at_cm=12.0))
    fits = depths((3.5, None, 12.0), (5.0, None, 13.0), (5.0, None, 12.5))
    assert offered(fits, *bands) == ("write at = \"12.5 cm\" for band 3 ('c') (0.5 cm lower)",)
    # Where a move up and one down are as short, up is tried first.
    fits = depths((5.0, None, 13.0), (5.0, None, 11.0))
    assert offered(fits, *bands) == ("write at = \"11 cm\" for band 3 ('c') (1 cm higher)",)


def test_bands_may_be_spread() -> None:
    assert offered(depths((None,)), task(at_cm=5.0)) == ('write at = "spread" for it',)
    two = (task(name="a", at_cm=5.0), task(name="b", at_cm=9.0))
    assert offered(depths((None, None)), *two) == ('write at = "spread" for every band',)
    # A band that is spread already is not told to be.
    assert offered(as_deep, task()) == ()


def test_bands_may_be_spread_without_their_pins() -> None:
    band = task(at_cm=5.0, repeats=20)

    def free(bands: Sequence[BandTask], _: float | None) -> bool:
        return [(one.at_cm, one.repeats) for one in bands] == [(None, None)]

    assert offered(free, band) == ('write at = "spread" for it, and take out every repeats =',)
    # Without a pin there is none to take out.
    assert offered(nothing, task(at_cm=5.0)) == ()


def test_one_of_several_bands_may_be_left_out() -> None:
    def called(*names: str) -> Fits:
        return lambda bands, depth: depth is None and tuple(b.name for b in bands) in [names]

    three = tuple(task(name=name) for name in "abc")
    assert offered(called("a", "c"), *three) == ("leave out band 2 ('b')",)
    assert offered(called(), three[0]) == ()


@pytest.mark.parametrize(
    ("deeper_cm", "words"),
    [
        # derived: 20 cm and one to five
        (21.0, 'write garment.yoke.depth = "21 cm" (1 cm deeper)'),
        (25.0, 'write garment.yoke.depth = "25 cm" (5 cm deeper)'),
        (26.0, None),
    ],
)
def test_a_yoke_may_be_deeper(deeper_cm: float, words: str | None) -> None:
    got = offered(lambda _, depth: depth == deeper_cm, task())
    assert got == ((words,) if words else ())


def test_four_changes_are_enough_and_a_deeper_yoke_the_last() -> None:
    two = (task(8, name="a", at_cm=5.0, repeats=20), task(8, name="b", at_cm=9.0))
    refused = Misfit(two[0], 160.0, 19, 20, (8, 30))
    got = offered(anything, *two, refused=refused, wanted=156.0)
    # derived: 19 eights are 152 and 20 are 160, two cm on either side of 156
    assert got == (
        "write repeats = 19 for band 1 ('a') (152 stitches, 2 cm less round than the yoke's line)",
        "write repeats = 20 for band 1 ('a') (160 stitches, 2 cm more round than the yoke's line)",
        "take out repeats = 20 of band 1 ('a') (15 go round then)",
        "write at = \"4.5 cm\" for band 1 ('a') (0.5 cm higher)",
    )
    alone = offered(anything, task(at_cm=5.0))
    assert alone == (
        "write at = \"4.5 cm\" for 'dots' (0.5 cm higher)",
        'write at = "spread" for it',
        'write garment.yoke.depth = "21 cm" (1 cm deeper)',
    )


def test_a_measure_is_tried_as_it_can_be_typed() -> None:
    assert typed(7.58, "cm") == (7.6, "7.6 cm")  # derived: to a tenth
    assert typed(8.0, "cm") == (8.0, "8 cm")  # derived
    # derived: 7.58 cm are 2.98 in, 6.9 cm 2.72 in
    assert typed(7.58, "in") == (3 * 2.54, "3 in")
    assert typed(6.9, "in") == (2.75 * 2.54, "2.75 in")
