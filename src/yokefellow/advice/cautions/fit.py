"""Whether the finished sweater suits the body: neck, arm, depth, hips, edges."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from yokefellow.advice.cautions.neck import neck_cautions
from yokefellow.advice.context import caution, reaches_hips
from yokefellow.advice.edge_widths import EdgeWidth, EdgeWidths, edge_widths
from yokefellow.advice.fit_report import slack_cm
from yokefellow.body.measurements import Figures
from yokefellow.findings import Finding, Mend, Severity
from yokefellow.fit import Finished
from yokefellow.fit.ease import arm_grips_cm
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.quantities import length
from yokefellow.shaping import RaglanShape, Shape
from yokefellow.words import found

SHALLOW_CM = 0.5
DEEP_CM = 8.0
"""A yoke this much deeper than the armhole pulls when the arm lifts (common practice)."""


def fit_cautions(
    project: Project, figures: Figures, finished: Finished, gauges: Gauges, shape: Shape
) -> Iterator[Finding]:
    """Give every caution about how the sweater lies on the body."""
    yield from neck_cautions(project, figures, gauges, shape)
    yield from _long_sleeve(project, figures, finished)
    yield from _arm(project, figures, shape)
    yield from _depth(project, figures, finished, shape)
    yield from _hips(project, figures, finished, shape)
    yield from _flares(project, shape)
    yield from _edges(project, finished, shape)
    yield from _widths(project, edge_widths(figures, finished, gauges, shape))


def _arm(project: Project, figures: Figures, shape: Shape) -> Iterator[Finding]:
    arm_cm = figures.cm("upper_arm")
    ease_cm = shape.split.sleeve.cm - arm_cm
    chosen, per_cm = project.ease.upper_arm, shape.split.sleeve.per_cm
    least_cm = arm_grips_cm(chosen, arm_cm)
    # As in the fit report: whole stitches may miss a named fit by so much.
    if ease_cm >= least_cm - (slack_cm(per_cm) if isinstance(chosen, str) else 0.0):
        return
    unit = project.sheet.units
    field, remedy = _more_arm(project, shape, arm_cm + least_cm)
    has, least = length(ease_cm, unit), length(least_cm, unit)
    yield caution(
        "arm.tight",
        field,
        f"The sleeve has {'just under ' if has == least else ''}{has} of ease at the upper arm; "
        f"under {least} it grips the arm.",
        remedy,
    )


def _more_arm(project: Project, shape: Shape, least_cm: float) -> tuple[str, str]:
    """Give the field that decides the width of the sleeve, and what to write there."""
    if project.garment.yoke.proportions != "measured":
        return (
            "garment.yoke.proportions",
            'Write garment.yoke.proportions = "measured": the percentage system never asks the '
            "arm.",
        )
    enough = ceil(least_cm * shape.split.sleeve.per_cm)
    if project.fixed.sleeve is not None:
        return "fixed.sleeve", f"Pin at least {enough} stitches, or take the pin out."
    for name in ("yoke", "increases"):
        if getattr(project.fixed, name):
            return (
                f"fixed.{name}",
                "The pinned yoke leaves the sleeve no more: pin a larger one, or a sleeve of "
                f"{enough} stitches and no yoke.",
            )
    if project.pattern is not None:
        return (
            "pattern.follow",
            f"Follow a larger size, or pin a sleeve of at least {enough} stitches under [fixed] "
            "(and a yoke and underarm that go with it).",
        )
    return "ease.upper_arm", 'Write ease.upper_arm = "classic", or measure the arm again.'


def _depth(
    project: Project, figures: Figures, finished: Finished, shape: Shape
) -> Iterator[Finding]:
    unit, yoke = project.sheet.units, shape.yoke
    depth_cm, over_cm = finished.yoke.depth_cm, 0.0
    if isinstance(yoke, RaglanShape):
        # The percentage system has a depth of its own.
        depth_cm, over_cm = yoke.rounds.cm, yoke.sleeve_top_cm / 2
    armhole_cm, reach_cm = figures.cm("armhole_depth"), depth_cm + over_cm
    over = f" ({length(reach_cm, unit)} from the top of the shoulder)" if over_cm else ""
    field = _depth_field(project)
    if reach_cm < armhole_cm + SHALLOW_CM:
        yield caution(
            "yoke.shallow",
            field,
            f"A yoke of {length(depth_cm, unit)} at the front{over} hardly reaches an armhole of "
            f"{length(armhole_cm, unit)}: it binds at the underarm.",
            MEASURED_DEPTH
            if field == PROPORTIONS
            else f"Make it about {length(armhole_cm + 3 - over_cm, unit)} deep.",
        )
    if reach_cm > armhole_cm + DEEP_CM:
        yield caution(
            "yoke.deep",
            field,
            f"A yoke of {length(depth_cm, unit)} at the front{over}, for an armhole of "
            f"{length(armhole_cm, unit)}, lifts the whole body when the arm is raised.",
            MEASURED_DEPTH
            if field == PROPORTIONS
            else 'Write garment.yoke.depth = "by size", or a smaller length.',
        )


PROPORTIONS = "garment.yoke.proportions"
MEASURED_DEPTH = (
    'Write garment.yoke.proportions = "measured": the percentage raglan has a depth of its own.'
)


def _depth_field(project: Project) -> str:
    """Name what decides the depth: its own field, or the percentage raglan."""
    yoke = project.garment.yoke
    by_share = yoke.style == "raglan" and yoke.proportions != "measured"
    return PROPORTIONS if by_share else "garment.yoke.depth"


RIB_GIVES = 0.97
"""A ribbed hem a few hundredths narrower than the hips still lies well (common practice)."""


def _hips(
    project: Project, figures: Figures, finished: Finished, shape: Shape
) -> Iterator[Finding]:
    edge_cm = shape.body.edge.cm
    if not reaches_hips(finished) or edge_cm >= RIB_GIVES * figures.cm("hip"):
        return
    unit = project.sheet.units
    straight = project.garment.body.shape == "straight"
    yield caution(
        "body.over-hips",
        "garment.body.shape" if straight else "ease.chest",
        f"The body is {length(edge_cm, unit)} round above its hem, which lies at hips of "
        f"{length(figures.cm('hip'), unit)}: it will stretch or ride up.",
        'Choose garment.body.shape = "a-line" or "waist", or a shorter body.'
        if straight
        else "Choose more ease at the chest, or a shorter body.",
    )


FLARES = 2.5
"""A body that widens by so much in one length stands out below the waist as a peplum does (our
choice: the hips of the tables widen by 1 to 1.7)."""

LEAST_FLARE_CM = 5.0
"""Less is not seen (our choice)."""


def _flares(project: Project, shape: Shape) -> Iterator[Finding]:
    """Tell when the sides widen so fast below the waist that they stand out."""
    body = shape.body
    widening = [change for change in body.changes if change.added > 0 and not change.for_bust]
    if body.waist is None or not widening:
        return
    grows_cm = sum(change.added for change in widening) / body.edge.per_cm
    over_cm = (widening[-1].number - widening[0].number + 1) / body.rounds.per_cm
    if grows_cm < LEAST_FLARE_CM or grows_cm <= FLARES * over_cm:
        return
    unit = project.sheet.units
    yield found(
        "fit.flares",
        Severity.CAUTION,
        "garment.body.shape",
        mends=(Mend("garment.body.shape", '"straight"'),),
        grows=length(grows_cm, unit),
        over=length(over_cm, unit),
    )


WIDE_CUFF_CM = 2.0
"""A cuff this much wider than asked is worth telling (common practice)."""


def _edges(project: Project, finished: Finished, shape: Shape) -> Iterator[Finding]:
    """Tell when a hem or cuff could not become as deep, or as narrow, as it was asked."""
    unit, garment = project.sheet.units, project.garment
    body, sleeve = finished.body, finished.sleeve
    hem = garment.body.hem
    if not isinstance(hem, str) and body.hem_cm < hem:
        yield caution(
            "body.hem-cut",
            "garment.body.hem",
            f"A hem of {length(hem, unit)} would take more than half of a body of "
            f"{length(body.length_cm, unit)}; it is planned {length(body.hem_cm, unit)} deep.",
            "Write a shallower hem, or a longer body.",
        )
    edge = shape.sleeve.edge
    if edge.residual_cm > WIDE_CUFF_CM:
        yield caution(
            "sleeve.cuff-wide",
            "garment.sleeves.length",
            f"A sleeve of {length(sleeve.length_cm, unit)} has no room to narrow to "
            f"{length(edge.wanted_cm, unit)} at the cuff; it is planned {length(edge.cm, unit)} "
            "round.",
            "Choose a longer sleeve, or less ease at the upper arm.",
        )
    cuff = garment.sleeves.cuff
    if not isinstance(cuff, str) and sleeve.cuff_cm < cuff:
        yield caution(
            "sleeve.cuff-cut",
            "garment.sleeves.cuff",
            f"A cuff of {length(cuff, unit)} would take more than half of a sleeve of "
            f"{length(sleeve.length_cm, unit)}; it is planned {length(sleeve.cuff_cm, unit)} deep.",
            "Write a shallower cuff, or a longer sleeve.",
        )


OVER_HAND = 0.97
"""How far a cuff stretches is a rule of thumb: a few hundredths do not make a caution."""


def _widths(project: Project, widths: EdgeWidths) -> Iterator[Finding]:
    """Tell of ribs that grip at rest, and of a cuff through which no hand goes."""
    for code, pin, width, what in (
        ("neck.rib-tight", "cast_on", widths.neck, "neckband"),
        ("body.rib-tight", "hem", widths.hem, "hem"),
        ("sleeve.rib-tight", "cuff", widths.cuff, "cuff"),
    ):
        if width.grips:
            yield _grips(project, code, pin, width, what)
    cuff, unit = widths.cuff, project.sheet.units
    if cuff.stretched_cm < OVER_HAND * cuff.passes_cm:
        field, remedy = _more(project, "cuff", cuff, cuff.passes_cm / cuff.most_stretch)
        yield caution(
            "sleeve.over-hand",
            field,
            f"The sleeve's edge stretches to about {length(cuff.stretched_cm, unit)}, and must go "
            f"over {length(cuff.passes_cm, unit)}.",
            remedy,
        )


def _grips(project: Project, code: str, pin: str, width: EdgeWidth, what: str) -> Finding:
    unit = project.sheet.units
    by = "by the usual draw of a rib" if width.gauge.is_assumed else "by your rib swatch"
    field, remedy = _more(project, pin, width, width.least_cm)
    return caution(
        code,
        field,
        f"A {what} of {width.stitches} stitches is {length(width.rest_cm, unit)} round at rest, "
        f"{by}, and the body there {length(width.body_cm, unit)}: it grips.",
        remedy,
    )


def _more(project: Project, pin: str, width: EdgeWidth, rest_cm: float) -> tuple[str, str]:
    """Give the field that decides the stitches of an edge, and how many there must be."""
    repeat = width.edge.multiple
    enough = ceil(rest_cm * width.gauge.rest_per_cm / repeat) * repeat
    if getattr(project.fixed, pin) is not None:
        return f"fixed.{pin}", f"Pin {pin} = {enough}, or more, or take the pin out."
    if pin == "hem" and project.garment.body.gather:
        return "garment.body.gather", "Write garment.body.gather = 0."
    if pin == "cast_on" and project.garment.neck.front != "level":
        return "garment.neck.opening", "Make the opening wider, or the rib on a larger needle."
    return f"fixed.{pin}", f"Write {pin} = {enough} under [fixed], or choose more ease there."


LONG_SLEEVE_CM = 4.0
"""A sleeve this much longer than the arm covers the knuckles (common practice)."""


def _long_sleeve(project: Project, figures: Figures, finished: Finished) -> Iterator[Finding]:
    unit, arm_cm = project.sheet.units, figures.cm("arm_length")
    if finished.sleeve.length_cm > arm_cm + LONG_SLEEVE_CM:
        yield caution(
            "sleeve.long",
            "garment.sleeves.length",
            f"The sleeve is {length(finished.sleeve.length_cm, unit)} from underarm to edge, and "
            f"the arm {length(arm_cm, unit)} to the wrist.",
            'Write "full", or a shorter length, unless it shall be turned back.',
        )
