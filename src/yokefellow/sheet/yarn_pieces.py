"""The yarn as frozen values: what there is, what else it would allow; every string ready made."""

from __future__ import annotations

from typing import NamedTuple

__all__ = [
    "Bar",
    "Bars",
    "LongestView",
    "OtherGroup",
    "OtherLengths",
    "OtherLine",
    "OtherYarn",
    "RescueView",
    "SavingLine",
    "YarnLine",
    "YarnView",
]


class YarnLine(NamedTuple):
    """An amount of yarn and what it is for."""

    key: str
    """`knitted`, `need`, `needed`, `stash` or `left`."""
    what: str
    length: str
    weight: str
    balls: str
    length_m: float
    """By the best guess, as the next two."""
    weight_g: float
    ball_count: float
    least_g: float | None = None
    """The range, where the line is one."""
    most_g: float | None = None


class YarnView(NamedTuple):
    """One yarn: what the sweater takes of it, and what there is."""

    code: str
    name: str
    lines: tuple[YarnLine, ...]
    verdict_key: str
    """`enough`, `close` or `short`."""
    verdict: str
    evidence: str
    """How sure the ranges are, and what they rest on."""
    evidence_key: str
    """`weighed`, `unravelled` or `gauge`."""
    chance: float
    """That it lasts, from 0 to 1."""
    sure: float
    """What the ranges hold, from 0 to 1."""


class SavingLine(NamedTuple):
    """What one length modification saves, or costs."""

    key: str
    what: str
    """`Sleeves 8 in instead of 17 in`."""
    saves: str
    """`saves` or `costs`."""
    amount: str
    stitches: int
    length_m: float
    weight_g: float
    ball_count: float


class OtherYarn(NamedTuple):
    """What one yarn would have to give, as numbers."""

    code: str
    verdict: str
    stitches: int
    metres: float
    grams: float
    least_g: float
    most_g: float
    balls: float
    saved_stitches: int
    saved_m: float
    saved_g: float
    saved_balls: float


class OtherLine(NamedTuple):
    """One other length, neck, rib or finish."""

    choice: str
    is_chosen: bool
    long: str
    """`20.6 cm`; empty for ribs and finishes."""
    cm: float | None
    stitches: str
    """Of the main yarn, as the next three."""
    length: str
    weight: str
    balls: str
    saves: str
    """`36 g less` than full sleeves and a body to the hip, or `7 g more`."""
    verdict_key: str
    """`enough`, `close` or `short`, of the yarn that is worst off; `refused`."""
    verdict: str
    yarns: tuple[OtherYarn, ...]


class OtherGroup(NamedTuple):
    """Everything that could be chosen in one place."""

    key: str
    """`sleeves`, `body`, `neck`, `ribs` or `edges`."""
    title: str
    lines: tuple[OtherLine, ...]


class LongestView(NamedTuple):
    """The longest that lasts, in sentences and numbers."""

    key: str
    """`sleeves` or `body`."""
    words: str
    cm: float
    limit: str
    held_back_g: float
    chance_of_more: float | None
    choices: tuple[tuple[str, str], ...]


class RescueView(NamedTuple):
    """A change after which a short colour lasts."""

    code: str
    way: str
    words: str


class Bar(NamedTuple):
    """A bar of the chart, and its words: every coordinate a ready-made string."""

    style: str
    """`chosen` or `other`."""
    y: str
    width: str
    """Up to the best guess."""
    spread: str
    """The path of its range."""
    label: str
    verdict: str
    baseline: str


class Bars(NamedTuple):
    """Needs beside the stash."""

    view_box: str
    left: str
    thick: str
    verdict_x: str
    heads: tuple[tuple[str, str], ...]
    """Words and baseline over each group."""
    bars: tuple[Bar, ...]
    stash: str
    """The path of the line of what there is,"""
    stash_x: str
    stash_anchor: str
    stash_words: str
    title: str
    description: str


class OtherLengths(NamedTuple):
    """What other lengths would take, the longest that lasts, what to do about a short colour."""

    intro: str
    groups: tuple[OtherGroup, ...]
    colours: tuple[str, ...]
    """A sentence on every yarn but the main one."""
    bars: Bars
    longest: tuple[LongestView, ...]
    rescues: tuple[RescueView, ...]
    weighed: tuple[str, ...]
    """What the weighings taught, in sentences; nothing without any."""

    @property
    def told(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """The sentences by their headings, in reading order; a heading without any is left out."""
        said = (
            ("The longest that lasts", tuple(found.words for found in self.longest)),
            ("If a colour is short", tuple(rescue.words for rescue in self.rescues)),
            ("What the weighings say", self.weighed),
        )
        return tuple((heading, words) for heading, words in said if words)
