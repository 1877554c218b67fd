"""Field types without a unit: text, a choice of words, yes or no, a bare number."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable

from yokefellow.project.typed import NUMBER, RefusedError, Typed, listed, nearest
from yokefellow.units import LengthUnit, QuantityError, as_typed, parse_number

__all__ = ["file_edition", "in_its_place", "is_hidden", "number", "one_of", "text", "yes_or_no"]

_TURNING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Characters that turn the direction of writing: they could make a sheet say what it does not."""

_TO_THE_RIGHT = "\u200e"
_TO_THE_LEFT = frozenset({"R", "AL", "AN"})
"""Letters written from right to left: the numbers behind them would follow their direction."""


def text(longest: int, *, example: str) -> Typed:
    """Read a line of text; runs of blanks and line ends become one blank.

    Control characters, private characters (no font has them, and the box drawn
    instead looks like a tick box) and turned writing are refused.
    """

    def read(given: object, _: LengthUnit) -> str:
        if not isinstance(given, str):
            raise RefusedError(
                "value.text",
                f"{as_typed(given)} is not text in quotes",
                instead=f'"{given}"' if type(given) is int and 0 <= given < 10_000 else None,
            )
        if any(is_hidden(letter) for letter in given):
            raise RefusedError(
                "value.text-hidden", f"{as_typed(given)} holds a character that cannot be printed"
            )
        line = " ".join(given.split())
        if len(line) > longest:
            raise RefusedError("value.text-long", f"{as_typed(given)} has {len(line)} letters")
        return in_its_place(line)

    return Typed(
        read,
        {"type": "string", "maxLength": longest},
        lambda _: f"text of at most {longest} letters, without control characters",
        lambda _: f'"{example}"',
    )


def in_its_place(line: str) -> str:
    """Keep a line with letters that run to the left from turning the words around it.

    Before and behind it stands a mark that is not seen and runs to the right, so
    that in `שלום, 50 g` the 50 stays where the sheet put it.
    """
    if any(unicodedata.bidirectional(letter) in _TO_THE_LEFT for letter in line):
        return f"{_TO_THE_RIGHT}{line}{_TO_THE_RIGHT}"
    return line


def is_hidden(letter: str) -> bool:
    """Tell whether a letter must not be printed: control, private, none, or turning the writing."""
    if letter in "\t\n\r":
        return False
    return (
        letter in _TURNING
        or unicodedata.category(letter) in {"Cc", "Cs", "Co"}
        or (ord(letter) & 0xFFFE) == 0xFFFE  # never a character, and none in a page or an XML
        or 0xFDD0 <= ord(letter) <= 0xFDEF
    )


def one_of(*names: str, also: Callable[[object], str | None] = lambda _: None) -> Typed:
    """Read one of the names; capital and small letters count the same.

    `also` reads other spellings of them.
    """
    by_words = {name.lower(): name for name in names}

    def read(given: object, _: LengthUnit) -> str:
        words = " ".join(given.lower().split()) if isinstance(given, str) else ""
        other = also(given)
        if other is not None:
            return other
        if words not in by_words:
            raise RefusedError(
                "value.choice",
                f"{as_typed(given)} is not one of the choices",
                instead=nearest(words, names),
            )
        return by_words[words]

    return Typed(
        read,
        {"enum": list(names)},
        lambda _: listed(names),
        lambda _: f'"{names[0]}"',
    )


def _edition(given: object, _: LengthUnit) -> int:
    if given != 1 or isinstance(given, bool) or not isinstance(given, int):
        raise RefusedError(
            "value.edition", f"{as_typed(given)} is not an edition this program reads"
        )
    return 1


file_edition = Typed(_edition, {"const": 1}, lambda _: "1", lambda _: "1")
"""Reads the edition of the file format."""


def _yes_or_no(given: object, _: LengthUnit) -> bool:
    if not isinstance(given, bool):
        raise RefusedError("value.yes-or-no", f"{as_typed(given)} is neither true nor false")
    return given


yes_or_no = Typed(
    _yes_or_no, {"type": "boolean"}, lambda _: "true or false, without quotes", lambda _: "true"
)
"""Reads `true` or `false`."""


def number(
    low: float, high: float, *, above: bool = False, what: str, typical: str, thing: str = ""
) -> Typed:
    """Read a bare number between two limits, the lower one itself excluded when `above`.

    It may stand in quotes, which a decimal comma or a fraction needs. Behind it may stand
    the name of what is counted, `thing` or its plural.
    """
    behind = rf"\s*{thing}s?" if thing else ""

    def read(given: object, _: LengthUnit) -> float:
        value = _bare_number(given, behind)
        if not low <= value <= high or (above and value == low):
            side = "large" if value > high else "small"
            raise RefusedError("value.range", f"{as_typed(given)} is too {side}")
        return value

    lowest = "exclusiveMinimum" if above else "minimum"
    return Typed(
        read,
        {
            "anyOf": [
                {"type": "number", lowest: low, "maximum": high},
                {"type": "string", "pattern": rf"^\s*{NUMBER}\s*({behind})?\s*$"},
            ]
        },
        lambda _: f"{what} from {'more than ' if above else ''}{low:g} to {high:g}",
        lambda _: typical,
    )


def _bare_number(given: object, behind: str) -> float:
    if isinstance(given, bool) or not isinstance(given, (str, int, float)):
        raise RefusedError("value.number", f"{as_typed(given)} is not a bare number")
    bare = re.sub(rf"{behind}\s*$", "", given, flags=re.I) if isinstance(given, str) else given
    try:
        return parse_number(bare)
    except QuantityError as refused:
        if refused.code in {"value.thousands", "value.not-positive"}:
            raise
        raise RefusedError("value.number", f"{as_typed(given)} is not a bare number") from None
