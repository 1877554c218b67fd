"""How often a law is tried: a part by everybody, in full by `make deep`, little for each mutant."""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

DEEP = "YOKEFELLOW_DEEP" in os.environ
"""Set by `make deep`: every law in full."""
QUICK = "YOKEFELLOW_QUICK" in os.environ
"""Set by `tests.mutation.run`: the same examples for each mutant, and few of them."""

PART = 4
"""`make test` tries one of so many of what `make deep` tries."""


def often(examples: int) -> settings:
    """Try a law on so many examples when all are tried."""
    share = 10 if QUICK else 1 if DEEP else PART
    return settings(max_examples=max(10, examples // share), deadline=None)


def portions(number: int) -> list[object]:
    """Number the portions of a sample; all but the first quarter of them are for `make deep`."""
    first = max(1, number // PART)
    later = (pytest.param(one, marks=pytest.mark.deep) for one in range(first, number))
    return [*range(first), *later]
