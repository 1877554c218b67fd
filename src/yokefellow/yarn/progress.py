"""How far the knitting has come: rows in the order in which the hands meet them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import NamedTuple

from yokefellow.rows.model import Feature, Schedule
from yokefellow.yarn.count_stitches import NOTHING, Counted, Part, count_row


class Place(NamedTuple):
    """A row of the sweater."""

    section: str
    row: int
    """Its number in the section, from 1."""
    copy: str = ""
    """`right` or `left` for a sleeve."""


class Run(NamedTuple):
    """Equal rows one after another."""

    section: str
    copy: str
    first: int
    """The number of its first row in the section."""
    times: int
    fabric: str
    by_yarn: Mapping[str, Counted]
    """What one of its rows spends."""
    is_short: bool = False
    """Whether they are short rows."""

    def place(self, at: int) -> Place:
        """Give the place of its row number `at`, from 0."""
        return Place(self.section, self.first + at, self.copy)


def in_order(schedule: Schedule) -> Iterator[Run]:
    """Go through the sweater as it is knitted: a sleeve with its cuff, then the other one."""
    for copies, group in groupby(schedule.sections, key=lambda section: section.copies):
        sections = tuple(group)
        for copy in copies:
            for section in sections:
                number = 1
                for row, same in groupby(section.rows):
                    times = sum(1 for _ in same)
                    is_short = row.feature is Feature.SHORT_ROW
                    yield Run(
                        section.key, copy, number, times, row.fabric, count_row(row), is_short
                    )
                    number += times


def done(schedule: Schedule, place: Place) -> tuple[Part, ...]:
    """Count what is knitted when the row at `place` is finished.

    Raises:
        ValueError: the sweater has no such row.
    """
    found: dict[str, dict[tuple[str, str], Counted]] = {}
    for run in in_order(schedule):
        here = (run.section, run.copy) == (place.section, place.copy)
        ends = here and run.first <= place.row < run.first + run.times
        times = place.row - run.first + 1 if ends else run.times
        counts = found.setdefault(run.section, {})
        for code, spends in run.by_yarn.items():
            at = (code, run.fabric)
            counts[at] = counts.get(at, NOTHING).plus(spends, times)
        if ends:
            return tuple(Part(key, counts) for key, counts in found.items())
    raise ValueError(f"the sweater has no row {place.row} in {place.section} {place.copy}".strip())
