"""One way of saying a row, out of the many that mean the same.

The written form cannot tell `k2, k3` from `k5`, nor should it: the knitter
does the same. `canonical` picks the one the writer writes.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from types import MappingProxyType
from typing import TypeAlias

from yokefellow.notation.grammar import UNMARKED, YARN, counted, excess, form
from yokefellow.rows.model import Op, Repeat, Step


def canonical(steps: Iterable[Step]) -> tuple[Step, ...]:
    """Say the same row in its canonical form.

    In it neighbouring stitches of one kind and yarn are one step; every
    repeat is worked at least twice and holds at least two steps; markers,
    turns and held stitches carry no yarn mark. All other yarn marks are kept,
    and the stitches come in the same order.

    Example:
        >>> canonical((Op("k", 2), Op("k", 3), Repeat((Op("k", 4),), 3)))
        (Op(code='k', times=17, yarn=''),)
    """
    said: list[Step] = []
    for step in steps:
        for plain in _simplest(step):
            _say(said, plain)
    return tuple(said)


def _simplest(step: Step) -> tuple[Step, ...]:
    if isinstance(step, Op):
        return (replace(step, yarn="") if step.code in UNMARKED else step,)
    inner = canonical(step.steps)
    if step.times == 1:
        return inner
    if len(inner) == 1:
        # A repeat of one thing is that thing more often: 3 times k4 is k12.
        return (replace(inner[0], times=inner[0].times * step.times),)
    return (Repeat(inner, step.times),)


def _say(said: list[Step], step: Step) -> None:
    last = said[-1] if said else None
    if (
        isinstance(step, Op)
        and isinstance(last, Op)
        and (step.code, step.yarn) == (last.code, last.yarn)
    ):
        said[-1] = replace(last, times=last.times + step.times)
    else:
        said.append(step)


_Brackets: TypeAlias = tuple[str, str]
_SQUARE, _ROUND = ("[", "]"), ("(", ")")
_INSIDE = MappingProxyType({_SQUARE: _ROUND, _ROUND: _SQUARE})
"""Which brackets stand inside which."""


def write(steps: Iterable[Step]) -> str:
    """Write a row in the trade's abbreviations, with every stitch counted.

    `yokefellow.notation.read.read` gives the steps back, in canonical form.
    A repeat stands in square brackets, `[k5, M1L] 24 times`. The one repeat
    of a row that holds others is written with the star, and its number says
    "more": `*[k6, M1L] 3 times, k7, M1L; rep from * 3 more times`. In
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
    again = "once more" if repeat.times == 2 else f"{repeat.times - 1} more times"
    return f"*{_steps(repeat.steps, _SQUARE)}; rep from * {again}"


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
