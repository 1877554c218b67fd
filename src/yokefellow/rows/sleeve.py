"""The rows of a sleeve; both sleeves are worked from them."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.rows.bands import piece_rows
from yokefellow.rows.model import Feature, Op, Row, Section
from yokefellow.rows.neck import adjust
from yokefellow.rows.steps import knit, plain_round, side_decreases
from yokefellow.shaping import SleeveShape

SLEEVES = ("right", "left")
"""In the order in which the split round meets them."""

TO_CUFF = "to the cuff's count"

CORNER = 1
"""Stitches picked up beyond the underarm at each corner, and closed in the next round."""


def sleeve_section(sleeve: SleeveShape, *, held: int, underarm: int) -> Section:
    """Work a sleeve from the held stitches to the cuff, BOR at the centre of the underarm.

    Args:
        sleeve: its shape.
        held: stitches put back from waste yarn.
        underarm: stitches cast on at the underarm, picked up again.
    """
    # Round the sleeve the underarm is met from its other side: first the half that the
    # split cast on first.
    after_bor = underarm - underarm // 2
    before_bor = underarm // 2
    rows = (
        Row(
            (Op("PU", after_bor + CORNER), *knit(held), Op("PU", before_bor + CORNER)),
            Feature.PICK_UP,
            why="underarm and one more at each corner",
        ),
        Row(
            (*knit(after_bor), Op("k2tog"), *knit(held - 2), Op("ssk"), *knit(before_bor)),
            Feature.CORNERS,
            why="closes the corners",
        ),
        *_rounds(sleeve, held + underarm),
    )
    return Section("sleeve", held, rows, SLEEVES)


def _rounds(sleeve: SleeveShape, stitches: int) -> Iterator[Row]:
    decreases = frozenset(sleeve.decreases)
    in_bands, to_band, from_band = piece_rows(sleeve.bands)
    onward = {band.shape.first - 1 for band in sleeve.bands if band.goes_on}
    now = stitches
    for number in range(3, sleeve.rounds.got + 1):
        if number in in_bands:
            yield in_bands[number]
        elif number in to_band:
            yield adjust(now, to_band[number], why="to the band's count")
            if number in onward:
                now = to_band[number]
        elif number in from_band:
            is_last = number == sleeve.rounds.got
            yield _from_band(from_band[number], now, cuff=sleeve.edge.got if is_last else None)
        elif number in decreases:
            yield Row(side_decreases(now), Feature.SHAPE, why="tapers the sleeve")
            now -= 2
        elif number == sleeve.rounds.got and now != sleeve.edge.got:
            yield adjust(now, sleeve.edge.got, why=TO_CUFF)
        else:
            yield plain_round(now)


def _from_band(count: int, now: int, *, cuff: int | None) -> Row:
    """Go back from a band's count; or, in the last round, on to the cuff's."""
    to = now if cuff is None else cuff
    if count == to:
        return plain_round(to)
    return adjust(count, to, why="back from the band's count" if cuff is None else TO_CUFF)
