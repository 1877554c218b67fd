"""What the weighings on the way taught, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.plan import Plan
from yokefellow.quantities import length
from yokefellow.sheet.figures import grams, plain
from yokefellow.sheet.words import section_name
from yokefellow.what_if import Checkpoint, Forecast
from yokefellow.yarn import verdict_words

__all__ = ["weighed"]


def weighed(plan: Plan, ahead: Forecast) -> tuple[str, ...]:
    """Tell each reading beside what was expected, and what is known now."""
    return tuple(_sentences(plan, ahead))


def _sentences(plan: Plan, ahead: Forecast) -> Iterator[str]:
    for check in ahead.checkpoints:
        yield _reading(check)
    unit = plan.project.sheet.units
    for code in dict.fromkeys(check.entry.yarn for check in ahead.checkpoints if check.is_used):
        before, after = ahead.per_stitch[code]
        yield (
            f"{code}: a thousand stitches are reckoned to take {plain(1000 * after.mean, 1)} g "
            f"now, and {plain(1000 * before.mean, 1)} g before. "
            + verdict_words(ahead.yarns[code], unit, colour=plan.project.yarn[code].colour)
        )
    if "sleeves" in ahead.longest:
        cm = ahead.longest["sleeves"].sleeve.cm
        yield f"The sleeves are still open: up to {length(cm, unit)}."
    if "body" in ahead.longest:
        yield f"The body is still open: up to {length(ahead.longest['body'].body.cm, unit)}."
    for finding in ahead.findings:
        yield f"{finding.message} {finding.remedy}"


def _reading(check: Checkpoint) -> str:
    entry = check.entry
    where = section_name(entry.section, entry.copy).lower()
    return (
        f"After row {entry.row} of the {where}: {plain(entry.grams, 1)} g of {entry.yarn} left, "
        f"{grams(check.expected.mean)} expected, give or take {grams(2 * check.expected.sd)}."
        + ("" if check.is_used else " Not used.")
    )
