"""What the numbers of a pattern say about each other, in all of its sizes together."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from dataclasses import replace

from yokefellow.findings import Finding, Severity, as_typed
from yokefellow.project_file.checks.pins import (
    Counted,
    agreeing,
    count_findings,
    neck_findings,
    raglan_count_findings,
)
from yokefellow.project_file.models import Project
from yokefellow.project_file.pattern import BEST, Pattern, PatternSize, counts_of, same_size
from yokefellow.project_file.pins import OF_A_RAGLAN, torso


def pattern_findings(project: Project) -> Iterator[Finding]:
    """Check every size of the pattern, and that the one to follow is there."""
    pattern = project.pattern
    if pattern is None:
        return
    yield from _names(pattern)
    for number, size in enumerate(pattern.sizes, start=1):
        table = f"pattern.sizes[{number}]"
        yield from _contradictions(size, table, project)
        yield from _held(size, table)
        if _is_empty(size):
            yield _error(
                "pattern.nothing",
                table,
                f"Size {size.size} has neither a body nor a chest, and nothing from which a body "
                "can be computed.",
                "Type at least body, the stitches right below the underarm.",
            )
    if project.garment.yoke.proportions != "measured":
        yield _error(
            "pattern.percentage",
            "pattern",
            f'The proportions are "{project.garment.yoke.proportions}", and that system gives the '
            "counts itself.",
            'Type under [garment.yoke]: proportions = "measured".',
        )
    yield from _open_front(project)
    if not pattern.stitches and any(size.body is None and size.chest for size in pattern.sizes):
        yield _error(
            "pattern.no-gauge",
            "pattern.stitches",
            "A size has a chest and no body, and without the pattern's stitch gauge the one does "
            "not give the other.",
            "Type under [pattern] its gauge, such as: stitches = "
            + ('["22 over 4 in"].' if project.unit == "in" else '["22 over 10 cm"].'),
        )


def _error(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.ERROR, field, message, remedy)


def _is_empty(size: PatternSize) -> bool:
    """Tell whether nothing gives the chest of a size."""
    fixed = counts_of(size)
    found = agreeing(Counted(fixed.yoke, fixed.body, fixed.sleeve, fixed.underarm))
    return fixed.body is None and size.chest is None and "body" not in found


def _names(pattern: Pattern) -> Iterator[Finding]:
    names = [size.size for size in pattern.sizes]
    for number, name in enumerate(names, start=1):
        if any(same_size(name, earlier) for earlier in names[: number - 1]):
            yield _error(
                "pattern.twice",
                f"pattern.sizes[{number}].size",
                f"Size {name} stands there twice.",
                "Give each size its own name, or take one out.",
            )
    wanted = pattern.follow
    if wanted.casefold() != BEST and not any(same_size(wanted, name) for name in names):
        near = difflib.get_close_matches(wanted, names, n=1)
        meant = f" Did you mean {as_typed(near[0])}?" if near else ""
        yield _error(
            "pattern.no-size",
            "pattern.follow",
            f"{as_typed(wanted)} is to be followed, and the sizes typed are {', '.join(names)}.",
            f'Write one of them, or "{BEST}".{meant}',
        )


def _open_front(project: Project) -> Iterator[Finding]:
    """A front worked flat has rows of the pattern's own that its counts do not tell."""
    front = project.garment.neck.front
    if project.garment.yoke.style == "raglan" and front != "level":
        yield _error(
            "pattern.open-front",
            "garment.neck.front",
            f'With front = "{front}" the first rows of a raglan are worked flat, and which '
            "stitches a pattern has in them, and where it joins, cannot be told from its counts.",
            'Write front = "level" and pin the shares of the neck, or take [pattern] out and pin '
            "single counts under [fixed].",
        )


def _held(size: PatternSize, table: str) -> Iterator[Finding]:
    """Compare the stitches held with the sleeve, or with the pieces of the yoke."""
    fixed, held = counts_of(size), size.held
    if held is None:
        return
    if fixed.sleeve is not None and fixed.underarm is not None:
        whole = held + fixed.underarm
        if whole != fixed.sleeve:
            yield _error(
                "pattern.held",
                f"{table}.held",
                f"Size {size.size}: {held} stitches held and an underarm of {fixed.underarm} make "
                f"a sleeve of {whole}, not {fixed.sleeve}.",
                f"Look these numbers up in your pattern once more: sleeve = {whole}, or held = "
                f"{fixed.sleeve - fixed.underarm}. Or take one of the three out.",
            )
    both = torso(fixed)
    if both is not None and fixed.yoke is not None and both + 2 * held != fixed.yoke:
        yield _error(
            "pattern.held",
            f"{table}.held",
            f"Size {size.size}: at the split the yoke is its front, its back and two sleeves: "
            f"{size.front} + {size.back} + 2 × {held} would be {both + 2 * held}, not "
            f"{fixed.yoke}.",
            f"Look these numbers up in your pattern once more: yoke = {both + 2 * held}, or take "
            "one of the four out.",
        )


def _lines(size: PatternSize, table: str) -> Iterator[Finding]:
    given = [name for name in OF_A_RAGLAN if getattr(size, name) is not None]
    if given:
        yield _error(
            "fixed.no-lines",
            f"{table}.{given[0]}",
            "Its back, front and sleeves share out the neck of a raglan, and a round yoke has no "
            "lines to part it.",
            'Type under [garment.yoke]: style = "raglan", or take the line out.',
        )


def _of_its_style(size: PatternSize, table: str, project: Project) -> Iterator[Finding]:
    fixed = counts_of(size)
    yield from count_findings(fixed, table)
    yield from neck_findings(fixed, table)
    if project.garment.yoke.style == "raglan":
        yield from raglan_count_findings(fixed, table)
    else:
        yield from _lines(size, table)


def _contradictions(size: PatternSize, table: str, project: Project) -> Iterator[Finding]:
    """Tell what the counts of one size contradict, and which of them may be another count."""
    for found in _of_its_style(size, table, project):
        hint = _perhaps_held(size) if found.code == "fixed.equation" else ""
        yield replace(
            found,
            message=f"Size {size.size}: {found.message}",
            remedy=f"Look these numbers up in your pattern once more. {hint}{found.remedy}",
        )


def _perhaps_held(size: PatternSize) -> str:
    """Patterns often print the sleeve as it is held: without its underarm."""
    if size.sleeve is None or size.underarm is None:
        return ""
    whole = size.sleeve + size.underarm
    fixed = counts_of(size)
    others = agreeing(Counted(fixed.yoke, fixed.body, whole, fixed.underarm))
    if others.get("yoke") != fixed.yoke:
        return ""
    return (
        f"Perhaps {size.sleeve} are the stitches of a sleeve that are held, without the underarm: "
        f"then write sleeve = {whole}. "
    )
