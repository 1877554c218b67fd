"""What to know of each colour band: whether it is wide enough, where it lies, what to carry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import assert_never

from yokefellow.advice.context import Check, caution
from yokefellow.body.measurements import Figures
from yokefellow.charts.chart import Chart, ChartKind
from yokefellow.charts.check import chart_findings
from yokefellow.findings import Finding
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.quantities import gauge, length
from yokefellow.shaping.counts import permitted
from yokefellow.shaping.line import SHOULDER_AT
from yokefellow.shaping.section_bands import SectionBand, section_bands
from yokefellow.shaping.shapes import Shape
from yokefellow.words import words

PULLS_IN = 0.03
"""A band this much narrower than the plain rounds around it puckers (common practice)."""

ASSUMED_OFF = 0.08
"""How far a band's gauge may lie from the plain fabric's: slip-stitch and stranded fabrics
are often 5 to 10 % narrower (common practice, no source)."""

CARRY_ROUNDS = 4
"""Rounds over which a resting yarn is carried up inside; over more it is cut (common practice)."""


def band_cautions(
    project: Project, figures: Figures, gauges: Gauges, shape: Shape, charts: Sequence[Chart]
) -> tuple[Finding, ...]:
    """Give every caution about the bands."""
    found: list[Finding] = []
    bands = section_bands(shape, charts)
    for band in bands:
        per_cm = gauges.of(band.chart.kind).stitches_per_cm
        said = chart_findings(
            band.chart, stitches_per_cm=per_cm, field=band.field, unit=project.sheet.units
        )
        found += (finding for finding in said if finding not in found)
        found += _stands_out(project, band)
        if band.section == "yoke":
            found += _pulls_in(project, band)
            found += _inside_body(project, figures, gauges, shape, band)
        else:
            found += _sleeve_floats(project, band)
    found += _assumed(project, gauges, bands)
    found += _gives_way(project, shape)
    return tuple(found)


def _pulls_in(project: Project, band: SectionBand) -> Iterator[Finding]:
    start, unit = band.shape.start, project.sheet.units
    if start.got >= start.wanted * (1 - PULLS_IN):
        return
    looser = gauge(start.got / start.wanted_cm, unit)
    width = band.chart.first_width
    more = -(-round(start.wanted - start.got) // width)
    yield caution(
        "band.pulls-in",
        band.field,
        f"{band.shape.name!r} is {length(start.cm, unit)} round, and the yoke should be "
        f"{length(start.wanted_cm, unit)} there: it draws the yoke in by "
        f"{1 - start.got / start.wanted:.0%}.",
        f"Work it on a larger needle, until its swatch gives {looser}."
        if _is_raglan(project)  # its stitches there are those of body and sleeves
        else f"Work it on a larger needle, until its swatch gives {looser}; or write "
        f"repeats = {band.shape.repeats + more}, {more * width} stitches more before it: where "
        "its increase rounds cannot reach that, the program says what they can.",
    )


def _is_raglan(project: Project) -> bool:
    """Tell whether the bands lie below the increases of a raglan."""
    return project.garment.yoke.style == "raglan"


STANDS_OUT = 0.04
"""A band this much wider than the line of the yoke stands away from the body (our choice)."""


def _stands_out(project: Project, band: SectionBand) -> Iterator[Finding]:
    start, unit = band.shape.start, project.sheet.units
    if start.got <= start.wanted * (1 + STANDS_OUT):
        return
    yield caution(
        "band.stands-out",
        band.field,
        f"{band.shape.name!r} is {length(start.cm, unit)} round, and the {_LINES[band.section]} is "
        f"{length(start.wanted_cm, unit)} there: it stands away by "
        f"{start.got / start.wanted - 1:.0%}.",
        f"{_BETTER[band.section]}, or work it on a smaller needle, until its swatch gives "
        f"{gauge(start.got / start.wanted_cm, unit)}.",
    )


_LINES = {"yoke": "line of the yoke", "body": "body", "sleeve": "sleeve"}
_BETTER = {
    "yoke": "Move it lower",
    "body": "Take a chart with a shorter repeat",
    "sleeve": "Take a chart with a shorter repeat",
}


def _sleeve_floats(project: Project, band: SectionBand) -> Iterator[Finding]:
    """Warn of strands in which a small hand is caught (common practice)."""
    small = project.wearer.table in ("babies", "children")
    if small and band.section == "sleeve" and band.chart.kind is ChartKind.STRANDED:
        yield caution(
            "band.sleeve-floats",
            band.field,
            f"{band.shape.name!r} leaves strands inside the sleeves, and small fingers catch in "
            "them.",
            "Catch every strand behind each second or third stitch, or take a mosaic chart or "
            "stripes, which leave none.",
        )


def _gives_way(project: Project, shape: Shape) -> Iterator[Finding]:
    """Tell when body, sleeves or underarms gave way for the sake of a repeat."""
    split, unit, fixed = shape.split, project.sheet.units, project.fixed
    if project.pattern is not None or fixed.yoke is not None or fixed.increases:
        return  # then they give way for the counts that are given
    pieces = [
        (name, count)
        for name, count, pin in (
            ("the chest", split.body, fixed.body),
            ("the sleeve", split.sleeve, fixed.sleeve),
            ("the underarm", split.underarm, fixed.underarm),
        )
        if pin is None
    ]
    gave = [
        f"{name} is {length(abs(count.residual_cm), unit)} "
        f"{'wider' if count.residual_cm > 0 else 'narrower'} than asked"
        for name, count in pieces
        if count.got not in permitted(count.wanted, multiple=2)
    ]
    if gave and shape.yoke.bands:
        yield caution(
            "band.gives-way",
            "garment.yoke.bands",
            f"So that every repeat goes round, {' and '.join(gave)}.",
            "Choose a chart with another repeat."
            if _is_raglan(project)
            else "Move the last band higher, so that an increase round can follow it; or choose a "
            "chart with another repeat.",
        )


def _inside_body(
    project: Project, figures: Figures, gauges: Gauges, shape: Shape, band: SectionBand
) -> Iterator[Finding]:
    share = band.shape.first / shape.yoke.rounds.got
    if share < SHOULDER_AT:
        return
    shoulder_cm, around_cm = figures.cm("shoulder_girth"), band.shape.start.cm
    plain_per_cm = gauges.plain.stitches_per_cm
    if around_cm < shoulder_cm <= shape.split.yoke / plain_per_cm:
        unit = project.sheet.units
        needed = shoulder_cm * band.shape.start.per_cm
        repeats = int(-(-needed // band.chart.first_width))
        looser = gauge(band.shape.start.got / shoulder_cm, unit)
        yield caution(
            "band.inside-body",
            band.field,
            f"{band.shape.name!r} is {length(around_cm, unit)} round where the shoulders are "
            f"{length(shoulder_cm, unit)}.",
            f"Work it on a larger needle, until its swatch gives {looser}."
            if _is_raglan(project)
            else f"Write repeats = {repeats}, as far as its increase rounds reach; or work it on "
            f"a larger needle, until its swatch gives {looser}.",
        )


def _assumed(project: Project, gauges: Gauges, bands: Sequence[SectionBand]) -> Iterator[Finding]:
    for kind in dict.fromkeys(band.chart.kind for band in bands):
        if kind not in gauges.assumed or kind is ChartKind.STRIPES:
            continue
        widest_cm = max(band.shape.start.cm for band in bands if band.chart.kind is kind)
        yield caution(
            "band.no-swatch",
            f"swatch.{kind}",
            f"There is no swatch of the {kind} fabric; the plain swatch stands in. Such a fabric "
            "is often 5 to 10 % narrower, which is up to "
            f"{length(ASSUMED_OFF * widest_cm, project.sheet.units)} on the widest band, and its "
            "rounds may be a fifth lower.",
            f"Knit a swatch of the band in the round and write it under [swatch.{kind}].",
        )


def band_checks(project: Project, shape: Shape, charts: Sequence[Chart]) -> Iterator[Check]:
    """Give what to know before each band, and what to do with the yarns after it."""
    bands = section_bands(shape, charts)
    said = words("checks/bands")
    for band in bands:
        around = said.before(
            stitches=band.shape.start.got,
            repeats=band.shape.repeats,
            width=band.chart.first_width,
        )
        before = (around, _begins(band), _in_hand(project, band, bands), _jog(band, bands))
        yield Check(
            band.section,
            band.shape.first - 1,
            "look",
            f"Band {band.number}: {band.shape.name}",
            " ".join(filter(None, before)),
        )
        yield Check(
            band.section, band.shape.last, "look", "After the band", _afterwards(band, bands)
        )


def _begins(band: SectionBand) -> str:
    said = words("checks/bands")
    match band.section:
        case "yoke":
            return said.centre(between=band.shape.repeats % 2 == 0)
        case "body":
            return said.begins_body()
        case _:
            return said.begins_sleeve()


def _named(project: Project, code: str) -> str:
    colour = project.yarn[code].colour if code in project.yarn else ""
    return f"{code} ({colour})" if colour else code


def _is_first(band: SectionBand, bands: Sequence[SectionBand], *kinds: ChartKind) -> bool:
    """Tell whether no band before it is of these kinds: what holds for all is said once."""
    return not any(one.chart.kind in kinds for one in bands[: band.number - 1])


def _in_hand(project: Project, band: SectionBand, bands: Sequence[SectionBand]) -> str:
    said = words("checks/bands")
    yarns = [_named(project, code) for code in band.chart.colours]
    match band.chart.kind:
        case ChartKind.STRANDED:
            is_first = _is_first(band, bands, ChartKind.STRANDED)
            return (said.stranded if is_first else said.stranded_again)(yarns=yarns)
        case ChartKind.MOSAIC | ChartKind.SLIP:
            is_first = _is_first(band, bands, ChartKind.MOSAIC, ChartKind.SLIP)
            return (said.one_in_hand if is_first else said.one_in_hand_again)(yarns=yarns)
        case ChartKind.STRIPES | ChartKind.PURL:
            return said.worked_in(yarns=yarns)
        case _:
            assert_never(band.chart.kind)


def jog_advice(chart: Chart) -> str:
    """Name the advice for the step at BOR that contradicts no row of the chart; none if no step.

    A slipped first stitch hides the step of a stripe that has a second round; in a picture it
    would put a stitch of the wrong color (common practice, no source).
    """
    if len(chart.colours) < 2:
        return ""
    match chart.kind:
        case ChartKind.PURL:
            return ""
        case ChartKind.STRANDED:
            return "jog_stranded"
        case ChartKind.MOSAIC | ChartKind.SLIP:
            return "jog_one_in_hand"
        case ChartKind.STRIPES:
            rounds = [len(tuple(run)) for _, run in groupby(chart.rows, key=lambda r: r.colours)]
            if min(rounds) > 1:
                return "jog_wide_stripes"
            return "jog_mixed_stripes" if max(rounds) > 1 else "jog_narrow_stripes"
        case _:
            assert_never(chart.kind)


def _jog(band: SectionBand, bands: Sequence[SectionBand]) -> str:
    """Say once for each advice what to do about the step at BOR."""
    advice = jog_advice(band.chart)
    before = {jog_advice(one.chart) for one in bands[: band.number - 1]}
    if not advice or advice in before:
        return ""
    return str(getattr(words("checks/bands"), advice)())


def _afterwards(band: SectionBand, bands: Sequence[SectionBand]) -> str:
    said = words("checks/bands")
    codes = (code for code in band.chart.colours if code != "MC")
    yarns = [_yarn_afterwards(code, band, bands) for code in codes]
    return " ".join((*yarns, said.lie_flat()))


def _yarn_afterwards(code: str, band: SectionBand, bands: Sequence[SectionBand]) -> str:
    said = words("checks/bands")
    again = next((one for one in bands[band.number :] if code in one.chart.colours), None)
    if again is None:
        return said.break_off(code=code, section=band.section)
    if again.section != band.section:
        return said.break_until(code=code, section=again.section)
    rounds = again.shape.first - band.shape.last - 1
    if rounds == 0:
        return said.goes_on(code=code)
    if rounds <= CARRY_ROUNDS:
        return said.carry(code=code, rounds=rounds)
    return said.break_for(code=code, rounds=rounds)
