"""Sweaters of every kind, one after the other."""

from __future__ import annotations

import pytest

from tests.sheet.plans import NAMES, named
from yokefellow.plan import Plan


@pytest.fixture(params=NAMES)
def plan(request: pytest.FixtureRequest) -> Plan:
    return named(request.param)
