"""What to do about a colour that is short: another yarn for its bands, a band fewer or shallower.

Every suggestion has been planned anew, and every yarn of it is enough.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from yokefellow.findings import PlanError
from yokefellow.plan import Plan, plan
from yokefellow.project_file.models import Band, ChartChoices, Project
from yokefellow.yarn import PRIOR, Knowledge

Way = Literal["swap", "drop", "narrow"]

LEAST_ROWS = 2
"""A band of fewer lines than this is none."""


class Rescue(NamedTuple):
    """A change after which the colour lasts."""

    way: Way
    code: str
    """The colour that is short."""
    bands: tuple[int, ...]
    """The bands that change, counted from 1."""
    instead: str
    """The yarn to take; empty unless it is a swap."""
    rows_less: int
    """Lines of the chart to leave out at its end; 0 unless it is narrowed."""
    project: Project
    plan: Plan
    """The sweater with that change."""


def rescues(made: Plan, code: str, knowledge: Knowledge = PRIOR) -> tuple[Rescue, ...]:
    """Find what would make a short colour last, the least change first.

    A swap in all its bands or in one, then a band narrowed, then a band left
    out. Empty when the colour is enough, or when nothing of this helps.

    Args:
        made: the sweater, as it stands after any weighings.
        code: the colour.
        knowledge: what they taught.
    """
    if made.yarns[code].verdict == "enough":
        return ()
    bands = _bands_in(made, code)
    ways = (_swaps, _narrowed, _dropped)
    return tuple(rescue for way in ways for rescue in way(made, code, bands, knowledge))


def _bands_in(made: Plan, code: str) -> tuple[int, ...]:
    return tuple(at for at, chart in enumerate(made.charts) if code in chart.colours)


def _swaps(made: Plan, code: str, bands: Sequence[int], knowledge: Knowledge) -> Iterator[Rescue]:
    sets = [tuple(bands), *((at,) for at in bands if len(bands) > 1)]
    for other in made.project.yarn:
        for chosen in sets:
            if other == code or not chosen:
                continue
            if any(other in made.charts[at].colours for at in chosen):
                continue  # the two colours of the picture would be one
            project = made.project
            for at in chosen:
                project = _with_band(project, at, _swapped(made, at, code, other))
            yield from _tried(made, knowledge, project, "swap", code, chosen, instead=other)


def _swapped(made: Plan, at: int, code: str, other: str) -> Band:
    """Give the band with `other` wherever it is worked in `code` now."""
    band = made.project.garment.yoke.bands[at]
    worn = dict(band.colours or {})
    own = [chart for chart, yarn in worn.items() if yarn == code] or [code]
    return band.model_copy(update={"colours": {**worn, **dict.fromkeys(own, other)}})


def _narrowed(
    made: Plan, code: str, bands: Sequence[int], knowledge: Knowledge
) -> Iterator[Rescue]:
    """Leave out lines at the end of a chart of the file, one more until it lasts."""
    for at in bands:
        name = made.project.garment.yoke.bands[at].chart
        chart = made.project.charts.get(name)
        if chart is None:
            continue
        touched = tuple(
            to for to, band in enumerate(made.project.garment.yoke.bands) if band.chart == name
        )
        for fewer in range(1, len(chart.rows) - LEAST_ROWS + 1):
            project = _with_chart(made.project, name, chart, fewer)
            found = list(_tried(made, knowledge, project, "narrow", code, touched, rows_less=fewer))
            if found:
                yield from found
                break


def _dropped(made: Plan, code: str, bands: Sequence[int], knowledge: Knowledge) -> Iterator[Rescue]:
    for at in bands:
        kept = tuple(b for to, b in enumerate(made.project.garment.yoke.bands) if to != at)
        yield from _tried(made, knowledge, _with_bands(made.project, kept), "drop", code, (at,))


def _tried(
    made: Plan,
    knowledge: Knowledge,
    project: Project,
    way: Way,
    code: str,
    bands: Sequence[int],
    *,
    instead: str = "",
    rows_less: int = 0,
) -> Iterator[Rescue]:
    """Plan it, and give it when the colour lasts and no other is worse than it was."""
    try:
        other = plan(project)
    except PlanError:
        return
    yarns = other.reckoning.estimates(knowledge)
    lasts = code not in yarns or yarns[code].verdict == "enough"
    worse = any(
        estimate.verdict != "enough"
        and (old not in made.yarns or made.yarns[old].verdict == "enough")
        for old, estimate in yarns.items()
    )
    if lasts and not worse:
        numbers = tuple(at + 1 for at in bands)
        yield Rescue(way, code, numbers, instead, rows_less, project, other)


def _with_band(project: Project, at: int, band: Band) -> Project:
    bands = project.garment.yoke.bands
    return _with_bands(project, (*bands[:at], band, *bands[at + 1 :]))


def _with_bands(project: Project, bands: tuple[Band, ...]) -> Project:
    yoke = project.garment.yoke.model_copy(update={"bands": bands})
    garment = project.garment.model_copy(update={"yoke": yoke})
    return project.model_copy(update={"garment": garment})


def _with_chart(project: Project, name: str, chart: ChartChoices, fewer: int) -> Project:
    shorter = chart.model_copy(update={"rows": chart.rows[: len(chart.rows) - fewer]})
    return project.model_copy(update={"charts": {**project.charts, name: shorter}})
