"""The live page: the text of a project file and a change go in, fragments and findings come out.

Nothing here knows a server, a clock or a file. `server` is the one shell that does; it hands in
what was asked and sends back what comes out.
"""

from yokefellow.live.answer import Answer, Group, Input, Stop, along, answer, typed_values
from yokefellow.live.edit import Changes, EditError, edited

__all__ = [
    "Answer",
    "Changes",
    "EditError",
    "Group",
    "Input",
    "Stop",
    "along",
    "answer",
    "edited",
    "typed_values",
]
