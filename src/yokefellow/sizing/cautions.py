"""What the knitter should know about filled figures."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.findings import Finding, Severity
from yokefellow.sizing.bust import frame_cm
from yokefellow.sizing.figures import Figures
from yokefellow.sizing.place import place, value
from yokefellow.sizing.tables import SizingTable, size_named
from yokefellow.units import LengthUnit
from yokefellow.wording import length

__all__ = ["beyond_table", "size_differs", "upper_arm_filled"]


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
    yield Finding(
        "sizing.size-differs",
        Severity.NOTE,
        "wearer.size",
        f"The file gives the size {size} and a chest of {length(figures.cm('chest'), unit)},"
        f" which is nearest {figures.nearest_size}. The sweater goes by the chest.",
        "Nothing needs to change; without wearer.size this note goes away.",
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
        yield Finding(
            "sizing.beyond-table",
            Severity.CAUTION,
            f"body.{leader}",
            f"The {_spaced(leader)}, {length(figures.cm(leader), unit)}, lies"
            f" {where.words(table.sizes)} of the table {table.name!r}, which ends at"
            f" {length(end_cm, unit)}. These are carried on from its last two sizes and are"
            f" guesses: {', '.join(map(_spaced, filled))}.",
            "Measure them, or choose a nearer table with wearer.table.",
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
    said = [f"The upper arm was not measured: {length(arm.cm, unit)} is filled in ({arm.source})."]
    row = table.rows["upper_arm"]
    frame = frame_cm(figures.cm("chest"), figures.own_cm("high_chest"))
    where = place(table.rows["chest"].middle_cm, frame)
    usual_cm = arm.cm
    if row.surveyed_cm and not where.beyond:
        usual_cm = value(row.surveyed_cm, where)
        side = "above" if arm.cm > usual_cm else "below"
        said.append(
            "Arms measured on bodies of this size in a national health survey have a mean of"
            f" {length(usual_cm, unit)}, so the filled one lies"
            f" {length(abs(arm.cm - usual_cm), unit)} {side} it."
        )
    if arm.spread_cm is not None:
        low, high = usual_cm - arm.spread_cm, usual_cm + arm.spread_cm
        said.append(
            f"About two bodies in three have an arm between {length(low, unit)}"
            f" and {length(high, unit)}."
        )
    yield Finding(
        "sizing.upper-arm-filled",
        Severity.CAUTION,
        "body.upper_arm",
        " ".join(said),
        "Measure round the widest part of the upper arm, the arm hanging, and write it as"
        " body.upper_arm: the sleeve's width and the whole lower yoke follow from it.",
    )


def _spaced(name: str) -> str:
    return name.replace("_", " ")
