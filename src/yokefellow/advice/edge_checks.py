"""What to look at when an edge is bound off or sewn down."""

from __future__ import annotations

from yokefellow.advice.check import Check
from yokefellow.advice.desk import Desk
from yokefellow.advice.reach import reaches_hips
from yokefellow.shaping.edges import Edge

__all__ = ["cuff_check", "hem_check", "mend_edge"]


def hem_check(desk: Desk) -> Check:
    """Look whether the hem gives."""
    hem = desk.shape.body.hem
    where = "over the hips" if reaches_hips(desk.finished) else "with the body as you breathe"
    folded = hem.finish == "folded"
    return Check(
        "hem",
        1 + hem.all_rounds,
        "look",
        "A fold that gives" if folded else "A bind-off that gives",
        f"The edge must stretch {where}. {mend_edge(hem)}",
    )


def cuff_check(desk: Desk, *, is_long: bool) -> Check:
    """Look whether the cuff goes over the hand, or round the arm where the sleeve is short."""
    cuff = desk.shape.sleeve.cuff
    arm = desk.show(desk.finished.sleeve.arm_cm)
    passes = (
        f"{arm} of arm, and pull over the hand" if is_long else f"{arm} of arm without cutting in"
    )
    return Check(
        "cuff",
        1 + cuff.all_rounds,
        "look",
        "Over the hand" if is_long else "Round the arm",
        f"The edge must go round {passes}. {mend_edge(cuff)} One sleeve done? Begin the "
        "second in the same sitting, if only its pick-up round: second sleeves that wait are the "
        "ones never knitted.",
    )


def mend_edge(edge: Edge) -> str:
    """Tell what to do when it does not."""
    if edge.finish == "folded":
        return "Pull it: if the sewing holds it back, take it out and sew more loosely."
    than = "the rib" if edge.finish == "rib" else "the knitting above it"
    return f"Pull it: if it is tighter than {than}, take it back and bind off more loosely."
