"""Raglans for the tests of this folder."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from tests.sweaters import Sections, planned, sized
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.plan import Plan
from yokefellow.shaping.model import RaglanPiece, RaglanShape

SECOND: Mapping[str, object] = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 3}


def raglan(group: str = "women", size: str = "M", **changes: object) -> Sections:
    per_cm = changes.pop("stitches_per_cm", 2.2)
    assert isinstance(per_cm, float)
    style: dict[str, object] = {"garment__yoke__style": "raglan", **changes}
    return sized(group, size, stitches_per_cm=per_cm, **style)


def banded(*bands: dict[str, object], **changes: object) -> Sections:
    changes |= {"garment__yoke__bands": list(bands), "yarn__CC1": dict(SECOND)}
    return raglan("women", "M", **changes)


def yoke_of(made: Plan) -> RaglanShape:
    assert isinstance(made.shape.yoke, RaglanShape)
    return made.shape.yoke


def pieces_of(yoke: RaglanShape) -> tuple[RaglanPiece, RaglanPiece, RaglanPiece]:
    return yoke.back, yoke.front, yoke.sleeve


def refused(sections: Sections) -> Finding:
    """The one reason why these numbers make no sweater."""
    with pytest.raises(PlanError) as error:
        planned(sections)
    (finding,) = [one for one in error.value.findings if one.severity is Severity.ERROR]
    return finding


def codes(made: Plan) -> set[str]:
    return {finding.code for finding in made.findings}
