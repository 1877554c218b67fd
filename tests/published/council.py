"""Sizes, fit and needles beside the Craft Yarn Council's."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tests.published import published
from tests.published.check import Check, Entry
from tests.sweaters import IN
from yokefellow.body.size_tables import tables
from yokefellow.fit.ease import ease_cm
from yokefellow.project_file.measure_fields import us_needle_mm

COUNCIL = published("council")


def checks() -> Iterator[Check]:
    """Every row of the tables, the lengths, the fits, the heads and the needles."""
    for group, rows in COUNCIL["body"].items():
        for name, cells in rows.items():
            if name != "sizes":
                yield _row(group, name, cells)
    yield from _lengths()
    yield from _fits()
    yield from _heads()
    yield _needles("the needles at the ends of the yarn classes", COUNCIL["class_needles"])
    yield _needles("other needles", COUNCIL["needles"])


def _row(group: str, name: str, cells: list[Any]) -> Check:
    row = tables()[group].rows[name]
    printed: list[Entry] = [tuple(c) if isinstance(c, list) else c for c in cells]
    ours: list[Entry] = [
        (low / IN, high / IN) if isinstance(cell, tuple) else high / IN
        for cell, low, high in zip(printed, row.low_cm, row.high_cm, strict=True)
    ]
    return Check(f"{group}: {name.replace('_', ' ')}", tuple(printed), tuple(ours), "in")


def _lengths() -> Iterator[Check]:
    for group in ("women", "children"):
        printed = COUNCIL["length"]
        ours = tables()[group].body_lengths
        yield Check(
            f"{group}: hip and tunic below the waist",
            (printed[f"{group}_hip"], printed[f"{group}_tunic"]),
            (ours["hip"] / IN, ours["tunic"] / IN),
            "in",
        )


def _fits() -> Iterator[Check]:
    chests = [cm for table in tables().values() for cm in table.rows["chest"].middle_cm]
    for name, (least, most) in COUNCIL["fit"].items():
        eases = [ease_cm(name, cm) / IN for cm in chests]
        yield Check(
            f'fit "{name}": ease of the smallest and largest chest',
            (least, most),
            (min(eases), max(eases)),
            "in",
            inside=True,
        )


def _heads() -> Iterator[Check]:
    head = COUNCIL["head"]
    for group in ("women", "men"):
        row = tables()[group].rows["head"].middle_cm
        yield Check(
            f"{group}: head of the middle size",
            (head[group],),
            (row[len(row) // 2] / IN,),
            "in",
            within=head["within_in"],
            why=head["why"],
        )


def _needles(what: str, printed: dict[str, float]) -> Check:
    found = [us_needle_mm(f"US {size}") or 0.0 for size in printed]
    return Check(f"{what}: US {', '.join(printed)}", tuple(printed.values()), tuple(found), "mm")
