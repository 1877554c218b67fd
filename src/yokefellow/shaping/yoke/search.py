"""The one search: from a state, under the constraints, the yoke that costs least.

A ladder (see `constraints`) has one layer for each increase round; a shortest
path up the ladder is a chain of counts. Bands that follow an increase round are
passed through: their repeat must divide the count, and a chart that grows takes
it along. The chains of every ladder are weighed by `rules.Cost`.

A state that lies on the way of a yoke, its counts near the line and its bands
at their rounds, is continued on that line: so the rest of a plan, planned
again, stays the same. From any other state a new line is drawn, from the
stitches on the needle to fullness.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from math import ceil, inf, isqrt
from typing import NamedTuple, TypeAlias

from yokefellow.project_file.pins import NOTHING, torso
from yokefellow.shaping.bands import BandTask, Zones
from yokefellow.shaping.counts import Count, rounds_for
from yokefellow.shaping.model import BandShape, IncreaseRound, Split, stitches_at
from yokefellow.shaping.pieces.taper import taper
from yokefellow.shaping.refusals import Crowded, Impossible, NoChain
from yokefellow.shaping.spread_evenly import repeats_needed
from yokefellow.shaping.yoke.constraints import (
    Ladder,
    Layer,
    PricedSplit,
    YokeTask,
    ladders,
    on_the_pins,
    splits_for,
    through,
)
from yokefellow.shaping.yoke.places import place_bands
from yokefellow.shaping.yoke.rules import (
    BANDED_FULL_AT,
    FIRST_INCREASE,
    FULL_AT,
    FULL_EARLIEST,
    FULL_LATEST,
    LEAST_APART,
    LEAST_YOKE_ROUNDS,
    NARROWEST,
    SHOULDER_AT,
    SLIGHT,
    SLIGHT_COSTS,
    TOLERANCE,
    Cost,
    Rule,
)
from yokefellow.shaping.yoke.state import State

__all__ = [
    "Path",
    "Solution",
    "can_be_solved",
    "climb",
    "solve",
    "solve_pinned",
    "solve_rest",
    "state_at",
]


@dataclass(frozen=True, slots=True)
class Solution:
    """The chosen counts, and the rules they had to break."""

    zones: Zones
    neck: Count
    split: Split
    increase_rounds: tuple[IncreaseRound, ...]
    broken: tuple[Rule, ...]
    bands: tuple[BandShape, ...] = ()


def state_at(yoke: Solution, number: int) -> State:
    """Give what is on the needle after a round of a yoke."""
    done = tuple(step for step in yoke.increase_rounds if step.number <= number)
    bands = tuple(band for band in yoke.bands if band.first <= number)
    return State(
        stitches_at(number, yoke.neck.got, done, bands),
        number,
        yoke.zones.depth_cm(number),
        done,
        bands,
    )


def solve(task: YokeTask, state: State | None = None) -> Solution | Impossible:
    """Choose neck, split, bands and increase rounds together, or give what keeps it from being.

    Args:
        task: what the whole yoke is asked for.
        state: what is on the needle; None before the cast-on, when the neck is chosen, too.

    Returns:
        The whole yoke; what is done stands in it as it was done. What was knitted as it would
        be planned is not planned anew.
    """
    planned = solve_rest(task, None)
    if state is None:
        return planned
    is_as_planned = (
        isinstance(planned, Solution)
        and state.rounds <= planned.zones.rounds
        and replace(state_at(planned, state.rounds), depth_cm=state.depth_cm) == state
        and _is_as_deep(state, planned.zones)
    )
    return planned if is_as_planned else solve_rest(task, state)


def can_be_solved(task: YokeTask) -> bool:
    """Tell whether there is any yoke, however many rules it breaks."""
    line = on_the_pins(task)
    return line is not None and isinstance(_search(line, None, is_any_enough=True), Solution)


def solve_rest(task: YokeTask, state: State | None) -> Solution | Impossible:
    """Choose the rest of a yoke as `solve` does, whether or not what is done was planned so."""
    free = replace(task, fixed=NOTHING)
    if task.fixed == NOTHING:
        return _solve(free, state)
    # Pins that a yoke meets by itself change nothing.
    found = _solve(free, None)
    if isinstance(found, Solution) and _meets(task, found):
        return found if state is None else _solve(free, state)
    return solve_pinned(task, state)


def solve_pinned(task: YokeTask, state: State | None = None) -> Solution | Impossible:
    """Choose what the pins leave free, without asking whether a yoke has them by itself."""
    line = on_the_pins(task)
    found = NoChain() if line is None else _solve(line, state)
    return as_asked(found, task) if isinstance(found, Solution) else found


def _solve(task: YokeTask, state: State | None) -> Solution | Impossible:
    if state is None:
        return _search(task, None)
    state = _after_its_band(state, task)
    found = _search(task, state)
    return found if isinstance(found, Solution) else _anew(task, state)


def _meets(task: YokeTask, found: Solution) -> bool:
    """Tell whether a solution has every pinned count as it is, by itself."""
    fixed, split = task.fixed, found.split
    pairs: tuple[tuple[object, object], ...] = (
        (fixed.neck, found.neck.got),
        (fixed.yoke, split.yoke),
        (fixed.body, split.body.got),
        (fixed.sleeve, split.sleeve.got),
        (fixed.underarm, split.underarm.got),
        (torso(fixed), split.front + split.back),
        (fixed.increases or None, tuple(step.after for step in found.increase_rounds)),
        (fixed.increase_at or None, tuple(step.number for step in found.increase_rounds)),
    )
    return all(pin is None or pin == got for pin, got in pairs)


def as_asked(found: Solution, task: YokeTask) -> Solution:
    """Set beside every count what was asked for, and not the pin it was solved with."""
    return replace(
        found,
        neck=replace(found.neck, wanted=task.neck),
        split=split_as_asked(found.split, task),
    )


def split_as_asked(split: Split, task: YokeTask) -> Split:
    """Set beside the counts of a split what was asked for."""
    return replace(
        split,
        body=replace(split.body, wanted=task.body),
        sleeve=replace(split.sleeve, wanted=task.sleeve),
        underarm=replace(split.underarm, wanted=task.underarm),
    )


def places_of(task: YokeTask) -> tuple[Zones, ...] | Crowded:
    """Give the places of the bands worth trying, the best first; one for a yoke without bands."""
    down, worked_cm = task.worked_rounds, task.worked_cm
    depth_cm, first_round = max(0.0, task.depth_cm - worked_cm), task.first_round - down
    if not task.bands:
        least = 1 if down else LEAST_YOKE_ROUNDS
        rounds = rounds_for(depth_cm, per_cm=task.rounds_per_cm, least=least).got
        found: tuple[Zones, ...] | Crowded = (Zones(rounds, (), task.rounds_per_cm, first_round),)
    else:
        found = place_bands(
            task.bands,
            depth_cm=depth_cm,
            rounds_per_cm=task.rounds_per_cm,
            first_round=first_round,
            least_rounds=LEAST_YOKE_ROUNDS,
        )
    if isinstance(found, Crowded) or not down:
        return found
    return tuple(
        Zones(
            zones.rounds + down,
            tuple(band._replace(first=band.first + down) for band in zones.bands),
            zones.plain_rounds_per_cm,
            task.first_round,
            down,
            worked_cm,
        )
        for zones in found
    )


def _search(
    task: YokeTask, state: State | None, *, is_any_enough: bool = False
) -> Solution | Impossible:
    """Take the first places in which no rule is broken, or those in which the fewest are.

    Pinned rounds settle most of a yoke: then all places are weighed. When a band
    lies where the yoke is already full, its repeat must divide the yoke's count:
    only then body, sleeves and underarms may give way a little.
    """
    places = places_of(task)
    if isinstance(places, Crowded):
        return places
    if state is not None:
        places = tuple(zones for zones in places if _lies_in(state, zones))
    refused: Impossible = NoChain()
    gives_way = bool(task.bands or task.worked_rounds)
    by_round = bool(task.fixed.increases or task.fixed.increase_at)
    weighed = None if by_round else 2
    for wide in (False, True) if gives_way and not by_round else (False,):
        splits = splits_for(task, wide=wide)
        best: tuple[Cost, Solution] | None = None
        refusals: list[Impossible] = []
        for zones in places if splits else ():
            found = _at(task, zones, splits, state, is_any_enough=is_any_enough)
            if not isinstance(found, tuple):
                refusals.append(found)
            elif best is None or found[0][:weighed] < best[0][:weighed]:
                best = found
            is_faultless = best is not None and best[0][:2] == (0, 0)
            if best is not None and (is_any_enough or (is_faultless and not by_round)):
                return best[1]
        if best is not None:
            return best[1]
        refused = next((one for one in refusals if not isinstance(one, NoChain)), NoChain())
    return refused


def _lies_in(state: State, zones: Zones) -> bool:
    """Tell whether what is done lies in a yoke whose bands have these places."""
    begun = [placed for placed in zones.bands if placed.first <= state.rounds]
    firsts = [(placed.task.name, placed.first) for placed in begun]
    return (
        state.rounds <= zones.rounds
        and _is_as_deep(state, zones)
        and firsts == [(band.name, band.first) for band in state.bands]
    )


def _is_as_deep(state: State, zones: Zones) -> bool:
    """Tell whether what is done is as deep as it would be in a yoke, to half a round."""
    off_cm = zones.depth_cm(state.rounds) - state.depth_cm
    return abs(off_cm) < 0.5 / zones.plain_rounds_per_cm


def _at(
    task: YokeTask,
    zones: Zones,
    splits: Mapping[int, PricedSplit],
    state: State | None,
    *,
    is_any_enough: bool,
) -> tuple[Cost, Solution] | Impossible:
    """Solve a yoke whose bands stand at these places."""
    tries = ladders(task, zones, sorted(splits))
    if isinstance(tries, Impossible):
        return tries
    best: tuple[Cost, Solution] | None = None
    for ladder in tries:
        is_unbroken = best is not None and best[0][:2] == (0, 0)
        if best is not None and (is_any_enough or ladder.is_last_resort):
            break
        if best is not None and is_unbroken and best[0].difficulty <= ladder.away:
            break
        entry = _entered(ladder, task, zones, state)
        if entry is None:
            continue
        # Nothing harder could still be better than a yoke that breaks no rule.
        spare = best[0].difficulty - ladder.away if best is not None and is_unbroken else inf
        for slight in (SLIGHT_COSTS, 0.0) if _may_add_little(entry) else (SLIGHT_COSTS,):
            paths = climb(
                entry.starts, task.neck, entry.layers, entry.first, spare=spare, slight=slight
            )
            best = _best_path(paths, ladder, entry, task, zones, splits, state, best)
            # Adding next to nothing is better than breaking a rule.
            if best is None or is_any_enough or best[0][:2] == (0, 0):
                break
    return NoChain() if best is None else best


class _Entry(NamedTuple):
    """Where a ladder is entered."""

    starts: Iterable[int]
    layers: tuple[Layer, ...]
    """Those still to come."""
    first: tuple[BandTask, ...]
    """Bands before them."""


def _entered(ladder: Ladder, task: YokeTask, zones: Zones, state: State | None) -> _Entry | None:
    """Enter a ladder at the neck, or at the state where that lies on its way."""
    if state is None:
        return _Entry(task.necks, ladder.layers, ladder.first)
    gap = sum(band.last <= state.rounds for band in zones.bands)
    above = zones.bands[gap - 1].last if gap else 0
    taken = sum(step.number > above for step in state.increases)
    passed = sum(layer.gap < gap for layer in ladder.layers)
    here = sum(layer.gap == gap for layer in ladder.layers)
    if taken > here:
        return None
    entered = passed + taken
    left = tuple(placed.task for placed in zones.bands[gap:])
    if entered == 0:
        is_on_way = bool(state.bands) or state.stitches in task.necks
        return _Entry((state.stitches,), ladder.layers, ladder.first[gap:]) if is_on_way else None
    last = ladder.layers[entered - 1]
    waiting = tuple(band for band in last.then if band in left) if last.then else ()
    if taken:
        # Rounds that were left plain count among the layers of a stretch.
        near = ladder.layers[entered - 1 : passed + here]
        if not any(state.stitches in layer.counts for layer in near):
            return None
    elif len(waiting) == 0 and state.stitches not in (
        through(count, last.then) for count in last.counts
    ):
        return None
    return _Entry((state.stitches,), ladder.layers[entered:], waiting)


def _may_add_little(entry: _Entry) -> bool:
    """Tell whether a layer has counts next to those wanted before it."""
    steps = pairwise(entry.layers)
    return any(late.counts[0] < (1 + SLIGHT) * early.wanted for early, late in steps)


Path: TypeAlias = tuple[float, float, tuple[int, ...]]
"""How hard it is to knit, how far off the line, and the counts after each increase round."""


def climb(
    starts: Iterable[int],
    wanted: float,
    layers: Sequence[Layer],
    first: tuple[BandTask, ...] = (),
    *,
    spare: float = inf,
    slight: float = SLIGHT_COSTS,
) -> Mapping[int, Path]:
    """Find, for every count at the top, the simplest chain.

    Args:
        starts: the counts at the bottom;
        wanted: and what is wanted there.
        layers: one an increase round.
        first: bands worked before the first increase round.
        spare: repeats to read that a chain may need beyond one for each layer; harder ones
            are not looked for.
        slight: what a round that adds next to nothing is put on a level with, in repeats.

    Returns:
        The chains by the count after the last layer's bands; each begins with its start.
    """
    ends: dict[int, Path] = {}
    for start in starts:
        after = through(start, first)
        if after is not None:
            ends[after] = (0.0, ((start - wanted) / wanted) ** 2, (start,))
    for height, layer in enumerate(layers, start=1):
        ways = sorted((hard, deviation, count) for count, (hard, deviation, _) in ends.items())
        best: dict[int, Path] = {}
        for count in layer.counts:
            after = through(count, layer.then) if layer.then else count
            if after is None:
                continue
            hard, deviation, before = _simplest(count, ends, ways, layer, height + spare, slight)
            if before:
                off = ((count - layer.wanted) / layer.wanted) ** 2
                best[after] = (hard, deviation + off, (*ends[before][2], count))
        ends = best
    return ends


_Way: TypeAlias = tuple[float, float, int]
"""How hard a count is to come to, how far off the line its way is, and the count before it."""


def _simplest(
    count: int,
    ends: Mapping[int, Path],
    ways: Sequence[_Way],
    layer: Layer,
    hardest: float,
    slight: float,
) -> _Way:
    """Find the simplest way to a count; from 0 where there is none, or only harder ones.

    At most half is added in a round, and never less than nothing. First come the
    counts that share the added stitches out exactly, which are those that lie a
    divisor of the count below it; the others only as long as the next one, with
    two repeats to read, could still be simpler.
    """
    most = count // 2 if layer.is_pinned else count // 3
    # The most that is next to nothing: below SLIGHT of what there was before.
    little = ceil(SLIGHT * count / (1 + SLIGHT)) - 1
    best, nearest, start = hardest, inf, 0
    for added in _divisors(count):
        before = count - added
        if added <= most and before in ends:
            hard, deviation, _ = ends[before]
            now = hard + 1 + (slight if added <= little else 0)
            if (now, deviation, before) < (best, nearest, start):
                best, nearest, start = now, deviation, before
    if layer.may_rest and count in ends:
        best, nearest, start = min((best, nearest, start), (*ends[count][:2], count))
    for hard, deviation, before in ways:
        if hard + 2 > best:
            break
        added = count - before
        if 0 < added <= most and (over := before % added):
            now = hard + _repeats(over, added) + (slight if added <= little else 0)
            if now < best or (now == best and (deviation, before) < (nearest, start)):
                best, nearest, start = now, deviation, before
    return best, nearest, start


def _is_slight(added: int, count: int) -> bool:
    return added < SLIGHT * (count - added)


@lru_cache(maxsize=1 << 16)
def _repeats(over: int, times: int) -> int:
    """Give `repeats_needed` for any count that leaves so many over."""
    return repeats_needed(over, times)


@lru_cache(maxsize=1 << 12)
def _divisors(count: int) -> tuple[int, ...]:
    low = [one for one in range(1, isqrt(count) + 1) if count % one == 0]
    return tuple({*low, *(count // one for one in low)} - {count})


class Step(NamedTuple):
    """An increase round before it has its place."""

    before: int
    after: int
    gap: int
    """The plain stretch in which it lies."""


def _to_read(step: Step) -> float:
    """Give what a knitter reads for an increase round, beyond one repeat."""
    added = step.after - step.before
    slight = SLIGHT_COSTS if _is_slight(added, step.after) else 0.0
    return repeats_needed(step.before, added) - 1 + slight


def _walked(counts: tuple[int, ...], entry: _Entry) -> tuple[tuple[Step, ...], tuple[int, ...]]:
    """Give every increase round of a chain, none for a layer left plain; and each band's start."""
    steps: list[Step] = []
    starts: list[int] = []
    now = counts[0]
    for count, gap, bands in (
        (now, 0, entry.first),
        *(
            (count, layer.gap, layer.then)
            for count, layer in zip(counts[1:], entry.layers, strict=True)
        ),
    ):
        if count != now:
            steps.append(Step(now, count, gap))
        now = count
        for band in bands:
            starts.append(now)
            now = now // band.first_width * band.last_width
    return tuple(steps), tuple(starts)


def _best_path(
    paths: Mapping[int, Path],
    ladder: Ladder,
    entry: _Entry,
    task: YokeTask,
    zones: Zones,
    splits: Mapping[int, PricedSplit],
    state: State | None,
    best: tuple[Cost, Solution] | None,
) -> tuple[Cost, Solution] | None:
    """Weigh every chain with its split; give the best of them, or the best so far."""
    for yoke, (_, deviation, counts) in paths.items():
        if yoke not in splits:
            continue
        adjusting, off, split = splits[yoke]
        steps, starts = _walked(counts, entry)
        neck = counts[0] if state is None else state.neck
        difficulty = sum(map(_to_read, steps)) + adjusting + ladder.away
        cost = Cost(0, 0, difficulty, deviation + off)
        if best is not None and cost >= best[0]:
            continue
        built = _built(task, zones, ladder, steps, starts, neck, split, state)
        if built is None:
            continue
        lying_off = sum(
            not 1 - NARROWEST <= band.start.got / band.start.wanted <= 1 + TOLERANCE
            for band in built.bands
        )
        cost = cost._replace(broken=len(built.broken), off_line=lying_off)
        if best is None or cost < best[0]:
            best = cost, built
    return best


def _built(
    task: YokeTask,
    zones: Zones,
    ladder: Ladder,
    steps: tuple[Step, ...],
    starts: tuple[int, ...],
    neck: int,
    split: Split,
    state: State | None,
) -> Solution | None:
    """Give every increase round its place; None where what is done does not lie on its way."""
    per_cm, done = task.stitches_per_cm, state.increases if state else ()
    gaps = [sum(band.last < step.number for band in zones.bands) for step in done]
    whole = [Step(step.before, step.after, gap) for step, gap in zip(done, gaps, strict=True)]
    at = task.fixed.increase_at or places((*whole, *steps), zones, task, neck)
    if state is not None and (
        tuple(at[: len(done)]) != tuple(step.number for step in done)
        or any(place <= state.rounds for place in at[len(done) :])
    ):
        return None
    rounds = (
        *done,
        *(
            IncreaseRound(place, step.before, step.after)
            for place, step in zip(at[len(done) :], steps, strict=True)
        ),
    )
    bands = list(state.bands if state else ())
    left = zip(zones.bands[len(bands) :], ladder.wanted[len(bands) :], starts, strict=True)
    for placed, wanted, before in left:
        repeats = before // placed.task.first_width
        start = Count(before, wanted, placed.task.stitches_per_cm)
        counts = tuple(repeats * width for width in placed.task.widths)
        bands.append(BandShape(placed.task.name, placed.first, repeats, start, counts))
    point = int(zones.share(SHOULDER_AT))
    there = stitches_at(point, neck, rounds, bands)
    numbers = [step.number for step in rounds]
    broken = broken_rules(numbers, zones, task, at_shoulder=there, at_end=split.yoke)
    if any(2 * step.increases > step.before for step in rounds):
        broken = (*broken, Rule.STEEP)
    return Solution(zones, Count(neck, task.neck, per_cm), split, rounds, broken, tuple(bands))


def places(steps: Sequence[Step], zones: Zones, task: YokeTask, neck: int) -> tuple[int, ...]:
    """Give the round of every increase round, inside its own plain stretch.

    Each stands where the line is half-way up its step, so that the staircase
    of counts lies evenly round the line. The round that first covers the
    shoulders is drawn up to their point where its stretch allows; then all are
    moved apart, and closer only where there is no room for that.
    """
    if not steps:
        return ()
    shoulder, limit = task.covering, int(zones.share(SHOULDER_AT))
    if zones.bands:
        full_cm = BANDED_FULL_AT * zones.depths_cm[-1] - zones.worked_cm
        rise = max(1e-9, (steps[-1].after - steps[0].before) / task.stitches_per_cm)
        neck_cm = steps[0].before / task.stitches_per_cm
        found = [
            zones.round_at(
                ((step.before + step.after) / 2 / task.stitches_per_cm - neck_cm) / rise * full_cm
                + zones.worked_cm
            )
            for step in steps
        ]
    else:
        top = (steps[-1].before + steps[-1].after) / 2
        above = float(zones.worked_rounds)
        line = [(neck, above), (top, max(above + 1, zones.share(FULL_AT)))]
        straight = neck + (top - neck) * SHOULDER_AT / FULL_AT
        if straight < shoulder < top and not above:
            line.insert(1, (shoulder, zones.share(SHOULDER_AT)))
        found = [round(_on(line, (step.before + step.after) / 2)) for step in steps]
    ranges = [zones.gaps[step.gap] for step in steps]
    found = [min(max(at, start), end) for at, (start, end) in zip(found, ranges, strict=True)]
    least = min(shoulder, steps[-1].after) if not zones.bands else shoulder
    covering = next((at for at, step in enumerate(steps) if step.after >= least), None)
    if shoulder and covering is not None and ranges[covering][0] <= limit:
        found[covering] = min(found[covering], limit)
    _move_apart(found, ranges)
    if any(late <= early for early, late in pairwise(found)) and not zones.bands:
        ahead, last = zones.first_round - 1, zones.rounds
        return tuple(ahead + at for at in taper(len(found), last - ahead))
    return tuple(found)


def _on(line: Sequence[tuple[float, float]], count: float) -> float:
    """Give the round at which a line reaches a count, which is no more than that of its end."""
    (low, above), (high, below) = next(part for part in pairwise(line) if count <= part[1][0])
    return above + (below - above) * (count - low) / (high - low)


def _move_apart(found: list[int], ranges: Sequence[tuple[int, int]]) -> None:
    """Move rounds at least three apart, each inside its own stretch."""
    for later in range(len(found) - 1, 0, -1):
        found[later - 1] = min(found[later - 1], found[later] - LEAST_APART)
    for early, (start, end) in enumerate(ranges):
        least = found[early - 1] + LEAST_APART if early else start
        found[early] = min(max(found[early], start, least), end)
    for later in range(len(found) - 1, 0, -1):
        found[later - 1] = min(
            found[later - 1], max(ranges[later - 1][0], found[later] - LEAST_APART)
        )


def broken_rules(
    at: Sequence[int], zones: Zones, task: YokeTask, *, at_shoulder: int, at_end: int
) -> tuple[Rule, ...]:
    """Name the rules that increase rounds at these places break.

    Fullness may be half a round off, which no whole number of rounds can help;
    it is not asked of a yoke with bands, where they decide it.

    Args:
        at: the increase rounds.
        zones: the rounds of the yoke.
        task: what it is asked for.
        at_shoulder: stitches after the round at the point of the shoulder.
        at_end: stitches of the whole yoke.
    """
    point = int(zones.share(SHOULDER_AT))
    around_cm = at_shoulder / zones.stitches_per_cm(point, task.stitches_per_cm)
    # The last increase round need not be the end of it: a chart below may grow.
    needed_cm = min(task.covering, at_end) / task.stitches_per_cm
    is_full = True
    if at and not zones.bands:
        earliest, latest = zones.share(FULL_EARLIEST) - 0.5, zones.share(FULL_LATEST) + 0.5
        is_full = earliest <= at[-1] <= latest
    apart = all(late - early >= LEAST_APART for early, late in pairwise(at)) and all(
        abs(place - grown) >= LEAST_APART for place in at for grown in zones.growing
    )
    rules = (
        (Rule.SHOULDER, around_cm >= needed_cm),
        (Rule.APART, apart),
        (Rule.FULLNESS, is_full),
    )
    return tuple(rule for rule, is_kept in rules if not is_kept)


# A state that lies on no line.


def _after_its_band(state: State, task: YokeTask) -> State:
    """Go on to the end of a band that is begun: nothing can be chosen before."""
    begun = state.bands[-1] if state.bands else None
    if begun is None or begun.last <= state.rounds:
        return state
    band = next(band for band in task.bands if band.name == begun.name)
    left = begun.last - state.rounds
    return replace(
        state,
        stitches=begun.counts[-1],
        rounds=begun.last,
        depth_cm=state.depth_cm + left / band.rounds_per_cm,
    )


def _anew(task: YokeTask, state: State) -> Solution | Impossible:
    """Draw a new line from the stitches on the needle, and put the rest below what is done."""
    done, last = len(state.increases), state.last_increase
    rest = replace(
        task,
        neck=float(state.stitches),
        first_round=max(state.rounds + 1, last + LEAST_APART if last else FIRST_INCREASE),
        bands=task.bands[len(state.bands) :],
        fixed=task.fixed.model_copy(
            update={
                "neck": state.stitches,
                "increases": task.fixed.increases[done:],
                "increase_at": task.fixed.increase_at[done:],
            }
        ),
        worked_rounds=state.rounds,
        worked_cm=state.depth_cm,
    )
    found = _search(rest, None)
    if not isinstance(found, Solution):
        return found
    return replace(
        found,
        neck=Count(state.neck, task.neck, task.stitches_per_cm),
        increase_rounds=(*state.increases, *found.increase_rounds),
        bands=(*state.bands, *found.bands),
    )
