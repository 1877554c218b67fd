"""The rows of the neckband and of the short rows at the back of the neck."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import cycle, islice, pairwise

from yokefellow.rows.edges import edge_rows, edge_section, ending, outer_fabric
from yokefellow.rows.model import Feature, Op, Repeat, Row, RowKind, Section, Step, flat_ops, net
from yokefellow.rows.steps import change_evenly, knit, rib, tidy
from yokefellow.shaping import Edge, Mitre, NeckShape, PickedUp, ShortRows


def pick_up(stitches: int, *, fabric: str) -> Row:
    """Pick up the stitches of the band, from the centre back round to it."""
    return Row((Op("PU", stitches),), Feature.NECK_EDGE, fabric=fabric, why="the neckband")


def mitred_rows(mitre: Mitre, edge: Edge) -> tuple[Row, ...]:
    """Work a band that decreases at the point of a V, the same on both of its sides.

    The first round sets the stitches; from the second on every round, or every
    other one, takes the centre stitch together with its neighbours. In garter
    stitch that is done in the knitted rounds.
    """
    return tuple(_rounds(mitre, edge))


def _rounds(mitre: Mitre, edge: Edge) -> Iterator[Row]:
    before, after = mitre.before, mitre.after
    falls = [number for number in range(2, edge.all_rounds + 1) if _falls(mitre, edge, number)]
    fabric = outer_fabric(edge)
    for number in range(1, edge.all_rounds + 1):
        name = edge.rib if edge.finish == "rib" else _plain(edge, number)
        middle = rib_repeat(name)[0]
        why = f"{name} rib" if edge.finish == "rib" else "the neckband"
        if number in falls:
            before, after, middle = before - 1, after - 1, Op("CDD")
            why = f"decreases at the point, {falls.index(number) + 1} of {len(falls)}"
        left = _columns(mitre.before, name)[:before]
        right = _columns(mitre.after, name)[:after]
        steps = tidy((*_written(left), middle, *_written(right[::-1])))
        feature = Feature.ADJUST if number in falls else Feature.EDGE
        yield Row(steps, feature, fabric=fabric, why=why)


def _falls(mitre: Mitre, edge: Edge, number: int) -> bool:
    """Tell whether a round decreases at the point."""
    return number % (2 if edge.finish == "garter" else mitre.every) == 0


def _plain(edge: Edge, number: int) -> str:
    return "purl" if edge.finish == "garter" and number % 2 else "knit"


def rib_repeat(name: str) -> tuple[Op, ...]:
    """Give one repeat of a rib, a stitch at a time; or the one stitch of a plain round."""
    if name in ("knit", "purl"):
        return (Op(name[0]),)
    first, second, *_ = flat_ops(rib(4, name))
    return tuple(Op(op.code) for op in (first, second) for _ in range(op.times))


def _columns(stitches: int, name: str) -> list[Op]:
    """List the stitches between BOR and the point, as they stand from the back of the neck.

    The point is a knit column with a purl on either side.
    """
    repeat = rib_repeat(name)
    purls_first = [op for op in repeat if op.code == "p"] + [op for op in repeat if op.code != "p"]
    from_point = list(islice(cycle(purls_first), stitches))
    return from_point[::-1]


def _written(columns: Sequence[Op]) -> tuple[Step, ...]:
    """Write a run of rib with its repeats put together."""
    steps = list(tidy(columns))
    if len(steps) < 4:
        return tuple(steps)
    first = 0 if steps[0].times == steps[2].times else 1
    pair = tuple(steps[first : first + 2])
    times = 1
    while tuple(steps[first + 2 * times : first + 2 * times + 2]) == pair:
        times += 1
    if times == 1:
        return tuple(steps)
    rest = steps[first + 2 * times :]
    return (*steps[:first], Repeat(pair, times), *rest)


def adjust(before: int, after: int, *, why: str) -> Row:
    """Go from one count to another in one plain round, evenly."""
    return Row(change_evenly(before, after), Feature.ADJUST, why=why)


def provisional(neck: NeckShape) -> Section:
    """Cast on so that the neck can be taken up again, and knit one round to stand on."""
    start = neck.stitches.got
    cast_on = Row((Op("CO", start),), Feature.PROVISIONAL, RowKind.PART, why="the open neck")
    return Section("cast_on", 0, (cast_on, Row(knit(start), why="a base for what follows")))


def last_neckband(neck: NeckShape) -> Section:
    """Take up or pick up the stitches of the neck, and work the band outward."""
    if neck.picked is not None:
        return _picked_up(neck, neck.picked)
    start, band = neck.stitches.got, neck.band_stitches
    edge = edge_section("neckband", neck.band, stitches=band)
    first = _to_band(start, band, edge.rows[0].fabric)
    return replace(edge, start=start, rows=(first, *edge.rows))


def _to_band(start: int, band: int, fabric: str) -> Row:
    if start == band:
        return Row(knit(start), fabric=fabric)
    adjusting = adjust(start, band, why="from the yoke's count to the band's")
    return adjusting._replace(fabric=fabric)


def _picked_up(neck: NeckShape, picked: PickedUp) -> Section:
    """Pick up the stitches of the band and work it, with its corner at a V's point."""
    if picked.mitre is None:
        edge = edge_section("neckband", neck.band, stitches=neck.band_stitches)
        start = pick_up(neck.band_stitches, fabric=edge.rows[0].fabric)
        return replace(edge, start=0, rows=(start, *edge.rows))
    start = pick_up(neck.band_stitches, fabric=outer_fabric(neck.band))
    rows = mitred_rows(picked.mitre, neck.band)
    left = neck.band_stitches + sum(net(row.steps) for row in rows)
    return Section("neckband", 0, (start, *rows, ending(neck.band, left)))


def neckband(neck: NeckShape) -> Section:
    """Cast on at the neck and work the band."""
    band = neck.band_stitches
    cast_on = Row(
        (Op("CO", band),),
        Feature.CAST_ON,
        RowKind.PART,
        fabric=outer_fabric(neck.band),
        why="the neck edge",
    )
    rows = [cast_on, *edge_rows(band, neck.band, from_top=True)]
    if band != neck.stitches.got:
        rows.append(adjust(band, neck.stitches.got, why="from the band's count to the yoke's"))
    return Section("neckband", 0, tuple(rows))


def back_neck(plan: ShortRows, *, stitches: int, wrapped: bool) -> Section | None:
    """Work the short rows over the back of the neck, BOR at its centre; None without any."""
    if not plan.turns:
        return None
    rows = _wrapped(plan.turns) if wrapped else _german(plan.turns)
    return Section("back_neck", stitches, rows)


def _short(kind: RowKind, steps: tuple[Step, ...]) -> Row:
    return Row(steps, Feature.SHORT_ROW, kind, why="raises the back of the neck")


def _german(turns: tuple[int, ...]) -> tuple[Row, ...]:
    """Turn on the last stitch worked, which becomes the double stitch of the next row."""
    rows: list[Row] = []
    for pair, turn in enumerate(turns):
        if pair == 0:
            out: tuple[Step, ...] = knit(turn)
        else:
            out = (Op("DS"), *knit(turns[pair - 1] - 1 + turn))
        rows.append(_short(RowKind.RIGHT_SIDE, (*out, Op("turn"))))
        back = (Op("DS"), Op("p", 2 * turn - 1), Op("turn"))
        rows.append(_short(RowKind.WRONG_SIDE, back))
    rows.append(_short(RowKind.PART, (Op("DS"), *knit(turns[-1] - 1))))
    return tuple(rows)


def _wrapped(turns: tuple[int, ...]) -> tuple[Row, ...]:
    """Turn after wrapping the next stitch, which stays unworked."""
    rows: list[Row] = []
    for pair, turn in enumerate(turns):
        out = turn if pair == 0 else turns[pair - 1] + turn
        rows.append(_short(RowKind.RIGHT_SIDE, (*knit(out), Op("w&t"))))
        rows.append(_short(RowKind.WRONG_SIDE, (Op("p", 2 * turn), Op("w&t"))))
    rows.append(_short(RowKind.PART, knit(turns[-1])))
    return tuple(rows)


def closing_round(plan: ShortRows, *, stitches: int, wrapped: bool) -> Row:
    """Knit all the way round, closing the gap at every turn.

    A German turn left its mark on the last stitch worked, a wrapped one on the
    stitch after it.
    """
    code, beyond = ("k wrap", 1) if wrapped else ("k DS", 0)
    marked = [turn + beyond for turn in reversed(plan.turns)]
    near = (*knit(marked[0] - 1), Op(code))
    steps_out = [early_to_late - 1 for early_to_late in (b - a for a, b in pairwise(marked))]
    out = marks([(*knit(gap), Op(code)) for gap in steps_out])
    back = marks([(Op(code), *knit(gap)) for gap in reversed(steps_out)])
    middle = knit(stitches - 2 * marked[-1])
    steps = tidy((*near, *out, *middle, *back, Op(code), *knit(marked[0] - 1)))
    return Row(steps, Feature.CLOSE_GAPS, why="closes the gaps of the short rows")


def marks(groups: list[tuple[Step, ...]]) -> tuple[Step, ...]:
    """Write equal neighbouring groups as a repeat."""
    steps: list[Step] = []
    place = 0
    while place < len(groups):
        same = place
        while same < len(groups) and groups[same] == groups[place]:
            same += 1
        count = same - place
        steps += [Repeat(groups[place], count)] if count > 1 else groups[place]
        place = same
    return tuple(steps)
