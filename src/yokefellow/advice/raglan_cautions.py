"""Whether a raglan covers the shoulders, and is as deep as it was asked to be."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.advice.caution import caution
from yokefellow.findings import Finding
from yokefellow.project.models import Project
from yokefellow.shaping.shapes import RaglanShape
from yokefellow.wording import length

__all__ = ["raglan_cautions"]

DEPTH_OFF_CM = 1.5
"""A percentage raglan that misses the wanted depth by more is worth telling (our choice)."""


def raglan_cautions(
    project: Project, broken: tuple[str, ...], yoke: RaglanShape
) -> Iterator[Finding]:
    """Give every caution about a raglan's own line."""
    yield from _shoulder(project, broken, yoke)
    yield from _percentage_depth(project, yoke)


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
