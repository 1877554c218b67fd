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
from typing import NamedTuple

from yokefellow.charts.chart import ChartKind
from yokefellow.findings import Finding, Severity
from yokefellow.project_file.chart_fields import MOST_ROWS, MOST_WIDTH

SLIP_MARK, PURL_MARK = "v", "-"
_OWN_MARK = MappingProxyType({ChartKind.SLIP: SLIP_MARK, ChartKind.PURL: PURL_MARK})
_STITCH = MappingProxyType({ChartKind.SLIP: "slipped", ChartKind.PURL: "purl"})

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


def refusal(text: ChartText, code: str, message: str, remedy: str) -> Finding:
    """Say why a chart cannot be worked."""
    return Finding(f"chart.{code}", Severity.ERROR, f"charts.{text.name}.rows", message, remedy)


def unreadable(text: ChartText, lines: tuple[Line, ...]) -> tuple[Finding, ...]:
    """Give everything that keeps the lines from being read, before a stitch is looked at."""
    wrong = tuple(_shape(text, lines))
    if wrong:
        return wrong
    found: list[Finding] = []
    for check in (_reserved, _widths, _marks, _yarns):
        found += islice(check(text, lines), MOST_FINDINGS)
    return tuple(found)


def too_large(text: ChartText) -> Finding | None:
    """Refuse a chart too tall or too wide, before anything is made of its lines."""
    if len(text.lines) > MOST_ROWS:
        return _too_large(text, f"{len(text.lines)} rows")
    wide = [letters for letters in map(len, text.lines) if letters > 2 * MOST_WIDTH]
    return _too_large(text, f"{max(wide)} letters wide") if wide else None


def _too_large(text: ChartText, size: str) -> Finding:
    return refusal(
        text,
        "too-large",
        f"The chart has {size}; up to {MOST_WIDTH} stitches by {MOST_ROWS} rows can be drawn.",
        "Give one repeat, and split a tall chart into bands.",
    )


def _shape(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    if not lines:
        yield refusal(text, "empty", "The chart has no rows.", "Draw at least one.")
    for line in lines:
        if not line.marks:
            message = f"Row {line.number} has no stitches."
            yield refusal(text, "empty", message, "Draw its stitches, or take it out.")
            return
    if wide := [len(line.marks) for line in lines if len(line.marks) > MOST_WIDTH]:
        yield _too_large(text, f"{max(wide)} stitches in a row")
    if not 1 <= text.times <= MOST_TIMES:
        yield refusal(
            text,
            "times",
            f"Each line is worked {text.times} times; allowed is 1 to {MOST_TIMES}.",
            "Type, for example: times = 2.",
        )


def _reserved(text: ChartText, _: tuple[Line, ...]) -> Iterator[Finding]:
    mark = _OWN_MARK.get(text.kind)
    if mark in text.legend:
        yield refusal(
            text,
            "reserved-mark",
            f"{mark!r} stands for a yarn here, and in a {text.kind.value} chart it is "
            f"the mark of a {_STITCH[text.kind]} stitch.",
            "Take another mark for the yarn.",
        )


def _widths(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    return _growth(text, lines) if text.grows else _equal(text, lines)


def _equal(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    widths = [len(line.marks) for line in lines]
    # The width that most rows have is the one that was meant.
    usual = max(widths, key=widths.count)
    for line in lines:
        if len(line.marks) != usual:
            yield refusal(
                text,
                "unequal",
                f"Row {line.number} is {len(line.marks)} stitches wide, and the chart is {usual}.",
                f"Make row {line.number} {usual} stitches wide; if the repeat is meant to widen, "
                "type: grows = true.",
            )


def _growth(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    for early, late in pairwise(lines):
        before, after = len(early.marks), len(late.marks)
        if after < before:
            yield refusal(
                text,
                "narrows",
                f"Row {late.number} is {after} stitches wide and row {early.number} is "
                f"{before}: a repeat may widen toward the body, never narrow.",
                f"Make row {late.number} at least {before} stitches wide.",
            )
        elif 2 * (after - before) > before:
            yield refusal(
                text,
                "grows-fast",
                f"Row {late.number} widens the repeat from {before} to {after} stitches; at "
                "most one new stitch for every two is knittable.",
                "Widen it in two rows, some rounds apart.",
            )


def _marks(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    allowed = {*text.legend, *(mark for kind, mark in _OWN_MARK.items() if kind is text.kind)}
    for line in lines:
        for column, mark in enumerate(line.marks, start=1):
            if mark not in allowed:
                yield refusal(
                    text,
                    "unknown-mark",
                    f"Row {line.number}, column {column}: {mark!r} is none of the marks under "
                    f"colours ({', '.join(repr(known) for known in sorted(allowed))}).",
                    "Add it to colours, or correct the row.",
                )


def _yarns(text: ChartText, lines: tuple[Line, ...]) -> Iterator[Finding]:
    """Check the yarn in front of a row: known, and to be seen in the row."""
    for line in lines:
        if not line.yarn:
            continue
        shown = {text.legend.get(mark) for mark in line.marks}
        if line.yarn not in text.legend.values():
            yield refusal(
                text,
                "unknown-yarn",
                f"Row {line.number} begins with {line.yarn}, and the legend has "
                f"{', '.join(dict.fromkeys(text.legend.values()))}.",
                f"Give {line.yarn} a mark in the legend, or name another yarn.",
            )
        elif line.yarn not in shown and PURL_MARK not in line.marks:
            yield refusal(
                text,
                "yarn-not-shown",
                f"Row {line.number} begins with {line.yarn}, and no stitch of the row shows it.",
                f"Show {line.yarn} where it is worked, or name the yarn that is.",
            )
