"""From the shape in integers to the sections of rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from yokefellow.charts.chart import Chart
from yokefellow.rows.body import body_section
from yokefellow.rows.edges import edge_section
from yokefellow.rows.model import Schedule, Section
from yokefellow.rows.neck import back_neck, last_neckband, neckband, provisional
from yokefellow.rows.raglan import front_section, raglan_section
from yokefellow.rows.round_yoke import split_section, yoke_section
from yokefellow.rows.sleeve import SLEEVES, sleeve_section
from yokefellow.shaping import AnyYoke, BodyShape, RaglanShape, Shape, SleeveShape, Split


def body_sections(body: BodyShape, split: Split, *, wrapped: bool = False) -> tuple[Section, ...]:
    """Give the body and its hem; its darts, if any, wrapped or German."""
    return (
        body_section(body, stitches=split.body.got, wrapped=wrapped),
        edge_section("hem", body.hem, stitches=body.hem_stitches),
    )


def sleeve_sections(sleeve: SleeveShape, split: Split) -> tuple[Section, ...]:
    """Give the sleeve and its cuff, each worked twice."""
    return (
        sleeve_section(sleeve, held=split.held, underarm=split.underarm.got),
        edge_section("cuff", sleeve.cuff, stitches=sleeve.edge.got, copies=SLEEVES),
    )


def compile_schedule(
    shape: Shape, charts: Sequence[Chart] = (), *, wrapped: bool, sleeves_first: bool
) -> Schedule:
    """Give every row of the sweater in knitting order.

    Args:
        shape: the sweater in integers.
        charts: of its bands, in order.
        wrapped: whether short rows are wrapped and turned, or German.
        sleeves_first: whether the body waits and takes what the sleeves leave of the yarn.
    """
    body = body_sections(shape.body, shape.split, wrapped=wrapped)
    sleeves = sleeve_sections(shape.sleeve, shape.split)
    return Schedule(
        (
            *_down_to_the_split(shape, charts, wrapped=wrapped),
            split_section(shape.split, marked=isinstance(shape.yoke, RaglanShape)),
            *((*sleeves, *body) if sleeves_first else (*body, *sleeves)),
            *((last_neckband(shape.neck),) if shape.neck.is_last else ()),
        )
    )


def _down_to_the_split(
    shape: Shape, charts: Sequence[Chart], *, wrapped: bool
) -> Iterator[Section]:
    yoke, neck, front = shape.yoke, shape.neck, shape.front
    if front is not None and isinstance(yoke, RaglanShape):
        yield front_section(yoke, front)
        yield raglan_section(yoke, charts, wrapped=wrapped, done=front.rows.got)
        return
    yield provisional(neck) if neck.is_last else neckband(neck)
    rises = back_neck(yoke.short_rows, stitches=neck.stitches.got, wrapped=wrapped)
    if rises is not None:
        yield rises
    yield _yoke(yoke, charts, wrapped=wrapped)


def _yoke(yoke: AnyYoke, charts: Sequence[Chart], *, wrapped: bool) -> Section:
    if isinstance(yoke, RaglanShape):
        return raglan_section(yoke, charts, wrapped=wrapped)
    return yoke_section(yoke, charts, wrapped=wrapped)
