"""The forecast after weighings: what they taught, whether the yarn lasts, what is still open."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from yokefellow.findings import Finding, Severity
from yokefellow.plan import Plan
from yokefellow.what_if.longest import Longest, longest
from yokefellow.what_if.pieces import bodies, own_body
from yokefellow.yarn import (
    PRIOR,
    Belief,
    Knowledge,
    Observation,
    Place,
    Uncertain,
    YarnEstimate,
    done,
    learned,
    scale_sd,
)
from yokefellow.yarn.extras import have
from yokefellow.yarn.progress import in_order
from yokefellow.yarn.uncertainty import total
from yokefellow.yarn.weighing_log import Entry

UNLIKELY_SD = 4.0
"""A reading further from what was expected is a slip more often than news (our choice: under the
declared errors one in sixteen thousand)."""


class Checkpoint(NamedTuple):
    """A reading beside what was expected of it."""

    entry: Entry
    expected: Belief
    """What should have been left, in g, by what was known before it."""
    is_used: bool


class Forecast(NamedTuple):
    """What is known after the weighings."""

    knowledge: Knowledge
    checkpoints: tuple[Checkpoint, ...]
    """In the order of the knitting."""
    yarns: Mapping[str, YarnEstimate]
    """By code, in place of the plan's."""
    per_stitch: Mapping[str, tuple[Belief, Belief]]
    """By code, g in one plain stitch: before and after the weighings."""
    reached: Place | None
    """The furthest row of any reading."""
    open: tuple[str, ...]
    """`sleeves` and `body`, as far as their length can still be chosen."""
    longest: Mapping[str, Longest]
    """By what is open: the longest that lasts now."""
    findings: tuple[Finding, ...]
    """Readings that were left out, and why."""


def forecast(plan: Plan, entries: Sequence[Entry], *, prefer_sleeves: float = 0.5) -> Forecast:
    """Learn from readings, and look ahead.

    Args:
        plan: the sweater.
        entries: the readings; without any, what is known before the first.
        prefer_sleeves: as `longest` has it, where both lengths are open.
    """
    learnt = learn(plan, entries)
    reached = _place(learnt.checkpoints[-1].entry) if learnt.checkpoints else None
    still_open = _open(plan, reached)
    knowledge = learnt.knowledge
    per_stitch = {code: _per_stitch(plan, code, knowledge) for code in plan.yarns}
    return Forecast(
        knowledge=knowledge,
        checkpoints=learnt.checkpoints,
        yarns=plan.reckoning.estimates(knowledge),
        per_stitch=MappingProxyType(per_stitch),
        reached=reached,
        open=still_open,
        longest=MappingProxyType(_longest(plan, knowledge, still_open, reached, prefer_sleeves)),
        findings=learnt.findings,
    )


class Learnt(NamedTuple):
    """What readings teach, and which of them."""

    knowledge: Knowledge
    checkpoints: tuple[Checkpoint, ...]
    """In the order of the knitting."""
    findings: tuple[Finding, ...]

    def of(self, plan: Plan) -> Plan:
        """Give a plan as it stands after the readings.

        A reading that was left out still tells that the knitting is begun.
        """
        return plan.after(self.knowledge) if self.checkpoints else plan


def learn(plan: Plan, entries: Sequence[Entry]) -> Learnt:
    """Take in readings, in the order of the rows whatever their order in the log.

    One that no row of this sweater fits, or that is far from anything
    expected, is left out and told. Of two readings of one yarn at one row the
    later in the log counts: weighing again corrects the first.
    """
    order = _places_in_order(plan)
    findings: list[Finding] = []
    fitting: list[Entry] = []
    for entry in entries:
        if entry.yarn not in plan.yarns or _place(entry) not in order:
            findings.append(_no_such_row(entry))
        else:
            fitting.append(entry)
    fitting = list({(entry.yarn, _place(entry)): entry for entry in fitting}.values())
    fitting.sort(key=lambda entry: (order[_place(entry)], entry.time))
    seen: list[Observation] = []
    checkpoints: list[Checkpoint] = []
    knowledge = PRIOR
    reading_sd = scale_sd(plan.project)
    for entry in fitting:
        quantity = _left_at(plan, entry)
        expected = knowledge.of(quantity)
        off = abs(entry.grams - expected.mean) / (expected.sd**2 + reading_sd**2) ** 0.5
        checkpoints.append(Checkpoint(entry, expected, is_used=off <= UNLIKELY_SD))
        if off <= UNLIKELY_SD:
            seen.append(Observation(quantity, entry.grams, reading_sd))
            knowledge = learned(seen)
        else:
            findings.append(_unlikely(entry, expected))
    return Learnt(knowledge, tuple(checkpoints), tuple(findings))


def _per_stitch(plan: Plan, code: str, knowledge: Knowledge) -> tuple[Belief, Belief]:
    loop = plan.reckoning.rates.by[code, "plain"].loop
    return PRIOR.of(loop), knowledge.of(loop)


def _place(entry: Entry) -> Place:
    return Place(entry.section, entry.row, entry.copy)


def _places_in_order(plan: Plan) -> dict[Place, int]:
    places = (run.place(at) for run in in_order(plan.schedule) for at in range(run.times))
    return {place: number for number, place in enumerate(places)}


def _left_at(plan: Plan, entry: Entry) -> Uncertain:
    """Give what is left of a yarn when a row is finished, in g.

    The tail and the swatch are gone from the beginning, the ends go with the
    stitches.
    """
    reckoning, code = plan.reckoning, entry.yarn
    knitted = reckoning.knitting(code, done(plan.schedule, _place(entry)))
    whole = reckoning.knitting(code).mean
    share = knitted.mean / whole if whole else 0.0
    besides = (
        (-share if extra.what == "ends" else -1.0, extra.grams)
        for extra in reckoning.extras(code, whole)
    )
    return total([(1.0, have(plan.project, code)), (-1.0, knitted), *besides])


def _open(plan: Plan, reached: Place | None) -> tuple[str, ...]:
    """Tell which lengths can still be chosen.

    A straight body can be made longer or shorter while it grows; a shaped body
    and a sleeve are spread over their length from the first row.
    """
    keys = [section.key for section in plan.schedule.sections]
    at = keys.index(reached.section) if reached else -1
    found = []
    for what, key in (("sleeves", "sleeve"), ("body", "body")):
        growing = key == "body" == (reached and reached.section) and _is_straight(plan)
        if at < keys.index(key) or growing:
            found.append(what)
    return tuple(found)


def _is_straight(plan: Plan) -> bool:
    return plan.project.garment.body.shape == "straight"


def _longest(
    plan: Plan,
    knowledge: Knowledge,
    still_open: Iterable[str],
    reached: Place | None,
    prefer_sleeves: float,
) -> dict[str, Longest]:
    found: dict[str, Longest] = {}
    wishes = tuple(still_open)
    grown = 0
    if reached and reached.section == "body":
        grown = plan.shape.body.round_of(reached.row)
    tall_enough = [b for b in bodies(plan) if b.rounds - b.edge_rounds > grown]
    chosen = own_body(plan)
    body_choices = tall_enough or [chosen]
    if "sleeves" in wishes:
        found["sleeves"] = longest(plan, "sleeves", knowledge=knowledge)
    if "body" in wishes:
        found["body"] = longest(plan, "body", knowledge=knowledge, body_choices=body_choices)
    if len(wishes) > 1:
        found["both"] = longest(
            plan,
            "both",
            prefer_sleeves=prefer_sleeves,
            knowledge=knowledge,
            body_choices=body_choices,
        )
    return found


def _no_such_row(entry: Entry) -> Finding:
    where = f"row {entry.row} of {entry.section} {entry.copy}".strip()
    return Finding(
        "weighings.no-row",
        Severity.CAUTION,
        "",
        f"The reading of {entry.shown} of {entry.yarn} at {where} fits no row of this sheet, "
        "and was left out.",
        "Look at yarn, section and row; a changed project file may have other rows.",
    )


def _unlikely(entry: Entry, expected: Belief) -> Finding:
    return Finding(
        "weighings.unlikely",
        Severity.CAUTION,
        "",
        f"After row {entry.row} of the {entry.section} {entry.shown} of {entry.yarn} were "
        f"weighed, where {expected.mean:.0f} g were expected, give or take {2 * expected.sd:.0f}; "
        "the reading was left out.",
        "Weigh every ball again. If it stands, correct the ball's weight and length in the file.",
    )
