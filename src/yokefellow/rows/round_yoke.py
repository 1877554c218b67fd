"""The rows of the yoke and of the split."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from yokefellow.charts.chart import Chart
from yokefellow.rows.bands import bands_by_round
from yokefellow.rows.model import Feature, Op, Row, RowKind, Section, Step
from yokefellow.rows.neck import closing_round
from yokefellow.rows.steps import increase_evenly, knit, plain_round
from yokefellow.shaping import Split, YokeShape


def yoke_section(yoke: YokeShape, charts: Sequence[Chart] = (), *, wrapped: bool) -> Section:
    """Work the yoke from the neck to the underarm, its bands from their charts."""
    return Section("yoke", yoke.start, tuple(_rounds(yoke, charts, wrapped=wrapped)))


def _rounds(yoke: YokeShape, charts: Sequence[Chart], *, wrapped: bool) -> Iterator[Row]:
    in_bands = bands_by_round(yoke.bands, charts)
    increases = {step.number: (place, step) for place, step in enumerate(yoke.increase_rounds)}
    live = yoke.start
    for number in range(1, yoke.rounds.got + 1):
        if number in in_bands:
            live = yoke.stitches_at(number)
            yield in_bands[number]
        elif number in increases:
            place, step = increases[number]
            live = step.after
            yield Row(
                increase_evenly(step.before, step.increases, midway=place % 2 == 1),
                Feature.INCREASE,
                why=f"increase round {place + 1} of {len(increases)}",
            )
        elif number == 1 and yoke.short_rows.turns:
            yield closing_round(yoke.short_rows, stitches=yoke.start, wrapped=wrapped)
        else:
            yield plain_round(live)


def split_section(split: Split, *, marked: bool) -> Section:
    """Put the sleeves on waste yarn, cast on the underarms, and move BOR to the right one.

    BOR is at the centre back. Worked from the top with the right side out,
    the round runs to the wearer's right: half the back, right sleeve, front,
    left sleeve, the other half of the back.

    Args:
        split: the counts.
        marked: whether a marker lies between each two pieces, to be taken off.
    """
    off: tuple[Step, ...] = (Op("rm"),) if marked else ()
    half = split.back // 2
    behind = split.underarm_back
    before_left = split.front_total - split.front - split.underarm_front
    steps = (
        *knit(half),
        *off,
        *_sleeve(split, behind, split.underarm_front),
        *off,
        *knit(split.front),
        *off,
        *_sleeve(split, before_left, split.underarm.got - before_left),
        *off,
        *knit(split.back - half),
    )
    to_marker = (Op("rm"), *knit(half + behind))
    return Section(
        "split",
        split.yoke,
        (
            Row(steps, Feature.SPLIT, why="body and sleeves part"),
            Row(to_marker, Feature.MOVE_BOR, RowKind.PART, why="BOR moves to the right underarm"),
        ),
    )


def _sleeve(split: Split, first: int, second: int) -> tuple[Step, ...]:
    """Put a sleeve aside and cast on its underarm, the marker between front and back."""
    return (
        Op("hold", split.held),
        *((Op("CO", first),) if first else ()),
        Op("pm"),
        *((Op("CO", second),) if second else ()),
    )
