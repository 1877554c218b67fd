"""The verdict on a yarn as a plain sentence."""

from __future__ import annotations

from yokefellow.units import LengthUnit
from yokefellow.wording import yarn_length
from yokefellow.yarn.reckoning import YarnEstimate

__all__ = ["verdict_words"]

_AFTER = {
    "neckband": "after the neckband",
    "cast_on": "after the cast-on",
    "front": "where the front is joined",
    "back_neck": "after the short rows of the neck",
    "yoke": "after the yoke",
    "split": "after the yoke",
    "body": "before the hem",
    "hem": "after the body",
    "sleeve": "before the cuffs",
    "cuff": "before the neckband",
}


def verdict_words(estimate: YarnEstimate, unit: LengthUnit, *, colour: str = "") -> str:
    """Say whether a yarn lasts.

    Args:
        estimate: of the yarn.
        unit: `in` tells yards with the metres beside them.
        colour: what to call it, such as `dark`; its code when empty.
    """
    left = estimate.left
    if estimate.verdict == "enough":
        there = f"{estimate.stash.grams:.0f} g"
        return f"Enough: about {max(0.0, left.mean.grams):.0f} g of the {there} left."
    if estimate.verdict == "close":
        when = _AFTER.get(estimate.weigh_after, "halfway")
        return f"Too close to call: weigh again {when}."
    of = f"the {colour}" if colour else estimate.code
    least, most = -left.high.metres, -left.low.metres
    if round(least) <= 0:
        return f"Short by up to {yarn_length(most, unit)} of {of}."
    if unit == "cm":
        return f"Short by {least:,.0f}–{most:,.0f} m of {of}."
    return f"Short by {yarn_length(least, unit)} to {yarn_length(most, unit)} of {of}."
