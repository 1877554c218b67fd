"""The measures of the finished sweater, in whole stitches and rounds, beside the body's."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from types import MappingProxyType
from typing import NamedTuple

from yokefellow.plan import Plan
from yokefellow.quantities import length
from yokefellow.shaping import BodyShape, Count, RaglanShape, SleeveShape
from yokefellow.sheet.figures import signed_length
from yokefellow.sheet.pieces import Dimension

__all__ = ["body_cm", "dimensions", "sleeve_cm"]

LETTERS = "abcdefghijklmnop"
"""Small letters, so that none is taken for a count (N, Y, B, S, U)."""

_BODY_OF = MappingProxyType(
    {"neck": "at its base", "armhole_depth": "armhole", "arm_length": "to the wrist"}
)
"""Which measure of the body stands beside a place that is not the same thing."""

_EASED = ("chest", "high_chest", "waist", "upper_arm")
"""Where the sweater less the body is ease."""


class _Size(NamedTuple):
    """A measure as knitted."""

    got: int
    cm: float
    word: str = "rnds"


def dimensions(plan: Plan) -> tuple[Dimension, ...]:
    """Give the measures in the order of knitting, lettered."""
    measures = (*_neck_and_yoke(plan), *_body(plan), *_sleeve(plan))
    return tuple(
        replace(measure, letter=letter) for letter, measure in zip(LETTERS, measures, strict=False)
    )


def sleeve_cm(sleeve: SleeveShape) -> float:
    """Give the length of a sleeve, underarm to edge, in cm."""
    return sleeve.rounds.cm + sleeve.cuff_rounds.cm


def body_cm(body: BodyShape) -> float:
    """Give the length of the body, underarm to edge, in cm."""
    return body.rounds.cm + body.hem_rounds.cm


def _neck_and_yoke(plan: Plan) -> Iterator[Dimension]:
    shape = plan.shape
    yield _round(plan, "neck", "Neck edge", "neck", shape.neck.edge)
    short = shape.yoke.short_rows
    if short.rows:
        raised = _Size(short.rows, short.raise_cm, "rows")
        yield _dimension(plan, "back_raise", "Back neck raised by", None, raised)
    if shape.front is not None:
        drop = _Size(shape.front.rows.got, shape.front.rows.cm, "rows")
        yield _dimension(plan, "neck_drop", "Front of the neck below the back", None, drop)
    depth = _Size(shape.yoke.rounds.got, shape.yoke.rounds.cm)
    if not isinstance(shape.yoke, RaglanShape):
        yield _dimension(plan, "yoke_depth", "Yoke depth", "armhole_depth", depth)
        return
    side = "front" if shape.front is None else "back"
    yield _dimension(plan, "yoke_depth", f"Yoke depth at the {side}", None, depth)
    armhole = _Size(shape.yoke.rounds.got, shape.yoke.armhole_cm)
    place = "Armhole, from the top of the shoulder"
    yield replace(
        _dimension(plan, "armhole", place, "armhole_depth", armhole),
        counted=f"{depth.got} rnds + {shape.yoke.sleeve.start // 2} sts",
    )


def _body(plan: Plan) -> Iterator[Dimension]:
    body = plan.shape.body
    split = plan.shape.split.body
    if body.fullest is not None:
        yield _round(plan, "high_chest", "Under the arms", "high_chest", split)
    yield _round(plan, "chest", "Chest", "chest", body.fullest or split)
    if body.waist is not None:
        yield _round(plan, "waist", "Waist", "waist", body.waist)
    yield _round(plan, "edge", "Above the hem", None, body.edge)
    long = _Size(body.rounds.got + body.hem_rounds.got, body_cm(body))
    yield _dimension(plan, "body_length", "Body, underarm to edge", None, long)


def _sleeve(plan: Plan) -> Iterator[Dimension]:
    sleeve = plan.shape.sleeve
    yield _round(plan, "upper_arm", "Upper arm", "upper_arm", plan.shape.split.sleeve)
    long = _Size(sleeve.rounds.got + sleeve.cuff_rounds.got, sleeve_cm(sleeve))
    yield _dimension(plan, "sleeve_length", "Sleeve, underarm to edge", "arm_length", long)
    yield _round(plan, "cuff", "Sleeve edge", None, sleeve.edge)


def _round(plan: Plan, key: str, place: str, measure: str | None, count: Count) -> Dimension:
    wide = _Size(count.got, count.cm, "sts")
    return _dimension(plan, key, f"{place}, all round", measure, wide)


def _dimension(plan: Plan, key: str, place: str, measure: str | None, size: _Size) -> Dimension:
    unit = plan.project.sheet.units
    on_body_cm = None if measure is None else plan.figures.cm(measure)
    eased = on_body_cm is not None and key in _EASED
    ease_cm = size.cm - on_body_cm if eased and on_body_cm is not None else None
    return Dimension(
        key=key,
        letter="",
        place=place,
        body="" if on_body_cm is None else length(on_body_cm, unit),
        body_of=_BODY_OF.get(measure or "", ""),
        filled=measure is not None and not plan.figures.is_measured(measure),
        ease="" if ease_cm is None else signed_length(ease_cm, unit),
        finished=length(size.cm, unit),
        counted=f"{size.got} {size.word}",
        body_cm=on_body_cm,
        ease_cm=ease_cm,
        finished_cm=size.cm,
        count=size.got,
    )
