"""From a few measurements to a complete body: what is missing comes from the sizing tables."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from math import hypot, inf
from types import MappingProxyType
from typing import NamedTuple

from yokefellow.body.interpolate import Place, place, slope, value, value_within
from yokefellow.body.measurements import MEASURES, OWN_MEASURES, Figures, Measured, Origin
from yokefellow.body.size_tables import (
    Row,
    SizingTable,
    nearest_size,
    size_meant,
    size_named,
    sizing_table,
)
from yokefellow.body.usual import frame_cm
from yokefellow.findings import Finding, Mend, ProjectError, Severity, as_typed
from yokefellow.project_file.models import Project
from yokefellow.quantities import LengthUnit, length
from yokefellow.words import found, words


def size_differs(
    given: str, table: SizingTable, figures: Figures, unit: LengthUnit
) -> Iterator[Finding]:
    """Say so when the chest lies more than a size from the one the file names.

    A neighbouring size is no news: bodies lie between sizes.
    """
    size = size_named(table, given)
    if size is None:
        return
    if abs(table.sizes.index(size) - table.sizes.index(figures.nearest_size)) <= 1:
        return
    yield found(
        "sizing.size-differs",
        Severity.NOTE,
        "wearer.size",
        mends=(Mend("wearer.size", None),),
        size=size,
        chest=length(figures.cm("chest"), unit),
        nearest=figures.nearest_size,
    )


def beyond_table(table: SizingTable, figures: Figures, unit: LengthUnit) -> Iterator[Finding]:
    """Caution where a measured body lies more than half a size outside the table."""
    for leader in dict.fromkeys(row.by for row in table.rows.values()):
        middles = table.rows[leader].middle_cm
        where = place(middles, figures.cm(leader))
        if not where.beyond:
            continue
        filled = [name for name in figures.by_name if _led_by(table, figures, name) == leader]
        if not filled:
            continue
        end_cm = middles[0] if where.share < 0 else middles[-1]
        yield found(
            "sizing.beyond-table",
            Severity.CAUTION,
            f"body.{leader}",
            measure=_spaced(leader),
            length=length(figures.cm(leader), unit),
            where=where.words(table.sizes),
            table=table.name,
            end=length(end_cm, unit),
            filled=tuple(map(_spaced, filled)),
        )


def _led_by(table: SizingTable, figures: Figures, name: str) -> str:
    """Name the measurement a filled figure goes back to; empty for the knitter's own figure."""
    if figures.is_measured(name):
        return ""
    by = table.rows[name].by
    return by if figures.is_measured(by) else "chest"


def upper_arm_filled(table: SizingTable, figures: Figures, unit: LengthUnit) -> Iterator[Finding]:
    """Caution when the upper arm was not measured, with what a survey says of it.

    The council's upper arms run 1.7 to 2.8 cm small for women M to L and 4 to
    6 cm large at 4X and 5X beside women of the same hip in NHANES 2017-March
    2020 (US national survey, relaxed arm).
    """
    arm = figures.by_name["upper_arm"]
    if figures.is_measured("upper_arm"):
        return
    row = table.rows["upper_arm"]
    frame = frame_cm(figures.cm("chest"), figures.own_cm("high_chest"))
    where = place(table.rows["chest"].middle_cm, frame)
    surveyed_cm = value(row.surveyed_cm, where) if row.surveyed_cm and not where.beyond else None
    middle_cm, spread_cm = arm.cm if surveyed_cm is None else surveyed_cm, arm.spread_cm
    yield found(
        "sizing.upper-arm-filled",
        Severity.CAUTION,
        "body.upper_arm",
        arm=length(arm.cm, unit),
        source=arm.source,
        surveyed=None if surveyed_cm is None else length(surveyed_cm, unit),
        apart=length(abs(arm.cm - middle_cm), unit),
        is_above=arm.cm > middle_cm,
        least=None if spread_cm is None else length(middle_cm - spread_cm, unit),
        most=None if spread_cm is None else length(middle_cm + spread_cm, unit),
    )


def _spaced(name: str) -> str:
    return name.replace("_", " ")


GARMENT_FIGURES = ("neck_opening", "yoke_depth", "underarm_width", "back_raise")
"""The figures of `MEASURES` that belong to the garment and not to the body."""

_ARM = ("upper_arm", "elbow", "forearm", "wrist")
"""Downwards, none wider than the one above it."""


def fill(project: Project) -> tuple[Figures, tuple[Finding, ...]]:
    """Complete the body from the table of `wearer.table`.

    A missing measure lies on a straight line between the middles of the two
    neighbouring sizes by the chest, or by the measure its row names. Beyond
    the ends of the table the line of the last two sizes is carried on.

    Returns:
        Every figure in cm with its origin, and what the knitter should know.
        A finding may be an error: then the plan must stop after this stage.

    Raises:
        ProjectError: there is neither a chest nor a size of the table to go by.
    """
    table = sizing_table(project.wearer.table)
    unit = project.sheet.units
    own = _own(project)
    findings = list(_size_findings(project, table))
    chest = own.get("chest") or _chest_of_size(project, table, findings)
    known = {"chest": _frame(chest, own)}
    leaders: dict[str, _Leader] = {}
    for name in _order(table.name):
        row = table.rows[name]
        if name in own:
            known[name] = own[name]
            continue
        if row.by not in leaders:
            leaders[row.by] = _leader(table, row.by, known[row.by], unit)
        known[name] = _filled(row, table, leaders[row.by], own)
    known["chest"] = chest
    measured = {name: own[name] for name in OWN_MEASURES if name in own}
    figures = Figures(
        group=table.name,
        nearest_size=nearest_size(table, chest.cm),
        by_name=MappingProxyType({name: known[name] for name in MEASURES} | measured),
    )
    if project.wearer.size is not None:
        findings += size_differs(project.wearer.size, table, figures, unit)
    findings += beyond_table(table, figures, unit)
    findings += upper_arm_filled(table, figures, unit)
    return figures, tuple(findings)


def _frame(chest: Measured, own: Mapping[str, Measured]) -> Measured:
    """Give the chest that the rest of the body goes by: a full bust makes no wider shoulders."""
    high = own.get("high_chest")
    cm = frame_cm(chest.cm, high.cm if high else None)
    return chest if cm == chest.cm else chest._replace(name="frame", cm=cm)


def _own(project: Project) -> dict[str, Measured]:
    """Collect the knitter's own numbers: the body's, and the garment's where she gave a length."""
    body = project.body
    garment = project.garment
    given: dict[str, float | str | None] = {
        name: getattr(body, name)
        for name in (*MEASURES, *OWN_MEASURES)
        if name not in GARMENT_FIGURES
    }
    given["neck_opening"] = garment.neck.opening
    given["yoke_depth"] = garment.yoke.depth
    given["underarm_width"] = garment.yoke.underarm
    given["back_raise"] = garment.neck.back_raise
    return {
        name: Measured(name, cm, Origin.MEASURED)
        for name, cm in given.items()
        if isinstance(cm, (int, float))
    }


def _size_findings(project: Project, table: SizingTable) -> Iterable[Finding]:
    size = project.wearer.size
    if size is not None and size_named(table, size) is None:
        meant = size_meant(table, size)
        yield found(
            "sizing.unknown-size",
            Severity.ERROR,
            "wearer.size",
            mends=(Mend("wearer.size", f'"{meant}"'),) if meant else (),
            size=as_typed(size),
            table=table.name,
            sizes=table.size_words(", ".join(table.sizes)).removeprefix(table.name).strip(),
            meant=meant,
        )


def _chest_of_size(project: Project, table: SizingTable, findings: list[Finding]) -> Measured:
    size = size_named(table, project.wearer.size or "")
    if size is None:
        no_chest = found("sizing.no-chest", Severity.ERROR, "body.chest", sizes=table.sizes)
        raise ProjectError(findings or [no_chest])
    row = table.rows["chest"]
    source = words("body").middle_of_size(size=table.size_words(size), source=row.source.short)
    return Measured("chest", table.middle_cm("chest", size), Origin.FILLED, source)


@cache
def _order(group: str) -> tuple[str, ...]:
    """Put the rows of a table that others follow before them."""
    rows = sizing_table(group).rows
    names = (name for name in MEASURES if name != "chest")
    return tuple(sorted(names, key=lambda name: _follows(rows[name])))


def _follows(row: Row) -> bool:
    return row.by != "chest" or bool(row.moves_with)


class _Leader(NamedTuple):
    """The measure that others are filled by."""

    by: Measured
    middles: Sequence[float]
    where: Place
    words: str
    """Between which sizes, at which measure."""


def _leader(table: SizingTable, name: str, by: Measured, unit: LengthUnit) -> _Leader:
    middles = table.rows[name].middle_cm
    where = place(middles, by.cm)
    sizes = table.size_words(where.words(table.sizes))
    of_by = {"measure": by.name, "name": _spaced(by.name), "length": length(by.cm, unit)}
    is_filled = by.origin is Origin.FILLED
    at = words("body").between_sizes(sizes=sizes, is_filled=is_filled, **of_by)
    return _Leader(by, middles, where, at)


def _filled(row: Row, table: SizingTable, leader: _Leader, own: Mapping[str, Measured]) -> Measured:
    by, middles, where, at = leader
    source = [at, row.source.short]
    cm = value(row.middle_cm, where)
    if row.moves_with in own:
        cm += own[row.moves_with].cm - value(table.rows[row.moves_with].middle_cm, where)
        source.append(words("body").moved_with(name=_spaced(row.moves_with)))
    filled = Measured(row.name, cm, Origin.FILLED, ", ".join(source))
    if row.spread_cm:
        steep = slope(row.middle_cm, middles, where)
        filled = filled._replace(spread_cm=_spread(value_within(row.spread_cm, where), steep, by))
    return _held(filled, own)


def _spread(about_by: float, steep: float, by: Measured) -> float:
    """Add to a spread what the leading measure itself may be off, when that was filled too."""
    if by.origin is Origin.MEASURED or by.spread_cm is None:
        return about_by
    return hypot(about_by, steep * by.spread_cm)


def _held(filled: Measured, own: Mapping[str, Measured]) -> Measured:
    """Hold a filled girth of the arm between the knitter's own above and below it."""
    if filled.name not in _ARM:
        return filled
    at = _ARM.index(filled.name)
    most = min((own[name].cm for name in _ARM[:at] if name in own), default=inf)
    least = max((own[name].cm for name in _ARM[at + 1 :] if name in own), default=0.0)
    cm = min(max(filled.cm, least), most)
    if cm == filled.cm:
        return filled
    held = words("body").held_to_your_arm()
    return filled._replace(cm=cm, source=f"{filled.source}, {held}")
