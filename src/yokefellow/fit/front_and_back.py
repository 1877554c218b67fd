"""How front and back share the sweater, where the body in it is not an even tube."""

from __future__ import annotations

from typing import NamedTuple

from yokefellow.body.measurements import Figures
from yokefellow.body.usual import bust_cm, departure_cm
from yokefellow.fit.finished import BustFit
from yokefellow.fit.lengths import underarm_to_waist_cm

LEAST_UNDERARM, MOST_UNDERARM = 0.03, 0.09
"""Each underarm's least and most, as shares of the body: printed patterns have 3 to 9 %
(figures of published patterns; no single source)."""

MOST_OF_SLEEVE = 0.4
"""What the underarm takes of the sleeve at the most: the rest is the yoke's (common practice)."""

APART_CM = 2.5
"""Front and back this much apart are knitted so: half of it at each side is one or two
stitches more, less than the tape itself may err (common practice, no source)."""

BUST_AT = 0.3
"""Share of underarm to waist at which the fullest part lies, where its height was not measured
(common practice, no source)."""

POINTS = 0.2
"""Share of the chest between the two fullest points, where not measured (common practice)."""


class Halves(NamedTuple):
    """How the round is shared at the split, in cm."""

    chest_cm: float
    """Round the body at the split."""
    underarm_cm: float
    front_more_cm: float
    """How much more of the round the front has than the back, at the split."""
    grows_cm: float
    """What the front gains below it."""


def halves(figures: Figures, *, chest_cm: float, sleeve_cm: float) -> Halves:
    """Share the finished chest between front and back.

    A full bust stands before shoulders that know nothing of it: the yoke goes
    by the round above it. What the chest has more belongs to the front. The
    underarms take it as far as they may, on their front side, and the sides of
    the front grow by the rest before the fullest part.

    Args:
        figures: the body.
        chest_cm: round the finished body at its fullest.
        sleeve_cm: round the finished sleeve at its top.
    """
    bust = bust_cm(figures.cm("chest"), figures.own_cm("high_chest"))
    yoke = _Yoke(figures, chest_cm - bust, sleeve_cm)
    underarm = yoke.underarm_cm(chest_cm)
    wider = min(bust / 2, yoke.room_cm(chest_cm, underarm))
    grows = bust - 2 * wider
    return Halves(
        chest_cm=chest_cm - grows,
        underarm_cm=underarm + wider,
        front_more_cm=_front_more_cm(figures, bust) - grows,
        grows_cm=grows,
    )


class _Yoke(NamedTuple):
    """What the underarm's width is weighed against."""

    figures: Figures
    frame_cm: float
    """The finished chest without a full bust."""
    sleeve_cm: float

    @property
    def is_own(self) -> bool:
        """Tell whether the knitter gave the underarm: then it stays."""
        return self.figures.is_measured("underarm_width")

    @property
    def over_shoulders_cm(self) -> float:
        """Give how wide each underarm may be before the yoke gets too narrow for the shoulders."""
        round_cm = self.frame_cm + 2 * self.sleeve_cm
        return (round_cm - self.figures.cm("shoulder_girth")) / 4

    def underarm_cm(self, chest_cm: float) -> float:
        """Give each underarm's width: wider for a full arm, narrower for broad shoulders."""
        width = self.figures.cm("underarm_width")
        if self.is_own:
            return width
        arm = self.figures.cm("upper_arm")
        if (more := departure_cm(self.figures, "upper_arm")) > 0:
            most = max(width, min(MOST_UNDERARM * chest_cm, MOST_OF_SLEEVE * self.sleeve_cm))
            width = min(most, width * arm / (arm - more))
        if departure_cm(self.figures, "shoulder_girth") > 0:
            least = min(width, LEAST_UNDERARM * chest_cm)
            width = max(least, min(width, self.over_shoulders_cm))
        return width

    def room_cm(self, chest_cm: float, underarm_cm: float) -> float:
        """Give how much of a full bust each underarm may take."""
        if self.is_own:
            return 0.0
        most = min(MOST_UNDERARM * chest_cm, MOST_OF_SLEEVE * self.sleeve_cm)
        over = 2 * (self.over_shoulders_cm - underarm_cm)
        return max(0.0, min(most - underarm_cm, over))


def _front_more_cm(figures: Figures, bust: float) -> float:
    """Give how much more of the fullest round lies before the sides than behind them."""
    front = figures.own_cm("front_chest")
    if front is None:
        return bust
    more = 2 * front - figures.cm("chest")
    return more if abs(more) >= APART_CM else 0.0


def bust_fit(figures: Figures, *, grows_cm: float, ease_cm: float, raise_cm: float) -> BustFit:
    """Give where the fullest part lies, and how much longer front or back must be there.

    The difference of the two lengths is what a dart of short rows is made of.
    What the back is longer the raise of the back neck takes first.

    Args:
        figures: the body.
        grows_cm: what the front gains below the split.
        ease_cm: the ease at the chest; the points move apart with a quarter of it.
        raise_cm: of the back neck.
    """
    front, back = figures.own_cm("front_length"), figures.own_cm("back_length")
    longer = front - back if front is not None and back is not None else 0.0
    points = figures.own_cm("bust_points") or POINTS * figures.cm("chest")
    return BustFit(
        grows_cm=grows_cm,
        at_cm=_bust_at_cm(figures),
        points_cm=points + max(0.0, ease_cm) / 4,
        front_cm=max(0.0, longer),
        back_cm=max(0.0, -longer - raise_cm),
    )


def _bust_at_cm(figures: Figures) -> float:
    """Give how far the fullest part lies below the underarm; never above it."""
    height = figures.own_cm("bust_height")
    if height is None:
        return BUST_AT * underarm_to_waist_cm(figures)
    return max(0.0, height - figures.cm("armhole_depth"))
