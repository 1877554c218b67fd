"""Checks stand at rows that exist, in knitting order, where they can still be mended."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

import pytest

from tests.sweaters import IN, planned, planned_or_refused, sized, written
from yokefellow.advice.context import Check
from yokefellow.plan import Plan
from yokefellow.rows.model import Feature
from yokefellow.shaping.model import RaglanShape


@cache
def sweaters() -> tuple[Plan, ...]:
    return tuple(found for seed in range(100) if (found := planned_or_refused(written(seed))))


def placed(plan: Plan, check: Check) -> int:
    """The place of the row after which a check stands, found by looking."""
    if check.number == 0:
        first = next(row for row in plan.rows if row.section.key == check.section)
        return first.place - 1
    (place,) = [
        row.place
        for row in plan.rows
        if (row.section.key, row.number) == (check.section, check.number)
    ]
    return place


def test_every_check_stands_at_a_row_and_in_knitting_order() -> None:
    for plan in sweaters():
        places = [placed(plan, check) for check in plan.checks]
        assert places == sorted(places)


def test_every_increase_round_is_counted() -> None:
    for plan in sweaters():
        counted = {(c.section, c.number): c.text for c in plan.checks if c.title == "Count"}
        rounds = [row for row in plan.rows if row.row.feature is Feature.INCREASE]
        yoke = plan.shape.yoke
        if isinstance(yoke, RaglanShape):
            # derived: the first, the last, and never more than five increase rounds uncounted
            by_place = [("yoke", row.number) in counted for row in rounds]
            assert by_place[0]
            assert by_place[-1]
            assert all(any(by_place[at : at + 5]) for at in range(len(rounds) - 4))
            rounds = [row for row in rounds if ("yoke", row.number) in counted]
        assert set(counted) == {(row.section.key, row.number) for row in rounds}
        for row in rounds:
            assert counted[row.section.key, row.number].startswith(f"{row.after} stitches")


def test_a_neckband_worked_last_is_tried_on_before_its_bind_off_and_stretched_after() -> None:
    last = [plan for plan in sweaters() if plan.shape.neck.is_last]
    assert last
    for plan in last:
        band = [check for check in plan.checks if check.section == "neckband"]
        rows = len(plan.schedule.sections[-1].rows)
        is_sewn = plan.shape.neck.band.finish == "folded"
        end = "Before it is sewn down" if is_sewn else "Before the bind-off"
        assert [(check.title, check.number) for check in band] == [
            (end, rows - 1),
            ("Over the head", rows),
        ]


# common practice, no source: the moments at which a sweater is still mended in an evening
@pytest.mark.parametrize(
    ("title", "section", "last_row"),
    [
        ("Over the head", "neckband", False),
        ("Before the split", "yoke", True),
        ("Before the hem", "body", True),
        ("Before the cuff", "sleeve", True),
    ],
)
def test_the_sweater_is_tried_on_before_each_point_of_no_return(
    title: str, section: str, last_row: bool
) -> None:
    for plan in sweaters():
        if title == "Over the head" and plan.shape.neck.is_last:
            continue  # looked at when the band is bound off, below
        (check,) = [one for one in plan.checks if one.title == title]
        assert check.kind == "try on"
        assert check.section == section
        last = max(row.number for row in plan.rows if row.section.key == section)
        assert not last_row or check.number == last


def test_the_count_at_the_split_adds_up() -> None:
    for plan in sweaters():
        (check,) = [one for one in plan.checks if one.title == "Body and sleeves"]
        total, *parts = map(int, re.findall(r"\d+", check.text.rsplit("(", 1)[1]))
        assert total == sum(parts)
        split = next(row for row in plan.rows if row.row.feature is Feature.SPLIT)
        assert total == split.before


def test_the_tape_is_read_unwashed_and_worn_washed() -> None:
    sections = sized(
        swatch__plain={
            "washed": {"stitches": ["22 over 10 cm"], "rounds": ["30 over 10 cm"]},
            "unwashed": {"stitches": ["22 over 10 cm"], "rounds": ["33 over 10 cm"]},
        }
    )
    plan = planned(sections)
    (check,) = [one for one in plan.checks if one.title == "Before the split"]
    rounds = plan.shape.yoke.rounds.got
    # derived: 33 rounds in 10 cm on the needles, 30 once washed
    assert f"{round(rounds / 3.3, 1):g} cm on the needles" in check.text
    assert f"({round(rounds / 3.0, 1):g} cm once washed)" in check.text


def test_a_long_stretch_is_measured_about_every_ten_cm() -> None:
    plan = planned(sized("men", "2XL"))
    per_cm = plan.gauges.plain.rounds_per_cm
    for section in ("body", "sleeve"):
        at = [c.number for c in plan.checks if c.section == section]
        # common practice, no source: every 10 cm, and never 16 cm without looking
        assert all((b - a) / per_cm <= 16 for a, b in pairwise(at))


def test_texts_are_sentences_without_leftovers() -> None:
    for plan in sweaters()[:30]:
        for check in plan.checks:
            assert check.title
            assert check.text.endswith((".", ")"))
            assert "{" not in check.text
            assert "None" not in check.text
            assert check.kind in ("count", "measure", "try on", "look")


@pytest.mark.parametrize("order", ["body first", "sleeves first"])
def test_the_first_try_on_below_the_yoke_comes_within_its_first_inches(order: str) -> None:
    plan = planned(sized(garment__work_order=order))
    below = [
        one for one in plan.checks if one.section in ("body", "sleeve") and one.kind == "try on"
    ]
    first = "sleeve" if order == "sleeves first" else "body"
    early = next(one for one in below if one.section == first)
    # common practice, no source: an inch or two
    assert early.number <= 2 * IN * plan.gauges.plain.rounds_per_cm
