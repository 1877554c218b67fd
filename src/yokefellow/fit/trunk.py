"""The trunk's girth below the underarm."""

from __future__ import annotations

from itertools import pairwise

from yokefellow.body.measurements import Figures
from yokefellow.fit.finished import BodyFit

__all__ = ["trunk_cm"]


def trunk_cm(figures: Figures, fit: BodyFit, at_cm: float) -> float:
    """Give the trunk's girth so far below the underarm.

    The chest down to the fullest part, then straight lines to the waist and to
    the hip, and the hip below it (common practice).

    Args:
        figures: the body.
        fit: where its heights lie.
        at_cm: where the girth is asked for.
    """
    places = (
        (fit.bust.at_cm, figures.cm("chest")),
        (fit.waist_at_cm, figures.cm("waist")),
        (fit.hip_at_cm, figures.cm("hip")),
    )
    if at_cm <= places[0][0]:
        return places[0][1]
    for (above, wide), (below, narrow) in pairwise(places):
        if above < below and at_cm <= below:
            return wide + (narrow - wide) * (at_cm - above) / (below - above)
    return figures.cm("hip")
