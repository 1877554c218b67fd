"""What the counts in [fixed] say about each other: every contradiction, with the way out of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import pairwise
from typing import Any, NamedTuple

from yokefellow.findings import Finding, Mend, Severity
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
from yokefellow.words import found


def share_findings(project: Project) -> Iterator[Finding]:
    """Back, front and both sleeves are the neck of a raglan; a round yoke has no such shares."""
    fixed = project.fixed
    shares = [name for name in OF_A_RAGLAN if getattr(fixed, name) is not None]
    if shares and project.garment.yoke.style != "raglan":
        yield no_lines("fixed", shares)
    yield from neck_findings(fixed, "fixed")


def no_lines(table: str, shares: list[str]) -> Finding:
    """Say that a round yoke has no lines to share out its neck."""
    return found(
        "fixed.no-lines",
        Severity.ERROR,
        f"{table}.{shares[0]}",
        mends=(Mend("garment.yoke.style", '"raglan"'),),
        shares=tuple(shares),
    )


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
        yield found(
            "fixed.neck-shares",
            Severity.ERROR,
            f"{table}.neck",
            mends=(Mend(f"{table}.neck", f"{whole}"),),
            back=back,
            front=front,
            sleeve=sleeve,
            whole=whole,
            neck=neck,
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
            most = max(LEAST_HELD, fixed.body - least - LEAST_HELD)
            yield found(
                "fixed.front-back",
                Severity.ERROR,
                f"{table}.{name}",
                mends=(Mend(f"{table}.{name}", f"{most}"),),
                sentence="half_too_wide",
                half=name,
                stitches=part,
                least=LEAST_HELD,
                body=fixed.body,
                most=most,
            )


def _both(fixed: Fixed, table: str, body: int) -> Iterator[Finding]:
    under, both = fixed.underarm, torso(fixed) or 0
    if under is not None and both + 2 * under != body:
        offers = [f"body = {both + 2 * under}"]
        if body - both > 3 and (body - both) % 2 == 0:
            offers.append(f"underarm = {(body - both) // 2}")
        yield found(
            "fixed.front-back",
            Severity.ERROR,
            f"{table}.front",
            sentence="halves_of_the_body",
            front=fixed.front,
            back=fixed.back,
            underarm=under,
            whole=both + 2 * under,
            body=body,
            offers=tuple(offers),
        )
    elif under is None and ((body - both) % 2 or body - both < 4):
        nearest = both + 2 * max(2, (body - both) // 2)
        yield found(
            "fixed.front-back",
            Severity.ERROR,
            f"{table}.front",
            mends=(Mend(f"{table}.body", f"{nearest}"),),
            sentence="no_underarms",
            front=fixed.front,
            back=fixed.back,
            body=body,
            left=f"{body - both}".replace("-", "−"),
            nearest=nearest,
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
    yield found(
        "fixed.front-back",
        Severity.ERROR,
        f"{table}.front",
        sentence="halves_of_the_yoke",
        front=fixed.front,
        back=fixed.back,
        sleeve=sleeve,
        underarm=under,
        whole=whole,
        yoke=yoke,
        offers=tuple(offers),
    )


class Counted(NamedTuple):
    """The four counts of the equation; None for what is free."""

    yoke: int | None
    body: int | None
    sleeve: int | None
    underarm: int | None


def agreeing(counts: Counted) -> Mapping[str, Fraction]:
    """Give, for each count that the three others decide, what it must be."""
    yoke, body, sleeve, underarm = counts
    decided: dict[str, Fraction] = {}
    if body is not None and sleeve is not None and underarm is not None:
        decided["yoke"] = Fraction(body + 2 * sleeve - 4 * underarm)
    if yoke is not None and sleeve is not None and underarm is not None:
        decided["body"] = Fraction(yoke - 2 * sleeve + 4 * underarm)
    if yoke is not None and body is not None and underarm is not None:
        decided["sleeve"] = Fraction(yoke - body + 4 * underarm, 2)
    if yoke is not None and body is not None and sleeve is not None:
        decided["underarm"] = Fraction(body + 2 * sleeve - yoke, 4)
    return decided


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
        yield found(
            "fixed.increase-first",
            Severity.ERROR,
            "fixed.increase_at",
            mends=_second_round(project.fixed),
            sentence="markers_first",
        )
    elif project.garment.neck.back_raise != "none":
        yield found(
            "fixed.increase-first",
            Severity.ERROR,
            "fixed.increase_at",
            mends=_second_round(project.fixed),
            sentence="short_rows_first",
        )


def _second_round(fixed: Fixed) -> tuple[Mend, ...]:
    """Move an increase in round 1 to round 2, where no other is."""
    if 2 in fixed.increase_at:
        return ()
    rounds = (2 if at == 1 else at for at in fixed.increase_at)
    return (Mend("fixed.increase_at", f"[{', '.join(map(str, rounds))}]"),)


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
        yield found(
            "fixed.percentage",
            Severity.ERROR,
            f"fixed.{theirs[0]}",
            mends=(Mend("garment.yoke.proportions", '"measured"'),),
            proportions=given,
            counts=tuple(theirs),
        )


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
            field = f"{table}.{name}"
            yield found("fixed.no-growth", Severity.ERROR, field, before=before, after=after)
        elif fixed.increases and after > 2 * before:
            yield found(
                "fixed.too-steep",
                Severity.ERROR,
                f"{table}.{name}",
                before=before,
                after=after,
                most=2 * before,
            )
    last = fixed.increases[-1] if fixed.increases else None
    if last is not None and fixed.yoke is not None and last != fixed.yoke:
        yield found(
            "fixed.last-increase",
            Severity.ERROR,
            f"{table}.yoke",
            mends=(Mend(f"{table}.yoke", f"{last}"),),
            last=last,
            yoke=fixed.yoke,
        )


def _equation(fixed: Fixed, table: str) -> Iterator[Finding]:
    last = fixed.increases[-1] if fixed.increases else None
    counts = Counted(fixed.yoke or last, fixed.body, fixed.sleeve, fixed.underarm)
    decided = agreeing(counts)
    parts: dict[str, Any] = {
        name: name if count is None else f"{count}"
        for name, count in zip(Counted._fields, counts, strict=True)
    }
    if None not in counts:
        if counts.yoke != decided["yoke"]:
            offers = [
                f"{name} = {count}"
                for name, count in decided.items()
                if count.denominator == 1 and _is_split(counts._replace(**{name: int(count)}))
            ]
            yield found(
                "fixed.equation",
                Severity.ERROR,
                table,
                whole=f"{decided['yoke']}",
                offers=tuple(offers),
                **parts,
            )
        return
    for name, count in decided.items():
        if count.denominator != 1 or count < LEAST_HELD:
            yield found(
                "fixed.equation",
                Severity.ERROR,
                table,
                sentence="none_left",
                free=name,
                would_be=f"{float(count):g}".replace("-", "−"),
                nearest=tuple(_near(counts, name)),
                **parts,
            )


_NEAR = 60
"""Stitches within which a count that agrees is looked for."""


def _near(counts: Counted, free: str) -> list[str]:
    """Give, for each of three counts, the nearest with which the fourth comes out whole."""
    pairs: list[str] = []
    for name, count in zip(Counted._fields, counts, strict=True):
        for off in (sign * by for by in range(1, _NEAR) for sign in (-1, 1)):
            if count is None:
                break
            changed = counts._replace(**{name: count + off})
            other = agreeing(changed)[free]
            if other.denominator == 1 and _is_split(changed._replace(**{free: int(other)})):
                pairs.append(f"{name} = {count + off} and {free} = {other}")
                break
    return pairs


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
            most = max(2, whole // parts - LEAST_HELD)
            yield found(
                "fixed.underarm-wide",
                Severity.ERROR,
                f"{table}.underarm",
                mends=(Mend(f"{table}.underarm", f"{most}"),),
                underarm=fixed.underarm,
                least=LEAST_HELD,
                piece=name,
                stitches=whole,
                most=most,
            )


def _places(fixed: Fixed, table: str) -> Iterator[Finding]:
    at, counts = fixed.increase_at, fixed.increases
    if at and counts and len(at) != len(counts):
        yield found(
            "fixed.increase-rounds",
            Severity.ERROR,
            f"{table}.increase_at",
            rounds=len(at),
            counts=len(counts),
        )
    for early, late in pairwise(at):
        if late <= early:
            in_order = ", ".join(str(number) for number in sorted(set(at)))
            yield found(
                "fixed.increase-order",
                Severity.ERROR,
                f"{table}.increase_at",
                mends=(Mend(f"{table}.increase_at", f"[{in_order}]"),),
                early=early,
                late=late,
            )
    if at and fixed.yoke_rounds is not None and max(at) > fixed.yoke_rounds:
        yield found(
            "fixed.increase-below",
            Severity.ERROR,
            f"{table}.increase_at",
            mends=(Mend(f"{table}.yoke_rounds", f"{max(at)}"),),
            last=max(at),
            rounds=fixed.yoke_rounds,
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
        yield found(
            "raglan.gain",
            Severity.ERROR,
            f"{table}.increases[{place}]",
            before=before,
            after=after,
            gain=gain,
            more=more,
            near=near,
            too_many=gain > GAINS[-1],
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
    near = held - 2 * (least if times < least else most)
    offers = [f"neck_sleeve = {near}"] if near >= 0 else []
    offers.append(f"sleeve = {sleeve + start - near}")
    yield found(
        "raglan.sleeve-rounds",
        Severity.ERROR,
        f"{table}.neck_sleeve",
        start=start,
        sleeve=sleeve,
        underarm=under,
        held=held,
        times=times,
        least=least,
        most=most,
        offers=tuple(offers),
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
        subtracted = f"{fixed.sleeve} − {fixed.underarm} = " if name == "sleeve" else ""
        typed = fixed.sleeve if name == "sleeve" and fixed.sleeve is not None else end
        if end < start and name != "yoke":
            yield found(
                "raglan.by-twos",
                Severity.ERROR,
                f"{table}.{pin}",
                mends=(Mend(f"{table}.{pin}", f"{end}"),),
                sentence="narrower",
                piece=name,
                pin=pin,
                start=start,
                end=end,
                subtracted=subtracted,
            )
        elif (end - start) % 2:
            yield found(
                "raglan.by-twos",
                Severity.ERROR,
                f"{table}.{pin}",
                piece=name,
                pin=pin,
                start=start,
                end=end,
                subtracted=subtracted,
                times=(end - start) // 2,
                starts=_beside(start),
                ends=_beside(typed),
            )


def _beside(count: int) -> tuple[int, ...]:
    return (count - 1, count + 1) if count else (1,)
