"""A row in the trade's abbreviations: exact, one line, readable back."""

from __future__ import annotations

from collections.abc import Iterable
from types import MappingProxyType
from typing import TypeAlias

from yokefellow.notation.canonical import canonical
from yokefellow.notation.grammar import YARN, counted, excess, form
from yokefellow.schedule.rows import Op, Repeat, Step

__all__ = ["write"]

_Brackets: TypeAlias = tuple[str, str]
_SQUARE, _ROUND = ("[", "]"), ("(", ")")
_INSIDE = MappingProxyType({_SQUARE: _ROUND, _ROUND: _SQUARE})
"""Which brackets stand inside which."""


def write(steps: Iterable[Step]) -> str:
    """Write a row in the trade's abbreviations, with every stitch counted.

    `yokefellow.notation.read.read` gives the steps back, in canonical form.
    A repeat stands in square brackets, `[k5, M1L] 24 times`. The one repeat
    of a row that holds others is written with the star, and its number says
    "in all": `*[k6, M1L] 3 times, k7, M1L; rep from * 4 times in all`. In
    trade use a bare "rep from * 4 times" may mean four times in all or four
    times more. Repeats deeper inside, and those of a row with several such
    repeats, use brackets in brackets, square and round by turns.

    Raises:
        ValueError: no steps; a yarn whose name is not capitals and digits; a
            number, length or depth beyond the limits of `notation.grammar`.
    """
    plain = canonical(steps)
    if not plain:
        raise ValueError("a row holds at least one step")
    if beyond := excess(plain):
        raise ValueError(f"this row cannot be written: {beyond}")
    nests = [step for step in plain if isinstance(step, Repeat) and _nests(step)]
    if len(nests) != 1:
        return _steps(plain, _SQUARE)
    (star,) = nests
    return ", ".join(_star(star) if step is star else _step(step, _SQUARE) for step in plain)


def _nests(repeat: Repeat) -> bool:
    return any(isinstance(inner, Repeat) for inner in repeat.steps)


def _star(repeat: Repeat) -> str:
    return f"*{_steps(repeat.steps, _SQUARE)}; rep from * {repeat.times} times in all"


def _steps(steps: tuple[Step, ...], brackets: _Brackets) -> str:
    return ", ".join(_step(step, brackets) for step in steps)


def _step(step: Step, brackets: _Brackets) -> str:
    if isinstance(step, Op):
        return _op(step)
    opening, closing = brackets
    return f"{opening}{_steps(step.steps, _INSIDE[brackets])}{closing} {step.times} times"


def _op(op: Op) -> str:
    if op.yarn and not YARN.fullmatch(op.yarn):
        raise ValueError(f"a row cannot name a yarn {op.yarn!r}: use capitals and digits, as CC1")
    words = [form(op.code, op.times)]
    if op.yarn:
        words.append(op.yarn)
    if op.times > 1 and not counted(op.code):
        words.append(f"{op.times} times")
    return " ".join(words)
