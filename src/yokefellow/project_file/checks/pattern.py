"""What the numbers of a pattern say about each other, in all of its sizes together."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from dataclasses import replace

from yokefellow.findings import Finding, Mend, Severity, as_typed
from yokefellow.project_file.checks.pins import (
    Counted,
    agreeing,
    count_findings,
    neck_findings,
    no_lines,
    raglan_count_findings,
)
from yokefellow.project_file.models import Project
from yokefellow.project_file.pattern import BEST, Pattern, PatternSize, counts_of, same_size
from yokefellow.project_file.pins import OF_A_RAGLAN, torso
from yokefellow.words import found, words


def pattern_findings(project: Project) -> Iterator[Finding]:
    """Check every size of the pattern, and that the one to follow is there."""
    pattern, proportions = project.pattern, project.garment.yoke.proportions
    if pattern is None:
        return
    yield from _names(pattern)
    for number, size in enumerate(pattern.sizes, start=1):
        table = f"pattern.sizes[{number}]"
        yield from _contradictions(size, table, project)
        yield from _held(size, table)
        if _is_empty(size):
            yield found("pattern.nothing", Severity.ERROR, table, size=size.size)
    if proportions != "measured":
        yield found(
            "pattern.percentage",
            Severity.ERROR,
            "pattern",
            mends=(Mend("garment.yoke.proportions", '"measured"'),),
            proportions=proportions,
        )
    front = project.garment.neck.front
    # A front worked flat has rows of the pattern's own that its counts do not tell.
    if project.garment.yoke.style == "raglan" and front != "level":
        mend = Mend("garment.neck.front", '"level"')
        yield found("pattern.open-front", Severity.ERROR, mend.field, mends=(mend,), front=front)
    if not pattern.stitches and any(size.body is None and size.chest for size in pattern.sizes):
        yield found("pattern.no-gauge", Severity.ERROR, "pattern.stitches", unit=project.unit)


def _is_empty(size: PatternSize) -> bool:
    """Tell whether nothing gives the chest of a size."""
    fixed = counts_of(size)
    decided = agreeing(Counted(fixed.yoke, fixed.body, fixed.sleeve, fixed.underarm))
    return fixed.body is None and size.chest is None and "body" not in decided


def _names(pattern: Pattern) -> Iterator[Finding]:
    names = [size.size for size in pattern.sizes]
    for number, name in enumerate(names, start=1):
        if any(same_size(name, earlier) for earlier in names[: number - 1]):
            field = f"pattern.sizes[{number}].size"
            yield found("pattern.twice", Severity.ERROR, field, size=name)
    wanted = pattern.follow
    if wanted.casefold() != BEST and not any(same_size(wanted, name) for name in names):
        near = difflib.get_close_matches(wanted, names, n=1)
        meant = as_typed(near[0]) if near else ""
        yield found(
            "pattern.no-size",
            Severity.ERROR,
            "pattern.follow",
            mends=(Mend("pattern.follow", meant),) if meant else (),
            wanted=as_typed(wanted),
            sizes=tuple(names),
            best=BEST,
            meant=meant,
        )


def _held(size: PatternSize, table: str) -> Iterator[Finding]:
    """Compare the stitches held with the sleeve, or with the pieces of the yoke."""
    fixed, held = counts_of(size), size.held
    if held is None:
        return
    if fixed.sleeve is not None and fixed.underarm is not None:
        whole = held + fixed.underarm
        if whole != fixed.sleeve:
            yield found(
                "pattern.held",
                Severity.ERROR,
                f"{table}.held",
                size=size.size,
                held=held,
                underarm=fixed.underarm,
                whole=whole,
                sleeve=fixed.sleeve,
            )
    both = torso(fixed)
    if both is not None and fixed.yoke is not None and both + 2 * held != fixed.yoke:
        yield found(
            "pattern.held",
            Severity.ERROR,
            f"{table}.held",
            sentence="held_of_the_yoke",
            size=size.size,
            front=size.front,
            back=size.back,
            held=held,
            whole=both + 2 * held,
            yoke=fixed.yoke,
        )


def _contradictions(size: PatternSize, table: str, project: Project) -> Iterator[Finding]:
    """Tell what the counts of one size contradict, and which of them may be another count."""
    fixed = counts_of(size)
    findings = [*count_findings(fixed, table), *neck_findings(fixed, table)]
    shares = [name for name in OF_A_RAGLAN if getattr(size, name) is not None]
    if project.garment.yoke.style == "raglan":
        findings += raglan_count_findings(fixed, table)
    elif shares:
        findings.append(no_lines(table, shares))
    sentences = words("findings/pattern")
    for finding in findings:
        whole = _perhaps_held(size) if finding.code == "fixed.equation" else None
        values = {"size": size.size, "finding": finding, "held": size.sleeve, "whole": whole}
        yield replace(
            finding,
            mends=(Mend(f"{table}.sleeve", f"{whole}"),) if whole else finding.mends,
            message=sentences.of_one_size(**values),
            remedy=sentences.of_one_size_remedy(**values),
        )


def _perhaps_held(size: PatternSize) -> int | None:
    """Give the whole sleeve, where it agrees that the one typed is without its underarm."""
    if size.sleeve is None or size.underarm is None:
        return None
    whole = size.sleeve + size.underarm
    fixed = counts_of(size)
    others = agreeing(Counted(fixed.yoke, fixed.body, whole, fixed.underarm))
    return whole if others.get("yoke") == fixed.yoke else None
