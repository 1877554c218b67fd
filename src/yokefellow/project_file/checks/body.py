"""What two fields of a project say about each other: impossible, unlikely, or worth knowing.

Limits without a source named beside them are common practice; they are wide,
because a body is never a size: they catch the slip of the tape, not the body.

What the measurements of front and back say about each other, and about the rest of the body.

Limits without a source named beside them are common practice; they are wide.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise
from math import ceil, inf
from types import MappingProxyType

from yokefellow.findings import Finding, Mend, Severity, as_typed
from yokefellow.project_file.checks.bands import band_findings
from yokefellow.project_file.checks.neck import neck_choice_findings
from yokefellow.project_file.checks.pattern import pattern_findings
from yokefellow.project_file.checks.pins import fixed_findings
from yokefellow.project_file.checks.swatch import swatch_findings
from yokefellow.project_file.checks.yoke import raglan_findings
from yokefellow.project_file.measure_fields import length_of_band
from yokefellow.project_file.models import Project, Yarn
from yokefellow.quantities import CM_PER_INCH, LengthUnit, show_length

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


def _caution(
    code: str, field: str, message: str, remedy: str, mends: tuple[Mend, ...] = ()
) -> Finding:
    return Finding(code, Severity.CAUTION, field, message, remedy, mends)


def _say(cm: float, project: Project) -> str:
    return show_length(cm, unit=project.unit)


WAIST_OVER_CHEST = 1.25
"""A waist larger than this times the chest is more often a slip than a body."""
ARM_OVER_CHEST = 0.55
"""The largest upper arm in the sizing tables is 0.38 of the chest (babies, 3 months)."""
ADULT_ARM_OVER_CHEST = 0.45
"""The largest of an adult in the tables is 0.35 of the chest."""
TRUNK_OVER_CHEST = (0.55, 1.3)
"""Waist and hip as shares of the chest; in the tables they run from 0.78 to 1.19."""
USUAL_EASE_CM = (-4 * CM_PER_INCH, 12 * CM_PER_INCH)
_ADULT = frozenset({"women", "men"})
_CHESTS_CM = MappingProxyType(
    {"babies": (30, 70), "children": (42, 115), "women": (60, 200), "men": (60, 200)}
)
"""Wider by far than the tables: outside, a unit is wrong."""
METRES_PER_GRAM = (0.2, 25.0)
"""From a jumbo roving to a cobweb lace."""
G_PER_OUNCE = 28.349523125
"""Exact by definition (international yard and pound agreement, 1959)."""
MOST_OUNCES = 16.0
"""A number of ounces that one ball or cone may weigh: a pound (our choice)."""

_Check = Callable[[Project], Iterator[Finding]]


def sense(project: Project) -> tuple[Finding, ...]:
    """Check the fields of a project against each other.

    Returns:
        All findings, the errors first. Whether `wearer.size` stands in its
        table is checked where the tables are read; which yarns no band uses,
        where the charts are read.
    """
    found = [finding for check in _CHECKS for finding in check(project)]
    order = list(Severity)
    return tuple(sorted(found, key=lambda finding: order.index(finding.severity)))


def no_chest(unit: LengthUnit) -> Finding:
    """Say that neither a chest nor a size is given."""
    example = '"38 in"' if unit == "in" else '"96.5 cm"'
    return _error(
        "body.no-chest",
        "body.chest",
        "Neither the chest nor a size is given, and one of them is needed.",
        f'Type under [body]: chest = {example}, or under [wearer]: size = "M".',
    )


def _chest(project: Project) -> Iterator[Finding]:
    if project.body.chest is None and not project.wearer.size:
        yield no_chest(project.unit)


def _arm(project: Project) -> Iterator[Finding]:
    chest, arm = project.body.chest, project.body.upper_arm
    if chest is None or arm is None:
        return
    sizes = f"The upper arm is {_say(arm, project)} and the chest {_say(chest, project)}"
    if arm >= chest:
        yield _error(
            "body.arm-over-chest",
            "body.upper_arm",
            f"{sizes}; an upper arm must be smaller than the chest.",
            "Measure both again; perhaps the two numbers are exchanged, or a unit is wrong.",
        )
        return
    most = ADULT_ARM_OVER_CHEST if project.wearer.table in _ADULT else ARM_OVER_CHEST
    if arm >= most * chest:
        yield _caution(
            "body.arm-wide",
            "body.upper_arm",
            f"{sizes}; the arm is {arm / chest:.0%} of it, and {most:.0%} is more than nearly any.",
            "Measure the arm again: once round its widest part, the arm hanging.",
        )


_ARM_DOWN = ("upper_arm", "forearm", "wrist")


def _taper(project: Project) -> Iterator[Finding]:
    """An arm grows no wider from the shoulder down; the elbow alone may, bent."""
    known = [(name, cm) for name in _ARM_DOWN if (cm := getattr(project.body, name)) is not None]
    for (above, above_cm), (below, below_cm) in pairwise(known):
        if below_cm > above_cm:
            yield _error(
                "body.arm-taper",
                f"body.{below}",
                f"The {_name(below)} is {_say(below_cm, project)}, larger than the {_name(above)} "
                f"with {_say(above_cm, project)}; it must not be.",
                "Measure both again, each round its widest part.",
            )
    body = project.body
    if body.elbow is not None and body.wrist is not None and body.wrist > body.elbow:
        yield _error(
            "body.arm-taper",
            "body.wrist",
            f"The wrist is {_say(body.wrist, project)}, larger than the elbow with "
            f"{_say(body.elbow, project)}; it must not be.",
            "Measure both again.",
        )
    if body.elbow is not None and body.upper_arm is not None and body.elbow > body.upper_arm:
        yield _caution(
            "body.elbow-over-arm",
            "body.elbow",
            f"The elbow is {_say(body.elbow, project)}, larger than the upper arm with "
            f"{_say(body.upper_arm, project)}.",
            "Measure the elbow again, just above the bend and with the arm straight.",
        )


def _trunk(project: Project) -> Iterator[Finding]:
    body = project.body
    if body.chest and body.waist and body.waist > WAIST_OVER_CHEST * body.chest:
        yield _caution(
            "body.waist-over-chest",
            "body.waist",
            f"The waist is {_say(body.waist, project)} and the chest {_say(body.chest, project)}; "
            f"it is more than {WAIST_OVER_CHEST:g} times the chest.",
            "Measure both again; if they are right, choose the a-line shape.",
        )
    if body.chest and body.cross_back and body.cross_back > body.chest / 2:
        yield _caution(
            "body.back-over-chest",
            "body.cross_back",
            f"The back is {_say(body.cross_back, project)} across, more than half of the chest "
            f"({_say(body.chest, project)}).",
            "Measure from one shoulder point to the other, not round the back.",
        )
    # A full bust may well be larger than the shoulders; the round above it is not.
    upper = min(body.chest or inf, body.high_chest or inf)
    if body.chest and body.shoulder_girth and body.shoulder_girth <= upper:
        yield _caution(
            "body.shoulders-under-chest",
            "body.shoulder_girth",
            f"The shoulder girth is {_say(body.shoulder_girth, project)}, not larger than the "
            f"chest ({_say(body.chest, project)}).",
            "Measure it round the body and both upper arms, the arms hanging.",
        )
    yield from _narrow(project)
    yield from _neck(project)


def _narrow(project: Project) -> Iterator[Finding]:
    """A trunk is no hourglass of this kind: a number was misread, or is of another body."""
    body = project.body
    for name, most in (("waist", inf), ("hip", TRUNK_OVER_CHEST[1])):
        cm = getattr(body, name)
        if body.chest and cm and not TRUNK_OVER_CHEST[0] <= cm / body.chest <= most:
            yield _caution(
                f"body.{name}-and-chest",
                f"body.{name}",
                f"The {name} is {_say(cm, project)} and the chest {_say(body.chest, project)}; "
                "hardly any body has that.",
                "Measure both again, and look at the units.",
            )


def _unit_of_chest(project: Project) -> Iterator[Finding]:
    """A chest that suits its table only when the tape is read in the other unit."""
    chest, (low, high) = project.body.chest, _CHESTS_CM[project.wearer.table]
    if chest is None or low <= chest <= high:
        return
    for number, unit, cm in (
        (chest, "in", chest * CM_PER_INCH),
        (chest / CM_PER_INCH, "cm", chest / CM_PER_INCH),
    ):
        if low <= cm <= high:
            yield _caution(
                "body.chest-unit",
                "body.chest",
                f"The chest is {_say(chest, project)}, which no body of the table "
                f'"{project.wearer.table}" has.',
                f'Did you mean "{number:.3g} {unit}"? Or choose another table.',
            )


def _ease(project: Project) -> Iterator[Finding]:
    ease = project.ease.chest
    low, high = USUAL_EASE_CM
    if isinstance(ease, float) and not low <= ease <= high:
        yield _caution(
            "ease.unusual",
            "ease.chest",
            f"The ease at the chest is {_say(ease, project)}; sweaters have {_say(low, project)} "
            f"to {_say(high, project)}.",
            "Write how much larger than the body the sweater is, not its whole width.",
        )


def _neck(project: Project) -> Iterator[Finding]:
    body = project.body
    if body.neck and body.chest and body.neck >= body.chest:
        yield _error(
            "body.neck-over-chest",
            "body.neck",
            f"The neck is {_say(body.neck, project)} and the chest {_say(body.chest, project)}; "
            "a neck must be smaller than the chest.",
            "Measure round the base of the neck again.",
        )


def _heights(project: Project) -> Iterator[Finding]:
    """The underarm lies above the waist, and the waist above the hip."""
    for upper, lower in (
        ("back_waist_length", "back_hip_length"),
        ("armhole_depth", "back_waist_length"),
        ("armhole_depth", "back_hip_length"),
    ):
        short, long = getattr(project.body, upper), getattr(project.body, lower)
        if short is not None and long is not None and short >= long:
            yield _error(
                "body.heights",
                f"body.{upper}",
                f"The {_name(upper)} is {_say(short, project)} and the {_name(lower)} "
                f"{_say(long, project)}; the first must be the shorter one.",
                "Measure both again, straight down from the top.",
            )


def _yarn(project: Project) -> Iterator[Finding]:
    if "MC" not in project.yarn:
        yield _error(
            "yarn.no-main",
            "yarn",
            "There is no main colour among the yarns.",
            "Call the yarn of the sweater [yarn.MC].",
        )
    for name, yarn in project.yarn.items():
        yield from _put_up(name, yarn)
        yield from _balls(name, yarn)


def _put_up(name: str, yarn: Yarn) -> Iterator[Finding]:
    if yarn.length_as_typed:
        length, weight = length_of_band(yarn.length_as_typed), yarn.length_as_typed
        yield Finding(
            "yarn.length-of-band",
            Severity.NOTE,
            f"yarn.{name}.ball_length",
            f"Of {as_typed(weight)} the length was taken: {length}.",
            "Nothing needs to change; the weight stands under ball_weight.",
            (Mend(f"yarn.{name}.ball_length", f'"{length}"'),),
        )
    thin, thick = yarn.ball_length / yarn.ball_weight, METRES_PER_GRAM
    ounces_g = yarn.ball_weight * G_PER_OUNCE
    if yarn.ball_weight <= MOST_OUNCES and thin > thick[1] >= yarn.ball_length / ounces_g:
        ounces = f'"{yarn.ball_weight:g} oz"'
        yield _caution(
            "yarn.ounces",
            f"yarn.{name}.ball_weight",
            f"One ball weighs {yarn.ball_weight:g} g and is {yarn.ball_length:.0f} m long, finer "
            "than any knitting yarn. Is this ounces?",
            f"Did you mean ball_weight = {ounces}?",
            (Mend(f"yarn.{name}.ball_weight", ounces),),
        )
    elif not thick[0] <= thin <= thick[1]:
        yield _caution(
            "yarn.metres-per-gram",
            f"yarn.{name}.ball_length",
            f"One ball has {yarn.ball_length:.0f} m in {yarn.ball_weight:g} g, "
            f"{f'{thin:.0f}' if thin >= 1 else f'{thin:.2f}'} m to the gram; knitting yarn has "
            f"{thick[0]:g} to {thick[1]:g}.",
            "Look at the band again; perhaps weight and length are exchanged.",
        )


WEIGHED_APART = 0.1
"""The weights and the number of balls may differ by this share: a core, a gift."""


def _balls(name: str, yarn: Yarn) -> Iterator[Finding]:
    """The weights, the lots and the number of balls must speak of the same balls."""
    there = len(yarn.weights) or ceil(yarn.balls)
    if yarn.lots and len(yarn.lots) != there:
        yield _error(
            "yarn.lots-count",
            f"yarn.{name}.lots",
            f"There are {len(yarn.lots)} lots for {there} balls; each ball needs one.",
            'Name the lot of each ball in order, such as ["A", "A", "B"].',
        )
    by_weight = sum(yarn.weights) / yarn.ball_weight
    if yarn.weights and abs(by_weight - yarn.balls) > WEIGHED_APART * yarn.balls:
        yield _caution(
            "yarn.weights-apart",
            f"yarn.{name}.balls",
            f"The weights come to {by_weight:.3g} balls, and balls is {yarn.balls:g}; the weights "
            "are used.",
            "Take the line with balls out, or weigh again.",
        )


def _needles(project: Project) -> Iterator[Finding]:
    main, rib = project.needles.main, project.needles.rib
    if rib is not None and rib > main:
        yield _caution(
            "needles.rib-over-main",
            "needles.rib",
            f"The needle for the ribs is {rib:g} mm, larger than the main needle with {main:g} mm; "
            "the ribs will flare.",
            f"Take a smaller one, such as {max(main - 0.5, 1):g} mm.",
        )


def _name(field: str) -> str:
    return field.replace("_", " ")


_CHECKS: tuple[_Check, ...] = (
    _chest,
    _arm,
    _taper,
    _trunk,
    _unit_of_chest,
    _ease,
    _heights,
    half_findings,
    swatch_findings,
    _yarn,
    band_findings,
    fixed_findings,
    pattern_findings,
    raglan_findings,
    neck_choice_findings,
    _needles,
)
