"""Findings as a person reads them at a terminal."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable
from types import MappingProxyType
from typing import TextIO

from yokefellow.cli.terminal import coloured, say, tell, wrapped
from yokefellow.findings import Finding, Severity

_COLOUR = MappingProxyType(
    {Severity.ERROR: "red", Severity.CAUTION: "yellow", Severity.NOTE: "cyan"}
)


def say_findings(findings: Iterable[Finding]) -> None:
    """Write findings to standard output, the gravest first."""
    for line in paragraphs(findings):
        say(line)


def tell_findings(findings: Iterable[Finding]) -> None:
    """Write findings to standard error, the gravest first."""
    for finding in _gravest_first(findings):
        tell(_paragraph(finding, sys.stderr))
        tell("")


def paragraphs(findings: Iterable[Finding]) -> list[str]:
    """Give findings as lines for standard output, the gravest first, a blank one after each."""
    return [line for f in _gravest_first(findings) for line in (_paragraph(f, sys.stdout), "")]


def counted(findings: Iterable[Finding]) -> str:
    """Count findings in words: `1 error, 2 cautions`.

    >>> counted([])
    'nothing found'
    """
    counts = Counter(finding.severity for finding in findings)
    words = [
        f"{counts[severity]} {severity.value}{'s' if counts[severity] > 1 else ''}"
        for severity in Severity
        if counts[severity]
    ]
    return ", ".join(words) or "nothing found"


def _gravest_first(findings: Iterable[Finding]) -> list[Finding]:
    order = list(Severity)
    return sorted(findings, key=lambda finding: order.index(finding.severity))


def _paragraph(finding: Finding, stream: TextIO) -> str:
    head = coloured(finding.severity.value.upper(), _COLOUR[finding.severity], stream)
    lines = [f"{head}  {finding.field}".rstrip()]
    lines.append(wrapped(finding.message, first="  ", rest="  "))
    if finding.remedy:
        lines.append(wrapped(finding.remedy, first="  → ", rest="    "))
    return "\n".join(lines)
