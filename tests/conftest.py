"""No test has a time limit: a slow or a busy machine is no fault of the program."""

from __future__ import annotations

import os
from pathlib import Path

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


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Leave whole folders to `make deep`."""
    for item in items:
        if DEEP_FOLDERS.intersection(Path(item.path).parts):
            item.add_marker(pytest.mark.deep)
