"""Between the rounds: where each ball begins, where two lots take turns, when to weigh."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from yokefellow.plan import Plan
from yokefellow.rows.model import Section
from yokefellow.sheet.figures import grams, title_case
from yokefellow.sheet.lines import Note
from yokefellow.sheet.words import section_name
from yokefellow.sheet.yarns import estimates, knowledge
from yokefellow.what_if import Prospects
from yokefellow.yarn import MAIN, Alternation, BallStart, Place, StashUse, stash_use

__all__ = ["WEIGH_AFTER", "ball_notes", "blanks", "to_weigh", "weigh_words"]

Notes = Mapping[tuple[str, int], tuple[Note, ...]]
"""By section and row."""

WEIGH_AFTER = ("yoke", "body", "sleeve")
"""Sections after whose last row a weighing tells most; no hem and no cuff, which end the yarn."""


def ball_notes(plan: Plan, prospects: Prospects | None) -> Notes:
    """Say before which rows a new ball begins, and what to do where the lots differ."""
    found: dict[tuple[str, int], tuple[Note, ...]] = {}
    known = knowledge(prospects)
    for estimate in estimates(plan, prospects):
        use = stash_use(plan.reckoning, plan.schedule, estimate.code, known)
        for place, note in _notes(plan, use, is_enough=estimate.verdict == "enough"):
            at = (place.section, place.row)
            found[at] = (*found.get(at, ()), note)
    return MappingProxyType(found)


def to_weigh(plan: Plan, prospects: Prospects | None) -> tuple[str, ...]:
    """Name the yarns worth weighing on the way: too close to call, or weighed before."""
    ahead = prospects and prospects.forecast
    logged = {check.entry.yarn for check in ahead.checkpoints} if ahead else set()
    return tuple(
        e.code for e in estimates(plan, prospects) if e.verdict == "close" or e.code in logged
    )


def _notes(plan: Plan, use: StashUse, *, is_enough: bool) -> Iterator[tuple[Place, Note]]:
    strands = plan.project.yarn[use.code].strands
    of = f" of {use.code}" if len(plan.yarns) > 1 else ""
    for at, start in enumerate(use.starts[1:], start=1):
        if start.place != use.starts[0].place:
            yield start.place, _begins(use, at, strands, of)
    for change in use.alternations:
        yield change.first, _alternate(change, of)
    if use.runs_out is not None and not is_enough:
        place = use.runs_out
        text = f"{_whose(place)}by the best guess the last ball{of} ends about here."
        yield place, Note("end", "Yarn", place.row, title_case(text))


def _begins(use: StashUse, at: int, strands: int, of: str) -> Note:
    start, balls = use.starts[at], len(use.order)
    first = at * strands + 1
    last = min(balls, first + strands - 1)
    if last > first:
        which = f"balls {first} to {last} of {balls}{of}{_known(start)} begin, held together"
    else:
        which = f"ball {first} of {balls}{of}{_known(start)} begins"
    text = f"{_whose(start.place)}about here {which}{_range(start)}."
    return Note("ball", "Ball", start.place.row, title_case(text))


def _whose(place: Place) -> str:
    return f"{section_name(place.section, place.copy)}: " if place.copy else ""


def _known(start: BallStart) -> str:
    """Say by what a ball is known from the others, where they differ."""
    ball = start.ball
    marks = [
        f"a begun one, {grams(ball.grams)}" if ball.is_part else "",
        ball.lot and f"lot {ball.lot}",
    ]
    said = ", ".join(filter(None, marks))
    return f" ({said})" if said else ""


def _range(start: BallStart) -> str:
    early, late = start.earliest, start.latest
    if late is None:
        return f"; you may not need it, and if you do, not before {_where(early, start.place)}"
    if early == late:
        return ""
    if (early.section, early.copy) == (late.section, late.copy):
        is_here = early.section == start.place.section
        there = "" if is_here else f" of the {section_name(early.section, early.copy).lower()}"
        return f", between rows {early.row} and {late.row}{there}"
    return f", between {_where(early)} and {_where(late)}"


def _where(place: Place, here: Place | None = None) -> str:
    if here is not None and (place.section, place.copy) == (here.section, here.copy):
        return f"row {place.row}"
    return f"row {place.row} of the {section_name(place.section, place.copy).lower()}"


def _alternate(change: Alternation, of: str) -> Note:
    one, other = change.lots
    text = (
        f"{_whose(change.first)}from here to row {change.last.row} let the lots{of} take turns, "
        f"{change.rounds_each} rounds of {one} and {change.rounds_each} of {other}, so that no "
        "line shows between them."
    )
    return Note("lots", "Lots", change.first.row, title_case(text))


def weigh_words(section: Section, codes: Sequence[str]) -> str:
    """Ask for a reading of the scale."""
    which = f" of {' and of '.join(codes)}" if len(codes) > 1 or codes[0] != MAIN else ""
    when = " of either sleeve" if len(section.copies) > 1 else ""
    return (
        f"After the last row{when}, put all the yarn that is left{which} on the scale, "
        "without the work and the needle, and write down the grams: they tell whether it lasts."
    )


def blanks(section: Section, codes: Sequence[str]) -> Iterator[str]:
    """Name what is written down: the grams of each yarn, in each copy."""
    for copy in section.copies:
        for code in codes:
            yield f"{copy.capitalize()} {code}".strip()
