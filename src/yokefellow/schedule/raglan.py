"""The rows of a raglan yoke: four markers, and increases on either side of the lines.

A marker lies in every line, between the stitches that belong to the body and
those that belong to the sleeve, so that the count between two markers is the
count of the piece. Round 1 hangs them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

from yokefellow.charts.chart import Chart
from yokefellow.schedule.bands import bands_by_round
from yokefellow.schedule.neck import closing_round
from yokefellow.schedule.rows import Feature, Op, Row, Section, Step, op
from yokefellow.schedule.steps import knit, plain_round, tidy, with_markers
from yokefellow.shaping.shapes import RaglanPiece, RaglanShape

__all__ = [
    "INCREASES",
    "Increase",
    "Piece",
    "beginning",
    "end",
    "end_of",
    "piece_words",
    "raglan_section",
    "whole",
]


class Increase(NamedTuple):
    """How a stitch is added beside a line."""

    before: str
    after: str
    takes: int
    """Stitches of the piece that one increase uses."""


INCREASES = MappingProxyType(
    {
        "lifted": Increase("M1R", "M1L", 0),
        "yarn over": Increase("yo", "yo", 0),
        "front and back": Increase("kfb", "kfb", 1),
    }
)


class Piece(NamedTuple):
    """A piece before an increase round."""

    stitches: int
    share: int
    """Of each line beside it."""
    grows: bool


def raglan_section(
    yoke: RaglanShape, charts: Sequence[Chart] = (), *, wrapped: bool, done: int = 0
) -> Section:
    """Work the yoke from the neck to the underarm, its bands below the increases.

    Args:
        yoke: its shape.
        charts: of its bands, in order.
        wrapped: whether the short rows above were wrapped and turned.
        done: rows already worked flat, which have hung the markers.
    """
    rounds = tuple(_rounds(yoke, charts, wrapped=wrapped))
    return Section("yoke", yoke.stitches_at(done), rounds[done:])


def _rounds(yoke: RaglanShape, charts: Sequence[Chart], *, wrapped: bool) -> Iterator[Row]:
    in_bands = bands_by_round(yoke.bands, charts)
    steps = yoke.increase_rounds
    places = {step.number: (place, step.after) for place, step in enumerate(steps, start=1)}
    pieces = _pieces(yoke)
    live = yoke.start
    yield _first(yoke, wrapped=wrapped)
    for number in range(2, yoke.rounds.got + 1):
        if number in in_bands:
            live = yoke.stitches_at(number)
            yield in_bands[number]
        elif number in places:
            place, live = places[number]
            back, front, sleeve = (piece.before(number) for piece in pieces)
            words = _words(back=back.grows, front=front.grows, sleeves=sleeve.grows)
            why = f"increase round {place} of {len(places)}: {words}"
            worked = _increase_round(back, front, sleeve, INCREASES[yoke.line.increase])
            yield Row(worked, Feature.INCREASE, why=why)
        else:
            yield plain_round(live)


def _first(yoke: RaglanShape, *, wrapped: bool) -> Row:
    """Hang the markers, and close the gaps of the short rows in passing."""
    back, sleeve, front = yoke.back.start // 2, yoke.sleeve.start, yoke.front.start
    at = (back, back + sleeve, back + sleeve + front, back + 2 * sleeve + front)
    if not yoke.short_rows.turns:
        steps = with_markers(knit(yoke.start), at)
        return Row(steps, Feature.MARK, why="hangs a marker in each line")
    row = closing_round(yoke.short_rows, stitches=yoke.start, wrapped=wrapped)
    why = "closes the gaps of the short rows, and hangs a marker in each line"
    return Row(with_markers(row.steps, at), row.feature, why=why)


class _Growing(NamedTuple):
    """A piece, and when it grows."""

    piece: RaglanPiece
    share: int
    rounds: frozenset[int]

    def before(self, number: int) -> Piece:
        """Give it before a round."""
        return Piece(self.piece.stitches_at(number - 1), self.share, number in self.rounds)


def _pieces(yoke: RaglanShape) -> tuple[_Growing, ...]:
    def growing(piece: RaglanPiece, share: int) -> _Growing:
        return _Growing(piece, share, frozenset(piece.rounds))

    body = yoke.body_share
    return (
        growing(yoke.back, body),
        growing(yoke.front, body),
        growing(yoke.sleeve, yoke.sleeve_share),
    )


def _increase_round(back: Piece, front: Piece, sleeve: Piece, way: Increase) -> tuple[Step, ...]:
    """Work from the centre back round to it: half the back, sleeve, front, sleeve, half back."""
    (first, last), sleeves, marker = _halves(back, way), whole(sleeve, way), op("sm")
    return (
        *first,
        marker,
        *sleeves,
        marker,
        *whole(front, way),
        marker,
        *sleeves,
        marker,
        *last,
    )


@lru_cache(maxsize=4096)
def _halves(back: Piece, way: Increase) -> tuple[tuple[Step, ...], tuple[Step, ...]]:
    """Work the back from its centre to a line, and from a line to its centre."""
    half, at_line = back.stitches // 2, end_of(back, way)
    return (
        tidy((*knit(half - at_line), *end(back, way))),
        tidy((*beginning(back, way), *knit(back.stitches - half - at_line))),
    )


def end_of(piece: Piece, way: Increase) -> int:
    """Give the stitches of a piece that its end beside a line uses: its share, and the increase."""
    return piece.share + (way.takes if piece.grows else 0)


def end(piece: Piece, way: Increase) -> tuple[Step, ...]:
    """Work the end of a piece, before a line."""
    grown = (op(way.before),) if piece.grows else ()
    return (*grown, *knit(piece.share))


def beginning(piece: Piece, way: Increase) -> tuple[Step, ...]:
    """Work the beginning of a piece, after a line."""
    grown = (op(way.after),) if piece.grows else ()
    return (*knit(piece.share), *grown)


@lru_cache(maxsize=4096)
def whole(piece: Piece, way: Increase) -> tuple[Step, ...]:
    """Work a piece between two markers."""
    if piece.grows and piece.stitches == 0:
        # No stitch to lift a bar beside: two loops are the first two stitches.
        return (Op("CO", 2),)
    middle = piece.stitches - 2 * end_of(piece, way)
    return tidy((*beginning(piece, way), *knit(middle), *end(piece, way)))


def piece_words(yoke: RaglanShape, number: int) -> str:
    """Name the pieces that increase in a round: `all pieces`, `back and front`, `sleeves`."""
    return _words(
        back=number in yoke.back.rounds,
        front=number in yoke.front.rounds,
        sleeves=number in yoke.sleeve.rounds,
    )


@lru_cache(maxsize=8)
def _words(*, back: bool, front: bool, sleeves: bool) -> str:
    if back and front and sleeves:
        return "all pieces"
    named = {"back": back, "front": front, "sleeves": sleeves}
    return " and ".join(name for name, grows in named.items() if grows)
