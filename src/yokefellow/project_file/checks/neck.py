"""What the choices of a neck say about each other, and about the yoke."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.findings import Finding, Severity
from yokefellow.project_file.models import Project
from yokefellow.quantities import show_length

DEEPEST_V_BAND_CM = 6.0
"""A deeper band has no room for its corner at the point of a V (common practice)."""


def neck_choice_findings(project: Project) -> Iterator[Finding]:
    """Check a front worked flat against what it needs, and name what it does not heed."""
    neck = project.garment.neck
    if neck.front == "level":
        yield from _unheeded_drop(project)
        return
    yield from _needs_a_raglan(project)
    if neck.cast_on == "provisional":
        yield _error(
            "neck.front-provisional",
            "garment.neck.cast_on",
            f'A "{neck.front}" front has its neckband picked up along its edges at the end, and '
            "they are no cast-on that could be opened again.",
            'Write garment.neck.cast_on = "plain": the band is worked last all the same.',
        )
    yield from _v_band(project)
    yield from _bands(project)
    yield from _pinned(project)
    if not isinstance(neck.back_raise, str):
        yield Finding(
            "neck.raise-in-depth",
            Severity.NOTE,
            "garment.neck.back_raise",
            f'A "{neck.front}" front lies lower than the back by its own drop, so no short rows '
            "raise the back; the raise is added to the depth of the yoke at the back.",
            "The line may stay, or be taken out.",
        )


def _error(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.ERROR, field, message, remedy)


def _unheeded_drop(project: Project) -> Iterator[Finding]:
    drop = project.garment.neck.drop
    if not isinstance(drop, str):
        yield Finding(
            "neck.no-drop",
            Severity.NOTE,
            "garment.neck.drop",
            f"A drop of {_say(drop, project)} is asked for, and the front is "
            '"level": its back is raised by back_raise instead.',
            'Write front = "scooped" or "V", or take the line out.',
        )


def _needs_a_raglan(project: Project) -> Iterator[Finding]:
    front, yoke = project.garment.neck.front, project.garment.yoke
    if yoke.style != "raglan":
        yield _error(
            "neck.front-circular",
            "garment.neck.front",
            f'A "{front}" front is worked flat while the yoke grows, and the increase rounds of '
            "a circular yoke go all the way round: cut open, each of them would have to be "
            "spread anew.",
            'Write garment.yoke.style = "raglan", or front = "level" with a wider opening.',
        )
    elif yoke.proportions != "measured":
        yield _error(
            "neck.front-percentage",
            "garment.neck.front",
            f'A "{front}" front needs a neck shared out by measure, and the proportions are '
            f'"{yoke.proportions}".',
            'Write garment.yoke.proportions = "measured", or front = "level".',
        )


def _pinned(project: Project) -> Iterator[Finding]:
    if project.fixed.cast_on is not None:
        yield _error(
            "neck.front-pinned",
            "fixed.cast_on",
            f"fixed.cast_on asks for {project.fixed.cast_on} stitches of the neckband, and the "
            f'band of a "{project.garment.neck.front}" front is picked up along its edges.',
            "Take fixed.cast_on out; fixed.neck may stay.",
        )


def _bands(project: Project) -> Iterator[Finding]:
    if project.garment.yoke.bands:
        yield _error(
            "neck.front-bands",
            "garment.neck.front",
            f'A "{project.garment.neck.front}" front and colour bands in the yoke are not planned '
            "together yet.",
            'Write front = "level", or leave the bands out of [garment.yoke].',
        )


def _v_band(project: Project) -> Iterator[Finding]:
    neck = project.garment.neck
    if neck.front != "V":
        return
    if neck.finish in ("folded", "high", "folded high"):
        yield _error(
            "neck.v-folded",
            "garment.neck.finish",
            f'A "{neck.finish}" band has no room for its corner at the point of a V: it would '
            "close up, or need a second corner inside.",
            'Write garment.neck.finish = "rib", "garter" or "rolled", or front = "scooped".',
        )
    if not isinstance(neck.band, str) and neck.band > DEEPEST_V_BAND_CM:
        most = _say(DEEPEST_V_BAND_CM, project)
        yield _error(
            "neck.v-band",
            "garment.neck.band",
            f"A band of {_say(neck.band, project)} closes up in the corner of a V; "
            f"it can be at most {most} deep.",
            f'Write a band of at most {most}, or front = "scooped".',
        )


def _say(cm: float, project: Project) -> str:
    return show_length(cm, unit=project.unit)
