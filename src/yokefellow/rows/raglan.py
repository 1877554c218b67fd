"""The rows of a raglan yoke: four markers, and increases on either side of the lines.

A marker lies in every line, between the stitches that belong to the body and
those that belong to the sleeve, so that the count between two markers is the
count of the piece. Round 1 hangs them.

The rows of a raglan whose fronts are worked flat, down to the row that joins them.

A right-side row runs from the left front's edge over the left sleeve, the
back and the right sleeve to the right front's edge, as the rounds below do; a
wrong-side row runs back. The first row back places the markers, so that the
increase rounds of the raglan, which are even, all have the right side facing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from types import MappingProxyType
from typing import NamedTuple

from yokefellow.charts.chart import Chart
from yokefellow.rows.bands import bands_by_round
from yokefellow.rows.model import Feature, Op, Row, RowKind, Section, Step, op, taken
from yokefellow.rows.neck import closing_round
from yokefellow.rows.steps import knit, plain_round, tidy, with_markers
from yokefellow.shaping import FrontNeck, RaglanPiece, RaglanShape


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
        return Row(steps, Feature.MARK, why="places a marker in each line")
    row = closing_round(yoke.short_rows, stitches=yoke.start, wrapped=wrapped)
    why = "closes the gaps of the short rows, and places a marker in each line"
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


_WRONG_SIDE = MappingProxyType(
    {"k": "p", "M1L": "M1LP", "M1R": "M1RP", "kfb": "pfb", "yo": "yo", "sm": "sm", "CO": "CO"}
)
"""What is worked on the way back, so that the right side shows the same."""


def front_section(yoke: RaglanShape, neck: FrontNeck) -> Section:
    """Cast on the back, the sleeves and the edges of the front, and work flat to the join."""
    stitches = yoke.back.start + 2 * yoke.sleeve.start + 2 * neck.edge
    cast_on = Row((Op("CO", stitches),), Feature.CAST_ON, RowKind.FLAT_RIGHT, why="the neck edge")
    rows = (cast_on, _first_front(yoke, neck), *_rows(yoke, neck), _to_back(yoke, neck))
    return Section("front", 0, rows)


def _first_front(yoke: RaglanShape, neck: FrontNeck) -> Row:
    """Purl back and hang a marker in each line."""
    steps: list[Step] = []
    sleeve = yoke.sleeve.start
    for stitches in (neck.edge, sleeve, yoke.back.start, sleeve):
        steps += [Op("p", stitches), Op("pm")]
    why = "places a marker in each line"
    return Row((*steps, Op("p", neck.edge)), Feature.MARK, RowKind.FLAT_WRONG, why=why)


def _rows(yoke: RaglanShape, neck: FrontNeck) -> Iterator[Row]:
    growing = tuple(step.number for step in yoke.increase_rounds)
    for number in range(2, neck.rows.got + 1):
        steps = _row(yoke, neck, number)
        if number == neck.rows.got:
            across = (Op("CO", neck.centre),) if neck.centre else ()
            grown = _why(yoke, neck, number, growing)
            why = f"{grown}; joins the fronts" if grown else "joins the fronts"
            yield Row((*steps, *across), Feature.JOIN, RowKind.FLAT_RIGHT, why=why)
        elif number % 2:
            back = tidy(Op(_WRONG_SIDE[op.code], op.times) for op in reversed(steps))
            yield _flat(back, RowKind.FLAT_WRONG, _why(yoke, neck, number, growing))
        else:
            yield _flat(steps, RowKind.FLAT_RIGHT, _why(yoke, neck, number, growing))


def _flat(steps: tuple[Step, ...], kind: RowKind, why: str) -> Row:
    if why:
        return Row(steps, Feature.INCREASE, kind, why=why)
    return Row((Op("p" if kind is RowKind.FLAT_WRONG else "k", taken(steps)),), kind=kind)


def _why(yoke: RaglanShape, neck: FrontNeck, number: int, growing: tuple[int, ...]) -> str:
    """Say which pieces gain stitches in a row, and how far the neck's edges are."""
    lines = (
        f"increase row {growing.index(number) + 1} of {len(growing)}: {piece_words(yoke, number)}"
        if number in growing
        else ""
    )
    edges = (
        f"both neck edges, {neck.increases.index(number) + 1} of {len(neck.increases)}"
        if number in neck.increases
        else ""
    )
    return "; ".join(filter(None, (lines, edges)))


def _row(yoke: RaglanShape, neck: FrontNeck, number: int) -> tuple[Op, ...]:
    """Work a row with the right side facing, from the left front's edge to the right one's."""
    back, sleeve = (
        Piece(piece.stitches_at(number - 1), share, number in piece.rounds)
        for piece, share in ((yoke.back, yoke.body_share), (yoke.sleeve, yoke.sleeve_share))
    )
    half = Piece(_each_front(yoke, neck, number - 1), yoke.body_share, number in yoke.front.rounds)
    grows = number in neck.increases
    line, marker = INCREASES[yoke.line.increase], (Op("sm"),)
    plain = half.stitches - end_of(half, line) - grows
    arm = whole(sleeve, line)
    steps = (
        *((Op("k"), Op("M1L")) if grows else ()),
        *knit(plain),
        *end(half, line),
        *(*marker, *arm, *marker),
        *whole(back, line),
        *(*marker, *arm, *marker),
        *beginning(half, line),
        *knit(plain),
        *((Op("M1R"), Op("k")) if grows else ()),
    )
    return tuple(step for step in tidy(steps) if isinstance(step, Op))


def _each_front(yoke: RaglanShape, neck: FrontNeck, number: int) -> int:
    """Give the stitches of each front after a row."""
    return neck.each(number, grown=yoke.front.stitches_at(number) - yoke.front.start)


def _to_back(yoke: RaglanShape, neck: FrontNeck) -> Row:
    """Go on, round now, over the left front and sleeve to the centre back: BOR from there."""
    last = neck.rows.got
    back = yoke.back.stitches_at(last)
    stitches = _each_front(yoke, neck, last) + yoke.sleeve.stitches_at(last) + back - back // 2
    why = "BOR goes to the centre back"
    return Row(knit(stitches), Feature.JOIN, RowKind.PART, why=why)
