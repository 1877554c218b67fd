"""From rows and gauge to metres, grams and balls.

A first model: every stitch costs one loop, and the loop's length follows from
the gauge by Munden's geometry of plain knitting. What the swatch weighs is not
yet asked.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from types import MappingProxyType

from yokefellow.gauge import Gauges
from yokefellow.project.models import Yarn
from yokefellow.schedule.rows import STITCHES, Op, Row, Schedule, Section, Step

__all__ = [
    "LOOP_STATES",
    "MAIN",
    "MARGIN",
    "Amount",
    "LoopState",
    "Spent",
    "YarnEstimate",
    "YarnUse",
    "amount",
    "estimate",
    "loop_length_cm",
    "sections_amount",
    "spent",
    "swatch_metres",
]


@dataclass(frozen=True, slots=True)
class LoopState:
    """Munden's constants of plain knitting in one state of relaxation."""

    courses: float
    """Kc: courses per cm times loop length in cm."""
    wales: float
    """Kw: wales per cm times loop length in cm."""
    density: float
    """Ks: stitches per cm² times the square of the loop length."""


LOOP_STATES = MappingProxyType(
    {
        "dry relaxed": LoopState(5.0, 3.8, 19.0),
        "wet relaxed": LoopState(5.3, 4.1, 21.6),
        "fully relaxed": LoopState(5.5, 4.2, 23.1),
    }
)
"""D. L. Munden, "The geometry and dimensional properties of plain-knit fabrics",
J. Textile Inst. 50 (1959), from memory; fully relaxed after Knapton and others, 1968."""

STATE = "wet relaxed"
"""A swatch washed and dried flat (our choice; the three states differ by 11 % in length)."""

MARGIN = 0.10
"""Kept back for what no count shows (common practice; printed yardage adds 10 to 15 %)."""

END_M = 0.3
"""Yarn lost at each join: two ends long enough to weave in (common practice, no source)."""

SWATCH_CM = 15.0
"""Side of a square swatch; it can be unravelled when the yarn runs short."""


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount of yarn, told four ways."""

    stitches: int
    metres: float
    grams: float
    balls: float


@dataclass(frozen=True, slots=True)
class YarnUse:
    """What one section of the sweater costs, all its copies together."""

    key: str
    amount: Amount


@dataclass(frozen=True, slots=True)
class YarnEstimate:
    """What the sweater costs of one yarn, and what is in the drawer."""

    code: str
    """`MC`, `CC1`, ..."""
    by_section: tuple[YarnUse, ...]
    """Every section in knitting order; nothing where the yarn is not worked."""
    knitted: Amount
    """All its stitches, and the strands behind the others."""
    floats: int
    """Stitches it passes behind."""
    extras_m: float
    """Ends at the joins, and the swatch."""
    needed: Amount
    """Knitted, extras and margin."""
    stash: Amount
    verdict: str
    """`enough` with the margin, `close` within it, `short` without."""

    @property
    def left_m(self) -> float:
        """What stays over after the stitches and the extras, in m; below zero when short."""
        return self.stash.metres - self.knitted.metres - self.extras_m


def loop_length_cm(*, stitches_per_cm: float, rounds_per_cm: float, state: str = STATE) -> float:
    """Give the length of yarn in one stitch of plain knitting, in cm: √(Ks / (w·c)).

    Munden 1959; see `LOOP_STATES`.

    Raises:
        KeyError: an unknown state of relaxation.

    >>> round(loop_length_cm(stitches_per_cm=2.2, rounds_per_cm=3.0), 2)
    1.81
    """
    return float((LOOP_STATES[state].density / (stitches_per_cm * rounds_per_cm)) ** 0.5)


MAIN = "MC"
"""The yarn of everything that is not a colour band."""


@dataclass(frozen=True, slots=True)
class Spent:
    """What a section spends of one yarn, all its copies together."""

    loops: int
    """Stitches worked in it."""
    floats: int
    """Stitches it passes behind: one stitch width each."""
    metres: float


NOTHING = Spent(0, 0, 0.0)


def spent(section: Section, gauges: Gauges) -> Mapping[str, Spent]:
    """Count what a section spends of each yarn, from its steps and not from a share.

    A stitch costs one loop of its own yarn. A yarn in hand that is not worked
    passes behind it, and so does the yarn in hand behind a slipped stitch:
    one stitch width each (derived from Munden 1959: 1/Kw of a loop).
    """
    tallies: dict[tuple[str, str], list[int]] = {}
    for row, same in groupby(section.rows):
        times = len(section.copies) * sum(1 for _ in same)
        for yarn, (worked_once, behind) in _row_spends(row).items():
            tally = tallies.setdefault((yarn, row.fabric), [0, 0])
            tally[0] += times * worked_once
            tally[1] += times * behind
    found: dict[str, Spent] = {}
    for (yarn, fabric), (loops, floats) in tallies.items():
        cm = loops * _loop_cm(gauges, fabric) + floats / gauges.of(fabric).stitches_per_cm
        before = found.get(yarn, NOTHING)
        found[yarn] = Spent(before.loops + loops, before.floats + floats, before.metres + cm / 100)
    return found


def _row_spends(row: Row) -> Mapping[str, tuple[int, int]]:
    """Count the loops and the floats of each yarn in a row."""
    loops: Counter[str] = Counter()
    slipped = 0
    for code, yarn, times in _tally(row.steps, 1):
        stitch = STITCHES[code]
        loops[yarn or row.yarn] += stitch.worked * times
        slipped += times if code.startswith("sl ") else 0
    total = loops.total()
    in_hand = [yarn for yarn in loops if loops[yarn] or yarn == row.yarn]
    if len(in_hand) == 1:
        return {in_hand[0]: (total, slipped)}
    return {yarn: (loops[yarn], total - loops[yarn] + slipped) for yarn in in_hand if loops[yarn]}


def _tally(steps: Iterable[Step], times: int) -> Iterator[tuple[str, str, int]]:
    for step in steps:
        if isinstance(step, Op):
            yield step.code, step.yarn, step.times * times
        else:
            yield from _tally(step.steps, step.times * times)


def _loop_cm(gauges: Gauges, fabric: str) -> float:
    gauge = gauges.of(fabric)
    return loop_length_cm(stitches_per_cm=gauge.stitches_per_cm, rounds_per_cm=gauge.rounds_per_cm)


def swatch_metres(gauges: Gauges) -> float:
    """Give the yarn in a square swatch, in m."""
    plain = gauges.plain
    stitches = plain.stitches_per_cm * plain.rounds_per_cm * SWATCH_CM**2
    return stitches * _loop_cm(gauges, "plain") / 100


def amount(stitches: int, metres: float, yarn: Yarn) -> Amount:
    """Tell an amount in metres, grams and balls of a yarn."""
    balls = metres / yarn.ball_length
    return Amount(stitches, metres, balls * yarn.ball_weight, balls)


def sections_amount(
    sections: Iterable[Section], gauges: Gauges, yarn: Yarn, *, code: str = MAIN
) -> Amount:
    """Tell what some sections cost of one yarn."""
    parts = [part for section in sections if (part := spent(section, gauges).get(code))]
    return amount(sum(part.loops for part in parts), sum(part.metres for part in parts), yarn)


def estimate(
    schedule: Schedule, gauges: Gauges, yarns: Mapping[str, Yarn]
) -> Mapping[str, YarnEstimate]:
    """Estimate every yarn the sweater uses, the main one first."""
    parts = [(section.key, spent(section, gauges)) for section in schedule.sections]
    used = dict.fromkeys((MAIN, *sorted({code for _, by_yarn in parts for code in by_yarn})))
    return {code: _one(code, parts, gauges, yarns[code]) for code in used}


def _one(
    code: str,
    parts: Sequence[tuple[str, Mapping[str, Spent]]],
    gauges: Gauges,
    yarn: Yarn,
) -> YarnEstimate:
    here = [(key, by_yarn.get(code, NOTHING)) for key, by_yarn in parts]
    loops = sum(part.loops for _, part in here)
    knitted = amount(loops, sum(part.metres for _, part in here), yarn)
    # Only the main yarn knits a swatch of its own; the others share a small one.
    swatch_m = swatch_metres(gauges) * (1.0 if code == MAIN else 0.25)
    extras_m = END_M * (knitted.balls + 3) + swatch_m
    needed_m = (knitted.metres + extras_m) * (1 + MARGIN)
    stash = amount(0, yarn.ball_length * yarn.balls, yarn)
    return YarnEstimate(
        code=code,
        by_section=tuple(YarnUse(key, amount(p.loops, p.metres, yarn)) for key, p in here),
        knitted=knitted,
        floats=sum(part.floats for _, part in here),
        extras_m=extras_m,
        needed=amount(loops, needed_m, yarn),
        stash=stash,
        verdict=_verdict(stash.metres, knitted.metres + extras_m, needed_m),
    )


def _verdict(have_m: float, bare_m: float, safe_m: float) -> str:
    if have_m >= safe_m:
        return "enough"
    return "close" if have_m >= bare_m else "short"
