"""No test has a time limit: a slow or a busy machine is no fault of the program."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("no clock", deadline=None)
settings.load_profile("no clock")
