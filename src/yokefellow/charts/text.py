"""A chart as written, and whether its lines can be read at all.

A row is one line. The characters of the legend stand for colours; `v` marks a
stitch slipped with the yarn behind (plain slip-stitch charts only) and `-` a
purl (purl texture only). A line may begin with the yarn in hand and a colon,
`CC1: ..#.`; mosaic and stranded charts need none. Blanks are for the eye.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import islice, pairwise
from types import MappingProxyType
from typing import Any, NamedTuple

from yokefellow.charts.chart import ChartKind
from yokefellow.findings import Finding, Severity
from yokefellow.project_file.chart_fields import MOST_ROWS, MOST_WIDTH
from yokefellow.words import found

SLIP_MARK, PURL_MARK = "v", "-"
_OWN_MARK = MappingProxyType({ChartKind.SLIP: SLIP_MARK, ChartKind.PURL: PURL_MARK})

MOST_TIMES = 4
MOST_FINDINGS = 20
"""Of one kind: the twenty-first unknown mark tells nothing new."""

_HEAD = re.compile(r"\A\s*(MC|CC[1-9])\s*:")


@dataclass(frozen=True, slots=True)
class ChartText:
    """A chart as written."""

    name: str
    kind: ChartKind
    legend: Mapping[str, str]
    """Character to colour."""
    lines: tuple[str, ...]
    times: int = 1
    """Rounds worked from each line: mosaic lines are usually worked twice."""
    grows: bool = False
    """Whether the repeat may widen from line to line."""
    title: str = ""
    about: str = ""


class Line(NamedTuple):
    """One line of a chart."""

    number: int
    """Counted from 1, as the knitter does."""
    yarn: str
    """The yarn in front of it; empty where none stands."""
    marks: str


def lines_of(text: ChartText) -> Iterator[Line]:
    """Split each line into its yarn and its marks."""
    for number, line in enumerate(text.lines, start=1):
        head = _HEAD.match(line)
        marks = line[head.end() :] if head else line
        yield Line(number, head[1] if head else "", "".join(marks.split()))


def colours_of(text: ChartText) -> tuple[str, ...]:
    """Give the yarns a chart speaks of, those of the legend first."""
    heads = (head[1] for line in text.lines if (head := _HEAD.match(line)))
    return tuple(dict.fromkeys((*text.legend.values(), *heads)))


def with_other_yarns(text: ChartText, swap: Mapping[str, str]) -> ChartText:
    """Write the chart in other yarns: each of its own that the swap names gives way."""

    def head(match: re.Match[str]) -> str:
        return f"{swap.get(match[1], match[1])}:"

    return replace(
        text,
        legend={mark: swap.get(yarn, yarn) for mark, yarn in text.legend.items()},
        lines=tuple(_HEAD.sub(head, line) for line in text.lines),
    )


def refusal(text: ChartText, rule: str, **values: Any) -> Finding:
    """Say why a chart cannot be worked."""
    return found(f"chart.{rule}", Severity.ERROR, f"charts.{text.name}.rows", **values)


def unreadable(text: ChartText, lines: tuple[Line, ...]) -> tuple[Finding, ...]:
    """Give everything that keeps the lines from being read, before a stitch is looked at."""
    wrong = tuple(_shape(text, lines))
    if wrong:
        return wrong
    findings: list[Finding] = []
    widths = _growth if text.grows else _equal
    for check in (_reserved, widths, _marks, _yarns):
        findings += islice(check(text, lines), MOST_FINDINGS)
    return tuple(findings)


def too_large(text: ChartText) -> Finding | None:
    """Refuse a chart too tall or too wide, before anything is made of its lines."""
    rows = len(text.lines)
    if rows > MOST_ROWS:
        return refusal(text, "too-large", **_MOST, rows=rows, letters=None, stitches=None)
    letters = max(map(len, text.lines), default=0)
    if letters > 2 * MOST_WIDTH:
        return refusal(text, "too-large", **_MOST, rows=None, letters=letters, stitches=None)
    return None


_MOST = MappingProxyType({"most_stitches": MOST_WIDTH, "most_rows": MOST_ROWS})


def _shape(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    if not lines:
        yield refusal(text, "empty")
    for line in lines:
        if not line.marks:
            yield refusal(text, "empty", sentence="empty_row", row=line.number)
            return
    widest = max((len(line.marks) for line in lines), default=0)
    if widest > MOST_WIDTH:
        yield refusal(text, "too-large", **_MOST, rows=None, letters=None, stitches=widest)
    if not 1 <= text.times <= MOST_TIMES:
        yield refusal(text, "times", times=text.times, most=MOST_TIMES)


def _reserved(text: ChartText, _: tuple[Line, ...]) -> Iterator[Finding]:
    mark = _OWN_MARK.get(text.kind)
    if mark in text.legend:
        yield refusal(text, "reserved-mark", mark=mark, kind=text.kind.value)


def _equal(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    widths = [len(line.marks) for line in lines]
    # The width that most rows have is the one that was meant.
    usual = max(widths, key=widths.count)
    for line in lines:
        if len(line.marks) != usual:
            yield refusal(text, "unequal", row=line.number, stitches=len(line.marks), usual=usual)


def _growth(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    for early, late in pairwise(lines):
        before, after = len(early.marks), len(late.marks)
        counts = {"row": late.number, "before": before, "after": after}
        if after < before:
            yield refusal(text, "narrows", above=early.number, **counts)
        elif 2 * (after - before) > before:
            yield refusal(text, "grows-fast", **counts)


def _marks(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    allowed = {*text.legend, *(mark for kind, mark in _OWN_MARK.items() if kind is text.kind)}
    for line in lines:
        for column, mark in enumerate(line.marks, start=1):
            if mark not in allowed:
                known = tuple(repr(one) for one in sorted(allowed))
                yield refusal(
                    text,
                    "unknown-mark",
                    row=line.number,
                    column=column,
                    mark=repr(mark),
                    known=known,
                )


def _yarns(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    """Check the yarn in front of a row: known, and to be seen in the row."""
    for line in lines:
        if not line.yarn:
            continue
        shown = {text.legend.get(mark) for mark in line.marks}
        if line.yarn not in text.legend.values():
            known = tuple(dict.fromkeys(text.legend.values()))
            yield refusal(text, "unknown-yarn", row=line.number, yarn=line.yarn, known=known)
        elif line.yarn not in shown and PURL_MARK not in line.marks:
            yield refusal(text, "yarn-not-shown", row=line.number, yarn=line.yarn)
