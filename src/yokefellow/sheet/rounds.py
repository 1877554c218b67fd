"""The rounds by section: rows worked alike on one line, every row with its own tick box."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import groupby

from yokefellow.advice.checks import Check
from yokefellow.advice.needles import NeedleChange
from yokefellow.conductor import Plan
from yokefellow.notation.phrase import phrase
from yokefellow.schedule.rows import Feature, Row, RowKind, Section, WorkedRow, flat_ops, worked
from yokefellow.sheet.blocks import blocks
from yokefellow.sheet.charting import charts, joins
from yokefellow.sheet.colourwork import ChartView, Colour
from yokefellow.sheet.figures import needle, number, percent, title_case
from yokefellow.sheet.pieces import Box, Halt, Item, Line, NeedleNote, Run, SectionView, Ticks
from yokefellow.sheet.tints import colours
from yokefellow.sheet.words import SECTION_TITLES, introduction, section_name, with_signs
from yokefellow.wording import length, yarn_length

__all__ = ["needle_words", "sections"]

RUN = 5
"""Boxes in a run: as many as the eye counts at a glance."""

SHORT_SHADE = 12
"""Letters of a colour's name up to which it is told in each round of a band."""

_KIND_WORDS = {"count": "Count", "measure": "Measure", "try on": "Try on", "look": "Look"}


@dataclass(frozen=True, slots=True)
class _Desk:
    """What the lines of every section are made from."""

    plan: Plan
    so_far: tuple[str, ...]
    """Where the knitter stands after each row of the schedule."""
    why: dict[int, str]
    """Why a row is there, by its place in the schedule."""
    checks: dict[tuple[str, int], tuple[Check, ...]]
    needles: dict[tuple[str, int], NeedleChange]
    charts: tuple[ChartView, ...]
    colours: Mapping[str, Colour]

    def changes_yarn(self, section: Section) -> bool:
        """Tell whether a section is worked with several yarns."""
        return len(_uses(self.plan, section)) > 1


def sections(plan: Plan) -> tuple[SectionView, ...]:
    """Give every section of the rounds, in knitting order."""
    by_section = groupby(plan.rows, key=lambda row: row.section)
    in_order = sorted(plan.checks, key=_at)
    desk = _Desk(
        plan,
        _progress(plan.rows),
        dict(_reasons(plan.rows)) | _joins(plan),
        {at: tuple(found) for at, found in groupby(in_order, key=_at)},
        {_at(change): change for change in plan.needles},
        charts(plan),
        colours(plan),
    )
    return tuple(_section(desk, section, tuple(rows)) for section, rows in by_section)


def _at(place: Check | NeedleChange) -> tuple[str, int]:
    return place.section, place.number


def _progress(rows: tuple[WorkedRow, ...]) -> tuple[str, ...]:
    """Say after each row where the knitter stands; the share counts stitches of both sleeves."""
    each = [worked(row.row.steps) * len(row.section.copies) for row in rows]
    whole, done, said = sum(each), 0, []
    for place, stitches in enumerate(each, start=1):
        done += stitches
        said.append(f"row {place} of {len(rows)} · {percent(done, whole)} done")
    return tuple(said)


def _joins(plan: Plan) -> dict[int, str]:
    """Say at which rows of the schedule a yarn is joined."""
    at = joins(plan)
    rows = (row for row in plan.rows if row.section.key == "yoke" and row.number in at)
    return {row.place: at[row.number] for row in rows}


_WHOLE_EDGES = (Feature.CAST_ON, Feature.BIND_OFF)
"""Rows that say for themselves what becomes of the count,"""
_SAY_THEMSELVES = (*_WHOLE_EDGES, Feature.BAND)
"""and rows of which that, or the chart beside them, says why they are there."""


def _reasons(rows: tuple[WorkedRow, ...]) -> Iterator[tuple[int, str]]:
    """Say why a row is there: once for rows alike, and which of how many for shaping rows."""
    for _, section in groupby(rows, key=lambda row: row.section.key):
        said = ""
        together = tuple(section)
        shaped = Counter(_shaping(row) for row in together)
        done: Counter[tuple[str, bool]] = Counter()
        for row in together:
            words = "" if row.row.feature in _SAY_THEMSELVES else with_signs(row.row.why)
            if row.row.feature is Feature.SHAPE:
                done[_shaping(row)] += 1
                words = f"{words}, {done[_shaping(row)]} of {shaped[_shaping(row)]}"
            if words and words != said:
                yield row.place, words
            said = words or said


def _shaping(row: WorkedRow) -> tuple[str, bool]:
    return (row.row.why if row.row.feature is Feature.SHAPE else ""), row.after > row.before


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
    """Say which yarns a section takes, and how much of each."""
    unit = plan.project.sheet.units
    uses = (f"{code}, about {yarn_length(m, unit)}" for code, m in _uses(plan, section).items())
    return "; ".join(uses) + (" for both" if len(section.copies) > 1 else "")


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
        rows=f"{whose} {here} of {len(desk.plan.rows)}",
        begins=f"begins with {section.start} stitches" if section.start else "",
        yarn=_yarns(desk.plan, section),
        intro=introduction(desk.plan, section),
        items=items,
        blocks=blocks(
            items,
            desk.charts if section.key == "yoke" else (),
            copies=len(copies),
            large=desk.plan.project.sheet.large_print,
        ),
        done=title_case(desk.so_far[last - 1]),
    )


def _items(desk: _Desk, section: Section, rows: tuple[WorkedRow, ...]) -> Iterator[Item]:
    yield from _halts(desk, section, 0, rows[0].place)
    for run in _alike(desk, rows):
        first, last = run[0], run[-1]
        change = desk.needles.get((section.key, first.number))
        if change is not None:
            yield NeedleNote(first.number, _needle_note(desk, change, first.place))
        yield _line(desk, section, run)
        yield from _halts(desk, section, last.number, last.place)


def _alike(desk: _Desk, rows: tuple[WorkedRow, ...]) -> Iterator[tuple[WorkedRow, ...]]:
    """Put together rows that read the same, with no check and no change of needle between."""
    run: list[WorkedRow] = []
    for row in rows:
        key = row.section.key
        breaks = (key, row.number - 1) in desk.checks or (key, row.number) in desk.needles
        if run and (breaks or _reading(run[-1]) != _reading(row)):
            yield tuple(run)
            run = []
        run.append(row)
    yield tuple(run)


def _reading(row: WorkedRow) -> tuple[Row, int, int]:
    """Give what is read of a row; in a band the chart beside it says where it belongs."""
    in_band = row.row.feature is Feature.BAND
    return (replace(row.row, why="") if in_band else row.row), row.before, row.after


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
        side=row.kind.value if row.kind in (RowKind.RIGHT_SIDE, RowKind.WRONG_SIDE) else "",
        yarn=row.yarn if desk.changes_yarn(section) and not _names_yarn(row) else "",
        what=phrase(row, run[0].before),
        count=run[0].after,
        delta="" if row.feature in _WHOLE_EDGES else _signed(change),
        why=desk.why.get(run[0].place, ""),
        ticks=tuple(_ticks(section, run, copy) for copy in section.copies),
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
        return tuple(replace(desk.colours[code], shade="") for code in named)
    colour = desk.colours[row.yarn]
    return (colour if len(colour.shade) <= SHORT_SHADE else replace(colour, shade=""),)


def _signed(change: int) -> str:
    if change == 0:
        return ""
    return f"+{number(change)}" if change > 0 else number(change)


def _box_id(*parts: object) -> str:
    return "-".join(str(part).replace("_", "-") for part in parts if part != "")


def _ticks(section: Section, run: tuple[WorkedRow, ...], copy: str) -> Ticks:
    # A short line is one run; in a longer one the runs end at 5, 10, 15, ...
    fives = groupby(run, key=lambda row: len(run) > RUN and (row.number - 1) // RUN)
    runs = [_run(section, tuple(five), copy) for _, five in fives]
    if len(runs) == 1:
        # The line says the number of its first row.
        runs = [replace(runs[0], first="")]
    return Ticks(copy, title_case(copy), tuple(runs))


def _run(section: Section, rows: Iterable[WorkedRow], copy: str) -> Run:
    boxes = tuple(
        Box(
            id=_box_id(section.key, copy, row.number),
            label=f"{section_name(section.key, copy)} "
            f"{'round' if row.row.kind is RowKind.ROUND else 'row'} {row.number}",
            place=row.place,
            copy=copy,
        )
        for row in rows
    )
    return Run(boxes[0].id.rpartition("-")[2], boxes)


def _halts(desk: _Desk, section: Section, after: int, place: int) -> Iterator[Halt]:
    for order, check in enumerate(desk.checks.get((section.key, after), ()), start=1):
        yield Halt(
            kind=check.kind.replace(" ", "-"),
            word=_KIND_WORDS[check.kind],
            title="" if check.title == _KIND_WORDS[check.kind] else check.title,
            text=check.text,
            ticks=tuple(
                Ticks(
                    copy,
                    title_case(copy),
                    (
                        Run(
                            "",
                            (
                                Box(
                                    _box_id("check", section.key, copy, after, order),
                                    f"{section_name(section.key, copy)}, {check.title}",
                                    place,
                                    copy,
                                ),
                            ),
                        ),
                    ),
                )
                for copy in section.copies
            ),
            after=after,
        )


def needle_words(change: NeedleChange, plan: Plan) -> str:
    """Name a needle: its size and, for a circular one, its length."""
    unit = plan.project.sheet.units
    size = needle(change.mm, unit)
    if not change.length_cm:
        return f"{size}, double-pointed, or a long circular needle worked as a loop"
    return f"{size}, circular, {length(change.length_cm, unit)} long"


def _needle_note(desk: _Desk, change: NeedleChange, place: int) -> str:
    words = needle_words(change, desk.plan)
    return f"Begin with needle {words}." if place == 1 else f"From here on: needle {words}."
