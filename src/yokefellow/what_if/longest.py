"""The longest sleeves and body that the stash lets her knit."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal, NamedTuple

from yokefellow.plan import Plan
from yokefellow.quantities import CM_PER_INCH, LengthUnit
from yokefellow.what_if.pieces import (
    Length,
    bodies,
    bodies_down,
    own_body,
    own_sleeve,
    sleeves,
    sleeves_down,
)
from yokefellow.yarn import (
    MAIN,
    PRIOR,
    Amount,
    Knowledge,
    Reckoning,
    Uncertain,
    YarnEstimate,
)
from yokefellow.yarn.uncertainty import total

Wish = Literal["sleeves", "body", "both"]

Limit = Literal["yarn", "arm", "tunic", "arm and tunic", "too little"]
"""What stops it from being longer; `too little` when not even the shortest lasts."""


class Longest(NamedTuple):
    """The longest that lasts, and why it is no longer."""

    wish: Wish
    sleeve: Length
    body: Length
    limit: Limit
    code: str
    """The yarn that decides."""
    estimate: YarnEstimate
    """Of that yarn, at these lengths."""
    chance_of_more: float | None
    """That the yarn lasts with one round more; None when there is no round more to knit."""
    held_back: Amount
    """What should be left by the best guess: the margin for what is not known."""
    others: Mapping[str, str]
    """The verdict on every other yarn, which no length changes."""
    choices: Mapping[str, str]
    """What to write into the file, by field."""


class _Step(NamedTuple):
    """A point on the way from the shortest to the longest sweater."""

    sleeve: Length
    body: Length


def longest(
    plan: Plan,
    wish: Wish = "sleeves",
    *,
    prefer_sleeves: float = 0.5,
    knowledge: Knowledge = PRIOR,
    sleeve_choices: Sequence[Length] | None = None,
    body_choices: Sequence[Length] | None = None,
) -> Longest:
    """Find the longest sleeves, the longest body, or both in a stated proportion.

    The lengths lie on one way from the shortest to the longest, a round at a
    time, and the furthest point that lasts is taken: more yarn never gives less.

    Args:
        plan: the sweater; its other length stays as chosen.
        wish: what to make long. `both` lets the two grow together.
        prefer_sleeves: of `both`, how much faster the sleeves go towards their
            full length: 0.5 keeps pace, 1 gives the sleeves all they can use
            before the body gets any, 0 the other way round.
        knowledge: what weighings have taught.
        sleeve_choices: lengths to choose from, the shortest first, when not all are open.
        body_choices: the same of the body.

    Raises:
        ValueError: a preference outside 0 to 1.
    """
    if not 0 <= prefer_sleeves <= 1:
        raise ValueError(f"a preference lies between 0 and 1, not at {prefer_sleeves}")
    way = _way(plan, wish, prefer_sleeves, sleeve_choices, body_choices)
    step, chance, of_more = _furthest(way, _Scale.of(plan.reckoning, knowledge), plan)
    estimates = plan.reckoning.with_parts((*step.sleeve.parts, *step.body.parts))
    estimate = estimates.estimate(MAIN, knowledge)
    return Longest(
        wish=wish,
        sleeve=step.sleeve,
        body=step.body,
        limit=_limit(wish, lasts=chance >= plan.reckoning.sure, is_last=of_more is None),
        code=MAIN,
        estimate=estimate,
        chance_of_more=of_more,
        held_back=estimate.left.mean,
        others={
            code: estimates.estimate(code, knowledge).verdict
            for code in estimates.codes
            if code != MAIN
        },
        choices=_choices(wish, step, plan.project.unit),
    )


def _furthest(way: Iterable[_Step], scale: _Scale, plan: Plan) -> tuple[_Step, float, float | None]:
    """Take the longest step that lasts, or the shortest of all.

    Returns:
        The step, the chance that the yarn suffices for it, and for a round more where there is one.
    """
    of_more: float | None = None
    before: float | None = None
    for step in way:
        of_more, before = before, scale.chance(step)
        if before >= plan.reckoning.sure:
            break
    if before is None:
        raise ValueError("there is no length to choose from")
    return step, before, of_more


def _choices(wish: Wish, step: _Step, unit: LengthUnit) -> dict[str, str]:
    """Write the lengths as the file would: to a quarter of a millimetre, less than any round."""

    def written(cm: float) -> str:
        return f"{cm:.2f} cm" if unit == "cm" else f"{cm / CM_PER_INCH:.2f} in"

    fields = {
        "garment.sleeves.length": written(step.sleeve.cm),
        "garment.body.length": written(step.body.cm),
    }
    kept = {"sleeves": ("garment.sleeves.length",), "body": ("garment.body.length",)}
    return {field: fields[field] for field in kept.get(wish, tuple(fields))}


def _limit(wish: Wish, *, lasts: bool, is_last: bool) -> Limit:
    if not lasts:
        return "too little"
    if not is_last:
        return "yarn"
    limits: dict[Wish, Limit] = {"sleeves": "arm", "body": "tunic", "both": "arm and tunic"}
    return limits[wish]


def _way(
    plan: Plan,
    wish: Wish,
    prefer_sleeves: float,
    sleeve_choices: Sequence[Length] | None,
    body_choices: Sequence[Length] | None,
) -> Iterable[_Step]:
    """Give the lengths to try, each a round shorter than the one before."""
    if wish == "body":
        sleeve = own_sleeve(plan)
        torsos = reversed(body_choices) if body_choices else bodies_down(plan)
        return (_Step(sleeve, body) for body in torsos)
    if wish == "sleeves":
        body = own_body(plan)
        arms = reversed(sleeve_choices) if sleeve_choices else sleeves_down(plan)
        return (_Step(sleeve, body) for sleeve in arms)
    both = sleeve_choices or sleeves(plan), body_choices or bodies(plan)
    return reversed(_together(*both, prefer_sleeves))


def _together(
    sleeves_: Sequence[Length], bodies_: Sequence[Length], prefer_sleeves: float
) -> list[_Step]:
    """Let both grow, the one next that lies further behind its share."""
    i = j = 0
    way = [_Step(sleeves_[0], bodies_[0])]
    last_i, last_j = len(sleeves_) - 1, len(bodies_) - 1
    while i < last_i or j < last_j:
        sleeves_come = (i + 1) * last_j * (1 - prefer_sleeves)
        body_comes = (j + 1) * last_i * prefer_sleeves
        if j == last_j or (i < last_i and sleeves_come <= body_comes):
            i += 1
        else:
            j += 1
        way.append(_Step(sleeves_[i], bodies_[j]))
    return way


class _Scale(NamedTuple):
    """Weighs a step of the way: what does not change is weighed once."""

    reckoning: Reckoning
    knowledge: Knowledge
    above: Uncertain

    @classmethod
    def of(cls, reckoning: Reckoning, knowledge: Knowledge) -> _Scale:
        moving = {"sleeve", "cuff", "body", "hem"}
        above = [part for part in reckoning.parts if part.key not in moving]
        return cls(reckoning, knowledge, reckoning.knitting(MAIN, above))

    def chance(self, step: _Step) -> float:
        below = self.reckoning.knitting(MAIN, (*step.sleeve.parts, *step.body.parts))
        knitting = total([(1.0, self.above), (1.0, below)])
        return self.reckoning.chance(MAIN, knitting=knitting, knowledge=self.knowledge)
