"""The needle is always shorter than the work it holds."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest

from tests.sweaters import IN, planned, planned_or_refused, sized, written
from yokefellow.advice.needles import LENGTHS_CM, NeedleChange, rib_needle_mm
from yokefellow.plan import Plan
from yokefellow.rows.model import Feature, WorkedRow


@cache
def sweaters() -> tuple[Plan, ...]:
    return tuple(found for seed in range(120) if (found := planned_or_refused(written(seed))))


def in_hand(plan: Plan) -> list[tuple[WorkedRow, NeedleChange]]:
    """Every row with the needle it is worked on."""
    changes = {change.place: change for change in plan.needles}
    now = plan.needles[0]
    pairs = []
    for row in plan.rows:
        now = changes.get(row.place, now)
        pairs.append((row, now))
    return pairs


def fewest(row: WorkedRow) -> int:
    """Stitches on the needle when they are fewest; cast-on and pick-up begin on an empty one."""
    begins = row.row.feature in (Feature.CAST_ON, Feature.PROVISIONAL, Feature.PICK_UP)
    return row.after if begins else min(row.before, row.after)


def test_the_needle_is_shorter_than_the_work_at_every_row() -> None:
    # published: Woolpack Yarn, article on needle lengths: shorter than the work
    for plan in sweaters():
        for row, needle in in_hand(plan):
            if not row.after:
                continue  # bound off: the work leaves the needle
            per_cm = plan.gauges.of(row.row.fabric).unwashed_stitches_per_cm
            assert needle.length_cm < fewest(row) / per_cm, (plan.project.title, row.section.key)


def test_edges_are_worked_on_the_rib_needle_and_the_rest_on_the_main_one() -> None:
    for plan in sweaters():
        needles = plan.project.needles
        for row, needle in in_hand(plan):
            if row.row.fabric in ("rib", "garter", "facing"):
                assert needle.mm == rib_needle_mm(needles)
            else:
                assert needle.mm == needles.main


def test_the_first_change_is_the_cast_on_and_every_change_changes_something() -> None:
    for plan in sweaters():
        first = plan.needles[0]
        begins = "cast_on" if plan.shape.neck.is_last else "neckband"
        assert (first.section, first.number) == (begins, 1)
        pairs = list(pairwise(plan.needles))
        assert all((a.mm, a.length_cm) != (b.mm, b.length_cm) for a, b in pairs)
        lengths = {0.0, *LENGTHS_CM[plan.project.sheet.units]}
        assert {change.length_cm for change in plan.needles} <= lengths


def test_work_that_grows_crowded_gets_a_longer_needle() -> None:
    # published: Woolpack Yarn, article on needle lengths: work up to 3 times the free cable,
    # the needle less 8 to 10 in of rigid tips (22 cm here)
    for plan in sweaters():
        longest = max(LENGTHS_CM[plan.project.sheet.units])
        for row, needle in in_hand(plan):
            if needle.length_cm in (0.0, longest) or not row.before or not row.after:
                continue
            per_cm = plan.gauges.of(row.row.fabric).unwashed_stitches_per_cm
            round_cm = fewest(row) / per_cm
            free_cm = needle.length_cm - 22
            next_up = min(
                cm for cm in LENGTHS_CM[plan.project.sheet.units] if cm > needle.length_cm
            )
            crowded = round_cm > 3.0 * free_cm + 1e-9
            assert not crowded or next_up >= round_cm, (plan.project.title, row.place)


@pytest.mark.parametrize(("rib", "mm"), [(None, 3.0), ("2.75 mm", 2.75)])
def test_the_rib_needle_is_the_knitters_or_half_a_mm_finer(rib: str | None, mm: float) -> None:
    # common practice, no source: half a millimetre
    written_rib = sized() if rib is None else sized(needles__rib=rib)
    assert rib_needle_mm(planned(written_rib).project.needles) == mm


def test_needles_are_those_sold() -> None:
    # common practice, no source: 40 to 150 cm, 16 to 60 in
    assert LENGTHS_CM["cm"] == (40, 60, 80, 100, 120, 150)
    assert [round(cm / IN) for cm in LENGTHS_CM["in"]] == [16, 24, 32, 40, 47, 60]


@pytest.mark.parametrize("size", ["XS", "M", "2X", "5X"])
@pytest.mark.parametrize("band", ["2 cm", "3 cm", "4 cm"])
def test_the_band_of_a_v_is_worked_on_one_needle(size: str, band: str) -> None:
    plan = planned(
        sized(
            "women",
            size,
            garment={"yoke": {"style": "raglan"}, "neck": {"front": "V", "band": band}},
        )
    )
    inside = [change for change in plan.needles if change.section == "neckband"]
    assert len(inside) <= 1


def test_more_stitches_than_a_meter_of_needle_holds_get_a_longer_one() -> None:
    plan = planned(sized("women", "5X", stitches_per_cm=3.0))
    per_cm = plan.gauges.plain.unwashed_stitches_per_cm
    most = max(row.after for row in plan.rows)
    longest = max(change.length_cm for change in plan.needles)
    # common practice, no source: 510 stitches at 22 to 4 in are too many for 40 in
    assert most / per_cm <= 2.9 * (longest - 22)
