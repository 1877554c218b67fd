"""The sentences for a neck that is finished later: provisional cast-on, fronts worked flat, band.

The ways are common practice of the trade; the words are ours.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from yokefellow.plan import Plan
from yokefellow.quantities import length
from yokefellow.rows.model import Section, flat_ops, made
from yokefellow.shaping.front_neck import FrontNeck
from yokefellow.shaping.picked_up import PickedUp
from yokefellow.shaping.yoke_shapes import RaglanShape
from yokefellow.sheet.raglan import open_lines

__all__ = [
    "TO_JOIN",
    "cast_on_words",
    "front_words",
    "high_words",
    "last_neckband_words",
    "provisional_words",
]

TO_JOIN = (
    "To join, hold the needle with the last stitch cast on in your right hand and the first "
    "in your left. Place a marker on the right needle: this is BOR, at the center back. Work "
    "the first stitch with the yarn that hangs from the right needle and pull it snug."
)

TIGHT = 1.25
"""An edge that must stretch farther than this deserves a cast-on that gives more than most."""


def cast_on_words(plan: Plan) -> str:
    """Say how to cast on so that the edge goes over the head."""
    need = plan.figures.cm("head") / plan.shape.neck.opening_cm
    loosely = (
        "Cast on loosely, with a method that stretches (long-tail, over the needle held a little "
        "apart): the edge must go over the head."
    )
    if need < TIGHT:
        return loosely
    return (
        f"{loosely} It must stretch to {need:.1f} times its width, so a twisted long-tail cast-on "
        "is better still (the old Norwegian way): go with the needle under both strands of the "
        "loop on the thumb, down into the loop and out towards you, take the strand of the "
        "forefinger, and bring it back the way you came, turning the thumb a little to let it "
        "through."
    )


def high_words(plan: Plan) -> Iterator[str]:
    """Say how a high neckband stands."""
    neck, unit = plan.shape.neck, plan.project.sheet.units
    finish = plan.project.garment.neck.finish
    if finish == "high":
        yield (
            f"The neckband stands high: {neck.rounds.got} rounds of rib, "
            f"{length(neck.rounds.cm, unit)}."
        )
    elif finish == "folded high":
        twisted = (
            " The fold shows the other side of the rib: of twisted rib that is the plainer one."
            if neck.rib == "twisted"
            else ""
        )
        yield (
            f"The neckband is worked twice as high as it stands, {neck.rounds.got} rounds or "
            f"{length(neck.rounds.cm, unit)}, and folded outwards in half when it is worn: "
            f"{length(neck.worn_cm, unit)} stand up. Its edge lies outside, so it must be as loose "
            f"as the rib itself.{twisted}"
        )


SPARE_CHAINS = 6
"""Chains beyond the stitches, so that a few bumps can be left out at either end."""


def provisional_words(section: Section) -> tuple[str, ...]:
    """Say how a cast-on is made that can be opened again."""
    stitches = made(section.rows[0].steps)
    return (
        "The sweater begins at the neck and grows downwards; the neck stays open, and its band is "
        "knitted last, upwards, when you can try the whole sweater on. So the cast-on must come "
        "undone again (a provisional cast-on): with smooth waste yarn in another colour and a "
        f"crochet hook, crochet a loose chain of about {stitches + SPARE_CHAINS}, and pull the "
        "yarn through the last chain. Turn the chain over: its back has a row of bumps. With the "
        "needle and the sweater's own yarn, pick up and knit one stitch in each bump, leaving out "
        f"the first two or three, until there are {stitches}. Tie a knot into the end of the chain "
        "at which you finished crocheting: the chain is unravelled from there.",
        TO_JOIN,
    )


def front_words(plan: Plan, yoke: RaglanShape, neck: FrontNeck) -> tuple[str, ...]:
    """Say how the back, the sleeves and the fronts are begun flat, and joined."""
    edge, sleeve, back = neck.edge, yoke.sleeve.start, yoke.back.start
    return (
        "The sweater begins at the back of the neck and grows downwards. You cast on the back, "
        "both sleeves and a few stitches of each front, and leave the front of the neck open: "
        "cast on loosely (long-tail, over the needle held a little apart), and do not join. The "
        "rows go back and forth over every stitch, and are turned at both ends: RS rows are "
        "knitted, WS rows purled.",
        "As it is worn, an RS row goes from the left front over the left sleeve, the back and the "
        f"right sleeve to the right front; at the cast-on they have {edge}, {sleeve}, {back}, "
        f"{sleeve} and {edge} stitches. Place a marker between each two of them in row 2; take "
        "another colour than you will for BOR.",
        open_lines(yoke),
        _edges(plan, neck),
        "The last row is not turned: lay the work in a ring, the right side outwards, see that it "
        "is not twisted, and go on with the first stitch of the left front. Knit over the left "
        "front and the left sleeve to the centre back and place a marker there: this is BOR, and "
        "from here on the work goes round. (That part is a row longer than the other; it does not "
        "show.)",
        "The front lies lower than the back by itself, so there are no short rows at the back of "
        "the neck. The neckband is picked up along the edges when the sweater is done.",
    )


def _edges(plan: Plan, neck: FrontNeck) -> str:
    deep = length(neck.rows.cm, plan.project.sheet.units)
    times = len(neck.increases)
    inside = "just inside the first and the last stitch: M1L after it, M1R before it"
    if neck.style == "V":
        point = (
            f"The last of these rows brings them together at the point, {deep} below the back of "
            "the neck"
        )
        centre = ", with one stitch cast on between them as its centre." if neck.centre else "."
        return f"Both neck edges gain a stitch {times} times, evenly, {inside}. {point}{centre}"
    gains = (
        f"Both neck edges gain a stitch {times} times, faster the deeper they are, {inside}. "
        if times
        else ""
    )
    return (
        f"{gains}At {deep} below the back of the neck, {neck.centre} stitches are cast on between "
        "the fronts, by backward loops, snug on the right needle: the level part of the neck."
    )


def last_neckband_words(plan: Plan, section: Section) -> Iterator[str]:
    """Say how the stitches of a neckband worked last come onto the needle."""
    neck = plan.shape.neck
    if neck.picked is None:
        yield from _taken_up(section)
        return
    yield from _picked_up(plan, neck.picked, section)


def _taken_up(section: Section) -> Iterator[str]:
    yield (
        "Untie the end of the waste chain and draw it out, stitch by stitch, from the knot. Each "
        "chain lets go one loop: put the loops on the needle at once, the right side facing you, "
        f"until there are {section.start}. Where the round was joined you may find half a loop: it "
        "belongs to the cast-on's own end. One missing: pick it up there."
    )
    yield (
        "BOR is at the centre back. Join the yarn there; the band grows upwards. If you would "
        "rather see the neck finished early, work this section at any time after the split: the "
        "sweater waits."
    )


def _picked_up(plan: Plan, picked: PickedUp, section: Section) -> Iterator[str]:
    yoke = plan.shape.yoke
    front = plan.shape.front
    if not isinstance(yoke, RaglanShape) or front is None:
        return
    sleeve, edge, side = yoke.sleeve.start, front.edge, picked.side
    half, other = picked.back
    extra = half + other - yoke.back.start
    point = picked.mitre is not None
    middle = "1 at the point (mark it)" if point else f"{front.centre} along the cast-on in front"
    yield (
        "Hold the sweater with the right side facing and the neck upwards, and begin at the centre "
        f"back. Pick up and knit, one stitch in each stitch of a cast-on edge: {half} to the line, "
        f"{sleeve} over the left sleeve, {edge} across the left front's cast-on, then {side} down "
        f"its edge; {middle}; {side} up the right front's edge, then {edge} across its cast-on, "
        f"{sleeve} over the right sleeve, {other} to the centre back: {picked.total.got} sts. "
        + ("One of those at the back is lifted between two stitches. " if extra else "")
        + "Place the marker for BOR."
    )
    yield (
        f"Down the edges that is about {_rule(picked.rule)}, always one stitch inside the edge. "
        f"A stitch or two more or fewer there will not show, as long as you end with exactly "
        f"{picked.total.got} sts."
        + (
            " If you find no stitch at the very point, lift the strand between the fronts and "
            "knit it twisted."
            if point and not front.centre
            else ""
        )
    )
    if picked.mitre is not None:
        first, *more = (
            at
            for at, row in enumerate(section.rows, start=1)
            if any(op.code == "CDD" for op in flat_ops(row.steps))
        )
        often = "every round" if first + 1 in more else "every other round"
        yield (
            f"At the point, {often} from round {first} on has a centred double decrease: so the "
            "band lies flat in the corner, and the marked stitch runs straight up."
        )


def _rule(rule: Fraction) -> str:
    """Say how to pick up along rows.

    >>> _rule(Fraction(3, 4))
    '3 stitches for every 4 rows'
    """
    if rule == 1:
        return "a stitch in every row"
    return f"{rule.numerator} stitches for every {rule.denominator} rows"
