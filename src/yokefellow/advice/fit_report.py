"""The fit, height by height: body, garment, ease, and whether that is the fit that was chosen.

At chest and upper arm the fit itself says how much ease there may be
(`fit.ease`). Elsewhere the rule stands beside the height: what must pass or
cover the body needs as much as the fit's least, or nothing where that is
negative; what hangs free of the body may have any more (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from math import inf
from typing import NamedTuple

from yokefellow.advice.context import Desk
from yokefellow.advice.edge_widths import EdgeWidth, edge_widths
from yokefellow.body.size_tables import sizing_table
from yokefellow.fit.ease import ease_range_cm
from yokefellow.fit.lengths import arm_cm
from yokefellow.fit.trunk import trunk_cm
from yokefellow.shaping import BodyShape, SleeveShape


class Verdict(StrEnum):
    """How a height lies beside the fit that was chosen."""

    INSIDE = "as chosen"
    TIGHT = "tighter"
    LOOSE = "looser"
    FREE = "hangs free"
    """Wider than the body there, as its shape has it."""


class FitLine(NamedTuple):
    """One height."""

    key: str
    """`neck`, `shoulder`, `high_chest`, `chest`, `waist`, `hip`, `hem`, `upper_arm`, `elbow`,
    `cuff`."""
    body_cm: float
    filled: bool
    """Whether any of the body's numbers there comes from a table."""
    garment_cm: float
    least_cm: float
    """Of ease."""
    most_cm: float
    """Of ease; infinite where it may hang free."""
    at_cm: float
    """Below the underarm, along body or sleeve; 0 above it."""
    verdict: Verdict
    edge: EdgeWidth | None = None
    """How wide the edge lies that ends there, at rest and stretched."""

    @property
    def ease_cm(self) -> float:
        """How much larger the garment is."""
        return self.garment_cm - self.body_cm


TOLERANCE_CM = 1.0
"""Half a centimetre at each side is within the measuring (common practice),"""
TOLERANCE_STITCHES = 2.5
"""and so is what whole stitches may miss, changed four at a time."""
HIP_STRETCH = 0.03
"""A ribbed edge a few hundredths narrower than the hips still lies well (common practice)."""


def slack_cm(stitches_per_cm: float) -> float:
    """Give what a girth may miss its ease by and still be as chosen."""
    return max(TOLERANCE_CM, TOLERANCE_STITCHES / stitches_per_cm)


def fit_report(desk: Desk) -> tuple[FitLine, ...]:
    """Give every height from the neck to the hem, and down the sleeve to its edge."""
    widths = edge_widths(desk.figures, desk.finished, desk.gauges, desk.shape)
    lines = (*_above(desk), *_trunk(desk), *_sleeve(desk))
    edges = {"neck": widths.neck, "hem": widths.hem, lines[-1].key: widths.cuff}
    # The last line is the sleeve's edge; one to the elbow has no other line of that name.
    return tuple(_with_edge(line, edges.get(line.key)) for line in lines)


def _with_edge(line: FitLine, width: EdgeWidth | None) -> FitLine:
    """Add how wide its edge lies: one that grips at rest is tighter than was chosen."""
    if width is None:
        return line
    verdict = Verdict.TIGHT if width.grips else line.verdict
    return line._replace(edge=width, verdict=verdict)


def _line(
    desk: Desk,
    key: str,
    body_cm: float,
    garment_cm: float,
    bounds: tuple[float, float],
    *,
    names: tuple[str, ...],
    at_cm: float = 0.0,
    free: bool = False,
) -> FitLine:
    """Judge one height; `names` are the body's measures it rests on."""
    least, most = bounds
    slack = slack_cm(desk.plain.stitches_per_cm)
    ease = garment_cm - body_cm
    if ease < least - slack:
        verdict = Verdict.TIGHT
    elif ease > most + slack:
        verdict = Verdict.FREE if free else Verdict.LOOSE
    else:
        verdict = Verdict.INSIDE
    filled = not all(desk.figures.is_measured(name) for name in names)
    return FitLine(key, body_cm, filled, garment_cm, least, most, at_cm, verdict)


def _above(desk: Desk) -> Iterator[FitLine]:
    """The neck is judged by the opening that was asked; the shoulders must be covered."""
    figures, shape = desk.figures, desk.shape
    neck = figures.cm("neck")
    edge = shape.neck.edge
    asked = edge.wanted_cm - neck
    yield _line(desk, "neck", neck, edge.cm, (asked, asked), names=("neck",))
    number = shape.yoke.shoulder_round
    around = shape.yoke.stitches_at(number) / desk.gauge_at(number).stitches_per_cm
    least, _ = ease_range_cm(desk.project.ease.chest)
    shoulder = figures.cm("shoulder_girth")
    yield _line(
        desk, "shoulder", shoulder, around, (min(0.0, least), inf), names=("shoulder_girth",)
    )


def _trunk(desk: Desk) -> Iterator[FitLine]:
    figures, project, body = desk.figures, desk.project, desk.shape.body
    bounds = ease_range_cm(project.ease.chest)
    split = desk.shape.split.body.cm
    high = figures.own_cm("high_chest")
    if high is not None:
        yield _line(desk, "high_chest", high, split, bounds, names=("high_chest",), free=True)
    chest = body.fullest.cm if body.fullest else split
    at = desk.finished.body.bust.at_cm
    yield _line(desk, "chest", figures.cm("chest"), chest, bounds, names=("chest",), at_cm=at)
    waist_at, hip_at = desk.finished.body.waist_at_cm, desk.finished.body.hip_at_cm
    shaped = project.garment.body.shape == "waist"
    for key, below_cm in (("waist", waist_at), ("hip", hip_at)):
        if below_cm < body.rounds.cm:
            free = key == "hip" or not shaped
            yield _below(desk, key, below_cm, names=(key,), free=free)
    yield _below(desk, "hem", body.rounds.cm, names=_reached(desk), free=True)


def _below(desk: Desk, key: str, at_cm: float, *, names: tuple[str, ...], free: bool) -> FitLine:
    least, most = ease_range_cm(desk.project.ease.chest)
    girth = trunk_cm(desk.figures, desk.finished.body, at_cm)
    # Below the waist the body goes by the hips, which a knitted edge may cling to a little.
    least = min(least, 0.0) - (HIP_STRETCH * girth if key in ("hip", "hem") else 0.0)
    garment = body_at_cm(desk.shape.body, at_cm)
    return _line(desk, key, girth, garment, (least, most), names=names, at_cm=at_cm, free=free)


def _reached(desk: Desk) -> tuple[str, ...]:
    """Name the measures between which the body ends."""
    below_waist = desk.shape.body.rounds.cm > desk.finished.body.waist_at_cm
    return ("waist", "hip") if below_waist else ("chest", "waist")


def body_at_cm(body: BodyShape, at_cm: float) -> float:
    """Give the girth of the knitted body so far below the underarm, above its hem."""
    done = int(at_cm * body.rounds.per_cm)
    first = body.edge.got - body.around(0, body.rounds.got)
    return body.around(first, done) / body.edge.per_cm


def sleeve_at_cm(sleeve: SleeveShape, top: int, at_cm: float) -> float:
    """Give the girth of the knitted sleeve so far below the underarm, above its cuff."""
    return sleeve.around(top, int(at_cm * sleeve.rounds.per_cm)) / sleeve.per_cm


ENDS_THERE = 0.06
"""A sleeve that ends within this share of the arm from the elbow ends at the elbow."""


def _sleeve(desk: Desk) -> Iterator[FitLine]:
    figures, shape, sleeve = desk.figures, desk.shape, desk.finished.sleeve
    bounds = ease_range_cm(desk.project.ease.upper_arm, arm=True)
    yield _line(
        desk,
        "upper_arm",
        figures.cm("upper_arm"),
        shape.split.sleeve.cm,
        bounds,
        names=("upper_arm",),
    )
    elbow = sizing_table(figures.group).elbow_share
    least = min(0.0, bounds[0])
    if sleeve.share > elbow + ENDS_THERE:
        at = elbow * figures.cm("arm_length")
        garment = sleeve_at_cm(shape.sleeve, shape.split.sleeve.got, at)
        names = ("elbow",)
        yield _line(
            desk, "elbow", figures.cm("elbow"), garment, (least, inf), names=names, at_cm=at
        )
    ends_at_elbow = abs(sleeve.share - elbow) <= ENDS_THERE
    body = figures.cm("elbow") if ends_at_elbow else arm_cm(figures, sleeve.share)
    asked = sleeve.edge_cm - body
    yield _line(
        desk,
        "elbow" if ends_at_elbow else "cuff",
        body,
        shape.sleeve.edge.cm,
        (least, max(asked, bounds[1])),
        names=_arm_names(sleeve.share, elbow),
        at_cm=sleeve.length_cm,
        free=False,
    )


def _arm_names(share: float, elbow: float) -> tuple[str, ...]:
    """Name the measures of the arm between which a sleeve ends."""
    if share <= elbow - ENDS_THERE:
        return ("upper_arm", "elbow") if share > 0.2 else ("upper_arm",)
    if share <= elbow + ENDS_THERE:
        return ("elbow",)
    return ("wrist",) if share >= 1.0 else ("forearm", "wrist")
