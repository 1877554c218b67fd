"""A schedule as the lines of a sheet, for the independent knitter: one line for each row."""

from __future__ import annotations

from itertools import groupby

from tests.knitter import Line, Part
from yokefellow.notation.phrase import phrase
from yokefellow.rows.model import Schedule, WorkedRow, walk


def parts_of(schedule: Schedule) -> tuple[Part, ...]:
    """Print every row of a schedule as the sheet words it, with the count that follows from it."""
    by_section = groupby(walk(schedule), key=lambda worked: id(worked.section))
    return tuple(_part(tuple(rows)) for _, rows in by_section)


def _part(rows: tuple[WorkedRow, ...]) -> Part:
    section = rows[0].section
    copies = () if section.copies == ("",) else section.copies
    return Part(section.key, section.start, tuple(map(_line, rows)), copies)


def _line(worked: WorkedRow) -> Line:
    what = phrase(worked.row, worked.before)
    return Line(worked.number, worked.number, worked.row.kind.value, what, worked.after)
