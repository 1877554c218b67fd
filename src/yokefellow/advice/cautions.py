"""What may spoil the sweater or hurt someone, said before the yarn is cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from yokefellow.advice.reach import reaches_hips
from yokefellow.findings import Finding, Severity
from yokefellow.fit import HEAD_STRETCH, Finished
from yokefellow.gauge import Gauges
from yokefellow.project.models import Project
from yokefellow.shaping.shapes import Shape
from yokefellow.sizing.figures import Figures
from yokefellow.wording import length, yarn_length
from yokefellow.yarn import MAIN, YarnEstimate, verdict_words

__all__ = ["cautions", "safety"]

TIGHT_ARM = 0.085
"""Upper-arm ease below this share of the arm is tight: 2.5 cm on an adult arm of 29 cm
(common practice)."""

ROUGHLY = 0.97
"""The stretch of a neck edge is a rule of thumb: a few hundredths do not make a caution."""

SHALLOW_CM = 0.5
DEEP_CM = 8.0
"""A yoke this much deeper than the armhole pulls when the arm lifts (common practice)."""


def cautions(
    project: Project,
    figures: Figures,
    finished: Finished,
    gauges: Gauges,
    shape: Shape,
    broken: tuple[str, ...],
    yarns: Mapping[str, YarnEstimate],
) -> tuple[Finding, ...]:
    """Give every caution about the fit, the yoke, the gauge and the yarn."""
    return (
        *_neck(project, figures, shape),
        *_wide_neck(project, figures, shape),
        *_long_sleeve(project, figures, finished),
        *_percentage(project, shape),
        *_arm(project, figures, shape),
        *_depth(project, figures, finished),
        *_shoulders(project, shape),
        *_hips(project, figures, finished, shape),
        *_edges(project, finished, shape),
        *_yoke(project, broken, shape),
        *_gauge(project, finished, gauges),
        *_evidence(yarns[MAIN]),
        *(finding for yarn in yarns.values() for finding in _yarn(project, yarn)),
    )


def _caution(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.CAUTION, field, message, remedy)


def _neck(project: Project, figures: Figures, shape: Shape) -> Iterator[Finding]:
    unit = project.sheet.units
    opening_cm, head_cm = shape.neck.stitches.cm, figures.cm("head")
    if opening_cm * HEAD_STRETCH < head_cm * ROUGHLY:
        yield _caution(
            "neck.over-head",
            "garment.neck.opening",
            f"A neck of {length(opening_cm, unit)} stretches to about "
            f"{length(opening_cm * HEAD_STRETCH, unit)}; the head is {length(head_cm, unit)}.",
            f"Make the opening at least {length(head_cm / HEAD_STRETCH, unit)}.",
        )


def _arm(project: Project, figures: Figures, shape: Shape) -> Iterator[Finding]:
    arm_cm = figures.cm("upper_arm")
    ease_cm = shape.split.sleeve.cm - arm_cm
    if ease_cm >= TIGHT_ARM * arm_cm:
        return
    unit = project.sheet.units
    percentage = project.garment.yoke.proportions != "measured"
    yield _caution(
        "arm.tight",
        "garment.yoke.proportions" if percentage else "ease.upper_arm",
        f"The sleeve has {length(ease_cm, unit)} of ease at the upper arm; "
        f"under {length(TIGHT_ARM * arm_cm, unit)} it grips the arm.",
        'Write garment.yoke.proportions = "measured": the percentage system never asks the arm.'
        if percentage
        else 'Write ease.upper_arm = "classic", or measure the arm again.',
    )


def _depth(project: Project, figures: Figures, finished: Finished) -> Iterator[Finding]:
    unit = project.sheet.units
    depth_cm, armhole_cm = finished.yoke.depth_cm, figures.cm("armhole_depth")
    if depth_cm < armhole_cm + SHALLOW_CM:
        yield _caution(
            "yoke.shallow",
            "garment.yoke.depth",
            f"A yoke of {length(depth_cm, unit)} at the front hardly reaches an armhole of "
            f"{length(armhole_cm, unit)}: it binds at the underarm.",
            f"Make it about {length(armhole_cm + 3, unit)} deep.",
        )
    if depth_cm > armhole_cm + DEEP_CM:
        yield _caution(
            "yoke.deep",
            "garment.yoke.depth",
            f"A yoke of {length(depth_cm, unit)} at the front, for an armhole of "
            f"{length(armhole_cm, unit)}, lifts the whole body when the arm is raised.",
            'Write garment.yoke.depth = "by size", or a smaller length.',
        )


def _shoulders(project: Project, shape: Shape) -> Iterator[Finding]:
    yoke, per_cm = shape.yoke, shape.split.body.per_cm
    if shape.split.yoke < yoke.shoulder_wanted:
        unit = project.sheet.units
        yield _caution(
            "yoke.narrow",
            "ease.chest",
            f"The yoke ends {length(shape.split.yoke / per_cm, unit)} round, and the shoulders "
            f"are {length(yoke.shoulder_wanted / per_cm, unit)}: it must stretch over them.",
            "Choose more ease, or know that you want it to cling.",
        )


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
    yield _caution(
        "body.over-hips",
        "garment.body.shape" if straight else "ease.chest",
        f"The body is {length(edge_cm, unit)} round above the hem and lies there at hips of "
        f"{length(figures.cm('hip'), unit)}: it will stretch or ride up.",
        'Choose garment.body.shape = "a-line" or "waist", or a shorter body.'
        if straight
        else "Choose more ease at the chest, or a shorter body.",
    )


WIDE_CUFF_CM = 2.0
"""A cuff this much wider than asked is worth telling (common practice)."""


def _edges(project: Project, finished: Finished, shape: Shape) -> Iterator[Finding]:
    """Tell when a hem or cuff could not become as deep, or as narrow, as it was asked."""
    unit, garment = project.sheet.units, project.garment
    body, sleeve = finished.body, finished.sleeve
    if body.hem_cm < garment.body.hem:
        yield _caution(
            "body.hem-cut",
            "garment.body.hem",
            f"A hem of {length(garment.body.hem, unit)} would take more than half of a body of "
            f"{length(body.length_cm, unit)}; it is planned {length(body.hem_cm, unit)} deep.",
            "Write a shallower hem, or a longer body.",
        )
    edge = shape.sleeve.edge
    if edge.residual_cm > WIDE_CUFF_CM:
        yield _caution(
            "sleeve.cuff-wide",
            "garment.sleeves.length",
            f"A sleeve of {length(sleeve.length_cm, unit)} has no room to narrow to "
            f"{length(edge.wanted_cm, unit)} at the cuff; it is planned {length(edge.cm, unit)} "
            "round.",
            "Choose a longer sleeve, or less ease at the upper arm.",
        )
    cuff = garment.sleeves.cuff
    if not isinstance(cuff, str) and sleeve.cuff_cm < cuff:
        yield _caution(
            "sleeve.cuff-cut",
            "garment.sleeves.cuff",
            f"A cuff of {length(cuff, unit)} would take more than half of a sleeve of "
            f"{length(sleeve.length_cm, unit)}; it is planned {length(sleeve.cuff_cm, unit)} deep.",
            "Write a shallower cuff, or a longer sleeve.",
        )


SLIPS_OFF = 0.65
"""A neck wider than this share of the shoulders begins to slip off them (common practice;
necks in print are 46 to 64 cm, unstretched)."""


def _wide_neck(project: Project, figures: Figures, shape: Shape) -> Iterator[Finding]:
    unit, opening_cm = project.sheet.units, shape.neck.stitches.cm
    shoulder_cm = figures.cm("shoulder_girth")
    if opening_cm > SLIPS_OFF * shoulder_cm:
        yield _caution(
            "neck.wide",
            "garment.neck.opening",
            f"The neck is {length(opening_cm, unit)} round, and the shoulders "
            f"{length(shoulder_cm, unit)}: it may slip off them.",
            f"Write at most {length(SLIPS_OFF * shoulder_cm, unit)}.",
        )


LONG_SLEEVE_CM = 4.0
"""A sleeve this much longer than the arm covers the knuckles (common practice)."""


def _long_sleeve(project: Project, figures: Figures, finished: Finished) -> Iterator[Finding]:
    unit, arm_cm = project.sheet.units, figures.cm("arm_length")
    if finished.sleeve.length_cm > arm_cm + LONG_SLEEVE_CM:
        yield _caution(
            "sleeve.long",
            "garment.sleeves.length",
            f"The sleeve is {length(finished.sleeve.length_cm, unit)} from underarm to edge, and "
            f"the arm {length(arm_cm, unit)} to the wrist.",
            'Write "full", or a shorter length, unless it shall be turned back.',
        )


def _percentage(project: Project, shape: Shape) -> Iterator[Finding]:
    """Tell which choices the percentage system does not ask."""
    if project.garment.yoke.proportions == "measured":
        return
    neck, unit = shape.neck.stitches, project.sheet.units
    if abs(neck.residual_cm) > PERCENTAGE_OFF_CM:
        yield _caution(
            "yoke.percentage-neck",
            "garment.yoke.proportions",
            f"The percentage system makes the neck {length(neck.cm, unit)} round; your choice of "
            f"opening asks for {length(neck.wanted_cm, unit)}, which it does not heed.",
            'Write proportions = "measured" to have the neck you chose.',
        )


PERCENTAGE_OFF_CM = 3.0

_RULES = {
    "shoulder": (
        "The yoke does not yet go round the shoulders at their point, 45 % of the way down.",
        "Choose a deeper yoke, or more ease at the chest.",
    ),
    "apart": (
        "Some increase rounds lie closer than three rounds and may read as a ridge.",
        'Choose garment.yoke.increases = "few", or a deeper yoke.',
    ),
    "fullness": (
        "The yoke is full before 60 % or after 80 % of its depth.",
        "Choose another number of increase rounds, or another depth.",
    ),
}


def _yoke(project: Project, broken: tuple[str, ...], shape: Shape) -> Iterator[Finding]:
    for rule in broken:
        message, remedy = _RULES[rule]
        if project.garment.yoke.proportions != "measured":
            remedy = 'Write garment.yoke.proportions = "measured"; the percentages are fixed.'
        yield _caution(f"yoke.{rule}", "garment.yoke.increases", message, remedy)
    steep = [s for s in shape.yoke.increase_rounds if 2 * s.increases > s.before]
    if steep and project.garment.yoke.proportions != "measured":
        yield _caution(
            "yoke.steep",
            "garment.yoke.proportions",
            f"The percentage system adds {steep[0].increases} stitches to {steep[0].before} in "
            "one round, more than one in two; plain fabric may pucker there.",
            'That is how the system was published. proportions = "measured" avoids it.',
        )


def _gauge(project: Project, finished: Finished, gauges: Gauges) -> Iterator[Finding]:
    unit, plain = project.sheet.units, gauges.plain
    chest_cm = finished.body.chest_cm
    off_cm = plain.stitch_spread * chest_cm
    if off_cm > UNSURE_CM:
        yield _caution(
            "gauge.unsure",
            "swatch.plain",
            f"Your stitch readings leave the chest uncertain by {length(off_cm, unit)} either way.",
            "Count again in two or three other places of the washed swatch, over a longer width.",
        )
    if not plain.in_the_round:
        yield _caution(
            "gauge.flat",
            "swatch.plain.worked",
            "The swatch was knitted flat and the sweater is knitted in the round; one knitter "
            f"measured 4.5 % between them, which would be {length(0.045 * chest_cm, unit)} on "
            "this chest.",
            "Knit a swatch in the round, or measure the yoke early and often.",
        )


UNSURE_CM = 2.0


ODD_EVIDENCE = (0.75, 1.35)
"""A stitch may cost so much of what its gauge lets expect; beyond, something was miscounted
(common practice, no source: four standard deviations of hand from machine knitting)."""


def _evidence(yarn: YarnEstimate) -> Iterator[Finding]:
    least, most = ODD_EVIDENCE
    if not least <= yarn.ratio <= most:
        measured = "weighed" if yarn.evidence == "weighed" else "unravelled"
        yield _caution(
            "yarn.evidence-odd",
            f"swatch.plain.{measured}",
            f"By the swatch as {measured} a stitch takes {yarn.ratio:.0%} of the yarn that its "
            f"gauge lets expect; usual is {least:.0%} to {most:.0%}.",
            "Count its stitches and rounds again, and look at the ball's weight and length.",
        )


def _yarn(project: Project, yarn: YarnEstimate) -> Iterator[Finding]:
    if yarn.verdict == "enough":
        return
    unit = project.sheet.units
    have, least, most = (
        yarn_length(amount.metres, unit) for amount in (yarn.stash, yarn.need.low, yarn.need.high)
    )
    message = f"The stash holds {have} of {yarn.code}, and the sweater wants {least} to {most}. "
    message += verdict_words(yarn, unit, colour=project.yarn[yarn.code].colour)
    if yarn.verdict == "close":
        yield _caution(
            "yarn.close",
            f"yarn.{yarn.code}.balls",
            f"{message} The chance that it lasts is {yarn.chance:.0%}.",
            _surer(project, yarn),
        )
    else:
        yield _caution(
            "yarn.short",
            f"yarn.{yarn.code}.balls",
            message,
            "Shorten the sleeves or the body, or choose less ease, before casting on."
            if yarn.code == MAIN
            else "Take another yarn for a band, or leave a band out, before casting on.",
        )


def _surer(project: Project, yarn: YarnEstimate) -> str:
    """Say how to know more, or to need less."""
    if yarn.evidence == "gauge":
        return (
            "Weigh the swatch, count its stitches and rounds, and add [swatch.plain.weighed]: "
            "that narrows the range. Or shorten the sleeves or the body a little."
        )
    if project.weighing.swatch == "keep" and yarn.code == MAIN:
        return (
            "Shorten the sleeves or the body a little, or keep the swatch to unravel and write "
            'weighing.swatch = "unravel".'
        )
    return "Shorten the sleeves or the body a little, or narrow a band."


def safety(project: Project) -> tuple[str, ...]:
    """Give the usual cautions for hands, skin and children.

    Sources: ASTM F1816 and EN 14682 for cords; the rest common practice.
    """
    said = [
        "Rest the hands: pause every half hour, and stop on pain or numbness.",
        "Wash the swatch as the sweater will be washed. Wool and mohair can irritate the skin: "
        "wear the swatch against it for a day.",
    ]
    if project.wearer.table in ("babies", "children"):
        said.append(
            "For a baby or a child: no cords or drawstrings at the neck (ASTM F1816, EN 14682), "
            "no loose buttons, short floats inside sleeves, and no shedding fibre for an infant. "
            "The law of your country decides."
        )
    said.append("Sizing advice is not medical advice.")
    return tuple(said)
