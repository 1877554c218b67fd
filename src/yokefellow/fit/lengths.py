"""Where on this body each named length ends, and how wide the arm is on the way."""

from __future__ import annotations

from itertools import pairwise
from types import MappingProxyType

from yokefellow.body.measurements import Figures
from yokefellow.body.size_tables import sizing_table
from yokefellow.fit.limits import LEAST_SLEEVE_CM
from yokefellow.project_file.fields import ChosenLength, LengthChange, NamedLength
from yokefellow.project_file.models import BODY_LENGTHS, SLEEVE_LENGTHS

_SLEEVE_SHARES = MappingProxyType(
    {"cap": 0.10, "short": 0.30, "three-quarter": 0.75, "bracelet": 0.88, "full": 1.0}
)
"""Share of underarm to wrist of each named sleeve (common practice, no source).

`elbow` is not here: it lies at the group's own elbow.
"""


FOREARM_BELOW = 0.125
"""How far below the elbow the forearm is widest, as a share of the arm (common practice)."""


def arm_cm(figures: Figures, share: float) -> float:
    """Give the arm's circumference at a share of the way from underarm to wrist.

    Full to a fifth of the way, then straight lines to the elbow, the widest of
    the forearm an eighth of the arm below it, and the wrist (common practice,
    no source; the elbow's place by the group's table).
    """
    elbow, forearm = wide_places(figures)
    places = (
        (0.0, figures.cm("upper_arm")),
        (0.2, figures.cm("upper_arm")),
        (elbow, figures.cm("elbow")),
        (forearm, figures.cm("forearm")),
        (1.0, figures.cm("wrist")),
    )
    for (above, wide), (below, narrow) in pairwise(places):
        if share <= below:
            return wide + (narrow - wide) * (share - above) / (below - above)
    return figures.cm("wrist")


def wide_places(figures: Figures) -> tuple[float, float]:
    """Give the elbow and the widest of the forearm, as shares of underarm to wrist."""
    elbow = sizing_table(figures.group).elbow_share
    return (elbow, elbow + FOREARM_BELOW)


def must_pass_cm(figures: Figures, share: float) -> float:
    """Give the widest place from `share` down: the sleeve is pulled over it."""
    below = [place for place in wide_places(figures) if place > share]
    return max(arm_cm(figures, place) for place in (share, *below))


def chosen_cm(chosen: ChosenLength, named: dict[str, float], plain_cm: float) -> float:
    """Give a chosen length in cm: by its name, as a change of the plain one, or as it is."""
    match chosen:
        case NamedLength(name):
            return named[name]
        case LengthChange(by_cm):
            return plain_cm + by_cm
        case _:
            return chosen


def sleeve_lengths_cm(figures: Figures) -> dict[str, float]:
    """Give every named sleeve length of this arm, underarm to edge, in cm.

    A baby's cap sleeve would come out too short to knit, and is the least there is.
    """
    shares = {**_SLEEVE_SHARES, "elbow": sizing_table(figures.group).elbow_share}
    arm_cm = figures.cm("arm_length")
    return {name: max(LEAST_SLEEVE_CM, shares[name] * arm_cm) for name in SLEEVE_LENGTHS}


def body_lengths_cm(figures: Figures) -> dict[str, float]:
    """Give every named body length of this body, underarm to edge, in cm.

    The waist lies where the knitter measured it, or the back waist length less
    the armhole depth below the underarm; the others by the group's table from
    there.
    """
    offsets = sizing_table(figures.group).body_lengths
    waist_cm = underarm_to_waist_cm(figures)
    named = {name: waist_cm + offsets[name] for name in BODY_LENGTHS}
    if "back_hip_length" in figures.by_name:
        named["hip"] = figures.cm("back_hip_length") - figures.cm("armhole_depth")
        if not figures.is_measured("back_hip_length"):
            named["hip"] += waist_cm - _back_waist_cm(figures)
    return named


def underarm_to_waist_cm(figures: Figures) -> float:
    """Give how far the waist lies below the underarm, in cm."""
    own_cm = figures.own_cm("underarm_to_waist")
    return _back_waist_cm(figures) if own_cm is None else own_cm


def underarm_to_hip_cm(figures: Figures) -> float:
    """Give how far the hip lies below the underarm: measured, or where a hip length ends."""
    own_cm = figures.own_cm("underarm_to_hip")
    return body_lengths_cm(figures)["hip"] if own_cm is None else own_cm


def _back_waist_cm(figures: Figures) -> float:
    return figures.cm("back_waist_length") - figures.cm("armhole_depth")
