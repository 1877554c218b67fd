"""A whole sheet as the knitter has it in hand, whatever it is printed on."""

from __future__ import annotations

import re
from dataclasses import dataclass

from tests.knitter.mistakes import Kind, Mistake
from tests.knitter.printed import Part

__all__ = ["NUMBERS", "WHERE", "Sheet", "code_of", "number", "plain", "worked_as"]

_INVISIBLE = re.compile("[\u00ad\u200b-\u200d\u2060\ufeff]")

NUMBERS = re.compile(r"([0-9]+)(?:–([0-9]+))?(?: (RS|WS))?")
"""What stands before a row: its number, or its first and last, and the side."""

WHERE = re.compile(
    r"rows? [0-9]+(?:–[0-9]+)? of [0-9]+(?: · (?P<start>[0-9]+) sts at the start)?"
    r" · (?P<spends>.+)"
)
"""What stands under the title of a section."""

_TURNS = ("turn", "w&t")


@dataclass(frozen=True, slots=True)
class Sheet:
    """What two printings of one sweater must have in common."""

    title: str
    measures: dict[str, tuple[str, str]]
    """By their place: how long it is finished, and the stitches or rounds it is worked as."""
    yarns: tuple[str, ...]
    """Names with their codes, the main one first."""
    spends: tuple[str, ...]
    """What each section takes of each yarn, as told under its title."""
    parts: tuple[Part, ...]
    """The sections, by their titles."""


def plain(text: str) -> str:
    """Give the words alone: one blank where there were several, and nothing invisible."""
    return " ".join(_INVISIBLE.sub("", text).split())


def number(text: str | None, where: str) -> int:
    """Read a count of at most five digits."""
    if text is None or not re.fullmatch("[0-9]{1,5}", text):
        raise Mistake(Kind.UNREADABLE, f"{text!r} is no number", where)
    return int(text)


def code_of(text: str) -> str:
    """Find the code of a yarn in what is printed; nothing where none is named."""
    found = re.search(r"\b(?:MC|CC[0-9]?)\b", text)
    return found[0] if found else ""


def worked_as(side: str, what: str, *, turned: bool) -> str:
    """Tell how a row goes round the work, from what a knitter sees of it.

    Args:
        side: `RS`, `WS` or nothing, as it stands beside the row's number.
        what: the words.
        turned: whether the row before ended with a turn short of the end.
    """
    if what.startswith(("cast on", "provisionally cast on")):
        return "part" if "join in the round" in what else "flat RS"
    if "this is BOR from now on" in what or what.endswith("to the centre back; pm for BOR"):
        return "part"
    if side and what.endswith(_TURNS):
        return side
    if side:
        # After a turn a row on the right side goes on to BOR; else the work lies open.
        return "part" if turned else f"flat {side}"
    return "rnd"
