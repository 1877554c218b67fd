"""The raglan yoke in words and figures: its pieces, their rates, how its lines are worked."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from types import MappingProxyType

from yokefellow.plan import Plan
from yokefellow.quantities import length
from yokefellow.shaping import RaglanPiece, RaglanShape, Rate
from yokefellow.sheet.pieces import RaglanView, RateView, YokePiece

__all__ = ["open_lines", "raglan_view", "raglan_words", "rate_words"]

_TH = MappingProxyType({1: "st", 2: "nd", 3: "rd"})


def _ordinal(number: int) -> str:
    """Write `2nd`, `4th`, `12th`, `22nd`."""
    ending = "th" if 10 <= number % 100 <= 20 else _TH.get(number % 10, "th")
    return f"{number}{ending}"


def rate_words(spread: tuple[Rate, ...]) -> str:
    """Say how often a piece increases.

    >>> rate_words((Rate(2, 14), Rate(4, 1)))
    'every 2nd round 14 times, then every 4th round once'
    """
    return ", then ".join(
        ("every round " if rate.every == 1 else f"every {_ordinal(rate.every)} round ")
        + ("once" if rate.times == 1 else f"{rate.times} times")
        for rate in spread
    )


def raglan_view(plan: Plan) -> RaglanView | None:
    """Give the pieces of a raglan as figures; nothing for a circular yoke."""
    yoke = plan.shape.yoke
    if not isinstance(yoke, RaglanShape):
        return None
    pieces = tuple(
        YokePiece(
            name,
            piece.start,
            piece.stitches_at(yoke.rounds.got),
            tuple(RateView(rate.every, rate.times) for rate in piece.rates),
        )
        for name, piece in _named(yoke)
    )
    return RaglanView(yoke.line.width, yoke.line.increase, pieces, yoke.armhole_cm)


def _named(yoke: RaglanShape) -> tuple[tuple[str, RaglanPiece], ...]:
    return ("back", yoke.back), ("sleeve", yoke.sleeve), ("front", yoke.front)


def raglan_words(plan: Plan, yoke: RaglanShape) -> Iterator[str]:
    """Give the paragraphs at the head of a raglan yoke, but the one on the short rows' gaps."""
    if plan.shape.front is not None:
        yield from _going_on(plan, yoke)
        return
    yield (
        "From here on every round goes all the way round again. Four lines part the yoke into "
        "back, right sleeve, front and left sleeve, in the order in which a round meets them. In "
        "an increase round a piece gains two stitches, one at either end beside its lines; between "
        "the increase rounds every round is plain."
    )
    end = yoke.rounds.got
    yield (
        f"At the neck: {_counts(yoke, 0)}, together {yoke.start}. At the underarm: "
        f"{_counts(yoke, end)}, together {yoke.stitches_at(end)}."
    )
    yield (
        f"{' '.join(_rates(yoke))} {_first(yoke)} The rows below say, round by round, which "
        "pieces increase."
    )
    yield f"{_markers(yoke)} {_ways(yoke)}".strip()
    if yoke.bands:
        yield "The colour bands lie below the last increase, where the lines have ended."
    if yoke.sleeve.start:
        unit = plan.project.sheet.units
        yield (
            f"The yoke is measured at the front, where it is {length(yoke.rounds.cm, unit)} deep. "
            f"Half of a sleeve's top, {length(yoke.sleeve_top_cm / 2, unit)}, lies before the "
            "shoulder and counts toward the armhole: from the top of the shoulder to the underarm "
            f"it is {length(yoke.armhole_cm, unit)}."
        )


def _going_on(plan: Plan, yoke: RaglanShape) -> Iterator[str]:
    """Give the head of a yoke whose first rounds were rows: the lines go on as they were."""
    done = plan.shape.flat_rows
    left = sum(step.number > done for step in yoke.increase_rounds)
    now, end = f"{_counts(yoke, done)}, together {yoke.stitches_at(done)}", yoke.rounds.got
    grow = (
        f"The work grows beside the lines as before, in {left} more rounds: M1R before a line, "
        "M1L after it."
        if left and yoke.line.increase == "lifted"
        else f"The work grows beside the lines as before, in {left} more rounds."
        if left
        else "There are no increases left: every round is plain."
    )
    yield (
        "The fronts are joined, and every round goes all the way round, from the centre back over "
        "the right sleeve, the front and the left sleeve, with the right side facing. Every round "
        f"is knitted. {grow}"
    )
    yield f"Now: {now}. At the underarm: {_counts(yoke, end)}, together {yoke.stitches_at(end)}."


def open_lines(yoke: RaglanShape) -> str:
    """Say how a raglan's lines are worked in rows, and how often the pieces grow down to the end.

    The rates count rows and rounds alike, from the first row back.
    """
    rates = " ".join(_rates(yoke)).replace(" round ", " row ").replace(" rounds ", " rows ")
    return (
        "In an increase row a piece gains two stitches, one at either end beside its lines. "
        f"{rates} These counts go on, without a break, in the rounds of the yoke; the rows below "
        f"say it row by row. {_line_words(yoke)} {_ways(yoke)}"
    )


def _counts(yoke: RaglanShape, number: int) -> str:
    back, sleeve, front = (piece.stitches_at(number) for _, piece in _named(yoke))
    if back == front:
        return f"back and front {back} stitches each, each sleeve {sleeve}"
    return f"back {back} stitches, each sleeve {sleeve}, front {front}"


def _rates(yoke: RaglanShape) -> Iterator[str]:
    """Say the rates, pieces with the same ones together."""
    named = (("back", yoke.back), ("front", yoke.front), ("sleeves", yoke.sleeve))
    by_rate = sorted(named, key=lambda one: (_every(one[1]), one[1].rounds))
    for rounds, alike in groupby(by_rate, key=lambda one: one[1].rounds):
        pieces = list(alike)
        names = [name for name, _ in pieces]
        whose = _list(names) if len(names) < len(named) else "all four pieces"
        how = f"increase {_how_often(pieces[0][1])}" if rounds else "do not increase"
        if names == ["back"] or names == ["front"]:
            how = how.replace("increase ", "increases ", 1).replace("do not", "does not")
            whose = f"the {whose}"
        elif len(names) < len(named):
            whose = f"the {whose}"
        yield f"{whose[0].upper()}{whose[1:]} {how}."


def _every(piece: RaglanPiece) -> tuple[int, ...]:
    return tuple(rate.every for rate in piece.rates)


LONG = 12
"""Rounds that are told one by one (our choice)."""


def _how_often(piece: RaglanPiece) -> str:
    """Say the rates of a piece, or its rounds where no rate says them."""
    if piece.rates:
        return rate_words(piece.rates)
    if len(piece.rounds) <= LONG:
        return f"in rounds {_list([str(number) for number in piece.rounds])}"
    return f"{len(piece.rounds)} times, from round {piece.rounds[0]} to round {piece.rounds[-1]}"


def _list(names: list[str]) -> str:
    return " and ".join(names) if len(names) < 3 else f"{', '.join(names[:-1])} and {names[-1]}"


def _first(yoke: RaglanShape) -> str:
    """Tell where counting begins, and what is left at the end."""
    steps = yoke.increase_rounds
    if not steps:
        return ""
    return (
        f"The first increase round is round {steps[0].number}, the last is round "
        f"{yoke.last_increase} of {yoke.rounds.got}."
    )


def _markers(yoke: RaglanShape) -> str:
    """Say where the markers hang, and which stitches are the line's."""
    hung = (
        "Round 1 hangs four markers; take another colour than for BOR. From one marker to the next "
        "is one piece, so that each can be counted by itself."
    )
    return f"{hung} {_line_words(yoke)}"


def _line_words(yoke: RaglanShape) -> str:
    """Say which stitches are the line's."""
    width, body, sleeve = yoke.line.width, yoke.body_share, yoke.sleeve_share
    if width == 0:
        return "The increases stand right beside the marker."
    stitches = "1 stitch" if width == 1 else f"{width} stitches"
    if sleeve == 0:
        where = "on the body's side of its marker"
    elif body == sleeve:
        where = f"{body} on either side of its marker"
    else:
        where = f"{body} on the body's side of its marker and {sleeve} on the sleeve's"
    return f"A line is {stitches} wide, {where}; it runs straight down, and is only knitted."


def _ways(yoke: RaglanShape) -> str:
    """Say how the increases stand beside the line."""
    said = {
        "lifted": "M1R comes before a line and M1L after it, so that both lean away from it.",
        "yarn over": "A yo comes before a line and another after it; each leaves a small hole, "
        "and together they draw the line.",
        "front and back": "A kfb is worked in the stitch before a line and in the stitch after it. "
        "Its bar lies to the left, so the line looks one stitch wider than it is.",
    }[yoke.line.increase]
    if yoke.body_share == yoke.sleeve_share:
        said += f" Where the pieces on both sides of a marker increase, it reads: {_read(yoke)}."
    if yoke.sleeve.start == 0:
        said += (
            " The sleeves begin with no stitch at all: in their first increase round two loops "
            "are cast on between the markers, and these are the sleeve."
        )
    return said


_CODES = MappingProxyType(
    {"lifted": ("M1R", "M1L"), "yarn over": ("yo", "yo"), "front and back": ("kfb", "kfb")}
)


def _read(yoke: RaglanShape) -> str:
    """Write a line of an increase round as the rows have it: M1R, k1, sm, k1, M1L."""
    before, after = _CODES[yoke.line.increase]
    beside = [f"k{yoke.body_share}"] if yoke.body_share else []
    return ", ".join([before, *beside, "sm", *beside, after])
