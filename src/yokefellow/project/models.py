"""The project file as frozen models: what a knitter may write, and within what limits.

Lengths are kept in cm, masses in g, lengths of yarn in m. A field's own
limits stand beside it; what two fields say about each other is checked in
`yokefellow.project.sense`. Nothing here computes shaping.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeAlias, get_args

from pydantic import Field, StringConstraints, model_validator

from yokefellow.project.base import Model
from yokefellow.project.colourwork import (
    MOST_BANDS,
    Band,
    BodyBand,
    ChartChoices,
    ChartName,
    SleeveBand,
)
from yokefellow.project.counts import needle_mm, reading, rounds_reading
from yokefellow.project.fixed import NOTHING, Fixed
from yokefellow.project.lengths import between, chosen, ease, named_or_between
from yokefellow.project.marks import YARN_CODE, whole
from yokefellow.project.pattern import Pattern
from yokefellow.project.plain import file_edition, number, one_of, text, yes_or_no
from yokefellow.project.stash import Unravelled, Weighed, Weighing, WorkOrder, Yarn
from yokefellow.project.typed import ChosenLength, NamedLength, Reading
from yokefellow.units import LengthUnit, length_unit

__all__ = [
    "BODY_LENGTHS",
    "FIT_NAMES",
    "MOST_UNDERARM_CM",
    "NECK_OPENINGS",
    "SLEEVE_LENGTHS",
    "Body",
    "BodyChoices",
    "Ease",
    "FinishName",
    "Fixed",
    "Garment",
    "Group",
    "NeckChoices",
    "NeckFinishName",
    "Needles",
    "Project",
    "RibName",
    "SheetChoices",
    "SleeveChoices",
    "Swatch",
    "SwatchState",
    "Swatches",
    "TurningName",
    "UnitName",
    "Unravelled",
    "Wearer",
    "Weighed",
    "Weighing",
    "Yarn",
    "YokeChoices",
]

# The words of each choice stand here once; `one_of` reads exactly these.
_Group = Literal["babies", "children", "women", "men"]
_RibName = Literal["1x1", "2x2", "twisted"]
_Finish = Literal["rib", "garter", "rolled", "folded"]
_Turning = Literal["purl", "picot"]
_Worked = Literal["round", "flat"]
_ShortRows = Literal["german", "wrapped"]
_Front = Literal["level", "scooped", "V"]
_CastOn = Literal["plain", "provisional"]
_YokeStyle = Literal["circular", "raglan"]
_LineIncrease = Literal["lifted", "yarn over", "front and back"]
_Proportions = Literal["measured", "percentage 1971", "percentage 1989"]
_Increases = Literal["regular", "few", "gentle"]
_BodyShape = Literal["straight", "a-line", "waist"]
_Paper = Literal["A4", "Letter"]

Group: TypeAlias = Annotated[_Group, one_of(*get_args(_Group))]
RibName: TypeAlias = Annotated[_RibName, one_of(*get_args(_RibName))]
_NeckFinish = Literal["rib", "garter", "rolled", "folded", "high", "folded high"]
NeckFinishName: TypeAlias = Annotated[_NeckFinish, one_of(*get_args(_NeckFinish))]
FinishName: TypeAlias = Annotated[_Finish, one_of(*get_args(_Finish))]
TurningName: TypeAlias = Annotated[_Turning, one_of(*get_args(_Turning))]
UnitName: TypeAlias = Annotated[LengthUnit, one_of(*get_args(LengthUnit), also=length_unit)]

FIT_NAMES = ("very close", "close", "classic", "loose", "oversized")
NECK_OPENINGS = ("crew", "wide", "boat")
SLEEVE_LENGTHS = ("cap", "short", "elbow", "three-quarter", "bracelet", "full")
BODY_LENGTHS = ("cropped", "waist", "high hip", "hip", "tunic")

MOST_UNDERARM_CM = 30
"""Wider than any sleeve that is not a wing (our choice)."""


class Wearer(Model):
    """Who it is for, and which sizing table fills what was not measured."""

    name: Annotated[str, text(80, example="for me")] = ""
    """Printed at the head of the sheet."""
    table: Group = "women"
    """The sizing table that stands nearest to this body."""
    size: Annotated[str | None, text(20, example="M")] = None
    """A size of that table; its chest is used when `body.chest` is missing."""


class Body(Model):
    """The body as measured, in cm; any may be missing except the chest (or a size)."""

    chest: Annotated[float | None, between(35, 200, typical=96.5)] = None
    """Round the fullest part of the chest."""
    waist: Annotated[float | None, between(30, 200, typical=76)] = None
    """Round the narrowest part of the trunk."""
    hip: Annotated[float | None, between(35, 220, typical=102)] = None
    """Round the widest part below the waist."""
    upper_arm: Annotated[float | None, between(9, 80, typical=30.5)] = None
    """Round the widest part of the upper arm, the arm hanging."""
    elbow: Annotated[float | None, between(9, 70, typical=26.5)] = None
    """Round the arm just above the bend of the elbow."""
    forearm: Annotated[float | None, between(8, 60, typical=25)] = None
    """Round the widest part of the forearm."""
    wrist: Annotated[float | None, between(6, 40, typical=16)] = None
    """Round the wrist, over the bone."""
    head: Annotated[float | None, between(30, 70, typical=56)] = None
    """Round the head above the ears: what the neck must stretch over."""
    neck: Annotated[float | None, between(15, 70, typical=38)] = None
    """Round the base of the neck, where a crew neckline lies."""
    shoulder_girth: Annotated[float | None, between(40, 220, typical=104)] = None
    """Round the body and both upper arms at their widest, arms hanging."""
    cross_back: Annotated[float | None, between(15, 80, typical=38)] = None
    """Across the back from one shoulder point to the other."""
    back_waist_length: Annotated[float | None, between(12, 70, typical=43)] = None
    """From the bone at the base of the neck down to the waist."""
    back_hip_length: Annotated[float | None, between(15, 100, typical=58)] = None
    """The same bone to where a hip-length sweater ends."""
    arm_length: Annotated[float | None, between(10, 80, typical=43)] = None
    """Underarm to wrist along the inner arm."""
    armhole_depth: Annotated[float | None, between(6, 45, typical=18.5)] = None
    """Straight down from the top of the shoulder to the underarm."""
    high_chest: Annotated[float | None, between(35, 200, typical=92)] = None
    """Round the body close under the arms, above the fullest part."""
    front_chest: Annotated[float | None, between(15, 110, typical=50)] = None
    """Across the front at the fullest part, from side to side."""
    front_length: Annotated[float | None, between(12, 80, typical=44)] = None
    """From the shoulder, where it meets the neck, over the fullest part to the waist."""
    back_length: Annotated[float | None, between(12, 80, typical=43)] = None
    """From the same place on the shoulder down the back to the waist."""
    bust_height: Annotated[float | None, between(8, 60, typical=26)] = None
    """From the same place on the shoulder down to the fullest point."""
    bust_points: Annotated[float | None, between(5, 60, typical=19)] = None
    """Between the two fullest points, straight across."""
    underarm_to_waist: Annotated[float | None, between(3, 45, typical=20)] = None
    """Straight down the side from the underarm to the waist."""
    underarm_to_hip: Annotated[float | None, between(6, 70, typical=38)] = None
    """Straight down the side from the underarm to the widest part of the hip."""


class Ease(Model):
    """How much larger than the body the sweater is: a named fit, or cm."""

    chest: Annotated[str | float, ease(FIT_NAMES, -20, 60)] = "classic"
    """At the chest; negative stretches over the body."""
    upper_arm: Annotated[str | float, ease(FIT_NAMES, -10, 40)] = "classic"
    """At the upper arm."""


class SwatchState(Model):
    """The counts on the swatch in one state, washed or unwashed."""

    stitches: tuple[Annotated[Reading, reading], ...] = Field(min_length=1, max_length=20)
    """Stitches over a width; count in two or three places."""
    rounds: tuple[Annotated[Reading, rounds_reading], ...] = Field(min_length=1, max_length=20)
    """Rounds (or rows) over a height; count in two or three places."""


class Swatch(Model):
    """One swatch in one fabric."""

    worked: Annotated[_Worked, one_of(*get_args(_Worked))] = "round"
    """Whether it was knitted in the round or flat."""
    washed: SwatchState | None = None
    """After washing and drying: what the sweater will be worn at."""
    unwashed: SwatchState | None = None
    """As it came off the needles: what a tape measure meets while you knit."""
    weighed: Weighed | None = None
    """The whole swatch on the scale: the best evidence of what a stitch costs."""
    unravelled: Unravelled | None = None
    """A part of it pulled out and measured: the next best."""


class Swatches(Model):
    """The swatches, by fabric."""

    plain: Swatch
    """Stockinette."""
    rib: Swatch | None = None
    """Ribbing, if you made one."""
    garter: Swatch | None = None
    """Garter stitch, if an edge has it."""
    mosaic: Swatch | None = None
    """Slip-stitch mosaic."""
    slip: Swatch | None = None
    """Plain slip-stitch."""
    stranded: Swatch | None = None
    """Two colours in a round."""
    stripes: Swatch | None = None
    """Stripes; when not given they are taken to be like plain."""
    purl: Swatch | None = None
    """A texture of purls."""


class Needles(Model):
    """Needle sizes in mm."""

    main: Annotated[float, needle_mm]
    """The needle of the swatch."""
    rib: Annotated[float | None, needle_mm] = None
    """For ribs, garter edges and facings; default 0.5 mm below the main needle."""


class NeckChoices(Model):
    """The neck opening and its band; lengths in cm."""

    opening: Annotated[str | float, named_or_between(NECK_OPENINGS, 20, 120, typical=48)] = "crew"
    """Round the neck edge where the yoke begins; boat is very wide, and nearly level."""
    front: Annotated[_Front, one_of(*get_args(_Front))] = "level"
    """Level with the sides; or scooped, or a V, both worked flat until the fronts are joined."""
    drop: Annotated[str | float, named_or_between(("by size",), 1, 40, typical=7)] = "by size"
    """How deep a scooped front, or a V, is cut below the back of the neck."""
    finish: NeckFinishName = "rib"
    """How the edge is worked: ribbed, in garter stitch, left to roll, or folded inside; or a rib
    that stands high, or twice as high and folded outwards."""
    turning: TurningName = "purl"
    """The round along which a folded edge turns: a ridge of purls, or picots."""
    rib: RibName = "1x1"
    """Its ribbing, where it is ribbed."""
    band: Annotated[str | float, named_or_between(("by finish",), 0.5, 25, typical=2.5)] = (
        "by finish"
    )
    """Depth of the neckband as it is worn; `by finish` makes a high neck high."""
    back_raise: Annotated[
        str | float, named_or_between(("by size", "none"), 0.5, 12, typical=3)
    ] = "by size"
    """How much higher the back of the neck is than the front."""
    short_rows: Annotated[_ShortRows, one_of(*get_args(_ShortRows))] = "german"
    """How the short rows that raise the back are turned."""
    cast_on: Annotated[_CastOn, one_of(*get_args(_CastOn))] = "plain"
    """Plain, the band worked first; or provisional, the band worked when all else is done."""

    @property
    def wraps(self) -> bool:
        """Tell whether short rows are wrapped and turned, darts too."""
        return self.short_rows == "wrapped"


class YokeChoices(Model):
    """How the yoke grows; lengths in cm."""

    style: Annotated[_YokeStyle, one_of(*get_args(_YokeStyle))] = "circular"
    """The family of yoke: round, or raglan with four lines from the neck to the underarms."""
    line_width: Annotated[int, whole(0, 6, typical=2)] = 2
    """Of a raglan: the stitches of each line."""
    line_increase: Annotated[_LineIncrease, one_of(*get_args(_LineIncrease))] = "lifted"
    """Of a raglan: how the work grows beside a line: M1R and M1L, yo, or kfb."""
    proportions: Annotated[_Proportions, one_of(*get_args(_Proportions))] = "measured"
    """From your measurements, or by the percentage system as printed in either year."""
    increases: Annotated[_Increases, one_of(*get_args(_Increases))] = "regular"
    """How the increase rounds are placed: few means 3 or 4, gentle one every 2 to 2.5 cm."""
    depth: Annotated[
        str | float, named_or_between(("by size", "quarter of chest"), 6, 50, typical=21)
    ] = "by size"
    """At the front, from below the neckband to the underarm."""
    underarm: Annotated[
        str | float, named_or_between(("by size",), 1, MOST_UNDERARM_CM, typical=6)
    ] = "by size"
    """Width cast on at each underarm."""
    bands: Annotated[tuple[Band, ...], Field(max_length=MOST_BANDS)] = ()
    """The colour bands, from the neck down."""


class BodyChoices(Model):
    """The body below the underarm; lengths in cm."""

    shape: Annotated[_BodyShape, one_of(*get_args(_BodyShape))] = "straight"
    """Straight down, widening to the hem, or in at the waist and out again."""
    length: Annotated[ChosenLength, chosen(BODY_LENGTHS, 5, 100)] = NamedLength("hip")
    """From the underarm to the edge of the hem."""
    finish: FinishName = "rib"
    """How the edge is worked: ribbed, in garter stitch, left to roll, or folded inside."""
    turning: TurningName = "purl"
    """The round along which a folded edge turns: a ridge of purls, or picots."""
    rib: RibName = "1x1"
    """Its ribbing, where it is ribbed."""
    hem: Annotated[float, between(0.5, 20, typical=5)] = 5.0
    """Depth of the hem."""
    gather: Annotated[float, number(0, 25, what="per cent", typical="10")] = 0.0
    """Per cent fewer stitches in the hem than in the body above it."""
    bands: Annotated[tuple[BodyBand, ...], Field(max_length=MOST_BANDS)] = ()
    """Its colour bands, from the underarm down."""


class SleeveChoices(Model):
    """The sleeves; lengths in cm."""

    length: Annotated[ChosenLength, chosen(SLEEVE_LENGTHS, 2, 90)] = NamedLength("full")
    """From the underarm to the edge of the cuff, along the inner arm."""
    finish: FinishName = "rib"
    """How the edge is worked: ribbed, in garter stitch, left to roll, or folded inside."""
    turning: TurningName = "purl"
    """The round along which a folded edge turns: a ridge of purls, or picots."""
    rib: RibName = "1x1"
    """Its ribbing, where it is ribbed."""
    cuff: Annotated[str | float, named_or_between(("by length",), 0.5, 20, typical=5)] = "by length"
    """Depth of the cuff; `by length` gives a short sleeve a shallow one."""
    bands: Annotated[tuple[SleeveBand, ...], Field(max_length=MOST_BANDS)] = ()
    """Their colour bands, from the underarm down."""


class Garment(Model):
    """The garment's choices."""

    neck: NeckChoices = NeckChoices()
    yoke: YokeChoices = YokeChoices()
    body: BodyChoices = BodyChoices()
    sleeves: SleeveChoices = SleeveChoices()
    work_order: WorkOrder = "body first"
    """Whether the body or the sleeves take what is left of the yarn: the last knitted does."""


class SheetChoices(Model):
    """How the sheet is printed."""

    paper: Annotated[_Paper, one_of(*get_args(_Paper))] = "A4"
    """The paper in your printer."""
    units: UnitName = "cm"
    """The unit on the sheet; when not given, the file's own unit."""
    large_print: Annotated[bool, yes_or_no] = False
    """Larger letters."""


class Project(Model):
    """One sweater: the whole project file."""

    edition: Annotated[Literal[1], file_edition] = 1
    """Edition of this file format."""
    title: Annotated[str, text(80, example="Autumn yoke")] = "A yoke sweater"
    """Printed at the head of the sheet."""
    unit: UnitName = "cm"
    """The unit of a bare number in this file."""
    wearer: Wearer = Wearer()
    body: Body = Body()
    ease: Ease = Ease()
    swatch: Swatches
    yarn: dict[Annotated[str, StringConstraints(pattern=YARN_CODE)], Yarn]
    weighing: Weighing = Weighing()
    """How the yarn is weighed, and how sure an answer about it must be."""
    needles: Needles
    charts: dict[ChartName, ChartChoices] = {}  # noqa: RUF012 -- pydantic copies it
    """The charts that the bands may name."""
    garment: Garment = Garment()
    fixed: Fixed = NOTHING
    """Counts that the plan must meet exactly."""
    pattern: Pattern | None = None
    """The numbers of a pattern you hold, to be followed at your gauge."""
    sheet: SheetChoices = SheetChoices()

    @model_validator(mode="before")
    @classmethod
    def _sheet_in_the_unit_of_the_file(cls, given: Any) -> Any:
        """A file in inches gets a sheet in inches unless it says otherwise."""
        unit = given.get("unit") if isinstance(given, dict) else None
        if length_unit(unit) != "in":
            return given
        sheet = given.get("sheet", {})
        if not isinstance(sheet, dict) or "units" in sheet:
            return given
        return {**given, "sheet": {**sheet, "units": "in"}}
