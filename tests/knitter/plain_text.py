"""The plain-text sheet, line by line."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from tests.knitter.printed import Line, Part
from tests.knitter.sheets import NUMBERS, WHERE, Sheet, plain, worked_as

__all__ = ["read_text"]

_LABEL = re.compile(
    rf"(?:Rows?|Rounds?) (?P<numbers>{NUMBERS.pattern})(?: \((?P<yarn>[A-Z0-9]+)\))?: "
)
_WORK = re.compile(r"(?P<what>.+?) → (?P<count>[0-9]{1,5})(?: \(.+\))?")
_BOXES = re.compile(r"  ([A-Z][a-z]+)? *[0-9]* ?\[ \]")
_RULE = re.compile("[-=]+")


def read_text(text: str) -> Sheet:
    """Read a finished text."""
    lines = text.splitlines()
    chapters = list(_chapters(lines))
    parts = [(*each, found) for each in chapters if (found := _where(each[1])) is not None]
    # A title may come again further on: the first is the sweater's own.
    glance = dict(reversed(chapters))
    return Sheet(
        title=lines[0],
        measures=dict(_measures(glance["The sweater at a glance"])),
        yarns=tuple(_yarns(glance["Yarn"])),
        spends=tuple(where["spends"] for _, _, where in parts),
        parts=tuple(
            Part(
                title,
                int(where["start"] or 0),
                tuple(_lines(body)),
                tuple(_copies(body)),
            )
            for title, body, where in parts
        ),
    )


def _chapters(lines: list[str]) -> Iterator[tuple[str, list[str]]]:
    """Part the text at its underlined titles."""
    heads = [
        at
        for at, (above, below) in enumerate(pairwise(lines))
        if above and _RULE.fullmatch(below) and len(above) == len(below)
    ]
    for start, end in pairwise([*heads, len(lines)]):
        yield lines[start], lines[start + 2 : end]


def _paragraphs(body: list[str]) -> Iterator[str]:
    """Join what was broken to fit the width: up to a blank line."""
    block: list[str] = []
    for line in [*body, ""]:
        if line:
            block.append(line)
        elif block:
            yield plain(" ".join(block))
            block = []


def _where(body: list[str]) -> re.Match[str] | None:
    first = next(_paragraphs(body), "")
    return WHERE.fullmatch(first)


def _measures(body: list[str]) -> Iterator[tuple[str, tuple[str, str]]]:
    """Read the table by its columns, which begin where their titles do."""
    columns = [at.start() for at in re.finditer(r"\S+(?: \S+)*", body[0])]
    for line in body[1:]:
        if not line or line.startswith("*"):
            return
        place, _, _, finished, counted = (
            line[start:end].strip() for start, end in pairwise([0, *columns, None])
        )
        yield place, (finished, counted)


def _yarns(body: list[str]) -> Iterator[str]:
    """A name goes on until its table begins; where there are several, each begins with its code."""
    name: list[str] = []
    for at, line in enumerate(body):
        if at == 0 or re.match(r"(MC|CC[0-9]?): ", line):
            name = [line]
        elif name and re.match(r"[0-9,]+ stitches?\b", line):
            yield plain(" ".join(name))
            name = []
        elif name:
            name.append(line)


def _copies(body: list[str]) -> Iterator[str]:
    found = dict.fromkeys(
        boxes[1].lower() for line in body if (boxes := _BOXES.match(line)) and boxes[1]
    )
    yield from found


def _lines(body: list[str]) -> Iterator[Line]:
    turned = False
    for label, words in _rows(body):
        work = _WORK.fullmatch(words)
        assert work is not None, f"{label[0]}{words}"
        first, last, side = label[2], label[3], label[4]
        what = work["what"]
        kind = worked_as(side or "", what, turned=turned)
        turned = what.endswith(("turn", "w&t"))
        yield Line(
            int(first), int(last or first), kind, what, int(work["count"]), label["yarn"] or ""
        )


def _rows(body: list[str]) -> Iterator[tuple[re.Match[str], str]]:
    """Find every row with its words: they go on, set in, until the boxes."""
    label: re.Match[str] | None = None
    words: list[str] = []
    for line in body:
        if found := _LABEL.match(line):
            label, words = found, [line[found.end() :]]
        elif label and _BOXES.match(line):
            yield label, plain(" ".join(words))
            label = None
        elif label:
            words.append(line)
