"""The percentage system beside its worked examples."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from tests.published import published
from tests.published.check import Check
from tests.sweaters import IN, planned, sized
from yokefellow.body.size_tables import tables
from yokefellow.plan import Plan
from yokefellow.shaping.percentages import percentages

DATA = published("percentages")
WORKED = DATA["worked"]
BOOKS = ("percentage 1971", "percentage 1989")


def checks() -> Iterator[Check]:
    """Both books' counts, the shares at five bodies, whole sweaters, depth and underarm."""
    for book in BOOKS:
        yield Check(
            f"K = 200, {book}: counts, read top-down",
            tuple(reversed(WORKED["up"][book])),
            percentages(WORKED["body"], book=book).counts,
            "sts",
        )
    for row in DATA["shares"]:
        yield from _shares(row)
    for book in BOOKS:
        for rows_per_in, rounds in WORKED["rounds"].items():
            yield _sweater(book, rows_per_in, rounds)
    yield from _parts()
    yield from _small_depths()
    yield from _underarms()


def _shares(row: dict[str, Any]) -> Iterator[Check]:
    found = percentages(row["body"], book=BOOKS[0])
    yield Check(
        f"K = {row['body']}: underarm, sleeve, yoke, neck, cuff",
        tuple(row[name] for name in ("underarm", "sleeve", "yoke", "neck", "cuff")),
        (found.underarm, found.sleeve, found.counts[-1], found.neck, found.cuff),
        "sts",
    )
    split = by_percentage(row["body"], BOOKS[0], "7").shape.split
    yield Check(
        f"K = {row['body']}: Y of a whole sweater is (B - 2U) + 2(S - U)",
        (row["body"] - 2 * row["underarm"] + 2 * (row["sleeve"] - row["underarm"]),),
        (split.front + split.back + 2 * split.held,),
        "sts",
    )


@cache
def by_percentage(body: int, book: str, rows_per_in: str, *, style: str = "circular") -> Plan:
    """A sweater at 5 stitches to the inch with so many stitches round the body."""
    per_cm = WORKED["stitches_per_in"] / IN
    return planned(
        sized(
            size=None,
            body={"chest": f"{body / WORKED['stitches_per_in']} in"},
            ease={"chest": 0},
            swatch__plain__washed={
                "stitches": [f"{per_cm * 20:.6f} over 20 cm"],
                "rounds": [f"{float(rows_per_in) / IN * 20:.6f} over 20 cm"],
            },
            garment__yoke={"proportions": book, "depth": "quarter of chest", "style": style},
        )
    )


def _sweater(book: str, rows_per_in: str, rounds: int) -> Check:
    shape = by_percentage(WORKED["body"], book, rows_per_in).shape
    yoke, split = shape.yoke, shape.split
    counts = (yoke.increase_rounds[0].before, *(step.after for step in yoke.increase_rounds))
    return Check(
        f"a whole sweater, {book}, {rows_per_in} rows to the inch: rounds, body, sleeve, "
        "underarm, counts",
        (
            *(rounds, WORKED["body"], WORKED["sleeve"], WORKED["underarm"]),
            *reversed(WORKED["up"][book]),
        ),
        (yoke.rounds.got, split.body.got, split.sleeve.got, split.underarm.got, *counts),
    )


def _parts() -> Iterator[Check]:
    parts, split = DATA["parts"], by_percentage(WORKED["body"], BOOKS[0], "7").shape.split
    yield Check(
        "K = 200: front, back and each sleeve at the end of the yoke",
        (parts["front"], parts["back"], parts["sleeve"]),
        (split.front, split.back, split.held),
        "sts",
    )


def _small_depths() -> Iterator[Check]:
    """Of babies and children, with an ease of 2 in (common practice)."""
    depth = DATA["depth"]
    for group in ("babies", "children"):
        rows = tables()[group].rows
        chests = rows["chest"].middle_cm
        ours = zip(rows["yoke_depth"].middle_cm, rows["back_raise"].middle_cm, strict=True)
        yield Check(
            f"{group}: yoke depth at the back, a quarter of the body round",
            tuple(depth["share"] * (chest + 2 * IN) for chest in chests),
            tuple(front + raised for front, raised in ours),
            "cm",
            within=depth["small_within_cm"],
            why=depth["small_why"],
        )


def _underarms() -> Iterator[Check]:
    for group, table in tables().items():
        chests = table.rows["chest"].middle_cm
        shares = zip(table.rows["underarm_width"].middle_cm, chests, strict=True)
        yield Check(
            f"{group}: underarm as a share of the chest",
            (DATA["underarm"]["least"], DATA["underarm"]["most"]),
            tuple(underarm / chest for underarm, chest in shares),
            inside=True,
        )
