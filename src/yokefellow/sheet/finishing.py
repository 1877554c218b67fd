"""What is done when the last stitch is bound off: common practice of the trade, in our words."""

from __future__ import annotations

from yokefellow.plan import Plan
from yokefellow.quantities import length
from yokefellow.sheet.edge_words import sew_neckband

__all__ = ["finishing"]


def finishing(plan: Plan, measures: tuple[str, ...]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Give the finishing, by headings; there are no seams.

    Args:
        plan: the plan.
        measures: the finished measures to block to, each worded.
    """
    is_ribbed = plan.shape.neck.band.finish == "rib"
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
        *_neckband(plan, stretch),
        (
            "Weave in the ends",
            (
                "With a blunt needle, lead each end through the backs of the stitches for about "
                "three fingers' width, turn, and go back along the next row. At the neck, weave "
                f"along the {'rib' if is_ribbed else 'band'} and test that the edge still opens "
                f"to {stretch}. Cut the ends only after washing.",
            ),
        ),
        (
            "Wash and block",
            (
                "Wash the sweater exactly as the swatch was washed. Press the water out in a "
                "towel, without wringing. Lay it flat and block to these "
                "measurements: "
                + "; ".join(measures)
                + ". Widths lie flat at half of what goes all "
                f"round. {_edges(plan)}Leave it until it is quite dry.",
            ),
        ),
        ("Seams", ("There are none. Try it on, and wear it.",)),
    )


def _neckband(plan: Plan, head: str) -> tuple[tuple[str, tuple[str, ...]], ...]:
    # A band worked last is sewn down when it is finished, from its live stitches.
    if plan.shape.neck.band.finish != "folded" or plan.shape.neck.is_last:
        return ()
    return (("Sew down the neckband", (sew_neckband(plan, head=head),)),)


_BLOCKED = {
    "rib": "Pat the ribs together, and do not stretch them: {widths}. ",
    "garter": "Lay the garter edges flat, with their ridges close together. ",
    "rolled": "Let the rolled edges roll. ",
    "folded": "Finger-press the folds, and let the sewing lie slack. ",
}
"""What to do with each kind of edge when the wet sweater is laid out."""


def _edges(plan: Plan) -> str:
    shape = plan.shape
    here = {edge.finish for edge in (shape.neck.band, shape.body.hem, shape.sleeve.cuff)}
    said = "".join(words for finish, words in _BLOCKED.items() if finish in here)
    return said.format(widths=_rib_widths(plan))


def _rib_widths(plan: Plan) -> str:
    """Word how wide every rib lies, all round."""
    unit, widths = plan.project.sheet.units, plan.edge_widths
    return "; ".join(
        f"{name} {length(width.rest_cm, unit)} all round"
        for name, width in zip(("neckband", "hem", "cuffs"), widths, strict=True)
        if width.edge.finish == "rib"
    )
