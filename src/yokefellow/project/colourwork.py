"""Charts and bands of the project file, as frozen models."""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeAlias, get_args

from pydantic import StringConstraints, model_validator

from yokefellow.project.base import Model
from yokefellow.project.lengths import named_or_between
from yokefellow.project.marks import (
    CHART_NAME,
    ROUNDS_FROM_A_LINE,
    chart_file,
    chart_name,
    chart_rows,
    legend,
    other_yarns,
    whole,
)
from yokefellow.project.plain import one_of, text, yes_or_no

__all__ = [
    "MOST_BANDS",
    "MOST_CHARTS",
    "Band",
    "BodyBand",
    "ChartChoices",
    "ChartName",
    "PieceBand",
    "SleeveBand",
]

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
