"""Whether the neck goes over the head, and stays on the shoulders."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from yokefellow.advice.context import caution
from yokefellow.body.measurements import Figures
from yokefellow.findings import Finding, Severity
from yokefellow.fit import HEAD_STRETCH
from yokefellow.fit.neck import OPENINGS
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.quantities import LengthUnit, at_most, length
from yokefellow.shaping import BIND_OFFS, NeckShape, Shape

ROUGHLY = 0.97
"""The stretch of a neck edge is a rule of thumb: a few hundredths do not make a caution."""

SLIPS_OFF = 0.65
"""A neck wider than this share of the shoulders begins to slip off them (common practice;
necks in print are 46 to 64 cm, unstretched)."""

BABY_TIGHT = 1.2
"""A baby's neck that must stretch farther than this is tight to pull on (common practice)."""


def _fabric_stretch(neck: NeckShape, gauges: Gauges) -> float:
    """Give how far the band itself stretches beside the opening, whatever its edge allows."""
    stretched_cm = gauges.edge(neck.band.finish).stretched_cm(neck.band_stitches)
    return round(stretched_cm / neck.opening_cm, 2)


def neck_stretch(neck: NeckShape, gauges: Gauges) -> float:
    """Give how far the neck's edge stretches: as far as its band and its edge both allow.

    An edge that is cast on gives as far as a long-tail cast-on does, one that
    is worked last as far as its bind-off.
    """
    edge = BIND_OFFS[neck.band.bind_off].stretch if neck.is_last else HEAD_STRETCH
    return min(edge, _fabric_stretch(neck, gauges))


def neck_cautions(
    project: Project, figures: Figures, gauges: Gauges, shape: Shape
) -> Iterator[Finding]:
    """Give every caution about the opening of the neck."""
    yield from _over_head(project, figures, gauges, shape)
    yield from _over_shoulders(project, figures, shape)


def _over_head(
    project: Project, figures: Figures, gauges: Gauges, shape: Shape
) -> Iterator[Finding]:
    unit, stretch = project.sheet.units, neck_stretch(shape.neck, gauges)
    edge_cm, head_cm = shape.neck.opening_cm, figures.cm("head")
    is_baby = figures.group == "babies"
    if edge_cm * stretch < head_cm * ROUGHLY:
        field, wider = _wider(project, shape.neck, head_cm / stretch)
        yield caution(
            "neck.over-head",
            field,
            f"A neck of {length(edge_cm, unit)} stretches to about "
            f"{length(edge_cm * stretch, unit)}, {stretch:g} times as far, as "
            f"{_limit(shape.neck, gauges)} allows; the head is {length(head_cm, unit)}.",
            f"{wider}{_stretchier(shape, gauges, head_cm)}{_SLIT if is_baby else ''}.",
        )
    elif is_baby and edge_cm * BABY_TIGHT < head_cm:
        yield Finding(
            "neck.baby",
            Severity.NOTE,
            "garment.neck.opening",
            f"A baby's head is large: the neck of {length(edge_cm, unit)} must stretch to "
            f"{length(head_cm, unit)} each time the sweater is put on.",
            f"It goes over{_easier(figures, unit)}{_SLIT}.",
        )


def _easier(figures: Figures, unit: LengthUnit) -> str:
    """Offer a wider neck, as long as it stays on the shoulders."""
    wide_cm, most_cm = OPENINGS["wide"] * figures.cm("neck_opening"), _most_cm(figures)
    if wide_cm <= most_cm:
        return '; opening = "wide" goes more easily'
    return f"; one wider than {at_most(most_cm, unit)} may slip off the shoulders"


def _wider(project: Project, neck: NeckShape, enough_cm: float) -> tuple[str, str]:
    """Give the field that decides how wide the edge is, and what to write there."""
    fixed, pattern = project.fixed, project.pattern
    repeat = neck.band.multiple
    enough = ceil(enough_cm * neck.stitches.per_cm / repeat) * repeat
    pins = [name for name in ("cast_on", "neck") if getattr(fixed, name) is not None]
    small = [name for name in pins if (getattr(fixed, name) or 0) < enough]
    if small:
        shown = " and ".join(f"{name} = {enough}" for name in small)
        return f"fixed.{small[0]}", f"Pin {shown}, or more, or take the pin out"
    if pattern is not None and any(one.cast_on or one.neck for one in pattern.sizes):
        return "pattern", f"Pin neck = {enough} and cast_on = {enough}, or more, under [fixed]"
    unit = project.sheet.units
    return "garment.neck.opening", f"Make the opening at least {length(enough_cm, unit)}"


_SLIT = "; surest is an opening along one shoulder, with buttons, which this sheet does not plan"


def _limit(neck: NeckShape, gauges: Gauges) -> str:
    """Name what holds the edge: the cast-on, the bind-off or the band."""
    if neck_stretch(neck, gauges) == _fabric_stretch(neck, gauges):
        return "the band"
    return "its bind-off" if neck.is_last else "a long-tail cast-on"


def _stretchier(shape: Shape, gauges: Gauges, head_cm: float) -> str:
    """Offer a band worked last, where its stretchiest bind-off would do."""
    neck = shape.neck
    best = min(BIND_OFFS["yarn overs"].stretch, _fabric_stretch(neck, gauges))
    if neck.is_last or neck.band.finish == "folded" or neck.opening_cm * best < head_cm * ROUGHLY:
        return ""
    return (
        '; or write garment.neck.cast_on = "provisional": a band worked last is bound off so '
        f"that it stretches {best:g} times as far"
    )


def _most_cm(figures: Figures) -> float:
    """Give the widest neck that stays on the shoulders."""
    return SLIPS_OFF * figures.cm("shoulder_girth")


WHOLE = 3
"""Stitches by which a neck of whole repeats may be wider than what was written."""


def _over_shoulders(project: Project, figures: Figures, shape: Shape) -> Iterator[Finding]:
    unit, neck = project.sheet.units, shape.neck.stitches
    opening_cm, most_cm = neck.cm, _most_cm(figures)
    shoulder_cm = figures.cm("shoulder_girth")
    if opening_cm > most_cm:
        yield caution(
            "neck.wide",
            "garment.neck.opening",
            f"The neck is {length(opening_cm, unit)} round, and the shoulders "
            f"{length(shoulder_cm, unit)}: it may slip off them.",
            f"Write at most {at_most(most_cm - WHOLE / neck.per_cm, unit)}.",
        )
