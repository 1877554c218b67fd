"""What every model of the project file has in common, and how a typed name or text is read.

A reader is `Annotated` metadata that reads one field whole, so that a
wrong value gets one message and not one for every member of a union, and that
can say what it allows and show an example in the knitter's own unit.
"""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Any, TypeAlias

from pydantic import (
    BaseModel,
    ConfigDict,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    ValidationInfo,
)
from pydantic_core import core_schema

from yokefellow.findings import as_typed
from yokefellow.quantities import CM_PER_INCH, LengthUnit, QuantityError, parse_number, show_tape
from yokefellow.words import words


class Model(BaseModel):
    """Frozen; refuses names it does not know."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


Json: TypeAlias = dict[str, Any]
Read: TypeAlias = Callable[[object, LengthUnit], Any]
Say: TypeAlias = Callable[[LengthUnit], str]


class RefusedError(QuantityError):
    """A value that a field refuses; `code` names the rule, the text says what was typed."""

    def __init__(self, code: str, message: str, *, instead: str | tuple[str, str] | None = None):
        self.meant = (instead,) if isinstance(instead, str) else (instead or ())
        """What was perhaps meant, as it stands in the file; two when it may be either."""
        super().__init__(code, message)


class Kind(StrEnum):
    """What kind of quantity a field holds."""

    LENGTH = "length"
    """In cm inside the program, in the file's unit outside; or a name for one."""
    NUMBER = "number"
    COUNT = "count"
    """A whole number."""
    GAUGE = "gauge"
    """So many stitches, or rounds, over a length."""
    WEIGHT = "weight"
    """In g."""
    YARN_LENGTH = "length of yarn"
    """In m."""
    NEEDLE = "needle"
    """In mm."""
    CHOICE = "choice"
    YES_NO = "yes or no"
    TEXT = "text"
    OTHER = "other"
    """A list or a table with a form of its own."""


@dataclass(frozen=True, slots=True)
class Typed:
    """Metadata for `Annotated`: reads a whole field, and can say what it reads."""

    read: Read
    schema: Json
    allowed: Say
    """What may be typed, as the end of a sentence."""
    example: Say
    """Something that may be typed, as it stands in the file, quotes included."""
    kind: Kind = Kind.OTHER
    names: tuple[str, ...] = ()
    """The words that may be typed."""
    low: float | None = None
    """The least that is allowed, in the unit of the kind; None where nothing is measured."""
    high: float | None = None

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Tell pydantic to read the field with `read`, in the file's own unit."""

        def validate(given: object, info: ValidationInfo) -> Any:
            return self.read(given, (info.context or {}).get("unit", "cm"))

        return core_schema.with_info_plain_validator_function(validate)

    def __get_pydantic_json_schema__(
        self, core: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> Json:
        """Give the field's JSON Schema."""
        return dict(self.schema)


@dataclass(frozen=True, slots=True)
class Only:
    """A field that matters only where another field has one of these values."""

    field: str
    """Dotted, as in the file."""
    values: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Stated:
    """Metadata for `Annotated`: what a form or a question says of a field beside its help.

    The help itself is the docstring below the field.
    """

    label: str = ""
    """What the field is called; empty where its name says it."""
    question: str = ""
    """How it is asked among the first questions; empty where it is not one of them."""
    usual: str = ""
    """What is taken when a first question is left without an answer."""
    usual_in_inches: str = ""
    """The same, in a file whose unit is the inch."""
    only: Only | None = None


@dataclass(frozen=True, slots=True)
class NamedLength:
    """A length by its name: `elbow`, `full`, `hip`."""

    name: str


@dataclass(frozen=True, slots=True)
class LengthChange:
    """A length as a change of the usual one, in cm: shorter is below zero.

    A body usually reaches the hip, and a sleeve the wrist.
    """

    by_cm: float


ChosenLength: TypeAlias = NamedLength | LengthChange | float
"""A named length, a change, or a plain length in cm."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One count on the swatch: so many stitches, or rounds, over so many cm."""

    count: float
    over_cm: float


# What is typed, as JSON Schema patterns. They are a little stricter than the
# readers (spelling of units in small letters only): an editor may underline
# what still loads, and never passes a stone for an inch.
NUMBER = r"([0-9]+[ -]+)?([0-9]+/[0-9]+|[0-9]*[.,]?[0-9]+ ?[½¼¾⅓⅔⅛⅜⅝⅞]?|[½¼¾⅓⅔⅛⅜⅝⅞])"
"""A number or a mixed fraction; a fragment of a pattern."""
LENGTH = rf"{NUMBER}\s*(cm|mm|in\.?|inch(es)?|[\"″”]|(centi|milli)met(re|er)s?)?"
"""A length, signless; a fragment of a pattern."""


def typed_or_number(pattern: str, *examples: str, low: float, high: float) -> list[Json]:
    """Give the JSON Schema of text that fits the pattern, or a number within the limits.

    A bare number of a length may be in cm or in inches, so its limits are those of both.
    """
    number: Json = {"type": "number", "minimum": low, "maximum": high}
    return [
        {"type": "string", "pattern": rf"^\s*{pattern}\s*$", "examples": list(examples)},
        number,
    ]


def remedy(
    refused: QuantityError, typed: Typed, unit: LengthUnit, written: Callable[[str], str]
) -> str:
    """Say what to type instead; `written` sets a value as it stands in its line."""
    meant = [written(value) for value in getattr(refused, "meant", ())]
    return words("findings/value").value_remedy(
        problem=f"{refused}",
        allowed=typed.allowed(unit),
        meant=meant,
        example=written(typed.example(unit)),
        line=None,
    )


def fixed(words: str) -> Say:
    """Say the same in any unit."""
    return lambda _: words


def quantity(given: object, reader: Callable[[str | float], float]) -> float:
    """Read with `reader` what is text or a number, and refuse the rest."""
    if isinstance(given, bool) or not isinstance(given, (str, int, float)):
        raise RefusedError("value.unreadable", f"{as_typed(given)} is not a number with a unit")
    return reader(given)


def limits(given: object, value: float, low: float, high: float) -> float:
    """Refuse a value outside the limits."""
    # A hair of room, so that 200 cm typed as inches is still within 200 cm.
    if not low - 1e-9 <= value <= high + 1e-9:
        raise RefusedError(
            "value.range",
            f"{as_typed(given)} is too {'small' if value < low else 'large'}",
        )
    return value


def in_unit(cm: float, unit: LengthUnit, rounding: Callable[[float], int]) -> str:
    """Write a limit in the unit: to a quarter inch, or a tenth of a cm."""
    # Limits are rounded inward, so that what a message allows is allowed.
    if unit == "in":
        return show_tape(rounding(cm / CM_PER_INCH * 4) / 4 * CM_PER_INCH, unit="in")
    return f"{rounding(cm * 10) / 10:g} cm"


def listed(names: tuple[str, ...]) -> str:
    """List the names in quotes: "a", "b" or "c"."""
    *most, last = (f'"{name}"' for name in names)
    return f"{', '.join(most)} or {last}" if most else last


_MEANT = MappingProxyType(
    {
        "3/4": "three-quarter", "¾": "three-quarter", "3 quarter": "three-quarter",
        "long": "full", "wrist": "full", "full-length": "full",
        "hips": "hip", "crop": "cropped", "elbows": "elbow",
        "tight": "very close", "negative": "very close", "fitted": "close", "snug": "close",
        "regular": "classic", "standard": "classic", "normal": "classic",
        "relaxed": "loose", "oversize": "oversized", "baggy": "oversized",
        "crew neck": "crew", "woman": "women", "man": "men", "ladies": "women",
        "child": "children", "kids": "children", "baby": "babies",
        "us letter": "Letter",
        "v-neck": "V", "v neck": "V", "vneck": "V", "v-neckline": "V",
        "turtleneck": "folded high", "polo neck": "folded high", "mock turtleneck": "high",
        "garter stitch": "garter", "round": "circular", "round yoke": "circular",
        "above the hem": "hem", "above the cuff": "cuff",
    }
)  # fmt: skip
"""Other words of the trade, and the ones this file has for them."""
_NEEDLESS = re.compile(r"[ -](sleeves?|length|fit|body|size|shape|rib|ease)$")


def nearest(words: str, names: tuple[str, ...]) -> str | None:
    """Give the name that the words mean or are most like, in quotes; None when there is none."""
    short = _NEEDLESS.sub("", words[:60])
    for word in (short, _MEANT.get(words), _MEANT.get(short)):
        if word in names:
            return f'"{word}"'
    near = difflib.get_close_matches(short, names, n=1)
    return f'"{near[0]}"' if near else None


def words_of(given: object) -> str:
    """Give text in small letters with single blanks; nothing for what is not text."""
    return " ".join(given.lower().split()) if isinstance(given, str) else ""


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
        Kind.TEXT,
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
        Kind.CHOICE,
        names,
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
    _yes_or_no,
    {"type": "boolean"},
    lambda _: "true or false, without quotes",
    lambda _: "true",
    Kind.YES_NO,
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
        Kind.NUMBER,
        low=low,
        high=high,
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
