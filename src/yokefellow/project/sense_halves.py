"""What the measurements of front and back say about each other, and about the rest of the body.

Limits without a source named beside them are common practice; they are wide.
"""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.findings import Finding, Severity
from yokefellow.project.models import Project
from yokefellow.units import show_length

__all__ = ["half_findings"]

HIGH_OVER_CHEST = 1.12
"""A round under the arms larger than this times the chest is a slip; a back may be that broad."""
HIGH_UNDER_CHEST = 0.7
"""One smaller than this is the ribs below the bust, or another body."""
FRONT_OF_CHEST = (0.4, 0.7)
"""What the front can have of the chest."""
LENGTHS_APART_CM = 20.0
"""Front and back this much apart in length are a slip of the tape."""


def half_findings(project: Project) -> Iterator[Finding]:
    """Check the round under the arms, the front's width, the two lengths and the heights."""
    yield from _high_chest(project)
    yield from _front_chest(project)
    yield from _lengths(project)
    yield from _points(project)
    yield from _side_heights(project)


def _high_chest(project: Project) -> Iterator[Finding]:
    chest, high = project.body.chest, project.body.high_chest
    if chest is None or high is None:
        return
    if not HIGH_UNDER_CHEST * chest <= high <= HIGH_OVER_CHEST * chest:
        yield _caution(
            "body.high-chest",
            "body.high_chest",
            f"The round under the arms is {_say(high, project)} and the chest "
            f"{_say(chest, project)}; hardly any body has that.",
            "Measure it close under the arms and above the fullest part, the tape level.",
        )


def _front_chest(project: Project) -> Iterator[Finding]:
    chest, front = project.body.chest, project.body.front_chest
    if chest is None or front is None:
        return
    least, most = (share * chest for share in FRONT_OF_CHEST)
    if front >= chest:
        yield _error(
            "body.front-over-chest",
            "body.front_chest",
            f"The front is {_say(front, project)} across and the whole chest "
            f"{_say(chest, project)}; the front must be less.",
            "Measure across the front only, from the middle of one side to the other.",
        )
    elif not least <= front <= most:
        yield _caution(
            "body.front-of-chest",
            "body.front_chest",
            f"The front is {_say(front, project)} across, {front / chest:.0%} of the chest; "
            f"fronts have {FRONT_OF_CHEST[0]:.0%} to {FRONT_OF_CHEST[1]:.0%}.",
            "Measure across the front, from the middle of one side to the middle of the other.",
        )


def _lengths(project: Project) -> Iterator[Finding]:
    front, back = project.body.front_length, project.body.back_length
    if (front is None) != (back is None):
        given, missing = ("back", "front") if front is None else ("front", "back")
        yield _caution(
            "body.one-length",
            f"body.{given}_length",
            f"The {given} length is there and the {missing} length is not, and only the two "
            "together say how much longer one of them is.",
            f"Measure body.{missing}_length too: from the same place on the shoulder to the "
            "waist, with a string tied round it.",
        )
    elif front is not None and back is not None and abs(front - back) > LENGTHS_APART_CM:
        yield _caution(
            "body.lengths-apart",
            "body.front_length",
            f"The front is {_say(front, project)} long and the back {_say(back, project)}; more "
            f"than {_say(LENGTHS_APART_CM, project)} apart is more often a slip than a body.",
            "Measure both again, from the same place on the shoulder to the same string.",
        )


def _points(project: Project) -> Iterator[Finding]:
    body = project.body
    if body.bust_height and body.front_length and body.bust_height >= body.front_length:
        yield _error(
            "body.bust-under-waist",
            "body.bust_height",
            f"The fullest point lies {_say(body.bust_height, project)} below the shoulder and the "
            f"waist {_say(body.front_length, project)}; the first must be less.",
            "Measure both again, from the same place on the shoulder.",
        )
    across = body.front_chest or (body.chest and body.chest / 2)
    if body.bust_points and across and body.bust_points >= across:
        yield _error(
            "body.points-over-front",
            "body.bust_points",
            f"The fullest points are {_say(body.bust_points, project)} apart and the front "
            f"{_say(across, project)} across; they must be nearer.",
            "Measure from one point straight to the other.",
        )


def _side_heights(project: Project) -> Iterator[Finding]:
    body = project.body
    waist, hip = body.underarm_to_waist, body.underarm_to_hip
    if waist is not None and hip is not None and waist >= hip:
        yield _error(
            "body.heights",
            "body.underarm_to_waist",
            f"From the underarm it is {_say(waist, project)} to the waist and "
            f"{_say(hip, project)} to the hip; the first must be the shorter one.",
            "Measure both again, straight down the side.",
        )


def _error(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.ERROR, field, message, remedy)


def _caution(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.CAUTION, field, message, remedy)


def _say(cm: float, project: Project) -> str:
    return show_length(cm, unit=project.unit)
