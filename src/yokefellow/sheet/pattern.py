"""The pattern that is followed, in words: its sizes at this gauge, and what becomes of its rounds.

Of the pattern itself there is nothing but the numbers the knitter typed: how
an increase is worked, it says and not the sheet.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from yokefellow.pattern_sizes.follow import Followed, Stretch, stretches
from yokefellow.pattern_sizes.sizes import SizeAt
from yokefellow.plan import Plan
from yokefellow.quantities import LengthUnit, length
from yokefellow.shaping.yoke_shapes import RaglanShape
from yokefellow.sheet.dimensions import body_cm, sleeve_cm
from yokefellow.sheet.figures import signed_length
from yokefellow.sheet.pattern_pieces import PatternView, SizeLine

__all__ = ["from_pattern", "size_heads", "size_lines"]


NONE = "–"


def size_heads() -> tuple[str, ...]:
    """Give the heads of the table of sizes, but for the first."""
    return ("Chest", "Ease", "Upper arm", "Ease", "Neck", "Its yoke", "Its own chest")


def size_lines(followed: Followed, unit: LengthUnit) -> tuple[SizeLine, ...]:
    """Give every size as it comes out at the knitter's gauge."""
    return tuple(
        SizeLine(
            one.size.size, tuple(_cells(one, unit)), one is followed.size, one is followed.best
        )
        for one in followed.sizes
    )


def _cells(one: SizeAt, unit: LengthUnit) -> Iterator[str]:
    yield length(one.chest_cm, unit)
    yield signed_length(one.ease_cm, unit)
    yield NONE if one.upper_arm_cm is None else length(one.upper_arm_cm, unit)
    yield NONE if one.arm_ease_cm is None else signed_length(one.arm_ease_cm, unit)
    yield NONE if one.neck_cm is None else length(one.neck_cm, unit)
    yield NONE if one.depth_cm is None else length(one.depth_cm, unit)
    yield NONE if one.printed_chest_cm is None else length(one.printed_chest_cm, unit)


def from_pattern(plan: Plan) -> PatternView | None:
    """Put what is followed into words; None where no pattern is."""
    followed = plan.followed
    if followed is None:
        return None
    name = followed.pattern.name
    return PatternView(
        title=f"From your pattern, {name}" if name else "From your pattern",
        intro=tuple(_intro(plan, followed)),
        heads=size_heads(),
        lines=size_lines(followed, plan.project.sheet.units),
        told=tuple(_told(plan, followed)),
    )


def _intro(plan: Plan, followed: Followed) -> Iterator[str]:
    size, unit = followed.size, plan.project.sheet.units
    others = (
        "The other rounds of the yoke are plain, or carry its colour bands."
        if plan.charts
        else "All other rounds of the yoke are plain."
    )
    yield (
        f"This sweater has the stitches of size {size.size.size}, from the neck to the split. Its "
        "rounds are counted anew for your row gauge and this body; body, sleeves and yarn are "
        f"planned afresh. {_beside(followed)} Rounds of the yoke are counted from below the "
        f"neckband and its short rows. {others}"
    )
    yield (
        "The table shows each size as it would come out at your gauge. "
        f"You want {length(plan.finished.body.chest_cm, unit)} at the chest and "
        f"{length(plan.finished.sleeve.upper_arm_cm, unit)} at the upper arm. “Its yoke” is "
        "how deep its rounds would be, one for one, at your row gauge; “its own chest” is what "
        "the pattern prints, or its stitches at its own gauge."
    )


def _beside(followed: Followed) -> str:
    """Say what the pattern itself is still wanted for."""
    size = followed.size.size
    if not size.increases and not size.increase_at:
        return (
            "Its increase rounds were not typed: they are chosen here, and this sheet is complete "
            "in itself."
        )
    return (
        "Keep the pattern beside you: its increase rounds are worked as it works them, and this "
        "sheet says in which round, and which count to meet."
    )


def _told(plan: Plan, followed: Followed) -> Iterator[str]:
    yield from _neck(plan, followed)
    yield _depth(plan, followed)
    places = stretches(followed, plan.shape)
    is_raglan = isinstance(plan.shape.yoke, RaglanShape)
    yield from _raglan_places(places, plan) if is_raglan else (_place(one) for one in places)
    if not places and followed.size.size.increases:
        rounds = [step.number for step in plan.shape.yoke.increase_rounds]
        shown = _in_ranges(rounds) if is_raglan else _listed([str(number) for number in rounds])
        where = "down to the underarm" if is_raglan else "along the shoulders"
        yield (
            "Where your pattern's increase rounds lie was not typed: they stand at rounds "
            f"{shown} of the yoke, evenly {where}."
        )
    yield from _below(plan, followed)


def _neck(plan: Plan, followed: Followed) -> Iterator[str]:
    neck, theirs = plan.shape.neck, followed.size.size.cast_on
    if theirs == neck.band_stitches == neck.stitches.got:
        yield f"Cast on {theirs} stitches, as your pattern does: the yoke has as many."
    elif theirs == neck.band_stitches:
        yield (
            f"Cast on {theirs} stitches, as your pattern does; the yoke has {neck.stitches.got}."
        )


def _listed(words: list[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def _in_ranges(numbers: Sequence[int]) -> str:
    """Write numbers that follow each other as ranges.

    >>> _in_ranges([1, 3, 4, 5, 9])
    '1, 3–5 and 9'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return _listed([_rounds(run[0], run[-1]) for run in runs])


def _raglan_places(places: Sequence[Stretch], plan: Plan) -> Iterator[str]:
    """Say before which of its increase rounds there are more rounds than in the pattern, or fewer.

    A raglan has too many increase rounds to speak of each; beside its row it is named.
    """
    grown = [one for one in places if one.increase is not None]
    if not grown:
        return
    yield (
        f"Its {len(grown)} increase rounds lie between round {grown[0].last} and round "
        f"{grown[-1].last} of the yoke; beside the rows below stands which is which."
    )
    by_more: dict[int, list[int]] = {}
    for one in grown:
        by_more.setdefault(one.more, []).append(one.increase or 0)
    for more, numbers in sorted(by_more.items()):
        yield _before(more, numbers, every=len(numbers) == len(grown))
    yield _raglan_end(places[-1], plan)


def _before(more: int, numbers: Sequence[int], *, every: bool) -> str:
    """Say how many plain rounds more or fewer come before some of the increase rounds."""
    one = "increase round" if len(numbers) == 1 else "increase rounds"
    which = "each of its increase rounds" if every else f"its {one} {_in_ranges(numbers)}"
    plain = "plain round" if abs(more) == 1 else "plain rounds"
    if more > 0:
        return f"Knit {more} {plain} more than your pattern does before {which}."
    if more < 0:
        return f"Leave out {-more} {plain} before {which}."
    return f"Before {which} knit as many rounds as your pattern does."


def _raglan_end(last: Stretch, plan: Plan) -> str:
    """Lead from the last increase round of a raglan to the split."""
    if last.increase is None:
        return _place(last)
    printed = plan.followed.size.size.yoke_rounds if plan.followed else None
    left_out = (printed or 0) - (last.printed_last or 0)
    plain = "1 plain round" if left_out == 1 else f"{left_out} plain rounds"
    dropped = f", without the {plain} of your pattern" if left_out > 0 else ""
    return f"The split comes right after the last of them{dropped}, on {last.count} stitches."


def _depth(plan: Plan, followed: Followed) -> str:
    unit, yoke, size = plan.project.sheet.units, plan.shape.yoke.rounds, followed.size
    said = f"The yoke is {length(yoke.cm, unit)} deep, {yoke.got} rounds"
    printed = size.size.yoke_rounds
    if printed is None or size.depth_cm is None:
        return f"{said}."
    more = yoke.got - printed
    change = (
        "as many as your pattern's"
        if not more
        else f"{abs(more)} {'more' if more > 0 else 'fewer'} than your pattern's {printed}"
    )
    own = "" if size.own_depth_cm is None else f" ({length(size.own_depth_cm, unit)} at its own)"
    return f"{said}: {change}, which would make {length(size.depth_cm, unit)} at your gauge{own}."


def _rounds(first: int, last: int) -> str:
    return f"{first}–{last}" if last > first else f"{first}"


def _these(first: int, last: int) -> str:
    return f"Rounds {first}–{last}" if last > first else f"Round {first}"


def _as_theirs(one: Stretch) -> str:
    """Set a stretch beside the pattern's own."""
    if one.printed_last is None:
        return f"plain, from your pattern's round {one.printed_first} to its split"
    theirs = _rounds(one.printed_first, one.printed_last)
    word = "rounds" if one.printed_last > one.printed_first else "round"
    if not one.more:
        return f"your pattern's {word} {theirs}"
    where = "before its increase round" if one.increase else "before the split"
    if one.more > 0:
        plain = "plain round" if one.more == 1 else "plain rounds"
        return f"your pattern's {word} {theirs}, and {one.more} {plain} more {where}"
    return f"your pattern's {word} {theirs} without {-one.more} of the plain rounds {where}"


def _place(one: Stretch) -> str:
    end = (
        f"Round {one.last} is its increase round {one.increase}: {one.count} stitches."
        if one.increase
        else f"Then the split, on {one.count} stitches."
    )
    return f"{_these(one.first, one.last)} of the yoke: {_as_theirs(one)}. {end}"


def _below(plan: Plan, followed: Followed) -> Iterator[str]:
    size, unit, shape = followed.size.size, plan.project.sheet.units, plan.shape
    split = shape.split
    counts = followed.size.counts
    ours = (split.body.got, split.sleeve.got, split.underarm.got)
    said = (
        "The split is your pattern's"
        if ours == (counts.body, counts.sleeve, counts.underarm)
        else "What your pattern and your pins do not say of the split was chosen here"
    )
    yield (
        f"{said}: {split.held} stitches held for each sleeve, {split.underarm.got} cast on at "
        f"each underarm, {split.body.got} for the body. From there on follow this sheet alone."
    )
    pairs = (
        ("body", size.body_length, body_cm(shape.body)),
        ("sleeve", size.sleeve_length, sleeve_cm(shape.sleeve)),
    )
    for name, theirs_cm, ours_cm in pairs:
        if theirs_cm is not None:
            yield (
                f"The pattern's {name} is {length(theirs_cm, unit)} from underarm to edge; yours "
                f"is {length(ours_cm, unit)}."
            )
