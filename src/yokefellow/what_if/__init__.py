"""What if: other lengths, the longest that lasts, what to do about a colour that is short."""

from yokefellow.what_if.change import SHORT_NAMES, change, freed, from_own_lengths
from yokefellow.what_if.forecast import Checkpoint, Forecast, Learnt, forecast, learn
from yokefellow.what_if.lengths import AS_CHOSEN, Variant, table
from yokefellow.what_if.longest import Limit, Longest, Wish, longest
from yokefellow.what_if.pieces import Length, bodies, body_of, sleeve_of, sleeves
from yokefellow.what_if.prospects import Prospects, prospects
from yokefellow.what_if.rescue import Rescue, rescues

__all__ = [
    "AS_CHOSEN",
    "SHORT_NAMES",
    "Checkpoint",
    "Forecast",
    "Learnt",
    "Length",
    "Limit",
    "Longest",
    "Prospects",
    "Rescue",
    "Variant",
    "Wish",
    "bodies",
    "body_of",
    "change",
    "forecast",
    "freed",
    "from_own_lengths",
    "learn",
    "longest",
    "prospects",
    "rescues",
    "sleeve_of",
    "sleeves",
    "table",
]
