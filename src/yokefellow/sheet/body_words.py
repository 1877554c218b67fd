"""What is said of the body's own shape: its markers, its sides, its darts."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.plan import Plan
from yokefellow.quantities import length
from yokefellow.shaping.darts import Dart
from yokefellow.shaping.shapes import Split

__all__ = ["darts", "is_in_the_middle", "marker", "sides", "turning"]

_GERMAN = (
    "After every turn, the first stitch is worked as a double stitch (DS): with the yarn in "
    "front, slip it, then pull the yarn up and over the needle to the back, so firmly that the "
    "stitch stands on two legs. It still counts as one. Then go on with what the row says."
)
_WRAPPED = (
    "At every turn, wrap the next stitch (w&t): yarn to the other side, slip the stitch, yarn "
    "back, return the stitch to the left needle, turn. Each row turns before it reaches "
    "an earlier wrap: none is met until {until}, which closes the gaps."
)


def turning(plan: Plan, until: str) -> str:
    """Tell how a short row is turned; `until` names the row that meets the turns."""
    wrapped = plan.project.garment.neck.wraps
    return _WRAPPED.format(until=until) if wrapped else _GERMAN


def is_in_the_middle(split: Split) -> bool:
    """Tell whether the marker of an underarm hangs in its middle."""
    return abs(split.underarm_front - split.underarm_back) <= 1


def marker(split: Split) -> str:
    """Say where the marker of an underarm hangs: between front and back."""
    if is_in_the_middle(split):
        return "Place a marker in their middle."
    return (
        "Place a marker between front and back, where the row says pm: "
        f"{split.underarm_front} of these stitches belong to the front and "
        f"{split.underarm_back} to the back."
    )


_EVENLY = "four stitches at a time, one on either side of each marker"
_APART = (
    "front and back each by itself: a stitch of the front beside each marker, or one of the back, "
    "or both, as the round says"
)
_SHAPES = {
    "a-line": "It widens at the sides, {how}.",
    "waist": "It is shaped at the sides, {how}: in to the waist, and out again to the hip.",
}


def sides(plan: Plan) -> str:
    """Say what becomes of the sides of the body."""
    growing = plan.shape.body.growing
    below = [c for c in plan.shape.body.changes if c.number > growing]
    evenly = all(change.front == change.back for change in below)
    said = []
    if growing:
        said.append(
            f"Down to row {plan.shape.body.row(growing)} the front grows at both its sides, "
            "a stitch beside each marker, to be wide enough for the fullest part."
        )
    if below and plan.finished.body.shape in _SHAPES:
        how = _EVENLY if evenly else _APART
        said.append(_SHAPES[plan.finished.body.shape].format(how=how))
    elif not plan.shape.body.darts:
        said.append("Every other round is knitted plain." if growing else _PLAIN)
    return " ".join(said)


_PLAIN = "Every round is knitted plain."


def darts(plan: Plan) -> Iterator[str]:
    """Say where short rows lie in the body, what they do, and how they are turned."""
    for dart in plan.shape.body.darts:
        yield _dart(plan, dart)
    if not plan.shape.body.darts:
        return
    yield turning(plan, "the row that goes on round to BOR and the round after it")
    yield (
        "At each k wrap, lift the wrap with the right needle, put it beside its stitch and knit "
        "the two together."
        if plan.project.garment.neck.wraps
        else "At each k DS, knit both legs of the double stitch together as one."
    )


def _dart(plan: Plan, dart: Dart) -> str:
    last = plan.shape.body.row(dart.number)
    reach = "outside the fullest points" if dart.half == "front" else "outside the shoulder blades"
    return (
        f"Rows {last - dart.rows}–{last} are short rows over the {dart.half}, "
        f"{len(dart.turns)} pairs of them. They make the {dart.half} "
        f"{length(dart.cm, plan.project.sheet.units)} longer down its middle and leave the sides "
        "as they are. Each pair turns nearer to the middle than the one before, and the last "
        f"stays {reach}. Row {last} goes on all the way round to BOR, and the next round closes "
        "the gaps that are left."
    )
