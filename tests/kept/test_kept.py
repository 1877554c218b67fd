"""A sheet that is printed again with a newer version has the same counts."""

from __future__ import annotations

import json

import pytest

from tests.kept.keep import Kept, kept_sweaters
from tests.kept.telling import told

SWEATERS = kept_sweaters()


@pytest.mark.parametrize("kept", SWEATERS, ids=[one["name"] for one in SWEATERS])
def test_a_kept_sweater_has_the_counts_it_had(kept: Kept) -> None:
    """snapshot: after a decision to change a count, `python -m tests.kept.keep` keeps it."""
    assert json.loads(json.dumps(told(kept["project"]))) == kept["told"]


def test_no_two_kept_sweaters_have_one_name() -> None:
    assert len({one["name"] for one in SWEATERS}) == len(SWEATERS)
