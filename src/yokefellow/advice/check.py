"""A pause in the knitting."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

__all__ = ["Check", "CheckKind"]

CheckKind: TypeAlias = Literal["count", "measure", "try on", "look"]


@dataclass(frozen=True, slots=True)
class Check:
    """After this row, look at this."""

    section: str
    number: int
    """After this row of the section; 0 is before its first."""
    kind: CheckKind
    title: str
    text: str
