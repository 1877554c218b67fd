"""What to check, each at the row at which it can still be mended.

The sentences are kept here, together, so that they can be read as one text.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from yokefellow.advice.bands import band_checks
from yokefellow.advice.check import Check
from yokefellow.charts.chart import Chart
from yokefellow.fit import Finished
from yokefellow.gauge import Gauge, Gauges
from yokefellow.project.models import Project
from yokefellow.schedule.rows import Feature, WorkedRow
from yokefellow.shaping.shapes import Shape
from yokefellow.sizing.figures import Figures
from yokefellow.wording import length

__all__ = ["Check", "checks"]

MEASURE_EVERY_CM = 10.0
"""How often a long plain stretch is measured (common practice)."""


@dataclass(frozen=True, slots=True)
class _Desk:
    """Everything a check may speak of."""

    project: Project
    figures: Figures
    finished: Finished
    gauges: Gauges
    shape: Shape
    charts: Sequence[Chart]

    @property
    def show(self) -> Callable[[float], str]:
        return partial(length, unit=self.project.sheet.units)

    @property
    def plain(self) -> Gauge:
        return self.gauges.plain

    def gauge_at(self, number: int) -> Gauge:
        """Give the gauge of a round of the yoke."""
        for band, chart in zip(self.shape.yoke.bands, self.charts, strict=True):
            if band.first <= number <= band.last:
                return self.gauges.of(chart.kind)
        return self.plain

    def depth(self, rounds: int) -> str:
        """Word the depth of some rounds, on the needles and after washing."""
        return self._told(
            rounds / self.plain.unwashed_rounds_per_cm, rounds / self.plain.rounds_per_cm
        )

    def yoke_depth(self, rounds: int) -> str:
        """Word the depth of the first rounds of the yoke, its bands at their own gauge."""
        parts = [("plain", rounds)]
        for band, chart in zip(self.shape.yoke.bands, self.charts, strict=True):
            inside = max(0, min(rounds, band.last) - band.first + 1)
            parts += [(chart.kind.value, inside), ("plain", -inside)]
        gauges = [(self.gauges.of(fabric), number) for fabric, number in parts]
        return self._told(
            sum(number / gauge.unwashed_rounds_per_cm for gauge, number in gauges),
            sum(number / gauge.rounds_per_cm for gauge, number in gauges),
        )

    def _told(self, needles_cm: float, washed_cm: float) -> str:
        needles, washed = self.show(needles_cm), self.show(washed_cm)
        if not self.plain.is_washed or needles == washed:
            return washed
        return f"{needles} on the needles ({washed} once washed)"


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
    desk = _Desk(project, figures, finished, gauges, shape, charts)
    found = [
        *_neck(desk),
        *_increases(rows),
        *band_checks(project, shape, charts),
        *_yoke(desk),
        *_split(desk),
        *_body(desk),
        *_sleeves(desk),
    ]
    order = {worked.section.key: worked.place for worked in reversed(rows)}
    return tuple(sorted(found, key=lambda check: (order[check.section], check.number)))


def _neck(desk: _Desk) -> Iterator[Check]:
    neck = desk.shape.neck
    band_last = 1 + neck.rounds.got
    head = desk.figures.cm("head")
    yield Check(
        "neckband",
        1,
        "look",
        "Not twisted",
        "Lay the stitches out so that the cast-on edge faces inward all the way round, then "
        "join. A twist cannot be undone later: look once more after the first round. BOR, the "
        "beginning of the round, is at the centre back: mark it.",
    )
    yield Check(
        "neckband",
        band_last,
        "try on",
        "Over the head",
        f"Slip the stitches to waste yarn or a long cable and pull the edge over the head. It "
        f"must stretch to {desk.show(head)}. Too tight: begin again with a looser cast-on or a "
        "larger needle. It costs an evening now and the whole sweater later.",
    )


def _increases(rows: tuple[WorkedRow, ...]) -> Iterator[Check]:
    first = True
    for worked in rows:
        if worked.row.feature is not Feature.INCREASE:
            continue
        mend = (
            " One or two short: a missed M1 leaves a wider gap between two increases; find it "
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


def _yoke(desk: _Desk) -> Iterator[Check]:
    yoke = desk.shape.yoke
    at = yoke.shoulder_round
    around_cm = yoke.stitches_at(at) / desk.gauge_at(at).stitches_per_cm
    yield Check(
        "yoke",
        at,
        "measure",
        "Point of the shoulder",
        f"The front measures {desk.yoke_depth(at)} from below the neckband, and the work is "
        f"{desk.show(around_cm)} round. {_row_gauge(desk)}",
    )
    held = desk.shape.split.held
    underarm_cm = desk.shape.split.underarm.cm
    yield Check(
        "yoke",
        yoke.rounds.got,
        "try on",
        "Before the split",
        f"The front measures {desk.yoke_depth(yoke.rounds.got)} from below the neckband, and the "
        f"count is {desk.shape.split.yoke}. Put the stitches on waste yarn and try it on. With "
        f"{held} stitches for each sleeve pinched off and {desk.show(underarm_cm)} "
        "between front and back, the edge should meet just below the armpit without pulling. "
        "It binds: knit two to four more plain rounds. It hangs low: take out plain rounds "
        f"after the last increase round ({yoke.last_increase}), never the increases.",
    )


def _row_gauge(desk: _Desk) -> str:
    ten = 10 * desk.plain.unwashed_rounds_per_cm
    shown = "10 cm" if desk.project.sheet.units == "cm" else "4 in"
    count = ten if desk.project.sheet.units == "cm" else ten * 1.016
    return (
        f"Count the rounds in {shown} of the yoke, unwashed: {count:.0f} was the swatch. If "
        "yours are off by one or more, trust the tape from here on: work plain rounds to the "
        "length, not to the number."
    )


def _split(desk: _Desk) -> Iterator[Check]:
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
        "The marker in the middle of the wearer's right underarm, the first one you came to, is "
        "BOR from here on. The marker in the middle of the left underarm stays, at the other "
        "side.",
    )


def _body(desk: _Desk) -> Iterator[Check]:
    body = desk.shape.body
    early = round(4 * desk.plain.rounds_per_cm)
    if early < body.rounds.got:
        yield Check(
            "body",
            early,
            "try on",
            "First try-on of the body",
            "Put the body on a long cable or waste yarn. The chest should have the ease you "
            "chose, the underarm should lie flat, and the front should not ride up. This is "
            "the last moment at which the yoke is quick to mend.",
        )
    yield from _measured(desk, "body", body.rounds.got, early)
    yield Check(
        "body",
        body.rounds.got,
        "try on",
        "Before the hem",
        f"The body measures {desk.depth(body.rounds.got)} below the underarm; the hem adds "
        f"{desk.show(desk.finished.body.hem_cm)}. Try it on: longer or shorter is your choice "
        "now. Each plain round you add or leave out is "
        f"{1 / desk.plain.rounds_per_cm * 10:.0f} mm.",
    )
    yield Check(
        "hem",
        1 + body.hem_rounds.got,
        "look",
        "A bind-off that gives",
        "The edge must stretch over the hips. Pull it: if it is tighter than the rib, take it "
        "back and bind off with a needle one or two sizes larger.",
    )


def _measured(desk: _Desk, section: str, rounds: int, after: int) -> Iterator[Check]:
    """Measure every 10 cm or so of a long stretch, but not close to another check."""
    every = max(1, round(MEASURE_EVERY_CM * desk.plain.rounds_per_cm))
    for number in range(every, rounds, every):
        if number - after >= every // 2 and rounds - number >= every // 2:
            yield Check(
                section,
                number,
                "measure",
                "Measure",
                f"{desk.depth(number)} below the underarm. More than a finger's width off: "
                "your row gauge has moved; go on by the tape.",
            )


def _sleeves(desk: _Desk) -> Iterator[Check]:
    sleeve = desk.shape.sleeve
    last = sleeve.rounds.got
    yield Check(
        "sleeve",
        2,
        "count",
        "Underarm corners",
        f"{desk.shape.split.sleeve.got} stitches. Look at both corners: a hole there can still "
        "be closed with the tail of the new yarn when the sleeve is done.",
    )
    yield from _measured(desk, "sleeve", last, 2)
    yield Check(
        "sleeve",
        last,
        "try on",
        "Before the cuff",
        f"The sleeve measures {desk.depth(last)} below the underarm; the cuff adds "
        f"{desk.show(desk.finished.sleeve.cuff_cm)}. Try it on and bend the arm. On the second "
        "sleeve, lay it on the first: the same number of rounds, the same number of decreases.",
    )
    yield Check(
        "cuff",
        1 + sleeve.cuff_rounds.got,
        "look",
        "Over the hand",
        f"The edge must go round {desk.show(desk.finished.sleeve.arm_cm)} of arm, and pull over "
        "the hand. One sleeve done? Begin the second in the same sitting, if only its pick-up "
        "round: second sleeves that wait are the ones never knitted.",
    )
