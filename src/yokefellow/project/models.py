"""The project file as frozen models: what a knitter may write, and within what limits.

Lengths are kept in cm, masses in g, lengths of yarn in m. A field's own
limits stand beside it; what two fields say about each other is checked in
`yokefellow.project.sense`. Nothing here computes shaping.
"""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

from yokefellow.project.typed import (
    ChosenLength,
    NamedLength,
    Reading,
    between,
    chosen,
    ease,
    grams,
    metres,
    named_or_between,
    needle_mm,
    reading,
)
from yokefellow.units import LengthUnit

__all__ = [
    "BODY_LENGTHS",
    "FIT_NAMES",
    "SLEEVE_LENGTHS",
    "Body",
    "BodyChoices",
    "Ease",
    "Garment",
    "Group",
    "NeckChoices",
    "Needles",
    "Project",
    "RibName",
    "SheetChoices",
    "SleeveChoices",
    "Swatch",
    "SwatchState",
    "Swatches",
    "Wearer",
    "Yarn",
    "YokeChoices",
]

Group: TypeAlias = Literal["babies", "children", "women", "men"]
RibName: TypeAlias = Literal["1x1", "2x2", "twisted"]

FIT_NAMES = ("very close", "close", "classic", "loose", "oversized")
SLEEVE_LENGTHS = ("cap", "short", "elbow", "three-quarter", "bracelet", "full")
BODY_LENGTHS = ("cropped", "waist", "high hip", "hip", "tunic")

Text: TypeAlias = Annotated[str, StringConstraints(max_length=200, strip_whitespace=True)]


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class Wearer(_Model):
    """Who it is for, and which sizing table fills what was not measured."""

    name: Text = ""
    table: Group = "women"
    size: Text | None = None
    """A size of that table; its chest is used when `body.chest` is missing."""


class Body(_Model):
    """The body as measured, in cm; any may be missing except the chest (or a size)."""

    chest: Annotated[float | None, between(35, 200)] = None
    waist: Annotated[float | None, between(30, 200)] = None
    hip: Annotated[float | None, between(35, 220)] = None
    upper_arm: Annotated[float | None, between(9, 80)] = None
    elbow: Annotated[float | None, between(9, 70)] = None
    forearm: Annotated[float | None, between(8, 60)] = None
    wrist: Annotated[float | None, between(6, 40)] = None
    head: Annotated[float | None, between(30, 70)] = None
    neck: Annotated[float | None, between(15, 70)] = None
    """Round the base of the neck, where a crew neckline lies."""
    shoulder_girth: Annotated[float | None, between(40, 220)] = None
    """Round the body and both upper arms at their widest, arms hanging."""
    cross_back: Annotated[float | None, between(15, 80)] = None
    back_waist_length: Annotated[float | None, between(12, 70)] = None
    """From the bone at the base of the neck down to the waist."""
    back_hip_length: Annotated[float | None, between(15, 100)] = None
    """The same bone to where a hip-length sweater ends."""
    arm_length: Annotated[float | None, between(10, 80)] = None
    """Underarm to wrist along the inner arm."""
    armhole_depth: Annotated[float | None, between(6, 45)] = None
    """Straight down from the top of the shoulder to the underarm."""


class Ease(_Model):
    """How much larger than the body the sweater is: a named fit, or cm."""

    chest: Annotated[str | float, ease(FIT_NAMES, -20, 60)] = "classic"
    upper_arm: Annotated[str | float, ease(FIT_NAMES, -10, 40)] = "classic"


class SwatchState(_Model):
    """The counts on the swatch in one state, washed or unwashed."""

    stitches: tuple[Annotated[Reading, reading], ...] = Field(min_length=1, max_length=20)
    rounds: tuple[Annotated[Reading, reading], ...] = Field(min_length=1, max_length=20)


class Swatch(_Model):
    """One swatch in one fabric."""

    worked: Literal["round", "flat"] = "round"
    washed: SwatchState | None = None
    unwashed: SwatchState | None = None


class Swatches(_Model):
    """The swatches, by fabric."""

    plain: Swatch
    rib: Swatch | None = None


class Yarn(_Model):
    """One yarn of the stash."""

    name: Text = ""
    colour: Text = ""
    fibre: Text = ""
    ball_weight: Annotated[float, grams]
    ball_length: Annotated[float, metres]
    balls: float = Field(gt=0, le=500)
    """How many balls are in the drawer; a part of a ball counts as a decimal."""


class Needles(_Model):
    """Needle sizes in mm."""

    main: Annotated[float, needle_mm]
    rib: Annotated[float | None, needle_mm] = None
    """For the ribs; default 0.5 mm below the main needle."""


class NeckChoices(_Model):
    """The neck opening and its band; lengths in cm."""

    opening: Annotated[str | float, named_or_between(("crew", "wide"), 20, 120)] = "crew"
    """Round the neck edge where the yoke begins."""
    rib: RibName = "1x1"
    band: Annotated[float, between(0.5, 15)] = 2.5
    """Depth of the neckband."""
    back_raise: Annotated[str | float, named_or_between(("by size", "none"), 0.5, 12)] = "by size"
    """How much higher the back of the neck is than the front."""
    short_rows: Literal["german", "wrapped"] = "german"


class YokeChoices(_Model):
    """How the yoke grows; lengths in cm."""

    style: Literal["circular"] = "circular"
    proportions: Literal["measured", "percentage 1971", "percentage 1989"] = "measured"
    increases: Literal["regular", "few", "gentle"] = "regular"
    depth: Annotated[str | float, named_or_between(("by size", "quarter of chest"), 6, 50)] = (
        "by size"
    )
    """At the front, from below the neckband to the underarm."""
    underarm: Annotated[str | float, named_or_between(("by size",), 1, 30)] = "by size"
    """Width cast on at each underarm."""


class BodyChoices(_Model):
    """The body below the underarm; lengths in cm."""

    shape: Literal["straight", "a-line", "waist"] = "straight"
    length: Annotated[ChosenLength, chosen(BODY_LENGTHS, 5, 100)] = NamedLength("hip")
    """From the underarm to the edge of the hem."""
    rib: RibName = "1x1"
    hem: Annotated[float, between(0.5, 20)] = 5.0
    """Depth of the hem."""
    gather: float = Field(default=0, ge=0, le=25)
    """Per cent fewer stitches in the hem than in the body above it."""


class SleeveChoices(_Model):
    """The sleeves; lengths in cm."""

    length: Annotated[ChosenLength, chosen(SLEEVE_LENGTHS, 2, 90)] = NamedLength("full")
    """From the underarm to the edge of the cuff, along the inner arm."""
    rib: RibName = "1x1"
    cuff: Annotated[str | float, named_or_between(("by length",), 0.5, 20)] = "by length"
    """Depth of the cuff; `by length` gives a short sleeve a shallow one."""


class Garment(_Model):
    """The garment's choices."""

    neck: NeckChoices = NeckChoices()
    yoke: YokeChoices = YokeChoices()
    body: BodyChoices = BodyChoices()
    sleeves: SleeveChoices = SleeveChoices()


class SheetChoices(_Model):
    """How the sheet is printed."""

    paper: Literal["A4", "Letter"] = "A4"
    units: LengthUnit = "cm"
    large_print: bool = False


class Project(_Model):
    """One sweater: the whole project file."""

    edition: Literal[1] = 1
    """Edition of this file format."""
    title: Text = "A yoke sweater"
    unit: LengthUnit = "cm"
    """The unit of a bare number in this file."""
    wearer: Wearer = Wearer()
    body: Body = Body()
    ease: Ease = Ease()
    swatch: Swatches
    yarn: dict[Annotated[str, StringConstraints(pattern=r"^(MC|CC[1-9])$")], Yarn]
    needles: Needles
    garment: Garment = Garment()
    sheet: SheetChoices = SheetChoices()
