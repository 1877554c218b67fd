"""What may spoil the sweater or hurt someone, said before the yarn is cut."""

from __future__ import annotations

from collections.abc import Mapping

from yokefellow.advice.cautions.fit import fit_cautions
from yokefellow.advice.cautions.unusual_body import mismatches
from yokefellow.advice.cautions.yarn import yarn_cautions
from yokefellow.advice.cautions.yoke import gauge_cautions, yoke_cautions
from yokefellow.body.measurements import Figures
from yokefellow.findings import Finding
from yokefellow.fit import Finished
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.shaping import Shape
from yokefellow.yarn import YarnEstimate


def cautions(
    project: Project,
    figures: Figures,
    finished: Finished,
    gauges: Gauges,
    shape: Shape,
    broken: tuple[str, ...],
    yarns: Mapping[str, YarnEstimate],
) -> tuple[Finding, ...]:
    """Give every caution about the fit, the yoke, the gauge and the yarn."""
    return (
        *mismatches(project, figures, finished, shape),
        *fit_cautions(project, figures, finished, gauges, shape),
        *yoke_cautions(project, broken, shape),
        *gauge_cautions(project, finished, gauges),
        *yarn_cautions(project, yarns),
    )


def safety(project: Project) -> tuple[str, ...]:
    """Give the usual cautions for hands, skin and children.

    Sources: ASTM F1816 and EN 14682 for cords; the rest common practice.
    """
    said = [
        "Rest the hands: pause every half hour, and stop on pain or numbness.",
        "Wash the swatch as the sweater will be washed. Wool and mohair can irritate the skin: "
        "wear the swatch against it for a day.",
    ]
    if project.wearer.table in ("babies", "children"):
        said.append(
            "For a baby or a child: no cords or drawstrings at the neck (ASTM F1816, EN 14682), "
            "no loose buttons, short floats inside sleeves, and no shedding fibre for an infant. "
            "The law of your country decides."
        )
    said.append("Sizing advice is not medical advice.")
    return tuple(said)
