"""No row is lost, doubled or moved when rows are put together on lines."""

from __future__ import annotations

from collections import Counter

from tests.sheet.plans import banded, inches, small
from yokefellow.notation.phrase import phrase
from yokefellow.plan import Plan
from yokefellow.rows.model import worked
from yokefellow.sheet.lines import Box, Halt, Line, Note, SectionView
from yokefellow.sheet.view import view


def boxes(section: SectionView, copy: str) -> list[Box]:
    return [
        box
        for item in section.items
        if isinstance(item, Line)
        for ticks in item.ticks
        if ticks.copy == copy
        for run in ticks.runs
        for box in run.boxes
    ]


def test_every_row_has_one_box_for_each_copy_in_order(plan: Plan) -> None:
    for section, shown in zip(plan.schedule.sections, view(plan).sections, strict=True):
        for copy in section.copies:
            stem = "-".join(filter(None, (section.key.replace("_", "-"), copy)))
            ids = [box.id for box in boxes(shown, copy)]
            assert ids == [f"{stem}-{number + 1}" for number in range(len(section.rows))]


def test_the_lines_say_what_the_rows_are(plan: Plan) -> None:
    for shown in view(plan).sections:
        rows = [row for row in plan.rows if row.section.key == shown.key]
        lines = [item for item in shown.items if isinstance(item, Line)]
        spread = [line for line in lines for _ in range(line.first, line.last + 1)]
        for row, line in zip(rows, spread, strict=True):
            assert line.first <= row.number <= line.last
            assert line.what == phrase(row.row, row.before)
            assert line.count == row.after
            assert line.kind == row.row.kind.value
            assert line.stitches == worked(row.row.steps)


def test_checks_and_needles_fall_at_their_rows(plan: Plan) -> None:
    checks: list[tuple[str, int, str]] = []
    needles: list[tuple[str, int]] = []
    weighings: list[str] = []
    for shown in view(plan).sections:
        done = 0
        for item in shown.items:
            if isinstance(item, Line):
                assert item.first == done + 1
                done = item.last
            elif isinstance(item, Halt):
                assert item.after == done
                assert len(item.ticks) == max(1, len(shown.copies))
                if item.kind == "weigh":
                    weighings.append(shown.key)
                else:
                    checks.append((shown.key, done, item.text))
            else:
                assert isinstance(item, Note)
                assert item.number == done + 1
                if item.kind == "needle":
                    needles.append((shown.key, done + 1))
    wanted = [(check.section, check.number, check.text) for check in plan.checks]
    assert sorted(checks) == sorted(wanted)
    is_close = any(estimate.verdict == "close" for estimate in plan.yarns.values())
    assert weighings == (
        [s.key for s in plan.schedule.sections if s.key in ("yoke", "body", "sleeve")]
        if is_close
        else []
    )
    assert needles == [(change.section, change.number) for change in plan.needles]


def test_every_box_has_its_own_name(plan: Plan) -> None:
    every = [
        box
        for section in view(plan).sections
        for item in section.items
        if not isinstance(item, Note)
        for ticks in item.ticks
        for run in ticks.runs
        for box in run.boxes
    ]
    assert max(Counter(box.id for box in every).values()) == 1
    rows = [box.label for box in every if not box.id.startswith("check")]
    assert max(Counter(rows).values()) == 1


# derived: all of it is a hundred per cent
def test_the_share_grows_to_a_hundred_and_no_sooner(plan: Plan) -> None:
    lines = [
        item for section in view(plan).sections for item in section.items if isinstance(item, Line)
    ]
    shares = [int(line.so_far.split(" · ")[1].split()[0]) for line in lines]
    assert shares == sorted(shares)
    assert lines[-1].so_far == f"rows 1–{len(plan.rows)} of {len(plan.rows)} done · 100 %"
    assert all(share < 100 for share in shares[:-1])


def test_a_box_says_its_row_and_its_sleeve() -> None:
    labels = {box.id: box.label for s in view(small()).sections for box in boxes(s, "left")}
    assert labels["sleeve-left-4"] == "Left sleeve round 4"
    neck = view(small()).sections[1]
    assert boxes(neck, "")[2].label == "Back neck row 3"


def test_runs_end_at_fives_and_say_where_they_begin() -> None:
    yoke = next(section for section in view(inches()).sections if section.key == "yoke")
    long = [item for item in yoke.items if isinstance(item, Line) and item.last - item.first >= 5]
    assert long
    for line in long:
        firsts = [int(run.first) for run in line.ticks[0].runs]
        assert firsts[0] == line.first
        assert all(first % 5 == 1 for first in firsts[1:])  # derived: after each 5
        assert all(len(run.boxes) <= 5 for run in line.ticks[0].runs)


def test_a_reason_is_said_once_for_rows_alike() -> None:
    neck = next(section for section in view(small()).sections if section.key == "back_neck")
    said = [item.why for item in neck.items if isinstance(item, Line) and item.why]
    assert said == ["raises the back of the neck"]


def test_shaping_rows_say_which_of_how_many() -> None:
    sleeve = next(section for section in view(inches()).sections if section.key == "sleeve")
    said = [item.why for item in sleeve.items if isinstance(item, Line) and "tapers" in item.why]
    total = len(inches().shape.sleeve.decreases)
    assert said == [f"tapers the sleeve, {number} of {total}" for number in range(1, total + 1)]


def test_a_round_says_its_yarn_where_there_are_several() -> None:
    yoke = next(section for section in view(banded()).sections if section.key == "yoke")
    lines = [item for item in yoke.items if isinstance(item, Line)]
    assert {line.yarn for line in lines} == {"MC", "CC1", ""}
    assert all(("CC1" in line.what) == (line.yarn == "") for line in lines)
    body = next(section for section in view(banded()).sections if section.key == "body")
    assert {item.yarn for item in body.items if isinstance(item, Line)} == {""}
    assert {"MC", "CC"} <= {entry.code for entry in view(banded()).abbreviations}
