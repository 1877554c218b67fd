"""The abbreviations of the trade: what each means and how a first-time knitter works it.

Codes and meanings follow the Craft Yarn Council's master list of knit
abbreviations; the wording is ours. Not on that list, and common practice:
BOR, DS, "k DS", "k wrap", and the words for stitches that rest or are picked up.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from yokefellow.notation.phrase import phrase
from yokefellow.rows.model import Op, Row, RowKind, Step, taken


class Abbreviation(NamedTuple):
    """One entry of the list at the end of the sheet."""

    code: str
    """As it stands in the rows."""
    meaning: str
    """The words it is short for."""
    how: str
    """How to work it, in a sentence or two."""


ABBREVIATIONS: tuple[Abbreviation, ...] = (
    Abbreviation(
        "BO",
        "bind off",
        "Work 2 sts, lift the first over the second and off the needle; work 1 more and lift "
        "again, to the end. Keep it loose: the edge must stretch as far as the fabric.",
    ),
    Abbreviation(
        "BOR",
        "beginning of the round",
        "The place where one round ends and the next begins. A marker of its own colour lies "
        "there; slip it each time you come to it.",
    ),
    Abbreviation(
        "CC",
        "contrasting colour",
        "CC1, CC2, ... are the further yarns of your list. After a stitch, it means that the "
        "stitch is worked in that yarn.",
    ),
    Abbreviation(
        "CDD",
        "centred double decrease",
        "Slip 2 sts together as if to k2tog, knit 1, and pass the 2 slipped sts over it: 2 sts "
        "less, and the middle one lies on top.",
    ),
    Abbreviation(
        "CO",
        "cast on",
        "At the neck, cast on with a method that stretches, such as the long-tail cast-on. In "
        "the middle of a round, make loops on the right needle with the working yarn "
        "(backward-loop cast-on), snug against the last stitch.",
    ),
    Abbreviation(
        "DS",
        "double stitch",
        "After a turn, with the yarn in front, slip the first stitch to the right needle and "
        "pull the yarn up and over the needle to the back until the stitch shows two legs. It "
        "counts as one stitch. Bring the yarn to where the next stitch needs it.",
    ),
    Abbreviation(
        "k",
        "knit",
        "k5 means: knit 5 sts. The word knit alone means: knit every stitch of the round or row.",
    ),
    Abbreviation(
        "k DS",
        "knit the double stitch",
        "Put the right needle under both legs of the double stitch and knit them together as "
        "one. The gap of the turn is closed.",
    ),
    Abbreviation(
        "k tbl",
        "knit through the back loop",
        "Knit into the leg of the stitch that lies behind the needle; the stitch twists. "
        "k1 tbl means: 1 st so.",
    ),
    Abbreviation(
        "k wrap",
        "knit the wrapped stitch with its wrap",
        "Lift the wrap from below with the right needle, then knit it together with the stitch "
        "that it surrounds. The gap of the turn is closed.",
    ),
    Abbreviation(
        "k2tog",
        "knit 2 together",
        "Put the needle into the next 2 sts at once and knit them as one: 1 st less, leaning "
        "to the right.",
    ),
    Abbreviation(
        "kfb",
        "knit into the front and the back",
        "Knit the stitch but leave it on the left needle, knit into its back loop too, and "
        "let it go: 1 st more. The new one lies to the left and shows a small bar.",
    ),
    Abbreviation(
        "M1L",
        "make 1, leaning to the left",
        "With the left needle, lift the bar between the stitches from front to back, and knit "
        "it through the back loop: 1 st more.",
    ),
    Abbreviation(
        "M1LP",
        "make 1 purlwise, leaning to the left on the right side",
        "With the left needle, lift the bar between the stitches from front to back, and purl "
        "it through the back loop: 1 st more.",
    ),
    Abbreviation(
        "M1R",
        "make 1, leaning to the right",
        "With the left needle, lift the bar between the stitches from back to front, and knit "
        "it through the front loop: 1 st more.",
    ),
    Abbreviation(
        "M1RP",
        "make 1 purlwise, leaning to the right on the right side",
        "With the left needle, lift the bar between the stitches from back to front, and purl "
        "it through the front loop: 1 st more.",
    ),
    Abbreviation(
        "MC",
        "main colour",
        "The yarn of every row that names no other.",
    ),
    Abbreviation(
        "p",
        "purl",
        "p5 means: purl 5 sts. The word purl alone means: purl every stitch of the round or row.",
    ),
    Abbreviation(
        "p2tog",
        "purl 2 together",
        "Put the needle into the next 2 sts at once and purl them as one: 1 st less.",
    ),
    Abbreviation(
        "pfb",
        "purl into the front and the back",
        "Purl the stitch but leave it on the left needle, purl into its back loop too, and let "
        "it go: 1 st more.",
    ),
    Abbreviation(
        "pick up and k",
        "pick up and knit",
        "With the right side facing, push the needle through the edge, draw a loop of the "
        "working yarn through, and keep it on the needle: 1 new stitch for each.",
    ),
    Abbreviation(
        "place on waste yarn",
        "leave stitches to rest",
        "Thread a smooth spare yarn through that many stitches and slip them off the needle "
        "unworked. They wait there; leave the spare yarn long enough to try the sweater on.",
    ),
    Abbreviation("pm", "place marker", "Hang a ring on the right needle before the next stitch."),
    Abbreviation("rep", "repeat", "Work again, as often as it says; the number counts them all."),
    Abbreviation("rm", "remove marker", "Take the ring off the needle and go on."),
    Abbreviation(
        "rnd(s)",
        "round(s)",
        "Once round the work from BOR to BOR, with the right side always facing you.",
    ),
    Abbreviation("RS", "right side", "The side of the fabric that shows when the garment is worn."),
    Abbreviation(
        "sew down",
        "sew live stitches down",
        "With the yarn in a blunt needle, go through the st on the needle as if to purl, slip it "
        "off, and catch the back of the st that it meets inside: loosely, st by st.",
    ),
    Abbreviation(
        "sl … wyib",
        "slip with yarn in back",
        "Pass that many sts to the right needle as if to purl, without working them, the yarn "
        "lying behind them.",
    ),
    Abbreviation(
        "sl … wyif",
        "slip with yarn in front",
        "Pass that many sts to the right needle as if to purl, without working them, the yarn "
        "lying before them.",
    ),
    Abbreviation(
        "sm",
        "slip marker",
        "Pass the ring from the left needle to the right one. Rounds that name no marker mean "
        "it too: slip each as you come to it.",
    ),
    Abbreviation(
        "ssk",
        "slip, slip, knit",
        "Slip 2 sts one after the other as if to knit, put the left needle through the front "
        "of both and knit them together so: 1 st less, leaning to the left.",
    ),
    Abbreviation("st(s)", "stitch(es)", "One loop on the needle is one stitch."),
    Abbreviation(
        "turn",
        "turn the work",
        "Stop there, even in the middle of the round, and turn the work so that the other side "
        "faces you; the stitches left over stay where they are.",
    ),
    Abbreviation(
        "w&t",
        "wrap and turn",
        "Bring the yarn to the other side of the work, slip the next stitch as if to purl, take "
        "the yarn back round it, return the stitch to the left needle, and turn. The wrapped "
        "stitch is not worked yet.",
    ),
    Abbreviation(
        "WS",
        "wrong side",
        "The inside of the garment; it faces you only in rows that go back.",
    ),
    Abbreviation(
        "yo",
        "yarn over",
        "Bring the yarn forward between the needles and over the right one to the back: 1 st "
        "more, with a hole below it. Knit it in the next round like any other stitch.",
    ),
    Abbreviation(
        "[ ] or ( ) … times",
        "repeat what stands in the brackets",
        "Work it as many times as the number says.",
    ),
    Abbreviation(
        "*…; rep from *",
        "repeat from the star",
        "Work from the star to the semicolon, then again from the star as many more times as it "
        "says, or to the end of the round.",
    ),
)
"""Every abbreviation, in the order of a list to look things up in."""

_OF_STITCH = {
    "sl wyib": "sl … wyib",
    "sl wyif": "sl … wyif",
    "PU": "pick up and k",
    "sew": "sew down",
    "hold": "place on waste yarn",
}
"""The entry of a kind of stitch where it is not under the stitch's own code."""

_OF_KIND = {
    RowKind.RIGHT_SIDE: "RS",
    RowKind.WRONG_SIDE: "WS",
    RowKind.FLAT_RIGHT: "RS",
    RowKind.FLAT_WRONG: "WS",
}

_IN_TEXT = (
    (re.compile(r"\bBOR\b"), "BOR"),
    (re.compile(r"\bpm\b"), "pm"),
    (re.compile(r"\brep\b"), "rep"),
    (re.compile(r"\*"), "*…; rep from *"),
    (re.compile(r"[\[(]"), "[ ] or ( ) … times"),
    (re.compile(r"\bMC\b"), "MC"),
    (re.compile(r"\bCC\d*\b"), "CC"),
)

_ON_EVERY_SHEET = ("st(s)", "rnd(s)", "BOR")
"""The row labels and the counts use these, whatever the rows say."""


def abbreviations_used(rows: Iterable[Row]) -> tuple[Abbreviation, ...]:
    """List the abbreviations that the printed rows use, each once, in the order of the list.

    Args:
        rows: the rows of the sheet, in any order; each is taken to use every
            stitch before it, as a round does.
    """
    used = set(_ON_EVERY_SHEET)
    for row in rows:
        used.update(_used_by(row))
    return tuple(entry for entry in ABBREVIATIONS if entry.code in used)


def _codes(steps: tuple[Step, ...]) -> Iterator[str]:
    for step in steps:
        if isinstance(step, Op):
            yield _OF_STITCH.get(step.code, step.code)
        else:
            yield from _codes(step.steps)


def _used_by(row: Row) -> Iterator[str]:
    yield from _codes(row.steps)
    if row.kind in _OF_KIND:
        yield _OF_KIND[row.kind]
    text = phrase(row, taken(row.steps))
    for pattern, code in _IN_TEXT:
        if pattern.search(text):
            yield code
