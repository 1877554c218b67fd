"""How often a law is tried: in full, or a tenth as often where every mutant is put to it."""

from __future__ import annotations

import os

from hypothesis import settings

QUICK = "YOKEFELLOW_QUICK" in os.environ
"""Set by `tests.mutation.run`: the same examples for each mutant, and few of them."""


def often(examples: int) -> settings:
    """Try a law on so many examples."""
    return settings(max_examples=max(10, examples // 10) if QUICK else examples)
