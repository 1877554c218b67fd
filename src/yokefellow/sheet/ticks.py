"""The tick boxes of a line."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from yokefellow.rows.model import RowKind, Section, WorkedRow
from yokefellow.sheet.figures import title_case
from yokefellow.sheet.lines import Box, Run, Ticks
from yokefellow.sheet.words import section_name

__all__ = ["RUN", "box_id", "check_ticks", "ticks"]

RUN = 5
"""Boxes in a run: as many as the eye counts at a glance."""


def box_id(*parts: object) -> str:
    """Name a box by its section, copy and row."""
    return "-".join(str(part).replace("_", "-") for part in parts if part != "")


def ticks(section: Section, run: tuple[WorkedRow, ...], copy: str) -> Ticks:
    """Give the boxes of some rows for one copy."""
    # A short line is one run; in a longer one the runs end at 5, 10, 15, ...
    fives = groupby(run, key=lambda row: len(run) > RUN and (row.number - 1) // RUN)
    runs = [_run(section, tuple(five), copy) for _, five in fives]
    if len(runs) == 1:
        # The line says the number of its first row.
        runs = [runs[0]._replace(first="")]
    return Ticks(copy, title_case(copy), tuple(runs))


def _run(section: Section, rows: Iterable[WorkedRow], copy: str) -> Run:
    boxes = tuple(
        Box(
            id=box_id(section.key, copy, row.number),
            label=f"{section_name(section.key, copy)} "
            f"{'round' if row.row.kind is RowKind.ROUND else 'row'} {row.number}",
            place=row.place,
            copy=copy,
        )
        for row in rows
    )
    return Run(boxes[0].id.rpartition("-")[2], boxes)


def check_ticks(
    section: Section, title: str, *, after: int, order: int, place: int
) -> tuple[Ticks, ...]:
    """Give one box for each copy to tick off a check.

    Args:
        section: the check stands in it.
        title: of the check.
        after: the row of the section after which it stands.
        order: which of the checks there it is, from 1.
        place: that row's place in the schedule.
    """
    return tuple(
        Ticks(
            copy,
            title_case(copy),
            (
                Run(
                    "",
                    (
                        Box(
                            box_id("check", section.key, copy, after, order),
                            f"{section_name(section.key, copy)}, {title}",
                            place,
                            copy,
                        ),
                    ),
                ),
            ),
        )
        for copy in section.copies
    )
