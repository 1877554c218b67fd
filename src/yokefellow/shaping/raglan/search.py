"""The raglan solved from a state, with its pins: the cheapest way, or None where there is none."""

from __future__ import annotations

from dataclasses import replace

from yokefellow.project_file.pins import NOTHING, Fixed
from yokefellow.shaping.model import RaglanPiece
from yokefellow.shaping.raglan.by_round import solve_by_round
from yokefellow.shaping.raglan.rates import rates_of
from yokefellow.shaping.raglan.shares import RaglanSolution, RaglanTask, cheapest
from yokefellow.shaping.yoke.constraints import on_the_pins
from yokefellow.shaping.yoke.search import split_as_asked
from yokefellow.shaping.yoke.state import Grown, State

__all__ = ["raglan_state_at", "solve_raglan", "with_pins"]


def with_pins(task: RaglanTask, fixed: Fixed) -> RaglanTask:
    """Give the task with these pins and no others."""
    return replace(task, counts=replace(task.counts, fixed=fixed))


def raglan_state_at(found: RaglanSolution, number: int, rounds_per_cm: float) -> State:
    """Give what is on the needle after a plain round of a raglan, or an increase round."""
    pieces = (found.back, found.front, found.sleeve)
    back, front, sleeve = (
        Grown(
            piece.start,
            piece.stitches_at(number),
            tuple(at for at in piece.rounds if at <= number),
        )
        for piece in pieces
    )
    return State(
        back.stitches + front.stitches + 2 * sleeve.stitches,
        number,
        number / rounds_per_cm,
        tuple(step for step in found.steps if step.number <= number),
        pieces=(back, front, sleeve),
    )


def solve_raglan(task: RaglanTask, state: State | None = None) -> RaglanSolution | None:
    """Choose neck, split, shares and rates together; None when no raglan reaches.

    Args:
        task: what the whole raglan is asked for.
        state: what is on the needle; None before the cast-on, when the neck is chosen, too.

    Returns:
        The whole raglan; what is done stands in it as it was done.
    """
    fixed = task.counts.fixed
    if fixed == NOTHING:
        return _solve(task, state)
    # Pins that a raglan meets by itself change nothing.
    free = with_pins(task, NOTHING)
    found = _solve(free, None)
    if found is not None and _meets(found, fixed):
        return found if state is None else _solve(free, state)
    counts = on_the_pins(task.counts)
    if counts is None:
        return None
    found = _solve(replace(task, counts=counts), state)
    if found is None:
        return None
    return replace(
        found,
        neck=replace(found.neck, wanted=task.counts.neck),
        split=split_as_asked(found.split, task.counts),
    )


def _meets(found: RaglanSolution, fixed: Fixed) -> bool:
    """Tell whether a solution has every pinned count as it is, by itself."""
    split = found.split
    pairs: tuple[tuple[object, object], ...] = (
        (fixed.neck, found.neck.got),
        (fixed.yoke, split.yoke),
        (fixed.body, split.body.got),
        (fixed.sleeve, split.sleeve.got),
        (fixed.underarm, split.underarm.got),
        (fixed.neck_back, found.back.start),
        (fixed.neck_front, found.front.start),
        (fixed.neck_sleeve, found.sleeve.start),
        (fixed.front, split.front),
        (fixed.back, split.back),
        (fixed.increases or None, tuple(step.after for step in found.steps)),
        (fixed.increase_at or None, tuple(step.number for step in found.steps)),
    )
    return all(pin is None or pin == got for pin, got in pairs)


def _solve(task: RaglanTask, state: State | None) -> RaglanSolution | None:
    if state is None:
        fixed = task.counts.fixed
        by_round = fixed.increases or fixed.increase_at
        return solve_by_round(task) if by_round else cheapest(task)
    if state.pieces is None:
        raise ValueError("a raglan goes on from pieces")
    back, front, sleeve = (piece.start for piece in state.pieces)
    found = _solve(_begun(task, back, front, sleeve), None)
    is_on_way = found is not None and all(
        piece.stitches_at(state.rounds) == there.stitches
        and tuple(at for at in piece.rounds if at <= state.rounds) == there.rounds
        for piece, there in zip((found.back, found.front, found.sleeve), state.pieces, strict=True)
    )
    return found if is_on_way else _anew(task, state.pieces, state)


def _begun(task: RaglanTask, back: int, front: int, sleeve: int) -> RaglanTask:
    """Ask for a raglan whose pieces begin with these stitches."""
    starts = {
        "neck": back + front + 2 * sleeve,
        "neck_back": back,
        "neck_front": front,
        "neck_sleeve": sleeve,
    }
    return with_pins(task, task.counts.fixed.model_copy(update=starts))


def _anew(
    task: RaglanTask, pieces: tuple[Grown, Grown, Grown], state: State
) -> RaglanSolution | None:
    """Bring each piece from what is on the needle to its count at the split."""
    down, done = state.rounds, len(state.increases)
    fixed = task.counts.fixed
    left = {
        "increases": fixed.increases[done:],
        "increase_at": tuple(at - down for at in fixed.increase_at[done:]),
    }
    rest = replace(
        task,
        counts=replace(
            task.counts, neck=float(state.stitches), fixed=fixed.model_copy(update=left)
        ),
        room=task.room - down,
        shoulder_round=max(0, task.shoulder_round - down),
    )
    found = _solve(_begun(rest, *(piece.stitches for piece in pieces)), None)
    if found is None:
        return None
    back, front, sleeve = (
        _joined(there, piece, down)
        for there, piece in zip(pieces, (found.back, found.front, found.sleeve), strict=True)
    )
    neck = replace(
        found.neck, got=back.start + front.start + 2 * sleeve.start, wanted=task.counts.neck
    )
    return replace(found, neck=neck, back=back, front=front, sleeve=sleeve)


def _joined(there: Grown, rest: RaglanPiece, down: int) -> RaglanPiece:
    """Put the increase rounds of the rest below those that are done.

    Of a piece whose count is not the planned one, the start is what its rounds came from.
    """
    rounds = (*there.rounds, *(at + down for at in rest.rounds))
    return RaglanPiece(there.stitches - 2 * len(there.rounds), rates_of(rounds), rounds)
