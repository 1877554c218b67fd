"""Everything that is asked beside the plan for one sheet: other lengths, the longest, rescues."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from yokefellow.plan import Plan
from yokefellow.what_if.forecast import Forecast, forecast
from yokefellow.what_if.lengths import Variant, table
from yokefellow.what_if.longest import Longest, longest
from yokefellow.what_if.rescue import Rescue, rescues
from yokefellow.yarn import MAIN, PRIOR
from yokefellow.yarn.weighing_log import Entry


class Prospects(NamedTuple):
    """What else the stash would allow; it costs many plans, so it is made only when asked for."""

    variants: tuple[Variant, ...]
    """Other lengths, necks and ribs, one at a time."""
    longest_sleeves: Longest | None
    """None once weighings tell that the sleeves are begun."""
    longest_body: Longest | None
    """None once weighings tell that the body is begun and shaped."""
    rescues: tuple[Rescue, ...]
    """For every colour of the bands that is not clearly enough, the least change first."""
    forecast: Forecast | None
    """None without weighings."""


def prospects(plan: Plan, entries: Sequence[Entry] = ()) -> Prospects:
    """Ask everything a sheet can tell of the yarn.

    Args:
        plan: the sweater as it is planned.
        entries: what was weighed so far; what they teach goes into the longest that lasts.
    """
    ahead = forecast(plan, entries) if entries else None
    knowledge = ahead.knowledge if ahead else PRIOR
    return Prospects(
        variants=table(plan, knowledge),
        longest_sleeves=ahead.longest.get("sleeves") if ahead else longest(plan, "sleeves"),
        longest_body=ahead.longest.get("body") if ahead else longest(plan, "body"),
        rescues=tuple(
            rescue
            for code in plan.yarns
            if code != MAIN
            for rescue in rescues(plan, code, knowledge)
        ),
        forecast=ahead,
    )
