"""Projects for the tests: one swatch and one yarn, any body."""

from __future__ import annotations

from typing import Any

from tests.published import published
from yokefellow.body.fill_in import fill
from yokefellow.body.measurements import Figures
from yokefellow.findings import Finding
from yokefellow.project_file.models import Project

COUNCIL: dict[str, Any] = published("council")
"""The Craft Yarn Council's tables; see the file for its source."""

IN = 2.54


def project(**sections: object) -> Project:
    """Make a project of the given sections; bare numbers are cm."""
    rest = {
        "swatch": {
            "plain": {"washed": {"stitches": ["22 over 10 cm"], "rounds": ["30 over 10 cm"]}}
        },
        "yarn": {"MC": {"ball_weight": "50 g", "ball_length": "200 m", "balls": 9}},
        "needles": {"main": "3.5 mm"},
    }
    return Project.model_validate(rest | sections, context={"unit": "cm"})


def filled(table: str, **body: float) -> tuple[Figures, tuple[Finding, ...]]:
    """Fill a body, in cm, from a table."""
    return fill(project(wearer={"table": table}, body=body))


def codes(findings: tuple[Finding, ...]) -> list[str]:
    """List the codes of findings."""
    return [finding.code for finding in findings]
