"""What is done when the last stitch is bound off: common practice of the trade, in our words."""

from __future__ import annotations

from yokefellow.conductor import Plan
from yokefellow.wording import length

__all__ = ["finishing"]


def finishing(plan: Plan, measures: tuple[str, ...]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Give the finishing, by headings; there are no seams.

    Args:
        plan: the plan.
        measures: the finished measures to block to, each worded.
    """
    stretch = length(plan.figures.cm("head"), plan.project.sheet.units)
    return (
        (
            "Close the underarms",
            (
                "Turn the sweater inside out. With the end of yarn that hangs at each underarm, "
                "catch the loose strands round any hole at the corners, go once round the hole "
                "and draw it together gently, as you would close a bag. Do not pull the fabric "
                "into a pucker.",
            ),
        ),
        (
            "Weave in the ends",
            (
                "With a blunt needle, lead each end through the backs of the stitches for about "
                "three fingers' width, turn, and go back along the next row. At the neck, weave "
                f"along the rib and test that the edge still opens to {stretch}. Cut the ends "
                "only after washing.",
            ),
        ),
        (
            "Wash and block",
            (
                "Wash the sweater exactly as the swatch was washed. Press the water out in a "
                "towel, without wringing. Lay it flat, and ease it with your hands to these "
                "measures: " + "; ".join(measures) + ". Widths lie flat at half of what goes all "
                "round. Pat the ribs together; do not stretch them. Leave it until it is quite "
                "dry.",
            ),
        ),
        ("Seams", ("There are none. Try it on, and wear it.",)),
    )
