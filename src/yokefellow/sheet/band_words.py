"""What is said of the colour bands at the head of body and sleeves."""

from __future__ import annotations

from yokefellow.plan import Plan

__all__ = ["bands_below"]


def bands_below(plan: Plan, section: str, *, has_yoke: bool) -> tuple[str, ...]:
    """Say how the bands of a piece are met, in a paragraph; nothing where it has none.

    Args:
        plan: the plan.
        section: `body` or `sleeve`.
        has_yoke: whether the yoke had bands, and has said how yarns are named.
    """
    piece = plan.shape.body if section == "body" else plan.shape.sleeve
    if not piece.bands:
        return ()
    words = ["The colour bands have their charts beside their rounds."]
    if not has_yoke:
        words.append(
            "The yarn of a round stands before it, unless its stitches name their own. Leave each "
            "yarn hanging inside when another takes its turn."
        )
    if any(band.shape.start.got != band.around for band in piece.bands):
        words.append(
            "So that the pattern comes out whole all the way round, a round before a band goes to "
            "another count, and a round after it goes back; the rounds say so."
        )
    return (" ".join(words),)
