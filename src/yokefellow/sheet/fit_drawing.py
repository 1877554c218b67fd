"""Body and sweater over each other, from the front, to one scale.

One rule for both: every round, of a body as of a tube of knitting, is drawn
laid flat, half as wide as it is round. A body is not flat, so it looks broader
here than in a mirror; but the space between the two lines is the ease.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from yokefellow.fit.lengths import arm_cm
from yokefellow.fit.trunk import trunk_cm
from yokefellow.plan import Plan
from yokefellow.sheet.drawing import MARGIN, NARROWS, WIDE, Paper, front_edge, mirror, shoulder_of
from yokefellow.sheet.fit_pieces import FitDrawing
from yokefellow.sheet.outline import ACROSS_ARM, DOWN_ARM, Outline, Point, along, outline

__all__ = ["fit_drawing"]

RULE = (
    "Both are drawn by one rule: every round is laid flat, half as wide as it is round. So the "
    "gap between the two lines is, at each side, a quarter of the ease."
)
BELOW_HIP_CM = 6.0
"""How far the body is drawn below the hip."""
NECK_CM = 5.0
"""How far its neck is drawn upwards."""
HAND_CM = 8.0
"""And its hand below the wrist."""
ARCH = 0.12
"""How high the shoulder is arched, of its fall."""
STEPS = 12
"""Along the arm and the trunk."""


def fit_drawing(plan: Plan, said: Sequence[str]) -> FitDrawing:
    """Draw both outlines; `said` tells each height in words, for those who cannot see them."""
    o = outline(plan.shape)
    body = _body(plan)
    paper, height = _paper(o, body)
    return FitDrawing(
        view_box=f"0 0 {WIDE:.0f} {height:.0f}",
        body=" ".join(paper.line(side) for side in (body, tuple(map(mirror, body)))),
        garment=" ".join(_garment(paper, o)),
        title="Body and sweater from the front, one over the other, to scale",
        description=f"{'; '.join(said).capitalize()}.",
        rule=RULE,
    )


def _body(plan: Plan) -> tuple[Point, ...]:
    """Follow the right side of the body: neck, shoulder, arm down and up, trunk to the hip."""
    figures = plan.figures
    neck = figures.cm("neck") / 4
    armpit: Point = (_armpit_cm(plan) / 4, figures.cm("armhole_depth"))
    arm = tuple(_arm(plan, armpit))
    return (
        (neck, -NECK_CM),
        *_shoulder((neck, 0.0), arm[0]),
        *arm,
        *_trunk(plan, armpit[1]),
    )


def _shoulder(neck: Point, arm: Point) -> Iterator[Point]:
    """Go from neck to arm in a low arch: shoulders are round, as the sweater's are drawn."""
    for step in range(STEPS):
        share = step / STEPS
        arch = ARCH * arm[1] * 4 * share * (1 - share)
        yield neck[0] + share * (arm[0] - neck[0]), share * arm[1] - arch


def _armpit_cm(plan: Plan) -> float:
    high = plan.figures.own_cm("high_chest")
    return plan.figures.cm("chest") if high is None else high


def _arm(plan: Plan, armpit: Point) -> Iterator[Point]:
    figures = plan.figures
    long = figures.cm("arm_length")
    middle = along(armpit, ACROSS_ARM, figures.cm("upper_arm") / 4)
    shares = [step / STEPS for step in range(STEPS + 1)]
    halves = [(share * long, arm_cm(figures, share) / 4) for share in shares]
    # A hand is a little wider than the wrist above it.
    halves.append((long + HAND_CM, arm_cm(figures, 1.0) / 4 * 1.1))
    for far, half in halves:
        yield along(along(middle, DOWN_ARM, far), ACROSS_ARM, half)
    for far, half in reversed(halves):
        yield along(along(middle, DOWN_ARM, far), ACROSS_ARM, -half)


def _trunk(plan: Plan, top: float) -> Iterator[Point]:
    fit = plan.finished.body
    end = fit.hip_at_cm + BELOW_HIP_CM
    heights = {fit.bust.at_cm, *(step / STEPS * end for step in range(1, STEPS + 1))}
    for at in sorted(height for height in heights if height >= fit.bust.at_cm):
        yield trunk_cm(plan.figures, fit, at) / 4, top + at


def _paper(o: Outline, body: tuple[Point, ...]) -> tuple[Paper, float]:
    points = (*o.outer, *o.cuff, *o.body, *o.hem, o.sleeve_top, *body)
    right = max(x for x, _ in points) + 0.5
    top = min(-o.rise - o.band, *(y for _, y in body)) - 0.5
    scale = (WIDE - 2 * MARGIN) / (2 * right)
    bottom = max(y for _, y in points) + 0.5
    return Paper(scale, -right, top), 2 * MARGIN + (bottom - top) * scale


def _garment(paper: Paper, o: Outline) -> Iterator[str]:
    neck: Point = (o.neck, 0.0)
    top: Point = (o.neck * NARROWS, -o.band)
    for flip in (lambda point: point, mirror):
        yield paper.curve(flip(neck), flip(shoulder_of(o)), flip(o.sleeve_top))
        sleeve = (*o.outer, *o.cuff, *reversed(o.inner))
        yield paper.line(map(flip, sleeve))
        yield paper.line(map(flip, (*o.body, *o.hem)))
        yield paper.line(map(flip, (neck, top)))
    yield paper.line((mirror(o.hem[-1]), o.hem[-1]))
    yield paper.curve(mirror(top), (0, -o.rise - o.band), top)
    yield front_edge(paper, o, above=True)
    yield front_edge(paper, o)
