"""What the program tells the knitter: records, collected and shown together.

A room that meets a problem does not stop at the first one: it collects a
`Finding` for each, and the stage ends with all of them. Only a finding of
severity `ERROR` stops the plan.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Finding", "PlanError", "ProjectError", "Severity", "YokefellowError"]


class Severity(StrEnum):
    """How much a finding matters."""

    ERROR = "error"
    """The plan cannot be made until this is put right."""
    CAUTION = "caution"
    """The plan is made, and this may spoil the sweater."""
    NOTE = "note"
    """Worth knowing; nothing needs to change."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found: what was read, where, what is allowed, what to do."""

    code: str
    """A stable name of the rule, such as `body.arm-over-chest`."""
    severity: Severity
    field: str
    """The field of the project file, dotted (`body.upper_arm`); empty when of the whole."""
    message: str
    """What is so, with the value given and what is allowed; a full sentence."""
    remedy: str
    """What the knitter can do; a full sentence."""

    def __str__(self) -> str:
        """One readable paragraph."""
        where = f"{self.field}: " if self.field else ""
        return f"{where}{self.message} {self.remedy}".strip()


class YokefellowError(Exception):
    """Any refusal of this program, worded for the knitter."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings: tuple[Finding, ...] = tuple(findings)
        super().__init__("\n".join(str(finding) for finding in self.findings))


class ProjectError(YokefellowError):
    """The project file cannot be read, or says something impossible."""


class PlanError(YokefellowError):
    """The project file is sound, but no sweater can be made from its numbers."""
