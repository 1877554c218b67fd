"""The longest that lasts, in sentences and as data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from yokefellow.cli.commands.suppose import file_lines, pins_to_take_out
from yokefellow.cli.terminal import wrapped
from yokefellow.cli.yarn_tables import (
    amount_record,
    metres_or_yards,
    record,
    yarn_called,
    yarn_unit,
)
from yokefellow.plan import Plan
from yokefellow.quantities import length
from yokefellow.sheet.figures import less_than
from yokefellow.what_if import Length, Longest

_HEADS = {
    "sleeves": "The longest sleeves that last",
    "body": "The longest body that lasts",
    "both": "The longest sleeves and body that last together",
}


def longest_words(made: Plan, found: Longest) -> str:
    """Tell the longest that lasts, what limits it, what is held back, and what to write."""
    return "\n".join(_lines(made, found))


def _lines(made: Plan, found: Longest) -> Iterator[str]:
    unit = made.project.sheet.units
    if found.limit == "too little":
        yield wrapped("Not even the shortest lasts as surely as you asked; it would be:")
    else:
        yield f"{_HEADS[found.wish]}:"
    for name, piece in _pieces(found):
        kept = "" if name in _asked(found) else " (as in the file)"
        yield wrapped(
            f"{name}: {length(piece.cm, unit)}, {piece.rounds} rounds with the edge{kept}.",
            first="  ",
            rest="    ",
        )
    yield ""
    yield wrapped(_limit(made, found))
    yield wrapped(_margin(made, found))
    for code, verdict in found.others.items():
        if verdict != "enough":
            yield wrapped(
                f"Mind {yarn_called(made.project, code)}, which no length changes: {verdict}."
            )
    yield ""
    if found.limit == "too little":
        yield wrapped(
            "Shorten the other piece too, choose less ease, or find more of this yarn:"
            " 'yokefellow suppose FILE' shows what each choice takes."
        )
        return
    yield "To knit it, write into the file:"
    yield from file_lines(found.choices)
    yield from pins_to_take_out(made.project, found.choices)


def _pieces(found: Longest) -> tuple[tuple[str, Length], ...]:
    return (("Sleeves", found.sleeve), ("Body", found.body))


def _asked(found: Longest) -> tuple[str, ...]:
    return {"sleeves": ("Sleeves",), "body": ("Body",), "both": ("Sleeves", "Body")}[found.wish]


def _limit(made: Plan, found: Longest) -> str:
    if found.limit in ("yarn", "too little"):
        words = f"What limits it is the yarn, {yarn_called(made.project, found.code)}: "
        sure = f"{100 * found.estimate.sure:.0f} per cent"
        if found.limit == "too little" or found.chance_of_more is None:
            chance = f"{100 * found.estimate.chance:.0f} per cent"
            return f"{words}it lasts with a chance of {chance}, and you asked for {sure}."
        chance = less_than(found.chance_of_more, found.estimate.sure).replace("%", "per cent")
        return f"{words}with a round more it would last with {chance}, and you asked for {sure}."
    limits = {"arm": "the arm", "tunic": "a tunic", "arm and tunic": "the arm, and a tunic"}
    return f"What limits it is not the yarn but {limits[found.limit]}: it is as long as that goes."


def _margin(made: Plan, found: Longest) -> str:
    unit = made.project.sheet.units
    held = found.held_back
    if held.grams < 0:
        return "By the best guess the yarn is short."
    yarn = f"{metres_or_yards(held.metres, unit)} {yarn_unit(unit)}"
    amount = f"about {held.grams:.0f} g ({yarn}) should be left by the best guess."
    if found.limit == "yarn":
        return f"Held back for what is not known: {amount}"
    return f"Left over: {amount}"


def longest_record(made: Plan, found: Longest) -> dict[str, Any]:
    """Give the same as data."""
    return {
        "title": made.project.title,
        "wish": found.wish,
        **{
            name.lower(): {"cm": piece.cm, "rounds": piece.rounds, "edge_rounds": piece.edge_rounds}
            for name, piece in _pieces(found)
        },
        "limit": found.limit,
        "chance_of_more": found.chance_of_more and round(found.chance_of_more, 4),
        "held_back": amount_record(found.held_back),
        "yarn": record(made.project, [found.estimate])[0],
        "others": dict(found.others),
        "choices": dict(found.choices),
    }
