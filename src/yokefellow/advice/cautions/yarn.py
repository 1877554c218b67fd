"""Whether the yarn lasts, as far as can be known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from yokefellow.advice.context import caution
from yokefellow.findings import Finding
from yokefellow.project_file.models import Project
from yokefellow.quantities import in_hundred, yarn_length
from yokefellow.words import words
from yokefellow.yarn import MAIN, YarnEstimate, verdict_words


def yarn_cautions(
    project: Project, yarns: Mapping[str, YarnEstimate], *, begun: bool = False
) -> Iterator[Finding]:
    """Give every caution about the evidence and the stash.

    Args:
        project: the knitter's choices.
        yarns: the estimates, with what weighings taught once there are any.
        begun: whether the knitting is on its way, so that only what is still to come can change.
    """
    yield from _evidence(yarns[MAIN])
    for yarn in yarns.values():
        yield from _yarn(project, yarn, begun=begun)


ODD_EVIDENCE = (0.75, 1.35)
"""A stitch may cost so much of what its gauge lets expect; beyond, something was miscounted
(common practice, no source: four standard deviations of hand from machine knitting)."""


def _evidence(yarn: YarnEstimate) -> Iterator[Finding]:
    least, most = ODD_EVIDENCE
    if not least <= yarn.ratio <= most:
        measured = "weighed" if yarn.evidence == "weighed" else "unravelled"
        yield caution(
            "yarn.evidence-odd",
            f"swatch.plain.{measured}",
            f"By the swatch as {measured} a stitch takes {yarn.ratio:.0%} of the yarn that its "
            f"gauge lets expect; usual is {least:.0%} to {most:.0%}.",
            "Count its stitches and rounds again, and look at the ball's weight and length.",
        )


def _yarn(project: Project, yarn: YarnEstimate, *, begun: bool) -> Iterator[Finding]:
    if yarn.verdict == "enough":
        return
    unit = project.sheet.units
    have, least, most = (
        yarn_length(amount.metres, unit) for amount in (yarn.stash, yarn.need.low, yarn.need.high)
    )
    message = f"The stash holds {have} of {yarn.code}, and the sweater wants {least} to {most}. "
    message += verdict_words(yarn, unit, colour=project.yarn[yarn.code].colour)
    if yarn.verdict == "close":
        yield caution(
            "yarn.close",
            f"yarn.{yarn.code}.balls",
            f"{message} {words('yarn').caution(in_hundred=in_hundred(yarn.chance))}",
            _STILL_OPEN[yarn.code == MAIN] if begun else _surer(project, yarn),
        )
    else:
        yield caution(
            "yarn.short",
            f"yarn.{yarn.code}.balls",
            message,
            _STILL_OPEN[yarn.code == MAIN] if begun else _BEFORE[yarn.code == MAIN],
        )


_BEFORE = {
    True: "Shorten the sleeves or the body, or choose less ease, before casting on.",
    False: "Take another yarn for a band, or leave a band out, before casting on.",
}
_STILL_OPEN = {
    True: "Shorten the sleeves or the body, whichever is still to be knitted, and weigh again "
    "before you begin it.",
    False: "Take another yarn for a band that is still to be knitted, or leave that band out.",
}
"""What to do about the main yarn, and about another."""


def _surer(project: Project, yarn: YarnEstimate) -> str:
    """Say how to know more, or to need less."""
    if yarn.code != MAIN:
        return "Take another yarn for a band, or narrow or leave out a band, before casting on."
    if yarn.evidence == "gauge":
        return (
            "Weigh the swatch, count its stitches and rounds, and add [swatch.plain.weighed]: "
            "that narrows the range. Or shorten the sleeves or the body a little."
        )
    if project.weighing.swatch == "keep":
        return (
            "Shorten the sleeves or the body a little, or keep the swatch to unravel and write "
            'weighing.swatch = "unravel".'
        )
    return "Shorten the sleeves or the body a little."
