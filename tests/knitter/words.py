"""The knitter's own reading of a printed instruction."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

from tests.knitter.mistakes import Kind, Mistake

TO_THE_END = 0
"""In place of a number: as often as it takes to reach the end of the round."""


@dataclass(frozen=True, slots=True)
class Do:
    """`times` of one thing."""

    name: str
    times: int


@dataclass(frozen=True, slots=True)
class Again:
    """Several things, `times` times over."""

    body: tuple[Node, ...]
    times: int


Node: TypeAlias = Do | Again


@dataclass(frozen=True, slots=True)
class Instruction:
    body: tuple[Node, ...]
    ends_at: str = ""
    """`BOR` or `marker` when the words say that the row ends there."""
    all_of: int = 0
    """The number in "all 212 sts", or 0."""
    joins: bool = False
    """Whether the row's two ends are joined when it is done."""
    is_provisional: bool = False
    """Whether the cast-on can be opened again later."""
    at_neck: bool = False
    """Whether stitches are picked up along the neck edge."""

    def names(self) -> frozenset[str]:
        return frozenset(_names(self.body))


def _names(body: tuple[Node, ...]) -> list[str]:
    return [
        name
        for node in body
        for name in ([node.name] if isinstance(node, Do) else _names(node.body))
    ]


# What a row may say, whole. The groups: the number, or how often.
_SINGLE = {
    "k": r"k([0-9]+)",
    "p": r"p([0-9]+)",
    "k tbl": r"k([0-9]+) tbl",
    "sl": r"sl([0-9]+) wyi[bf]",
    "M1": r"M1[LR]",
    "yo": r"yo",
    "kfb": r"kfb",
    "M1 purled": r"M1[LR]P",
    "pfb": r"pfb",
    "2tog": r"k2tog|ssk|p2tog",
    "3 into 1": r"CDD",
    "DS": r"DS",
    "close DS": r"k DS",
    "close wrap": r"k wrap",
    "wrap": r"w&t",
    "turn": r"turn",
    "cast on": r"CO ([0-9]+)",
    "bind off": r"BO ([0-9]+)",
    "hold": r"place ([0-9]+) sts? on waste yarn(?: for the (?:first|second) sleeve)?",
    "pick up": r"pick up and k([0-9]+)",
    "pm": r"pm",
    "sm": r"sm",
    "rm": r"rm",
}
_IN_COLOUR = r"(?: (?:MC|CC[0-9]?))?"
_THINGS = [
    (
        name,
        re.compile(rf"(?:{words}){_IN_COLOUR}" + ("" if "(" in words else r"(?: ([0-9]+) times)?")),
    )
    for name, words in _SINGLE.items()
]
_PIECE = re.compile(r"[\[\]()*;,]|[^\[\]()*;,]+")
_TIMES = re.compile(r"([0-9]+) times")
_MORE = re.compile(r"([0-9]+) more times")
_PAIRS = {"]": "[", ")": "("}


_JOIN = "; join in the round without twisting and pm for BOR"
_WHOLE: list[tuple[str, Callable[[re.Match[str]], Instruction]]] = [
    ("(knit|purl)", lambda said: Instruction((Do(said[1][0], TO_THE_END),))),
    (
        f"cast on ([0-9]+) sts{_JOIN}",
        lambda said: Instruction((Do("cast on", int(said[1])),), ends_at="BOR"),
    ),
    (
        f"provisionally cast on ([0-9]+) sts{_JOIN}",
        lambda said: Instruction(
            (Do("cast on", int(said[1])),), ends_at="BOR", is_provisional=True
        ),
    ),
    (
        "cast on ([0-9]+) sts; turn without joining",
        lambda said: Instruction((Do("cast on", int(said[1])),)),
    ),
    (
        "bind off all ([0-9]+) sts(?: in rib)?",
        lambda said: Instruction((Do("bind off", int(said[1])),), all_of=int(said[1])),
    ),
    (
        "sew down all ([0-9]+) live sts inside",
        lambda said: Instruction((Do("bind off", int(said[1])),), all_of=int(said[1])),
    ),
    (
        "(.+); do not turn: join in the round",
        lambda said: Instruction(_list(said[1]), joins=True),
    ),
    (
        "from the centre of the underarm: (.+); pm for BOR",
        lambda said: Instruction(_list(said[1]), ends_at="BOR"),
    ),
    (
        "(.+) to the centre back; pm for BOR",
        lambda said: Instruction(_list(said[1]), ends_at="new BOR"),
    ),
    (
        "along the neck edge: (.+); pm for BOR",
        lambda said: Instruction(_list(said[1]), ends_at="BOR", at_neck=True),
    ),
    (
        "(.+) to the next marker; this is BOR from now on",
        lambda said: Instruction(_list(said[1]), ends_at="marker"),
    ),
    ("(.+) to BOR", lambda said: Instruction(_list(said[1]), ends_at="BOR")),
]
"""The sentences a row may be, and what each means."""


@lru_cache(maxsize=4096)
def understand(what: str) -> Instruction:
    for sentence, meaning in _WHOLE:
        if said := re.fullmatch(sentence, what):
            return meaning(said)
    return Instruction(_list(what))


def _list(text: str) -> tuple[Node, ...]:
    """Read the pieces from left to right, with a pile of open brackets."""
    pieces = [piece.strip() for piece in _PIECE.findall(text)]
    pieces = [piece for piece in pieces if piece]
    pile: list[tuple[str, list[Node]]] = [("", [])]
    after_comma = True
    while pieces:
        piece = pieces.pop(0)
        if (piece == ",") == after_comma:
            raise _unreadable(text)
        after_comma = piece in (",", "[", "(", "*")
        if piece == "," and pieces:
            pieces = _no_end_after_comma(pieces, text)
        elif piece in ("[", "(", "*"):
            pile.append((piece, []))
        elif piece != ",":
            pile[-1][1].append(_thing(piece, text))
        _close(pieces, pile, text)
    if len(pile) != 1 or after_comma:
        raise _unreadable(text)
    return tuple(pile[0][1])


def _no_end_after_comma(pieces: list[str], text: str) -> list[str]:
    if pieces[0] in "]);":
        raise _unreadable(text)
    return pieces


def _close(pieces: list[str], pile: list[tuple[str, list[Node]]], text: str) -> None:
    """Close the brackets and the star that end here."""
    while pieces and pieces[0] in ("]", ")", ";"):
        sign = pieces.pop(0)
        opening, body = pile.pop()
        if opening != _PAIRS.get(sign, "*") or not body:
            raise _unreadable(text)
        if sign == ";" and [pieces.pop(0) for _ in pieces[:2]] != ["rep from", "*"]:
            raise _unreadable(text)
        times = _times(pieces.pop(0) if pieces else "", starred=sign == ";", text=text)
        pile[-1][1].append(Again(tuple(body), times))


def _times(piece: str, *, starred: bool, text: str) -> int:
    if starred and piece == "to end":
        return TO_THE_END
    if starred and piece == "once more":
        return 2
    if starred and (more := _MORE.fullmatch(piece)):
        return _positive(more[1], text) + 1
    found = _TIMES.fullmatch(piece)
    if not found:
        raise _unreadable(text)
    return _positive(found[1], text)


def _thing(piece: str, text: str) -> Do:
    for name, pattern in _THINGS:
        if found := pattern.fullmatch(piece):
            return Do(name, _positive(found[1] or "1", text))
    raise _unreadable(text)


def _positive(digits: str, text: str) -> int:
    if len(digits) > 5 or int(digits) < 1:
        raise _unreadable(text)
    return int(digits)


def _unreadable(text: str) -> Mistake:
    return Mistake(Kind.UNREADABLE, f"cannot make sense of {text[:200]!r}")
