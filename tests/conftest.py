"""No test has a time limit: a slow or a busy machine is no fault of the program."""

from __future__ import annotations

from hypothesis import settings

from tests.often import QUICK

settings.register_profile("no clock", deadline=None)
settings.register_profile("quick", deadline=None, derandomize=True, database=None, max_examples=25)
settings.load_profile("quick" if QUICK else "no clock")
