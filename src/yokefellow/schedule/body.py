"""The rows of the body and its hem."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.schedule.bands import piece_rows
from yokefellow.schedule.darts import closing_row, dart_rows
from yokefellow.schedule.rows import Feature, Op, Row, Section, Step, op, worked
from yokefellow.schedule.steps import change_evenly, knit, plain_round, tidy
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.shapes import BodyShape, SideChange

__all__ = ["body_section", "dart_loops"]


def body_section(body: BodyShape, *, stitches: int, wrapped: bool) -> Section:
    """Work the body from the underarm to the hem, BOR at the right underarm."""
    return Section("body", stitches, tuple(_rows(body, stitches, wrapped=wrapped)))


def _rows(body: BodyShape, stitches: int, *, wrapped: bool) -> Iterator[Row]:
    changes = {change.number: change for change in body.changes}
    darts = {dart.number: dart for dart in body.darts}
    in_bands, to_band, from_band = piece_rows(body.bands)
    front, back = body.front, stitches - body.front
    for number in range(1, body.rounds.got + 1):
        if number in in_bands:
            yield in_bands[number]
        elif number in to_band:
            yield _both_to(front, back, to_band[number], "sm", why="to the band's count")
        elif number in from_band and number < body.rounds.got:
            halves = _shares(front, back, from_band[number])
            yield _to(halves, (front, back), "sm", why="back from the band's count")
        elif number in from_band:
            halves = _shares(front, back, from_band[number])
            yield _to_hem(*halves, body.hem_stitches)
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
        return (op("k"), op("ssk"), *knit(stitches - 6), op("k2tog"), op("k"))
    return knit(stitches)
