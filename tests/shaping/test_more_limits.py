"""What is said and chosen at the limits of a raglan, a sleeve, a neck and the bands."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import product

import pytest

from tests.raglan.raglans import banded, raglan
from tests.shaping.parts import task, yoke
from tests.shaping.test_sleeve import FULL, SWEATER, sleeve
from tests.sweaters import project, sized
from yokefellow.findings import PlanError, Severity
from yokefellow.gauge import gauges
from yokefellow.plan import draft
from yokefellow.project_file.pins import NOTHING, Fixed
from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.picked_up import EdgeLengths, picked_up
from yokefellow.shaping.model import BandShape, RaglanShape, YokeShape, stitches_at
from yokefellow.shaping.percentages import raglan_percentages
from yokefellow.shaping.pieces.sleeve import sleeve_shape
from yokefellow.shaping.pieces.taper import bent_taper
from yokefellow.shaping.raglan.rates import Rate, most_times, rates
from yokefellow.shaping.raglan.shares import least_piece
from yokefellow.shaping.refusals import Crowded
from yokefellow.shaping.short_rows import ShortRows, raglan_short_rows, short_rows
from yokefellow.shaping.yoke.constraints import of_the_yoke, splits_for
from yokefellow.shaping.yoke.places import place_bands

CM = project(sized())


def test_the_percentages_of_a_raglan() -> None:
    # published: E. Zimmermann, Knitting Without Tears, 1971 (retold), K = 200
    counts = raglan_percentages(200)
    assert (counts.back, counts.held, counts.back_neck, counts.sleeve_top) == (84, 50, 34, 0)
    assert any(raglan_percentages(body).sleeve_top for body in range(180, 200, 2))
    for body in range(180, 200, 2):
        one = raglan_percentages(body)
        assert one.back_neck == one.back - (one.held - one.sleeve_top)


def test_rates_at_their_limits() -> None:
    assert most_times(1) == 0
    assert rates(20, 40, late=True) == (Rate(2, 20),)  # derived: every 2nd of 40
    assert bent_taper(3, 3, [(1, 0)]) == (3,)  # derived: none by the first, then every other


def test_only_pins_of_the_yoke_are_met_with_it() -> None:
    assert of_the_yoke(Fixed(hem=100, cuff=40)) is NOTHING
    assert of_the_yoke(Fixed(hem=100, body=200)) == Fixed(body=200)


def test_front_and_back_that_are_pinned_leave_a_body() -> None:
    found = splits_for(yoke(fixed=Fixed(front=90, back=82)))
    assert found
    for *_, split in found.values():
        assert split.body.got - 2 * split.underarm.got == 172  # derived: 90 and 82


def test_a_split_without_room_does_not_end_the_search() -> None:
    found = splits_for(yoke(sleeve=11.0, underarm=7.0))
    # derived: sleeves of 10 or 12 and underarms of 6 or 8; ten leave only two beside eight
    held = {(split.sleeve.got, split.underarm.got) for *_, split in found.values()}
    assert (12, 6) in held or (12, 8) in held


def test_short_rows_of_a_very_small_neck() -> None:
    assert short_rows(raise_cm=4, rows_per_cm=2, neck_stitches=3) == ShortRows((2,), 8, 2)
    assert short_rows(raise_cm=4, rows_per_cm=2, neck_stitches=9).turns == (3,)
    # derived: from the front line, four stitches from BOR, to the second
    at_line = raglan_short_rows(raise_cm=4, rows_per_cm=2, back=6, sleeve=1, neck_stitches=9)
    assert at_line.turns == (4, 2)
    wider = raglan_short_rows(raise_cm=4, rows_per_cm=2, back=10, sleeve=1, neck_stitches=9)
    assert wider.turns == (6, 4, 2)


def test_a_band_that_grows_in_its_first_round() -> None:
    band = BandShape("one", 8, 5, Count(100, 100.0, 2.0), (120, 120))
    # derived: 20 stitches come in the first round, the eighth
    assert [stitches_at(number, 100, (), [band]) for number in (7, 8, 9)] == [100, 120, 120]
    made = draft(project(sized())).shaped.shape.yoke
    assert isinstance(made, YokeShape)
    count = Count(60, 60.0, 3.0)
    bare = YokeShape(count, (), made.short_rows, 27, 200.0, 100, (band,))
    assert (bare.stitches_at(7), bare.stitches_at(8)) == (100, 120)


def crowded(*depths: float | None, rounds: int = 12) -> Crowded:
    names = ("one", "two", "three")
    bands = [task(4, rounds, name=name, at_cm=at) for name, at in zip(names, depths, strict=False)]
    found = place_bands(bands, depth_cm=20.0, rounds_per_cm=3.0, first_round=2, least_rounds=8)
    assert isinstance(found, Crowded)
    return found


def test_bands_without_room_are_named_with_their_rounds() -> None:
    # derived: twelve rounds from the 16th on, and the next band would begin in the 18th
    assert crowded(5.0, 5.5) == Crowded("two", 0, -10, 8.0, 20.0, 5.5)
    # derived: forty rounds from the 58th of sixty on
    over = Crowded("one", 40, 3, 40 / 3, 20.0, 19.0, is_over_end=True)
    assert crowded(19.0, rounds=40) == over
    # derived: three of 24 rounds fill all 72, and the first of them may hold none
    assert crowded(None, None, None, rounds=24) == Crowded("three", 72, 71, 24.0, 20.0)
    # derived: sixty rounds, of which the band takes the last twelve and one more
    assert crowded(16.3).is_over_end


@pytest.mark.parametrize(
    ("rows", "across", "centre", "every"),
    [
        # derived: ten cm deep, two thirds of which are 6.67 cm; three quarters of a lean of 18
        # stitches are 6.75 cm, and of one of 16.5 stitches 6.19 cm
        (30, 8, 0, 1),
        (30, 18, 0, 2),
        (30, 16, 4, 2),
        (30, 16, 1, 1),
    ],
)
def test_how_often_the_point_decreases(rows: int, across: int, centre: int, every: int) -> None:
    edges = EdgeLengths(
        back=34, sleeve=16, front=0, rows=rows, across=across, centre=centre,
        stitches_per_cm=2.0, rows_per_cm=3.0,
    )  # fmt: skip
    mitre = picked_up(edges, multiple=2, point=True).mitre
    assert mitre is not None
    assert mitre.every == every


def made_with(width: int, opening: int, per_cm: float) -> str:
    """What is said of a raglan with such a line in such a neck; nothing where it is made."""
    sections = raglan(
        stitches_per_cm=per_cm,
        garment__yoke__line_width=width,
        garment__neck__opening=f"{opening} cm",
    )
    try:
        draft(project(sections))
    except PlanError as error:
        return error.findings[-1].remedy
    return ""


def test_the_widest_line_that_can_be_is_offered() -> None:
    named: set[int] = set()
    for opening, per_cm in product(range(20, 32, 2), (0.7, 0.9, 1.2)):
        said = made_with(6, opening, per_cm)
        if "line_width" not in said and not said.startswith("Write a wider"):
            continue
        fits = [width for width in range(1, 6) if not made_with(width, opening, per_cm)]
        named.add(max(fits, default=0))
        assert said == (
            f"Write line_width = {max(fits)}, or a wider neck opening."
            if fits
            else "Write a wider neck opening."
        )
    assert len(named) > 2


BY_SHARE = {"garment__yoke__proportions": "percentage 1971"}


@pytest.mark.parametrize("per_cm", [0.7, 0.8, 0.9, 1.0, 1.1])
def test_by_percentage_a_line_is_refused_only_where_stitches_lack(per_cm: float) -> None:
    for width in range(1, 7):
        try:
            read = project(
                raglan(stitches_per_cm=per_cm, garment__yoke__line_width=width, **BY_SHARE)
            )
            yoke_shape = draft(read).shaped.shape.yoke
        except PlanError as error:
            words = error.findings[-1].message
            began, needed = map(int, re.findall(r"with (\d+) .* needs (\d+)", words)[0])
            assert began < needed
        else:
            assert isinstance(yoke_shape, RaglanShape)
            # derived: two lines and a stitch between them
            assert min(yoke_shape.back.start, yoke_shape.front.start) >= 2 * width + 1


def test_by_percentage_the_front_is_wider_by_what_was_measured() -> None:
    made = draft(project(raglan(**BY_SHARE, body__front_chest="51 cm")))
    more = made.finished.yoke.front_more_cm * 2.2
    assert more > 4  # derived: a full bust
    split = made.shaped.shape.split
    assert abs(split.front - split.back - more) <= 1  # derived: half of it is rounded
    with pytest.raises(PlanError) as error:
        draft(project(raglan(**BY_SHARE, body__front_chest="80 cm")))
    assert error.value.findings[-1].code == "raglan.uneven"


def test_a_very_small_raglan_by_percentage() -> None:
    sections = raglan("babies", "3", stitches_per_cm=0.7, garment__yoke__line_width=1, **BY_SHARE)
    sections["body"] = {"chest": "36 cm"}
    assert draft(project(sections)).shaped.shape.split.body.got == 40  # derived: the least


def test_repeats_that_are_pinned_as_they_are_change_nothing() -> None:
    free = draft(project(banded({"chart": "beads"}))).shaped
    (band,) = free.shape.yoke.bands
    again = draft(project(banded({"chart": "beads", "repeats": band.repeats}))).shaped
    assert again == free


def test_increases_worked_in_a_stitch_need_a_stitch() -> None:
    # published: E. Zimmermann, Knitting Without Tears, 1971 (retold): K = 200, a neck of 34, 34
    # and nothing of the sleeves, eight stitches in every 2nd of 50 rounds
    pins = {"increases": list(range(76, 269, 8)), "body": 200, "sleeve": 66, "underarm": 16}
    asked = raglan(stitches_per_cm=2.0, fixed=pins, garment__yoke__depth="26 cm")
    assert draft(project(asked)).shaped.shape.split.yoke == 268
    asked["garment"]["yoke"]["line_increase"] = "front and back"
    with pytest.raises(PlanError) as error:
        draft(project(asked))
    (found,) = (one for one in error.value.findings if one.severity is Severity.ERROR)
    assert (found.code, found.field) == ("raglan.pinned-line", "garment.yoke.line_increase")
    assert found.message == (
        "By these counts a piece of the raglan begins with very few stitches at the neck, or with "
        "none, and a line as it was chosen needs stitches to be worked in."
    )


def test_the_smallest_sleeves() -> None:
    # derived: the two rounds that open it and one more
    assert sleeve(replace(FULL, length_cm=3.0, cuff_cm=3.0)).rounds.got == 3
    # derived: three ribs of two, or of four, go round at the least
    small = replace(FULL, edge_cm=1.0)
    assert sleeve(small, stitches=8).edge.got == 6
    wide = project(sized(garment__sleeves={"rib": "2x2"})).garment.sleeves
    made = sleeve_shape(stitches=16, fit=small, gauges=gauges(SWEATER), choices=wide)
    assert made.edge.got == 12


@pytest.mark.parametrize(
    ("rows", "multiple", "total"),
    [
        # derived: three stitches and a centimetre along either edge are five, which is less than
        # the least; three and three to either side are nine or ten
        (2, 2, 8),
        (2, 4, 11),
        (6, 2, 8),
        (8, 4, 11),
    ],
)
def test_the_fewest_stitches_of_a_band_with_a_point(rows: int, multiple: int, total: int) -> None:
    edges = EdgeLengths(
        back=2,
        sleeve=0,
        front=0,
        rows=rows,
        across=0,
        centre=1,
        stitches_per_cm=1.0,
        rows_per_cm=2.0,
    )
    assert picked_up(edges, multiple=multiple, point=True).total.got == total


def test_an_odd_line_leaves_the_larger_half_to_the_body() -> None:
    # derived: two lines of two or of one beside a piece, and two stitches between them
    assert (least_piece(3, body=True), least_piece(3, body=False)) == (6, 4)
