"""The rows of the body and its hem."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from yokefellow.rows.bands import piece_rows
from yokefellow.rows.model import Feature, Op, Row, RowKind, Section, Step, op, worked
from yokefellow.rows.neck import marks
from yokefellow.rows.steps import change_evenly, knit, plain_round, side_decreases, tidy
from yokefellow.shaping import BodyShape, Dart, SideChange, nearest


def dart_rows(dart: Dart, *, front: int, back: int, wrapped: bool) -> Iterator[Row]:
    """Work one round of the body as short rows over one half of it, from BOR to BOR.

    Every pair turns nearer to the middle than the one before; the last row
    goes on round to BOR and closes the gaps it meets on the way.

    Args:
        dart: its turns.
        front: stitches of the front, from BOR to the marker at the other side.
        back: stitches of the back.
        wrapped: whether the turns are wrapped, or German.
    """
    ahead, half, behind = (0, front, back) if dart.half == "front" else (front, back, 0)
    why = f"lengthens the {dart.half}"
    # The first row comes from BOR, as if from a turn so far before the near marker.
    inner = -ahead
    for place, turn in enumerate(dart.turns):
        steps = _out(half - turn - inner, wrapped=wrapped, first=place == 0)
        yield Row(steps, *_KINDS[0], why=why)
        yield Row(_home(half - 2 * turn, wrapped=wrapped), *_KINDS[1], why=why)
        inner = turn
    steps = _onward(dart.turns, half=half, behind=behind, wrapped=wrapped)
    yield Row(steps, Feature.SHORT_ROW, RowKind.PART, why=why)


_KINDS = ((Feature.SHORT_ROW, RowKind.RIGHT_SIDE), (Feature.SHORT_ROW, RowKind.WRONG_SIDE))


def _out(stitches: int, *, wrapped: bool, first: bool) -> tuple[Step, ...]:
    """Knit to the far turn; after a German turn the first stitch is doubled."""
    if wrapped:
        return (*knit(stitches), Op("w&t"))
    return (*_after_turn(stitches, first=first), Op("turn"))


def _after_turn(stitches: int, *, first: bool) -> tuple[Step, ...]:
    return knit(stitches) if first else (Op("DS"), *knit(stitches - 1))


def _home(stitches: int, *, wrapped: bool) -> tuple[Step, ...]:
    """Purl back to the near turn."""
    if wrapped:
        return (Op("p", stitches), Op("w&t"))
    return (Op("DS"), Op("p", stitches - 1), Op("turn"))


def _onward(turns: Sequence[int], *, half: int, behind: int, wrapped: bool) -> tuple[Step, ...]:
    """Knit from the last turn to BOR, closing the gap of every far turn."""
    code, marked = _marked(turns, wrapped=wrapped)
    # A marked stitch lies so many stitches from the marker, itself counted.
    start = _after_turn(half - turns[-1] - marked[-1], first=wrapped)
    groups = [(Op(code), *knit(far - near - 1)) for near, far in pairwise(marked)][::-1]
    return tidy((*start, *marks(groups), Op(code), *knit(marked[0] - 1 + behind)))


def closing_row(dart: Dart, *, front: int, back: int, wrapped: bool) -> Row:
    """Knit a whole round, closing the gap of every near turn."""
    code, marked = _marked(dart.turns, wrapped=wrapped)
    ahead = 0 if dart.half == "front" else front
    groups = [(*knit(far - near - 1), Op(code)) for near, far in pairwise(marked)]
    steps = tidy(
        (
            *knit(ahead + marked[0] - 1),
            Op(code),
            *marks(groups),
            *knit(front + back - ahead - marked[-1]),
        )
    )
    return Row(steps, Feature.CLOSE_GAPS, why="closes the gaps of the short rows")


def _marked(turns: Sequence[int], *, wrapped: bool) -> tuple[str, list[int]]:
    """Give how a gap is closed, and which stitches from the side marker bear its mark.

    A German turn leaves it on the last stitch worked, a wrapped one on the
    stitch after it.
    """
    if wrapped:
        return "k wrap", list(turns)
    return "k DS", [turn + 1 for turn in turns]


def body_section(body: BodyShape, *, stitches: int, wrapped: bool) -> Section:
    """Work the body from the underarm to the hem, BOR at the right underarm."""
    return Section("body", stitches, tuple(_rows(body, stitches, wrapped=wrapped)))


def _rows(body: BodyShape, stitches: int, *, wrapped: bool) -> Iterator[Row]:
    changes = {change.number: change for change in body.changes}
    darts = {dart.number: dart for dart in body.darts}
    in_bands, to_band, from_band = piece_rows(body.bands)
    onward = {band.shape.first - 1 for band in body.bands if band.goes_on}
    front, back = body.front, stitches - body.front
    for number in range(1, body.rounds.got + 1):
        if number in in_bands:
            yield in_bands[number]
        elif number in to_band:
            yield _both_to(front, back, to_band[number], "sm", why="to the band's count")
            if number in onward:
                front, back = _shares(front, back, to_band[number])
        elif number in from_band:
            halves = _shares(front, back, from_band[number])
            back_again = _to(halves, (front, back), "sm", why="back from the band's count")
            is_last = number == body.rounds.got
            yield _to_hem(*halves, body.hem_stitches) if is_last else back_again
        elif number in darts:
            yield from dart_rows(darts[number], front=front, back=back, wrapped=wrapped)
        elif number - 1 in darts:
            yield closing_row(darts[number - 1], front=front, back=back, wrapped=wrapped)
        elif number in changes:
            change = changes[number]
            yield _side_changes(front, back, change)
            front, back = front + change.front, back + change.back
        elif number == body.rounds.got and _marker_must_go(body, front + back):
            yield _to_hem(front, back, body.hem_stitches)
        else:
            yield plain_round(front + back)


def _marker_must_go(body: BodyShape, stitches: int) -> bool:
    """Tell whether the marker would lie between two stitches that are worked together."""
    return stitches != body.hem_stitches or body.hem.turning == "picot"


def dart_loops(body: BodyShape, stitches: int, *, wrapped: bool) -> int:
    """Count the loops that the darts of a body add to its plain rounds."""
    loops = 0
    for dart in body.darts:
        above = [change for change in body.changes if change.number < dart.number]
        front = body.front + sum(change.front for change in above)
        back = stitches - body.front + sum(change.back for change in above)
        rows = dart_rows(dart, front=front, back=back, wrapped=wrapped)
        loops += sum(worked(row.steps) for row in rows) - front - back
    return loops


def _both_to(front: int, back: int, count: int, marker: str, *, why: str) -> Row:
    """Go to another count, front and back each by itself."""
    return _to((front, back), _shares(front, back, count), marker, why=why)


def _shares(front: int, back: int, count: int) -> tuple[int, int]:
    """Share a count among front and back as they are."""
    of_front = nearest(count * front / (front + back))
    return of_front, count - of_front


def _to(before: tuple[int, int], after: tuple[int, int], marker: str, *, why: str) -> Row:
    """Go from two halves to two others; the marker between them is slipped or comes off."""
    first, second = map(_half_to, before, after)
    return Row(tidy((*first, Op(marker), *second)), Feature.ADJUST, why=why)


def _half_to(old: int, new: int) -> tuple[Step, ...]:
    return knit(old) if old == new else change_evenly(old, new)


def _to_hem(front: int, back: int, hem: int) -> Row:
    """Go to the hem's count; the marker comes off."""
    why = "takes off the marker" if front + back == hem else "to the hem's count"
    return _both_to(front, back, hem, "rm", why=why)


def _side_changes(front: int, back: int, change: SideChange) -> Row:
    """Change one stitch of the front beside BOR and the marker, or of the back, or of both."""
    steps = (*_between(front, change.front), op("sm"), *_between(back, change.back))
    return Row(steps, Feature.SHAPE, why=_why(change))


def _why(change: SideChange) -> str:
    if change.for_bust:
        return "makes room in the front"
    what = "widens" if change.front > 0 or change.back > 0 else "narrows"
    if change.front and change.back:
        return f"{what} the sides"
    return f"{what} the front" if change.front else f"{what} the back"


def _between(stitches: int, added: int) -> tuple[Step, ...]:
    if added > 0:
        return (op("k"), op("M1L"), *knit(stitches - 2), op("M1R"), op("k"))
    if added < 0:
        return side_decreases(stitches)
    return knit(stitches)
