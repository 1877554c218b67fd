"""The whole plan: the same for the same file, named by its rows, refused when impossible."""

from __future__ import annotations

from typing import Any

import pytest

from tests.sweaters import Sections, edited, planned, planned_or_refused, project, sized, written
from tests.wild_sweaters import wild
from yokefellow.findings import Severity, YokefellowError
from yokefellow.plan import plan


@pytest.mark.parametrize("seed", range(8))
def test_the_same_project_gives_the_same_plan(seed: int) -> None:
    assert planned(written(seed)) == planned(written(seed))


@pytest.mark.parametrize(
    "changes",
    [
        {"title": "Another name"},
        {"wearer__name": "someone else"},
        {"sheet": {"paper": "Letter", "units": "in", "large_print": True}},
        {"yarn__MC__balls": 3},
        {"yarn__MC__colour": "moss"},
    ],
)
def test_what_changes_no_row_keeps_the_key(changes: dict[str, Any]) -> None:
    assert planned(sized(**changes)).key == planned(sized()).key


@pytest.mark.parametrize(
    "changes",
    [
        {"garment__body__length": "longer by 1 cm"},
        {"garment__sleeves__length": "elbow"},
        {"garment__neck__rib": "twisted"},
        {"garment__neck__short_rows": "wrapped"},
        {"garment__yoke__increases": "gentle"},
        {"body__upper_arm": "34 cm"},
    ],
)
def test_what_changes_a_row_changes_the_key(changes: dict[str, Any]) -> None:
    assert planned(sized(**changes)).key != planned(sized()).key


# common practice, no source: no neck is wider than the yoke, no underarm than the sleeve
IMPOSSIBLE: list[tuple[str, dict[str, Any]]] = [
    ("neck.over-shoulders", {"garment__neck__opening": "120 cm"}),
    (
        "yoke.no-way",
        {
            "garment": {"neck": {"opening": "98 cm"}, "yoke": {"underarm": "12 cm"}},
            "ease": {"chest": "-20 cm", "upper_arm": "close"},
        },
    ),
    ("yoke.underarm-wide", {"garment__yoke__underarm": "30 cm", "ease__upper_arm": "-10 cm"}),
    ("sleeve.too-short", {"garment__sleeves__length": "shorter by 80 cm"}),
    ("body.too-short", {"garment__body__length": "shorter by 60 cm"}),
    ("swatch.empty", {"swatch__plain": {"worked": "flat"}}),
    ("body.no-chest", {"wearer": {"table": "women"}}),
    ("sizing.unknown-size", {"wearer": {"table": "women", "size": "XXM"}, "body__chest": 95}),
]


@pytest.mark.parametrize(("code", "changes"), IMPOSSIBLE)
def test_impossible_sweaters_are_refused_in_words(code: str, changes: dict[str, Any]) -> None:
    sections: Sections = edited(sized(), **changes)
    with pytest.raises(YokefellowError) as refused:
        plan(project(sections))
    errors = [one for one in refused.value.findings if one.severity is Severity.ERROR]
    assert code in {one.code for one in errors}
    for one in errors:
        assert one.message
        assert one.remedy


def test_a_plan_never_holds_an_error() -> None:
    for seed in range(40):
        found = planned_or_refused(written(seed))
        assert found is None or all(one.severity is not Severity.ERROR for one in found.findings)


def test_anything_the_file_allows_is_planned_or_refused_in_words() -> None:
    """Far from any body, nothing is raised but a refusal that says what to change."""
    made = refused = 0
    for seed in range(500):
        strange = wild(seed)
        if strange is None:
            continue
        try:
            planned_one = plan(strange)
        except YokefellowError as refusal:
            refused += 1
            assert all(one.message and one.remedy for one in refusal.findings)  # noqa: PT017
        else:
            made += 1
            assert planned_one.rows[-1].after == 0
    # snapshot: about half of them can be knitted
    assert made > 150
    assert refused > 50
