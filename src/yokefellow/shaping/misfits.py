"""Why a band does not fit, and the nearest things that would, each with what it costs."""

from __future__ import annotations

from yokefellow.findings import Finding, Severity
from yokefellow.project.models import Project
from yokefellow.shaping.banded import Misfit, Narrow
from yokefellow.shaping.zones import BandTask, Crowded, Zones
from yokefellow.wording import length

__all__ = ["crowded", "misfit", "narrow", "no_chain"]

BANDS = "garment.yoke.bands"


def _error(code: str, message: str, remedy: str) -> Finding:
    return Finding(f"bands.{code}", Severity.ERROR, BANDS, message, remedy)


def misfit(found: Misfit, project: Project) -> Finding:
    """Offer the numbers of repeats on either side, and repeats of another width."""
    band, unit = found.band, project.sheet.units
    offers = [
        f"write repeats = {repeats} ({_change(found, repeats, project)})"
        for repeats in (found.below, found.above)
        if repeats > 0
    ]
    widths = [
        width
        for width in (band.first_width - 1, band.first_width + 1, band.first_width + 2)
        if width > 0 and _fits(found.wanted, width)
    ]
    if widths:
        wide = " or ".join(str(width) for width in widths)
        offers.append(f"draw the repeat {wide} stitches wide, which fits as it is")
    around = length(found.wanted / band.stitches_per_cm, unit)
    return _error(
        "misfit",
        f"The repeat of {band.name!r} is {band.first_width} stitches, and the yoke wants "
        f"{found.wanted:.0f} stitches there ({around} round): no multiple lies within 4 %.",
        f"Choose one: {'; '.join(offers)}; or move the band with at = a depth.",
    )


def _change(found: Misfit, repeats: int, project: Project) -> str:
    band = found.band
    off_cm = (repeats * band.first_width - found.wanted) / band.stitches_per_cm
    more = "more" if off_cm > 0 else "less"
    return f"{length(abs(off_cm), project.sheet.units)} {more} round the yoke there"


def _fits(wanted: float, width: int) -> bool:
    return abs(round(wanted / width) * width - wanted) <= 0.04 * wanted


def narrow(found: Narrow, project: Project) -> Finding:
    """Say how many plain rounds are lacking before a band."""
    lacking = found.wanted - found.there
    where = f"before {found.name!r}" if found.name else "after the last band"
    return _error(
        "narrow",
        f"The increases wanted {where} take {found.wanted} plain rounds; there are {found.there}.",
        f"Move a band by {lacking} rounds or more, leave one out, write a wider neck opening "
        f"than garment.neck.opening = {project.garment.neck.opening!r}, or make the yoke deeper.",
    )


def crowded(found: Crowded, project: Project) -> Finding:
    """Say that the bands and the plain rounds between them do not fit the depth."""
    return _error(
        "crowded",
        f"Before {found.name!r} there are {found.there} plain rounds of the {found.wanted} "
        "needed for an increase round.",
        f"Leave out one of the {len(project.garment.yoke.bands)} bands, choose lower charts, "
        "set their depths further apart, or make the yoke deeper.",
    )


def no_chain(zones: Zones, project: Project) -> Finding:
    """Say that the repeats cannot all be met one after another, and what would help."""
    told = ", ".join(_told(band.task) for band in zones.bands)
    pinned = any(band.repeats for band in project.garment.yoke.bands)
    return _error(
        "no-chain",
        f"No chain of increase rounds meets every band ({told}) and ends at the body's count.",
        ("Take the pinned repeats away, or pin others. " if pinned else "")
        + "Move the last band higher so that an increase round can follow it, or choose a chart "
        "with a narrower repeat.",
    )


def _told(band: BandTask) -> str:
    pinned = f", {band.repeats} pinned" if band.repeats else ""
    return f"{band.name}: repeat of {band.first_width}{pinned}"
