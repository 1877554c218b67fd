"""How the sweater fits, height by height, in words."""

from __future__ import annotations

from collections.abc import Iterator
from math import isinf
from types import MappingProxyType

from yokefellow.advice.fit_report import FitLine, Verdict
from yokefellow.plan import Plan
from yokefellow.quantities import LengthUnit, length
from yokefellow.sheet.figures import signed_length
from yokefellow.sheet.fit_drawing import fit_drawing
from yokefellow.sheet.fit_pieces import FitRow, FitView

__all__ = ["fit_view"]

_PLACES = MappingProxyType(
    {
        "neck": "Neck",
        "shoulder": "Shoulders and arms",
        "high_chest": "Under the arms",
        "chest": "Chest",
        "waist": "Waist",
        "hip": "Hip",
        "hem": "Above the hem",
        "upper_arm": "Upper arm",
        "elbow": "Elbow",
        "cuff": "Sleeve edge",
    }
)


def fit_view(plan: Plan) -> FitView:
    """Put the fit report into words, with its drawing."""
    report = plan.fit_report
    rows = tuple(_row(plan, line, is_last=line is report[-1]) for line in report)
    return FitView(
        rows=rows,
        summary=(*_summary(report), *_ribs(plan)),
        heights=_heights(plan, report),
        any_filled=any(row.filled for row in rows),
        drawing=fit_drawing(plan, tuple(_said(row) for row in rows)),
    )


def _row(plan: Plan, line: FitLine, *, is_last: bool) -> FitRow:
    unit = plan.project.sheet.units
    return FitRow(
        key=line.key,
        place=_place(plan, line, is_last=is_last),
        body=length(line.body_cm, unit),
        filled=line.filled,
        garment=length(line.garment_cm, unit),
        ease=signed_length(line.ease_cm, unit),
        chosen=_chosen(line, unit),
        verdict=line.verdict.value,
        verdict_key=line.verdict.name.lower(),
        body_cm=line.body_cm,
        garment_cm=line.garment_cm,
        ease_cm=line.ease_cm,
        least_cm=line.least_cm,
        most_cm=None if isinf(line.most_cm) else line.most_cm,
        at_cm=line.at_cm,
    )


def _ribs(plan: Plan) -> Iterator[str]:
    """Say how wide the ribs lie at rest, and how far they stretch."""
    unit = plan.project.sheet.units
    said = [
        f"{name} {length(width.rest_cm, unit)}, stretched up to {length(width.stretched_cm, unit)}"
        for name, width in zip(("neckband", "hem", "cuff"), plan.edge_widths, strict=True)
        if width.edge.finish == "rib"
    ]
    if said:
        yield f"The ribs at rest: {'; '.join(said)}."


def _heights(plan: Plan, report: tuple[FitLine, ...]) -> str:
    """Say how far below the underarm the heights of the body lie."""
    unit = plan.project.sheet.units
    said = (
        f"{_PLACES[line.key].lower()} {length(line.at_cm, unit)}"
        for line in report
        if line.key in ("waist", "hip", "hem")
    )
    return f"Below the underarm: {', '.join(said)}."


def _place(plan: Plan, line: FitLine, *, is_last: bool) -> str:
    """Name a height; where the sleeve ends, say so."""
    place = _PLACES[line.key]
    if line.key == "cuff" and plan.finished.sleeve.share >= 0.95:
        place = "Cuff, at the wrist"
    elif is_last and line.key == "elbow":
        place = "Elbow, sleeve edge"
    return place


def _chosen(line: FitLine, unit: LengthUnit) -> str:
    """Word the ease that was chosen."""
    least = signed_length(line.least_cm, unit)
    if isinf(line.most_cm):
        return f"{least} or more"
    most = signed_length(line.most_cm, unit)
    return least if least == most else f"{least.removesuffix(unit).rstrip()} to {most}"


def _said(row: FitRow) -> str:
    return f"{row.place.lower()}: body {row.body}, sweater {row.garment}, {row.verdict}"


def _summary(report: tuple[FitLine, ...]) -> Iterator[str]:
    """Say first whether all is well, then what is not, and what hangs free by its shape."""
    off = {verdict: _named(report, verdict) for verdict in (Verdict.TIGHT, Verdict.LOOSE)}
    free = _named(report, Verdict.FREE)
    if not any(off.values()):
        yield (
            "Where it lies on the body, the sweater has the fit you chose."
            if free
            else "The sweater has the fit you chose at every height."
        )
    if off[Verdict.TIGHT]:
        yield f"Tighter than you chose: {off[Verdict.TIGHT]}."
    if off[Verdict.LOOSE]:
        yield f"Looser than you chose: {off[Verdict.LOOSE]}."
    if free:
        yield f"Hanging free, wider than that, as its shape has it: {free}."


def _named(report: tuple[FitLine, ...], verdict: Verdict) -> str:
    lines = (line for line in report if line.verdict is verdict)
    return ", ".join(_PLACES[line.key].lower() for line in lines)
