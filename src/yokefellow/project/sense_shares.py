"""What the counts of front, back and sleeves say about each other, at the neck and at the split."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.findings import Finding, Severity
from yokefellow.project.fixed import LEAST_HELD, OF_A_RAGLAN, Fixed, torso
from yokefellow.project.models import Project

__all__ = ["half_findings", "neck_findings", "share_findings"]


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
