"""What holds at the very limit: ties, least counts, and the smallest pieces."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from tests.shaping.parts import yoke, zones
from tests.shaping.test_body import GAUGES, LEVEL, STRAIGHT, SWEATER
from tests.sweaters import edited, project, sized, swatch
from yokefellow.body.fill_in import fill
from yokefellow.fit import fit
from yokefellow.gauge import gauges
from yokefellow.plan import draft
from yokefellow.shaping.assemble import YOKES, yoke_of
from yokefellow.shaping.counts import nearest, permitted
from yokefellow.shaping.edges.edges import edge_multiple, edge_shape
from yokefellow.shaping.edges.front_neck import FrontNeck, front_neck
from yokefellow.shaping.model import BodyShape
from yokefellow.shaping.pieces.body import body_shape
from yokefellow.shaping.raglan.raglan_yoke import raglan_yoke
from yokefellow.shaping.split import split_meeting
from yokefellow.shaping.spread_evenly import word
from yokefellow.shaping.yoke.round_yoke import wide_underarm, yoke_task
from yokefellow.shaping.yoke.search import Step, broken_rules, places


def test_counts_at_the_limit_of_what_is_permitted() -> None:
    assert permitted(0.4, multiple=1) == (1,)
    # derived: 0.75 and 1.25 off, just half a stitch further
    assert permitted(10.75, multiple=2) == (10, 12)
    assert permitted(3.0, multiple=2, least=20) == (20,)
    # derived: as good as half-way, where the larger is taken
    assert nearest(33.5 - 2e-10) == 34


def test_two_groups_are_written_the_shorter_first() -> None:
    assert word(5, 2) == ((2, 3), 1)  # derived: of two and of three


def broken(counts: tuple[int, ...], at: tuple[int, ...], shoulder: float) -> tuple[str, ...]:
    """The rules that increase rounds of a yoke of 60 rounds break."""

    def there(number: int) -> int:
        return counts[sum(place <= number for place in at)]

    asked = yoke(shoulder=shoulder)
    return broken_rules(at, zones(), asked, at_shoulder=there(27), at_end=counts[-1])


def placed(counts: tuple[int, ...], shoulder: float) -> tuple[int, ...]:
    """The rounds of such a yoke in which it increases."""
    steps = [Step(before, after, 0) for before, after in pairwise(counts)]
    return places(steps, zones(), yoke(shoulder=shoulder), counts[0])


def test_rules_at_their_limits() -> None:
    # derived: the point of the shoulders is in round 27 of 60, fullness is best by 48
    assert broken((100, 140, 180), (27, 40), 140) == ()
    assert broken((100, 140, 180), (28, 40), 120) == ("shoulder",)
    assert broken((100, 180), (48,), 0) == ()
    assert broken((100, 180), (49,), 0) == ("fullness",)


def test_places_at_their_limits() -> None:
    # derived: only the last round covers as many as there will be
    assert placed((100, 120, 140), 140)[1] == 27
    # derived: half-way up lie 2.56 and 5.25 rounds down, rounds 3 and 5; the first goes up
    assert placed((100, 120, 121, 407), 0) == (2, 5, 42)


def test_a_split_keeps_four_stitches_of_each_piece() -> None:
    # derived: a front of four is enough, and one of three is not
    assert split_meeting(44, (24, 18, 8), (24.0, 18.0, 8.0)) == ()
    assert split_meeting(28, (24, 18, 8), (24.0, 18.0, 8.0)) == ((24, 18, 8),)
    assert split_meeting(26, (22, 18, 8), (22.0, 18.0, 8.0)) == ()
    assert split_meeting(16, (24, 12, 8), (24.0, 12.0, 8.0)) == ((24, 12, 8),)
    assert split_meeting(14, (24, 11, 8), (24.0, 11.0, 8.0)) == ()
    # derived: the pin itself, beside a front and back of 24
    ((_, sleeve, _),) = split_meeting(None, (None, 18, None), (40.0, 14.0, 6.0), 24)
    assert sleeve == 18
    # derived: our choice in the program, a body of half as much again and two stitches at the most
    assert split_meeting(56, (None, 20, 4), (20.0, 20.0, 4.0)) == ((32, 20, 4),)
    assert split_meeting(57, (None, 20, 4), (20.0, 20.0, 4.0)) == ()


def body(stitches: int, *, rounds: int | None = None, **changes: object) -> BodyShape:
    asked = replace(STRAIGHT, **changes)  # type: ignore[arg-type]
    return body_shape(
        stitches=stitches,
        fit=asked,
        gauges=GAUGES,
        choices=SWEATER.garment.body,
        pinned_rounds=rounds,
    )


def test_the_smallest_bodies() -> None:
    # derived: three rounds above the hem, if it were longer than the body; the pin, if there is one
    assert body(200, length_cm=6.0).rounds.got == 3
    assert body(200, rounds=20).rounds.got == 20
    # derived: eight stitches of a hem, where a quarter less would be six
    assert body(8, gather=0.25).hem_stitches == 8
    # derived: four of each half stay at the waist
    waist = body(16, shape="waist", waist_cm=1.0, edge_cm=8.0)
    assert waist.waist is not None
    assert waist.waist.got == 8


def test_a_body_too_short_for_its_front_grows_as_often_as_it_can() -> None:
    grows = replace(LEVEL, grows_cm=8.0)
    made = body(200, rounds=8, bust=grows)
    # derived: eight increase rounds are wanted; rounds 2 to 6 hold two, two apart
    assert [change.number for change in made.changes] == [4, 6]


def test_a_dart_of_the_back_alone_begins_an_inch_down() -> None:
    made = body(200, bust=replace(LEVEL, back_cm=3.0))
    (dart,) = made.darts
    # common practice, no source: 2.5 cm below the underarm, 7.5 rounds; the next carries it out
    assert (dart.half, dart.number) == ("back", 9)


def test_the_smallest_edges() -> None:
    high = project(sized(garment__neck={"finish": "high", "rib": "2x2"})).garment.neck
    assert edge_multiple(high) == 4  # derived: a rib of two and two
    folded = project(sized(garment__body={"finish": "folded"})).garment.body
    # derived: half a centimetre is a round or two, and the facing one shorter, but not none
    edge = edge_shape(folded, GAUGES, depth_cm=0.6)
    assert (edge.rounds.got, edge.hidden, edge.bind_off) == (2, 1, "")


def test_the_smallest_front() -> None:
    made = front_neck("scooped", front=34, share=1, drop_rows=1.0, rows_per_cm=3.0)
    assert isinstance(made, FrontNeck)
    assert made.rows.got == 4  # common practice, no source: the fewest rows worth working flat
    assert isinstance(made.each(4, grown=6), int)


def test_what_is_no_raglan_has_no_raglan_yoke() -> None:
    read = project(sized())
    with pytest.raises(ValueError, match=r"^this garment is no raglan$"):
        raglan_yoke(read, fit(read, fill(read)[0]), gauges(read), ())


def test_an_underarm_that_leaves_half_a_body_is_not_refused() -> None:
    child = sized("children", "6", body__upper_arm="40 cm", garment__yoke__underarm="28 cm")
    read = project(child)
    finished = fit(read, fill(read)[0])
    # derived: four stitches are 1.8 cm
    assert finished.yoke.chest_cm / 3 < finished.yoke.underarm_cm + 1.8
    assert finished.yoke.underarm_cm + 1.8 < finished.yoke.chest_cm / 2
    assert wide_underarm(yoke_task(read, finished, gauges(read))) is None


@pytest.mark.parametrize("shoulder", range(30, 90, 4))
def test_a_short_yoke_by_percentage_says_when_the_shoulders_are_not_covered(shoulder: int) -> None:
    changes = {"proportions": "percentage 1971", "depth": "6 cm"}
    sections = edited(
        sized("babies", "3", garment__yoke=changes),
        swatch__plain__washed=swatch(1.0, rounds_per_cm=1.2),
        body__shoulder_girth=f"{shoulder + 10} cm",
    )
    made = draft(project(sections))
    shape = made.shaped.shape
    # derived: eight rounds at the least, of which three lie above the shoulders
    assert shape.yoke.rounds.got == 8
    there = shape.yoke.stitches_at(3)
    wanted = min(made.finished.yoke.shoulder_cm * 1.0, shape.split.yoke)
    assert made.shaped.broken == (() if there >= wanted else ("shoulder",))


def test_every_style_of_a_yoke_has_its_line_and_another_is_refused_loudly() -> None:
    read = project(sized())
    assert set(YOKES) == {"circular", "raglan"}
    for style in YOKES:
        assert project(edited(sized(), garment__yoke__style=style)).garment.yoke.style == style
    saddle = read.garment.yoke.model_copy(update={"style": "saddle"})
    asked = read.model_copy(update={"garment": read.garment.model_copy(update={"yoke": saddle})})
    with pytest.raises(KeyError, match="saddle"):
        yoke_of(asked, fit(read, fill(read)[0]), gauges(read))
