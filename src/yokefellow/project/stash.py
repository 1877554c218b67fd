"""The stash of the project file: each yarn and its balls, and how it is weighed."""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeAlias, get_args

from pydantic import model_validator

from yokefellow.project.base import Model
from yokefellow.project.counts import grams, metres, scale_step
from yokefellow.project.marks import whole
from yokefellow.project.plain import number, one_of, text
from yokefellow.project.weights import ball_weights, lot_names, weighed_balls

__all__ = ["Relaxed", "Unravelled", "Weighed", "Weighing", "WorkOrder", "Yarn"]

_Relaxed = Literal["dry relaxed", "wet relaxed", "fully relaxed"]
_OfSwatch = Literal["keep", "unravel"]
_WorkOrder = Literal["body first", "sleeves first"]

Relaxed: TypeAlias = Annotated[_Relaxed, one_of(*get_args(_Relaxed))]
WorkOrder: TypeAlias = Annotated[_WorkOrder, one_of(*get_args(_WorkOrder))]


class Weighed(Model):
    """A swatch on the kitchen scale, all its stitches counted."""

    weight: Annotated[float, grams]
    """What the swatch weighs, cut free and with its ends trimmed."""
    stitches: Annotated[int, whole(5, 2_000, typical=60)]
    """Stitches across the whole swatch, edges too."""
    rounds: Annotated[int, whole(5, 2_000, typical=80)]
    """Rounds (or rows) of the whole swatch, cast-on and bind-off too."""


class Unravelled(Model):
    """A length of yarn pulled out of a known number of stitches."""

    length: Annotated[float, metres]
    """How long the yarn is, stretched just straight; held double, of one strand."""
    stitches: Annotated[int, whole(20, 20_000, typical=200)]
    """Stitches it came out of."""


class Yarn(Model):
    """One yarn of the stash."""

    name: Annotated[str, text(80, example="the drawer wool")] = ""
    """What you call it."""
    colour: Annotated[str, text(80, example="slate")] = ""
    """Its colour, in your words."""
    fibre: Annotated[str, text(80, example="wool")] = ""
    """What it is made of."""
    ball_weight: Annotated[float, grams]
    """What one ball weighs, from the band; of handspun, what a measured piece weighs."""
    ball_length: Annotated[float, metres]
    """How long the yarn of one ball is, from the band; of handspun, of that piece."""
    balls: Annotated[float, number(0, 500, above=True, what="a number", typical="6", thing="ball")]
    """How many balls are in the drawer; a part of a ball counts as a decimal."""
    weights: Annotated[tuple[float, ...], ball_weights] = ()
    """Each ball as it weighs now, in place of `balls`; the bare yarn without its core."""
    lots: Annotated[tuple[str, ...], lot_names] = ()
    """The dye lot of each ball, in the same order, where they differ."""
    strands: Annotated[int, whole(1, 4, typical=2)] = 1
    """How many strands are held together: 2 for a mohair held double."""

    @model_validator(mode="before")
    @classmethod
    def _balls_by_weight(cls, given: Any) -> Any:
        """Count the balls by their weights when only these are given."""
        if not isinstance(given, dict) or "balls" in given or "weights" not in given:
            return given
        return {**given, "balls": weighed_balls(given["weights"], given.get("ball_weight"))}


class Weighing(Model):
    """How yarn is weighed, and how sure the answers are to be."""

    scale: Annotated[float, scale_step] = 1.0
    """The smallest step of your kitchen scale."""
    relaxed: Relaxed = "wet relaxed"
    """How far the counted swatch had settled: laid flat dry, washed and dried, or tumbled."""
    sure: Annotated[float, number(50, 99, what="per cent", typical="90")] = 90.0
    """How sure an answer about the yarn must be, in per cent."""
    swatch: Annotated[_OfSwatch, one_of(*get_args(_OfSwatch))] = "keep"
    """Whether the swatch is kept, or unravelled and knitted in."""
