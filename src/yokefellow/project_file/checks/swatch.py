"""Whether the counts on the swatches can be true."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import fmean

from yokefellow.findings import Finding, Mend, Severity
from yokefellow.project_file.fields import Reading
from yokefellow.project_file.measure_fields import MIN_SWATCH_CM
from yokefellow.project_file.models import Project, Swatch, Swatches, SwatchState
from yokefellow.quantities import CM_PER_INCH, LengthUnit
from yokefellow.words import found

STITCHES_PER_10_CM = (6.0, 60.0)
"""From the heaviest roving (6 or fewer in 4 in: Craft Yarn Council, Standard Yarn Weight
System, class 7) to the finest hand knitting (common practice, no source)."""
ROUNDS_PER_10_CM = (6.0, 90.0)
"""Common practice, no source."""
ROUNDS_TO_STITCHES = (1.0, 2.0)
"""Rounds per cm over stitches per cm that plain knitting can have (common practice, no source);
relaxed it is near 1.3 (D. L. Munden, "The geometry and dimensional properties of plain-knit
fabrics", J. Textile Inst., 1959)."""
READINGS_APART = 0.15
"""Readings of one swatch further apart than this share of their mean are a miscount."""
WASHING_CHANGES = 0.25
"""A swatch that changes by more than this share in the wash was exchanged, or felted."""

BAND_TO_PLAIN = (0.6, 1.6)
"""Stitches of a band's fabric over those of the plain one in the same width, so that one round
can lead from the one to the other (our choice; slipped and stranded fabrics draw in by some 5 to
20 %, common practice, no source)."""
_OF_BANDS = tuple(name for name in Swatches.model_fields if name not in {"plain", "rib", "garter"})

_RIB_STITCHES_PER_10_CM = (6.0, 90.0)
"""Ribbing draws in, so more stitches stand in the same width (common practice, no source)."""

_PACKED = frozenset({"mosaic", "slip", "purl"})
_PACKED_ROUNDS_PER_10_CM = (6.0, 140.0)
"""A slipped stitch spans two rounds or more, and purl ridges close up: the rounds pack
(common practice, no source)."""
_LIKE_PLAIN = frozenset({"plain", "stripes"})


def swatch_findings(project: Project) -> Iterator[Finding]:
    """Check each swatch: its states, each reading, and the readings against each other."""
    for name in type(project.swatch).model_fields:
        swatch: Swatch | None = getattr(project.swatch, name)
        if swatch is None:
            continue
        field = f"swatch.{name}"
        yield from _states(field, swatch)
        for state_name in ("washed", "unwashed"):
            state: SwatchState | None = getattr(swatch, state_name)
            if state is not None:
                yield from _state(f"{field}.{state_name}", state, project.unit, name)
        yield from _washing(field, swatch)
    for name in _OF_BANDS:
        yield from _unlike_plain(name, getattr(project.swatch, name), project)


def _unlike_plain(fabric: str, swatch: Swatch | None, project: Project) -> Iterator[Finding]:
    band, plain = (_worn(one) if one else None for one in (swatch, project.swatch.plain))
    if band is None or plain is None:
        return
    each = _per_cm(band.stitches), _per_cm(plain.stitches)
    low, high = BAND_TO_PLAIN
    if not low <= each[0] / each[1] <= high:
        has, plain_has = (_gauge(10 * per_cm, project.unit) for per_cm in each)
        yield found(
            "swatch.unlike-plain",
            Severity.ERROR,
            f"swatch.{fabric}",
            fabric=fabric,
            stitches=has,
            width=_width(project.unit),
            plain=plain_has,
            least=f"{low:g}",
            most=f"{high:g}",
        )


def _worn(swatch: Swatch) -> SwatchState | None:
    return swatch.washed or swatch.unwashed


def _states(field: str, swatch: Swatch) -> Iterator[Finding]:
    if swatch.washed is None and swatch.unwashed is None:
        yield found("swatch.empty", Severity.ERROR, field, swatch=field)
    elif swatch.washed is None:
        yield found("swatch.unwashed", Severity.CAUTION, field, swatch=field)


def _state(field: str, state: SwatchState, unit: LengthUnit, fabric: str) -> Iterator[Finding]:
    stitches = _RIB_STITCHES_PER_10_CM if fabric == "rib" else STITCHES_PER_10_CM
    rounds = _PACKED_ROUNDS_PER_10_CM if fabric in _PACKED else ROUNDS_PER_10_CM
    out_of_range = [
        *_range(f"{field}.stitches", "stitches", state.stitches, stitches, unit),
        *_range(f"{field}.rounds", "rounds", state.rounds, rounds, unit),
    ]
    yield from out_of_range
    if out_of_range:
        return
    yield from _apart(f"{field}.stitches", state.stitches)
    yield from _apart(f"{field}.rounds", state.rounds)
    ratio = _per_cm(state.rounds) / _per_cm(state.stitches)
    low, high = ROUNDS_TO_STITCHES
    if fabric in _LIKE_PLAIN and not low <= ratio <= high:
        exchanged = low <= 1 / ratio <= high
        yield found(
            "swatch.ratio",
            Severity.ERROR,
            f"{field}.rounds",
            mends=(
                Mend(f"{field}.stitches", _written(state.rounds, unit)),
                Mend(f"{field}.rounds", _written(state.stitches, unit)),
            )
            if exchanged
            else (),
            stitches=_gauge(10 * _per_cm(state.stitches), unit),
            rounds=_gauge(10 * _per_cm(state.rounds), unit),
            width=_width(unit),
            least=f"{low:g}",
            most=f"{high:g}",
            exchanged=exchanged,
        )


def _written(readings: Sequence[Reading], unit: LengthUnit) -> str:
    """Write readings as they stand in the file."""
    per_unit = CM_PER_INCH if unit == "in" else 1.0
    each = (f'"{one.count:g} over {one.over_cm / per_unit:.4g} {unit}"' for one in readings)
    return f"[{', '.join(each)}]"


def _range(
    field: str,
    what: str,
    readings: Sequence[Reading],
    limits: tuple[float, float],
    unit: LengthUnit,
) -> Iterator[Finding]:
    low, high = limits
    for position, reading in enumerate(readings, start=1):
        in_10_cm = 10 * reading.count / reading.over_cm
        if not low <= in_10_cm <= high:
            meant = _other_side(reading, limits, unit)
            yield found(
                f"swatch.{what}-range",
                Severity.ERROR,
                f"{field}[{position}]",
                mends=(Mend(f"{field}[{position}]", meant),) if meant else (),
                sentence="out_of_range",
                what=what,
                gauge=_gauge(in_10_cm, unit),
                width=_width(unit),
                least=_gauge(low, unit),
                most=_gauge(high, unit),
                meant=meant,
            )


def _other_side(reading: Reading, limits: tuple[float, float], unit: LengthUnit) -> str:
    """Write the reading in the tape's other unit, where that makes a gauge; else nothing."""
    width = reading.over_cm / CM_PER_INCH if unit == "in" else reading.over_cm
    turned_cm = width if unit == "in" else width * CM_PER_INCH
    makes_sense = limits[0] <= 10 * reading.count / turned_cm <= limits[1]
    if turned_cm < MIN_SWATCH_CM or not makes_sense:
        return ""
    return f'"{reading.count:g} over {width:g} {"cm" if unit == "in" else "in"}"'


def _gauge(in_10_cm: float, unit: LengthUnit) -> str:
    return f"{in_10_cm * (4 * CM_PER_INCH / 10 if unit == 'in' else 1):.3g}"


def _width(unit: LengthUnit) -> str:
    return "4 in" if unit == "in" else "10 cm"


def _apart(field: str, readings: Sequence[Reading]) -> Iterator[Finding]:
    each = [reading.count / reading.over_cm for reading in readings]
    apart = (max(each) - min(each)) / fmean(each)
    if apart > READINGS_APART:
        yield found(
            "swatch.readings-apart",
            Severity.CAUTION,
            field,
            apart=f"{apart:.0%}",
            most=f"{READINGS_APART:.0%}",
        )


def _washing(field: str, swatch: Swatch) -> Iterator[Finding]:
    if swatch.washed is None or swatch.unwashed is None:
        return
    for what in ("stitches", "rounds"):
        washed = _per_cm(getattr(swatch.washed, what))
        change = washed / _per_cm(getattr(swatch.unwashed, what)) - 1
        if abs(change) > WASHING_CHANGES:
            yield found(
                "swatch.washing",
                Severity.CAUTION,
                f"{field}.washed.{what}",
                what=what,
                change=f"{abs(change):.0%}",
                more=change > 0,
                most=f"{WASHING_CHANGES:.0%}",
            )


def _per_cm(readings: Sequence[Reading]) -> float:
    return fmean(reading.count / reading.over_cm for reading in readings)
