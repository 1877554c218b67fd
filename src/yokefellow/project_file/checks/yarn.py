"""Whether the yarns, and the balls there are of each, can be as typed."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from yokefellow.findings import Finding, Mend, Severity, as_typed
from yokefellow.project_file.measure_fields import length_of_band
from yokefellow.project_file.models import Project, Yarn
from yokefellow.words import found

METRES_PER_GRAM = (0.2, 25.0)
"""From a jumbo roving to a cobweb lace (common practice, no source)."""
G_PER_OUNCE = 28.349523125
"""Exact by definition (international yard and pound agreement, 1959)."""
MOST_OUNCES = 16.0
"""A number of ounces that one ball or cone may weigh: a pound (our choice)."""
WEIGHED_APART = 0.1
"""The weights and the number of balls may differ by this share: a core, a gift."""


def yarn_findings(project: Project) -> Iterator[Finding]:
    """Check that there is a main color, and each yarn's ball band, balls, weights and lots."""
    if "MC" not in project.yarn:
        yield found("yarn.no-main", Severity.ERROR, "yarn")
    for name, yarn in project.yarn.items():
        yield from _ball_band(f"yarn.{name}", yarn)
        yield from _balls(f"yarn.{name}", yarn)


def _ball_band(field: str, yarn: Yarn) -> Iterator[Finding]:
    if yarn.length_as_typed:
        length = length_of_band(yarn.length_as_typed)
        yield found(
            "yarn.length-of-band",
            Severity.NOTE,
            f"{field}.ball_length",
            mends=(Mend(f"{field}.ball_length", f'"{length}"'),),
            typed=as_typed(yarn.length_as_typed),
            length=length,
        )
    each, (least, most) = yarn.ball_length / yarn.ball_weight, METRES_PER_GRAM
    ounces_g = yarn.ball_weight * G_PER_OUNCE
    grams, metres = f"{yarn.ball_weight:g}", f"{yarn.ball_length:.0f}"
    if yarn.ball_weight <= MOST_OUNCES and each > most >= yarn.ball_length / ounces_g:
        mend = Mend(f"{field}.ball_weight", f'"{grams} oz"')
        yield found(
            "yarn.ounces",
            Severity.CAUTION,
            mend.field,
            mends=(mend,),
            grams=grams,
            metres=metres,
            meant=mend.value,
        )
    elif not least <= each <= most:
        yield found(
            "yarn.metres-per-gram",
            Severity.CAUTION,
            f"{field}.ball_length",
            grams=grams,
            metres=metres,
            each=f"{each:.0f}" if each >= 1 else f"{each:.2f}",
            least=f"{least:g}",
            most=f"{most:g}",
        )


def _balls(field: str, yarn: Yarn) -> Iterator[Finding]:
    """The weights, the lots and the number of balls must speak of the same balls."""
    there = len(yarn.weights) or ceil(yarn.balls)
    if yarn.lots and len(yarn.lots) != there:
        lots = len(yarn.lots)
        yield found("yarn.lots-count", Severity.ERROR, f"{field}.lots", lots=lots, balls=there)
    by_weight = sum(yarn.weights) / yarn.ball_weight
    if yarn.weights and abs(by_weight - yarn.balls) > WEIGHED_APART * yarn.balls:
        yield found(
            "yarn.weights-apart",
            Severity.CAUTION,
            f"{field}.balls",
            mends=(Mend(f"{field}.balls", None),),
            weighed=f"{by_weight:.3g}",
            balls=f"{yarn.balls:g}",
        )
