"""What happens between the cast-on and the last end: the log, the place, the pace, wrong counts."""

from yokefellow.knitting.log import (
    Counted,
    Event,
    Knitted,
    Log,
    Logged,
    Measured,
    Note,
    Ripped,
    TakenBack,
    TriedOn,
    Weighed,
    append,
    log_path,
    read_log,
)
from yokefellow.knitting.pace import Milestone, Pace, Remaining, SectionPace, pace, remaining
from yokefellow.knitting.place import Standing, pieces, row_at, standing
from yokefellow.knitting.recount import Likely, Recount, recount

__all__ = [
    "Counted",
    "Event",
    "Knitted",
    "Likely",
    "Log",
    "Logged",
    "Measured",
    "Milestone",
    "Note",
    "Pace",
    "Recount",
    "Remaining",
    "Ripped",
    "SectionPace",
    "Standing",
    "TakenBack",
    "TriedOn",
    "Weighed",
    "append",
    "log_path",
    "pace",
    "pieces",
    "read_log",
    "recount",
    "remaining",
    "row_at",
    "standing",
]
