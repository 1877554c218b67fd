"""The project file as frozen models: what a knitter may write, and within what limits.

Lengths are kept in cm, masses in g, lengths of yarn in m. A field's own
limits stand beside it; what two fields say about each other is checked in
`yokefellow.project_file.checks.body`. Nothing here computes shaping.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self, TypeAlias, get_args

from pydantic import (
    Field,
    ModelWrapValidatorHandler,
    PrivateAttr,
    StringConstraints,
    model_validator,
)

from yokefellow.project_file.chart_fields import (
    CHART_NAME,
    ROUNDS_FROM_A_LINE,
    YARN_CODE,
    chart_file,
    chart_name,
    chart_rows,
    legend,
    other_yarns,
    whole,
)
from yokefellow.project_file.fields import (
    ChosenLength,
    Model,
    NamedLength,
    Reading,
    file_edition,
    number,
    one_of,
    text,
    yes_or_no,
)
from yokefellow.project_file.measure_fields import (
    ball_weights,
    between,
    chosen,
    ease,
    grams,
    length_of_band,
    lot_names,
    metres,
    named_or_between,
    needle_mm,
    reading,
    rounds_reading,
    scale_step,
    weighed_balls,
)
from yokefellow.project_file.pins import (
    MOST_ROUNDS,
    MOST_STITCHES,
    NOTHING,
    Fixed,
    IncreaseCounts,
    IncreaseNumbers,
)
from yokefellow.quantities import LengthUnit, length_unit

_Relaxed = Literal["dry relaxed", "wet relaxed", "fully relaxed"]
_OfSwatch = Literal["keep", "unravel"]
_WorkOrder = Literal["body first", "sleeves first"]

Relaxed: TypeAlias = Annotated[_Relaxed, one_of(*get_args(_Relaxed))]
WorkOrder: TypeAlias = Annotated[_WorkOrder, one_of(*get_args(_WorkOrder))]


class Weighed(Model):
    """A swatch on the kitchen scale, all its stitches counted."""

    weight: Annotated[float, grams]
    """What the swatch weighs, cut free and with its ends trimmed."""
    stitches: Annotated[int, whole(5, 2_000, typical=60)]
    """Stitches across the whole swatch, edges too."""
    rounds: Annotated[int, whole(5, 2_000, typical=80)]
    """Rounds (or rows) of the whole swatch, cast-on and bind-off too."""


class Unravelled(Model):
    """A length of yarn pulled out of a known number of stitches."""

    length: Annotated[float, metres]
    """How long the yarn is, stretched just straight; held double, of one strand."""
    stitches: Annotated[int, whole(20, 20_000, typical=200)]
    """Stitches it came out of."""


class Yarn(Model):
    """One yarn of the stash."""

    name: Annotated[str, text(80, example="the drawer wool")] = ""
    """What you call it."""
    colour: Annotated[str, text(80, example="slate")] = ""
    """Its colour, in your words."""
    fibre: Annotated[str, text(80, example="wool")] = ""
    """What it is made of."""
    ball_weight: Annotated[float, grams]
    """What one ball weighs, from the band; of handspun, what a measured piece weighs."""
    ball_length: Annotated[float, metres]
    """How long the yarn of one ball is, from the band; of handspun, of that piece."""
    balls: Annotated[float, number(0, 500, above=True, what="a number", typical="6", thing="ball")]
    """How many balls are in the drawer; a part of a ball counts as a decimal."""
    weights: Annotated[tuple[float, ...], ball_weights] = ()
    """Each ball as it weighs now, in place of `balls`; the bare yarn without its core."""
    lots: Annotated[tuple[str, ...], lot_names] = ()
    """The dye lot of each ball, in the same order, where they differ."""
    strands: Annotated[int, whole(1, 4, typical=2)] = 1
    """How many strands are held together: 2 for a mohair held double."""

    _length_as_typed: str = PrivateAttr("")

    @property
    def length_as_typed(self) -> str:
        """What was typed as `ball_length` where more than the length stood there."""
        return self._length_as_typed

    @model_validator(mode="wrap")
    @classmethod
    def _keep_what_was_typed(cls, given: Any, handler: ModelWrapValidatorHandler[Self]) -> Self:
        """Keep the words of a ball band of which only a part was read, to say so."""
        yarn = handler(given)
        typed = given.get("ball_length") if isinstance(given, dict) else None
        if length_of_band(typed) is not None:
            yarn._length_as_typed = str(typed)
        return yarn

    @model_validator(mode="before")
    @classmethod
    def _balls_by_weight(cls, given: Any) -> Any:
        """Count the balls by their weights when only these are given."""
        if not isinstance(given, dict) or "balls" in given or "weights" not in given:
            return given
        return {**given, "balls": weighed_balls(given["weights"], given.get("ball_weight"))}


class Weighing(Model):
    """How yarn is weighed, and how sure the answers are to be."""

    scale: Annotated[float, scale_step] = 1.0
    """The smallest step of your kitchen scale."""
    relaxed: Relaxed = "wet relaxed"
    """How far the counted swatch had settled: laid flat dry, washed and dried, or tumbled."""
    sure: Annotated[float, number(50, 99, what="per cent", typical="90")] = 90.0
    """How sure an answer about the yarn must be, in per cent."""
    swatch: Annotated[_OfSwatch, one_of(*get_args(_OfSwatch))] = "keep"
    """Whether the swatch is kept, or unravelled and knitted in."""


MOST_CHARTS, MOST_BANDS = 50, 20

_Kind = Literal["mosaic", "slip", "stranded", "stripes", "purl"]

ChartName: TypeAlias = Annotated[str, StringConstraints(pattern=CHART_NAME)]


class ChartChoices(Model):
    """One chart: one repeat, its rows in the order in which they are knitted."""

    kind: Annotated[_Kind, one_of(*get_args(_Kind))]
    """How the picture is knitted."""
    colours: Annotated[dict[str, str], legend]
    """Which mark stands for which yarn."""
    rows: Annotated[tuple[str, ...], chart_rows]
    """One repeat wide, the row nearest the neck first."""
    times: Annotated[int, whole(1, 4, typical=2)] = 1
    """Rounds worked from each line; when not given 2 in a mosaic and 1 in the others."""
    grows: Annotated[bool, yes_or_no] = False
    """Whether the repeat widens from row to row, with increases where it does."""
    file: Annotated[str | None, chart_file] = None
    """A file of its own that holds these fields, beside the project file."""
    title: Annotated[str, text(80, example="Pebbles on a beach")] = ""
    """What the chart shows."""
    about: Annotated[str, text(400, example="Two colours, short strands.")] = ""
    """What is worth knowing before knitting it."""

    @model_validator(mode="before")
    @classmethod
    def _times_by_kind(cls, given: Any) -> Any:
        """Take the rounds from each line that are usual for the kind."""
        if not isinstance(given, dict) or "times" in given:
            return given
        kind = given.get("kind")
        usual = ROUNDS_FROM_A_LINE.get(kind.strip().lower()) if isinstance(kind, str) else None
        return {**given, "times": usual} if usual else given


class Band(Model):
    """One colour band of the yoke: a chart, and where it stands."""

    chart: Annotated[str, chart_name]
    """A chart of this file, or a shipped motif by its name."""
    at: Annotated[str | float, named_or_between(("spread",), 0.1, 45, typical=6)] = "spread"
    """Its depth below the neckband at the front, or spread evenly with the others."""
    repeats: Annotated[int | None, whole(1, 600, typical=48)] = None
    """How many repeats go round; when not given the best number is found."""
    colours: Annotated[dict[str, str] | None, other_yarns] = None
    """Other yarns than the chart names: the chart's yarn, and the one to take for it."""


class BodyBand(Model):
    """One colour band of the body: a chart, and where it stands."""

    chart: Annotated[str, chart_name]
    """A chart of this file, or a shipped motif by its name."""
    at: Annotated[str | float, named_or_between(("hem",), 0.1, 100, typical=25)] = "hem"
    """Its depth below the underarm, or just above the hem."""
    colours: Annotated[dict[str, str] | None, other_yarns] = None
    """Other yarns than the chart names: the chart's yarn, and the one to take for it."""


class SleeveBand(Model):
    """One colour band of both sleeves: a chart, and where it stands."""

    chart: Annotated[str, chart_name]
    """A chart of this file, or a shipped motif by its name."""
    at: Annotated[str | float, named_or_between(("cuff",), 0.1, 90, typical=25)] = "cuff"
    """Its depth below the underarm, or just above the cuff."""
    colours: Annotated[dict[str, str] | None, other_yarns] = None
    """Other yarns than the chart names: the chart's yarn, and the one to take for it."""


PieceBand: TypeAlias = BodyBand | SleeveBand
"""A band of the body or the sleeves."""

MOST_SIZES = 30
"""Sizes of one pattern, at the most."""

BEST = "best"
"""To follow the size that comes nearest."""

_Depth = Literal["body", "pattern"]
_Stitches: TypeAlias = Annotated[int | None, whole(8, MOST_STITCHES, typical=200)]


class PatternSize(Model):
    """What the pattern prints for one of its sizes; what is not known is left out."""

    size: Annotated[str, text(20, example="M")]
    """The size by the pattern's own name."""
    cast_on: _Stitches = None
    """Stitches cast on at the neck."""
    neck: _Stitches = None
    """Stitches where its yoke begins, when they are not those cast on."""
    neck_back: Annotated[int | None, whole(2, 400, typical=34)] = None
    """Of a raglan: stitches of the back where the yoke begins, with its share of two lines."""
    neck_front: Annotated[int | None, whole(2, 400, typical=34)] = None
    """Of a raglan: stitches of the front where the yoke begins, with its share of two lines."""
    neck_sleeve: Annotated[int | None, whole(0, 400, typical=12)] = None
    """Of a raglan: stitches of each sleeve where the yoke begins, with its share of two lines."""
    increases: IncreaseCounts = ()
    """Stitches after each increase round of its yoke, in order."""
    increase_at: IncreaseNumbers = ()
    """The rounds of its yoke that increase; the first round after the neckband is 1."""
    yoke_rounds: Annotated[int | None, whole(8, MOST_ROUNDS, typical=70)] = None
    """Rounds of its yoke at the front, from the neckband to the split."""
    yoke: _Stitches = None
    """Stitches at the end of its yoke, before the split."""
    body: _Stitches = None
    """Stitches of its body right below the underarm, the underarms with it."""
    sleeve: _Stitches = None
    """Stitches round the top of each sleeve: those held, and those of the underarm."""
    underarm: Annotated[int | None, whole(2, 400, typical=16)] = None
    """Stitches cast on at each underarm."""
    held: Annotated[int | None, whole(2, MOST_STITCHES, typical=56)] = None
    """Stitches held for each sleeve at the split: those of the sleeve without its underarm."""
    front: _Stitches = None
    """Stitches of its front at the split, between the underarms."""
    back: _Stitches = None
    """Stitches of its back at the split, between the underarms."""
    chest: Annotated[float | None, between(30, 260, typical=104)] = None
    """The finished chest it prints."""
    sleeve_length: Annotated[float | None, between(2, 90, typical=44)] = None
    """Underarm to edge of its sleeve."""
    body_length: Annotated[float | None, between(4, 100, typical=36)] = None
    """Underarm to edge of its body."""


class Pattern(Model):
    """A pattern the knitter holds: its gauge, and the numbers of its sizes."""

    name: Annotated[str, text(80, example="the green book")] = ""
    """What you call it."""
    stitches: Annotated[tuple[Annotated[Reading, reading], ...], Field(max_length=20)] = ()
    """Its stitch gauge."""
    rounds: Annotated[tuple[Annotated[Reading, rounds_reading], ...], Field(max_length=20)] = ()
    """Its row gauge; without it the depths of its rounds are not known."""
    follow: Annotated[str, text(20, example="best")] = BEST
    """The size to follow: best takes the one whose chest comes out nearest at your gauge."""
    depth: Annotated[_Depth, one_of(*get_args(_Depth))] = "body"
    """How deep the yoke becomes: as your body needs it, or as the pattern's own size has it."""
    sizes: Annotated[tuple[PatternSize, ...], Field(min_length=1, max_length=MOST_SIZES)]
    """What it prints, size by size."""


def same_size(one: str, other: str) -> bool:
    """Tell whether two names are of one size, in any case."""
    return one.casefold() == other.casefold()


def counts_of(size: PatternSize) -> Fixed:
    """Give the counts of a size as they would be pinned, before any of them is re-gauged."""
    underarm = _underarm(size)
    return Fixed().model_copy(
        update={
            "neck": size.neck or size.cast_on,
            "neck_back": size.neck_back,
            "neck_front": size.neck_front,
            "neck_sleeve": size.neck_sleeve,
            "increases": size.increases,
            "increase_at": size.increase_at,
            "yoke_rounds": size.yoke_rounds,
            "yoke": size.yoke or (size.increases[-1] if size.increases else _yoke(size)),
            "body": size.body or _sum(size.front, size.back, underarm, underarm),
            "sleeve": size.sleeve or _sum(size.held, underarm),
            "underarm": underarm,
            "front": size.front,
            "back": size.back,
        }
    )


def _sum(*counts: int | None) -> int | None:
    """Add up, where every count is there."""
    known = [count for count in counts if count is not None]
    return sum(known) if len(known) == len(counts) else None


def _yoke(size: PatternSize) -> int | None:
    return _sum(size.front, size.back, size.held, size.held)


def _underarm(size: PatternSize) -> int | None:
    """Give the underarm: as printed, or what the sleeve or the body has beyond the pieces."""
    if size.underarm is not None:
        return size.underarm
    if size.sleeve is not None and size.held is not None:
        under = size.sleeve - size.held
        return under if under > 0 else None
    both = _sum(size.front, size.back)
    if size.body is None or both is None or (size.body - both) % 2 or size.body - both < 4:
        return None
    return (size.body - both) // 2


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
