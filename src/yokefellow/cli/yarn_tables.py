"""Yarns at a terminal and as data: what they are called, what is needed, whether they last."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from yokefellow.cli.terminal import wrapped
from yokefellow.plan import Plan
from yokefellow.project_file.models import Project
from yokefellow.quantities import M_PER_YARD, LengthUnit
from yokefellow.yarn import Amount, Span, YarnEstimate, verdict_words

VERDICTS: Mapping[str, str] = {"enough": "enough", "close": "too close", "short": "short"}
"""The verdicts in a column."""


def yarn_called(project: Project, code: str) -> str:
    """Give a yarn its code and its colour: `CC1, oat`."""
    return ", ".join(word for word in (code, project.yarn[code].colour) if word)


def verdict_of(project: Project, estimate: YarnEstimate) -> str:
    """Say whether a yarn lasts, in a sentence."""
    colour = project.yarn[estimate.code].colour
    return verdict_words(estimate, project.sheet.units, colour=colour)


def verdicts(made: Plan, yarns: Mapping[str, YarnEstimate]) -> Iterator[str]:
    """Say of every yarn whether it lasts, a paragraph each."""
    for code, estimate in yarns.items():
        words = f"{yarn_called(made.project, code)}: {verdict_of(made.project, estimate)}"
        yield wrapped(words, rest="  ")


def yarn_unit(unit: LengthUnit) -> str:
    """Name the unit of a length of yarn."""
    return "yd" if unit == "in" else "m"


def metres_or_yards(metres: float, unit: LengthUnit) -> str:
    """Give a length of yarn for a column, without its unit."""
    return f"{metres / M_PER_YARD if unit == 'in' else metres:,.0f}".replace("-0", "0")


def amount_words(amount: Amount, unit: LengthUnit) -> str:
    """Tell an amount four ways.

    >>> amount_words(Amount(1200, 17.0, 4.2, 0.08), "cm")
    '1,200 stitches, 17 m, 4 g, 0.1 balls'
    """
    yarn = f"{metres_or_yards(amount.metres, unit)} {yarn_unit(unit)}"
    return f"{amount.stitches:,} stitches, {yarn}, {amount.grams:.0f} g, {amount.balls:.1f} balls"


def amount_record(amount: Amount) -> dict[str, Any]:
    """Give an amount as data."""
    return {
        "stitches": amount.stitches,
        "metres": round(amount.metres, 1),
        "grams": round(amount.grams, 1),
        "balls": round(amount.balls, 2),
    }


def span_record(span: Span) -> dict[str, Any]:
    """Give a range as data."""
    return {name: amount_record(getattr(span, name)) for name in ("low", "mean", "high")}


def record(project: Project, estimates: Iterable[YarnEstimate]) -> list[dict[str, Any]]:
    """Give yarns as data: what is needed, what there is, what stays over, how sure."""
    return [
        {
            "code": estimate.code,
            "colour": project.yarn[estimate.code].colour,
            "need": span_record(estimate.need),
            "stash": amount_record(estimate.stash),
            "left": span_record(estimate.left),
            "chance": round(estimate.chance, 4),
            "sure": estimate.sure,
            "verdict": estimate.verdict,
            "evidence": estimate.evidence,
            "words": verdict_of(project, estimate),
        }
        for estimate in estimates
    ]
