"""A pause in the knitting."""

from __future__ import annotations

from typing import Literal, NamedTuple, TypeAlias

__all__ = ["Check", "CheckKind"]

CheckKind: TypeAlias = Literal["count", "measure", "try on", "look"]


class Check(NamedTuple):
    """After this row, look at this."""

    section: str
    number: int
    """After this row of the section; 0 is before its first."""
    kind: CheckKind
    title: str
    text: str
