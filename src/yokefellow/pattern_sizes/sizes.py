"""What each printed size becomes at the knitter's gauge, and which comes nearest."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from yokefellow.fit import Finished
from yokefellow.gauge import Gauge, mean_per_cm
from yokefellow.project_file.checks.pins import Counted, agreeing
from yokefellow.project_file.pattern import BEST, Pattern, PatternSize, counts_of, same_size
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping import nearest


class SizeAt(NamedTuple):
    """One size of the pattern at the knitter's gauge; None where its numbers do not say."""

    size: PatternSize
    counts: Fixed
    """Its counts, those that follow from the others computed."""
    computed: tuple[str, ...]
    """Which of them were computed."""
    chest_cm: float
    ease_cm: float
    """Of the chest, on this body."""
    off_cm: float
    """How much wider the chest is than was asked for."""
    upper_arm_cm: float | None
    arm_ease_cm: float | None
    neck_cm: float | None
    printed_chest_cm: float | None
    """At the pattern's own gauge, or as it prints it."""
    depth_cm: float | None
    """Of its yoke as printed, round for round, at the knitter's row gauge."""
    own_depth_cm: float | None
    """Of its yoke at the pattern's own row gauge."""


def sizes_at(
    pattern: Pattern, finished: Finished, plain: Gauge, *, body_cm: float, arm_cm: float
) -> tuple[SizeAt, ...]:
    """Give every size of the pattern as it comes out at this gauge.

    Args:
        pattern: with sizes that contradict nothing.
        finished: what is asked for.
        plain: the knitter's gauge.
        body_cm: round the chest of the body.
        arm_cm: round the upper arm of the body.
    """
    return tuple(
        _at(size, pattern, finished, plain, body_cm=body_cm, arm_cm=arm_cm)
        for size in pattern.sizes
    )


def _at(
    size: PatternSize,
    pattern: Pattern,
    finished: Finished,
    plain: Gauge,
    *,
    body_cm: float,
    arm_cm: float,
) -> SizeAt:
    counts, computed = _completed(size, pattern)
    per_cm = plain.stitches_per_cm
    body = counts.body or 0
    around_cm = None if counts.sleeve is None else counts.sleeve / per_cm
    theirs = mean_per_cm(pattern.stitches) if pattern.stitches else None
    rows = mean_per_cm(pattern.rounds) if pattern.rounds else None
    return SizeAt(
        size=size,
        counts=counts,
        computed=computed,
        chest_cm=body / per_cm,
        ease_cm=body / per_cm - body_cm,
        off_cm=body / per_cm - finished.body.chest_cm,
        upper_arm_cm=around_cm,
        arm_ease_cm=None if around_cm is None else around_cm - arm_cm,
        neck_cm=None if counts.neck is None else counts.neck / per_cm,
        printed_chest_cm=size.chest or (body / theirs if theirs else None),
        depth_cm=_share(size.yoke_rounds, plain.rounds_per_cm),
        own_depth_cm=_share(size.yoke_rounds, rows),
    )


def _share(rounds: int | None, per_cm: float | None) -> float | None:
    return None if rounds is None or per_cm is None else rounds / per_cm


def _completed(size: PatternSize, pattern: Pattern) -> tuple[Fixed, tuple[str, ...]]:
    """Compute what the other counts of a size decide: the fourth of the equation, and the body."""
    counts = counts_of(size)
    given = Counted(counts.yoke, counts.body, counts.sleeve, counts.underarm)
    found = {
        name: int(count)
        for name, count in agreeing(given).items()
        if getattr(counts, name) is None and count.denominator == 1
    }
    if counts.body is None and "body" not in found and size.chest and pattern.stitches:
        found["body"] = nearest(size.chest * mean_per_cm(pattern.stitches), multiple=2)
    return counts.model_copy(update=found), tuple(found)


def chosen(pattern: Pattern, sizes: Sequence[SizeAt]) -> tuple[SizeAt, SizeAt]:
    """Give the size to follow, and the one whose chest comes nearest; the larger of two as near."""
    best = min(sizes, key=lambda one: (round(abs(one.off_cm), 6), -one.chest_cm))
    if pattern.follow.casefold() == BEST:
        return best, best
    return next(one for one in sizes if same_size(one.size.size, pattern.follow)), best
