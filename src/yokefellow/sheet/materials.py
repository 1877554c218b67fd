"""What to have and to know before casting on: skills, notions, notes on the whole sweater."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.charts.chart import ChartKind
from yokefellow.plan import Plan
from yokefellow.rows.model import Feature, flat_ops
from yokefellow.shaping import RaglanShape
from yokefellow.sheet.pieces import Materials
from yokefellow.words import words

__all__ = ["materials"]


def materials(plan: Plan) -> Materials:
    """Give the skills, the notions and the notes a printed pattern begins with."""
    features = {row.row.feature for row in plan.rows}
    kinds = {chart.kind for chart in plan.all_charts}
    provisional = Feature.PROVISIONAL in features
    is_flat = plan.shape.front is not None
    skills = words("materials").skills(
        flat=is_flat,
        short_rows=Feature.SHORT_ROW in features,
        stranded=ChartKind.STRANDED in kinds,
        slipped=bool(kinds & {ChartKind.MOSAIC, ChartKind.SLIP}),
        picked_up=Feature.PICK_UP in features,
        cast_on_last=provisional,
    )
    return Materials(
        skills,
        tuple(_notions(plan, provisional=provisional)),
        tuple(_notes(plan, features, is_stranded=ChartKind.STRANDED in kinds)),
    )


def _notions(plan: Plan, *, provisional: bool) -> Iterator[str]:
    said = words("materials")
    yield said.markers(all=_markers(plan))
    yield said.waste_yarn(stitches=plan.shape.split.held)
    yield said.tapestry_needle()
    yield said.spare_cable()
    if provisional:
        yield said.crochet_hook()
    yield said.tape()
    yield said.scale()


def _markers(plan: Plan) -> int:
    """Give the most markers that are in the work at once; that for BOR is one of them."""
    placed = most = 0
    section = ""
    for worked in plan.rows:
        if worked.section.key != section:
            section = worked.section.key
            # The sleeves begin with none: the body is bound off, or rests with its own.
            placed = 0 if section == "sleeve" else placed
        codes = [op.code for op in flat_ops(worked.row.steps)]
        placed += codes.count("pm") - codes.count("rm")
        most = max(most, placed)
    return max(1, most)


def _notes(plan: Plan, features: set[Feature], *, is_stranded: bool) -> Iterator[str]:
    said, shape = words("materials"), plan.shape
    yield said.construction(
        raglan=isinstance(shape.yoke, RaglanShape),
        flat=shape.front is not None,
        sleeves_first=plan.project.garment.work_order == "sleeves first",
    )
    yield said.counts()
    yield said.lifeline(bands=bool(plan.all_charts), darts=bool(shape.body.darts))
    yield said.new_ball(
        short_rows=Feature.SHORT_ROW in features,
        tail="6 in" if plan.project.sheet.units == "in" else "15 cm",
    )
    if is_stranded:
        yield said.stranded()
    yield said.small_rounds()
