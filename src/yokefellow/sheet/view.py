"""From the plan to the sheet: the one place where numbers become words for every format."""

from __future__ import annotations

from yokefellow.notation.abbreviations import ABBREVIATIONS, Abbreviation, abbreviations_used
from yokefellow.plan import Plan
from yokefellow.rows.model import runs
from yokefellow.sheet.assumed import assumptions, before, filled, residuals
from yokefellow.sheet.ataglance import glance
from yokefellow.sheet.charting import charts
from yokefellow.sheet.dimensions import dimensions
from yokefellow.sheet.drawing import drawing, yoke_words
from yokefellow.sheet.finishing import finishing
from yokefellow.sheet.fit_view import fit_view
from yokefellow.sheet.from_above import from_above
from yokefellow.sheet.materials import materials
from yokefellow.sheet.other_lengths import other_lengths
from yokefellow.sheet.pattern import from_pattern
from yokefellow.sheet.pieces import Dimension, Sheet
from yokefellow.sheet.raglan import raglan_view
from yokefellow.sheet.rounds import sections
from yokefellow.what_if import Prospects

__all__ = ["view"]

_PAPER = {"A4": "A4", "Letter": "letter"}


def view(plan: Plan, prospects: Prospects | None = None) -> Sheet:
    """Put the plan into words and boxes; with prospects, what else the yarn would allow, too."""
    measures = dimensions(plan)
    choices = plan.project.sheet
    return Sheet(
        title=plan.project.title,
        wearer=plan.project.wearer.name,
        subtitle=f"A pullover with {yoke_words(plan)}, knitted in one piece from the neck down",
        key=plan.key,
        paper=_PAPER[choices.paper],
        large=choices.large_print,
        printed=choices.print,
        unit=choices.units,
        total_rows=plan.schedule.total_rows,
        total_stitches=plan.total_stitches,
        glance=glance(plan, measures, prospects),
        pattern=from_pattern(plan),
        fit=fit_view(plan),
        others=other_lengths(plan, prospects) if prospects else None,
        raglan=raglan_view(plan),
        drawing=drawing(plan, measures),
        above=from_above(plan),
        charts=charts(plan),
        materials=materials(plan),
        before=before(plan, prospects),
        sections=sections(plan, prospects),
        finishing=finishing(plan, tuple(map(_block_to, measures))),
        abbreviations=_abbreviations(plan),
        filled=filled(plan),
        assumed=assumptions(plan),
        residuals=residuals(plan),
    )


def _abbreviations(plan: Plan) -> tuple[Abbreviation, ...]:
    """List what the rows use, and the names of the yarns where the sheet names them."""
    rows = (row for section in plan.schedule.sections for row, _ in runs(section.rows))
    used = {entry.code for entry in abbreviations_used(rows)}
    if len(plan.yarns) > 1:
        used |= {"MC", "CC"}
    elif any(estimate.verdict != "enough" for estimate in plan.yarns.values()):
        used |= {"MC"}  # in the caution, and where it is weighed
    return tuple(entry for entry in ABBREVIATIONS if entry.code in used)


def _block_to(measure: Dimension) -> str:
    place, _, how = f"{measure.place[0].lower()}{measure.place[1:]}".partition(", all round")
    return f"{place} {measure.finished}{' all round' if how else ''}"
