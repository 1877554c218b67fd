"""What every sweater must meet, whoever wears it."""

from __future__ import annotations

from tests.knitter import Knitted, Line, Part, knit
from yokefellow.notation.phrase import phrase
from yokefellow.plan import Plan
from yokefellow.rows.model import taken

# derived: half a stitch, and one more where the body must have an even count, or the front
# grows by pairs
BODY_STITCHES = 2.0
# derived: half a stitch and the pair that makes a sleeve even
SLEEVE_STITCHES = 1.5


def check(plan: Plan) -> None:
    """Counts add up, and the ease is the one that was asked for."""
    split, body = plan.shape.split, plan.shape.body
    assert split.front + split.back + 2 * split.held == split.yoke
    assert split.front_total + split.back_total == split.body.got
    assert split.front + split.back + 2 * split.underarm.got == split.body.got
    assert split.held + split.underarm.got == split.sleeve.got
    assert min(split.front, split.back, split.held, split.underarm_front, split.underarm_back) >= 1
    per_cm = split.body.per_cm
    chest = body.fullest or split.body
    assert abs(chest.cm - plan.finished.body.chest_cm) * per_cm <= BODY_STITCHES
    sleeve = plan.finished.sleeve.upper_arm_cm
    assert abs(split.sleeve.cm - sleeve) * per_cm <= SLEEVE_STITCHES
    _check_rows(plan)


def _check_rows(plan: Plan) -> None:
    ends = {row.section.key: row.after for row in plan.rows}
    # The split's own last row brings BOR to the side and takes no stitch away.
    assert ends["split"] == plan.shape.split.body.got
    assert ends["yoke"] == plan.shape.split.yoke
    body = [row for row in plan.rows if row.section.key == "body"]
    added = sum(change.added for change in plan.shape.body.changes)
    assert body[0].before + added == plan.shape.body.edge.got
    rounds = plan.shape.body.rounds.got
    assert len(body) == rounds + sum(dart.rows for dart in plan.shape.body.darts)
    assert taken(plan.rows[-1].row.steps) == plan.rows[-1].before


def knit_rows(plan: Plan) -> Knitted:
    """Let the independent knitter work every row, from its printed words alone."""
    parts: list[Part] = []
    for section in plan.schedule.sections:
        rows = [row for row in plan.rows if row.section is section]
        lines = tuple(
            Line(row.number, row.number, row.row.kind.value, phrase(row.row, row.before), row.after)
            for row in rows
        )
        copies = tuple(copy for copy in section.copies if copy)
        parts.append(Part(section.key, section.start, lines, copies))
    return knit(parts)
