"""Whether a raglan covers the shoulders, and is as deep as it was asked to be."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.advice.context import caution
from yokefellow.findings import Finding
from yokefellow.fit import Finished
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.quantities import length
from yokefellow.shaping.shapes import Shape
from yokefellow.shaping.yoke_shapes import RaglanShape

DEPTH_OFF_CM = 1.5
"""A percentage raglan that misses the wanted depth by more is worth telling (our choice)."""


def raglan_cautions(
    project: Project, broken: tuple[str, ...], yoke: RaglanShape
) -> Iterator[Finding]:
    """Give every caution about a raglan's own line."""
    yield from _shoulder(project, broken, yoke)
    yield from _percentage_depth(project, yoke)
    yield from _ladder(yoke)


def _shoulder(project: Project, broken: tuple[str, ...], yoke: RaglanShape) -> Iterator[Finding]:
    if "shoulder" not in broken:
        return
    unit, per_cm = project.sheet.units, yoke.stitches_per_cm
    there_cm = yoke.stitches_at(yoke.shoulder_round) / per_cm
    measured = project.garment.yoke.proportions == "measured"
    yield caution(
        "raglan.shoulder",
        "garment.neck.opening" if measured else "garment.yoke.proportions",
        f"Where the shoulders are fullest, in round {yoke.shoulder_round}, the raglan is "
        f"{length(there_cm, unit)} round, and the shoulders are "
        f"{length(yoke.shoulder_wanted / per_cm, unit)}: it pulls there until the fabric gives.",
        "Choose a wider neck opening, or more ease at the chest and the upper arm."
        if measured
        else 'Write garment.yoke.proportions = "measured"; the percentages are fixed.',
    )


def _percentage_depth(project: Project, yoke: RaglanShape) -> Iterator[Finding]:
    """Tell that the percentage raglan does not heed the depth that was asked."""
    measured = project.garment.yoke.proportions == "measured"
    if measured or abs(yoke.rounds.residual_cm) <= DEPTH_OFF_CM:
        return
    unit = project.sheet.units
    yield caution(
        "raglan.percentage-depth",
        "garment.yoke.proportions",
        f"The percentage system makes the raglan {length(yoke.rounds.cm, unit)} deep at the "
        f"front, two rounds for each stitch of half a sleeve; your choice of depth asks for "
        f"{length(yoke.rounds.wanted_cm, unit)}, which it does not heed.",
        'Write proportions = "measured" to have the depth you chose.',
    )


UNLIKE = 0.1
"""Share of the increase rounds with a hole at one side of the line only, from which the line no
longer looks alike on both (our choice)."""


def _ladder(yoke: RaglanShape) -> Iterator[Finding]:
    """Tell of yarn overs that stand in other rounds on the sleeve's side than on the body's."""
    sleeve = set(yoke.sleeve.rounds)
    apart = [len(sleeve ^ set(body.rounds)) for body in (yoke.back, yoke.front)]
    rounds = len(yoke.increase_rounds)
    if yoke.line.increase != "yarn over" or max(apart) <= UNLIKE * rounds:
        return
    yield caution(
        "raglan.ladder",
        "garment.yoke.line_increase",
        f"Body and sleeves grow in different rounds: in {max(apart)} of {rounds} increase rounds a "
        "line has a hole at one side only, so that its two ladders do not match.",
        'Write garment.yoke.line_increase = "lifted", whose increases hardly show.',
    )


def yoke_cautions(project: Project, broken: tuple[str, ...], shape: Shape) -> Iterator[Finding]:
    """Give every caution about the yoke's own line."""
    yield from _percentage(project, shape)
    yield from _shoulders(project, shape)
    if isinstance(shape.yoke, RaglanShape):
        yield from raglan_cautions(project, broken, shape.yoke)
    else:
        yield from _rules(project, broken, shape)


def _shoulders(project: Project, shape: Shape) -> Iterator[Finding]:
    yoke, per_cm = shape.yoke, shape.split.body.per_cm
    if shape.split.yoke < yoke.shoulder_wanted:
        unit = project.sheet.units
        yield caution(
            "yoke.narrow",
            "ease.chest",
            f"The yoke ends {length(shape.split.yoke / per_cm, unit)} round, and the shoulders "
            f"are {length(yoke.shoulder_wanted / per_cm, unit)}: it must stretch over them.",
            "Choose more ease, or know that you want it to cling.",
        )


def _percentage(project: Project, shape: Shape) -> Iterator[Finding]:
    """Tell which choices the percentage system does not ask."""
    if project.garment.yoke.proportions == "measured":
        return
    neck, unit = shape.neck.stitches, project.sheet.units
    if abs(neck.residual_cm) > PERCENTAGE_OFF_CM:
        yield caution(
            "yoke.percentage-neck",
            "garment.yoke.proportions",
            f"The percentage system makes the neck {length(neck.cm, unit)} round; your choice of "
            f"opening asks for {length(neck.wanted_cm, unit)}, which it does not heed.",
            'Write proportions = "measured" to have the neck you chose.',
        )
    body = shape.split.body
    if project.fixed.body is None and abs(body.residual_cm) > PERCENTAGE_OFF_CM:
        yield caution(
            "yoke.percentage-body",
            "garment.yoke.proportions",
            f"The percentage system does not go below {body.got} stitches for the body, which at "
            f"this gauge are {length(body.cm, unit)} round; your choice of ease asks for "
            f"{length(body.wanted_cm, unit)}.",
            'Write proportions = "measured" to have the ease you chose.',
        )


PERCENTAGE_OFF_CM = 3.0

_PINS_OF_LINE = ("increases", "increase_at", "yoke_rounds", "yoke")
"""Pins that decide the line of the yoke."""

_RULES = {
    "shoulder": (
        "{shoulder}",
        "Choose a deeper yoke, or more ease at the chest{or_band}.",
    ),
    "apart": (
        "Some increase rounds lie closer than three rounds and may read as a ridge.",
        'Choose garment.yoke.increases = "few", or a deeper yoke.',
    ),
    "fullness": (
        "{fullness}",
        "Choose another number of increase rounds, or another depth.",
    ),
    "steep": (
        "One increase round adds more than one stitch to every two; plain fabric may pucker there.",
        "Pin another count between, in fixed.increases, or take that line out.",
    ),
}


def _words(project: Project, shape: Shape) -> dict[str, str]:
    """Give what stands in the braces of the rules."""
    return {
        "shoulder": _at_shoulder(project, shape),
        "fullness": _full_where(shape),
        "or_band": "; or move the colour band near it up or down" if shape.yoke.bands else "",
    }


def _at_shoulder(project: Project, shape: Shape) -> str:
    """Say how wide the yoke is where the shoulders want it wider."""
    yoke, per_cm, unit = shape.yoke, shape.split.body.per_cm, project.sheet.units
    where = f"At the point of the shoulders, in round {yoke.shoulder_round} of the yoke,"
    there = length(yoke.stitches_at(yoke.shoulder_round) / per_cm, unit)
    wanted = length(yoke.shoulder_wanted / per_cm, unit)
    if yoke.bands or there == wanted:
        return f"{where} it does not yet go round them."
    return f"{where} it measures {there}, and they are {wanted}: it does not yet go round them."


def _full_where(shape: Shape) -> str:
    """Say where the yoke reaches its full count."""
    last, rounds = shape.yoke.last_increase, shape.yoke.rounds.got
    return (
        f"The last increase round is round {last} of {rounds}, {round(100 * last / rounds)} % of "
        "the way down; a yoke fits best when its last increase falls 60–80 % of the way down."
    )


def _rules(project: Project, broken: tuple[str, ...], shape: Shape) -> Iterator[Finding]:
    for rule in broken:
        message, remedy = (said.format(**_words(project, shape)) for said in _RULES[rule])
        own = [name for name in _PINS_OF_LINE if getattr(project.fixed, name)]
        if project.garment.yoke.proportions != "measured":
            remedy = 'Write garment.yoke.proportions = "measured"; the percentages are fixed.'
        elif own:
            remedy = f"That comes of your pins ({', '.join(own)}): choose others, or take them out."
        elif project.pattern is not None:
            remedy = (
                "That is how your pattern lies on this body at your gauge: follow another size, or "
                "pin counts or rounds of your own under [fixed]."
            )
        yield caution(f"yoke.{rule}", "garment.yoke.increases", message, remedy)
    steep = [s for s in shape.yoke.increase_rounds if 2 * s.increases > s.before]
    if steep and project.garment.yoke.proportions != "measured":
        yield caution(
            "yoke.steep",
            "garment.yoke.proportions",
            f"The percentage system adds {steep[0].increases} stitches to {steep[0].before} in "
            "one round, more than one in two; plain fabric may pucker there.",
            'That is how the system was published. proportions = "measured" avoids it.',
        )


def gauge_cautions(project: Project, finished: Finished, gauges: Gauges) -> Iterator[Finding]:
    """Give every caution about the swatch."""
    unit, plain = project.sheet.units, gauges.plain
    chest_cm = finished.body.chest_cm
    off_cm = plain.stitch_spread * chest_cm
    if off_cm > UNSURE_CM:
        yield caution(
            "gauge.unsure",
            "swatch.plain",
            f"Your stitch readings leave the chest uncertain by {length(off_cm, unit)} either way.",
            "Count again in two or three other places of the washed swatch, over a longer width.",
        )
    if not plain.in_the_round:
        yield caution(
            "gauge.flat",
            "swatch.plain.worked",
            "The swatch was knitted flat and the sweater is knitted in the round; one knitter "
            f"measured 4.5 % between them, which would be {length(0.045 * chest_cm, unit)} on "
            "this chest.",
            "Knit a swatch in the round, or measure the yoke early and often.",
        )


UNSURE_CM = 2.0
