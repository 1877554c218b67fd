"""The sentences at the head of each section: where the knitter is, and how the new thing is done.

Kept together, in knitting order, so that they can be read as one text. How
to cast on, turn, split and pick up is common practice of the trade; the words
are ours.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from types import MappingProxyType

from yokefellow.plan import Plan
from yokefellow.quantities import length
from yokefellow.rows.model import Section, flat_ops
from yokefellow.rows.sleeve import CORNER
from yokefellow.shaping.yoke_shapes import RaglanShape
from yokefellow.sheet.band_words import bands_below
from yokefellow.sheet.body_words import darts, is_in_the_middle, marker, sides, turning
from yokefellow.sheet.edge_words import band_words, edge_words
from yokefellow.sheet.neck_words import (
    TO_JOIN,
    cast_on_words,
    front_words,
    high_words,
    last_neckband_words,
    provisional_words,
)
from yokefellow.sheet.raglan import raglan_words

__all__ = [
    "MEASURE_WORDS",
    "SECTION_TITLES",
    "introduction",
    "section_name",
    "with_signs",
]

SECTION_TITLES = MappingProxyType(
    {
        "neckband": "Neckband",
        "cast_on": "Cast on at the neck",
        "front": "Back, sleeves and fronts, worked flat",
        "back_neck": "Back neck short rows",
        "yoke": "Yoke",
        "split": "Split for body and sleeves",
        "body": "Body",
        "hem": "Hem",
        "sleeve": "Sleeves",
        "cuff": "Cuffs",
    }
)

_NAMES = MappingProxyType({"back_neck": "back neck", "cast_on": "cast-on"})

MEASURE_WORDS = MappingProxyType(
    {
        "chest": "Chest",
        "waist": "Waist",
        "hip": "Hip",
        "cross_back": "Across the back",
        "back_waist_length": "Back of the neck to the waist",
        "back_hip_length": "Back of the neck to the hip",
        "arm_length": "Underarm to wrist",
        "armhole_depth": "Armhole depth",
        "upper_arm": "Upper arm",
        "elbow": "Elbow",
        "forearm": "Forearm",
        "wrist": "Wrist",
        "head": "Head",
        "neck": "Base of the neck",
        "shoulder_girth": "Round the shoulders",
        "high_chest": "Round above the fullest part",
        "front_chest": "Across the front",
        "front_length": "Front, shoulder to waist",
        "back_length": "Back, shoulder to waist",
        "bust_height": "Shoulder to the fullest point",
        "bust_points": "Between the fullest points",
        "underarm_to_waist": "Underarm to waist",
        "underarm_to_hip": "Underarm to hip",
        "neck_opening": "Neck opening of the sweater",
        "yoke_depth": "Depth of the yoke",
        "underarm_width": "Width of the underarm",
        "back_raise": "Raise of the back neck",
    }
)
"""Every measure by the name a knitter knows it by."""


def section_name(key: str, copy: str) -> str:
    """Name a section inside a sentence: `Yoke`, `Left sleeve`."""
    name = _NAMES.get(key, key)
    return f"{copy} {name}".strip().capitalize()


def with_signs(words: str) -> str:
    """Write the sign for `times` between numbers: `1×1 rib`.

    >>> with_signs("1x1 rib")
    '1×1 rib'
    """
    return re.sub(r"\b([0-9]+)x([0-9]+)\b", r"\1×\2", words)


def introduction(plan: Plan, section: Section) -> tuple[str, ...]:
    """Give the paragraphs at the head of a section."""
    return _INTRODUCTIONS[section.key](plan, section)


def _cast_on(_: Plan, section: Section) -> tuple[str, ...]:
    return provisional_words(section)


def _front(plan: Plan, _: Section) -> tuple[str, ...]:
    yoke, front = plan.shape.yoke, plan.shape.front
    if front is None or not isinstance(yoke, RaglanShape):
        raise ValueError("only a raglan has a front worked flat")
    return front_words(plan, yoke, front)


def _last_neckband(plan: Plan, section: Section) -> tuple[str, ...]:
    neck = plan.shape.neck
    worked, ended = edge_words(plan, "the neckband", neck.band, neck.band_stitches)
    if neck.picked is None and neck.band_stitches != neck.stitches.got:
        worked += f" The first round goes there from {neck.stitches.got}."
    said = (*last_neckband_words(plan, section), *high_words(plan))
    return (*said, worked, f"{ended} This edge must go over the head.")


def _neckband(plan: Plan, section: Section) -> tuple[str, ...]:
    neck = plan.shape.neck
    if neck.is_last:
        return _last_neckband(plan, section)
    said = [
        f"The sweater begins at the neck and grows downwards. {cast_on_words(plan)}",
        TO_JOIN,
    ]
    said += (*high_words(plan), *band_words(plan))
    what = "rib" if neck.band.finish == "rib" else "band"
    if neck.band_stitches != neck.stitches.got:
        said.append(
            f"The {what} is worked on {neck.band_stitches} stitches and the yoke has "
            f"{neck.stitches.got} sts at the start; the last round goes from one to the other."
        )
    return tuple(said)


def _is_wrapped(plan: Plan) -> bool:
    return plan.project.garment.neck.wraps


_UNTIL = "the first round of the yoke"


def _back_neck(plan: Plan, section: Section) -> tuple[str, ...]:
    return (
        "These rows go back and forth over the back of the neck and the shoulders, and leave the "
        "front: they make the back higher, so that the sweater does not ride up at the throat. "
        "Begin at BOR. Each row stops before the end and turns, each pair of rows a little nearer "
        "to BOR. BOR is passed in the middle of the rows: slip its marker. RS rows are knitted, WS "
        "rows purled.",
        turning(plan, _UNTIL),
        f"All {section.start} stitches stay on the needle; the count does not change.",
    )


def _yoke(plan: Plan, section: Section) -> tuple[str, ...]:
    yoke = plan.shape.yoke
    if isinstance(yoke, RaglanShape):
        said = [*raglan_words(plan, yoke)]
    else:
        said = [
            f"From here on every round goes all the way round again, knitted on {section.start} "
            f"stitches at first. {len(yoke.increase_rounds)} increase rounds make the circle "
            f"wider, up to {plan.shape.split.yoke} stitches; between them "
            + ("lie the colour bands and plain rounds." if yoke.bands else "every round is plain."),
        ]
    if yoke.bands:
        said.append(
            "The yarn of a round stands before it, unless its stitches name their own. Leave "
            "each yarn hanging inside when another takes its turn."
        )
    if yoke.short_rows.turns and _is_wrapped(plan):
        said.append(
            "The first round closes the gaps of the short rows: at each k wrap, lift the wrap "
            "with the right needle, put it beside its stitch and knit the two together."
        )
    elif yoke.short_rows.turns:
        said.append(
            "The first round closes the gaps of the short rows: at each k DS, knit both legs of "
            "the double stitch together as one."
        )
    return tuple(said)


def _sleeves(plan: Plan) -> tuple[str, ...]:
    """Name the sleeves in the order in which the split comes to them."""
    return next(s.copies for s in plan.schedule.sections if s.key == "sleeve")


def _split(plan: Plan, _: Section) -> tuple[str, ...]:
    split = plan.shape.split
    first = _sleeves(plan)[0]
    return (
        "The yoke becomes a body and two sleeves. The round begins at the centre back and comes "
        f"first to the {first} sleeve ({first} as it is worn). For each sleeve, thread a blunt "
        f"needle with smooth waste yarn and slip {split.held} stitches onto it, purlwise, without "
        "working them. Leave the waste yarn long, and tie its ends.",
        f"Then cast on {split.underarm.got} stitches for the underarm with the working yarn, on "
        "the right needle, by backward loops: twist a loop and put it on the needle, snug "
        "against the last stitch. (Or turn the work, cable cast-on, and turn back.) "
        f"{marker(split)} Go on with the next stitch of the body and pull it tight.",
        *_lines_end(plan),
        *_rest_body(plan),
    )


def _lines_end(plan: Plan) -> tuple[str, ...]:
    """Say what becomes of a raglan's markers."""
    if not isinstance(plan.shape.yoke, RaglanShape):
        return ()
    return ("The four markers of the lines have done their work: take each off where it says rm.",)


def _sleeves_come_first(plan: Plan) -> bool:
    return plan.project.garment.work_order == "sleeves first"


TAIL_CM = 15.0
"""Long enough to weave in (common practice)."""


def _rest_body(plan: Plan) -> tuple[str, ...]:
    """Say what becomes of the body while the sleeves are knitted."""
    if not _sleeves_come_first(plan):
        return ()
    return (
        "In this sweater the sleeves come first, and the body takes what yarn is left. When both "
        f"rows below are done, slip the {plan.shape.split.body.got} stitches of the body onto "
        "waste yarn or a spare cable, markers and all, and break the yarn, leaving a "
        f"{length(TAIL_CM, plan.project.sheet.units)} tail: the sleeves "
        "go on with the same ball, as the balls are counted here.",
    )


def _take_up(plan: Plan) -> tuple[str, ...]:
    if not _sleeves_come_first(plan):
        return ()
    return (
        "Put the stitches of the body back on the needle, so that the BOR marker comes first, and "
        "join the yarn there.",
    )


def _body(plan: Plan, section: Section) -> tuple[str, ...]:
    split = plan.shape.split
    middle = is_in_the_middle(split)
    where = "in the middle of" if middle else "between front and back at"
    return (
        *_take_up(plan),
        f"BOR is now {where} the {_sleeves(plan)[0]} underarm. The body goes straight "
        f"on, in the round, on {section.start} stitches. "
        f"{sides(plan)} Slip the markers as you come to them.",
        *darts(plan),
        *bands_below(plan, "body", has_yoke=bool(plan.shape.yoke.bands)),
        "In the first round, knit each stitch of the underarm firmly; the loops loosen easily.",
    )


def _hem(plan: Plan, section: Section) -> tuple[str, ...]:
    worked, ended = edge_words(plan, "the hem", plan.shape.body.hem, section.start)
    return (
        f"{worked} Take off the marker at the other side, if it is still there; BOR stays.",
        ended,
    )


def _sleeve(plan: Plan, section: Section) -> tuple[str, ...]:
    return (
        "Both sleeves are worked from these lines; every round has a box for the "
        f"{_sleeves(plan)[0]} sleeve and a box for the {_sleeves(plan)[1]}. Knit one sleeve with "
        "its cuff, bind it off, and come back here for the other; or knit the two side by side. "
        "After the last round of this table comes the cuff, below.",
        f"Put the {section.start} stitches of one sleeve back from the waste yarn onto the "
        "needle, and only then draw the waste yarn out. Begin with a new end of yarn at the "
        "centre of the underarm, with the right side facing: pick up and knit along the edge of "
        f"the underarm, {_picked_up(section)} Place the marker for BOR there.",
        "The corner stitches close the gap between underarm and sleeve; the second round takes "
        "them away again.",
        *bands_below(plan, "sleeve", has_yoke=bool(plan.shape.yoke.bands)),
    )


def _picked_up(section: Section) -> str:
    """Tell the stitches picked up on either side, as the first row has them."""
    first, last = (op.times - CORNER for op in flat_ops(section.rows[0].steps) if op.code == "PU")
    corner = "one more in the corner" if CORNER == 1 else f"{CORNER} more in the corner"
    odd = " (The underarm is odd: the two sides differ by one.)" if first != last else ""
    return (
        f"one stitch in each of the {first} stitches cast on there, and {corner}. Knit the "
        f"sleeve's stitches, pick up {corner.replace(' more', '')} on the other side, and go on "
        f"along the underarm, one stitch in each of its other {last}, to the centre.{odd}"
    )


def _cuff(plan: Plan, section: Section) -> tuple[str, ...]:
    worked, ended = edge_words(plan, "the cuff", plan.shape.sleeve.cuff, section.start)
    return (
        f"Each cuff follows its sleeve at once. {worked}",
        f"{ended} Then the other sleeve, with its cuff.",
    )


_INTRODUCTIONS: MappingProxyType[str, Callable[[Plan, Section], tuple[str, ...]]]
_INTRODUCTIONS = MappingProxyType(
    {
        "neckband": _neckband,
        "cast_on": _cast_on,
        "front": _front,
        "back_neck": _back_neck,
        "yoke": _yoke,
        "split": _split,
        "body": _body,
        "hem": _hem,
        "sleeve": _sleeve,
        "cuff": _cuff,
    }
)
