"""The numbers of a pattern the knitter holds, as frozen models."""

from __future__ import annotations

from typing import Annotated, Literal, get_args

from pydantic import Field

from yokefellow.project_file.chart_fields import whole
from yokefellow.project_file.fields import Model, Reading, one_of, text
from yokefellow.project_file.measure_fields import between, reading, rounds_reading
from yokefellow.project_file.pins import (
    MOST_ROUNDS,
    MOST_STITCHES,
    Fixed,
    IncreaseCounts,
    IncreaseNumbers,
)

MOST_SIZES = 30
"""Sizes of one pattern, at the most."""

BEST = "best"
"""To follow the size that comes nearest."""

_Depth = Literal["body", "pattern"]


class PatternSize(Model):
    """What the pattern prints for one of its sizes; one such table for every size that may serve.

    Leave out what it does not print.
    """

    size: Annotated[str, text(20, example="M")]
    """The size by the pattern's own name."""
    cast_on: Annotated[int | None, whole(8, MOST_STITCHES, typical=100)] = None
    """Stitches cast on at the neck."""
    neck: Annotated[int | None, whole(8, MOST_STITCHES, typical=100)] = None
    """Stitches where its yoke begins, when they are not those cast on."""
    neck_back: Annotated[int | None, whole(2, 400, typical=34)] = None
    """Of a raglan: stitches of the back where the yoke begins, with its share of two lines."""
    neck_front: Annotated[int | None, whole(2, 400, typical=34)] = None
    """Of a raglan: stitches of the front where the yoke begins, with its share of two lines."""
    neck_sleeve: Annotated[int | None, whole(0, 400, typical=16)] = None
    """Of a raglan: stitches of each sleeve where the yoke begins, with its share of two lines."""
    increases: IncreaseCounts = ()
    """Stitches after each increase round of its yoke, in order."""
    increase_at: IncreaseNumbers = ()
    """The rounds of its yoke that increase; the first round after the neckband is 1."""
    yoke_rounds: Annotated[int | None, whole(8, MOST_ROUNDS, typical=65)] = None
    """Rounds of its yoke at the front, from the neckband to the split."""
    yoke: Annotated[int | None, whole(8, MOST_STITCHES, typical=304)] = None
    """Stitches at the end of its yoke, before the split."""
    body: Annotated[int | None, whole(8, MOST_STITCHES, typical=224)] = None
    """Stitches of its body right below the underarm, the underarms with it."""
    sleeve: Annotated[int | None, whole(8, MOST_STITCHES, typical=72)] = None
    """Stitches round the top of each sleeve: those held, and those of the underarm."""
    underarm: Annotated[int | None, whole(2, 400, typical=16)] = None
    """Stitches cast on at each underarm."""
    held: Annotated[int | None, whole(2, MOST_STITCHES, typical=56)] = None
    """Stitches held for each sleeve at the split: those of the sleeve without its underarm."""
    front: Annotated[int | None, whole(8, MOST_STITCHES, typical=96)] = None
    """Stitches of its front at the split, between the underarms."""
    back: Annotated[int | None, whole(8, MOST_STITCHES, typical=96)] = None
    """Stitches of its back at the split, between the underarms."""
    chest: Annotated[float | None, between(30, 260, typical=104)] = None
    """The finished chest it prints."""
    sleeve_length: Annotated[float | None, between(2, 90, typical=44)] = None
    """Underarm to edge of its sleeve."""
    body_length: Annotated[float | None, between(4, 100, typical=36)] = None
    """Underarm to edge of its body."""


class Pattern(Model):
    """The numbers of a pattern you hold, to follow it at your gauge and on your body.

    Only counts and lengths are asked, nothing else of it. If its yoke is knitted upwards,
    type it from the neck down.
    """

    name: Annotated[str, text(80, example="the green book")] = ""
    """What you call it."""
    stitches: Annotated[tuple[Annotated[Reading, reading], ...], Field(max_length=20)] = ()
    """Its stitch gauge."""
    rounds: Annotated[tuple[Annotated[Reading, rounds_reading], ...], Field(max_length=20)] = ()
    """Its row gauge; without it the depths of its rounds are not known."""
    follow: Annotated[str, text(20, example="best")] = BEST
    """The size to follow: best takes the one whose chest comes out nearest at your gauge."""
    depth: Annotated[_Depth, one_of(*get_args(_Depth))] = "body"
    """How deep the yoke becomes: as your body needs it, or as the pattern's own size has it."""
    sizes: Annotated[tuple[PatternSize, ...], Field(min_length=1, max_length=MOST_SIZES)]
    """What it prints, size by size."""


def same_size(one: str, other: str) -> bool:
    """Tell whether two names are of one size, in any case."""
    return one.casefold() == other.casefold()


def counts_of(size: PatternSize) -> Fixed:
    """Give the counts of a size as they would be pinned, before any of them is re-gauged."""
    underarm = _underarm(size)
    return Fixed().model_copy(
        update={
            "neck": size.neck or size.cast_on,
            "neck_back": size.neck_back,
            "neck_front": size.neck_front,
            "neck_sleeve": size.neck_sleeve,
            "increases": size.increases,
            "increase_at": size.increase_at,
            "yoke_rounds": size.yoke_rounds,
            "yoke": size.yoke or (size.increases[-1] if size.increases else _yoke(size)),
            "body": size.body or _sum(size.front, size.back, underarm, underarm),
            "sleeve": size.sleeve or _sum(size.held, underarm),
            "underarm": underarm,
            "front": size.front,
            "back": size.back,
        }
    )


def _sum(*counts: int | None) -> int | None:
    """Add up, where every count is there."""
    known = [count for count in counts if count is not None]
    return sum(known) if len(known) == len(counts) else None


def _yoke(size: PatternSize) -> int | None:
    return _sum(size.front, size.back, size.held, size.held)


def _underarm(size: PatternSize) -> int | None:
    """Give the underarm: as printed, or what the sleeve or the body has beyond the pieces."""
    if size.underarm is not None:
        return size.underarm
    if size.sleeve is not None and size.held is not None:
        under = size.sleeve - size.held
        return under if under > 0 else None
    both = _sum(size.front, size.back)
    if size.body is None or both is None or (size.body - both) % 2 or size.body - both < 4:
        return None
    return (size.body - both) // 2
