"""What if: other lengths, the longest that lasts, what to do about a colour that is short."""

from yokefellow.whatif.change import SHORT_NAMES, change, freed
from yokefellow.whatif.forecast import Checkpoint, Forecast, Learnt, forecast, learn
from yokefellow.whatif.longest import Limit, Longest, Wish, longest
from yokefellow.whatif.pieces import Length, bodies, body_of, sleeve_of, sleeves
from yokefellow.whatif.prospects import Prospects, prospects
from yokefellow.whatif.rescue import Rescue, rescues
from yokefellow.whatif.table import AS_CHOSEN, Variant, table

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
    "learn",
    "longest",
    "prospects",
    "rescues",
    "sleeve_of",
    "sleeves",
    "table",
]
