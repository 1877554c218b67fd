"""Hours: from the common pace to her own."""

from __future__ import annotations

import math
from datetime import UTC, date, datetime, timedelta
from itertools import islice
from pathlib import Path
from random import Random

import pytest

from yokefellow.knitting import Knitted, Log, Logged, pace, remaining
from yokefellow.knitting.pace import SITTING_SPREAD, USUAL_AN_HOUR, USUAL_SPREAD
from yokefellow.plan import plan
from yokefellow.project_file.load import load
from yokefellow.rows.model import Schedule
from yokefellow.yarn.progress import in_order

EXAMPLE = Path(__file__).parents[2] / "examples" / "warm-evenings.toml"
START = datetime(2026, 3, 1, 18, tzinfo=UTC)


@pytest.fixture(scope="module")
def schedule() -> Schedule:
    return plan(load(EXAMPLE)).schedule


def yoke_stitches(schedule: Schedule, first: int, last: int) -> int:
    """Count the stitches of yoke rounds `first` to `last`, both with it."""
    runs = [run for run in in_order(schedule) if run.section == "yoke"]
    rows = [run.by_yarn["MC"].loops for run in runs for _ in range(run.times)]
    return sum(rows[first - 1 : last])


def log_of(*rows: tuple[int, float]) -> Log:
    """Log rounds of the yoke, each with the hours since the start."""
    events = (
        Knitted(time=START + timedelta(hours=hours), section="yoke", row=row) for row, hours in rows
    )
    return Log(tuple(Logged(number, event) for number, event in enumerate(events, start=1)))


def test_before_anything_is_known_the_pace_is_the_common_one(schedule: Schedule) -> None:
    known = pace(schedule, Log(()))
    assert known.an_hour == pytest.approx(USUAL_AN_HOUR)
    assert known.spread == pytest.approx(USUAL_SPREAD)
    # derived: e to the 1.2816 × 0.4 is 1.67
    assert known.range_of(10) == pytest.approx((10 / 1.67, 16.7), rel=0.01)


def test_an_hour_on_the_log_draws_the_pace_towards_it(schedule: Schedule) -> None:
    stitches = yoke_stitches(schedule, 21, 30)
    known = pace(schedule, log_of((20, 0), (30, 1)))
    # derived: two normals weighted by what they know
    prior, hour = 1 / USUAL_SPREAD**2, 1 / SITTING_SPREAD**2
    mean = (math.log(USUAL_AN_HOUR) * prior + math.log(stitches) * hour) / (prior + hour)
    assert known.an_hour == pytest.approx(math.exp(mean))
    assert known.spread == pytest.approx((prior + hour) ** -0.5)
    assert known.measured_hours == pytest.approx(1)


def test_a_night_between_two_rows_says_nothing(schedule: Schedule) -> None:
    assert pace(schedule, log_of((20, 0), (30, 11))) == pace(schedule, Log(()))
    assert pace(schedule, log_of((20, 0), (20, 1))) == pace(schedule, Log(()))


def test_it_narrows_with_each_evening(schedule: Schedule) -> None:
    evenings: list[tuple[int, float]] = []
    spreads = []
    for evening in range(5):
        evenings += [(10 + 6 * evening, 24 * evening), (13 + 6 * evening, 24 * evening + 1)]
        spreads.append(pace(schedule, log_of(*evenings)).spread)
    assert spreads == sorted(spreads, reverse=True)


def test_the_range_holds_the_truth_as_often_as_it_says(schedule: Schedule) -> None:
    """Knitters drawn as stated: each has a mean pace, each evening differs from it."""
    dice, held, tries = Random(7), 0, 400
    for _ in range(tries):
        own = math.log(USUAL_AN_HOUR) + dice.gauss(0, USUAL_SPREAD)
        rows: list[tuple[int, float]] = []
        row = 10
        for evening in range(3):
            rate = math.exp(own + dice.gauss(0, SITTING_SPREAD))
            # An hour of it, as many whole rounds as that gives; the rest of a round is time.
            stitches, more = 0.0, 0
            while stitches + yoke_stitches(schedule, row + more + 1, row + more + 1) < rate:
                more += 1
                stitches += yoke_stitches(schedule, row + more, row + more)
            if not more:
                continue
            rows += [(row, 24 * evening), (row + more, 24 * evening + stitches / rate)]
            row += more
        known = pace(schedule, log_of(*rows))
        low, high = known.range_of(1.0)
        held += low <= known.an_hour / math.exp(own) <= high
    # derived: four in five, within three standard errors of 400 tries
    assert abs(held / tries - 0.8) < 3 * math.sqrt(0.8 * 0.2 / tries)


def test_what_is_left_adds_up_and_shrinks(schedule: Schedule) -> None:
    ahead = remaining(schedule, Log(()))
    rows = sum(len(s.rows) * len(s.copies) for s in schedule.sections)
    assert sum(section.rows for section in ahead.sections) == rows
    assert ahead.hours == pytest.approx(sum(section.hours for section in ahead.sections))
    later = remaining(schedule, log_of((40, 0)))
    assert later.hours < ahead.hours
    assert later.next_end is not None
    yoke = next(section for section in later.sections if section.section == "yoke")
    assert later.next_end.rows == yoke.rows


def test_an_evening_is_two_hours_or_a_round(schedule: Schedule) -> None:
    ahead = remaining(schedule, log_of((40, 0))).this_evening
    assert ahead is not None
    stitches = yoke_stitches(schedule, 41, ahead.place.row)
    assert (
        stitches
        <= 2 * USUAL_AN_HOUR
        < stitches + yoke_stitches(schedule, ahead.place.row + 1, ahead.place.row + 1)
    )


def test_a_date_and_the_hours_of_a_week_say_the_same(schedule: Schedule) -> None:
    ahead, today = remaining(schedule, Log(())), date(2026, 3, 1)
    _, likely, _ = ahead.done_on(today, hours_a_week=5)
    # derived: the date is that of the 5 hours, to a day of rounding
    assert ahead.hours_a_week(today, likely) == pytest.approx(5, rel=0.05)
    first, likely, last = ahead.done_on(today, hours_a_week=7)
    assert first < likely < last
    with pytest.raises(ValueError, match="not after today"):
        ahead.hours_a_week(today, today)


def test_the_finished_sweater_needs_no_hours(schedule: Schedule) -> None:
    ends = [(s.key, len(s.rows), copy) for s in schedule.sections for copy in s.copies]
    events = (
        Knitted(time=START + timedelta(days=n), section=key, row=row, copy_=copy)
        for n, (key, row, copy) in enumerate(ends)
    )
    log = Log(tuple(Logged(number, event) for number, event in enumerate(islice(events, 99), 1)))
    ahead = remaining(schedule, log)
    assert (ahead.sections, ahead.hours, ahead.next_end) == ((), 0, None)
