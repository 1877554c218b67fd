"""A caution: the plan is made, and this may spoil the sweater."""

from __future__ import annotations

from yokefellow.findings import Finding, Severity

__all__ = ["caution"]


def caution(code: str, field: str, message: str, remedy: str) -> Finding:
    """Make one."""
    return Finding(code, Severity.CAUTION, field, message, remedy)
