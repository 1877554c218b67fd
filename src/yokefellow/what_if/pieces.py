"""Sleeves and bodies of every length that this sweater could have, and what each costs.

Below the underarm every round costs as many loops as it leaves on the needle,
whether it is plain, increases or decreases; so a piece is counted from its
shape, without writing out its rows.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from math import floor
from typing import NamedTuple

from yokefellow.findings import PlanError
from yokefellow.fit import BodyFit, SleeveFit, body_in_length, cuff_cm, hem_cm, sleeve_fit
from yokefellow.fit.lengths import body_lengths_cm, sleeve_lengths_cm
from yokefellow.fit.limits import LEAST_BODY_CM, LEAST_SLEEVE_CM
from yokefellow.plan import Plan
from yokefellow.project_file.fields import ChosenLength, NamedLength
from yokefellow.rows.body import body_section, dart_loops
from yokefellow.rows.edges import edge_section
from yokefellow.rows.sleeve import CORNER, SLEEVES, sleeve_section
from yokefellow.shaping import BodyShape, Edge, SleeveShape, Split, body_below, sleeve_below
from yokefellow.yarn import MAIN, Counted, Part, part_of


class Length(NamedTuple):
    """A length of the sleeves or the body, and what it takes."""

    cm: float
    """As it may stand in the file: underarm to edge, in whole hundredths."""
    rounds: int
    """In the plain fabric and the edge together, without the bind-off."""
    edge_rounds: int
    fit: SleeveFit | BodyFit
    shape: SleeveShape | BodyShape
    parts: tuple[Part, ...]
    """By the keys of the sections they stand for."""

    @property
    def knitted_cm(self) -> float:
        """Underarm to edge, in whole rounds."""
        edge = self.shape.cuff if isinstance(self.shape, SleeveShape) else self.shape.hem
        return self.shape.rounds.cm + edge.rounds.cm


def sleeve_of(plan: Plan, chosen: ChosenLength, *, banded: bool = True) -> Length:
    """Give the sleeves of a length, with their bands unless it is said otherwise.

    Raises:
        PlanError: a band finds no place in that length.
    """
    fit = sleeve_fit(plan.project, plan.figures, chosen)
    split = plan.shape.split
    charts = plan.piece_charts.sleeves if banded else ()
    return _sleeve(plan, fit, sleeve_below(plan.project, plan.gauges, split, fit, charts=charts))


def own_sleeve(plan: Plan) -> Length:
    """Give the sleeves as they are planned, with the pins of their rounds and cuff."""
    return _sleeve(plan, plan.finished.sleeve, plan.shape.sleeve)


def _sleeve(plan: Plan, fit: SleeveFit, shape: SleeveShape) -> Length:
    return Length(
        cm=fit.length_cm,
        rounds=shape.rounds.got + shape.cuff.all_rounds,
        edge_rounds=shape.cuff.all_rounds,
        fit=fit,
        shape=shape,
        parts=(
            _sleeve_part(shape, plan.shape.split),
            _edge_part("cuff", shape.cuff, shape.edge.got, SLEEVES),
        ),
    )


def _sleeve_part(shape: SleeveShape, split: Split) -> Part:
    if shape.bands:
        return part_of(sleeve_section(shape, held=split.held, underarm=split.underarm.got))
    # Picked up with a stitch more at each corner, which the second round closes.
    loops = 2 * CORNER + _loops(
        split.sleeve.got, shape.rounds.got, ((at, -2) for at in shape.decreases), shape.edge.got
    )
    return _part("sleeve", len(SLEEVES) * loops, "plain")


def body_of(plan: Plan, chosen: ChosenLength, *, banded: bool = True) -> Length:
    """Give the body of a length, with its bands unless it is said otherwise.

    Raises:
        PlanError: a band finds no place in that length.
    """
    fit = body_in_length(plan.finished.body, plan.project, plan.figures, chosen)
    charts = plan.piece_charts.body if banded else ()
    split = plan.shape.split
    return _body(plan, fit, body_below(plan.project, plan.gauges, split, fit, charts=charts))


def own_body(plan: Plan) -> Length:
    """Give the body as it is planned, with the pins of its rounds and hem."""
    return _body(plan, plan.finished.body, plan.shape.body)


def _body(plan: Plan, fit: BodyFit, shape: BodyShape) -> Length:
    return Length(
        cm=fit.length_cm,
        rounds=shape.rounds.got + shape.hem.all_rounds,
        edge_rounds=shape.hem.all_rounds,
        fit=fit,
        shape=shape,
        parts=(_body_part(plan, shape), _edge_part("hem", shape.hem, shape.hem_stitches)),
    )


def _body_part(plan: Plan, shape: BodyShape) -> Part:
    start = plan.shape.split.body.got
    wrapped = plan.project.garment.neck.wraps
    if shape.bands:
        return part_of(body_section(shape, stitches=start, wrapped=wrapped))
    changes = ((change.number, change.added) for change in shape.changes)
    loops = _loops(start, shape.rounds.got, changes, shape.hem_stitches)
    return _part("body", loops + dart_loops(shape, start, wrapped=wrapped), "plain")


def unmodified(plan: Plan) -> tuple[Part, ...]:
    """Give full sleeves and a body to the hip, with their bands where these fit."""
    return (
        *_fitting(sleeve_of, plan, "full").parts,
        *_fitting(body_of, plan, "hip").parts,
    )


def _fitting(of: Callable[..., Length], plan: Plan, name: str) -> Length:
    try:
        return of(plan, NamedLength(name))
    except PlanError:
        return of(plan, NamedLength(name), banded=False)


def _part(key: str, loops: int, fabric: str) -> Part:
    return Part(key, {(MAIN, fabric): Counted(loops)})


@lru_cache(maxsize=1 << 10)
def _edge_part(key: str, edge: Edge, stitches: int, copies: tuple[str, ...] = ("",)) -> Part:
    """Count an edge; pieces of other lengths often have the same one."""
    return part_of(edge_section(key, edge, stitches=stitches, copies=copies))


def _loops(start: int, rounds: int, changes: Iterable[tuple[int, int]], edge: int) -> int:
    """Add up the stitches after each round; the last goes to the count of the edge.

    The last round of all is itself a shaping round where one falls on it.
    """
    loops, now, at = 0, start, 0
    for number, change in changes:
        loops += now * (number - 1 - at)
        now += change
        loops += now
        at = number
    if at == rounds:
        return loops
    return loops + now * (rounds - 1 - at) + edge


def sleeves(plan: Plan) -> tuple[Length, ...]:
    """List the sleeves from the shortest to the longest, a round apart."""
    return tuple(sleeves_down(plan))[::-1]


def sleeves_down(plan: Plan) -> Iterator[Length]:
    """Yield the sleeves from the longest to the shortest, a round apart.

    The longest is the full one, or the chosen one when that is longer.
    """
    full_cm = sleeve_lengths_cm(plan.figures)["full"]
    cuff = plan.project.garment.sleeves.cuff
    least_cm = LEAST_SLEEVE_CM if isinstance(cuff, str) else max(LEAST_SLEEVE_CM, 2 * cuff)
    return _lengths(
        lambda cm: sleeve_of(plan, cm),
        lambda cm: cuff_cm(plan.project, plan.figures, cm),
        least_cm=min(least_cm, plan.finished.sleeve.length_cm),
        most_cm=max(full_cm, plan.finished.sleeve.length_cm),
        rounds_per_cm=plan.gauges.plain.rounds_per_cm,
    )


def bodies(plan: Plan) -> tuple[Length, ...]:
    """List the bodies from the shortest to the longest, a round apart."""
    return tuple(bodies_down(plan))[::-1]


def bodies_down(plan: Plan) -> Iterator[Length]:
    """Yield the bodies from the longest to the shortest, a round apart.

    The longest is the tunic, or the chosen one when that is longer; the
    shortest is twice its hem.
    """
    tunic_cm = body_lengths_cm(plan.figures)["tunic"]
    hem = plan.project.garment.body.hem
    least_cm = LEAST_BODY_CM if isinstance(hem, str) else max(LEAST_BODY_CM, 2 * hem)
    return _lengths(
        lambda cm: body_of(plan, cm),
        lambda cm: hem_cm(plan.project, plan.figures, cm),
        least_cm=min(least_cm, plan.finished.body.length_cm),
        most_cm=max(tunic_cm, plan.finished.body.length_cm),
        rounds_per_cm=plan.gauges.plain.rounds_per_cm,
    )


def _lengths(
    made: Callable[[float], Length],
    edge_cm: Callable[[float], float],
    *,
    least_cm: float,
    most_cm: float,
    rounds_per_cm: float,
) -> Iterator[Length]:
    last: Length | None = None
    for cm in _steps(edge_cm, least_cm=least_cm, most_cm=most_cm, rounds_per_cm=rounds_per_cm):
        length = _or_none(made, cm)
        if length is None:
            continue
        passed = _between(made, length, last) if last else []
        yield from passed
        last = passed[-1] if passed else last
        if last is None or _counts(length) != _counts(last):
            last = length
            yield length


def _or_none(made: Callable[[float], Length], cm: float) -> Length | None:
    """Give a length; None where the bands find no place in it."""
    try:
        return made(cm)
    except PlanError:
        return None


def _counts(length: Length) -> tuple[int, int]:
    return length.rounds, length.edge_rounds


HAIR_CM = 0.01
"""As finely as a length is written into the file."""


def _between(made: Callable[[float], Length], short: Length, long: Length) -> list[Length]:
    """List the lengths between two that are more than a round apart, the longest first.

    Where the edge changes with the length, both are rounded, and a step of one
    round may pass over a length that there is, if only within a few hundredths.
    """
    found: list[Length] = []
    last, hairs = long, round((long.cm - short.cm) / HAIR_CM)
    for hair in range(1, hairs):
        if last.rounds - short.rounds <= 1:
            break
        length = _or_none(made, round(long.cm - hair * HAIR_CM, 2))
        if length is not None and short.rounds < length.rounds < last.rounds:
            last = length
            found.append(length)
    return found


def _steps(
    edge_cm: Callable[[float], float], *, least_cm: float, most_cm: float, rounds_per_cm: float
) -> Iterator[float]:
    """Go down from the longest, a round at a time, each in the middle of what rounds to it.

    The edge may be shallower on a shorter piece, so it is asked at every step.
    """
    at = floor(most_cm * 100) / 100
    while at >= least_cm:
        yield at
        at = round(_centred(edge_cm, at - 1 / rounds_per_cm, rounds_per_cm), 2)


def _centred(edge_cm: Callable[[float], float], target_cm: float, rounds_per_cm: float) -> float:
    """Give the length near the target that is whole rounds and the edge it has.

    Where the edge jumps, what lies just below the jump is looked for anew with
    the edge it has there.
    """
    for _ in range(4):
        edge = edge_cm(target_cm)
        above = max(1, round((target_cm - edge) * rounds_per_cm)) / rounds_per_cm
        there = edge_cm(above + edge)
        if abs(there - edge) * rounds_per_cm < 0.5:
            found = above + there
            return found if abs(found - target_cm) * rounds_per_cm < 0.5 + 1e-9 else target_cm
        target_cm = min(target_cm, above + edge)
    return target_cm
