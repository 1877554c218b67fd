"""What to check, each at the row at which it can still be mended.

The sentences are kept here, together, so that they can be read as one text.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from yokefellow.advice.bands import band_checks
from yokefellow.advice.check import Check
from yokefellow.advice.desk import Desk
from yokefellow.advice.edge_checks import cuff_check, hem_check, mend_edge
from yokefellow.advice.raglan_checks import has_plain_rounds, raglan_counts
from yokefellow.charts.chart import Chart
from yokefellow.fit import Finished
from yokefellow.gauge import Gauges
from yokefellow.project.models import Project
from yokefellow.schedule.rows import Feature, WorkedRow
from yokefellow.shaping.front_neck import FrontNeck
from yokefellow.shaping.shapes import AnyYoke, BodyShape, ChartedBand, RaglanShape, Shape
from yokefellow.sizing.figures import Figures

__all__ = ["Check", "checks"]


def checks(
    project: Project,
    figures: Figures,
    finished: Finished,
    gauges: Gauges,
    shape: Shape,
    rows: tuple[WorkedRow, ...],
    charts: Sequence[Chart] = (),
) -> tuple[Check, ...]:
    """Give every check of the sweater in knitting order."""
    desk = Desk(project, figures, finished, gauges, shape, charts)
    found = [
        *_neck(desk),
        *(
            raglan_counts(shape.yoke, shape)
            if isinstance(shape.yoke, RaglanShape)
            else _increases(rows)
        ),
        *band_checks(project, shape, charts),
        *_yoke(desk),
        *_split(desk),
        *_body(desk),
        *_sleeves(desk),
    ]
    order = {worked.section.key: worked.place for worked in reversed(rows)}
    return tuple(sorted(found, key=lambda check: (order[check.section], check.number)))


def _neck(desk: Desk) -> Iterator[Check]:
    is_last = desk.shape.neck.is_last
    head = desk.show(desk.figures.cm("head"))
    if desk.shape.front is not None:
        yield from _joined(desk, desk.shape.front)
        yield from _last_band(desk, head)
        return
    yield Check(
        "cast_on" if is_last else "neckband",
        1,
        "look",
        "Not twisted",
        "Lay the stitches out so that the cast-on edge faces inward all the way round, then "
        "join. A twist cannot be undone later: look once more after the first round. BOR, the "
        "beginning of the round, is at the centre back: mark it.",
    )
    yield from _last_band(desk, head) if is_last else _first_band(desk, head)


def _joined(desk: Desk, front: FrontNeck) -> Iterator[Check]:
    yield Check(
        "front",
        1 + front.rows.got,
        "look",
        "Before you go round",
        f"The fronts are {front.rows.got} rows deep, as the tape meets them "
        f"{desk.show(front.rows.got / desk.plain.unwashed_rounds_per_cm)}, and both have the same "
        "count. Lay the work in a ring, the right side outwards: nothing may be twisted, for a "
        "twist cannot be undone later.",
    )


def _first_band(desk: Desk, head: str) -> Iterator[Check]:
    yield Check(
        "neckband",
        1 + desk.shape.neck.band.all_rounds,
        "try on",
        "Over the head",
        f"Slip the stitches to waste yarn or a long cable and pull the edge over the head. It "
        f"must stretch to {head}. Too tight: begin again with a looser cast-on or a "
        "larger needle. It costs an evening now and the whole sweater later.",
    )


def _last_band(desk: Desk, head: str) -> Iterator[Check]:
    if desk.shape.neck.picked is not None:
        yield Check(
            "neckband",
            1,
            "count",
            "Count",
            f"{desk.shape.neck.band_stitches} stitches, and as many on the left half as on the "
            "right, or one or two more. Look along the edge: a hole where a stitch was picked up "
            "too far from the edge is closed by taking its neighbour instead.",
        )
    yield Check(
        "neckband",
        1 + desk.shape.neck.band.all_rounds,
        "try on",
        "Before the bind-off",
        "Try the sweater on with the neckband on a long cable. Now you see how high it stands: "
        "work a round or two more or fewer, as you like it.",
    )
    yield Check(
        "neckband",
        2 + desk.shape.neck.band.all_rounds,
        "look",
        "Over the head",
        f"The edge must stretch to {head}. {mend_edge(desk.shape.neck.band)}",
    )


def _increases(rows: tuple[WorkedRow, ...]) -> Iterator[Check]:
    first = True
    for worked in rows:
        if worked.row.feature is not Feature.INCREASE:
            continue
        mend = (
            " One or two short: a missed M1L leaves a wider gap between two increases; find it "
            "and lift the bar there now. Count after every increase round."
            if first
            else ""
        )
        yield Check(
            worked.section.key,
            worked.number,
            "count",
            "Count",
            f"{worked.after} stitches.{mend}",
        )
        first = False


def _yoke(desk: Desk) -> Iterator[Check]:
    yoke = desk.shape.yoke
    at = _outside_bands(yoke, yoke.shoulder_round)
    around = desk.width(yoke.stitches_at(at), desk.gauge_at(at))
    yield Check(
        *desk.shape.at(at),
        "measure",
        "Over the shoulders" if isinstance(yoke, RaglanShape) else "Point of the shoulder",
        f"{_side(desk)} measures {desk.yoke_depth(at)}, and the work is "
        f"{around} round. {_row_gauge(desk, at)}",
    )
    held = desk.shape.split.held
    underarm_cm = desk.shape.split.underarm.cm
    yield Check(
        *desk.shape.at(yoke.rounds.got),
        "try on",
        "Before the split",
        f"{desk.neck_edge} the {desk.side} measures {desk.yoke_depth(yoke.rounds.got)}"
        f"{_armhole(desk)}, and the count is {desk.shape.split.yoke}. Put the stitches on "
        "waste yarn and try it on. With "
        f"{held} stitches for each sleeve pinched off and {desk.show(underarm_cm)} "
        "between front and back, the edge should meet just below the armpit without pulling. "
        f"It binds: knit two to four more plain rounds. It hangs low: {_take_out(desk)}",
    )


def _side(desk: Desk) -> str:
    """Say where a depth is measured: a raglan's shoulder lies along the sleeve."""
    if isinstance(desk.shape.yoke, RaglanShape):
        return f"{_from(desk)} along the middle of a sleeve, over the shoulder, the yoke"
    return f"{desk.neck_edge} the front"


def _from(desk: Desk) -> str:
    return desk.neck_edge.removesuffix(" at the back of the neck")


def _armhole(desk: Desk) -> str:
    """Tell how deep a raglan's armhole is: half of the sleeve's top lies before the shoulder."""
    yoke = desk.shape.yoke
    if not isinstance(yoke, RaglanShape) or not yoke.sleeve.start:
        return ""
    return f", which is {desk.show(yoke.armhole_cm)} from the top of the shoulder once washed"


def _outside_bands(yoke: AnyYoke, number: int) -> int:
    """Give the round, or the last of the band it lies in: a band is not interrupted."""
    inside = [band.last for band in yoke.bands if band.first <= number < band.last]
    return inside[0] if inside else number


def _take_out(desk: Desk) -> str:
    yoke = desk.shape.yoke
    last = max([yoke.last_increase, *(band.last for band in yoke.bands)])
    if isinstance(yoke, RaglanShape) and not yoke.bands and has_plain_rounds(yoke):
        return (
            "take it back a little, and work the last increase rounds with fewer plain rounds "
            "between them."
        )
    if last >= yoke.rounds.got:
        return "choose a shallower yoke and begin again from the last increase round."
    return f"take out plain rounds below round {desk.shape.at(last)[1]}, never the increases" + (
        " or a band." if yoke.bands else "."
    )


def _row_gauge(desk: Desk, at: int) -> str:
    """Tell what to do when the rounds are not as high as the swatch's."""
    tape_cm, shown = desk.tape
    count = tape_cm * desk.plain.unwashed_rounds_per_cm
    swatch = (
        f"the swatch had {count:.0f} before washing"
        if desk.knows_unwashed
        else f"the washed swatch had {count:.0f}, and unwashed it may be one or two more or fewer"
    )
    words = f"Count the rounds in {shown} of plain knitting: {swatch}. If yours are further off, "
    if isinstance(desk.shape.yoke, RaglanShape):
        end = desk.yoke_on_needles(desk.shape.yoke.rounds.got)
        return (
            f"{words}keep the increases as they are written: they bring the counts. Add or leave "
            "out plain rounds between the slower ones, and split when the "
            f"{desk.side} measures {end}."
        )
    words += "go on by the tape and not by the number of plain rounds"
    places = ", ".join(_places_below(desk, at))
    return f"{words}: {places}." if places else f"{words}."


def _places_below(desk: Desk, at: int) -> Iterator[str]:
    """Word the depth at which each thing below a round begins, as the tape meets it."""
    yoke = desk.shape.yoke
    total = len(yoke.increase_rounds)
    below = [
        (step.number, f"work increase round {place} of {total}")
        for place, step in enumerate(yoke.increase_rounds, start=1)
        if step.number > at
    ]
    below += [(band.first, f"begin {band.name}") for band in yoke.bands if band.first > at]
    below.append((yoke.rounds.got + 1, "split"))
    for number, what in sorted(below):
        yield f"{what} when the front measures {desk.yoke_on_needles(number - 1)}"


def _split(desk: Desk) -> Iterator[Check]:
    split = desk.shape.split
    yield Check(
        "split",
        1,
        "count",
        "Body and sleeves",
        f"{split.body.got} stitches are on the needle: back {split.back}, front {split.front} "
        f"and {split.underarm.got} at each underarm. {split.held} wait on each waste yarn. "
        f"({split.yoke} = {split.back} + {split.front} + {split.held} + {split.held}.)",
    )
    yield Check(
        "split",
        2,
        "look",
        "A new beginning",
        "The marker at the wearer's right underarm, the first one you came to, is BOR from here "
        "on. The marker at the left underarm stays, at the other side.",
    )


def _closed(body: BodyShape, number: int) -> int:
    """Give a round, or the next where it is worked as short rows whose gaps are still open."""
    return number + any(dart.number == number for dart in body.darts)


def _darts(desk: Desk) -> Iterator[Check]:
    """Look at each dart when the gaps of its short rows are closed."""
    body = desk.shape.body
    for dart in body.darts:
        deep = desk.depth(dart.rows)
        yield Check(
            "body",
            body.row(dart.number + 1),
            "look",
            f"The {dart.half} is longer",
            f"Lay the body flat. Straight down the middle of the {dart.half} the work is {deep} "
            "deeper below the underarm than at the markers; measure at the markers from here "
            "on. Every gap is closed, and both sides are alike: the turns lie as far from the "
            "one marker as from the other.",
        )


def _body(desk: Desk) -> Iterator[Check]:
    body = desk.shape.body
    yield from _darts(desk)
    early = _closed(body, _after_band(round(4 * desk.plain.rounds_per_cm), body.bands))
    if early < body.rounds.got:
        yield Check(
            "body",
            body.row(early),
            "try on",
            "First try-on of the body",
            "Put the body on a long cable or waste yarn. The chest should have the ease you "
            "chose, the underarm should lie flat, and the front should not ride up. This is "
            "the last moment at which the yoke is quick to mend.",
        )
    yield from (
        replace(check, number=body.row(_closed(body, check.number)))
        for check in _measured(desk, "body", body.rounds.got, early, body.bands)
    )
    yield Check(
        "body",
        body.row(body.rounds.got),
        "try on",
        "Before the hem",
        f"The body measures {desk.depth(body.rounds.got, body.bands)} below the underarm; the hem "
        f"adds {desk.show(desk.finished.body.hem_cm)}. Try it on: longer or shorter is your choice "
        f"now. {_a_round(desk)}",
    )
    yield hem_check(desk)


def _a_round(desk: Desk) -> str:
    tape_cm, _ = desk.tape
    rounds = tape_cm / 4 * desk.plain.rounds_per_cm
    inch = "1 in" if desk.in_inches else "2.5 cm"
    return f"About {rounds:.0f} plain rounds more or fewer are {inch}."


def _measured(
    desk: Desk, section: str, rounds: int, after: int, bands: Sequence[ChartedBand]
) -> Iterator[Check]:
    """Measure where the tape reads 10, 20, 30 cm (4, 8, 12 in), but not close to another check.

    A band is not interrupted: it is measured when it is done.
    """
    every = desk.tape[0] * desk.plain.unwashed_rounds_per_cm
    for step in range(1, int(rounds / every) + 1):
        number = _after_band(round(step * every), bands)
        if number - after >= every / 2 and rounds - number >= every / 2:
            yield Check(
                section,
                number,
                "measure",
                "Measure",
                f"{desk.depth(number, bands)} below the underarm. More than a finger's width off: "
                "your row gauge has moved; go on by the tape.",
            )


def _after_band(number: int, bands: Sequence[ChartedBand]) -> int:
    inside = [b.shape.last for b in bands if b.shape.first <= number < b.shape.last]
    return inside[0] if inside else number


BENDS = 0.4
"""Share of the arm from which a sleeve lies at the elbow or below (common practice)."""


def _sleeves(desk: Desk) -> Iterator[Check]:
    sleeve, is_long = desk.shape.sleeve, desk.finished.sleeve.share >= BENDS
    last = sleeve.rounds.got
    yield Check(
        "sleeve",
        2,
        "count",
        "Underarm corners",
        f"{desk.shape.split.sleeve.got} stitches. Look at both corners: a hole there can still "
        "be closed with the tail of the new yarn when the sleeve is done.",
    )
    yield from _measured(desk, "sleeve", last, 2, sleeve.bands)
    move = "bend the arm" if is_long else "lift the arm"
    yield Check(
        "sleeve",
        last,
        "try on",
        "Before the cuff",
        f"The sleeve measures {desk.depth(last, sleeve.bands)} below the underarm; the cuff adds "
        f"{desk.show(desk.finished.sleeve.cuff_cm)}. Try it on and {move}. On the second "
        "sleeve, lay it on the first: the same number of rounds, the same number of decreases. "
        "Go straight on to the cuff.",
    )
    yield cuff_check(desk, is_long=is_long)
