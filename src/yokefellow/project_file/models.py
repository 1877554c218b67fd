"""The project file as frozen models: what a knitter may write, and within what limits.

Lengths are kept in cm, masses in g, lengths of yarn in m. A field's own
limits stand beside it; what two fields say about each other is checked in
`yokefellow.project_file.checks.project`. Nothing here computes shaping.
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
    Only,
    Reading,
    Stated,
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
    swatch_grams,
    unravelled_metres,
    weighed_balls,
)
from yokefellow.project_file.pattern import Pattern
from yokefellow.project_file.pins import (
    NOTHING,
    Fixed,
)
from yokefellow.quantities import LengthUnit, length_unit

_Relaxed = Literal["dry relaxed", "wet relaxed", "fully relaxed"]
_OfSwatch = Literal["keep", "unravel"]
_WorkOrder = Literal["body first", "sleeves first"]

Relaxed: TypeAlias = Annotated[_Relaxed, one_of(*get_args(_Relaxed))]
WorkOrder: TypeAlias = Annotated[_WorkOrder, one_of(*get_args(_WorkOrder))]


class Weighed(Model):
    """The whole swatch on the scale: the best evidence of what a stitch costs in yarn.

    Cut it free, and count all its stitches and rounds.
    """

    weight: Annotated[float, swatch_grams, Stated("Weight of the whole swatch")]
    """What the swatch weighs, cut free and with its ends trimmed."""
    stitches: Annotated[int, whole(5, 2_000, typical=60), Stated("Stitches of the whole swatch")]
    """Stitches across the whole swatch, edges too."""
    rounds: Annotated[int, whole(5, 2_000, typical=80), Stated("Rounds of the whole swatch")]
    """Rounds (or rows) of the whole swatch, cast-on and bind-off too."""


class Unravelled(Model):
    """Or pull out a number of stitches and measure their yarn: the next best evidence."""

    length: Annotated[float, unravelled_metres]
    """How long the yarn is, stretched just straight; held double, of one strand."""
    stitches: Annotated[int, whole(20, 20_000, typical=200)]
    """Stitches it came out of."""


class Yarn(Model):
    """The yarn.

    MC is the main color; others are [yarn.CC1], [yarn.CC2] to CC9.
    """

    name: Annotated[str, text(80, example="the drawer wool"), Stated("Name of the yarn")] = ""
    """What you call it."""
    colour: Annotated[str, text(80, example="slate")] = ""
    """Its colour, in your words."""
    fibre: Annotated[str, text(80, example="wool")] = ""
    """What it is made of."""
    ball_weight: Annotated[
        float,
        grams,
        Stated(question="What does one ball weigh?"),
    ]
    """What one ball weighs, from its band; a number alone is grams. Of handspun, what a measured
    piece weighs."""
    ball_length: Annotated[
        float,
        metres,
        Stated(question="How long is the yarn of one ball?"),
    ]
    """How long the yarn of one ball is, from its band. Of handspun, of that piece."""
    balls: Annotated[
        float,
        number(0, 500, above=True, what="a number", typical="6", thing="ball"),
        Stated(question="How many balls have you?"),
    ]
    """How many balls you have; a part of a ball as a decimal, or a fraction in quotes."""
    weights: Annotated[tuple[float, ...], ball_weights] = ()
    """In place of balls: each ball as it weighs now, the bare yarn without its core."""
    lots: Annotated[tuple[str, ...], lot_names] = ()
    """The dye lot of each ball, in the same order, where they differ."""
    strands: Annotated[int, whole(1, 4, typical=2)] = 1
    """How many strands are held together, such as 2 for a mohair held double."""

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
    """How the yarn is weighed, and how sure an answer about it must be."""

    scale: Annotated[float, scale_step] = 1.0
    """The smallest step of your kitchen scale."""
    relaxed: Relaxed = "wet relaxed"
    """How far the counted swatch had settled: laid flat and never wet, washed and dried flat, or
    tumbled while wet."""
    sure: Annotated[
        float, number(50, 99, what="per cent", typical="90"), Stated("How sure, in per cent")
    ] = 90.0
    """How sure an answer about the yarn must be, in per cent."""
    swatch: Annotated[_OfSwatch, one_of(*get_args(_OfSwatch))] = "keep"
    """Whether the swatch is kept, or unravelled and knitted in."""


MOST_CHARTS, MOST_BANDS = 50, 20

_Kind = Literal["mosaic", "slip", "stranded", "stripes", "purl"]

ChartName: TypeAlias = Annotated[str, StringConstraints(pattern=CHART_NAME)]


class ChartChoices(Model):
    """Charts of your own.

    One repeat, drawn with a sign for each yarn, the way the sweater hangs: the first row lies
    nearest the neck and is knitted first, each row from left to right. A row may begin with
    the yarn in hand: "CC1: ..v."
    """

    kind: Annotated[_Kind, one_of(*get_args(_Kind))]
    """How the picture is knitted. A mosaic has one of two colors in hand in each round: write what
    is to be seen, and which stitches are slipped is worked out; a stitch can show the color
    that rests only where the row before showed it. In "slip", v marks a slipped stitch. In
    "stranded", two colors are in hand. In "purl", - marks a purl stitch."""
    colours: Annotated[dict[str, str], legend]
    """Which mark stands for which yarn."""
    rows: Annotated[tuple[str, ...], chart_rows]
    """One repeat wide, the row nearest the neck first."""
    times: Annotated[int, whole(1, 4, typical=2)] = 1
    """Rounds worked from each row: when left out 2 in a mosaic and 1 in the others."""
    grows: Annotated[bool, yes_or_no] = False
    """Whether the repeat widens from row to row, with increases where it does."""
    file: Annotated[str | None, chart_file] = None
    """A file of its own that holds these lines, in the folder of this one; then leave them out
    here."""
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
    """A color band of the yoke; one such table for every band, from the neck down.

    It needs the other yarns it names.
    """

    chart: Annotated[str, chart_name]
    """A chart of this file, or a motif that comes with the program: "beads", "buds", "diamonds"
    (stranded); "low-wall", "pebbles", "stairs", "winding-path" (mosaic); "fence" (slip);
    "tide-lines" (stripes); "drizzle" (purl)."""
    at: Annotated[str | float, named_or_between(("spread",), 0.1, 45, typical=6)] = "spread"
    """How deep below the neckband it begins, at the front; or spread evenly with the others."""
    repeats: Annotated[int | None, whole(1, 600, typical=48)] = None
    """How many repeats go round; when left out the best number is found."""
    colours: Annotated[dict[str, str] | None, other_yarns] = None
    """Other yarns than the chart names: the chart's yarn, and the one to take for it."""


class BodyBand(Model):
    """A color band on the body; one such table for every band, from the underarm down."""

    chart: Annotated[str, chart_name]
    """A chart of this file, or a shipped motif by its name."""
    at: Annotated[str | float, named_or_between(("hem",), 0.1, 100, typical=25)] = "hem"
    """Its depth below the underarm, or just above the hem."""
    colours: Annotated[dict[str, str] | None, other_yarns] = None
    """Other yarns than the chart names: the chart's yarn, and the one to take for it."""


class SleeveBand(Model):
    """A color band on both sleeves; one such table for every band, from the underarm down."""

    chart: Annotated[str, chart_name]
    """A chart of this file, or a shipped motif by its name."""
    at: Annotated[str | float, named_or_between(("cuff",), 0.1, 90, typical=25)] = "cuff"
    """Its depth below the underarm, or just above the cuff."""
    colours: Annotated[dict[str, str] | None, other_yarns] = None
    """Other yarns than the chart names: the chart's yarn, and the one to take for it."""


PieceBand: TypeAlias = BodyBand | SleeveBand
"""A band of the body or the sleeves."""

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
_ChartsDrawn = Literal["as worked", "as it hangs"]
Printed: TypeAlias = Literal["whole", "knitting", "appendix"]

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


OF_A_RAGLAN_YOKE = Only("garment.yoke.style", ("raglan",))
OF_A_ROUND_YOKE = Only("garment.yoke.style", ("circular",))


class Wearer(Model):
    """Who it is for, and which sizing table fills in what you do not measure."""

    name: Annotated[
        str,
        text(80, example="for me"),
        Stated(question="Who is it for?"),
    ] = ""
    """Printed at the head of the sheet."""
    table: Annotated[
        Group,
        Stated("Sizing table", question="Which sizing table stands nearest?", usual="women"),
    ] = "women"
    """Which sizing table stands nearest; the sheet shows which numbers were filled in from it."""
    size: Annotated[
        str | None,
        text(20, example="M"),
        Stated(question="Which size of that table?"),
    ] = None
    """A size of that table; needed only when the chest is not given."""


class Body(Model):
    """The body, as the tape says.

    Pull the tape close, not tight, over a thin layer. Measure the chest and the upper arm at
    least: a body is never a size.
    """

    chest: Annotated[
        float | None,
        between(35, 200, typical=96.5),
        Stated(question="Chest?"),
    ] = None
    """Round the fullest part of the chest."""
    waist: Annotated[
        float | None,
        between(30, 200, typical=76),
        Stated(question="Waist?"),
    ] = None
    """Round the narrowest part of the trunk."""
    hip: Annotated[
        float | None,
        between(35, 220, typical=102),
        Stated(question="Hip?"),
    ] = None
    """Round the widest part below the waist."""
    upper_arm: Annotated[
        float | None,
        between(9, 80, typical=30.5),
        Stated(question="Upper arm?"),
    ] = None
    """Round the widest part of the upper arm, the arm hanging."""
    elbow: Annotated[float | None, between(9, 70, typical=26.5)] = None
    """Round the arm just above the bend of the elbow."""
    forearm: Annotated[float | None, between(8, 60, typical=25)] = None
    """Round the widest part of the forearm."""
    wrist: Annotated[float | None, between(6, 40, typical=16)] = None
    """Round the wrist, over the bone."""
    head: Annotated[
        float | None,
        between(30, 70, typical=56),
        Stated(question="Head?"),
    ] = None
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
    arm_length: Annotated[
        float | None,
        between(10, 80, typical=43),
        Stated(question="Underarm to wrist?"),
    ] = None
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
    """How much larger than the body the sweater is: a name, or a length, which may be negative."""

    chest: Annotated[
        str | float,
        ease(FIT_NAMES, -20, 60),
        Stated(
            "Ease at the chest", question="How closely does it fit at the chest?", usual="classic"
        ),
    ] = "classic"
    """At the chest; a negative length stretches over the body."""
    upper_arm: Annotated[
        str | float,
        ease(FIT_NAMES, -10, 40),
        Stated(
            "Ease at the upper arm",
            question="How closely does it fit at the upper arm?",
            usual="classic",
        ),
    ] = "classic"
    """At the upper arm."""


class SwatchState(Model):
    """The counts on the swatch, in two or three places, halves too."""

    stitches: Annotated[
        tuple[Annotated[Reading, reading], ...],
        Stated(
            "Stitches",
            question="How many stitches did you count on the washed swatch?",
        ),
    ] = Field(min_length=1, max_length=20)
    """Stitches over a width; count in two or three places."""
    rounds: Annotated[
        tuple[Annotated[Reading, rounds_reading], ...],
        Stated("Rounds", question="How many rounds did you count on it?"),
    ] = Field(min_length=1, max_length=20)
    """Rounds (or rows) over a height; count in two or three places."""


class Swatch(Model):
    """One swatch in one fabric.

    Make it as large as your hand, and better larger; wash and dry it as you will wash the
    sweater.
    """

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
    """The needles, in mm or in US sizes."""

    main: Annotated[
        float,
        needle_mm,
        Stated("Needle", question="Which needle did you swatch with?"),
    ]
    """The needle of the swatch."""
    rib: Annotated[float | None, needle_mm, Stated("Needle for the ribs")] = None
    """For ribs, garter edges and facings; when left out half a millimeter thinner than the main
    needle."""


class NeckChoices(Model):
    """The neck opening and its band."""

    opening: Annotated[
        str | float, named_or_between(NECK_OPENINGS, 20, 120, typical=48), Stated("Neck opening")
    ] = "crew"
    """Round the neck edge where the yoke begins; a boat neck is very wide, and nearly level."""
    front: Annotated[_Front, one_of(*get_args(_Front)), Stated("Front neck")] = "level"
    """Level with the sides; or, of a raglan, scooped or a V, both worked flat until the fronts are
    joined, with the neckband picked up at the end."""
    drop: Annotated[
        str | float,
        named_or_between(("by size",), 1, 40, typical=7),
        Stated("Depth of the front neck", only=Only("garment.neck.front", ("scooped", "V"))),
    ] = "by size"
    """How deep a scooped front, or a V, is cut below the back of the neck."""
    finish: Annotated[NeckFinishName, Stated("Neck edge")] = "rib"
    """How the edge is worked: ribbed, in garter stitch, left to roll, or folded inside; or a rib
    that stands high, or twice as high and folded outwards."""
    turning: Annotated[
        TurningName,
        Stated(only=Only("garment.neck.finish", ("folded",))),
    ] = "purl"
    """The round along which a folded edge turns: a ridge of purls, or picots."""
    rib: RibName = "1x1"
    """Its ribbing, where it is ribbed."""
    band: Annotated[
        str | float,
        named_or_between(("by finish",), 0.5, 25, typical=2.5),
        Stated("Depth of the neckband"),
    ] = "by finish"
    """Depth of the neckband as it is worn; by finish makes a high neck high."""
    back_raise: Annotated[
        str | float, named_or_between(("by size", "none"), 0.5, 12, typical=3)
    ] = "by size"
    """How much higher the back of the neck is than the front."""
    short_rows: Annotated[_ShortRows, one_of(*get_args(_ShortRows))] = "german"
    """How the short rows that raise the back are turned."""
    cast_on: Annotated[_CastOn, one_of(*get_args(_CastOn))] = "plain"
    """Plain works the neckband first; provisional leaves the neck open over waste yarn, and the
    neckband is worked last."""

    @property
    def wraps(self) -> bool:
        """Tell whether short rows are wrapped and turned, darts too."""
        return self.short_rows == "wrapped"


class YokeChoices(Model):
    """How the yoke grows."""

    style: Annotated[_YokeStyle, one_of(*get_args(_YokeStyle)), Stated("Yoke")] = "circular"
    """The family of yoke: round, or raglan with four lines from the neck to the underarms."""
    line_width: Annotated[
        int,
        whole(0, 6, typical=2),
        Stated("Stitches of each raglan line", only=OF_A_RAGLAN_YOKE),
    ] = 2
    """Of a raglan: the stitches of each line."""
    line_increase: Annotated[
        _LineIncrease,
        one_of(*get_args(_LineIncrease)),
        Stated("Raglan increase", only=OF_A_RAGLAN_YOKE),
    ] = "lifted"
    """Of a raglan: how the work grows beside a line: M1R and M1L, yo, or kfb."""
    proportions: Annotated[_Proportions, one_of(*get_args(_Proportions))] = "measured"
    """From your measurements, or by fixed shares of the body stitches, as the percentage system
    was printed in either year."""
    increases: Annotated[
        _Increases,
        one_of(*get_args(_Increases)),
        Stated("Increase rounds", only=OF_A_ROUND_YOKE),
    ] = "regular"
    """Of a round yoke: how the increase rounds are placed; few means 3 or 4 in all, gentle many
    small ones."""
    depth: Annotated[
        str | float,
        named_or_between(("by size", "quarter of chest"), 6, 50, typical=21),
        Stated("Yoke depth"),
    ] = "by size"
    """At the front, from below the neckband to the underarm."""
    underarm: Annotated[
        str | float, named_or_between(("by size",), 1, MOST_UNDERARM_CM, typical=6)
    ] = "by size"
    """Width cast on at each underarm."""
    bands: Annotated[tuple[Band, ...], Field(max_length=MOST_BANDS)] = ()
    """The colour bands, from the neck down."""


class BodyChoices(Model):
    """The body below the underarm."""

    shape: Annotated[
        _BodyShape,
        one_of(*get_args(_BodyShape)),
        Stated("Body shape", question="Which shape has the body?", usual="straight"),
    ] = "straight"
    """Straight down, widening to the hem, or in at the waist and out again."""
    length: Annotated[
        ChosenLength,
        chosen(BODY_LENGTHS, 5, 100),
        Stated("Body length", question="How long is the body?", usual="hip"),
    ] = NamedLength("hip")
    """From the underarm to the edge of the hem; longer and shorter are than hip."""
    finish: Annotated[FinishName, Stated("Hem edge")] = "rib"
    """How the edge is worked: ribbed, in garter stitch, left to roll, or folded inside."""
    turning: Annotated[
        TurningName,
        Stated(only=Only("garment.body.finish", ("folded",))),
    ] = "purl"
    """The round along which a folded edge turns: a ridge of purls, or picots."""
    rib: RibName = "1x1"
    """Its ribbing, where it is ribbed."""
    hem: Annotated[
        str | float,
        named_or_between(("by length",), 0.5, 20, typical=5),
        Stated("Depth of the hem"),
    ] = "by length"
    """Depth of the hem; `by length` gives a short body, and a small one, a shallow one."""
    gather: Annotated[
        float,
        number(0, 25, what="per cent", typical="10"),
        Stated("Fewer stitches in the hem, per cent"),
    ] = 0.0
    """Per cent fewer stitches in the hem than in the body above it."""
    bands: Annotated[tuple[BodyBand, ...], Field(max_length=MOST_BANDS)] = ()
    """Its colour bands, from the underarm down."""


class SleeveChoices(Model):
    """The sleeves."""

    length: Annotated[
        ChosenLength,
        chosen(SLEEVE_LENGTHS, 2, 90),
        Stated("Sleeve length", question="How long are the sleeves?", usual="full"),
    ] = NamedLength("full")
    """From the underarm to the edge of the cuff, along the inner arm; longer and shorter are than
    full."""
    finish: Annotated[FinishName, Stated("Cuff edge")] = "rib"
    """How the edge is worked: ribbed, in garter stitch, left to roll, or folded inside."""
    turning: Annotated[
        TurningName,
        Stated(only=Only("garment.sleeves.finish", ("folded",))),
    ] = "purl"
    """The round along which a folded edge turns: a ridge of purls, or picots."""
    rib: RibName = "1x1"
    """Its ribbing, where it is ribbed."""
    cuff: Annotated[
        str | float,
        named_or_between(("by length",), 0.5, 20, typical=5),
        Stated("Depth of the cuff"),
    ] = "by length"
    """Depth of the cuff; by length gives a short sleeve a shallow one."""
    bands: Annotated[tuple[SleeveBand, ...], Field(max_length=MOST_BANDS)] = ()
    """Their colour bands, from the underarm down."""


class Garment(Model):
    """The garment."""

    neck: NeckChoices = NeckChoices()
    yoke: YokeChoices = YokeChoices()
    body: BodyChoices = BodyChoices()
    sleeves: SleeveChoices = SleeveChoices()
    work_order: Annotated[WorkOrder, Stated("Knitted first")] = "body first"
    """What is knitted last takes what is left of the yarn: body first leaves it to the sleeves,
    sleeves first to the body."""


class SheetChoices(Model):
    """How the sheet is printed."""

    paper: Annotated[
        _Paper,
        one_of(*get_args(_Paper)),
        Stated(question="Which paper is in your printer?", usual="A4", usual_in_inches="Letter"),
    ] = "A4"
    """The paper in your printer."""
    units: Annotated[UnitName, Stated("Units on the sheet")] = "cm"
    """The unit on the sheet; when not given, the file's own unit."""
    large_print: Annotated[bool, yes_or_no] = False
    """Larger letters."""
    chart_direction: Annotated[_ChartsDrawn, one_of(*get_args(_ChartsDrawn))] = "as worked"
    """Charts from the bottom up and from right to left, as worked; or as the sweater hangs."""
    print: Annotated[Printed, one_of(*get_args(Printed))] = "whole"
    """The whole sheet; only the rounds, charts and abbreviations, for the project bag; or only the
    appendix, which tells how the sweater was worked out."""


class Project(Model):
    """One sweater: the whole project file."""

    edition: Annotated[Literal[1], file_edition] = 1
    """Edition of this file format."""
    title: Annotated[
        str,
        text(80, example="Autumn yoke"),
        Stated(question="What is the sweater called?", usual="A yoke sweater"),
    ] = "A yoke sweater"
    """Printed at the head of the sheet."""
    unit: Annotated[
        UnitName,
        Stated(
            "Unit of a bare number", question="Do you measure in cm or in inches (in)?", usual="cm"
        ),
    ] = "cm"
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
