"""How far the sweater has come, from the log: what is finished, and which row is next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from yokefellow.knitting.log import Counted, Knitted, Log, Measured, Ripped, TriedOn, Weighed
from yokefellow.rows.model import Schedule, WorkedRow, walk
from yokefellow.yarn import Place

_PLACED = (Knitted, Ripped, Counted, Measured, TriedOn, Weighed)


class Standing(NamedTuple):
    """What is on the needles."""

    finished: Mapping[tuple[str, str], int]
    """By section and copy, how many of its rows are finished; every section is there."""
    last: Place | None
    """The row that was finished last; None before the cast-on."""
    next: Place | None
    """The row to work now; None when the sweater is done."""
    stitches: int
    """On the needle, as they were counted, else as they should be."""
    off_by: int
    """How many more than planned were counted on it; below zero fewer."""

    def rows_left(self, section: str, copy: str, rows: int) -> int:
        """Give how many of the rows of a section are still to be worked."""
        return rows - self.finished[section, copy]


def pieces(schedule: Schedule) -> tuple[tuple[tuple[str, str], ...], ...]:
    """Give the sections that are worked one after another on the same stitches, piece by piece.

    The first piece is all down to the split; the others (the body with its hem, each sleeve with
    its cuff, a neckband worked last) can be worked in any order after it.
    """
    trunk: list[tuple[str, str]] = []
    others: dict[tuple[str, str], list[tuple[str, str]]] = {}
    is_split = False
    for section in schedule.sections:
        for copy in section.copies:
            here = section.key, copy
            if not is_split:
                trunk.append(here)
            else:
                name = {"hem": "body", "cuff": "sleeve"}.get(section.key, section.key)
                others.setdefault((name, copy), []).append(here)
        is_split = is_split or section.key == "split"
    return (tuple(trunk), *map(tuple, others.values()))


def standing(schedule: Schedule, log: Log) -> Standing:
    """Say from the log what is finished.

    A row of a piece that is finished means that every row before it in that piece is, and all
    rows down to the split. Ripping back to a row above the split undoes whatever is below it.

    Raises:
        ValueError: an event is at a row that the sweater does not have.
    """
    rows = {(s.key, copy): len(s.rows) for s in schedule.sections for copy in s.copies}
    finished = dict.fromkeys(rows, 0)
    parts = pieces(schedule)
    last: Place | None = None
    off_by = 0
    expected = _counts(schedule)
    for event in log.of(*_PLACED):
        assert isinstance(event, _PLACED)  # noqa: S101 -- for the types only
        here = event.section, event.copy_
        if here not in rows or event.row > rows[here]:
            raise ValueError(f"the sweater has no row {event.row} in {' '.join(here).strip()}")
        _finish(finished, rows, parts, here, event.row, is_ripped=isinstance(event, Ripped))
        last = Place(event.section, event.row, event.copy_)
        if isinstance(event, Counted):
            off_by = event.stitches - expected[event.section, event.row]
        elif isinstance(event, Ripped):
            off_by = 0
    following = _next(finished, rows, parts, last)
    planned = expected[last.section, last.row] if last else 0
    return Standing(finished, last, following, planned + off_by, off_by)


def _counts(schedule: Schedule) -> dict[tuple[str, int], int]:
    """Give the planned stitches after every row."""
    return {(worked.section.key, worked.number): worked.after for worked in walk(schedule)}


def _finish(
    finished: dict[tuple[str, str], int],
    rows: Mapping[tuple[str, str], int],
    parts: Sequence[Sequence[tuple[str, str]]],
    here: tuple[str, str],
    row: int,
    *,
    is_ripped: bool,
) -> None:
    piece = next(part for part in parts if here in part)
    if piece is not parts[0]:
        finished.update({above: rows[above] for above in parts[0]})
    at = piece.index(here)
    finished.update({above: rows[above] for above in piece[:at]})
    finished[here] = row if is_ripped else max(row, finished[here])
    if is_ripped:
        undone = [*piece[at + 1 :], *(one for part in parts[1:] for one in part)]
        below = undone if piece is parts[0] else piece[at + 1 :]
        finished.update(dict.fromkeys(below, 0))


def _next(
    finished: Mapping[tuple[str, str], int],
    rows: Mapping[tuple[str, str], int],
    parts: Sequence[Sequence[tuple[str, str]]],
    last: Place | None,
) -> Place | None:
    """Go on in the piece that is in work, else with the first that is not done."""
    current = [part for part in parts if last and (last.section, last.copy) in part]
    for part in (*current, *parts):
        for here in part:
            if finished[here] < rows[here]:
                return Place(here[0], finished[here] + 1, here[1])
    return None


def row_at(schedule: Schedule, place: Place) -> WorkedRow:
    """Give a row by its place.

    Raises:
        ValueError: the sweater has no such row.
    """
    for worked in walk(schedule):
        if (worked.section.key, worked.number) == (place.section, place.row):
            return worked
    raise ValueError(f"the sweater has no row {place.row} in {place.section}")
