"""Where a raglan is counted, piece by piece, and measured."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby, pairwise

from yokefellow.advice.context import Check, Desk
from yokefellow.rows.model import Feature, Stretch
from yokefellow.shaping.front_neck import FrontNeck
from yokefellow.shaping.shapes import Shape
from yokefellow.shaping.yoke_shapes import AnyYoke, IncreaseRound, RaglanShape

EVERY = 5
"""Increase rounds between two counts, where nothing changes (our choice)."""


def piece_counts(yoke: RaglanShape, number: int) -> str:
    """Word the count of each piece after a round, in the order in which the round meets them."""
    back, sleeve, front = (
        piece.stitches_at(number) for piece in (yoke.back, yoke.sleeve, yoke.front)
    )
    return f"back {back}, sleeve {sleeve}, front {front}, sleeve {sleeve}"


def worth_counting(yoke: RaglanShape) -> tuple[int, ...]:
    """Give the increase rounds to count after: the first, the last, every fifth, every change.

    A change is where other pieces begin to increase by turns, or where the
    rounds between two increase rounds become more or fewer; where they always
    do, it is none.
    """
    steps = yoke.increase_rounds
    if not steps:
        return ()
    changes = _last_of_runs(steps) if _is_regular(yoke) else ()
    chosen = {steps[0].number, steps[-1].number, *changes}
    since, found = 0, list[int]()
    for step in steps:
        since += 1
        if step.number in chosen or since >= EVERY:
            found.append(step.number)
            since = 0
    return tuple(found)


def _is_regular(yoke: RaglanShape) -> bool:
    """Tell whether rates say the rounds of every piece; rounds that are pinned may be any."""
    return all(piece.rates or not piece.rounds for piece in (yoke.back, yoke.front, yoke.sleeve))


def _last_of_runs(steps: tuple[IncreaseRound, ...]) -> Iterator[int]:
    """Give the last round of every run of increase rounds that lie equally far apart."""
    apart = [(later.number - early.number, later.number) for early, later in pairwise(steps)]
    for _, run in groupby(apart, key=lambda one: one[0]):
        yield list(run)[-1][1]


def has_plain_rounds(yoke: RaglanShape) -> bool:
    """Tell whether plain rounds lie between the last increase rounds, to be left out at need."""
    last_two = yoke.increase_rounds[-2:]
    return len(last_two) > 1 and last_two[1].number - last_two[0].number > 1


def _open_counts(yoke: RaglanShape, front: FrontNeck, number: int) -> str:
    """Word the counts while the fronts are open, from the left front to the right one."""
    each = front.each(number, grown=yoke.front.stitches_at(number) - yoke.front.start)
    back, sleeve = yoke.back.stitches_at(number), yoke.sleeve.stitches_at(number)
    return (
        f"{back + 2 * (sleeve + each)} stitches: front {each}, sleeve {sleeve}, back {back}, "
        f"sleeve {sleeve}, front {each}."
    )


def raglan_counts(yoke: RaglanShape, shape: Shape) -> Iterator[Check]:
    """Count the work, and each piece between its markers, after rounds worth counting."""
    for place, number in enumerate(worth_counting(yoke)):
        is_open = shape.front is not None and number < shape.flat_rows
        around = "" if is_open else "; the back lies on both sides of BOR"
        mend = (
            f" Count from marker to marker{around}. A piece with one too few: find the line where "
            "an increase is missing, and make it there now."
            if place == 0
            else ""
        )
        said = (
            _open_counts(yoke, shape.front, number)
            if is_open and shape.front
            else f"{yoke.stitches_at(number)} stitches: {piece_counts(yoke, number)}."
        )
        yield Check(*shape.at(number), "count", "Count", f"{said}{mend}")


def count_checks(desk: Desk, rows: tuple[Stretch, ...]) -> Iterator[Check]:
    """Give the counts of the yoke: after every increase round, or where a raglan is worth it."""
    yoke = desk.shape.yoke
    if isinstance(yoke, RaglanShape):
        return raglan_counts(yoke, desk.shape)
    return _increases(rows, mend=_OWN if desk.project.pattern is None else _THEIRS)


_OWN = (
    "a missed M1L leaves a wider gap between two increases; find it, pick up the bar below and "
    "knit it through the back loop"
)
_THEIRS = "a missed increase leaves a wider gap between two others; find it and make it there now"


def _increases(rows: tuple[Stretch, ...], *, mend: str) -> Iterator[Check]:
    """Count after every increase round; how a pattern increases, it says itself."""
    first = True
    for worked in rows:
        if worked.row.feature is not Feature.INCREASE:
            continue
        said = f" One or two short: {mend}. Count after every increase round." if first else ""
        yield Check(
            worked.section.key,
            worked.number,
            "count",
            "Count",
            f"{worked.after} stitches.{said}",
        )
        first = False


def yoke_checks(desk: Desk) -> Iterator[Check]:
    """Give the checks at the shoulders and before the split."""
    yoke = desk.shape.yoke
    at = _outside_bands(yoke, yoke.shoulder_round)
    around = desk.width(yoke.stitches_at(at), desk.gauge_at(at))
    yield Check(
        *desk.shape.at(at),
        "measure",
        "Over the shoulders" if isinstance(yoke, RaglanShape) else "Point of the shoulder",
        f"{_side(desk)} measures {desk.yoke_depth(at)}, and the work is "
        f"{around} round. {_row_gauge(desk, at)}",
    )
    held = desk.shape.split.held
    underarm_cm = desk.shape.split.underarm.cm
    yield Check(
        *desk.shape.at(yoke.rounds.got),
        "try on",
        "Before the split",
        f"{desk.neck_edge} the {desk.side} measures {desk.yoke_depth(yoke.rounds.got)}"
        f"{_armhole(desk)}, and the count is {desk.shape.split.yoke}. Put the stitches on "
        "waste yarn and try it on. With "
        f"{held} stitches for each sleeve pinched off and {desk.show(underarm_cm)} "
        "between front and back, the edge should meet just below the armpit without pulling. "
        f"If it pulls under the arm, knit 2–4 more rounds. If it sags, {_take_out(desk)}",
    )


def _side(desk: Desk) -> str:
    """Say where a depth is measured: a raglan's shoulder lies along the sleeve."""
    if isinstance(desk.shape.yoke, RaglanShape):
        return f"{_from(desk)} along the middle of a sleeve, over the shoulder, the yoke"
    return f"{desk.neck_edge} the front"


def _from(desk: Desk) -> str:
    return desk.neck_edge.removesuffix(" at the back of the neck")


def _armhole(desk: Desk) -> str:
    """Tell how deep a raglan's armhole is: half of the sleeve's top lies before the shoulder."""
    yoke = desk.shape.yoke
    if not isinstance(yoke, RaglanShape) or not yoke.sleeve.start:
        return ""
    return f", which is {desk.show(yoke.armhole_cm)} from the top of the shoulder once washed"


def _outside_bands(yoke: AnyYoke, number: int) -> int:
    """Give the round, or the last of the band it lies in: a band is not interrupted."""
    inside = [band.last for band in yoke.bands if band.first <= number < band.last]
    return inside[0] if inside else number


def _take_out(desk: Desk) -> str:
    yoke = desk.shape.yoke
    last = max([yoke.last_increase, *(band.last for band in yoke.bands)])
    if isinstance(yoke, RaglanShape) and not yoke.bands and has_plain_rounds(yoke):
        return (
            "take it back a little, and work the last increase rounds with fewer plain rounds "
            "between them."
        )
    if last >= yoke.rounds.got:
        return "rip back to the last increase round, choose a shallower yoke and print a new sheet."
    return f"take out plain rounds below round {desk.shape.at(last)[1]}, never the increases" + (
        " or a band." if yoke.bands else "."
    )


def _row_gauge(desk: Desk, at: int) -> str:
    """Tell what to do when the rounds are not as high as the swatch's."""
    tape_cm, shown = desk.tape
    count = tape_cm * desk.plain.unwashed_rounds_per_cm
    swatch = (
        f"the swatch had {count:.0f} before washing"
        if desk.knows_unwashed
        else f"the washed swatch had {count:.0f}, and unwashed it may be one or two more or fewer"
    )
    words = f"Count the rounds in {shown} of plain knitting: {swatch}. If yours are further off, "
    if isinstance(desk.shape.yoke, RaglanShape):
        end = desk.yoke_on_needles(desk.shape.yoke.rounds.got)
        return (
            f"{words}keep the increases as they are written: they bring the counts. Add or leave "
            "out plain rounds between the slower ones, and split when the "
            f"{desk.side} measures {end}."
        )
    words += "go on by the tape and not by the number of plain rounds"
    places = ", ".join(_places_below(desk, at))
    return f"{words}: {places}." if places else f"{words}."


def _places_below(desk: Desk, at: int) -> Iterator[str]:
    """Word the depth at which each thing below a round begins, as the tape meets it."""
    yoke = desk.shape.yoke
    total = len(yoke.increase_rounds)
    below = [
        (step.number, f"work increase round {place} of {total}")
        for place, step in enumerate(yoke.increase_rounds, start=1)
        if step.number > at
    ]
    below += [(band.first, f"begin {band.name}") for band in yoke.bands if band.first > at]
    below.append((yoke.rounds.got + 1, "split"))
    for number, what in sorted(below):
        yield f"{what} when the front measures {desk.yoke_on_needles(number - 1)}"
