"""The rounds by section: rows worked alike on one line, every row with its own tick box."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import NamedTuple

from yokefellow.advice.context import Check
from yokefellow.advice.needles import NeedleChange
from yokefellow.notation.phrase import phrase
from yokefellow.plan import Plan
from yokefellow.quantities import yarn_length
from yokefellow.rows.model import Feature, Row, RowKind, Section, WorkedRow, flat_ops, worked
from yokefellow.sheet.balls import WEIGH_AFTER, ball_notes, blanks, to_weigh, weigh_words
from yokefellow.sheet.blocks import blocks
from yokefellow.sheet.charting import charts
from yokefellow.sheet.colourwork import ChartView, Colour
from yokefellow.sheet.figures import number, title_case
from yokefellow.sheet.lines import Halt, Item, Line, Note, SectionView
from yokefellow.sheet.needle_words import needle_note
from yokefellow.sheet.pattern_rows import row_notes
from yokefellow.sheet.reasons import WHOLE_EDGES, progress, reasons
from yokefellow.sheet.ticks import RUN, check_ticks, ticks
from yokefellow.sheet.tints import colours
from yokefellow.sheet.words import SECTION_TITLES, introduction
from yokefellow.what_if import Prospects

__all__ = ["sections"]

SHORT_SHADE = 12
"""Letters of a colour's name up to which it is told in each round of a band."""

_SIDES = {
    RowKind.RIGHT_SIDE: "RS",
    RowKind.WRONG_SIDE: "WS",
    RowKind.PART: "RS",
    RowKind.FLAT_RIGHT: "RS",
    RowKind.FLAT_WRONG: "WS",
}
"""A part row goes on from a turn to BOR, on the right side."""

_KIND_WORDS = {"count": "Count", "measure": "Measure", "try on": "Try on", "look": "Look"}


class _Desk(NamedTuple):
    """What the lines of every section are made from."""

    plan: Plan
    so_far: tuple[str, ...]
    """Where the knitter stands after each row of the schedule."""
    why: dict[int, str]
    """Why a row is there, by its place in the schedule."""
    checks: dict[tuple[str, int], tuple[Check, ...]]
    notes: Mapping[tuple[str, int], tuple[Note, ...]]
    """What changes before a row, by section and row."""
    weigh: tuple[str, ...]
    """The yarns worth weighing on the way."""
    charts: tuple[ChartView, ...]
    colours: Mapping[str, Colour]

    def changes_yarn(self, section: Section) -> bool:
        """Tell whether a section is worked with several yarns."""
        return len(_uses(self.plan, section)) > 1


def sections(plan: Plan, prospects: Prospects | None = None) -> tuple[SectionView, ...]:
    """Give every section of the rounds, in knitting order."""
    by_section = groupby(plan.rows, key=lambda row: row.section)
    in_order = sorted(plan.checks, key=_at)
    desk = _Desk(
        plan,
        progress(plan.rows),
        reasons(plan),
        {at: tuple(found) for at, found in groupby(in_order, key=_at)},
        _notes(plan, prospects),
        to_weigh(plan, prospects),
        charts(plan),
        colours(plan),
    )
    return tuple(_section(desk, section, tuple(rows)) for section, rows in by_section)


def _notes(plan: Plan, prospects: Prospects | None) -> dict[tuple[str, int], tuple[Note, ...]]:
    places = {(row.section.key, row.number): row.place for row in plan.rows}
    found: dict[tuple[str, int], tuple[Note, ...]] = {
        _at(change): (needle_note(plan, change, place=places[_at(change)]),)
        for change in plan.needles
    }
    for at, notes in row_notes(plan).items():
        found[at] = (*found.get(at, ()), *notes)
    for at, notes in ball_notes(plan, prospects).items():
        found[at] = (*found.get(at, ()), *notes)
    return found


def _at(place: Check | NeedleChange) -> tuple[str, int]:
    return place.section, place.number


def _uses(plan: Plan, section: Section) -> dict[str, float]:
    """Give the yarns of a section, and how many metres of each."""
    return {
        code: use.amount.metres
        for code, estimate in plan.yarns.items()
        for use in estimate.by_section
        if use.key == section.key and use.amount.metres > 0
    }


def _names_yarn(row: Row) -> bool:
    return any(op.yarn for op in flat_ops(row.steps))


def _yarns(plan: Plan, section: Section) -> str:
    """Say which yarns a section takes, and how much of each; a single one needs no name."""
    unit, several = plan.project.sheet.units, len(plan.yarns) > 1
    uses = (
        (f"{code}, " if several else "") + f"about {yarn_length(metres, unit)}"
        for code, metres in _uses(plan, section).items()
    )
    said = "; ".join(uses) + ("" if several else " of yarn")
    return said + (" for both" if len(section.copies) > 1 else "")


def _section(desk: _Desk, section: Section, rows: tuple[WorkedRow, ...]) -> SectionView:
    copies = tuple(copy for copy in section.copies if copy)
    first, last = rows[0].place, rows[-1].place
    only_rounds = all(row.row.kind is RowKind.ROUND for row in rows)
    whose = "rows" if last > first else "row"
    here = f"{first}–{last}" if last > first else f"{first}"
    items = tuple(_items(desk, section, rows))
    return SectionView(
        key=section.key,
        title=SECTION_TITLES[section.key],
        row_word="Round" if only_rounds else "Row",
        start=section.start,
        copies=copies,
        copy_names=tuple(title_case(copy) for copy in copies) or ("Done",),
        rows=f"{whose} {here} of {desk.plan.schedule.total_rows}",
        begins=f"{section.start} sts at the start" if section.start else "",
        yarn=_yarns(desk.plan, section),
        intro=introduction(desk.plan, section),
        items=items,
        blocks=blocks(
            items,
            tuple(chart for chart in desk.charts if chart.section == section.key),
            copies=len(copies),
            large=desk.plan.project.sheet.large_print,
        ),
        done=title_case(desk.so_far[last - 1]),
    )


def _items(desk: _Desk, section: Section, rows: tuple[WorkedRow, ...]) -> Iterator[Item]:
    yield from _halts(desk, section, 0, rows[0].place)
    for run in _alike(desk, rows):
        first, last = run[0], run[-1]
        yield from desk.notes.get((section.key, first.number), ())
        yield _line(desk, section, run)
        yield from _halts(desk, section, last.number, last.place)


def _alike(desk: _Desk, rows: tuple[WorkedRow, ...]) -> Iterator[tuple[WorkedRow, ...]]:
    """Put together rows that read the same, with no check and no note between."""
    run: list[WorkedRow] = []
    for row in rows:
        key = row.section.key
        breaks = (key, row.number - 1) in desk.checks or (key, row.number) in desk.notes
        if run and (breaks or _reading(run[-1]) != _reading(row)):
            yield tuple(run)
            run = []
        run.append(row)
    yield tuple(run)


def _reading(row: WorkedRow) -> tuple[Row, int, int]:
    """Give what is read of a row; in a band the chart beside it says where it belongs."""
    in_band = row.row.feature is Feature.BAND
    return (row.row._replace(why="") if in_band else row.row), row.before, row.after


def _line(desk: _Desk, section: Section, run: tuple[WorkedRow, ...]) -> Line:
    row, first, last = run[0].row, run[0].number, run[-1].number
    in_band = row.feature is Feature.BAND
    change = run[0].after - run[0].before
    round_word = "Round" if row.kind is RowKind.ROUND else "Row"
    return Line(
        kind=row.kind.value,
        first=first,
        last=last,
        numbers=f"{first}–{last}" if last > first else f"{first}",
        word=round_word + ("s" if last > first else ""),
        side="" if row.feature in WHOLE_EDGES else _SIDES.get(row.kind, ""),
        yarn=row.yarn if desk.changes_yarn(section) and not _names_yarn(row) else "",
        what=phrase(row, run[0].before),
        count=run[0].after,
        delta="" if row.feature in WHOLE_EDGES else _signed(change),
        why=desk.why.get(run[0].place, ""),
        ticks=tuple(ticks(section, run, copy) for copy in section.copies),
        stitches=worked(row.steps),
        so_far=desk.so_far[run[-1].place - 1],
        is_single=first == last,
        is_many=last - first >= RUN and len(section.copies) == 1 and not in_band,
        hands=_hands(desk, row) if in_band else (),
    )


def _hands(desk: _Desk, row: Row) -> tuple[Colour, ...]:
    """Give the yarns in hand in a row, the one that is worked first first."""
    named = dict.fromkeys(op.yarn for op in flat_ops(row.steps) if op.yarn)
    if named:
        # The words of the row name them; beside them stand the letters of the chart.
        return tuple(desk.colours[code]._replace(shade="") for code in named)
    colour = desk.colours[row.yarn]
    return (colour if len(colour.shade) <= SHORT_SHADE else colour._replace(shade=""),)


def _signed(change: int) -> str:
    if change == 0:
        return ""
    return f"+{number(change)}" if change > 0 else number(change)


def _halts(desk: _Desk, section: Section, after: int, place: int) -> Iterator[Halt]:
    checks = desk.checks.get((section.key, after), ())
    for order, check in enumerate(checks, start=1):
        yield Halt(
            kind=check.kind.replace(" ", "-"),
            word=_KIND_WORDS[check.kind],
            title="" if check.title == _KIND_WORDS[check.kind] else check.title,
            text=check.text,
            ticks=check_ticks(section, check.title, after=after, order=order, place=place),
            after=after,
        )
    if desk.weigh and section.key in WEIGH_AFTER and after == len(section.rows):
        order = len(checks) + 1
        yield Halt(
            kind="weigh",
            word="Weigh",
            title="",
            text=weigh_words(section, desk.weigh),
            ticks=check_ticks(section, "Weigh", after=after, order=order, place=place),
            after=after,
            blanks=tuple(blanks(section, desk.weigh)),
        )
