"""The sweater in integers: what the other rooms take from here; and from `refusals`."""

from yokefellow.shaping.assemble import Shaped, shape, with_yoke, yoke_of
from yokefellow.shaping.bands import BandTask
from yokefellow.shaping.counts import Count, nearest, permitted
from yokefellow.shaping.edges.bindoffs import BIND_OFFS
from yokefellow.shaping.edges.edges import ROLL_SHOWS_CM, ROLL_TAKES_CM, Edge, edge_multiple
from yokefellow.shaping.edges.front_neck import FrontNeck
from yokefellow.shaping.edges.picked_up import Mitre, PickedUp
from yokefellow.shaping.model import (
    AnyYoke,
    BandShape,
    BodyShape,
    ChartedBand,
    IncreaseRound,
    NeckShape,
    RaglanPiece,
    RaglanShape,
    Shape,
    SideChange,
    SleeveShape,
    Split,
    YokeShape,
)
from yokefellow.shaping.pieces.below import Unmodified, body_below, sleeve_below, unmodified
from yokefellow.shaping.pieces.darts import Dart, dart_rows
from yokefellow.shaping.pieces.pinned_lengths import with_pinned_lengths
from yokefellow.shaping.pieces.section_bands import SectionBand, section_bands
from yokefellow.shaping.raglan.rates import Rate
from yokefellow.shaping.raglan.search import raglan_state_at, solve_raglan
from yokefellow.shaping.refusals import Refusal, RefusedError
from yokefellow.shaping.short_rows import ShortRows
from yokefellow.shaping.spread_evenly import Word, repeats_needed, word
from yokefellow.shaping.yoke.constraints import YokeTask
from yokefellow.shaping.yoke.offers import typed
from yokefellow.shaping.yoke.rules import (
    FIRST_INCREASE,
    FULL_LATEST,
    LEAST_APART,
    LEAST_HELD,
    SHOULDER_AT,
    TOLERANCE,
    Cost,
    Rule,
)
from yokefellow.shaping.yoke.search import Solution, solve, state_at
from yokefellow.shaping.yoke.state import Grown, State

__all__ = [
    "BIND_OFFS",
    "FIRST_INCREASE",
    "FULL_LATEST",
    "LEAST_APART",
    "LEAST_HELD",
    "ROLL_SHOWS_CM",
    "ROLL_TAKES_CM",
    "SHOULDER_AT",
    "TOLERANCE",
    "AnyYoke",
    "BandShape",
    "BandTask",
    "BodyShape",
    "ChartedBand",
    "Cost",
    "Count",
    "Dart",
    "Edge",
    "FrontNeck",
    "Grown",
    "IncreaseRound",
    "Mitre",
    "NeckShape",
    "PickedUp",
    "RaglanPiece",
    "RaglanShape",
    "Rate",
    "Refusal",
    "RefusedError",
    "Rule",
    "SectionBand",
    "Shape",
    "Shaped",
    "ShortRows",
    "SideChange",
    "SleeveShape",
    "Solution",
    "Split",
    "State",
    "Unmodified",
    "Word",
    "YokeShape",
    "YokeTask",
    "body_below",
    "dart_rows",
    "edge_multiple",
    "nearest",
    "permitted",
    "raglan_state_at",
    "repeats_needed",
    "section_bands",
    "shape",
    "sleeve_below",
    "solve",
    "solve_raglan",
    "state_at",
    "typed",
    "unmodified",
    "with_pinned_lengths",
    "with_yoke",
    "word",
    "yoke_of",
]
