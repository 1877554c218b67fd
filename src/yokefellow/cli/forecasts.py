"""What weighings taught, in sentences and as data."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import Any

from yokefellow.cli.lasting import longest_record
from yokefellow.cli.places import place_words
from yokefellow.cli.shown import paragraphs
from yokefellow.cli.terminal import wrapped
from yokefellow.cli.yarns import record, verdicts
from yokefellow.conductor import Plan
from yokefellow.project.plain import in_its_place
from yokefellow.whatif import Checkpoint, Forecast
from yokefellow.wording import length
from yokefellow.yarn import YarnEstimate

__all__ = ["forecast_record", "forecast_words"]


def forecast_words(made: Plan, ahead: Forecast) -> str:
    """Tell the readings, what they teach, the verdicts, and what is still open."""
    return "\n".join(_lines(made, ahead))


def _lines(made: Plan, ahead: Forecast) -> Iterator[str]:
    if ahead.checkpoints:
        yield "Weighed so far:"
    else:
        yield "Nothing was weighed yet."
    for checkpoint in ahead.checkpoints:
        yield wrapped(_reading(checkpoint), first="  ", rest="    ")
    yield ""
    yield from paragraphs(ahead.findings)
    for code in dict.fromkeys(point.entry.yarn for point in ahead.checkpoints if point.is_used):
        yield wrapped(_taught(code, ahead))
        yield wrapped(_narrowed(code, made.yarns[code], ahead.yarns[code]))
    yield from verdicts(made, ahead.yarns)
    yield ""
    yield from _open(made, ahead)


def _reading(checkpoint: Checkpoint) -> str:
    entry, expected = checkpoint.entry, checkpoint.expected
    where = place_words(entry.section, entry.row, entry.copy)
    left_out = "" if checkpoint.is_used else "; left out"
    note = f" ({in_its_place(entry.note)})" if entry.note else ""
    return (
        f"{entry.yarn} after {where}: {entry.shown}, where about {expected.mean:.0f} g were"
        f" expected{left_out}{note}."
    )


def _taught(code: str, ahead: Forecast) -> str:
    before, after = ahead.per_stitch[code]
    share = 100 * (after.mean / before.mean - 1)
    if abs(share) < 0.5:
        return f"A plain stitch of {code} takes what was expected."
    word = "more" if share > 0 else "less"
    return f"A plain stitch of {code} takes {abs(share):.0f} per cent {word} than was expected."


def _narrowed(code: str, before: YarnEstimate, after: YarnEstimate) -> str:
    """Set the ranges of what stays over beside each other."""

    def told(estimate: YarnEstimate) -> str:
        low, high = estimate.left.low.grams, estimate.left.high.grams
        return f"{low:.0f} to {high:.0f} g".replace("-", "−")

    return (
        f"Left of {code} at the end, {100 * after.sure:.0f} per cent sure: {told(after)};"
        f" before the weighings it was {told(before)}."
    )


def _open(made: Plan, ahead: Forecast) -> Iterator[str]:
    unit = made.project.sheet.units
    if not ahead.open:
        yield "No length is open any more."
    for what in ahead.open:
        found = ahead.longest[what]
        piece = found.sleeve if what == "sleeves" else found.body
        if found.limit == "too little":
            yield wrapped(f"The {what}: not even the shortest surely lasts.")
            continue
        words = "sleeves that last" if what == "sleeves" else "body that lasts"
        yield wrapped(f"The longest {words} now: {length(piece.cm, unit)}.")


def forecast_record(made: Plan, ahead: Forecast) -> dict[str, Any]:
    """Give the same as data."""
    return {
        "title": made.project.title,
        "readings": [
            {
                **asdict(point.entry),
                "expected_g": round(point.expected.mean, 1),
                "expected_sd_g": round(point.expected.sd, 1),
                "used": point.is_used,
            }
            for point in ahead.checkpoints
        ],
        "per_stitch_g": {
            code: {"before": before.mean, "after": after.mean}
            for code, (before, after) in ahead.per_stitch.items()
        },
        "yarns": record(made.project, ahead.yarns.values()),
        "open": list(ahead.open),
        "longest": {wish: longest_record(made, found) for wish, found in ahead.longest.items()},
        "findings": [
            {"code": found.code, "message": found.message, "remedy": found.remedy}
            for found in ahead.findings
        ],
    }
