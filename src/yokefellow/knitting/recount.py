"""When the needle holds another count than the row says: what happened, and what mends it."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from yokefellow.rows.model import Feature, Repeat, RowKind, Schedule, Step, WorkedRow, walk
from yokefellow.rows.steps import change_evenly
from yokefellow.yarn import Place

TOO_FAR = 0.25
"""A count further off than this share is more likely another row's."""
NEAR_ENOUGH = 3
"""So many stitches can be made or taken away in one plain round without being seen (common
practice, no source: one or two in a hundred)."""


class Likely(StrEnum):
    """What most likely happened."""

    MISSED = "increases missed"
    """As many stitches fewer as the last rounds of increases could have left out."""
    EXTRA = "increases too many"
    SKIPPED = "repeats skipped"
    """A multiple of the repeat of the last increase round is missing."""
    UNKNOWN = "unknown"


class Recount(NamedTuple):
    """A count that is not the planned one."""

    place: Place
    planned: int
    counted: int
    likely: Likely
    repeats: int
    """How many repeats were skipped, or increases missed or made too many."""
    since: Place | None
    """The last row that changed the count: there or after it the slip was made."""
    mend_at: Place | None
    """The next plain round, in which it can be mended; None where none is left in time."""
    mend: tuple[Step, ...]
    """How that round is then worked; empty where there is none."""
    before_band: bool
    """Whether it must be mended there, because a band with a repeat follows."""

    @property
    def off_by(self) -> int:
        """How many stitches too many; below zero too few."""
        return self.counted - self.planned


def recount(schedule: Schedule, place: Place, counted: int) -> Recount:
    """Say what a wrong count means.

    Args:
        schedule: the sweater.
        place: the row after which it was counted.
        counted: the stitches that were found.

    Raises:
        ValueError: the sweater has no such row, or the count is further off than `TOO_FAR`: then
            it is more likely the place that is wrong.
    """
    rows = [row for row in walk(schedule) if row.section.key == place.section]
    if not 1 <= place.row <= len(rows):
        raise ValueError(f"the sweater has no row {place.row} in {place.section}")
    planned = rows[place.row - 1].after
    off = counted - planned
    if abs(off) > TOO_FAR * planned:
        raise ValueError(f"{counted} stitches are far from the {planned} of that row")
    changed = [row for row in rows[: place.row] if row.after != row.before]
    last = changed[-1] if changed else None
    likely, repeats = _likely(off, last)
    mend_at, before_band = _plain(rows, place.row)
    steps: tuple[Step, ...] = ()
    if mend_at is not None and off:
        steps = change_evenly(counted, planned)
    return Recount(
        place,
        planned,
        counted,
        likely,
        repeats,
        Place(place.section, last.number, place.copy) if last else None,
        Place(place.section, mend_at.number, place.copy) if mend_at else None,
        steps,
        before_band,
    )


def _likely(off: int, last: WorkedRow | None) -> tuple[Likely, int]:
    """Tell a missed increase from a skipped repeat by the difference."""
    if off == 0 or last is None:
        return Likely.UNKNOWN, 0
    added = last.after - last.before
    for step in last.row.steps:
        if isinstance(step, Repeat) and off < 0 < added:
            each = added // step.times if added % step.times == 0 else 0
            if each > 1 and -off % each == 0 and -off // each < step.times:
                return Likely.SKIPPED, -off // each
    if 0 < -off <= max(added, 0):
        return Likely.MISSED, -off
    return (Likely.EXTRA, off) if off > 0 else (Likely.UNKNOWN, 0)


def _plain(rows: list[WorkedRow], done: int) -> tuple[WorkedRow | None, bool]:
    """Find the next plain round before a row whose steps need the count; and whether one follows.

    A band's repeat must fit, and so must a round of increases: it is mended before either.
    """
    for row in rows[done:]:
        is_plain = row.row.feature is Feature.PLAIN and row.row.fabric == "plain"
        if is_plain and row.row.kind is RowKind.ROUND and row.before == row.after:
            ahead = rows[row.number :]
            return row, any(one.row.fabric not in {"plain", "rib", "garter"} for one in ahead)
        if row.before != row.after or row.row.fabric != "plain":
            return None, True
    return None, False
