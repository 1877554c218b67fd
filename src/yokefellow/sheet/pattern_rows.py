"""The notes beside the rows of a sweater that follows a pattern: whose row it is, and which."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.pattern_sizes.follow import Followed, Stretch, stretches
from yokefellow.plan import Plan
from yokefellow.shaping import RaglanShape
from yokefellow.sheet.lines import Note

__all__ = ["row_notes"]


def row_notes(plan: Plan) -> dict[tuple[str, int], tuple[Note, ...]]:
    """Say before the rows whose they are, and in the yoke which rounds of the pattern."""
    if plan.followed is None:
        return {}
    found: dict[tuple[str, int], tuple[Note, ...]] = {}
    for at, text in _texts(plan, plan.followed):
        found[at] = (*found.get(at, ()), Note("pattern", "Pattern", at[1], text))
    return found


def _texts(plan: Plan, followed: Followed) -> Iterator[tuple[tuple[str, int], str]]:
    yield from _above(plan)
    places = stretches(followed, plan.shape)
    notes_of = _raglan_notes if isinstance(plan.shape.yoke, RaglanShape) else _notes_of
    for one in places:
        for number, text in notes_of(one, followed):
            yield ("yoke", number), text
    if not places:
        yield from _counts_only(plan, followed)
    yield ("split", 1), "From here on follow this sheet alone, not your pattern."


def _above(plan: Plan) -> Iterator[tuple[tuple[str, int], str]]:
    """Say whose neckband and whose short rows these are."""
    neck = plan.shape.neck
    meet = "" if neck.is_last else f", and meet {neck.stitches.got} stitches at its end"
    yield (
        ("neckband", 1),
        "This neckband is the sheet's. You may work your pattern's own instead, if you like it "
        f"better{meet}.",
    )
    if plan.shape.yoke.short_rows:
        yield (
            ("back_neck", 1),
            "These short rows are the sheet's, and count as no round of the yoke. Where your "
            "pattern has its own to raise the neck, leave those out.",
        )


def _notes_of(one: Stretch, followed: Followed) -> Iterator[tuple[int, str]]:
    if one.increase is None:
        yield one.first, _on_to_split(one)
        return
    if one.last > one.first:
        yield one.first, _up_to(one)
    yield one.last, _increase(one.increase, one.printed_last, one.count, followed)


def _raglan_notes(one: Stretch, followed: Followed) -> Iterator[tuple[int, str]]:
    """Speak of the rounds of a raglan: there are many, and most are as in the pattern."""
    if one.increase is None:
        yield one.first, _on_to_split(one)
        return
    if one.more > 0:
        yield one.first, f"Knit {_plain_rounds(one.more)} more here than your pattern does."
    elif one.more < 0:
        yield one.first, f"Leave out {_plain_rounds(-one.more)} of your pattern here."
    if one.increase == 1 or not followed.size.size.increases:
        yield one.last, _increase(one.increase, one.printed_last, one.count, followed)
    else:
        yield (
            one.last,
            f"Your pattern's increase round {one.increase} (its round {one.printed_last}): "
            f"{one.count} stitches.",
        )


def _plain_rounds(rounds: int) -> str:
    return f"{rounds} plain round{'s' if rounds > 1 else ''}"


def _up_to(one: Stretch) -> str:
    """Lead to an increase round of the pattern."""
    if one.printed_last == one.last and one.printed_first == one.first:
        return (
            f"Follow your pattern to its round {one.last}; its rounds have the same numbers here."
        )
    said = f"Follow your pattern to its round {one.printed_last}, which is round {one.last} here"
    if not one.more:
        return f"{said}."
    if one.more > 0:
        return f"{said}: knit {_plain_rounds(one.more)} more than it does before that one."
    return f"{said}: leave out {_plain_rounds(-one.more)} before that one."


def _on_to_split(one: Stretch) -> str:
    """Lead to the split."""
    if one.printed_last is None:
        return f"Plain from your pattern's round {one.printed_first} on, to the split."
    said = f"Follow your pattern to its round {one.printed_last}, the last before its split"
    if not one.more:
        return f"{said}."
    if one.more > 0:
        return f"{said}, and then knit {_plain_rounds(one.more)} more."
    return f"{said}, but leave out {_plain_rounds(-one.more)}."


def _increase(number: int, printed: int | None, count: int, followed: Followed) -> str:
    its = f" (its round {printed})" if printed is not None else ""
    if not followed.size.size.increases:
        return (
            f"Here your pattern has its increase round {number}{its}. Which count it meets was not "
            "typed: work the round as it stands here."
        )
    return (
        f"Your pattern's increase round {number}{its}: work it as the pattern does, and meet "
        f"{count} stitches. Where it leaves the way to you, work the round as it stands here."
    )


def _counts_only(plan: Plan, followed: Followed) -> Iterator[tuple[tuple[str, int], str]]:
    """Speak of the increase rounds of a pattern whose places were not typed."""
    if not followed.size.size.increases:
        return
    for number, step in enumerate(plan.shape.yoke.increase_rounds, start=1):
        yield ("yoke", step.number), _increase(number, None, step.after, followed)
