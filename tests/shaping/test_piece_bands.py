"""Bands on the body and the sleeves by hand: their rounds, their shaping, their repeats."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.shaping.parts import chart, gauge, rib, task
from tests.sweaters import Sections, project, sized, swatch
from yokefellow.gauge import gauges
from yokefellow.project_file.models import BodyBand
from yokefellow.shaping.counts import Count
from yokefellow.shaping.model import BodyShape, SideChange, SleeveShape
from yokefellow.shaping.pieces.darts import Dart
from yokefellow.shaping.pieces.piece_banded import banded_body, banded_sleeve
from yokefellow.shaping.pieces.piece_bands import (
    Banding,
    MisplacedError,
    UnrepeatedError,
    banding,
    best_repeats,
    fit_bands,
    is_near,
    nearest_repeats,
    piece_rounds,
    placed,
    straight_repeat,
    ways_around,
)

PLAIN = gauge(2.0, 3.0)


def band(
    width: int = 8, rounds: int = 6, *, at_cm: float | None = None, stitches_per_cm: float = 2.0
) -> Banding:
    made = task(width, rounds, at_cm=at_cm, stitches_per_cm=stitches_per_cm)
    return Banding(chart(width, rounds), made)


def test_a_band_of_the_file_stands_where_it_was_put() -> None:
    made = project(sized())
    bands = (BodyBand(chart="a", at=12.0), BodyBand(chart="b"))
    charts = (chart(8, 6, "a"), chart(4, 10, "b"))
    found = banding(charts, bands, gauges(made))
    assert [one.chart for one in found] == list(charts)
    # derived: 12 cm as it was written; the other just above the hem
    assert [one.task.at_cm for one in found] == [12.0, None]
    # derived: of the charts
    assert [(one.task.name, one.task.rounds, one.task.first_width) for one in found] == [
        ("a", 6, 8),
        ("b", 10, 4),
    ]
    assert all(one.task.repeats is None for one in found)


def test_the_rounds_of_a_piece_without_bands_are_its_length_at_the_plain_gauge() -> None:
    # derived: 20 cm at 3 rounds a cm
    assert piece_rounds(20.0, (), plain=PLAIN, least=3) == Count(60, 60.0, 3.0)
    assert piece_rounds(0.1, (), plain=PLAIN, least=3).got == 3  # derived: the least


def test_the_rounds_of_a_band_are_counted_at_its_own_gauge() -> None:
    packed = Banding(chart(8, 10), task(8, 10, rounds_per_cm=4.0))
    # derived: 10 rounds at 4 a cm are 2.5 cm, the other 18 cm are 54 rounds at 3 a cm
    found = piece_rounds(20.5, [packed], plain=PLAIN, least=3)
    assert found.got == 64
    assert found.cm == pytest.approx(20.5)
    assert found.wanted == pytest.approx(64.0)
    # derived: two such bands are 20 rounds and 5 cm, the other 15.4 cm are 46.2 rounds, so 46,
    # which are 15.333 cm
    found = piece_rounds(20.4, [packed, packed], plain=PLAIN, least=3)
    assert found.got == 66
    assert found.cm == pytest.approx(46 / 3 + 5.0)
    assert found.wanted_cm == pytest.approx(20.4)


def test_a_piece_shorter_than_its_band_keeps_the_least_plain_rounds() -> None:
    # derived: 10 rounds of the band and 3 plain ones, which are a centimetre
    found = piece_rounds(2.0, [band(8, 10)], plain=PLAIN, least=3)
    assert found.got == 13
    assert piece_rounds(2.0, [band(8, 10)], plain=PLAIN, least=1).got == 11  # derived: and one


def test_bands_lie_at_their_depth_or_just_above_the_edge() -> None:
    bands = [band(at_cm=5.0), band()]
    # derived: 5 cm are 15 rounds, so the first band begins in round 16; the other's 6 rounds
    # leave the last of 40 to go to the count of the edge
    assert placed(bands, rounds=40, plain=PLAIN, earliest=2) == (16, 34)
    # derived: 6 rounds of a first band are 2 cm, the other 4 cm to the second are 12 rounds; but
    # it must stay clear of the first, which ends in 21, by two rounds
    close = [band(at_cm=5.0), band(at_cm=6.0)]
    assert placed(close, rounds=40, plain=PLAIN, earliest=2) == (16, 24)
    # derived: 10 cm less the 2 cm of the band above are 24 rounds, and 6 of the band
    apart = [band(at_cm=5.0), band(at_cm=10.0)]
    assert placed(apart, rounds=40, plain=PLAIN, earliest=2) == (16, 31)
    # derived: 0.7 cm are 2 rounds
    assert placed([band(at_cm=0.7)], rounds=40, plain=PLAIN, earliest=2) == (3,)
    # derived: 0.1 cm are none, so it begins at once
    assert placed([band(at_cm=0.1)], rounds=40, plain=PLAIN, earliest=1) == (1,)
    # derived: no earlier than it may
    assert placed([band(at_cm=0.1)], rounds=40, plain=PLAIN, earliest=4) == (4,)
    assert placed([], rounds=40, plain=PLAIN, earliest=4) == ()


def test_a_band_goes_down_past_a_dart_and_the_round_that_closes_its_gaps() -> None:
    # derived: rounds 18 and 19 are the dart's; the round before the band is clear of them, too
    found = placed([band(at_cm=5.0)], rounds=40, plain=PLAIN, earliest=2, busy=(18, 19))
    assert found == (21,)
    # derived: the band is in 16 to 21; round 22 goes back to the count
    assert placed([band(at_cm=5.0)], rounds=40, plain=PLAIN, earliest=2, busy=(23,)) == (16,)
    assert placed([band(at_cm=5.0)], rounds=40, plain=PLAIN, earliest=2, busy=(22,)) == (24,)
    assert placed([band(at_cm=5.0)], rounds=40, plain=PLAIN, earliest=2, busy=(14,)) == (16,)
    assert placed([band(at_cm=5.0)], rounds=40, plain=PLAIN, earliest=2, busy=(15,)) == (17,)


@pytest.mark.parametrize(
    ("bands", "rounds", "place", "needs", "has"),
    [
        # derived: begins in 16 of 20 rounds, the last of which goes to the edge
        ([band(at_cm=5.0)], 20, 0, 6, 4),
        # derived: begins in 22, below the 20 there are
        ([band(at_cm=7.0)], 20, 0, 6, 0),
        # derived: ends in 21, and the next can begin in 24 of 28
        ([band(at_cm=5.0), band(8, 5)], 28, 1, 5, 4),
    ],
)  # fmt: skip
def test_a_band_without_room_says_how_many_rounds_it_lacks(
    bands: list[Banding], rounds: int, place: int, needs: int, has: int
) -> None:
    with pytest.raises(MisplacedError) as refused:
        placed(bands, rounds=rounds, plain=PLAIN, earliest=2)
    found = refused.value
    assert (found.place, found.needs, found.has) == (place, needs, has)
    assert str(found) == f"band {place + 1} needs {needs} rounds and has {has}"


def test_one_round_more_is_room_enough() -> None:
    # derived: rounds 16 to 21, and one that goes to the edge
    assert placed([band(at_cm=5.0)], rounds=22, plain=PLAIN, earliest=2) == (16,)
    with pytest.raises(MisplacedError):
        placed([band(at_cm=5.0)], rounds=21, plain=PLAIN, earliest=2)


def test_shaping_rounds_go_round_a_band_two_apart() -> None:
    places = (4, 8, 12, 16, 20)
    found = ways_around(places, first=10, last=13, earliest=3, latest=30)
    # derived: by hand; what lies in 10 to 13 goes to 9 or to 14, and pushes the others on; with
    # all five above, the first would stand in round 1
    assert list(found.items()) == [
        (2, (4, 8, 14, 16, 20)),
        (1, (4, 14, 16, 18, 20)),
        (3, (4, 7, 9, 16, 20)),
        (0, (14, 16, 18, 20, 22)),
        (4, (3, 5, 7, 9, 20)),
    ]
    # derived: none may stand below 21, nor above 4
    tight = ways_around(places, first=10, last=13, earliest=4, latest=21)
    assert list(tight) == [2, 1, 3]
    assert list(ways_around(places, first=10, last=13, earliest=3, latest=22)) == [2, 1, 3, 0, 4]


def test_no_more_than_two_go_to_the_other_side_beside_those_in_the_band() -> None:
    places = (4, 6, 8, 20, 22, 24)
    found = ways_around(places, first=10, last=13, earliest=1, latest=40)
    # derived: three of six lie above and none in the band, so one to five may
    assert list(found.items()) == [
        (3, (4, 6, 8, 20, 22, 24)),
        (2, (4, 6, 14, 20, 22, 24)),
        (4, (3, 5, 7, 9, 22, 24)),
        (1, (4, 14, 16, 20, 22, 24)),
        (5, (1, 3, 5, 7, 9, 24)),
    ]
    # derived: one of them in the band makes it three
    one_inside = ways_around((4, 6, 8, 13, 22, 24, 26), first=10, last=13, earliest=1, latest=40)
    assert list(one_inside) == [3, 2, 4, 1, 5, 0]
    # derived: one in its first round lies in the band too: four of seven lie above its middle, so
    # one may; six would take the first of them to round -1
    at_first = ways_around((4, 6, 8, 10, 22, 24, 26), first=10, last=13, earliest=1, latest=40)
    assert list(at_first) == [4, 3, 5, 2, 1]
    assert ways_around((), first=10, last=13, earliest=3, latest=30) == {0: ()}


def test_shaping_rounds_stay_out_of_darts() -> None:
    found = ways_around((8, 12), first=10, last=13, earliest=1, latest=30, busy=(8, 9, 14, 15))
    # derived: 8 goes up to 7 and 12 down to 16; both above are 7 and 5, both below 16 and 18
    assert found == {1: (7, 16), 0: (16, 18), 2: (5, 7)}
    # derived: one round further than that which is taken, and no more
    found = ways_around((8, 12), first=10, last=13, earliest=1, latest=30, busy=(14,))
    assert found == {1: (8, 15), 0: (15, 17), 2: (7, 9)}


# derived: three in a hundred narrower, eight wider
@pytest.mark.parametrize(
    ("count", "near"), [(96.9, False), (97.1, True), (100, True), (107.9, True), (108.1, False)]
)
def test_a_band_is_near_up_to_a_width(count: float, near: bool) -> None:
    assert is_near(count, 100.0) is near


# derived: 196 is 24 and a half eights, of which wider is seen less than narrower; 44 is 5 and a
# half, of which 40 is 9 % narrower and 48 is 9 % wider; 23 is nearer to one repeat of 24 than
# to none
@pytest.mark.parametrize(
    ("wanted", "width", "repeats"),
    [
        (196.0, 8, 25),
        (195.0, 8, 24),
        (200.0, 8, 25),
        (44.0, 8, None),
        (23.0, 24, 1),
        (9.0, 24, None),
    ],
)
def test_the_nearest_repeats(wanted: float, width: int, repeats: int | None) -> None:
    assert nearest_repeats(wanted, width) == repeats


def test_a_pieces_own_count_goes_before_a_nearer_one() -> None:
    # derived: 96 is 7 % more than 90, and 88 would be 2 % less
    assert best_repeats(96, 90.0, 8) == 12
    assert best_repeats(92, 90.0, 8) == 11
    # derived: 96 is 4 % less than 100, too narrow; 104 is 4 % more
    assert best_repeats(96, 100.0, 8) == 13
    assert best_repeats(44, 44.0, 24) is None


def test_a_tighter_band_takes_more_stitches() -> None:
    tight = band(8, 6, stitches_per_cm=2.16)
    (found,) = fit_bands([tight], (16,), (96,), plain=PLAIN)
    # derived: 96 stitches are 48 cm, which take 103.68 at 2.16 a cm; 13 eights are 104
    assert found.shape.start == Count(104, pytest.approx(103.68), 2.16)  # type: ignore[arg-type]
    assert (found.shape.name, found.shape.first, found.shape.repeats) == ("dots", 16, 13)
    assert found.shape.counts == (104,) * 6
    assert (found.chart, found.around) == (tight.chart, 96)


def test_a_repeat_without_a_count_says_what_was_wanted() -> None:
    with pytest.raises(UnrepeatedError) as refused:
        fit_bands([band(4), band(24)], (6, 16), (44, 44), plain=PLAIN)
    found = refused.value
    # derived: 44 stitches are 24 and a bit
    assert (found.place, found.wanted, found.width) == (1, 44.0, 24)
    assert str(found) == "band 2 repeats over 24 stitches, near 44.0"


def body(*changes: SideChange, rounds: int = 40, darts: tuple[Dart, ...] = ()) -> BodyShape:
    """A body of 96 stitches."""
    edge = 96 + sum(change.added for change in changes)
    return BodyShape(
        rounds=Count(rounds, float(rounds), 3.0),
        front=48,
        changes=changes,
        edge=Count(edge, float(edge), 2.0),
        hem_stitches=edge,
        hem=rib(),
        darts=darts,
    )


def narrowing(*numbers: int) -> tuple[SideChange, ...]:
    return tuple(SideChange(number, -2, -2) for number in numbers)


def test_a_body_narrows_to_the_count_of_its_band() -> None:
    bare = body(*narrowing(8, 16, 24))
    found = banded_body(bare, [band(at_cm=5.0)], stitches=96, plain=PLAIN)
    # derived: the band is in 16 to 21 and its neighbours are clear, so 16 goes up to 14; two
    # changes of four leave 88, which are 11 eights
    assert [change.number for change in found.changes] == [8, 14, 24]
    (one,) = found.bands
    assert (one.shape.first, one.shape.repeats, one.around) == (16, 11, 88)
    assert found.edge.got == 84  # derived: as before
    assert found.waist is None
    assert banded_body(bare, [], stitches=96, plain=PLAIN) is bare


def test_two_bands_of_a_body_each_find_their_count() -> None:
    bare = body(*narrowing(8, 16, 24, 32), rounds=50)
    bands = [band(8, 6, at_cm=5.0), band(5, 6)]
    found = banded_body(bare, bands, stitches=96, plain=PLAIN)
    # derived: 16 to 21 with 88 as above; 44 to 49 with what 3 or 4 changes leave: 84 or 80, and
    # 80 are 16 fives
    assert [change.number for change in found.changes] == [8, 14, 24, 32]
    assert [(one.shape.first, one.shape.repeats, one.around) for one in found.bands] == [
        (16, 11, 88),
        (44, 16, 80),
    ]


def test_a_band_of_a_body_leaves_a_round_to_go_to_its_count() -> None:
    found = banded_body(body(), [band(at_cm=0.1)], stitches=96, plain=PLAIN)
    assert found.bands[0].shape.first == 2  # derived: gone to the count in 1


def test_no_change_between_two_bands_lies_in_the_round_after_the_first() -> None:
    bare = body(*narrowing(24, 30), rounds=50)
    bands = [band(8, 6, at_cm=5.0), band(11, 6, at_cm=8.4)]
    found = banded_body(bare, bands, stitches=96, plain=PLAIN)
    # derived: in 16 to 21 and, 2 cm and 19 rounds on, in 26 to 31; 88 are 8 elevens, but for both
    # changes above the second band one would lie in 22, which goes back from the first; so there is
    # one, and one in 33
    assert [one.shape.first for one in found.bands] == [16, 26]
    assert [change.number for change in found.changes] == [24, 33]


def test_a_change_that_spoils_every_repeat_is_left_out() -> None:
    bare = body(*narrowing(8, 16, 24), rounds=26)
    found = banded_body(bare, [band(50, 5, at_cm=5.0)], stitches=96, plain=PLAIN)
    # derived: two fifties are 4 % more than 96, and 9 % more than 92: so none may lie above the
    # band, and below it, from 22 to 25, there is room for two of the three, at 22 and 24
    assert [change.number for change in found.changes] == [22, 24]
    (one,) = found.bands
    assert (one.shape.repeats, one.shape.start.got, one.around) == (2, 100, 96)
    assert found.edge.got == 88  # derived: two changes of four from 96
    waisted = replace(bare, waist=Count(84, 80.0, 2.0))
    again = banded_body(waisted, [band(50, 5, at_cm=5.0)], stitches=96, plain=PLAIN)
    # derived: then the waist has no fewer than the edge
    assert again.waist == Count(88, 80.0, 2.0)


def test_a_band_that_no_count_serves_is_refused_after_two_are_left_out() -> None:
    bare = body(*narrowing(8, 16, 24))
    with pytest.raises(UnrepeatedError) as refused:
        banded_body(bare, [band(70, at_cm=5.0)], stitches=96, plain=PLAIN)
    # derived: where most lie in their places, two of four stitches are gone
    assert refused.value.wanted == 88.0


def test_a_tube_that_no_repeat_goes_round_is_refused() -> None:
    with pytest.raises(UnrepeatedError) as refused:
        banded_body(body(), [band(70, at_cm=5.0)], stitches=96, plain=PLAIN)
    assert refused.value.wanted == 96.0  # derived: nothing changes it


def test_a_body_goes_down_past_its_dart() -> None:
    bare = body(darts=(Dart("front", 18, (4, 8), 4, 3.0),))
    found = banded_body(bare, [band(at_cm=5.0)], stitches=96, plain=PLAIN)
    # derived: rounds 18 and 19 are the dart's, and one before the band is clear
    assert found.bands[0].shape.first == 21
    # derived: a change in round 24 would lie in the band, 20 and below are the dart's neighbours
    bare = body(*narrowing(23), darts=(Dart("front", 18, (4, 8), 4, 3.0),))
    found = banded_body(bare, [band(4, at_cm=5.0)], stitches=96, plain=PLAIN)
    assert [change.number for change in found.changes] == [17]


def sleeve(*decreases: int, rounds: int = 40) -> SleeveShape:
    """A sleeve of 64 stitches."""
    return SleeveShape(Count(rounds, float(rounds), 3.0), decreases, Count(44, 44.0, 2.0), rib())


def test_a_sleeve_narrows_to_the_count_of_its_band() -> None:
    bare = sleeve(8, 16, 24, 32)
    found = banded_sleeve(bare, [band(6, at_cm=5.0)], stitches=64, plain=PLAIN)
    # derived: the band is in 16 to 21; two pairs leave 60, which are 10 sixes
    assert found.decreases == (8, 14, 24, 32)
    assert (found.bands[0].shape.repeats, found.bands[0].around) == (10, 60)
    assert found.edge == bare.edge
    assert banded_sleeve(bare, [], stitches=64, plain=PLAIN) is bare


def test_a_taper_stops_at_the_count_of_its_band_and_goes_on_from_there() -> None:
    bare = sleeve(8, 16, 24, 32)
    found = banded_sleeve(bare, [band(9, at_cm=5.0)], stitches=65, plain=PLAIN)
    # derived: 63 are 7 nines and 65 less a pair; with that pair alone above the band nothing else
    # is needed
    assert (found.bands[0].around, found.bands[0].goes_on) == (63, False)
    found = banded_sleeve(bare, [band(10, at_cm=5.0)], stitches=65, plain=PLAIN)
    # derived: 65 less two pairs are 61, of which 60 are 6 tens; the taper goes on from 60, and
    # none of its pairs is left out
    (one,) = found.bands
    assert (one.around, one.shape.start.got, one.goes_on) == (61, 60, True)
    assert found.decreases == (8, 14, 24, 32)
    # derived: 65 less three pairs and the one stitch of the round to the band
    assert (found.around(65, 23), found.around(65, 40)) == (60, 56)


def test_a_round_to_the_band_does_the_work_of_the_pairs_it_takes() -> None:
    bare = sleeve(24, 32)
    found = banded_sleeve(bare, [band(31, at_cm=2.0)], stitches=64, plain=PLAIN)
    # derived: the band is in 7 to 12; 62 are two repeats, a pair that may go up there
    assert found.bands[0].shape.start.got == 62
    assert len(found.decreases) + found.bands[0].goes_on == 2
    assert found.around(64, 40) == 60


def test_a_taper_leaves_out_a_pair_that_the_band_would_give_back() -> None:
    bare = sleeve(8, 16, 24, 32, rounds=44)
    found = banded_sleeve(bare, [band(29)], stitches=64, plain=PLAIN)
    # derived: at the cuff, from 38, where four pairs leave 56; 58 are two repeats of 29
    assert found.decreases == (8, 16, 24)
    assert (found.bands[0].around, found.bands[0].shape.start.got) == (58, 58)


def test_a_body_goes_on_from_the_count_of_its_band() -> None:
    bare = body(*narrowing(8, 16, 24))
    found = banded_body(bare, [band(29, at_cm=5.0)], stitches=96, plain=PLAIN)
    # derived: 88 less one is 87, three times 29; the third change takes four more
    (one,) = found.bands
    assert (one.around, one.shape.start.got, one.goes_on) == (88, 87, True)
    assert [change.number for change in found.changes] == [8, 14, 24]
    assert found.edge.got == 83


def test_a_sleeve_with_no_room_below_its_band_keeps_what_there_is() -> None:
    bare = sleeve(4, 6, 8, 10, 12, 14, rounds=12)
    found = banded_sleeve(bare, [band(4, 6, at_cm=0.1)], stitches=64, plain=PLAIN)
    # derived: the band is in 4 to 9, so no round above it but 3 is clear, which it takes for
    # itself; below there are 11 and no more
    assert found.decreases == (11,)
    assert found.bands[0].around == 64


def test_the_first_rounds_of_a_sleeve_are_no_bands() -> None:
    found = banded_sleeve(sleeve(), [band(at_cm=0.1)], stitches=64, plain=PLAIN)
    # derived: picked up in 1, corners closed in 2, gone to the band's count in 3
    assert found.bands[0].shape.first == 4


def stripes(width: int) -> Sections:
    return {"kind": "stripes", "colours": {"#": "CC1"}, "rows": ["#" * width]}


@pytest.mark.parametrize(
    ("shape", "charts", "per_cm", "repeat"),
    [
        ("straight", ("four",), 2.2, 4),
        ("straight", ("four", "six"), 2.2, 12),
        ("straight", (), 2.2, 1),
        ("a-line", ("four",), 2.2, 1),
        # derived: a band of 2.26 stitches to the cm would be 2.7 % too narrow, one of 2.28 3.5 %
        ("straight", ("four",), 2.26, 4),
        ("straight", ("four",), 2.28, 1),
        # derived: one of 2.04 would be 7.8 % too wide, one of 2.03 8.4 %
        ("straight", ("four",), 2.04, 4),
        ("straight", ("four",), 2.03, 1),
    ],
)  # fmt: skip
def test_a_straight_body_should_divide_by_its_bands(
    shape: str, charts: tuple[str, ...], per_cm: float, repeat: int
) -> None:
    """derived: the least common multiple of their repeats."""
    made = project(
        sized(
            yarn__CC1={"ball_weight": "50 g", "ball_length": "200 m", "balls": 5},
            garment__body={"shape": shape, "bands": [{"chart": name} for name in charts]},
            charts={"four": stripes(4), "six": stripes(6)},
            swatch__stripes__washed=swatch(per_cm),
        )
    )
    assert straight_repeat(made, gauges(made)) == repeat
