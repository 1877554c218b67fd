"""A pattern followed: the size, its counts as pins, its rounds at the knitter's row gauge.

The rounds of a pattern's yoke at another row gauge.

Its increase rounds stay as deep below the neckband as the pattern has them.
Where that would leave less plain work before the split than a yoke needs, all
of them move up together, in proportion. What the yoke is then longer or
shorter is made up in the plain stretches, the last of them before the split.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from yokefellow.body.measurements import Figures
from yokefellow.findings import Finding, Mend, PlanError, Severity
from yokefellow.fit import Finished
from yokefellow.gauge import Gauges, mean_per_cm
from yokefellow.pattern_sizes.sizes import SizeAt, chosen, sizes_at
from yokefellow.project_file.checks.pins import count_findings, neck_findings, raglan_count_findings
from yokefellow.project_file.models import Project
from yokefellow.project_file.pattern import Pattern
from yokefellow.project_file.pins import Fixed, pinned
from yokefellow.shaping import (
    FIRST_INCREASE,
    FULL_LATEST,
    LEAST_APART,
    Shape,
    edge_multiple,
    nearest,
)
from yokefellow.words import found, words


def moved(at: Sequence[int], *, ratio: float, printed: int | None, rounds: int) -> tuple[int, ...]:
    """Give the increase rounds of a yoke at the knitter's row gauge.

    Args:
        at: the pattern's increase rounds, in order.
        ratio: the knitter's rounds to the pattern's, over the same depth.
        printed: rounds of the pattern's yoke, where they are known.
        rounds: of the yoke as it will be knitted.

    >>> moved((2, 18, 35), ratio=1.0, printed=70, rounds=70)
    (2, 18, 35)
    >>> moved((2, 18, 35), ratio=1.2, printed=70, rounds=80)
    (2, 22, 42)
    """
    if not at:
        return ()
    scale = _scale(at, ratio=ratio, printed=printed, rounds=rounds, usual=FULL_LATEST)
    moved_to = [at[0] if at[0] <= 2 else nearest(at[0] * scale, least=2)]
    for early, late in pairwise(at):
        least = moved_to[-1] + min(LEAST_APART, late - early)
        moved_to.append(max(least, nearest(late * scale)))
    return tuple(moved_to)


def _scale(
    at: Sequence[int], *, ratio: float, printed: int | None, rounds: int, usual: float
) -> float:
    """Give the ratio, or less where the last increase would come too late."""
    own = at[-1] / printed if printed else usual
    latest = max(usual, own) * rounds
    return min(ratio, latest / at[-1])


def moved_along(
    at: Sequence[int], *, ratio: float, printed: int | None, rounds: int
) -> tuple[int, ...]:
    """Give the same of a raglan, which may increase in every round but the first, to the last.

    Args:
        at: the pattern's increase rounds, in order.
        ratio: the knitter's rounds to the pattern's, over the same depth.
        printed: rounds of the pattern's yoke, where they are known.
        rounds: of the yoke as it will be knitted; more than there are increase rounds.

    >>> moved_along((2, 4, 6, 8, 10), ratio=1.2, printed=10, rounds=12)
    (2, 5, 7, 10, 12)
    >>> moved_along((2, 4, 6, 8, 10), ratio=1.0, printed=10, rounds=8)
    (2, 3, 5, 6, 8)
    """
    if not at:
        return ()
    usual = 1.0 if printed is None else at[-1] / printed
    scale = _scale(at, ratio=ratio, printed=printed, rounds=rounds, usual=usual)
    moved_to: list[int] = []
    for left, number in enumerate(at, start=1 - len(at)):
        least = moved_to[-1] + 1 if moved_to else FIRST_INCREASE
        moved_to.append(min(rounds + left, max(least, nearest(number * scale))))
    return tuple(moved_to)


FIRST_FOLLOWED = 2
"""The earliest round that may increase where short rows leave gaps to close in the first."""


class Followed(NamedTuple):
    """The size that is followed."""

    pattern: Pattern
    sizes: tuple[SizeAt, ...]
    size: SizeAt
    best: SizeAt
    fixed: Fixed
    """Its counts, to be met exactly, and the knitter's own pins over them."""
    asked_depth_cm: float
    """Of the yoke, as this body needs it."""
    cast_on_off: int | None
    """What the pattern casts on, where the neckband's repeat does not divide it."""
    overruled: tuple[str, ...]
    """Counts of the pattern over which a pin of the knitter's own stands."""


def follow(
    project: Project, figures: Figures, finished: Finished, gauges: Gauges
) -> Followed | None:
    """Choose the size to follow; None where the project holds no pattern.

    Raises:
        PlanError: the knitter's own pins contradict the size.
    """
    pattern = project.pattern
    if pattern is None:
        return None
    sizes = sizes_at(
        pattern,
        finished,
        gauges.plain,
        body_cm=figures.cm("chest"),
        arm_cm=figures.cm("upper_arm"),
    )
    size, best = chosen(pattern, sizes)
    counts = _at_her_rows(size, project, pattern, finished, gauges)
    if counts.increase_at and project.garment.neck.back_raise != "none":
        at = (max(FIRST_FOLLOWED, counts.increase_at[0]), *counts.increase_at[1:])
        counts = counts.model_copy(update={"increase_at": at})
    repeat = edge_multiple(project.garment.neck)
    cast_on = size.size.cast_on
    if cast_on is not None and cast_on % repeat == 0:
        counts = counts.model_copy(update={"cast_on": cast_on})
    own = {name: getattr(project.fixed, name) for name in pinned(project.fixed)}
    overruled = tuple(name for name in own if getattr(counts, name) not in (None, (), own[name]))
    counts = counts.model_copy(update=own)
    _refuse(counts, size, overruled, is_raglan=project.garment.yoke.style == "raglan")
    return Followed(
        pattern=pattern,
        sizes=sizes,
        size=size,
        best=best,
        fixed=counts,
        asked_depth_cm=finished.yoke.depth_cm,
        cast_on_off=cast_on if cast_on is not None and cast_on % repeat else None,
        overruled=overruled,
    )


def with_counts(project: Project, followed: Followed | None) -> Project:
    """Give the project with the counts of the size that is followed as its pins."""
    return project if followed is None else project.model_copy(update={"fixed": followed.fixed})


def _refuse(counts: Fixed, size: SizeAt, overruled: tuple[str, ...], *, is_raglan: bool) -> None:
    """End the stage when the knitter's own pins contradict the pattern's other counts."""
    if not overruled:
        return
    findings = [*count_findings(counts, "fixed")]
    if is_raglan:
        findings += (*neck_findings(counts, "fixed"), *raglan_count_findings(counts, "fixed"))
    if findings:
        sentences = words("findings/pattern")
        raise PlanError(
            dataclasses.replace(
                finding,
                message=sentences.overruled(size=size.size.size, pins=overruled, finding=finding),
            )
            for finding in findings
        )


def _crowded(
    size: SizeAt, times: int, last: int | None, rounds: int, *, keeps_depth: bool
) -> Finding:
    """Say that a yoke has no room for the increase rounds of the pattern, and what would give it.

    Args:
        size: of the pattern.
        times: its increase rounds.
        last: the round in which the last of them would fall; None where they have no room at all.
        rounds: of the yoke at the knitter's row gauge.
        keeps_depth: whether the yoke is already as deep as the pattern's.
    """
    return found(
        "pattern.crowded",
        Severity.ERROR,
        "pattern.depth",
        mends=() if keeps_depth else (Mend("pattern.depth", '"pattern"'),),
        size=size.size.size,
        times=times,
        last=last,
        rounds=rounds,
        keeps_depth=keeps_depth,
    )


def _at_her_rows(
    size: SizeAt, project: Project, pattern: Pattern, finished: Finished, gauges: Gauges
) -> Fixed:
    """Put the rounds of a size where they belong at the knitter's row gauge."""
    is_raglan = project.garment.yoke.style == "raglan"
    hers = gauges.plain.rounds_per_cm
    printed = size.size.yoke_rounds
    keeps_depth = pattern.depth == "pattern" and printed is not None
    ratio = hers / mean_per_cm(pattern.rounds) if pattern.rounds else None
    wanted = finished.yoke.depth_cm * hers
    if keeps_depth and printed is not None:
        wanted = printed * (1.0 if ratio is None else ratio)
    rounds = project.fixed.yoke_rounds or nearest(wanted, least=8)
    # Without a row gauge the pattern's rounds keep their share of the depth.
    scale = ratio or (rounds / printed if printed else 1.0)
    theirs = size.counts.increase_at
    times = max(len(theirs), len(size.counts.increases))
    if is_raglan and times >= rounds:
        raise PlanError([_crowded(size, times, None, rounds, keeps_depth=keeps_depth)])
    at = (moved_along if is_raglan else moved)(theirs, ratio=scale, printed=printed, rounds=rounds)
    if at and at[-1] > rounds and not project.fixed.increase_at:
        raise PlanError([_crowded(size, times, at[-1], rounds, keeps_depth=keeps_depth)])
    return size.counts.model_copy(
        update={"increase_at": at, "yoke_rounds": rounds if keeps_depth else None}
    )


@dataclass(frozen=True, slots=True)
class Stretch:
    """From one increase round of the pattern to the next, or on to the split."""

    first: int
    """Its first round in the yoke, from 1."""
    last: int
    """Its last round: the increase round it ends with, or the last before the split."""
    printed_first: int
    """The same by the pattern's own numbers."""
    printed_last: int | None
    """None where the pattern's rounds were not typed."""
    increase: int | None
    """Which increase round it ends with; None before the split."""
    count: int
    """Stitches at its end."""

    @property
    def more(self) -> int:
        """Rounds knitted here beyond the pattern's; fewer below zero."""
        if self.printed_last is None:
            return 0
        return (self.last - self.first) - (self.printed_last - self.printed_first)


def stretches(followed: Followed, shape: Shape) -> tuple[Stretch, ...]:
    """Give the stretches of the yoke beside the pattern's own; none where it has no places."""
    printed, steps = followed.size.size.increase_at, shape.yoke.increase_rounds
    if len(printed) != len(steps):
        return ()
    theirs: tuple[int | None, ...] = (0, *printed, followed.size.size.yoke_rounds)
    ours = (0, *(step.number for step in steps), shape.yoke.rounds.got)
    counts = (*(step.after for step in steps), shape.split.yoke)
    return tuple(
        Stretch(
            first=start + 1,
            last=end,
            printed_first=(their_start or 0) + 1,
            printed_last=their_end,
            increase=number if number <= len(steps) else None,
            count=count,
        )
        for number, ((start, end), (their_start, their_end), count) in enumerate(
            zip(pairwise(ours), pairwise(theirs), counts, strict=True), start=1
        )
        if end > start
    )
