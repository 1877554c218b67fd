"""From rows and gauge to metres, grams and balls, each as sure as its evidence.

What a stitch costs is taken from the best evidence (`evidence`), every error
kept apart by its source (`uncertain`), so that what is needed, what there is
and what stays over come with an honest range (`reckoning`).
"""

from yokefellow.yarn.amounts import Amount, Span, amount, less, of_grams
from yokefellow.yarn.count_stitches import (
    MAIN,
    Counted,
    Counts,
    Part,
    Spent,
    counted,
    part_of,
    parts_of,
    spent,
)
from yokefellow.yarn.estimate import Reckoning, YarnEstimate, YarnUse, reckon, verdict_words
from yokefellow.yarn.evidence import Cost, Rates, rates, scale_sd
from yokefellow.yarn.extras import END_M, SWATCH_CM, swatch_metres
from yokefellow.yarn.loop_length import LOOP_STATES, STATE, LoopState, loop_length_cm
from yokefellow.yarn.progress import Place, done
from yokefellow.yarn.stash import Alternation, Ball, BallStart, StashUse, balls_in_order, stash_use
from yokefellow.yarn.uncertainty import (
    PRIOR,
    Belief,
    Knowledge,
    Observation,
    Source,
    Uncertain,
    learned,
)

__all__ = [
    "END_M",
    "LOOP_STATES",
    "MAIN",
    "PRIOR",
    "STATE",
    "SWATCH_CM",
    "Alternation",
    "Amount",
    "Ball",
    "BallStart",
    "Belief",
    "Cost",
    "Counted",
    "Counts",
    "Knowledge",
    "LoopState",
    "Observation",
    "Part",
    "Place",
    "Rates",
    "Reckoning",
    "Source",
    "Span",
    "Spent",
    "StashUse",
    "Uncertain",
    "YarnEstimate",
    "YarnUse",
    "amount",
    "balls_in_order",
    "counted",
    "done",
    "learned",
    "less",
    "loop_length_cm",
    "of_grams",
    "part_of",
    "parts_of",
    "rates",
    "reckon",
    "scale_sd",
    "spent",
    "stash_use",
    "swatch_metres",
    "verdict_words",
]
