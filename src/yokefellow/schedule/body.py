"""The rows of the body and its hem."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.schedule.neck import adjust, rib_rows
from yokefellow.schedule.rows import Feature, Op, Row, Section, Step
from yokefellow.schedule.steps import knit, plain_round, tidy
from yokefellow.shaping.shapes import BodyShape

__all__ = ["body_section", "edge_section"]


def body_section(body: BodyShape, *, stitches: int) -> Section:
    """Work the body from the underarm to the hem, BOR at the right underarm."""
    return Section("body", stitches, tuple(_rounds(body, stitches)))


def _rounds(body: BodyShape, stitches: int) -> Iterator[Row]:
    changes = dict(body.changes)
    now = stitches
    for number in range(1, body.rounds.got + 1):
        change = changes.get(number, 0)
        if change:
            yield _side_changes(now, widen=change > 0)
            now += change
        elif number == body.rounds.got and now != body.hem_stitches:
            yield _to_hem(now, body.hem_stitches)
        else:
            yield plain_round(now)


def _to_hem(stitches: int, hem: int) -> Row:
    """Go to the hem's count, each half by itself: the marker between them comes off."""
    front, front_hem = stitches // 2, hem // 2
    halves = ((front, front_hem), (stitches - front, hem - front_hem))
    first, second = (
        knit(before) if before == after else adjust(before, after, why="").steps
        for before, after in halves
    )
    steps = tidy((*first, Op("rm"), *second))
    return Row(steps, Feature.ADJUST, why="to the hem's count")


def _side_changes(stitches: int, *, widen: bool) -> Row:
    """Change one stitch on either side of BOR and of the marker at the other side."""
    front = stitches // 2
    steps = (*_between(front, widen=widen), Op("sm"), *_between(stitches - front, widen=widen))
    return Row(steps, Feature.SHAPE, why="widens the sides" if widen else "narrows the sides")


def _between(stitches: int, *, widen: bool) -> tuple[Step, ...]:
    if widen:
        return (Op("k"), Op("M1L"), *knit(stitches - 2), Op("M1R"), Op("k"))
    return (Op("k"), Op("ssk"), *knit(stitches - 6), Op("k2tog"), Op("k"))


def edge_section(
    key: str, *, stitches: int, rib: str, rounds: int, copies: tuple[str, ...] = ("",)
) -> Section:
    """Work a ribbed edge and bind it off."""
    bind_off = Row((Op("BO", stitches),), Feature.BIND_OFF, fabric="rib", why="the edge")
    return Section(key, stitches, (*rib_rows(stitches, rib, rounds), bind_off), copies)
