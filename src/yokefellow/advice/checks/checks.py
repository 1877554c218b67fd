"""What to check, each at the row at which it can still be mended.

The sentences are kept here, together, so that they can be read as one text.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from yokefellow.advice.cautions.bands import band_checks
from yokefellow.advice.checks.yoke import count_checks, yoke_checks
from yokefellow.advice.context import Check, Desk, reaches_hips
from yokefellow.project_file.models import Project
from yokefellow.rows.model import Stretch
from yokefellow.shaping import BodyShape, ChartedBand, Edge, FrontNeck
from yokefellow.words import words


def hem_check(desk: Desk) -> Check:
    """Look whether the hem gives."""
    hem = desk.shape.body.hem
    where = "over the hips" if reaches_hips(desk.finished) else "with the body as you breathe"
    folded = hem.finish == "folded"
    return Check(
        "hem",
        1 + hem.all_rounds,
        "look",
        "A fold that gives" if folded else "A bind-off that gives",
        f"The edge must stretch {where}. {mend_edge(hem)}",
    )


def cuff_check(desk: Desk, *, is_long: bool) -> Check:
    """Look whether the cuff goes over the hand, or round the arm where the sleeve is short."""
    cuff = desk.shape.sleeve.cuff
    arm = desk.show(desk.finished.sleeve.arm_cm)
    passes = (
        f"{arm} of arm, and pull over the hand" if is_long else f"{arm} of arm without cutting in"
    )
    return Check(
        "cuff",
        1 + cuff.all_rounds,
        "look",
        "Over the hand" if is_long else "Round the arm",
        f"The edge must go round {passes}. {mend_edge(cuff)} One sleeve done? Begin the "
        "second in the same sitting, if only its pick-up round: second sleeves that wait are the "
        "ones never knitted.",
    )


def mend_edge(edge: Edge) -> str:
    """Tell what to do when it does not."""
    if edge.finish == "folded":
        return "Pull it: if the sewing holds it back, take it out and sew more loosely."
    than = "the rib" if edge.finish == "rib" else "the knitting above it"
    return f"Pull it: if it is tighter than {than}, take it back and bind off more loosely."


def checks(desk: Desk, rows: tuple[Stretch, ...]) -> tuple[Check, ...]:
    """Give every check of the sweater in knitting order."""
    found = [
        *_neck(desk),
        *count_checks(desk, rows),
        *band_checks(desk.project, desk.shape, desk.charts),
        *yoke_checks(desk),
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
        0,
        "look",
        "Not twisted",
        words("checks/neck").twist(),
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


EARLY_CM = 2.5
"""Of a high neckband, after which it is first tried on (our choice)."""


def is_high(project: Project) -> bool:
    """Tell whether the neckband is a high one."""
    return project.garment.neck.finish in ("high", "folded high")


def _first_band(desk: Desk, head: str) -> Iterator[Check]:
    band = desk.shape.neck.band
    # A high band tells as much after its first rounds as at its end.
    early = round(EARLY_CM * band.rounds.per_cm) if is_high(desk.project) else band.all_rounds
    yield Check(
        "neckband",
        1 + min(band.all_rounds, early),
        "try on",
        "Over the head",
        "Slip the stitches onto waste yarn or a long cable and pull the edge over the head: it "
        f"must stretch to {head}. If it is too tight, rip back and cast on again more loosely "
        "or with a larger needle, on the same sheet.",
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
        *_before_the_end(desk.shape.neck.band),
    )
    yield Check(
        "neckband",
        2 + desk.shape.neck.band.all_rounds,
        "look",
        "Over the head",
        f"The edge must stretch to {head}. {mend_edge(desk.shape.neck.band)}",
    )


def _before_the_end(band: Edge) -> tuple[str, str]:
    """Title and words of the last try-on: a fold is sewn, and its two sides belong together."""
    tried = "Try the sweater on with the neckband on a long cable"
    if band.finish == "folded":
        return (
            "Before it is sewn down",
            f"{tried} and its facing folded inside. Now you see how high it stands: if you want it "
            "higher or lower, go back to before the fold; the facing then has as many rounds more "
            "or fewer as the outside.",
        )
    return (
        "Before the bind-off",
        f"{tried}. Now you see how high it stands: work a round or two more or fewer, as you like "
        "it.",
    )


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
        check._replace(number=body.row(_closed(body, check.number)))
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


FIRST_SLEEVE_CM = 4.0
"""Of the first sleeve, after which a sweater is tried on whose body waits (common practice)."""

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
    tried = 2
    if desk.project.garment.work_order == "sleeves first":
        tried = max(2, _after_band(round(FIRST_SLEEVE_CM * desk.plain.rounds_per_cm), sleeve.bands))
        if tried < last:
            yield Check(
                "sleeve",
                tried,
                "try on",
                "First try-on",
                "On the first sleeve: with the body on waste yarn, try the sweater on. The yoke "
                "should reach the underarm, the underarm should lie flat, and the sleeve should "
                "not grip. This is the last moment at which the yoke is quick to mend.",
            )
        else:
            tried = 2
    yield from _measured(desk, "sleeve", last, tried, sleeve.bands)
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
