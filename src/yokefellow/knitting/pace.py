"""How many hours are left, from what the log says of the hours that were knitted.

Before anything is known the pace is a range: hand knitters work some 600 to 1,700 plain stitches
an hour (common practice, no source). Each sitting that the log shows narrows it: the logarithm of
the pace is taken to be normal, the sittings to be independent.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, timedelta
from itertools import pairwise
from typing import NamedTuple

from yokefellow.knitting.log import Knitted, Log
from yokefellow.knitting.place import Standing, pieces, standing
from yokefellow.rows.model import Schedule
from yokefellow.yarn import Place
from yokefellow.yarn.progress import Run, in_order

USUAL_AN_HOUR = 1_000.0
"""Stitches an hour of an experienced hand in stockinette (common practice, no source)."""
USUAL_SPREAD = 0.4
"""Standard deviation of its logarithm between knitters: two in three from 670 to 1,490 (common
practice, no source)."""
SITTING_SPREAD = 0.3
"""Standard deviation of the logarithm between an hour and another one of the same knitter."""
LONGEST_PAUSE = timedelta(minutes=90)
"""Rows logged further apart than this were not knitted in one sitting."""
SHORTEST = timedelta(minutes=5)
"""A sitting shorter than this says nothing."""
Z_80 = 1.2816
"""Four in five of a normal distribution lie within so many standard deviations."""
EVENING_HOURS = 2.0


class Pace(NamedTuple):
    """Stitches an hour, as far as they are known."""

    an_hour: float
    spread: float
    """Standard deviation of the logarithm, of this knitter's mean pace."""
    measured_hours: float
    """Of knitting that the log shows; 0 while only the common pace is known."""

    def range_of(self, value: float) -> tuple[float, float]:
        """Give the range in which a number of hours lies in four of five cases."""
        factor = math.exp(Z_80 * self.spread)
        return value / factor, value * factor


class SectionPace(NamedTuple):
    """What is left of a section."""

    section: str
    copy: str
    rows: int
    stitches: int
    hours: float


class Milestone(NamedTuple):
    """The next row worth reaching."""

    place: Place
    rows: int
    """To knit until it is finished."""
    hours: float
    ends_section: bool


class Remaining(NamedTuple):
    """What is left of the sweater."""

    pace: Pace
    sections: tuple[SectionPace, ...]
    """Those that are not finished, in the order of the knitting."""
    hours: float
    range_hours: tuple[float, float]
    """Four in five times it takes between so many hours."""
    next_end: Milestone | None
    """The end of the section in work; None when the sweater is done."""
    this_evening: Milestone | None
    """The furthest row that two hours reach."""

    def done_on(self, today: date, *, hours_a_week: float) -> tuple[date, date, date]:
        """Give the day on which it is done: at best, most likely, and at worst."""
        low, high = self.range_hours
        first, likely, last = (
            today + timedelta(weeks=hours / hours_a_week) for hours in (low, self.hours, high)
        )
        return first, likely, last

    def hours_a_week(self, today: date, by: date) -> float:
        """Give how many hours a week a date asks for.

        Raises:
            ValueError: the date is not after today.
        """
        if by <= today:
            raise ValueError("the date is not after today")
        return self.hours / ((by - today) / timedelta(weeks=1))


def pace(schedule: Schedule, log: Log) -> Pace:
    """Measure the pace: the common one, and every sitting that the log shows."""
    precision = 1 / USUAL_SPREAD**2
    mean = math.log(USUAL_AN_HOUR) * precision
    measured = 0.0
    for stitches, took in _sittings(schedule, log):
        hours = took / timedelta(hours=1)
        # An hour says as much as `SITTING_SPREAD`; half an hour half as much.
        weight = hours / SITTING_SPREAD**2
        mean += math.log(stitches / hours) * weight
        precision += weight
        measured += hours
    return Pace(math.exp(mean / precision), precision**-0.5, measured)


def _sittings(schedule: Schedule, log: Log) -> Iterable[tuple[int, timedelta]]:
    """Give stitches and time between rows that were logged one soon after another."""
    runs = tuple(in_order(schedule))
    stitches = _by_section(runs)
    found: list[tuple[int, timedelta]] = []
    known: list[tuple[datetime, int]] = []
    events = [one for one in log.events if isinstance(one.event, Knitted)]
    for at in range(len(events)):
        done = standing(schedule, Log(tuple(events[: at + 1]))).finished
        worked = sum(_of_rows(stitches[here], 0, rows) for here, rows in done.items())
        known.append((events[at].event.time, worked))
    sitting_stitches, sitting_time = 0, timedelta()
    for (before, had), (after, has) in pairwise(known):
        took = after - before
        if timedelta() < took <= LONGEST_PAUSE and has > had:
            sitting_stitches += has - had
            sitting_time += took
        elif sitting_time >= SHORTEST:
            found.append((sitting_stitches, sitting_time))
            sitting_stitches, sitting_time = 0, timedelta()
        else:
            sitting_stitches, sitting_time = 0, timedelta()
    if sitting_time >= SHORTEST:
        found.append((sitting_stitches, sitting_time))
    return found


def _by_section(runs: Iterable[Run]) -> dict[tuple[str, str], list[int]]:
    """List the stitches worked in each row, by section and copy."""
    found: dict[tuple[str, str], list[int]] = {}
    for run in runs:
        worked = sum(spent.loops + spent.slipped for spent in run.by_yarn.values())
        found.setdefault((run.section, run.copy), []).extend([worked] * run.times)
    return found


def _of_rows(stitches: Sequence[int], first: int, last: int) -> int:
    return sum(stitches[first:last])


def hours(stitches: float, pace: Pace) -> float:
    """Give how long so many stitches take."""
    return stitches / pace.an_hour


def remaining(schedule: Schedule, log: Log) -> Remaining:
    """Say what is left, section by section, and what can be reached next.

    Raises:
        ValueError: an event is at a row that the sweater does not have.
    """
    now = standing(schedule, log)
    known = pace(schedule, log)
    stitches = _by_section(in_order(schedule))
    sections = []
    for here in (one for part in pieces(schedule) for one in part):
        rows = stitches[here]
        left = rows[now.finished[here] :]
        if left:
            took = hours(sum(left), known)
            sections.append(SectionPace(*here, len(left), sum(left), took))
    whole = sum(section.hours for section in sections)
    return Remaining(
        known,
        tuple(sections),
        whole,
        known.range_of(whole),
        _end(now, stitches, known),
        _evening(now, stitches, known),
    )


def _end(
    now: Standing, stitches: Mapping[tuple[str, str], Sequence[int]], known: Pace
) -> Milestone | None:
    if now.next is None:
        return None
    rows = stitches[now.next.section, now.next.copy]
    left = rows[now.next.row - 1 :]
    place = now.next._replace(row=len(rows))
    return Milestone(place, len(left), hours(sum(left), known), ends_section=True)


def _evening(
    now: Standing, stitches: Mapping[tuple[str, str], Sequence[int]], known: Pace
) -> Milestone | None:
    """Find the furthest row of the section that an evening reaches; one row at the least."""
    if now.next is None:
        return None
    rows = stitches[now.next.section, now.next.copy]
    first, worked, count = now.next.row - 1, 0, 0
    for more in rows[first:]:
        if count and hours(worked + more, known) > EVENING_HOURS:
            break
        worked, count = worked + more, count + 1
    place = now.next._replace(row=first + count)
    is_end = first + count == len(rows)
    return Milestone(place, count, hours(worked, known), ends_section=is_end)
