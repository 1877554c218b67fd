"""What a section spends of each yarn, counted stitch by stitch."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby

from yokefellow.gauge import Gauge, Gauges
from yokefellow.schedule.rows import STITCHES, Op, Row, Schedule, Section, Step
from yokefellow.yarn.munden import STATE, loop_length_cm

__all__ = [
    "MAIN",
    "NOTHING",
    "Counted",
    "Counts",
    "Part",
    "Spent",
    "count_row",
    "counted",
    "loop_cm",
    "parts_of",
    "spent",
]

MAIN = "MC"
"""The yarn of everything that is not a colour band."""


@dataclass(frozen=True, slots=True)
class Counted:
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


@dataclass(frozen=True, slots=True)
class Part:
    """What one section spends, all its copies together."""

    key: str
    counts: Counts


def parts_of(schedule: Schedule) -> tuple[Part, ...]:
    """Count every section, in knitting order."""
    return tuple(Part(section.key, counted(section)) for section in schedule.sections)


def counted(section: Section) -> Counts:
    """Count what a section spends of each yarn, all its copies, from its steps.

    A stitch costs one loop of its own yarn. A yarn in hand that is not worked
    passes behind it, and so does the yarn in hand behind a slipped stitch:
    one stitch width each (derived from Munden 1959: 1/Kw of a loop).
    """
    found: dict[tuple[str, str], Counted] = {}
    for row, same in groupby(section.rows):
        times = len(section.copies) * sum(1 for _ in same)
        for yarn, spends in count_row(row).items():
            at = (yarn, row.fabric)
            found[at] = found.get(at, NOTHING).plus(spends, times)
    return found


def count_row(row: Row) -> Mapping[str, Counted]:
    """Count the loops and the floats of each yarn in a row."""
    loops: Counter[str] = Counter()
    slipped = 0
    for code, yarn, times in _tally(row.steps, 1):
        loops[yarn or row.yarn] += STITCHES[code].worked * times
        slipped += times if code.startswith("sl ") else 0
    worked = loops.total()
    in_hand = [yarn for yarn in loops if loops[yarn] or yarn == row.yarn]
    if len(in_hand) == 1:
        return {in_hand[0]: Counted(worked, slipped, slipped)}
    used = [yarn for yarn in in_hand if loops[yarn]]
    return {
        yarn: Counted(loops[yarn], worked - loops[yarn] + slipped, slipped if at == 0 else 0)
        for at, yarn in enumerate(used)
    }


def _tally(steps: Iterable[Step], times: int) -> Iterator[tuple[str, str, int]]:
    for step in steps:
        if isinstance(step, Op):
            yield step.code, step.yarn, step.times * times
        else:
            yield from _tally(step.steps, step.times * times)


def loop_cm(gauge: Gauge, state: str = STATE) -> float:
    """Give Munden's length of one loop at a gauge, in cm."""
    return loop_length_cm(
        stitches_per_cm=gauge.stitches_per_cm, rounds_per_cm=gauge.rounds_per_cm, state=state
    )


@dataclass(frozen=True, slots=True)
class Spent:
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
