"""What no row says: what to look at before casting on, and what was taken for granted."""

from __future__ import annotations

import re
from collections.abc import Iterator

from yokefellow.advice.needles import RIB_FINER_MM
from yokefellow.body.measurements import MEASURES
from yokefellow.charts.chart import ChartKind
from yokefellow.findings import Finding, Severity
from yokefellow.gauge import GARTER_ROUNDS, RIB_AT_REST, RIB_SPREAD
from yokefellow.plan import Plan
from yokefellow.quantities import length, yarn_length
from yokefellow.shaping import ROLL_SHOWS_CM, ROLL_TAKES_CM, Count, section_bands
from yokefellow.sheet.charting import KIND_WORDS
from yokefellow.sheet.figures import (
    fine_length,
    plain,
    swatch_width,
)
from yokefellow.sheet.pieces import Before, Caution, Filled, Residual
from yokefellow.sheet.words import MEASURE_WORDS
from yokefellow.sheet.yarns import estimates
from yokefellow.what_if import Prospects
from yokefellow.words import words
from yokefellow.yarn import SWATCH_CM

__all__ = ["assumptions", "before", "filled", "residuals"]

_SEVERITY_WORDS = {
    Severity.ERROR: "Error",
    Severity.CAUTION: "Caution",
    Severity.NOTE: "Note",
}


def before(plan: Plan, prospects: Prospects | None = None) -> Before:
    """Give the swatch check and every caution; not those on yarn that weighings have settled."""
    settled = tuple(_settled(plan, prospects))
    return Before(
        swatch=tuple(_swatch(plan)),
        cautions=tuple(
            Caution(
                found.code,
                found.severity.value,
                _SEVERITY_WORDS[found.severity],
                found.field,
                _where(found.field),
                found.message,
                found.remedy,
            )
            for found in plan.findings
            if found not in settled
        ),
        safety=plan.safety,
    )


_ON_YARN = ("yarn.close", "yarn.short")


def _settled(plan: Plan, prospects: Prospects | None) -> Iterator[Finding]:
    """Find the cautions about yarns that last by what was weighed."""
    enough = {f"yarn.{e.code}." for e in estimates(plan, prospects) if e.verdict == "enough"}
    for found in plan.findings:
        if found.code in _ON_YARN and any(found.field.startswith(field) for field in enough):
            yield found


_IN_A_LIST = re.compile(r"(.+)\[(\d+)\](?:\.(\w+))?")


def _where(field: str) -> str:
    """Say where a field stands in the project file.

    >>> _where("yarn.MC.balls")
    'In the project file: balls, under [yarn.MC].'
    >>> _where("garment.yoke.bands[2]")
    'In the project file: number 2 of [[garment.yoke.bands]].'
    """
    listed = _IN_A_LIST.fullmatch(field)
    if listed:
        table, number, key = listed.groups()
        what = f"{key}, under number" if key else "number"
        return f"In the project file: {what} {number} of [[{table}]]."
    table, _, key = field.rpartition(".")
    return f"In the project file: {key}, under [{table}]." if table else ""


def _swatch(plan: Plan) -> Iterator[str]:
    yield words("materials").count_again(over=swatch_width(plan.project.sheet.units))


def filled(plan: Plan) -> tuple[Filled, ...]:
    """List every measure that came from a sizing table."""
    unit = plan.project.sheet.units
    measures = (plan.figures.by_name[name] for name in MEASURES)
    return tuple(
        Filled(
            key=measure.name,
            place=MEASURE_WORDS[measure.name],
            value=length(measure.cm, unit),
            spread="" if measure.spread_cm is None else f"± {length(measure.spread_cm, unit)}",
            source=measure.source,
            cm=measure.cm,
        )
        for measure in measures
        if not plan.figures.is_measured(measure.name)
    )


def assumptions(plan: Plan) -> tuple[str, ...]:
    """Say what was taken for granted about gauge, needles and yarn."""
    return tuple(_assumptions(plan))


def _assumptions(plan: Plan) -> Iterator[str]:
    gauges, figures = plan.gauges, plan.figures
    yield (
        f"What was not measured comes from the sizing table for {figures.group}; the size "
        f"nearest to this chest is {figures.nearest_size}."
    )
    finishes = _finishes(plan)
    if gauges.rib_is_assumed and "rib" in finishes:
        yield (
            "There was no swatch of the rib: its rounds are counted at the gauge of the plain "
            f"fabric, and at rest it is taken to be {RIB_AT_REST:.0%} as wide as that fabric, give "
            f"or take {RIB_SPREAD:.0%}."
        )
    yield from _edges(plan)
    yield from _band_fabrics(plan)
    if not gauges.plain.is_washed:
        yield (
            "There was no washed swatch: the sweater is counted at the unwashed gauge, and what "
            "washing does to it is not known."
        )
    elif plan.project.swatch.plain.unwashed is None:
        yield (
            "The swatch was only counted washed: the fabric on the needles is taken to be the same."
        )
    if not gauges.plain.in_the_round:
        yield "The swatch was knitted flat; in the round the gauge may differ."
    if plan.project.needles.rib is None and finishes != {"rolled"}:
        whose = "ribs" if finishes <= {"rib", "rolled"} else "edges"
        yield f"The needle of the {whose} is taken to be {plain(RIB_FINER_MM, 1)} mm finer."
    yield from _yarn(plan)


def _finishes(plan: Plan) -> set[str]:
    shape = plan.shape
    return {edge.finish for edge in (shape.neck.band, shape.body.hem, shape.sleeve.cuff)}


def _edges(plan: Plan) -> Iterator[str]:
    unit, finishes = plan.project.sheet.units, _finishes(plan)
    if "garter" in finishes and "garter" in plan.gauges.assumed:
        yield (
            "There was no swatch of garter stitch: it is taken to be as wide as the plain fabric, "
            f"with {plain(GARTER_ROUNDS, 1)} rounds to one plain round in the same height."
        )
    if "rolled" in finishes:
        yield (
            f"A rolled edge is taken to roll up {length(ROLL_TAKES_CM, unit)} of plain knitting "
            f"into a roll of {length(ROLL_SHOWS_CM, unit)}; your yarn may roll more or less."
        )
    if "folded" in finishes:
        yield (
            "The facing of a folded edge is counted at the gauge of the plain fabric, and is a "
            "round shorter than its outside."
        )
    yield "How far each bind-off stretches, and what it takes of the yarn, is common practice."


_RESTS_ON = {
    "weighed": "what the swatch weighed with its stitches counted",
    "unravelled": "the length unravelled from the swatch",
    "gauge": "the gauge",
}


def _yarn(plan: Plan) -> Iterator[str]:
    unit = plan.project.sheet.units
    extras_m = sum(estimate.extras_m for estimate in plan.yarns.values())
    yield (
        f"The yarn is reckoned from {_RESTS_ON[plan.yarn.evidence]}. What one stitch takes at a "
        'gauge follows D. L. Munden, "The geometry and dimensional properties of plain-knit '
        f'fabrics", Journal of the Textile Institute 50, 1959 '
        f"({plan.project.weighing.relaxed} fabric). The swatch ({length(SWATCH_CM, unit)} square "
        "where it was not weighed), the ends at each join and the tail of the cast-on are added: "
        f"together {yarn_length(extras_m, unit)}. The range holds what the gauge, the scale, the "
        "ball's label and the hand may differ."
    )
    if "national health survey" in " ".join(found.message for found in plan.findings):
        yield (
            "The national health survey that is named for upper arms is the National Health and "
            "Nutrition Examination Survey of the United States (NHANES): 2017 to March 2020 for "
            "adults, 2017–18 for babies."
        )


def _band_fabrics(plan: Plan) -> Iterator[str]:
    for kind in dict.fromkeys(chart.kind for chart in plan.all_charts):
        if kind not in plan.gauges.assumed:
            continue
        if kind is ChartKind.STRIPES:
            yield "Stripes are plain knitting: they are counted at the gauge of the plain fabric."
        else:
            yield (
                f"There was no swatch of the {KIND_WORDS[kind]} fabric: its band is counted at "
                "the gauge of the plain fabric, and may come out narrower and less deep."
            )


def residuals(plan: Plan) -> tuple[Residual, ...]:
    """Compare what was wanted with what whole stitches and rounds give."""
    shape, split = plan.shape, plan.shape.split.body
    counts: tuple[tuple[str, Count | None, str], ...] = (
        ("Neck edge, all round", shape.neck.edge, "sts"),
        ("Front of the neck below the back", shape.front.rows if shape.front else None, "rows"),
        (f"Neckband, {'unfolded' if shape.neck.folds else 'depth'}", shape.neck.rounds, "rnds"),
        ("Yoke depth", shape.yoke.rounds, "rnds"),
        *(
            (f"Band {band.number}, {band.shape.name}, all round", band.shape.start, "sts")
            for band in section_bands(shape, plan.charts)
        ),
        ("Under the arms, all round", split if shape.body.fullest else None, "sts"),
        ("Chest, all round", shape.body.fullest or split, "sts"),
        ("Underarm, width", shape.split.underarm, "sts"),
        ("Waist, all round", shape.body.waist, "sts"),
        ("Above the hem, all round", shape.body.edge, "sts"),
        ("Body above the hem", shape.body.rounds, "rnds"),
        ("Hem, depth", shape.body.hem_rounds, "rnds"),
        ("Upper arm, all round", shape.split.sleeve, "sts"),
        ("Sleeve above the cuff", shape.sleeve.rounds, "rnds"),
        ("Sleeve edge, all round", shape.sleeve.edge, "sts"),
        ("Cuff, depth", shape.sleeve.cuff_rounds, "rnds"),
    )
    unit = plan.project.sheet.units
    return tuple(
        Residual(
            place,
            fine_length(count.wanted_cm, unit),
            fine_length(count.cm, unit),
            _difference(fine_length(count.residual_cm, unit)),
            f"{count.got} {word}",
        )
        for place, count, word in counts
        if count is not None
    )


def _difference(shown: str) -> str:
    return shown if shown.startswith(("−", "0 ")) else f"+{shown}"
