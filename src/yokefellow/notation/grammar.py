"""What the writer and the reader share: how each kind of stitch is written, and the limits.

One table of forms serves both directions, so that neither can drift from the
other. The abbreviations are the Craft Yarn Council's (*Knit abbreviations*,
master list), with DS for the double stitch of German short rows.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from yokefellow.rows.model import STITCHES, Op, Repeat, Step

LARGEST = 9_999
"""The largest number a row may say."""
DEEPEST = 8
"""How many repeats may stand inside one another."""
LONGEST = 99_999
"""The most stitches one row may work, every repeat written out."""

UNMARKED = frozenset({"pm", "sm", "rm", "turn", "w&t", "hold"})
"""Steps that hold no stitch of any colour: a yarn mark on them says nothing."""

_COUNTED = {
    "k": "k{n}",
    "p": "p{n}",
    "k tbl": "k{n} tbl",
    "sl wyib": "sl{n} wyib",
    "sl wyif": "sl{n} wyif",
    "CO": "CO {n}",
    "BO": "BO {n}",
    "sew": "sew down {n} live {sts}",
    "PU": "pick up and k{n}",
    "hold": "place {n} {sts} on waste yarn",
}
"""Kinds of stitch whose written form has a place for the number; the others say `3 times`."""

_NOT_A_YARN = frozenset(STITCHES) | {"RS", "WS", "BOR"}
_END = r"(?![A-Za-z0-9&])"

YARN = re.compile(
    r"(?!(?:"
    + "|".join(map(re.escape, sorted(_NOT_A_YARN)))
    + rf"){_END})[A-Z][A-Z0-9]{{0,7}}{_END}"
)
"""The name of a yarn in a row: capitals and digits (`MC`, `CC1`), no abbreviation of the trade."""


class NotationError(ValueError):
    """A written row that cannot be read: where, and what was expected there."""

    def __init__(self, text: str, *, position: int, expected: str) -> None:
        self.text = text
        self.position = position
        """The offset of the first character that does not fit, from 0."""
        self.expected = expected
        found = text[position : position + 12]
        super().__init__(
            f"At character {position + 1} of the row: expected {expected}, "
            f"found {repr(found) if found else 'the end'}."
        )


def counted(code: str) -> bool:
    """Tell whether the written form of a stitch has its number inside (`k5`, `CO 8`)."""
    return code in _COUNTED


def form(code: str, times: int) -> str:
    """Write `times` stitches of one kind, without a yarn mark: `k5`, `CO 8`, `M1L`."""
    return _COUNTED.get(code, code).format(n=times, sts="st" if times == 1 else "sts")


def _pattern(code: str) -> re.Pattern[str]:
    words = re.escape(_COUNTED.get(code, code))
    words = words.replace(r"\{n\}", "(?P<n>[0-9]+)").replace(r"\{sts\}", "sts?")
    # A split row may say whose stitches rest; the row model knows them by their order.
    owner = r"(?: +for +the +(?:first|second) +sleeve)?" if code == "hold" else ""
    return re.compile(words.replace(r"\ ", " +") + owner + _END)


def _longer_first(code: str) -> tuple[int, str]:
    # `k1 tbl` also begins like `k1`.
    return -len(_COUNTED.get(code, code)), code


PATTERNS = tuple((code, _pattern(code)) for code in sorted(STITCHES, key=_longer_first))
"""Every kind of stitch with the pattern of its written form, in the order to try them."""


def excess(steps: Iterable[Step]) -> str:
    """Name the limit of a written row that the steps exceed; empty when they keep them all."""
    steps = tuple(steps)
    if any(number > LARGEST for number in _numbers(steps)):
        return f"no number above {LARGEST}"
    if _length(steps) > LONGEST:
        return f"at most {LONGEST} stitches in a row"
    if _depth(steps) > DEEPEST:
        return f"at most {DEEPEST} repeats inside one another"
    return ""


def _numbers(steps: tuple[Step, ...]) -> Iterator[int]:
    for step in steps:
        yield step.times
        if isinstance(step, Repeat):
            yield from _numbers(step.steps)


def _length(steps: tuple[Step, ...]) -> int:
    return sum(step.times * (1 if isinstance(step, Op) else _length(step.steps)) for step in steps)


def _depth(steps: tuple[Step, ...]) -> int:
    return max((1 + _depth(step.steps) for step in steps if isinstance(step, Repeat)), default=0)
