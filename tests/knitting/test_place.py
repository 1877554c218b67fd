"""From the log to the needle: every row of every kind of sweater, one after another."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from yokefellow.knitting import Counted, Knitted, Log, Logged, Ripped, pieces, row_at, standing
from yokefellow.knitting.log import Event
from yokefellow.plan import Plan, plan
from yokefellow.project_file.load import load
from yokefellow.rows.model import walk
from yokefellow.yarn import Place

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
START = datetime(2026, 3, 1, tzinfo=UTC)


def logged(*events: Event) -> Log:
    return Log(tuple(Logged(number, event) for number, event in enumerate(events, start=1)))


def at(minutes: int, place: Place) -> Knitted:
    time = START + timedelta(minutes=minutes)
    return Knitted(time=time, section=place.section, row=place.row, copy_=place.copy)


def made(path: Path) -> Plan:
    return plan(load(path))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_row_after_row_leads_through_the_whole_sweater(path: Path) -> None:
    schedule = made(path).schedule
    parts = pieces(schedule)
    now = standing(schedule, Log(()))
    assert now.last is None
    seen: list[Place] = []
    last: dict[int, Knitted] = {}
    while now.next is not None:
        seen.append(now.next)
        here = next(n for n, part in enumerate(parts) if now.next[::2] in part)
        last[here] = at(len(seen), now.next)
        now = standing(schedule, logged(*sorted(last.values(), key=lambda event: event.time)))
        assert now.finished[seen[-1].section, seen[-1].copy] == seen[-1].row
    # derived: each row of each section and copy once
    assert (
        len(seen) == len(set(seen)) == sum(len(s.rows) * len(s.copies) for s in schedule.sections)
    )


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_a_row_finished_in_every_section_finishes_the_sweater(path: Path) -> None:
    schedule = made(path).schedule
    ends = [
        Place(section.key, len(section.rows), copy)
        for section in schedule.sections
        for copy in section.copies
    ]
    now = standing(schedule, logged(*(at(n, place) for n, place in enumerate(ends))))
    assert now.next is None
    assert all(now.finished[place.section, place.copy] == place.row for place in ends)


def test_what_is_below_the_split_waits_for_what_is_above_it() -> None:
    schedule = made(EXAMPLES[-1]).schedule
    now = standing(schedule, logged(at(1, Place("sleeve", 5, "left"))))
    yoke = next(section for section in schedule.sections if section.key == "yoke")
    assert now.finished["yoke", ""] == len(yoke.rows)
    assert now.finished["body", ""] == 0  # derived: sleeves may come first
    assert now.next == Place("sleeve", 6, "left")


def test_ripping_back_into_the_yoke_undoes_what_hangs_on_it() -> None:
    schedule = made(EXAMPLES[-1]).schedule
    ripped = Ripped(time=START + timedelta(hours=9), section="yoke", row=30)
    now = standing(schedule, logged(at(1, Place("body", 12)), ripped))
    assert now.finished["yoke", ""] == 30  # derived: as logged
    assert now.finished["body", ""] == now.finished["split", ""] == 0
    assert now.next == Place("yoke", 31)


def test_the_stitches_are_those_that_were_counted() -> None:
    schedule = made(EXAMPLES[-1]).schedule
    planned = row_at(schedule, Place("yoke", 30)).after
    counted = Counted(time=START, section="yoke", row=30, stitches=planned - 2)
    now = standing(schedule, logged(counted))
    assert (now.stitches, now.off_by) == (planned - 2, -2)
    assert now.next == Place("yoke", 31)


def test_a_row_that_is_not_there_is_told() -> None:
    schedule = made(EXAMPLES[-1]).schedule
    with pytest.raises(ValueError, match="no row 4999 in yoke"):
        standing(schedule, logged(at(1, Place("yoke", 4999))))
    with pytest.raises(ValueError, match="no row 0 in yoke"):
        row_at(schedule, Place("yoke", 0))
    assert row_at(schedule, Place("yoke", 1)) in set(walk(schedule))
