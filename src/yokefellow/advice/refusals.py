"""Why no yoke can be made, in sentences: one finding for each refusal of the room `shaping`."""

from __future__ import annotations

from collections.abc import Sequence

from yokefellow.findings import Finding, Severity
from yokefellow.project_file.pins import pinned
from yokefellow.quantities import LengthUnit, at_least, at_most, either, length
from yokefellow.shaping import LEAST_APART, LEAST_HELD, TOLERANCE, BandTask, typed
from yokefellow.shaping.refusals import (
    BandChange,
    BandCount,
    BandGrows,
    BandOverEnd,
    BandRepeats,
    BandsInside,
    BandsUnmet,
    Crowded,
    Deeper,
    LeftOut,
    LineWide,
    Misfit,
    Moved,
    Narrow,
    NarrowFront,
    NeckWide,
    NoChain,
    NoWay,
    Offer,
    OtherRepeats,
    OverLastRound,
    PercentLineWide,
    PercentUneven,
    PinChanged,
    PinnedLine,
    PinReason,
    PinRemoved,
    PinsUnmet,
    RaglanRefusal,
    RaglanRules,
    Refusal,
    RoundYokeRules,
    Spread,
    Steep,
    TooFewRounds,
    TooManyRounds,
    Undivided,
    Unpinned,
    Unreached,
    WideUnderarm,
    YokeRounds,
)

__all__ = ["refusal_finding"]


def refusal_finding(refusal: Refusal, unit: LengthUnit) -> Finding:
    """Tell a refusal to the knitter.

    Args:
        refusal: what the search came to.
        unit: of the lengths she reads and writes.
    """
    match refusal:
        case (
            LineWide()
            | NeckWide()
            | Steep()
            | BandGrows()
            | BandOverEnd()
            | BandCount()
            | BandRepeats()
            | BandsInside()
            | PinnedLine()
            | PercentLineWide()
            | PercentUneven()
        ):
            return _raglan(refusal, unit)
        case WideUnderarm():
            return _error(
                "yoke.underarm-wide",
                "garment.yoke.underarm",
                f"An underarm of {length(refusal.underarm_cm, unit)} leaves fewer than "
                f"{LEAST_HELD} stitches of a sleeve of {length(refusal.sleeve_cm, unit)}, or of "
                f"half a body of {length(refusal.half_body_cm, unit)}.",
                f"Choose an underarm of at most {at_most(refusal.widest_cm, unit)}.",
            )
        case NoWay():
            return _error(
                "yoke.no-way",
                "garment.neck.opening",
                f"No even increases lead from a neck of {length(refusal.neck_cm, unit)} "
                f"({refusal.neck:.0f} stitches) to a yoke of {length(refusal.yoke_cm, unit)} "
                f"({refusal.yoke:.0f} stitches) in {length(refusal.depth_cm, unit)} of depth.",
                "Choose a smaller neck opening, a narrower underarm, more ease or a deeper yoke.",
            )
        case BandsUnmet():
            return _error(
                f"bands.{_band_rule(refusal.reason)}",
                "garment.yoke.bands",
                _why(refusal.reason, refusal.bands, unit),
                _remedy_of_bands(refusal, unit),
            )
        case PinsUnmet():
            fixed = refusal.fixed
            names = ", ".join(f"{name} = {_listed(getattr(fixed, name))}" for name in pinned(fixed))
            return _error(
                "fixed.bands" if refusal.bands else "fixed.no-way",
                "fixed",
                f"No yoke meets these pins together: {names}. "
                f"{_why(refusal.reason, refusal.bands, unit)}",
                _tried([_offer(offer, unit) for offer in refusal.offers])
                or "No pin within a few stitches of one of these helps: take two or more of them "
                "out.",
            )
        case NarrowFront():
            return _error(
                "fixed.front-back",
                f"fixed.{refusal.name}",
                f"Front and back have {refusal.both} stitches together between the underarms, and "
                f"a {refusal.name} of {refusal.pin} leaves fewer than {LEAST_HELD} for the other.",
                f"Write at most {refusal.both - LEAST_HELD}, or pin a larger body.",
            )


def _error(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(code, Severity.ERROR, field, message, remedy)


# Why.


def _band_rule(reason: Crowded | Misfit | Narrow | Unreached | NoChain) -> str:
    match reason:
        case Misfit():
            return "misfit"
        case Narrow():
            return "narrow"
        case Crowded():
            return "crowded"
        case Unreached():
            return "unreached"
        case NoChain():
            return "no-chain"


def _why(reason: PinReason, bands: Sequence[BandTask], unit: LengthUnit) -> str:
    """Say in a sentence or two what cannot be."""
    match reason:
        case Misfit():
            return _misfit(reason, unit)
        case Narrow():
            return _narrow(reason)
        case Crowded():
            return _crowded(reason, unit)
        case Unreached():
            return _unreached(reason)
        case NoChain():
            return _no_chain(bands)
        case OverLastRound(number, rounds, has_bands, of_raglan):
            if not of_raglan:
                return f"Round {number} would increase, and this yoke has {rounds} rounds."
            return (
                f"Round {number} would increase, and {_where(has_bands=has_bands)} round {rounds} "
                "is the last that can."
            )
        case TooManyRounds(times, there, has_bands):
            return (
                f"There are {times} increase rounds, and {_where(has_bands=has_bands)} {there} "
                "rounds can increase."
            )
        case TooFewRounds(times, neck, most, needed):
            return (
                f"A round of a raglan adds 8 stitches at the most, so {times} of them lead "
                f"from a neck of {neck} to {most} or fewer; about {needed} are needed before "
                "the split. And the neck, like every piece, grows by twos."
            )
        case Undivided(odd, counts):
            return " ".join(
                f"The repeat of {band.name!r} is {band.first_width} stitches, which divides none "
                f"of {', '.join(map(str, counts))}."
                for band in odd
            )
        case RoundYokeRules():
            return (
                "Between the neck and the underarm a round that is not pinned adds at most one "
                "stitch to every two, rounds of increase lie three rounds apart, and body, sleeves "
                "and underarms must add up to the yoke."
            )
        case RaglanRules(has_rounds):
            return _RAGLAN_ROUNDS if has_rounds else _RAGLAN_PINS


_RAGLAN_PINS = (
    "In a raglan every piece grows by two stitches at a time, so the neck and the end of the yoke "
    "must differ by a multiple of four (or the front's neck by two stitches from the back's); each "
    "piece can only widen, at most in every round; and body, sleeves and underarms must add up to "
    "the yoke."
)

_RAGLAN_ROUNDS = (
    "A round that adds 8 stitches widens all four pieces, 6 the sleeves and back or front, 4 the "
    "sleeves or back and front, 2 back or front. Shared out so, the rounds must bring every piece "
    "from its share of the neck to its count at the underarm, by twos: front and back to B − 2U "
    "together, each sleeve to S − U."
)


def _where(*, has_bands: bool) -> str:
    return "above the colour bands" if has_bands else "in this yoke"


def _misfit(found: Misfit, unit: LengthUnit) -> str:
    band, width = found.band, found.band.first_width
    around = length(found.wanted / band.stitches_per_cm, unit)
    sides = [_made(repeats, width) for repeats in (found.below, found.above) if repeats > 0]
    near = f"{' and '.join(sides)}, {'and neither lies' if sides[1:] else 'which does not lie'}"
    widths = [w for w in range(max(1, width - 2), width + 3) if _fits(found.wanted, w)]
    other = f" A repeat of {either(widths)} stitches would fit." if widths else ""
    return (
        f"The repeat of {band.name!r} is {width} stitches, and the yoke wants "
        f"{found.wanted:.0f} stitches there ({around} round); {near} within 4 %.{other}"
    )


def _made(repeats: int, width: int) -> str:
    return f"{repeats} repeats make {repeats * width}" if repeats > 1 else f"1 repeat makes {width}"


def _fits(wanted: float, width: int) -> bool:
    return abs(round(wanted / width) * width - wanted) <= TOLERANCE * wanted


def _narrow(found: Narrow) -> str:
    where = f"before {found.name!r}" if found.name else "after the last band"
    times = (found.wanted - 1) // LEAST_APART + 1
    rounds = "an increase round" if times == 1 else f"{times} increase rounds three apart"
    there = {0: "there is no plain round", 1: "there is one plain round"}
    return (
        f"To go from {found.before:.0f} to {found.after:.0f} stitches {where} takes {rounds}, "
        f"and {there.get(found.there, f'there are {found.there} plain rounds')}."
    )


def _crowded(found: Crowded, unit: LengthUnit) -> str:
    if found.at_cm is None:
        return (
            f"The bands are {length(found.deep_cm, unit)} deep together, {found.wanted} rounds of "
            f"them where there are {found.there}, and the yoke is "
            f"{length(found.yoke_cm, unit)} deep with its increases between them."
        )
    if found.is_over_end:
        return (
            f"{found.name!r} begins {length(found.at_cm, unit)} below the neckband and is "
            f"{found.wanted} rounds deep; {found.there} rounds are left to the underarm."
        )
    if found.lacks_plain:
        return (
            f"{found.name!r} is to begin {length(found.at_cm, unit)} below the neckband, right "
            "under the band above it, and slips stitches of the round before its first: a plain "
            "round must lie between the two."
        )
    return (
        f"{found.name!r} is to begin {length(found.at_cm, unit)} below the neckband, and the "
        f"bands above it end {found.wanted - found.there} rounds below that."
    )


def _unreached(found: Unreached) -> str:
    above, below = found.above, found.below
    if found.band is None:
        return (
            f"After the last band {_from_to(above)} stitches can be reached, and the body and "
            f"sleeves take {_from_to(below)}."
        )
    band = found.band
    grows = (
        f" (each repeat grows from {band.first_width} to {band.last_width})"
        if band.last_width > band.first_width
        else ""
    )
    # A limit that the other side's makes idle is not told.
    reached = f"{above[0]} or more" if above[1] >= below[1] else _from_to(above)
    leading = f"at most {below[1]}" if below[0] <= above[0] else _from_to(below)
    possible = (
        f"{reached} stitches can be there after what lies above it, with at most half again in "
        f"a round, and {leading} still lead to what lies below"
    )
    least, most = found.repeats
    if band.repeats is None:
        return f"Before {band.name!r}{grows} {possible}: no multiple of {band.first_width} is both."
    here = f"{_made(band.repeats, band.first_width)} stitches"
    fits = (
        f"{_from_to((least, most))} repeats can be reached" if least <= most else "none can be both"
    )
    return f"{band.name!r}{grows}: {here}; {possible}: {fits}."


def _from_to(numbers: tuple[int, int]) -> str:
    low, high = numbers
    return f"{low}" if low == high else f"{low} to {high}"


def _no_chain(bands: Sequence[BandTask]) -> str:
    told = ", ".join(
        f"{band.name!r}: repeat of {band.first_width}"
        + (f", {band.repeats} pinned" if band.repeats else "")
        for band in bands
    )
    return (
        f"No chain of increase rounds meets every repeat ({told}) near the line of the yoke and "
        "ends at a count the body and sleeves permit, even when those give way by a centimetre."
    )


# What would help.

LONG = 12
"""Numbers of a list that are shown one by one (our choice)."""


def _listed(pin: object) -> str:
    if not isinstance(pin, tuple):
        return str(pin)
    if len(pin) <= LONG:
        return str(list(pin))
    return f"[{', '.join(map(str, pin[:4]))}, … {pin[-1]}]"


def _tried(helping: Sequence[str]) -> str:
    """Offer what was tried; nothing where nothing helps."""
    if not helping:
        return ""
    begin = "Each of these" if len(helping) > 1 else "This"
    return f"{begin} was tried and works: {'; '.join(helping)}."


def _remedy_of_bands(refusal: BandsUnmet, unit: LengthUnit) -> str:
    fewer = "fewer bands" if len(refusal.bands) > 1 else "another chart"
    return _tried([_offer(offer, unit) for offer in refusal.offers]) or (
        "No small change helps: neither moving a band, nor another number of repeats, nor a yoke "
        f"two inches (5 cm) deeper. Take {fewer}, with a narrower repeat and fewer rounds."
    )


def _called(band: BandChange) -> str:
    return f"{band.name!r}" if band.of == 1 else f"band {band.at + 1} ({band.name!r})"


def _offer(offer: Offer, unit: LengthUnit) -> str:
    """Say what to write, and what it costs."""
    match offer:
        case OtherRepeats(band, repeats, stitches, off_cm):
            return (
                f"write repeats = {repeats} for {_called(band)} ({stitches} stitches, "
                f"{length(abs(off_cm), unit)} {'more' if off_cm > 0 else 'less'} round than the "
                "yoke's line)"
            )
        case Unpinned(band, repeats, instead):
            told = ", ".join(map(str, instead))
            if band is None:
                return f"take out repeats = in every band ({told} go round then)"
            return f"take out repeats = {repeats} of {_called(band)} ({told} go round then)"
        case Moved(band, at_cm, by_cm):
            return (
                f'write at = "{typed(at_cm, unit)[1]}" for {_called(band)} '
                f"({length(abs(by_cm), unit)} {'lower' if by_cm > 0 else 'higher'})"
            )
        case Spread(bands, also_unpinned):
            which = "it" if bands == 1 else "every band"
            also = ", and take out every repeats =" if also_unpinned else ""
            return f'write at = "spread" for {which}{also}'
        case LeftOut(band):
            return f"leave out {_called(band)}"
        case Deeper(depth_cm, by_cm):
            return (
                f'write garment.yoke.depth = "{typed(depth_cm, unit)[1]}" '
                f"({length(by_cm, unit)} deeper)"
            )
        case PinChanged(name, value):
            return f"{name} = {_listed_whole(value)}"
        case PinRemoved(name):
            return f"the line with {name} taken out"
        case YokeRounds(rounds):
            return f"yoke_rounds = {rounds} written beside them"


def _listed_whole(value: int | tuple[int, ...]) -> str:
    return str(list(value)) if isinstance(value, tuple) else str(value)


# A raglan.


def _raglan(refusal: RaglanRefusal, unit: LengthUnit) -> Finding:
    code, field, message, remedy = _raglan_told(refusal, unit)
    return _error(f"raglan.{code}", field, message, remedy)


def _raglan_told(refusal: RaglanRefusal, unit: LengthUnit) -> tuple[str, str, str, str]:
    """Give the rule, the field, what cannot be and what would help."""
    match refusal:
        case LineWide(line_width, neck_cm, piece, start, least, narrower):
            wider = "a wider neck opening."
            return (
                "line-wide",
                "garment.yoke.line_width",
                f"Four lines of {line_width} leave too little of a neck of "
                f"{length(neck_cm, unit)}: the {piece} begins with {start:.0f} stitches there and "
                f"needs {least}.",
                f"Write line_width = {narrower}, or {wider}" if narrower else f"Write {wider}",
            )
        case NeckWide(neck_cm, piece, start_cm, end_cm):
            ease = "upper arm" if piece == "sleeve" else "chest"
            return (
                "neck-wide",
                "garment.neck.opening",
                f"In a neck of {length(neck_cm, unit)} the {piece} begins "
                f"{length(start_cm, unit)} wide, and at the underarm it is only "
                f"{length(end_cm, unit)}: a raglan can only widen.",
                f"Choose a smaller neck opening, a narrower underarm, or more ease at the {ease}.",
            )
        case Steep(piece, start, end, depth_cm, room, most, deep_cm, underarm_cm):
            wide = "" if underarm_cm is None else length(underarm_cm, unit)
            return (
                "steep",
                "garment.yoke.depth",
                f"The {piece} grows from {start:.0f} stitches at the neck to {end:.0f} at the "
                f"underarm, two in a round; a yoke of {length(depth_cm, unit)} has {room} rounds, "
                f"and {most} of them can increase.",
                f"Make the yoke at least {length(deep_cm, unit)} deep"
                f"{f', or the underarm {wide} wide' if wide else ''}; or choose a wider neck "
                "opening or less ease.",
            )
        case BandGrows(name):
            return (
                "band-grows",
                "garment.yoke.bands",
                f"The chart {name!r} widens from row to row, and in a raglan all stitches are "
                "added at the lines, above the bands.",
                "Choose a chart that keeps its width, or the circular yoke.",
            )
        case BandOverEnd(name, rounds, depth_cm, there, is_spread):
            way = "Take" if is_spread else 'Write at = "spread", take'
            return (
                "band-room",
                "garment.yoke.bands",
                f"{name!r} takes {rounds} rounds, and there is no room for them where it is to "
                f"stand in a yoke of {length(depth_cm, unit)} ({there} rounds).",
                f"{way} fewer bands, or choose a deeper yoke.",
            )
        case BandCount(fewest, most, repeat, widths):
            fits = f" A repeat of {either(widths)} stitches would fit." if widths else ""
            return (
                "band-count",
                "garment.yoke.bands",
                f"Below a raglan's increases the yoke has from {fewest} to {most} stitches, and "
                f"none of these counts is a whole number of the repeats asked for ({repeat} "
                "stitches fit all the bands together).",
                f"Choose a chart with another repeat, or more or less ease.{fits}",
            )
        case BandRepeats(name, repeats, stitches, fewest, most, low, high):
            numbers = f"{low}" if low == high else f"from {low} to {high}"
            return (
                "band-repeats",
                "garment.yoke.bands",
                f"{repeats} repeats of {name!r} make {stitches} stitches; below a raglan's "
                f"increases the yoke can have from {fewest} to {most}.",
                f"Leave out repeats, or write {numbers}.",
            )
        case BandsInside():
            return (
                "bands-inside",
                "garment.yoke.bands",
                f"{refusal.name!r} would begin in round {refusal.first} of the yoke, and the "
                f"increases of the raglan take at least {refusal.needed} rounds. A colour band can "
                "only lie below them: inside, the lines would cut its repeats.",
                _below_the_increases(refusal, unit),
            )
        case PinnedLine(field, line_width, narrower, takes_stitches):
            free = 'line_increase = "lifted" or "yarn over"'
            needs, remedy = "needs stitches to be worked in", f"Write {free}."
            if narrower is not None:
                also = f" and {free}" if takes_stitches else ""
                needs, remedy = (
                    f"takes {line_width} stitches",
                    f"Write line_width = {narrower}{also}.",
                )
            return (
                "pinned-line",
                f"garment.yoke.{field}",
                "By these counts a piece of the raglan begins with very few stitches at the neck, "
                f"or with none, and a line as it was chosen {needs}.",
                f"{remedy} The counts can then be met.",
            )
        case PercentLineWide(line_width, start, needed, narrower):
            return (
                "line-wide",
                "garment.yoke.line_width",
                f"Four lines of {line_width} leave too little of a neck by percentage: the back "
                f"begins with {start} stitches there and needs {needed}.",
                f'Write line_width = {narrower}, or proportions = "measured".',
            )
        case PercentUneven(front, back, start, needed):
            return (
                "uneven",
                "garment.yoke.proportions",
                f"By percentage a raglan begins narrow, and the front has {front} stitches at the "
                f"underarm and the back {back}: the smaller would begin with {start} at the neck "
                f"and needs {needed}.",
                'Write proportions = "measured", or check what was measured across the front and '
                "round the chest.",
            )


def _below_the_increases(refusal: BandsInside, unit: LengthUnit) -> str:
    """Say how the bands come to lie below the increases."""
    if refusal.deeper_cm is None:
        also = "" if refusal.at_cm is None else f", or at least {length(refusal.at_cm, unit)}"
        return f'Write at = "spread"{also}.'
    way = "Make" if refusal.is_spread else 'Write at = "spread" and make'
    return (
        f"{way} the yoke at least {at_least(refusal.deeper_cm, unit)} deep, or take fewer rounds "
        "of colour."
    )
