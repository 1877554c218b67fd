"""From body, ease and style to the finished garment, in cm. Nothing here knows a stitch."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from yokefellow.body.measurements import Figures
from yokefellow.findings import PlanError
from yokefellow.fit.ease import ease_cm
from yokefellow.fit.finished import BodyFit, Finished, RaglanFit, SleeveFit, YokeFit
from yokefellow.fit.front_and_back import Halves, bust_fit, halves
from yokefellow.fit.lengths import (
    body_lengths_cm,
    chosen_cm,
    must_pass_cm,
    sleeve_lengths_cm,
    underarm_to_hip_cm,
    underarm_to_waist_cm,
    wide_places,
)
from yokefellow.fit.limits import (
    body_findings,
    neck_findings,
    sleeve_findings,
    waist_findings,
)
from yokefellow.fit.neck import neck_fit, opening_cm, over_front_cm
from yokefellow.project_file.fields import ChosenLength, NamedLength
from yokefellow.project_file.models import Project


def sleeve_fit(project: Project, figures: Figures, chosen: ChosenLength) -> SleeveFit:
    """Give the finished sleeve of a chosen length.

    The edge goes round the widest part of the arm from there down, with the
    upper arm's ease: a sleeve that ends at the elbow must still be pulled over
    the forearm. The edge is never wider than the sleeve's own top.
    """
    named = sleeve_lengths_cm(figures)
    length_cm = chosen_cm(chosen, named, named["full"])
    share = _share(figures, length_cm)
    arm_ease_cm = ease_cm(project.ease.upper_arm, figures.cm("upper_arm"), arm=True)
    top_cm = figures.cm("upper_arm") + arm_ease_cm
    passes_cm = must_pass_cm(figures, share)
    # A sleeve that stretches over the upper arm may stretch as far over the elbow.
    least_cm = min(0.0, arm_ease_cm)
    nearest = min(named, key=lambda name: abs(named[name] - length_cm))
    return SleeveFit(
        name=nearest,
        upper_arm_cm=top_cm,
        length_cm=length_cm,
        share=share,
        arm_cm=passes_cm,
        edge_cm=min(top_cm, passes_cm + arm_ease_cm),
        cuff_cm=cuff_cm(project, figures, length_cm),
        passes_cm=max(passes_cm, HAND * figures.cm("wrist")),
        arm_at_cm=tuple(
            (at * figures.cm("arm_length"), min(top_cm, must_pass_cm(figures, at) + least_cm))
            for at in wide_places(figures)
            if at < share
        ),
    )


HAND = 1.3
"""Round the hand with the thumb laid in, beside the wrist (common practice, no source)."""


def _share(figures: Figures, length_cm: float) -> float:
    """Give how far down the arm a sleeve comes: 0 at the underarm, 1 at the wrist."""
    return min(1.0, max(0.0, length_cm / figures.cm("arm_length")))


def cuff_cm(project: Project, figures: Figures, length_cm: float) -> float:
    """Give the depth of the cuff: shallower on a shorter sleeve (common practice, no source).

    The knitter's own depth is kept, but never takes more than half the sleeve.
    """
    chosen = project.garment.sleeves.cuff
    if not isinstance(chosen, str):
        return min(chosen, 0.5 * length_cm)
    share = _share(figures, length_cm)
    usual_cm = 2.0 if share < 0.4 else 3.0 if share < 0.6 else 4.0 if share < 0.95 else 5.0
    return min(usual_cm, USUAL_EDGE_CM[figures.group], MOST_OF_PIECE * length_cm)


def body_fit(project: Project, figures: Figures, chosen: ChosenLength) -> BodyFit:
    """Give the finished body of a chosen length, with the girth its shape has at each height."""
    choices = project.garment.body
    ease_chest_cm = ease_cm(project.ease.chest, figures.cm("chest"))
    chest_cm = figures.cm("chest") + ease_chest_cm
    waist_cm = min(chest_cm, figures.cm("waist") + ease_chest_cm)
    around = BodyFit(
        chest_cm=chest_cm,
        shape=choices.shape,
        length_cm=0.0,
        hem_cm=0.0,
        waist_cm=waist_cm if choices.shape == "waist" else chest_cm,
        waist_at_cm=underarm_to_waist_cm(figures),
        edge_cm=chest_cm,
        gather=choices.gather / 100,
        hip_at_cm=underarm_to_hip_cm(figures),
        bust=bust_fit(
            figures,
            grows_cm=_halves(project, figures, chest_cm).grows_cm,
            ease_cm=ease_chest_cm,
            raise_cm=neck_fit(project, figures).raise_cm,
        ),
        passes_cm=figures.cm("chest"),
    )
    return body_in_length(around, project, figures, chosen)


def body_in_length(
    around: BodyFit, project: Project, figures: Figures, chosen: ChosenLength
) -> BodyFit:
    """Give the same body in another length: only its hem and its edge lie elsewhere.

    Args:
        around: the body in any length.
        project: of the same sweater.
        figures: of the same body.
        chosen: the length.
    """
    choices, chest_cm = project.garment.body, around.chest_cm
    named = body_lengths_cm(figures)
    length_cm = chosen_cm(chosen, named, named["hip"])
    edge_cm = chest_cm
    if choices.shape != "straight":
        middle_cm = length_cm - hem_cm(project, figures, length_cm) / 2
        edge_cm = _edge_cm(figures, middle_cm, around.hip_at_cm, around.waist_at_cm)
        edge_cm += chest_cm - figures.cm("chest")
    if choices.shape == "a-line":
        edge_cm = max(edge_cm, chest_cm * A_LINE)
    at_hips = length_cm >= named["hip"] - SHORT_OF_HIPS_CM
    return replace(
        around,
        length_cm=length_cm,
        hem_cm=hem_cm(project, figures, length_cm),
        edge_cm=edge_cm,
        passes_cm=max(figures.cm("chest"), figures.cm("hip") if at_hips else 0.0),
    )


USUAL_EDGE_CM = MappingProxyType({"women": 5.0, "men": 5.0, "children": 3.2, "babies": 2.5})
"""Depth of a hem, and of a full sleeve's cuff (common practice, no source: 2 in on adults, 1 to
1 1/4 in on the small)."""

MOST_OF_PIECE = 0.35
"""Share of a body or a sleeve that its edge takes at the most, unless its depth was written
(common practice, no source)."""


def hem_cm(project: Project, figures: Figures, length_cm: float) -> float:
    """Give the depth of the hem: the knitter's own, but never more than half the body."""
    chosen = project.garment.body.hem
    if not isinstance(chosen, str):
        return min(chosen, 0.5 * length_cm)
    return min(USUAL_EDGE_CM[figures.group], MOST_OF_PIECE * length_cm)


SHORT_OF_HIPS_CM = 3.0
"""A body this much shorter than hip length still lies on the hips (common practice)."""

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
    yoke = _yoke_fit(project, figures, figures.cm("chest") + ease_chest_cm)
    body = body_fit(project, figures, garment.body.length)
    return Finished(
        neck=neck_fit(project, figures, yoke_cm=yoke.depth_cm),
        yoke=yoke,
        body=body,
        sleeve=sleeve_fit(project, figures, garment.sleeves.length),
        ease_chest_cm=ease_chest_cm,
        ease_arm_cm=ease_arm_cm,
        plain_body=body_in_length(body, project, figures, NamedLength("hip")),
        plain_sleeve=sleeve_fit(project, figures, NamedLength("full")),
    )


def _refuse(project: Project, figures: Figures) -> None:
    """End the stage when a length comes out below the least, with all that is wrong."""
    garment, unit = project.garment, project.sheet.units
    sleeves, bodies = sleeve_lengths_cm(figures), body_lengths_cm(figures)
    neck_cm = opening_cm(project, figures)
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
            length_cm=chosen_cm(garment.body.length, bodies, bodies["hip"]),
            hip_cm=bodies["hip"],
            hem=garment.body.hem,
            unit=unit,
        ),
        *sleeve_findings(
            length_cm=chosen_cm(garment.sleeves.length, sleeves, sleeves["full"]),
            full_cm=sleeves["full"],
            cuff=garment.sleeves.cuff,
            unit=unit,
        ),
    )
    if found:
        raise PlanError(found)


QUARTER = 0.25
"""Depth of the yoke as a share of the body's circumference: Zimmermann,
*Knitting Without Tears*, 1971 (retold; the book not re-read)."""


def _yoke_fit(project: Project, figures: Figures, chest_cm: float) -> YokeFit:
    choices = project.garment.yoke
    depth_cm = figures.cm("yoke_depth")
    if choices.depth == "quarter of chest":
        depth_cm = QUARTER * chest_cm
    raglan = _raglan_fit(project, figures)
    if raglan is not None and choices.depth == "by size":
        depth_cm -= raglan.sleeve_top_cm / 2
    if choices.depth == "by size":
        depth_cm += over_front_cm(project, figures)
    shared = _halves(project, figures, chest_cm)
    return YokeFit(
        depth_cm=depth_cm,
        underarm_cm=shared.underarm_cm,
        shoulder_cm=figures.cm("shoulder_girth"),
        chest_cm=shared.chest_cm,
        front_more_cm=shared.front_more_cm,
        raglan=raglan,
    )


def _halves(project: Project, figures: Figures, chest_cm: float) -> Halves:
    """Share the chest; the percentage system goes by the whole of it, at once."""
    arm_cm = figures.cm("upper_arm")
    sleeve_cm = arm_cm + ease_cm(project.ease.upper_arm, arm_cm, arm=True)
    shared = halves(figures, chest_cm=chest_cm, sleeve_cm=sleeve_cm)
    if project.garment.yoke.proportions == "measured":
        return shared
    more_cm = shared.front_more_cm + shared.grows_cm
    return Halves(chest_cm, figures.cm("underarm_width"), front_more_cm=more_cm, grows_cm=0.0)


THIRD = 1 / 3
"""Share of a raglan's neck over the back, and over the front; the sleeves have the rest
(common practice)."""

WIDEST_BACK_NECK = 0.55
"""Share of the cross back that the back of the neck may take: beyond it the lines would begin
out on the shoulders (common practice)."""


FULLEST = 1.25
"""The girth of the shoulders is taken where the upper arms are fullest: so much farther from the
neck, along the sleeve, than the shoulder's point (our choice)."""


def _raglan_fit(project: Project, figures: Figures) -> RaglanFit | None:
    if project.garment.yoke.style != "raglan":
        return None
    neck_cm, across_cm = opening_cm(project, figures), figures.cm("cross_back")
    back_cm = min(THIRD * neck_cm, WIDEST_BACK_NECK * across_cm)
    return RaglanFit(
        back_neck_cm=back_cm,
        sleeve_top_cm=(neck_cm - 2 * back_cm) / 2,
        shoulder_at_cm=FULLEST * (across_cm - back_cm) / 2,
    )
