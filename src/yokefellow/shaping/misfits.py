"""Why the bands do not fit, in the numbers of this very yoke, and what would help."""

from __future__ import annotations

from collections.abc import Sequence

from yokefellow.findings import Finding, Severity
from yokefellow.project_file.models import Project
from yokefellow.quantities import LengthUnit, either, length
from yokefellow.shaping.banded import Misfit, Narrow
from yokefellow.shaping.line import LEAST_APART
from yokefellow.shaping.placing import Crowded
from yokefellow.shaping.reach import Unreached
from yokefellow.shaping.zones import BandTask

__all__ = ["misfit_finding", "misfit_message"]


def misfit_finding(
    refused: Crowded | Misfit | Narrow | Unreached | None,
    bands: Sequence[BandTask],
    helping: Sequence[str],
    project: Project,
) -> Finding:
    """Say why the bands do not fit.

    Args:
        refused: what was met.
        bands: as asked for.
        helping: changes that were tried and work.
        project: for its units.
    """
    code, message = _told(refused, bands, project.sheet.units)
    return Finding(
        f"bands.{code}", Severity.ERROR, "garment.yoke.bands", message, _remedy(helping, bands)
    )


def misfit_message(
    refused: Crowded | Misfit | Narrow | Unreached | None,
    bands: Sequence[BandTask],
    project: Project,
) -> str:
    """Say in one sentence or two why the bands do not fit."""
    return _told(refused, bands, project.sheet.units)[1]


def _told(
    refused: Crowded | Misfit | Narrow | Unreached | None,
    bands: Sequence[BandTask],
    unit: LengthUnit,
) -> tuple[str, str]:
    """Give the rule and the message."""
    match refused:
        case Misfit():
            return "misfit", _misfit(refused, unit)
        case Narrow():
            return "narrow", _narrow(refused)
        case Crowded():
            return "crowded", _crowded(refused, unit)
        case Unreached():
            return "unreached", _unreached(refused)
        case _:
            return "no-chain", _no_chain(bands)


def _remedy(helping: Sequence[str], bands: Sequence[BandTask]) -> str:
    if len(helping) == 1:
        return f"This was tried and works: {helping[0]}."
    if helping:
        return f"Each of these was tried and works: {'; '.join(helping)}."
    fewer = "fewer bands" if len(bands) > 1 else "another chart"
    return (
        "No small change helps: neither moving a band, nor another number of repeats, nor a yoke "
        f"two inches (5 cm) deeper. Take {fewer}, with a narrower repeat and fewer rounds."
    )


def _misfit(found: Misfit, unit: LengthUnit) -> str:
    band, width = found.band, found.band.first_width
    around = length(found.wanted / band.stitches_per_cm, unit)
    sides = [_made(repeats, width) for repeats in (found.below, found.above) if repeats > 0]
    near = f"{' and '.join(sides)}, {'and neither lies' if sides[1:] else 'which does not lie'}"
    widths = [w for w in range(max(1, width - 2), width + 3) if _fits(found.wanted, w)]
    other = f" A repeat of {either(widths)} stitches would fit." if widths else ""
    return (
        f"The repeat of {band.name!r} is {width} stitches, and the yoke wants "
        f"{found.wanted:.0f} stitches there ({around} round); {near} within 4 %.{other}"
    )


def _made(repeats: int, width: int) -> str:
    return f"{repeats} repeats make {repeats * width}" if repeats > 1 else f"1 repeat makes {width}"


def _fits(wanted: float, width: int) -> bool:
    return abs(round(wanted / width) * width - wanted) <= 0.04 * wanted


def _narrow(found: Narrow) -> str:
    where = f"before {found.name!r}" if found.name else "after the last band"
    times = (found.wanted - 1) // LEAST_APART + 1
    rounds = "an increase round" if times == 1 else f"{times} increase rounds three apart"
    there = {0: "there is no plain round", 1: "there is one plain round"}
    return (
        f"To go from {found.before:.0f} to {found.after:.0f} stitches {where} takes {rounds}, "
        f"and {there.get(found.there, f'there are {found.there} plain rounds')}."
    )


def _crowded(found: Crowded, unit: LengthUnit) -> str:
    if found.at_cm is None:
        return (
            f"The bands are {length(found.deep_cm, unit)} deep together, {found.wanted} rounds of "
            f"them where there are {found.there}, and the yoke is "
            f"{length(found.yoke_cm, unit)} deep with its increases between them."
        )
    if found.is_over_end:
        return (
            f"{found.name!r} begins {length(found.at_cm, unit)} below the neckband and is "
            f"{found.wanted} rounds deep; {found.there} rounds are left to the underarm."
        )
    if found.lacks_plain:
        return (
            f"{found.name!r} is to begin {length(found.at_cm, unit)} below the neckband, right "
            "under the band above it, and slips stitches of the round before its first: a plain "
            "round must lie between the two."
        )
    return (
        f"{found.name!r} is to begin {length(found.at_cm, unit)} below the neckband, and the "
        f"bands above it end {found.wanted - found.there} rounds below that."
    )


def _unreached(found: Unreached) -> str:
    above, below = found.above, found.below
    if found.band is None:
        return (
            f"After the last band {_from_to(above)} stitches can be reached, and the body and "
            f"sleeves take {_from_to(below)}."
        )
    band = found.band
    grows = (
        f" (each repeat grows from {band.first_width} to {band.last_width})"
        if band.last_width > band.first_width
        else ""
    )
    # A limit that the other side's makes idle is not told.
    reached = f"{above[0]} or more" if above[1] >= below[1] else _from_to(above)
    leading = f"at most {below[1]}" if below[0] <= above[0] else _from_to(below)
    possible = (
        f"{reached} stitches can be there after what lies above it, with at most half again in "
        f"a round, and {leading} still lead to what lies below"
    )
    least, most = found.repeats
    if band.repeats is None:
        return f"Before {band.name!r}{grows} {possible}: no multiple of {band.first_width} is both."
    here = f"{_made(band.repeats, band.first_width)} stitches"
    fits = (
        f"{_from_to((least, most))} repeats can be reached" if least <= most else "none can be both"
    )
    return f"{band.name!r}{grows}: {here}; {possible}: {fits}."


def _from_to(numbers: tuple[int, int]) -> str:
    low, high = numbers
    return f"{low}" if low == high else f"{low} to {high}"


def _no_chain(bands: Sequence[BandTask]) -> str:
    told = ", ".join(
        f"{band.name!r}: repeat of {band.first_width}"
        + (f", {band.repeats} pinned" if band.repeats else "")
        for band in bands
    )
    return (
        f"No chain of increase rounds meets every repeat ({told}) near the line of the yoke and "
        "ends at a count the body and sleeves permit, even when those give way by a centimetre."
    )
