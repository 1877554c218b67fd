"""Arms and heads beside a national survey of health."""

from __future__ import annotations

from collections.abc import Iterator

from tests.published import published
from tests.published.check import Check
from tests.published.lines import between, on_line
from yokefellow.body.size_tables import tables

NATION = published("nation")


def checks() -> Iterator[Check]:
    """The council's arms by the hip, and the smallest head."""
    yield from _women()
    yield from _men()
    for group in ("women", "men"):
        yield _by_hip(group)
    yield Check(
        "babies: head of the smallest size beside that from birth to 6 months",
        (NATION["heads"]["mean"],),
        (tables()["babies"].rows["head"].middle_cm[0],),
        "cm",
    )


def _women() -> Iterator[Check]:
    survey, row = NATION["women"], tables()["women"].rows["upper_arm"]
    yield Check(
        "women: mean arm at the hip of each size, as the program tells it",
        tuple(survey["arm"]),
        row.surveyed_cm,
        "cm",
    )
    yield Check(
        "women: its standard deviation", tuple(survey["arm_sd"]), tuple(row.spread_cm), "cm"
    )
    yield Check(
        "women: the survey's arm less the filled one",
        tuple(survey["less_council"]),
        tuple(mean - cm for mean, cm in zip(survey["arm"], row.middle_cm, strict=True)),
        "cm",
        within=NATION["bounds"]["rounded"],
        why=NATION["bounds"]["rounded_why"],
    )


def _men() -> Iterator[Check]:
    survey, rows = NATION["men"], tables()["men"].rows
    arms, hips = rows["upper_arm"], rows["hip"].middle_cm
    means = tuple(between(survey["hip"], survey["arm"], hip) for hip in hips)
    spreads = tuple(between(survey["hip"], survey["arm_sd"], hip) for hip in hips)
    told = {"within": NATION["bounds"]["tenth"], "why": NATION["bounds"]["tenth_why"]}
    yield Check(
        "men: mean arm at the hip of each size, as the program tells it",
        means,
        arms.surveyed_cm,
        "cm",
        **told,
    )
    yield Check("men: its standard deviation", spreads, tuple(arms.spread_cm), "cm", **told)
    off = zip(arms.middle_cm, means, spreads, strict=True)
    yield Check(
        "men: the filled arm from the survey's mean",
        (0.0,) * len(means),
        tuple((arm - mean) / sd for arm, mean, sd in off),
        "SD",
        within=1.0,
        why=NATION["bounds"]["men_why"],
    )


def _by_hip(group: str) -> Check:
    line, rows = NATION[group]["arm_by_hip"], tables()[group].rows
    off = [
        (arm - on_line(line, hip)) / line[2]
        for arm, hip in zip(rows["upper_arm"].middle_cm, rows["hip"].middle_cm, strict=True)
    ]
    return Check(
        f"{group}: the filled arm from the survey's line by the hip",
        (0.0,) * len(off),
        tuple(off),
        "SD",
        within=NATION["bounds"]["line"],
        why=NATION["bounds"]["line_why"],
    )
