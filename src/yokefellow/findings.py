"""What the program tells the knitter: records, collected and shown together.

A room that meets a problem does not stop at the first one: it collects a
`Finding` for each, and the stage ends with all of them. Only a finding of
severity `ERROR` stops the plan.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

_LONGEST_TYPED = 60
"""Letters shown of what a person typed."""


class Severity(StrEnum):
    """How much a finding matters."""

    ERROR = "error"
    """The plan cannot be made until this is put right."""
    CAUTION = "caution"
    """The plan is made, and this may spoil the sweater."""
    NOTE = "note"
    """Worth knowing; nothing needs to change."""


@dataclass(frozen=True, slots=True)
class Mend:
    """One change of the project file that does what a remedy says."""

    field: str
    """The field, dotted as in the file, lists counted from 1: `swatch.plain.washed.rounds[1]`."""
    value: str | None
    """What to write there, as it stands in the file; None takes the field out."""


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
    mends: tuple[Mend, ...] = ()
    """The remedy as changes of the file, where it is that definite: all of them together."""
    values: tuple[tuple[str, object], ...] = ()
    """What was given, what is allowed and the like, by the names its sentences have for them."""

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


def as_typed(given: object) -> str:
    """Show what a person typed inside a message: quoted, short, and with nothing invisible in it.

    Control characters and the characters that turn the direction of writing
    are shown as escapes, so that a message cannot be made to lie.

    >>> as_typed("38 in")
    '"38 in"'
    """
    if isinstance(given, bool):
        return "true" if given else "false"
    if isinstance(given, int):
        return str(given) if abs(given) <= 10**15 else "a number of more than 15 digits"
    if isinstance(given, float):
        return f"{given:.10g}"
    if isinstance(given, str):
        short = given[:_LONGEST_TYPED] + ("…" if len(given) > _LONGEST_TYPED else "")
        return f'"{visible(short)}"'
    if isinstance(given, dict):
        return "a table"
    return "a list" if isinstance(given, (list, tuple)) else "a date or a time"


def visible(text: str) -> str:
    r"""Show control characters, and those that turn the direction of writing, as escapes.

    >>> visible("a\x1bb")
    'a\\u001bb'
    """
    return "".join(map(_visible, text))


def _visible(letter: str) -> str:
    if letter.isprintable():
        return letter
    return f"\\u{ord(letter):04x}" if ord(letter) < 0x10000 else f"\\U{ord(letter):08x}"
