"""The raglan yoke: neck, split and rates chosen together.

Four lines part the yoke into back, front and two sleeves. Each piece gains two
stitches, one at either end, in every increase round of its own, and must come
from its share of the neck to its count at the split within the rounds there
are. What is minimised, in this order:

1. broken rules: the shoulders not covered where they are fullest.
2. difficulty: the rates to be read (pieces with the same rates are read once),
   one more where a piece increases in every round for a while, and one each
   where a rib needs an adjusting round.
3. deviation: the squared relative distance of N, B, S, U and of the back of
   the neck from what was wanted.

The finished dimensions do not take part in the bargain: B, S and U are only
ever drawn from the counts that divisibility permits, within half a stitch of
the best, and so is N: each piece grows by twos, so N leaves the same rest by
four as the stitches at the end of the yoke. How the neck is shared out between
body and sleeves is free within a small tolerance, and that freedom buys the
simple rates. No wider share is tried before the narrower one has failed.

A state that lies on the way of a raglan is continued; from any other each piece
takes the easiest rates from what it has on the needle to its count at the split.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from yokefellow.project_file.pins import OF_A_RAGLAN
from yokefellow.shaping.counts import Count, nearest, permitted
from yokefellow.shaping.model import IncreaseRound, RaglanPiece, Split, raglan_steps
from yokefellow.shaping.raglan.rates import Rate, most_times, rates, rounds_of, times_by
from yokefellow.shaping.split import between_lines, halved
from yokefellow.shaping.yoke.constraints import PricedSplit, YokeTask, splits_for
from yokefellow.shaping.yoke.rules import Cost, Rule

__all__ = [
    "LEAST_BETWEEN",
    "SHARE_WEIGHT",
    "RaglanSolution",
    "RaglanTask",
    "cheapest",
    "least_piece",
    "raglan_splits",
    "shared_out",
]

SHARES_OFF = (0.12, 0.35)
"""How far the back of the neck may lie off the width wanted, as shares of it; the wider is only
tried when the narrower leads nowhere (our choice)."""

LEAST_BETWEEN = 2
"""Stitches of a piece between its two lines, at the least, as the yoke begins."""

SHARE_WEIGHT = 0.25
"""What the share of the neck weighs beside the counts of the finished garment."""


@dataclass(frozen=True, slots=True)
class RaglanTask:
    """What a raglan is asked for, in real numbers of stitches."""

    counts: YokeTask
    back_neck: float
    """Across the back of the neck, with its share of two lines."""
    line_width: int
    rounds: int
    """Of the whole yoke."""
    room: int
    """The rounds in which it may increase, counted from the first of the yoke."""
    shoulder_round: int
    """The round that passes where the shoulders are fullest."""
    repeat: int = 1
    """What the stitches at the end of the yoke must divide by, for the bands below."""
    front_more: float = 0.0
    """How many stitches more of the round the front has than the back."""
    pinned: tuple[int, ...] = ()
    """The stitches there must be at the end, for each band whose repeats are pinned."""
    takes_stitches: bool = False
    """Whether an increase is worked in a stitch of the piece."""


@dataclass(frozen=True, slots=True)
class RaglanSolution:
    """The chosen counts, and the rules they had to break."""

    neck: Count
    split: Split
    back: RaglanPiece
    front: RaglanPiece
    sleeve: RaglanPiece
    broken: tuple[Rule, ...]
    """Only `Rule.SHOULDER` can be."""

    @property
    def steps(self) -> tuple[IncreaseRound, ...]:
        """Every round in which a piece increases."""
        return raglan_steps(self.back, self.front, self.sleeve)


class _Starts(NamedTuple):
    """How the neck is shared out."""

    back: int
    front: int
    sleeve: int


_Rates: TypeAlias = tuple[tuple[Rate, ...], ...]
"""Of back, front and sleeve."""


def least_piece(line_width: int, *, body: bool) -> int:
    """Give the fewest stitches a piece may begin with: its share of two lines, and two between."""
    share = line_width - line_width // 2 if body else line_width // 2
    return 2 * share + LEAST_BETWEEN


def cheapest(task: RaglanTask) -> RaglanSolution | None:
    """Choose neck, split, shares and rates together; None when no raglan reaches.

    See the head of this file for what is minimised.
    """
    for wide in (False, True) if task.repeat > 1 or task.pinned else (False,):
        splits = raglan_splits(task, wide=wide)
        for off in SHARES_OFF:
            found = _cheapest(task, splits, off)
            if found is not None:
                return found
    return None


def raglan_splits(task: RaglanTask, *, wide: bool) -> tuple[PricedSplit, ...]:
    """List the splits to try, and what they cost: those whose yoke the bands below divide.

    Args:
        task: what is asked for.
        wide: let body, sleeve and underarm give way for the bands.
    """
    tries = (
        (adjusting, off, shared_out(task, split))
        for yoke, (adjusting, off, split) in splits_for(task.counts, wide=wide).items()
        if yoke % task.repeat == 0 and all(pinned == yoke for pinned in task.pinned)
    )
    return tuple((adjusting, off, split) for adjusting, off, split in tries if split is not None)


def shared_out(task: RaglanTask, split: Split) -> Split | None:
    """Share a split between front and back: as pinned, or as the bust asks; None if it cannot."""
    return halved(between_lines(split, front_more=task.front_more), task.counts.fixed)


def _cheapest(task: RaglanTask, splits: Iterable[PricedSplit], off: float) -> RaglanSolution | None:
    best: tuple[Cost, Split, _Starts, _Rates] | None = None
    for priced in splits:
        split = priced[2]
        for starts in _shares(task, split, off):
            spread = _spread(task, split, starts)
            if spread is None:
                continue
            cost = _cost(task, priced, starts, spread)
            if best is None or cost < best[0]:
                best = (cost, split, starts, spread)
    return None if best is None else _built(task, *best[1:])


def _shares(task: RaglanTask, split: Split, off: float) -> Iterator[_Starts]:
    """Share out every permitted neck among the pieces, each with the parity of its end."""
    least_back = least_piece(task.line_width, body=True)
    least_sleeve = least_piece(task.line_width, body=False)
    reach = max(2.0, off * task.back_neck)
    low, high = task.back_neck - reach, task.back_neck + reach
    fixed = task.counts.fixed
    if any(getattr(fixed, name) is not None for name in OF_A_RAGLAN):
        for starts in _pinned_shares(task, split, (low, high)):
            bodies = min(starts.back, starts.front)
            if bodies >= least_back and starts.sleeve >= least_sleeve:
                yield starts
        return
    for more in _front_more(split, is_pinned=task.counts.fixed.neck is not None):
        rest = (2 * split.back + more + 2 * split.held) % 4
        for neck in _necks(task, rest):
            first = max(least_back, int(low))
            for back in range(first + (first + split.back) % 2, int(high) + 1, 2):
                sleeve = (neck - 2 * back - more) // 2
                if sleeve >= least_sleeve and back + more >= least_back:
                    yield _Starts(back, back + more, sleeve)


def _pinned_shares(
    task: RaglanTask, split: Split, backs_near: tuple[float, float]
) -> Iterator[_Starts]:
    """Share out the neck where a piece's stitches are given; each grows by twos to its end."""
    fixed = task.counts.fixed
    backs: Iterable[int] = range(int(backs_near[0]), int(backs_near[1]) + 1)
    if fixed.neck_back is not None:
        backs = (fixed.neck_back,)
    for back in backs:
        fronts = (back, back + 1, back - 1, back + 2, back - 2)
        for front in fronts if fixed.neck_front is None else (fixed.neck_front,):
            if (split.back - back) % 2 or (split.front - front) % 2:
                continue
            for sleeve in _sleeves_beside(task, back + front):
                if (split.held - sleeve) % 2 == 0:
                    yield _Starts(back, front, sleeve)


def _sleeves_beside(task: RaglanTask, body: int) -> tuple[int, ...]:
    """Give the sleeves' stitches at a neck whose back and front have so many."""
    fixed = task.counts.fixed
    if fixed.neck_sleeve is not None:
        fits = fixed.neck is None or body + 2 * fixed.neck_sleeve == fixed.neck
        return (fixed.neck_sleeve,) if fits else ()
    if fixed.neck is not None:
        return () if (fixed.neck - body) % 2 else ((fixed.neck - body) // 2,)
    half = nearest((task.counts.neck - body) / 2, least=0)
    return (half - 1, half, half + 1)


def _necks(task: RaglanTask, rest: int) -> tuple[int, ...]:
    """Give the counts the neck may have that leave this rest by four."""
    pin = task.counts.fixed.neck
    if pin is not None:
        return (pin,) if pin % 4 == rest else ()
    return permitted(task.counts.neck, multiple=4, remainder=rest, least=8)


def _front_more(split: Split, *, is_pinned: bool) -> tuple[int, ...]:
    """Give how many stitches more the front of the neck may have than its back: as few as can.

    A neck that is pinned may ask for two of them.
    """
    if (split.front - split.back) % 2:
        return (1, -1)
    return (0, 2, -2) if is_pinned else (0,)


def _spread(task: RaglanTask, split: Split, starts: _Starts) -> _Rates | None:
    """Give the rates of back, front and sleeve; None when one cannot reach its count."""
    ends = (split.back, split.front, split.held)
    times = [(end - start) // 2 for start, end in zip(starts, ends, strict=True)]
    if min(times) < 0 or max(times) > most_times(task.room):
        return None
    back, front, sleeve = times
    return (
        rates(back, task.room, late=back > front),
        rates(front, task.room, late=front > back),
        rates(sleeve, task.room),
    )


def _cost(task: RaglanTask, priced: PricedSplit, starts: _Starts, spread: _Rates) -> Cost:
    adjusting, off, _ = priced
    neck = starts.back + starts.front + 2 * starts.sleeve
    adjusting += neck % task.counts.neck_multiple > 0
    restless = any(rate.every == 1 for each in spread for rate in each)
    to_read = sum(len(each) for each in set(spread))
    return Cost(
        int(not _covers(task, starts, spread)),
        0,
        float(to_read + adjusting + restless + (abs(starts.front - starts.back) > 1)),
        off
        + ((neck - task.counts.neck) / task.counts.neck) ** 2
        + SHARE_WEIGHT * ((starts.back - task.back_neck) / task.back_neck) ** 2,
    )


def _covers(task: RaglanTask, starts: _Starts, spread: _Rates) -> bool:
    """Tell whether the yoke goes round the shoulders where they are fullest, or never could."""
    there = [
        start + 2 * times_by(each, task.shoulder_round)
        for start, each in zip(starts, spread, strict=True)
    ]
    return there[0] + there[1] + 2 * there[2] >= task.counts.covering


def _built(task: RaglanTask, split: Split, starts: _Starts, spread: _Rates) -> RaglanSolution:
    back, front, sleeve = (
        RaglanPiece(start, each, rounds_of(each))
        for start, each in zip(starts, spread, strict=True)
    )
    neck = Count(
        starts.back + starts.front + 2 * starts.sleeve,
        task.counts.neck,
        task.counts.stitches_per_cm,
    )
    broken = () if _covers(task, starts, spread) else (Rule.SHOULDER,)
    return RaglanSolution(neck, split, back, front, sleeve, broken)
