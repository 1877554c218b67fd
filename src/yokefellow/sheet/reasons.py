"""Why a row is there, and where the knitter stands after it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import groupby

from yokefellow.plan import Plan
from yokefellow.rows.model import Feature, WorkedRow, worked
from yokefellow.sheet.charting import joins
from yokefellow.sheet.edge_words import bind_off_name
from yokefellow.sheet.figures import percent
from yokefellow.sheet.words import with_signs

__all__ = ["WHOLE_EDGES", "progress", "reasons"]


def progress(rows: tuple[WorkedRow, ...]) -> tuple[str, ...]:
    """Say after each row where the knitter stands; the share counts stitches of both sleeves."""
    each = [worked(row.row.steps) * len(row.section.copies) for row in rows]
    whole, done, said = sum(each), 0, []
    for place, stitches in enumerate(each, start=1):
        done += stitches
        said.append(f"{_rows(place)} of {len(rows)} done · {percent(done, whole)}")
    return tuple(said)


def _rows(place: int) -> str:
    return f"rows 1–{place}" if place > 1 else "row 1"


def _joins(plan: Plan) -> dict[int, str]:
    """Say at which rows of the schedule a yarn is joined."""
    at = joins(plan)
    here = ((row.place, at.get((row.section.key, row.number))) for row in plan.rows)
    return {place: words for place, words in here if words}


WHOLE_EDGES = (Feature.CAST_ON, Feature.PROVISIONAL, Feature.BIND_OFF)
"""Rows that say for themselves what becomes of the count,"""
_SAY_THEMSELVES = (*WHOLE_EDGES, Feature.BAND)
"""and rows of which that, or the chart beside them, says why they are there."""


def reasons(plan: Plan) -> dict[int, str]:
    """Say why rows are there, by their place in the schedule."""
    return dict(_reasons(plan.rows)) | _joins(plan)


def _reasons(rows: tuple[WorkedRow, ...]) -> Iterator[tuple[int, str]]:
    """Say why a row is there: once for rows alike, and which of how many for shaping rows."""
    for _, section in groupby(rows, key=lambda row: row.section.key):
        said = ""
        together = tuple(section)
        shaped = Counter(_shaping(row) for row in together)
        done: Counter[tuple[str, bool]] = Counter()
        for row in together:
            words = "" if row.row.feature in _SAY_THEMSELVES else with_signs(row.row.why)
            if row.row.feature is Feature.BIND_OFF:
                words = bind_off_name(row.row.bind_off)
            if row.row.feature is Feature.SHAPE:
                done[_shaping(row)] += 1
                words = f"{words}, {done[_shaping(row)]} of {shaped[_shaping(row)]}"
            if words and words != said:
                yield row.place, words
            said = words or said


def _shaping(row: WorkedRow) -> tuple[str, bool]:
    return (row.row.why if row.row.feature is Feature.SHAPE else ""), row.after > row.before
