"""What the measurements of a body say about each other: impossible, or unlikely.

Limits without a source named beside them are common practice; they are wide,
because a body is never a size: they catch the slip of the tape, not the body.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import inf
from types import MappingProxyType

from yokefellow.findings import Finding, Mend, Severity
from yokefellow.project_file.models import Body, Project
from yokefellow.quantities import CM_PER_INCH, LengthUnit, show_length
from yokefellow.words import found

HIGH_OVER_CHEST = 1.12
"""A round under the arms larger than this times the chest is a slip; a back may be that broad."""
HIGH_UNDER_CHEST = 0.7
"""One smaller than this is the ribs below the bust, or another body."""
FRONT_OF_CHEST = (0.4, 0.7)
"""What the front can have of the chest."""
LENGTHS_APART_CM = 20.0
"""Front and back this much apart in length are a slip of the tape."""
WAIST_OVER_CHEST = 1.25
"""A waist larger than this times the chest is more often a slip than a body."""
ARM_OVER_CHEST = 0.55
"""The largest upper arm in the sizing tables is 0.38 of the chest (babies, 3 months)."""
ADULT_ARM_OVER_CHEST = 0.45
"""The largest of an adult in the tables is 0.35 of the chest."""
TRUNK_OVER_CHEST = (0.55, 1.3)
"""Waist and hip as shares of the chest; in the tables they run from 0.78 to 1.19."""
_ADULT = frozenset({"women", "men"})
_CHESTS_CM = MappingProxyType(
    {"babies": (30, 70), "children": (42, 115), "women": (60, 200), "men": (60, 200)}
)
"""Wider by far than the tables: outside, a unit is wrong."""


def body_findings(project: Project) -> Iterator[Finding]:
    """Check the measurements of the body against each other and against the table's bodies."""
    body, unit = project.body, project.unit
    if body.chest is None and not project.wearer.size:
        yield no_chest(unit)
    if body.chest is not None:
        yield from _unit_of_chest(body.chest, project.wearer.table)
        yield from _beside_the_chest(body, body.chest, unit)
        adult = project.wearer.table in _ADULT
        yield from _arm(body, body.chest, unit, ADULT_ARM_OVER_CHEST if adult else ARM_OVER_CHEST)
        yield from _front(body, body.chest, unit)
    yield from _taper(body, unit)
    yield from _heights(body, unit)
    yield from _lengths(body, unit)
    yield from _points(body, unit)


def no_chest(unit: LengthUnit) -> Finding:
    """Say that neither a chest nor a size is given."""
    return found("body.no-chest", Severity.ERROR, "body.chest", unit=unit)


def _unit_of_chest(chest: float, table: str) -> Iterator[Finding]:
    """A chest that suits its table only when the tape is read in the other unit."""
    low, high = _CHESTS_CM[table]
    if low <= chest <= high:
        return
    in_inches = chest / CM_PER_INCH
    for read, meant, cm in (
        (f"{in_inches:.3g} in", f'"{in_inches:.3g} cm"', in_inches),
        (f"{chest:.3g} cm", f'"{chest:.3g} in"', chest * CM_PER_INCH),
    ):
        if low <= cm <= high:
            yield found(
                "body.chest-unit",
                Severity.CAUTION,
                "body.chest",
                mends=(Mend("body.chest", meant),),
                chest=read,
                table=table,
                meant=meant,
            )


def _beside_the_chest(body: Body, chest: float, unit: LengthUnit) -> Iterator[Finding]:
    shown = show_length(chest, unit=unit)
    high, waist, back = body.high_chest, body.waist, body.cross_back
    if high and not HIGH_UNDER_CHEST * chest <= high <= HIGH_OVER_CHEST * chest:
        yield found(
            "body.high-chest",
            Severity.CAUTION,
            "body.high_chest",
            high=show_length(high, unit=unit),
            chest=shown,
        )
    if waist and waist > WAIST_OVER_CHEST * chest:
        yield found(
            "body.waist-over-chest",
            Severity.CAUTION,
            "body.waist",
            waist=show_length(waist, unit=unit),
            chest=shown,
            most=f"{WAIST_OVER_CHEST:g}",
        )
    if back and back > chest / 2:
        yield found(
            "body.back-over-chest",
            Severity.CAUTION,
            "body.cross_back",
            back=show_length(back, unit=unit),
            chest=shown,
        )
    # A full bust may well be larger than the shoulders; the round above it is not.
    if body.shoulder_girth and body.shoulder_girth <= min(chest, high or inf):
        yield found(
            "body.shoulders-under-chest",
            Severity.CAUTION,
            "body.shoulder_girth",
            shoulders=show_length(body.shoulder_girth, unit=unit),
            chest=shown,
        )
    # No trunk is this much narrower: a number was misread, or is of another body.
    least, most = TRUNK_OVER_CHEST
    if waist and waist < least * chest:
        cm = show_length(waist, unit=unit)
        yield found("body.waist-and-chest", Severity.CAUTION, "body.waist", cm=cm, chest=shown)
    if body.hip and not least <= body.hip / chest <= most:
        cm = show_length(body.hip, unit=unit)
        yield found("body.hip-and-chest", Severity.CAUTION, "body.hip", cm=cm, chest=shown)
    if body.neck and body.neck >= chest:
        neck = show_length(body.neck, unit=unit)
        yield found("body.neck-over-chest", Severity.ERROR, "body.neck", neck=neck, chest=shown)


def _arm(body: Body, chest: float, unit: LengthUnit, most: float) -> Iterator[Finding]:
    arm = body.upper_arm
    if arm is None or arm < most * chest:
        return
    shown = show_length(arm, unit=unit)
    chest_shown = show_length(chest, unit=unit)
    if arm >= chest:
        yield found(
            "body.arm-over-chest",
            Severity.ERROR,
            "body.upper_arm",
            arm=shown,
            chest=chest_shown,
        )
    else:
        yield found(
            "body.arm-wide",
            Severity.CAUTION,
            "body.upper_arm",
            arm=shown,
            chest=chest_shown,
            share=f"{arm / chest:.0%}",
            most=f"{most:.0%}",
        )


def _taper(body: Body, unit: LengthUnit) -> Iterator[Finding]:
    """An arm grows no wider from the shoulder down; the elbow alone may, bent."""
    down = [name for name in ("upper_arm", "forearm", "wrist") if getattr(body, name) is not None]
    pairs = [*pairwise(down)]
    if body.elbow is not None and body.wrist is not None:
        pairs.append(("elbow", "wrist"))
    for above, below in pairs:
        above_cm, below_cm = getattr(body, above), getattr(body, below)
        if below_cm > above_cm:
            yield found(
                "body.arm-taper",
                Severity.ERROR,
                f"body.{below}",
                below=below.replace("_", " "),
                below_round=show_length(below_cm, unit=unit),
                above=above.replace("_", " "),
                above_round=show_length(above_cm, unit=unit),
            )
    if body.elbow is not None and body.upper_arm is not None and body.elbow > body.upper_arm:
        yield found(
            "body.elbow-over-arm",
            Severity.CAUTION,
            "body.elbow",
            elbow=show_length(body.elbow, unit=unit),
            arm=show_length(body.upper_arm, unit=unit),
        )


def _heights(body: Body, unit: LengthUnit) -> Iterator[Finding]:
    """The underarm lies above the waist, and the waist above the hip."""
    for upper, lower in (
        ("back_waist_length", "back_hip_length"),
        ("armhole_depth", "back_waist_length"),
        ("armhole_depth", "back_hip_length"),
        ("underarm_to_waist", "underarm_to_hip"),
    ):
        short, long = getattr(body, upper), getattr(body, lower)
        if short is not None and long is not None and short >= long:
            yield found(
                "body.heights",
                Severity.ERROR,
                f"body.{upper}",
                upper=upper.replace("_", " "),
                upper_length=show_length(short, unit=unit),
                lower=lower.replace("_", " "),
                lower_length=show_length(long, unit=unit),
            )


def _front(body: Body, chest: float, unit: LengthUnit) -> Iterator[Finding]:
    front = body.front_chest
    if front is None:
        return
    least, most = FRONT_OF_CHEST
    shown = show_length(front, unit=unit)
    if front >= chest:
        yield found(
            "body.front-over-chest",
            Severity.ERROR,
            "body.front_chest",
            front=shown,
            chest=show_length(chest, unit=unit),
        )
    elif not least * chest <= front <= most * chest:
        yield found(
            "body.front-of-chest",
            Severity.CAUTION,
            "body.front_chest",
            front=shown,
            share=f"{front / chest:.0%}",
            least=f"{least:.0%}",
            most=f"{most:.0%}",
        )


def _lengths(body: Body, unit: LengthUnit) -> Iterator[Finding]:
    front, back = body.front_length, body.back_length
    if (front is None) != (back is None):
        given, missing = ("back", "front") if front is None else ("front", "back")
        field = f"body.{given}_length"
        yield found("body.one-length", Severity.CAUTION, field, given=given, missing=missing)
    elif front is not None and back is not None and abs(front - back) > LENGTHS_APART_CM:
        yield found(
            "body.lengths-apart",
            Severity.CAUTION,
            "body.front_length",
            front=show_length(front, unit=unit),
            back=show_length(back, unit=unit),
            most=show_length(LENGTHS_APART_CM, unit=unit),
        )


def _points(body: Body, unit: LengthUnit) -> Iterator[Finding]:
    if body.bust_height and body.front_length and body.bust_height >= body.front_length:
        yield found(
            "body.bust-under-waist",
            Severity.ERROR,
            "body.bust_height",
            point=show_length(body.bust_height, unit=unit),
            waist=show_length(body.front_length, unit=unit),
        )
    across = body.front_chest or (body.chest and body.chest / 2)
    if body.bust_points and across and body.bust_points >= across:
        yield found(
            "body.points-over-front",
            Severity.ERROR,
            "body.bust_points",
            points=show_length(body.bust_points, unit=unit),
            front=show_length(across, unit=unit),
        )
