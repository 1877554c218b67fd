"""No test has a time limit: a slow or a busy machine is no fault of the program."""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

from tests.often import QUICK

# Other examples every time, but where a change is let in or not: what fails there must fail here.
SAME_DICE = "YOKEFELLOW_SAME_DICE" in os.environ

settings.register_profile("no clock", deadline=None, derandomize=SAME_DICE)
settings.register_profile("quick", deadline=None, derandomize=True, database=None, max_examples=25)
settings.load_profile("quick" if QUICK else "no clock")

DEEP_FOLDERS = {"bodies", "hostile", "newcomers"}
"""What takes minutes and seldom fails: `make deep` runs it, and CI."""

DEEP_FILES = {"test_same_bytes.py", "test_tagging.py"}
DEEP_TESTS = {
    "test_a_band_stays_on_one_page_with_its_chart",
    "test_a_hostile_file_is_refused_in_the_end",
    "test_every_example_is_true",
    "test_random_sweaters_are_the_same_in_the_pdf",
    "test_the_chart_is_told_to_those_who_do_not_see_it",
    "test_the_independent_knitter_arrives_and_every_flat_row_is_stockinette",
    "test_the_range_holds_the_truth_as_often_as_it_says",
    "test_the_same_plan_gives_the_same_bytes_in_every_process",
}
"""Each takes five seconds or more, and what it holds is held in smaller ways by others."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Leave whole folders to `make deep`."""
    for item in items:
        name = item.name.partition("[")[0]
        is_deep = DEEP_FOLDERS.intersection(item.path.parts) or item.path.name in DEEP_FILES
        if is_deep or name in DEEP_TESTS:
            item.add_marker(pytest.mark.deep)
