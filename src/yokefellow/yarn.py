"""From rows and gauge to metres, grams and balls.

A first model: every stitch costs one loop, and the loop's length follows from
the gauge by Munden's geometry of plain knitting. What the swatch weighs is not
yet asked.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from types import MappingProxyType

from yokefellow.gauge import Gauges
from yokefellow.project.models import Yarn
from yokefellow.schedule.rows import Schedule, Section, worked

__all__ = [
    "LOOP_STATES",
    "MARGIN",
    "Amount",
    "LoopState",
    "YarnEstimate",
    "YarnUse",
    "amount",
    "estimate",
    "loop_length_cm",
    "section_metres",
    "section_stitches",
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
    """What the sweater costs and what is in the drawer."""

    by_section: tuple[YarnUse, ...]
    knitted: Amount
    """All the stitches of the sweater."""
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


def section_stitches(section: Section) -> int:
    """Count the stitches worked in a section, all its copies together."""
    return len(section.copies) * sum(worked(row.steps) for row in section.rows)


def section_metres(section: Section, gauges: Gauges) -> float:
    """Give the yarn in the stitches of a section, all its copies together, in m."""
    once_cm = sum(worked(row.steps) * _loop_cm(gauges, row.fabric) for row in section.rows)
    return len(section.copies) * once_cm / 100


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


def sections_amount(sections: Iterable[Section], gauges: Gauges, yarn: Yarn) -> Amount:
    """Tell what some sections cost together."""
    taken = tuple(sections)
    return amount(
        sum(section_stitches(section) for section in taken),
        sum(section_metres(section, gauges) for section in taken),
        yarn,
    )


def estimate(schedule: Schedule, gauges: Gauges, yarn: Yarn) -> YarnEstimate:
    """Estimate the whole sweater in one yarn."""
    uses = tuple(
        YarnUse(section.key, sections_amount((section,), gauges, yarn))
        for section in schedule.sections
    )
    knitted = sections_amount(schedule.sections, gauges, yarn)
    extras_m = END_M * (knitted.balls + 3) + swatch_metres(gauges)
    needed_m = (knitted.metres + extras_m) * (1 + MARGIN)
    stash = amount(0, yarn.ball_length * yarn.balls, yarn)
    return YarnEstimate(
        by_section=uses,
        knitted=knitted,
        extras_m=extras_m,
        needed=amount(knitted.stitches, needed_m, yarn),
        stash=stash,
        verdict=_verdict(stash.metres, knitted.metres + extras_m, needed_m),
    )


def _verdict(have_m: float, bare_m: float, safe_m: float) -> str:
    if have_m >= safe_m:
        return "enough"
    return "close" if have_m >= bare_m else "short"
