"""From body, ease and style to the finished garment, in cm. Nothing here knows a stitch."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType

from yokefellow.findings import PlanError
from yokefellow.fit_limits import (
    LEAST_SLEEVE_CM,
    body_findings,
    neck_findings,
    sleeve_findings,
    waist_findings,
)
from yokefellow.project.models import BODY_LENGTHS, SLEEVE_LENGTHS, Project
from yokefellow.project.typed import ChosenLength, LengthChange, NamedLength
from yokefellow.sizing.figures import Figures
from yokefellow.sizing.tables import tables

__all__ = [
    "HEAD_STRETCH",
    "BodyFit",
    "Finished",
    "NeckFit",
    "SleeveFit",
    "YokeFit",
    "arm_cm",
    "body_fit",
    "ease_cm",
    "fit",
    "sleeve_fit",
]

HEAD_STRETCH = 1.35
"""How far a ribbed neck edge stretches over the head (common practice, no source)."""

_CHEST_EASE = MappingProxyType(
    {
        "very close": (-0.08, -10.16, -5.08),
        "close": (0.0, 0.0, 0.0),
        "classic": (0.08, 5.08, 10.16),
        "loose": (0.13, 10.16, 15.24),
        "oversized": (0.18, 15.24, 25.4),
    }
)
"""Share of the chest, and the least and most cm, of each fit.

The limits are the Craft Yarn Council's fit table (-4 to -2, 0, +2 to +4, +4 to
+6, +6 in and more), from memory; where in its range a body lies is a share of
the chest (common practice, no source).
"""

_ARM_EASE = MappingProxyType(
    {
        "very close": (0.0, 0.0, 0.0),
        "close": (0.09, 1.3, 3.0),
        "classic": (0.18, 2.5, 6.0),
        "loose": (0.27, 4.0, 9.0),
        "oversized": (0.36, 5.5, 12.0),
    }
)
"""The same for the upper arm (common practice, no source: no ease table for sleeves is known)."""

_SLEEVE_SHARES = MappingProxyType(
    {"cap": 0.10, "short": 0.30, "three-quarter": 0.75, "bracelet": 0.88, "full": 1.0}
)
"""Share of underarm to wrist of each named sleeve (common practice, no source).

`elbow` is not here: it lies at the group's own elbow.
"""

_WIDE_NECK = 1.18
"""A wide neck beside a crew one (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class NeckFit:
    """The finished neck, in cm."""

    opening_cm: float
    band_cm: float
    raise_cm: float
    """How much higher the back is than the front."""


@dataclass(frozen=True, slots=True)
class YokeFit:
    """The finished yoke, in cm."""

    depth_cm: float
    """At the front, below the neckband to the underarm."""
    underarm_cm: float
    shoulder_cm: float
    """Round the shoulders: the yoke must be at least this wide at their point."""


@dataclass(frozen=True, slots=True)
class BodyFit:
    """The finished body below the underarm, in cm."""

    chest_cm: float
    shape: str
    length_cm: float
    """Underarm to edge, hem included."""
    hem_cm: float
    """Depth of the hem."""
    waist_cm: float
    """Round the garment at the waist; the chest when it is not shaped."""
    waist_at_cm: float
    """Below the underarm."""
    edge_cm: float
    """Round the garment just above the hem."""
    gather: float
    """Share of stitches the hem leaves out."""


@dataclass(frozen=True, slots=True)
class SleeveFit:
    """One finished sleeve, in cm."""

    name: str
    """The named length it comes nearest to."""
    upper_arm_cm: float
    length_cm: float
    """Underarm to edge, cuff included."""
    share: float
    """Of underarm to wrist."""
    arm_cm: float
    """Round the widest part of the arm that the edge must pass."""
    edge_cm: float
    cuff_cm: float
    """Depth of the cuff."""


@dataclass(frozen=True, slots=True)
class Finished:
    """The whole finished garment, and the one it was modified from."""

    neck: NeckFit
    yoke: YokeFit
    body: BodyFit
    sleeve: SleeveFit
    ease_chest_cm: float
    ease_arm_cm: float
    plain_body: BodyFit
    """The body without its length modification: hip length."""
    plain_sleeve: SleeveFit
    """The sleeve without its length modification: full length."""


def ease_cm(chosen: str | float, body_cm: float, *, arm: bool = False) -> float:
    """Give the ease in cm: a length as it is, a named fit by its table.

    >>> round(ease_cm("classic", 96.5), 2)
    7.72
    """
    if not isinstance(chosen, str):
        return chosen
    share, least, most = (_ARM_EASE if arm else _CHEST_EASE)[chosen]
    return min(most, max(least, share * body_cm))


def arm_cm(figures: Figures, share: float) -> float:
    """Give the arm's circumference at a share of the way from underarm to wrist.

    Full to a fifth of the way, then straight lines to the elbow, the widest of
    the forearm an eighth of the arm below it, and the wrist (common practice,
    no source; the elbow's place by the group's table).
    """
    elbow = tables()[figures.group].elbow_share
    places = (
        (0.0, figures.cm("upper_arm")),
        (0.2, figures.cm("upper_arm")),
        (elbow, figures.cm("elbow")),
        (elbow + 0.125, figures.cm("forearm")),
        (1.0, figures.cm("wrist")),
    )
    for (above, wide), (below, narrow) in pairwise(places):
        if share <= below:
            return wide + (narrow - wide) * (share - above) / (below - above)
    return figures.cm("wrist")


def _must_pass_cm(figures: Figures, share: float) -> float:
    """Give the widest place from `share` down: the sleeve is pulled over it."""
    elbow = tables()[figures.group].elbow_share
    below = [place for place in (elbow, elbow + 0.125) if place > share]
    return max(arm_cm(figures, place) for place in (share, *below))


def _length_cm(chosen: ChosenLength, named: dict[str, float], plain_cm: float) -> float:
    match chosen:
        case NamedLength(name):
            return named[name]
        case LengthChange(by_cm):
            return plain_cm + by_cm
        case _:
            return chosen


def sleeve_lengths_cm(figures: Figures) -> dict[str, float]:
    """Give every named sleeve length of this arm, underarm to edge, in cm.

    A baby's cap sleeve would come out too short to knit, and is the least there is.
    """
    shares = {**_SLEEVE_SHARES, "elbow": tables()[figures.group].elbow_share}
    arm_cm = figures.cm("arm_length")
    return {name: max(LEAST_SLEEVE_CM, shares[name] * arm_cm) for name in SLEEVE_LENGTHS}


def body_lengths_cm(figures: Figures) -> dict[str, float]:
    """Give every named body length of this body, underarm to edge, in cm.

    The waist lies the back waist length less the armhole depth below the
    underarm; the others by the group's table from there.
    """
    offsets = tables()[figures.group].body_lengths
    waist_cm = _waist_at_cm(figures)
    named = {name: waist_cm + offsets[name] for name in BODY_LENGTHS}
    if "back_hip_length" in figures.by_name:
        named["hip"] = figures.cm("back_hip_length") - figures.cm("armhole_depth")
    return named


def _waist_at_cm(figures: Figures) -> float:
    return figures.cm("back_waist_length") - figures.cm("armhole_depth")


def sleeve_fit(project: Project, figures: Figures, chosen: ChosenLength) -> SleeveFit:
    """Give the finished sleeve of a chosen length.

    The edge goes round the widest part of the arm from there down, with the
    upper arm's ease: a sleeve that ends at the elbow must still be pulled over
    the forearm. The edge is never wider than the sleeve's own top.
    """
    named = sleeve_lengths_cm(figures)
    length_cm = _length_cm(chosen, named, named["full"])
    share = min(1.0, max(0.0, length_cm / figures.cm("arm_length")))
    arm_ease_cm = ease_cm(project.ease.upper_arm, figures.cm("upper_arm"), arm=True)
    top_cm = figures.cm("upper_arm") + arm_ease_cm
    passes_cm = _must_pass_cm(figures, share)
    nearest = min(named, key=lambda name: abs(named[name] - length_cm))
    return SleeveFit(
        name=nearest,
        upper_arm_cm=top_cm,
        length_cm=length_cm,
        share=share,
        arm_cm=passes_cm,
        edge_cm=min(top_cm, passes_cm + arm_ease_cm),
        cuff_cm=_cuff_cm(project.garment.sleeves.cuff, length_cm, share),
    )


def _cuff_cm(chosen: str | float, length_cm: float, share: float) -> float:
    """Give the depth of the cuff: shallower on a shorter sleeve (common practice, no source).

    The knitter's own depth is kept, but never takes more than half the sleeve.
    """
    if not isinstance(chosen, str):
        return min(chosen, 0.5 * length_cm)
    usual_cm = 2.0 if share < 0.4 else 3.0 if share < 0.6 else 4.0 if share < 0.95 else 5.0
    return min(usual_cm, 0.35 * length_cm)


def body_fit(project: Project, figures: Figures, chosen: ChosenLength) -> BodyFit:
    """Give the finished body of a chosen length, with the girth its shape has at each height."""
    choices = project.garment.body
    named = body_lengths_cm(figures)
    length_cm = _length_cm(chosen, named, named["hip"])
    ease_chest_cm = ease_cm(project.ease.chest, figures.cm("chest"))
    chest_cm = figures.cm("chest") + ease_chest_cm
    waist_at_cm = _waist_at_cm(figures)
    waist_cm = min(chest_cm, figures.cm("waist") + ease_chest_cm)
    edge_cm = chest_cm
    if choices.shape != "straight":
        middle_cm = length_cm - choices.hem / 2
        edge_cm = _edge_cm(figures, middle_cm, named["hip"], waist_at_cm) + ease_chest_cm
    if choices.shape == "a-line":
        edge_cm = max(edge_cm, chest_cm * A_LINE)
    return BodyFit(
        chest_cm=chest_cm,
        shape=choices.shape,
        length_cm=length_cm,
        hem_cm=min(choices.hem, 0.5 * length_cm),
        waist_cm=waist_cm if choices.shape == "waist" else chest_cm,
        waist_at_cm=waist_at_cm,
        edge_cm=edge_cm,
        gather=choices.gather / 100,
    )


A_LINE = 1.08
"""An A-line is at least this much wider at the hem than at the chest (common practice)."""


def _edge_cm(figures: Figures, at_cm: float, hip_at_cm: float, waist_at_cm: float) -> float:
    """Give the girth behind the middle of the hem: between waist and hip by a straight line."""
    way = (at_cm - waist_at_cm) / max(1.0, hip_at_cm - waist_at_cm)
    way = min(1.0, max(0.0, way))
    return figures.cm("waist") + way * (figures.cm("hip") - figures.cm("waist"))


def fit(project: Project, figures: Figures) -> Finished:
    """Give the finished garment that this body, ease and style ask for.

    Raises:
        PlanError: a sleeve or a body comes out too short to knit.
    """
    _refuse(project, figures)
    ease_chest_cm = ease_cm(project.ease.chest, figures.cm("chest"))
    ease_arm_cm = ease_cm(project.ease.upper_arm, figures.cm("upper_arm"), arm=True)
    garment = project.garment
    return Finished(
        neck=_neck_fit(project, figures),
        yoke=_yoke_fit(project, figures, figures.cm("chest") + ease_chest_cm),
        body=body_fit(project, figures, garment.body.length),
        sleeve=sleeve_fit(project, figures, garment.sleeves.length),
        ease_chest_cm=ease_chest_cm,
        ease_arm_cm=ease_arm_cm,
        plain_body=body_fit(project, figures, NamedLength("hip")),
        plain_sleeve=sleeve_fit(project, figures, NamedLength("full")),
    )


def _refuse(project: Project, figures: Figures) -> None:
    """End the stage when a length comes out below the least, with all that is wrong."""
    garment, unit = project.garment, project.sheet.units
    sleeves, bodies = sleeve_lengths_cm(figures), body_lengths_cm(figures)
    neck_cm = _neck_fit(project, figures).opening_cm
    by_percentage = garment.yoke.proportions != "measured"
    found = (
        *neck_findings(
            # The percentage system takes the neck from the body, whatever was asked.
            opening_cm=0.0 if by_percentage else neck_cm,
            shoulder_cm=figures.cm("shoulder_girth"),
            unit=unit,
        ),
        *waist_findings(
            waist_cm=figures.cm("back_waist_length"),
            armhole_cm=figures.cm("armhole_depth"),
            unit=unit,
        ),
        *body_findings(
            length_cm=_length_cm(garment.body.length, bodies, bodies["hip"]),
            hip_cm=bodies["hip"],
            hem_cm=garment.body.hem,
            unit=unit,
        ),
        *sleeve_findings(
            length_cm=_length_cm(garment.sleeves.length, sleeves, sleeves["full"]),
            full_cm=sleeves["full"],
            cuff=garment.sleeves.cuff,
            unit=unit,
        ),
    )
    if found:
        raise PlanError(found)


def _neck_fit(project: Project, figures: Figures) -> NeckFit:
    neck = project.garment.neck
    opening_cm = figures.cm("neck_opening") * (_WIDE_NECK if neck.opening == "wide" else 1.0)
    raise_cm = 0.0 if neck.back_raise == "none" else figures.cm("back_raise")
    return NeckFit(opening_cm, neck.band, raise_cm)


QUARTER = 0.25
"""Depth of the yoke as a share of the body's circumference: Zimmermann,
*Knitting Without Tears*, 1971 (retold; the book not re-read)."""


def _yoke_fit(project: Project, figures: Figures, chest_cm: float) -> YokeFit:
    choices = project.garment.yoke
    depth_cm = figures.cm("yoke_depth")
    if choices.depth == "quarter of chest":
        depth_cm = QUARTER * chest_cm
    return YokeFit(depth_cm, figures.cm("underarm_width"), figures.cm("shoulder_girth"))
