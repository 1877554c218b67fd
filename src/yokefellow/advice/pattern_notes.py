"""What following a pattern at another gauge comes to, and what it leaves to be desired."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.advice.context import caution
from yokefellow.findings import Finding, Severity
from yokefellow.pattern_sizes.follow import Followed
from yokefellow.project_file.models import Project
from yokefellow.quantities import length
from yokefellow.shaping import Shape

FAR = 0.03
"""A chest this share off the one asked for is told as a caution (our choice)."""

NECK_OFF_CM = 3.0
"""The same for the neck edge, in cm."""

_WORDS = {
    "neck": "the neck",
    "increases": "the counts of its increase rounds",
    "increase_at": "the places of its increase rounds",
    "yoke": "the end of its yoke",
    "body": "the body",
    "sleeve": "the sleeve",
    "underarm": "the underarm",
}


def pattern_notes(project: Project, followed: Followed, shape: Shape) -> Iterator[Finding]:
    """Give what is to be known of the size that is followed."""
    yield from _size(project, followed)
    yield from _neck(project, followed, shape)
    yield from _cast_on(followed, shape)
    yield from _missing(followed)
    yield from _row_gauge(followed)
    if followed.overruled:
        pins = ", ".join(followed.overruled)
        yield _note(
            "pattern.own-pins",
            "fixed",
            f"Your own pins stand over your pattern's numbers: {pins}.",
            "Take them out of [fixed] to have the pattern's.",
        )


def _note(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.NOTE, field, message, remedy)


def _off(cm: float, unit_words: str) -> str:
    if unit_words.startswith("0 "):
        return "what you want"
    return f"{unit_words} {'more' if cm > 0 else 'less'} than you want"


def _size(project: Project, followed: Followed) -> Iterator[Finding]:
    unit, size, best = project.sheet.units, followed.size, followed.best
    off = _off(size.off_cm, length(abs(size.off_cm), unit))
    said = (
        f"Size {size.size.size}: at your gauge its body of {size.counts.body} stitches is "
        f"{length(size.chest_cm, unit)} round, {off}."
    )
    if size is not best:
        yield caution(
            "pattern.not-nearest",
            "pattern.follow",
            said,
            f"Size {best.size.size} comes nearer: {length(best.chest_cm, unit)}. Write "
            f'follow = "{best.size.size}", or "best".',
        )
    elif abs(size.off_cm) > FAR * size.chest_cm:
        yield caution(
            "pattern.far",
            "pattern.follow",
            f"{said} No other size comes nearer.",
            "Swatch on another needle, choose another ease at the chest, or pin a body of your "
            "own under [fixed].",
        )
    else:
        yield _note(
            "pattern.size",
            "pattern.follow",
            f"{said} Of all the sizes it comes nearest.",
            "Follow it for every count up to the split, whatever size you usually knit.",
        )


def _neck(project: Project, followed: Followed, shape: Shape) -> Iterator[Finding]:
    unit, neck = project.sheet.units, shape.neck.stitches
    if followed.size.counts.neck != neck.got or abs(neck.residual_cm) <= NECK_OFF_CM:
        return
    yield caution(
        "pattern.neck",
        "pattern",
        f"The pattern's neck of {neck.got} stitches is {length(neck.cm, unit)} round at your "
        f"gauge, {_off(neck.residual_cm, length(abs(neck.residual_cm), unit))}.",
        f"It can be so; or pin a neck of about {round(neck.wanted)} stitches under [fixed].",
    )


def _cast_on(followed: Followed, shape: Shape) -> Iterator[Finding]:
    theirs = followed.cast_on_off
    if theirs is None or "cast_on" in followed.overruled:
        return
    neck = shape.neck
    yield caution(
        "pattern.cast-on",
        "garment.neck.rib",
        f"Your pattern casts on {theirs}, which the repeat of this neckband, {neck.band.multiple} "
        "stitches, does not divide; "
        f"{neck.band_stitches} are cast on here, and the last round of the neckband goes to "
        f"{neck.stitches.got}.",
        "Choose the neckband your pattern has, or leave it so.",
    )


def _missing(followed: Followed) -> Iterator[Finding]:
    """Tell what was computed, and what no number of the pattern says."""
    size, counts = followed.size.size, followed.size.counts
    for name in followed.size.computed:
        from_chest = name == "body" and counts.yoke is None
        source = (
            "the chest and the gauge your pattern prints"
            if from_chest
            else "the rest: Y = (B − 2U) + 2(S − U)"
        )
        yield _note(
            "pattern.computed",
            f"pattern.sizes[{_number(followed)}].{name}",
            f"Size {size.size} has no {name} typed; {getattr(counts, name)} was computed from "
            f"{source}.",
            "Compare it with your pattern, if it stands there.",
        )
    free = [words for name, words in _WORDS.items() if getattr(counts, name) in (None, ())]
    if free:
        yield _note(
            "pattern.free",
            f"pattern.sizes[{_number(followed)}]",
            f"Size {size.size} does not say {_listed(free)}; this is chosen as for any sweater, "
            "around what it does say.",
            "Type it, if your pattern has it.",
        )


def _number(followed: Followed) -> int:
    return followed.sizes.index(followed.size) + 1


def _listed(words: list[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def _row_gauge(followed: Followed) -> Iterator[Finding]:
    size, pattern = followed.size.size, followed.pattern
    if size.increase_at and not pattern.rounds:
        known = size.yoke_rounds is not None
        yield caution(
            "pattern.no-row-gauge",
            "pattern.rounds",
            "Without your pattern's row gauge it is not known how deep its rounds lie; its "
            "increase rounds are put "
            + (
                "at the same share of the depth as it has them."
                if known
                else "at the rounds it names, whatever your row gauge."
            ),
            "Type its row gauge under [pattern], as rounds.",
        )
