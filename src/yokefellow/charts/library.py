"""The shipped motifs: `sizing_tables/motifs/*.toml`, each a chart file of the usual form."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

from pydantic import ValidationError

from yokefellow.charts.chart import ChartKind
from yokefellow.charts.text import ChartText
from yokefellow.findings import Severity, YokefellowError
from yokefellow.package_data import package_folder
from yokefellow.project_file.models import ChartChoices
from yokefellow.words import found


class MotifError(YokefellowError):
    """A shipped motif was edited wrongly."""


@cache
def motifs() -> Mapping[str, ChartText]:
    """Read the shipped motifs, by name and in the order of their names.

    Raises:
        MotifError: a file was edited wrongly; it names the file and the field.
    """
    files = sorted((package_folder("sizing_tables") / "motifs").glob("*.toml"))
    return MappingProxyType({path.stem: _motif(path) for path in files})


def _motif(path: Path) -> ChartText:
    try:
        with path.open("rb") as file:
            choices = ChartChoices.model_validate(tomllib.load(file))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, ValidationError) as problem:
        name, why = path.name, f"{problem}"
        finding = found("motif.unreadable", Severity.ERROR, "", name=name, problem=why)
        raise MotifError([finding]) from None
    return chart_text(path.stem, choices)


def chart_text(name: str, choices: ChartChoices) -> ChartText:
    """Give a chart of the project file, or of a motif's file, as a text to be read."""
    return ChartText(
        name=name,
        kind=ChartKind(choices.kind),
        legend=choices.colours,
        lines=choices.rows,
        times=choices.times,
        grows=choices.grows,
        title=choices.title,
        about=choices.about,
    )
