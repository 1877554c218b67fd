"""The neck: how wide it opens, how deep its front is cut, and how far its edge stretches."""

from __future__ import annotations

from math import inf
from types import MappingProxyType

from yokefellow.body.measurements import Figures
from yokefellow.fit.finished import FrontFit, NeckFit
from yokefellow.project_file.models import Project

HEAD_STRETCH = 1.35
"""How far a ribbed neck edge stretches over the head (common practice, no source)."""

OPENINGS = MappingProxyType({"crew": 1.0, "wide": 1.18, "boat": 1.35})
"""Each named neck beside a crew one, all round (common practice, no source)."""

BOAT_OF_SHOULDERS = 0.62
"""A boat neck takes at most this share of the girth of the shoulders, so that it rests on them
and does not slip off (common practice, no source)."""

BOAT_RAISE = 0.5
"""A boat neck lies nearly level: its back is raised half as much (common practice, no source)."""

DROP_CM = MappingProxyType({"women": 6.6, "men": 7.9, "children": 5.0, "babies": 3.5})
"""How far the front of the neck's base lies below the back of it. Women and men: the height of
the seventh neck vertebra less that of the top of the breastbone, means of ANSUR II, 2012;
children and babies: common practice, no source."""

V_DEEPER = 2.4
"""How much deeper a V is cut than a scooped front (common practice: 15 to 20 cm on adults)."""


V_OF_YOKE = 0.85
"""A V by size is cut at most this share of the yoke, so that the fronts are joined a little above
the underarm (common practice): on babies and children it is the less."""


def neck_fit(project: Project, figures: Figures, *, yoke_cm: float = inf) -> NeckFit:
    """Give the finished neck that was asked for, in a yoke so deep at the back."""
    choices = project.garment.neck
    raise_cm = 0.0 if choices.back_raise == "none" else figures.cm("back_raise")
    if choices.opening == "boat" and choices.back_raise == "by size":
        raise_cm *= BOAT_RAISE
    front = _front(project, figures, yoke_cm)
    # A front cut low needs no back raised above it.
    return NeckFit(
        opening_cm=opening_cm(project, figures),
        band_cm=_band_cm(project, figures),
        raise_cm=0.0 if front else raise_cm,
        passes_cm=figures.cm("head"),
        front=front,
        folds=choices.finish == "folded high",
    )


BAND_CM = MappingProxyType({"women": 2.5, "men": 2.5, "children": 2.2, "babies": 1.9})
"""Depth of a neckband that is no high one (common practice, no source: 1 in on adults, 3/4 in on
babies)."""

HIGH_CM = MappingProxyType({"women": 7.0, "men": 7.5, "children": 5.0, "babies": 3.5})
"""How high a high neck stands, once folded where it is folded (common practice, no source)."""


def _band_cm(project: Project, figures: Figures) -> float:
    choices = project.garment.neck
    if not isinstance(choices.band, str):
        return choices.band
    depths = HIGH_CM if choices.finish in ("high", "folded high") else BAND_CM
    return depths[figures.group]


def opening_cm(project: Project, figures: Figures) -> float:
    """Give the neck all round: a length as it is, a named one beside the crew neck of this body."""
    chosen, crew_cm = project.garment.neck.opening, figures.cm("neck_opening")
    if not isinstance(chosen, str):
        return crew_cm
    wide_cm = OPENINGS[chosen] * crew_cm
    if chosen == "boat":
        return max(crew_cm, min(wide_cm, BOAT_OF_SHOULDERS * figures.cm("shoulder_girth")))
    return wide_cm


def _front(project: Project, figures: Figures, yoke_cm: float) -> FrontFit | None:
    choices = project.garment.neck
    if choices.front == "level":
        return None
    usual_cm = DROP_CM[figures.group] * (V_DEEPER if choices.front == "V" else 1.0)
    usual_cm = min(usual_cm, V_OF_YOKE * yoke_cm)
    drop_cm = usual_cm if isinstance(choices.drop, str) else choices.drop
    return FrontFit(choices.front, drop_cm)


def over_front_cm(project: Project, figures: Figures) -> float:
    """Give how much deeper the yoke is at the back, where a front worked flat is cut below it.

    The back is as high as short rows would have made it, and the yoke is
    measured there.
    """
    choices = project.garment.neck
    is_level = choices.front == "level" or choices.back_raise == "none"
    return 0.0 if is_level else figures.cm("back_raise")
