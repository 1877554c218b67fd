"""The one conductor: calls the rooms in order and gives the whole plan."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from hashlib import sha256

from yokefellow.advice.cautions.bands import band_cautions
from yokefellow.advice.cautions.cautions import cautions, safety
from yokefellow.advice.cautions.yarn import yarn_cautions
from yokefellow.advice.checks.checks import checks
from yokefellow.advice.context import Check, Desk
from yokefellow.advice.edge_widths import EdgeWidths, edge_widths
from yokefellow.advice.fit_report import FitLine, fit_report
from yokefellow.advice.needles import NeedleChange, needle_changes
from yokefellow.advice.pattern_notes import pattern_notes
from yokefellow.advice.pin_notes import pin_notes
from yokefellow.advice.refusals import refusal_finding
from yokefellow.body.fill_in import fill
from yokefellow.body.measurements import Figures
from yokefellow.charts.chart import Chart
from yokefellow.charts.resolve import PieceCharts, resolve, resolve_pieces
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.fit import Finished, fit
from yokefellow.gauge import Gauges, gauges
from yokefellow.pattern_sizes.follow import Followed, follow, with_counts
from yokefellow.project_file.checks.project import check_project
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import OF_THE_YOKE, pinned, without
from yokefellow.rows.build import compile_schedule
from yokefellow.rows.model import Schedule, WorkedRow, runs, stretches, walk
from yokefellow.shaping import (
    Shape,
    Shaped,
    Unmodified,
    shape,
    unmodified,
    with_pinned_lengths,
    with_yoke,
)
from yokefellow.shaping.refusals import RefusedError
from yokefellow.words import found
from yokefellow.yarn import MAIN, Knowledge, Reckoning, YarnEstimate, reckon
from yokefellow.yarn.savings import Saving, savings


@dataclass(frozen=True, slots=True)
class Plan:
    """Every count, row and finding of a sweater; what only the sheet shows is told when asked."""

    project: Project
    figures: Figures
    gauges: Gauges
    finished: Finished
    shape: Shape
    charts: tuple[Chart, ...]
    """Of the yoke's bands, in order."""
    followed: Followed | None
    """The pattern the knitter follows, at her gauge; None where the project holds none."""
    piece_charts: PieceCharts
    """Of the bands on the body and the sleeves."""
    schedule: Schedule
    yarns: Mapping[str, YarnEstimate]
    """By code, the main yarn first; only those the sweater uses."""
    reckoning: Reckoning
    """What the yarns are reckoned from, for asking on."""
    findings: tuple[Finding, ...]
    """Cautions and notes; a plan with an error is never made."""
    safety: tuple[str, ...]

    @property
    def rows(self) -> tuple[WorkedRow, ...]:
        """Every row with its counts."""
        return tuple(walk(self.schedule))

    @property
    def needles(self) -> tuple[NeedleChange, ...]:
        """Which needle, and at which rows to change it."""
        owned, unit = self.project.needles, self.project.sheet.units
        return needle_changes(tuple(stretches(self.schedule)), self.gauges, owned, unit)

    @property
    def checks(self) -> tuple[Check, ...]:
        """What to check, each at its row, in knitting order."""
        return checks(self._desk, tuple(stretches(self.schedule)))

    @property
    def _desk(self) -> Desk:
        return Desk(self.project, self.figures, self.finished, self.gauges, self.shape, self.charts)

    @property
    def key(self) -> str:
        """A name for this very schedule: it changes when a row changes."""
        return _key(self.schedule)

    @property
    def fit_report(self) -> tuple[FitLine, ...]:
        """How the sweater lies on the body, height by height."""
        return fit_report(self._desk)

    def after(self, knowledge: Knowledge) -> Plan:
        """Give the plan as it stands after weighings: one estimate, and cautions that go by it.

        Args:
            knowledge: what they taught.
        """
        yarns = self.reckoning.estimates(knowledge)
        before = set(yarn_cautions(self.project, self.yarns))
        kept = (found for found in self.findings if found not in before)
        now = yarn_cautions(self.project, yarns, begun=True)
        return replace(self, yarns=yarns, findings=(*kept, *now))

    @property
    def edge_widths(self) -> EdgeWidths:
        """How wide each edge lies at rest, and how far it stretches."""
        return edge_widths(self.figures, self.finished, self.gauges, self.shape)

    @property
    def savings(self) -> tuple[Saving, ...]:
        """What the lengths that were chosen save beside the usual ones."""
        wrapped = self.project.garment.neck.wraps
        rates = self.reckoning.rates
        return savings(self.finished, self.shape, self.unmodified, rates, wrapped=wrapped)

    @property
    def unmodified(self) -> Unmodified:
        """The body and a sleeve in the usual lengths."""
        split, charts = self.shape.split, self.piece_charts
        return unmodified(self.project, self.finished, self.gauges, split, charts)

    @property
    def all_charts(self) -> tuple[Chart, ...]:
        """The charts of every band, yoke, body and sleeves."""
        return (*self.charts, *self.piece_charts.body, *self.piece_charts.sleeves)

    @property
    def yarn(self) -> YarnEstimate:
        """The main yarn's estimate."""
        return self.yarns[MAIN]

    @property
    def total_stitches(self) -> int:
        """Stitches worked in the whole sweater, in every yarn."""
        return sum(yarn.knitted.stitches for yarn in self.yarns.values())


def _stop_on_errors(findings: Iterable[Finding]) -> None:
    """End the stage when it holds an error, with everything it found.

    Raises:
        PlanError: at least one finding is an error.
    """
    findings = tuple(findings)
    if any(finding.severity is Severity.ERROR for finding in findings):
        raise PlanError(findings)


def _key(schedule: Schedule) -> str:
    """Name a schedule by its rows, so that ticks kept for it never fit another."""
    rows = [
        (section.key, section.start, section.copies, row, times)
        for section in schedule.sections
        for row, times in runs(section.rows)
    ]
    return sha256(repr(rows).encode()).hexdigest()[:16]


@dataclass(frozen=True, slots=True)
class Draft:
    """The counts of a project, and what they were chosen from."""

    figures: Figures
    gauges: Gauges
    finished: Finished
    charts: tuple[Chart, ...]
    piece_charts: PieceCharts
    shaped: Shaped
    counted: Project
    """The project with the pins of the pattern it follows, and the lengths its pins make."""
    followed: Followed | None
    findings: tuple[Finding, ...]


def draft(project: Project) -> Draft:
    """Choose every count of a project.

    Raises:
        PlanError: no sweater can be made from these numbers.
    """
    findings = check_project(project)
    _stop_on_errors(findings)
    figures, filled = fill(project)
    findings = (*findings, *filled)
    _stop_on_errors(findings)
    finished = fit(project, figures)
    gauge = gauges(project)
    charts, drawn = resolve(project)
    findings = (*findings, *drawn)
    _stop_on_errors(findings)
    followed = follow(project, figures, finished, gauge)
    counted = with_counts(project, followed)
    below, _ = resolve_pieces(project)
    as_long = with_pinned_lengths(counted, figures, finished, gauge, charts, below)
    if as_long is not counted:
        figures, _ = fill(as_long)
        finished = fit(as_long, figures)
    try:
        shaped = shape(as_long, finished, gauge, charts, below)
    except RefusedError as refused:
        raise PlanError([refusal_finding(refused.refusal, project.sheet.units)]) from None
    return Draft(figures, gauge, finished, charts, below, shaped, as_long, followed, findings)


def sizes_of(project: Project) -> Followed:
    """Give the sizes of the pattern a project holds, before any sweater is planned.

    Raises:
        PlanError: the project holds no pattern, or its body or pins are at fault.
    """
    _stop_on_errors(check_project(project))
    figures, filled = fill(project)
    _stop_on_errors(filled)
    followed = follow(project, figures, fit(project, figures), gauges(project))
    if followed is None:
        raise PlanError([found("pattern.none", Severity.ERROR, "pattern", sentence="no_pattern")])
    return followed


def _without_each_pin(project: Project, made: Draft) -> Iterator[tuple[str, Shaped | None]]:
    """Choose the counts once more without each pin; None where the others then fail.

    What is pinned in the yoke moves nothing else that is told of it, so only the yoke is
    solved again; of a pattern that is followed, the pins are its own.
    """
    for name in pinned(project.fixed):
        fixed = without(project.fixed, name)
        try:
            if name in OF_THE_YOKE and made.followed is None:
                freed = made.counted.model_copy(update={"fixed": fixed})
                yield name, with_yoke(made.shaped, freed, made.finished, made.gauges, made.charts)
            else:
                yield name, draft(project.model_copy(update={"fixed": fixed})).shaped
        except (PlanError, RefusedError):
            yield name, None


def _schedule(project: Project, made: Draft) -> Schedule:
    wrapped = project.garment.neck.wraps
    first = project.garment.work_order == "sleeves first"
    return compile_schedule(made.shaped.shape, made.charts, wrapped=wrapped, sleeves_first=first)


def _walked(schedule: Schedule) -> None:
    """Hold every row to the stitches there are.

    Raises:
        ValueError: a row does not come out: the program is at fault, not the project.
    """
    deque(stretches(schedule), maxlen=0)


def reckoned(project: Project) -> tuple[Shape, Reckoning]:
    """Give the counts of a project and its yarn alone, for asking what another choice would take.

    Raises:
        PlanError: as `plan`.
    """
    made = draft(project)
    return made.shaped.shape, reckon(project, made.gauges, _schedule(project, made))


def plan(project: Project) -> Plan:
    """Turn a project into a plan.

    Raises:
        PlanError: no sweater can be made from these numbers; it says why and what to change.
    """
    made = draft(project)
    figures, gauge, finished, charts = made.figures, made.gauges, made.finished, made.charts
    shaped, findings = made.shaped, made.findings
    schedule = _schedule(project, made)
    _walked(schedule)
    reckoning = reckon(project, gauge, schedule)
    yarns = reckoning.estimates()
    warned = cautions(project, figures, finished, gauge, shaped.shape, shaped.broken, yarns)
    banded = band_cautions(project, figures, gauge, shaped.shape, charts)
    told = pattern_notes(project, made.followed, shaped.shape) if made.followed else ()
    priced = pin_notes(project, shaped, dict(_without_each_pin(project, made)))
    return Plan(
        project=project,
        figures=figures,
        gauges=gauge,
        finished=finished,
        shape=shaped.shape,
        charts=charts,
        followed=made.followed,
        piece_charts=made.piece_charts,
        schedule=schedule,
        yarns=yarns,
        reckoning=reckoning,
        findings=(*findings, *warned, *banded, *told, *priced),
        safety=safety(project),
    )
