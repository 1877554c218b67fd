"""What the counts of a raglan must obey: every piece grows by two stitches at a time."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from yokefellow.findings import Finding, Severity
from yokefellow.project.fixed import Fixed

__all__ = ["raglan_count_findings"]

GAINS = (2, 4, 6, 8)
"""Stitches one round can add: two for each of the four pieces that grows, the sleeves together."""


def raglan_count_findings(fixed: Fixed, table: str) -> Iterator[Finding]:
    """Check the counts of a raglan against how it grows.

    Args:
        fixed: the counts.
        table: where they stand in the file.
    """
    yield from _gains(fixed, table)
    yield from _by_twos(fixed, table)
    yield from _sleeves(fixed, table)


def _error(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.ERROR, field, message, remedy)


def _gains(fixed: Fixed, table: str) -> Iterator[Finding]:
    neck = (fixed.neck,) if fixed.neck is not None and fixed.increases else ()
    counts = (*neck, *fixed.increases)
    off = [
        (place, before, after)
        for place, (before, after) in enumerate(pairwise(counts), start=2 - len(neck))
        # What does not grow is told for every yoke.
        if after > before and after - before not in GAINS
    ]
    for place, before, after in off[:1]:
        gain, more = after - before, len(off) - 1
        near = before + min(GAINS, key=lambda one: abs(one - gain))
        others = f" Such steps: {more} more." if more else ""
        yield _error(
            "raglan.gain",
            f"{table}.increases[{place}]",
            f"In a raglan one round adds 2, 4, 6 or 8 stitches, two to each piece that grows, and "
            f"from {before} to {after} it would be {gain}.{others}",
            f"Write {near} here, or another increase round between."
            if gain > GAINS[-1]
            else f"Write {near} here.",
        )


def _sleeves(fixed: Fixed, table: str) -> Iterator[Finding]:
    """Check that the sleeves can grow as often as they must: in every round of 8 or 6."""
    neck, start, sleeve, under = fixed.neck, fixed.neck_sleeve, fixed.sleeve, fixed.underarm
    if neck is None or start is None or sleeve is None or under is None or not fixed.increases:
        return
    gains = [after - before for before, after in pairwise((neck, *fixed.increases))]
    least = sum(gain in (6, 8) for gain in gains)
    most = least + gains.count(4)
    held, times = sleeve - under, (sleeve - under - start) // 2
    if least <= times <= most or (held - start) % 2 or any(gain not in GAINS for gain in gains):
        return
    often = f"{least}" if least == most else f"between {least} and {most}"
    near = held - 2 * (least if times < least else most)
    offers = [f"neck_sleeve = {near}"] if near >= 0 else []
    offers.append(f"sleeve = {sleeve + start - near}")
    yield _error(
        "raglan.sleeve-rounds",
        f"{table}.neck_sleeve",
        f"A sleeve begins with {start} stitches and has S − U = {sleeve} − {under} = {held} at the "
        f"split, so it would grow {times} times; by the counts after the increase rounds it grows "
        f"{often} times: in every round that adds 8 or 6, and in those of 4 in which back and "
        "front do not.",
        f"Any one of these agrees: {'; '.join(offers)}. Or take one of them out.",
    )


def _by_twos(fixed: Fixed, table: str) -> Iterator[Finding]:
    """Check each piece that is given at both of its ends."""
    held = None if fixed.sleeve is None or fixed.underarm is None else fixed.sleeve - fixed.underarm
    ends = (
        ("back", "neck_back", fixed.neck_back, fixed.back),
        ("front", "neck_front", fixed.neck_front, fixed.front),
        ("sleeve", "neck_sleeve", fixed.neck_sleeve, held),
        ("yoke", "neck", fixed.neck, fixed.yoke),
    )
    for name, pin, start, end in ends:
        if start is None or end is None:
            continue
        shown = f"S − U = {fixed.sleeve} − {fixed.underarm} = {end}" if name == "sleeve" else end
        if end < start and name != "yoke":
            yield _error(
                "raglan.by-twos",
                f"{table}.{pin}",
                f"A raglan can only widen, and the {name} begins with {start} stitches and ends "
                f"with {shown}.",
                f"Write {pin} = {end} or less by twos, or a larger {name}.",
            )
        elif (end - start) % 2:
            yield _error(
                "raglan.by-twos",
                f"{table}.{pin}",
                f"Every piece of a raglan grows by two stitches at a time, and from {start} at "
                f"the neck the {name} does not come to {shown}: "
                f"{start} + 2 × {(end - start) // 2} = {end - 1}.",
                f"Write {pin} = {_beside(start)}, or {name} = {_beside(_whole(fixed, name, end))}.",
            )


def _whole(fixed: Fixed, name: str, end: int) -> int:
    """Give what is typed of a piece at the split: a sleeve with its underarm."""
    return fixed.sleeve if name == "sleeve" and fixed.sleeve is not None else end


def _beside(count: int) -> str:
    return f"{count - 1} or {count + 1}" if count else "1"
