"""What a section spends of each yarn, counted stitch by stitch."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from yokefellow.gauge import Gauge, Gauges
from yokefellow.rows.model import STITCHES, Op, Row, Schedule, Section, Step, runs, taken
from yokefellow.shaping import BIND_OFFS
from yokefellow.yarn.loop_length import STATE, loop_length_cm

MAIN = "MC"
"""The yarn of everything that is not a colour band."""


SLIPPED = frozenset(code for code in STITCHES if code.startswith("sl "))
"""Stitches behind which the yarn in hand passes."""

_COSTS = {code: (stitch.worked, int(code in SLIPPED)) for code, stitch in STITCHES.items()}
"""The loops of a stitch, and whether it is slipped."""


class Counted(NamedTuple):
    """What is worked in one yarn and one fabric."""

    loops: int = 0
    """Stitches worked in it."""
    floats: int = 0
    """Stitches it passes behind: one stitch width each."""
    slipped: int = 0
    """Stitches slipped in its rows."""

    def plus(self, other: Counted, times: int = 1) -> Counted:
        """Add another, so many times."""
        return Counted(
            self.loops + times * other.loops,
            self.floats + times * other.floats,
            self.slipped + times * other.slipped,
        )


NOTHING = Counted()

Counts = Mapping[tuple[str, str], Counted]
"""By yarn and fabric."""


class Part(NamedTuple):
    """What one section spends, all its copies together."""

    key: str
    counts: Counts
    tail: float = 0.0
    """Stitch widths of yarn that its bind-off takes beyond one loop for a stitch."""


LOOP_WIDTHS = 4.1
"""One loop in stitch widths: Munden's Kw, wet-relaxed (Journal of the Textile Institute 1959)."""


def parts_of(schedule: Schedule) -> tuple[Part, ...]:
    """Count every section, in knitting order."""
    return tuple(part_of(section) for section in schedule.sections)


def part_of(section: Section) -> Part:
    """Count one section, all its copies."""
    return Part(section.key, counted(section), _tail(section))


def _tail(section: Section) -> float:
    """Give what the bind-off takes beyond a loop for each stitch, in stitch widths."""
    end = section.rows[-1]
    if not end.bind_off:
        return 0.0
    more = max(0.0, BIND_OFFS[end.bind_off].widths - LOOP_WIDTHS)
    return more * taken(end.steps) * len(section.copies)


def counted(section: Section) -> Counts:
    """Count what a section spends of each yarn, all its copies, from its steps.

    A stitch costs one loop of its own yarn. A yarn in hand that is not worked
    passes behind it, and so does the yarn in hand behind a slipped stitch:
    one stitch width each (derived from Munden 1959: 1/Kw of a loop).
    """
    copies = len(section.copies)
    found: dict[tuple[str, str], tuple[int, int, int]] = {}
    for row, times in runs(section.rows):
        for yarn, loops, floats, slipped in _spent_in(row):
            at, often = (yarn, row.fabric), times * copies
            before = found.get(at, _NONE)
            found[at] = (
                before[0] + often * loops,
                before[1] + often * floats,
                before[2] + often * slipped,
            )
    return {at: Counted(*spends) for at, spends in found.items()}


_NONE = (0, 0, 0)


def count_row(row: Row) -> Mapping[str, Counted]:
    """Count the loops and the floats of each yarn in a row."""
    return {yarn: Counted(*spends) for yarn, *spends in _spent_in(row)}


def _spent_in(row: Row) -> Sequence[tuple[str, int, int, int]]:
    """Count the loops, the floats and the stitches slipped, yarn by yarn."""
    loops = {row.yarn: 0}
    slipped = _add(row.steps, 1, row.yarn, loops)
    if len(loops) == 1:
        return ((row.yarn, loops[row.yarn], slipped, slipped),)
    worked = sum(loops.values())
    used = [yarn for yarn in loops if loops[yarn]] or [row.yarn]
    return [
        (yarn, loops[yarn], worked - loops[yarn] + slipped, slipped if at == 0 else 0)
        for at, yarn in enumerate(used)
    ]


def _add(steps: Iterable[Step], times: int, own: str, loops: dict[str, int]) -> int:
    """Add the loops of some steps to those of their yarns, and give the stitches slipped."""
    slipped = in_own = 0
    for step in steps:
        if isinstance(step, Op):
            worked, is_slipped = _COSTS[step.code]
            often = times * step.times
            slipped += is_slipped * often
            if step.yarn:
                loops[step.yarn] = loops.get(step.yarn, 0) + worked * often
            else:
                in_own += worked * often
        else:
            slipped += _add(step.steps, times * step.times, own, loops)
    loops[own] += in_own
    return slipped


def loop_cm(gauge: Gauge, state: str = STATE) -> float:
    """Give Munden's length of one loop at a gauge, in cm."""
    return loop_length_cm(
        stitches_per_cm=gauge.stitches_per_cm, rounds_per_cm=gauge.rounds_per_cm, state=state
    )


class Spent(NamedTuple):
    """What a section spends of one yarn by Munden alone, all its copies together."""

    loops: int
    floats: int
    metres: float


def spent(section: Section, gauges: Gauges) -> Mapping[str, Spent]:
    """Give the metres of each yarn as the gauge alone has them, of one strand."""
    found: dict[str, Spent] = {}
    for (yarn, fabric), spends in counted(section).items():
        gauge = gauges.of(fabric)
        cm = spends.loops * loop_cm(gauge) + spends.floats / gauge.stitches_per_cm
        before = found.get(yarn, Spent(0, 0, 0.0))
        found[yarn] = Spent(
            before.loops + spends.loops, before.floats + spends.floats, before.metres + cm / 100
        )
    return found
