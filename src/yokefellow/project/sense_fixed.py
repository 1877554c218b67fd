"""What the counts in [fixed] say about each other: every contradiction, with the way out of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from yokefellow.findings import Finding, Severity
from yokefellow.project.fixed import LEAST_HELD, NOTHING, OF_THE_YOKE, Fixed, pinned
from yokefellow.project.models import Project
from yokefellow.project.sense_shares import half_findings, share_findings

__all__ = ["EQUATION", "Counted", "agreeing", "count_findings", "equation_words", "fixed_findings"]

EQUATION = "Y = (B − 2U) + 2(S − U)"
"""The stitches of the yoke become the body and two sleeves without their underarms."""


class Counted(NamedTuple):
    """The four counts of the equation; None for what is free."""

    yoke: int | None
    body: int | None
    sleeve: int | None
    underarm: int | None


def agreeing(counts: Counted) -> Mapping[str, Fraction]:
    """Give, for each count that the three others decide, what it must be."""
    yoke, body, sleeve, underarm = counts
    found: dict[str, Fraction] = {}
    if body is not None and sleeve is not None and underarm is not None:
        found["yoke"] = Fraction(body + 2 * sleeve - 4 * underarm)
    if yoke is not None and sleeve is not None and underarm is not None:
        found["body"] = Fraction(yoke - 2 * sleeve + 4 * underarm)
    if yoke is not None and body is not None and underarm is not None:
        found["sleeve"] = Fraction(yoke - body + 4 * underarm, 2)
    if yoke is not None and body is not None and sleeve is not None:
        found["underarm"] = Fraction(body + 2 * sleeve - yoke, 4)
    return found


def equation_words(counts: Counted) -> str:
    """Fill in the equation, letters for what is free.

    >>> equation_words(Counted(268, 200, None, 16))
    '268 = (200 − 2 × 16) + 2 × (S − 16)'
    """
    letters = (
        str(one) if one is not None else letter for one, letter in zip(counts, "YBSU", strict=True)
    )
    y, b, s, u = letters
    return f"{y} = ({b} − 2 × {u}) + 2 × ({s} − {u})"


def fixed_findings(project: Project) -> Iterator[Finding]:
    """Check every count of [fixed] against the others."""
    fixed = project.fixed
    if fixed == NOTHING:
        return
    yield from _by_percentage(project)
    yield from count_findings(fixed, "fixed")
    yield from share_findings(project)
    yield from _first_round(project)


def _first_round(project: Project) -> Iterator[Finding]:
    if 1 not in project.fixed.increase_at:
        return
    if project.garment.yoke.style == "raglan":
        yield _error(
            "fixed.increase-first",
            "fixed.increase_at",
            "Round 1 hangs the markers of the lines and cannot increase as well.",
            "Write 2.",
        )
    elif project.garment.neck.back_raise != "none":
        yield _error(
            "fixed.increase-first",
            "fixed.increase_at",
            "Round 1 closes the gaps of the short rows at the back of the neck and cannot "
            "increase as well.",
            'Write 2, or type under [garment.neck]: back_raise = "none".',
        )


def count_findings(fixed: Fixed, table: str) -> Iterator[Finding]:
    """Check the counts of a yoke against each other.

    Args:
        fixed: the counts.
        table: where they stand in the file.
    """
    yield from _steps(fixed, table)
    yield from _equation(fixed, table)
    yield from _held(fixed, table)
    yield from half_findings(fixed, table)
    yield from _places(fixed, table)


def _error(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.ERROR, field, message, remedy)


def _by_percentage(project: Project) -> Iterator[Finding]:
    given = project.garment.yoke.proportions
    theirs = [name for name in pinned(project.fixed) if name in OF_THE_YOKE and name != "body"]
    if given != "measured" and theirs:
        yield _error(
            "fixed.percentage",
            f"fixed.{theirs[0]}",
            f'The proportions are "{given}", and that system gives {_listed(theirs)} itself, '
            "as shares of the body's stitches.",
            'Type under [garment.yoke]: proportions = "measured", or take these lines out; '
            "the body may stay.",
        )


def _listed(names: list[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last


def _steps(fixed: Fixed, table: str) -> Iterator[Finding]:
    """Check that the counts grow from the neck to the yoke, and that no round doubles them."""
    counts = [("neck", fixed.neck)] if fixed.neck else []
    counts += [(f"increases[{at}]", one) for at, one in enumerate(fixed.increases, start=1)]
    if not fixed.increases and fixed.yoke:
        counts.append(("yoke", fixed.yoke))
    for (_, before), (name, after) in pairwise(counts):
        if before is None or after is None:
            continue
        if after <= before:
            yield _error(
                "fixed.no-growth",
                f"{table}.{name}",
                f"A yoke grows from the neck down, and {after} is not more than the {before} "
                "before it.",
                f"Write more than {before} here, or fewer stitches there.",
            )
        elif fixed.increases and after > 2 * before:
            yield _error(
                "fixed.too-steep",
                f"{table}.{name}",
                f"One round cannot go from {before} stitches to {after}: one increase in every "
                f"stitch makes {2 * before}.",
                f"Write at most {2 * before} here, or another increase round between.",
            )
    last = fixed.increases[-1] if fixed.increases else None
    if last is not None and fixed.yoke is not None and last != fixed.yoke:
        yield _error(
            "fixed.last-increase",
            f"{table}.yoke",
            f"The last increase round ends with {last} stitches, and the yoke with {fixed.yoke}; "
            "below the last increase round nothing changes the count.",
            f"Write yoke = {last}, or end the increases with {fixed.yoke}.",
        )


def _equation(fixed: Fixed, table: str) -> Iterator[Finding]:
    last = fixed.increases[-1] if fixed.increases else None
    counts = Counted(fixed.yoke or last, fixed.body, fixed.sleeve, fixed.underarm)
    found = agreeing(counts)
    if None not in counts:
        if counts.yoke != found["yoke"]:
            offers = [
                f"{name} = {count}"
                for name, count in found.items()
                if count.denominator == 1 and _is_split(counts._replace(**{name: int(count)}))
            ]
            yield _error(
                "fixed.equation",
                table,
                f"These counts do not add up. The yoke is the body without its two underarms, and "
                f"two sleeves without theirs, {EQUATION}: {equation_words(counts)} would be "
                f"{found['yoke']}, not {counts.yoke}.",
                f"Any one of these agrees with the others: {'; '.join(offers)}. Or take one of "
                "the four out, and it is computed.",
            )
        return
    for name, count in found.items():
        if count.denominator != 1 or count < LEAST_HELD:
            shown = f"{float(count):g}".replace("-", "−")
            near = _near(counts, name)
            yield _error(
                "fixed.equation",
                table,
                f"These counts leave no {name}: {EQUATION}, here {equation_words(counts)}, "
                f"would make it {shown}.",
                (f"The nearest that agree: {'; '.join(near)}. " if near else "")
                + "Or take one of the three out, and it is computed.",
            )


_NEAR = 60
"""Stitches within which a count that agrees is looked for."""


def _near(counts: Counted, free: str) -> list[str]:
    """Give, for each of three counts, the nearest with which the fourth comes out whole."""
    found: list[str] = []
    for name, count in zip(Counted._fields, counts, strict=True):
        for off in (sign * by for by in range(1, _NEAR) for sign in (-1, 1)):
            if count is None:
                break
            changed = counts._replace(**{name: count + off})
            other = agreeing(changed)[free]
            if other.denominator == 1 and _is_split(changed._replace(**{free: int(other)})):
                found.append(f"{name} = {count + off}, with {free} = {other}")
                break
    return found


def _is_split(counts: Counted) -> bool:
    """Tell whether sleeve and front keep stitches between the underarms."""
    yoke, body, sleeve, underarm = counts
    if yoke is None or body is None or sleeve is None or underarm is None:
        return False
    return underarm > 1 and min(sleeve, body // 2) - underarm >= LEAST_HELD


def _held(fixed: Fixed, table: str) -> Iterator[Finding]:
    if fixed.underarm is None:
        return
    for name, whole, parts in (("sleeve", fixed.sleeve, 1), ("body", fixed.body, 2)):
        if whole is not None and whole // parts - fixed.underarm < LEAST_HELD:
            yield _error(
                "fixed.underarm-wide",
                f"{table}.underarm",
                f"An underarm of {fixed.underarm} stitches leaves fewer than {LEAST_HELD} of a "
                f"{name} of {whole}" + (", in front and behind." if parts > 1 else "."),
                f"Write an underarm of at most {max(2, whole // parts - LEAST_HELD)}, or a larger "
                f"{name}.",
            )


def _places(fixed: Fixed, table: str) -> Iterator[Finding]:
    at, counts = fixed.increase_at, fixed.increases
    if at and counts and len(at) != len(counts):
        yield _error(
            "fixed.increase-rounds",
            f"{table}.increase_at",
            f"There are {len(at)} rounds in increase_at and {len(counts)} counts in increases; "
            "each increase round needs one of both.",
            "Write as many of the one as of the other, or take one of the two lines out.",
        )
    for early, late in pairwise(at):
        if late <= early:
            yield _error(
                "fixed.increase-order",
                f"{table}.increase_at",
                f"Round {late} stands after round {early}; the increase rounds must be in order.",
                "Write them from the neck down, each once.",
            )
    if at and fixed.yoke_rounds is not None and max(at) > fixed.yoke_rounds:
        yield _error(
            "fixed.increase-below",
            f"{table}.increase_at",
            f"Round {max(at)} would increase, and the yoke has {fixed.yoke_rounds} rounds.",
            f"Write yoke_rounds of at least {max(at)}, or an earlier increase round.",
        )
