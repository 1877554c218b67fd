"""What the counts in [fixed] say about each other: every contradiction, with the way out of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from yokefellow.findings import Finding, Severity
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import (
    LEAST_HELD,
    NOTHING,
    OF_A_RAGLAN,
    OF_THE_YOKE,
    Fixed,
    pinned,
    torso,
)


def _error(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.ERROR, field, message, remedy)


def share_findings(project: Project) -> Iterator[Finding]:
    """Back, front and both sleeves are the neck of a raglan; a round yoke has no such shares."""
    fixed = project.fixed
    shares = [name for name in OF_A_RAGLAN if getattr(fixed, name) is not None]
    if shares and project.garment.yoke.style != "raglan":
        *most, last = shares
        shown = f"{', '.join(most)} and {last}" if most else last
        yield _error(
            "fixed.no-lines",
            f"fixed.{shares[0]}",
            f"{shown} share out the neck of a raglan, and a round yoke has no lines to part it.",
            'Take them out, or type under [garment.yoke]: style = "raglan".',
        )
    yield from neck_findings(fixed, "fixed")


def neck_findings(fixed: Fixed, table: str) -> Iterator[Finding]:
    """Check that the shares of a raglan's neck add up.

    Args:
        fixed: the counts.
        table: where they stand in the file.
    """
    back, front, sleeve, neck = fixed.neck_back, fixed.neck_front, fixed.neck_sleeve, fixed.neck
    if back is None or front is None or sleeve is None or neck is None:
        return
    whole = back + front + 2 * sleeve
    if whole != neck:
        yield _error(
            "fixed.neck-shares",
            f"{table}.neck",
            f"The neck of a raglan is its back, its front and two sleeves: {back} + {front} + "
            f"2 × {sleeve} would be {whole}, not {neck}.",
            f"Write neck = {whole}, or take one of the four out.",
        )


def half_findings(fixed: Fixed, table: str) -> Iterator[Finding]:
    """Check front and back at the split: with twice the underarm they are the body.

    Args:
        fixed: the counts.
        table: where they stand in the file.
    """
    if fixed.body is None:
        yield from _in_the_yoke(fixed, table)
        return
    if torso(fixed) is not None:
        yield from _both(fixed, table, fixed.body)
        return
    least = 2 * (fixed.underarm or 2)
    for name, part in (("front", fixed.front), ("back", fixed.back)):
        if part is not None and part + least > fixed.body - LEAST_HELD:
            yield _error(
                "fixed.front-back",
                f"{table}.{name}",
                f"A {name} of {part} stitches leaves fewer than {LEAST_HELD} for the other half of "
                f"a body of {fixed.body}, with its underarms.",
                f"Write at most {max(LEAST_HELD, fixed.body - least - LEAST_HELD)}.",
            )


def _both(fixed: Fixed, table: str, body: int) -> Iterator[Finding]:
    under, both = fixed.underarm, torso(fixed) or 0
    if under is not None and both + 2 * under != body:
        offers = [f"body = {both + 2 * under}"]
        if body - both > 3 and (body - both) % 2 == 0:
            offers.append(f"underarm = {(body - both) // 2}")
        yield _error(
            "fixed.front-back",
            f"{table}.front",
            f"These counts break B = front + back + 2U: {fixed.front} + {fixed.back} + "
            f"2 × {under} would be {both + 2 * under}, not {body}.",
            f"Any one of these agrees: {'; '.join(offers)}. Or take one of the four out.",
        )
    elif under is None and ((body - both) % 2 or body - both < 4):
        yield _error(
            "fixed.front-back",
            f"{table}.front",
            f"A body of {body} less {fixed.front} in front and {fixed.back} behind leaves "
            f"{str(body - both).replace('-', '−')} stitches for two underarms alike.",
            f"Write body = {both + 2 * max(2, (body - both) // 2)}, or take one of the three out.",
        )


def _in_the_yoke(fixed: Fixed, table: str) -> Iterator[Finding]:
    """Check front and back against the yoke, where no body is given."""
    yoke = fixed.yoke or (fixed.increases[-1] if fixed.increases else None)
    both, sleeve, under = torso(fixed), fixed.sleeve, fixed.underarm
    if both is None or yoke is None or sleeve is None or under is None:
        return
    whole = both + 2 * (sleeve - under)
    if whole == yoke:
        return
    offers = [f"yoke = {whole}"]
    if (yoke - both) % 2 == 0 and (yoke - both) // 2 >= LEAST_HELD:
        offers.append(f"sleeve = {(yoke - both) // 2 + under}")
    yield _error(
        "fixed.front-back",
        f"{table}.front",
        f"These counts break Y = front + back + 2(S − U): {fixed.front} + {fixed.back} + "
        f"2 × ({sleeve} − {under}) would be {whole}, not {yoke}.",
        f"Any one of these agrees: {'; '.join(offers)}. Or take one of the five out.",
    )


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
            "Round 1 places the markers of the lines and cannot increase as well.",
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
