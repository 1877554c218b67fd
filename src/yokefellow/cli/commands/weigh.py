"""`weigh`: what the ball weighs now, and what that tells."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from yokefellow.cli.findings import paragraphs
from yokefellow.cli.longest_output import longest_record
from yokefellow.cli.options import SHOWN_AS
from yokefellow.cli.row_places import place_words
from yokefellow.cli.terminal import say, wrapped
from yokefellow.cli.yarn_tables import record, verdicts
from yokefellow.plan import Plan
from yokefellow.project_file.fields import in_its_place
from yokefellow.quantities import length
from yokefellow.what_if import Checkpoint, Forecast
from yokefellow.yarn import YarnEstimate

if TYPE_CHECKING:
    from yokefellow.plan import Plan
    from yokefellow.yarn.weighing_log import Entry

HELP = """\
Write down what is left of a yarn when a row is finished, and tell what it
teaches: whether the yarn lasts, and the lengths still open. Weigh every ball
of that yarn together, without the work and the needle. The readings go into
mine.weighings.jsonl beside the file; the file itself stays as it is. A second
reading at the same row takes the place of the first; to take one back
altogether, delete its line there.

Without --left, show the readings so far and what is known by them.

\b
Examples:
  $ yokefellow weigh mine.toml
  $ yokefellow weigh mine.toml --left "166 g" --after "yoke"
  $ yokefellow weigh mine.toml --yarn MC --left "153 g" --after "body 9"
"""


MOST_OF_STASH = 1.1
"""Balls may weigh a little more than their labels say (common practice, no source)."""


@click.command("weigh", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--yarn", metavar="CODE", help="Which yarn.  [default: MC]")
@click.option("--left", metavar="WEIGHT", help="What is left of it, in g or oz.")
@click.option("--after", metavar="ROW", help="The last finished row: 'yoke 58', 'left sleeve 20'.")
@click.option("--note", metavar="TEXT", default="", help="A few words to keep with it.")
@click.option("--at", metavar="TIME", help="When it was weighed, as ISO 8601.  [default: now]")
@click.option("--as", "form", type=SHOWN_AS, default="text", help="Which form.  [default: text]")
def weigh(
    file: Path,
    yarn: str | None,
    left: str | None,
    after: str | None,
    note: str,
    at: str | None,
    form: str,
) -> None:
    """Add a weighing, or list those there are, and show what they teach."""
    from yokefellow.cli.commands.weigh import forecast_record, forecast_words
    from yokefellow.cli.row_places import readings
    from yokefellow.cli.terminal import document
    from yokefellow.plan import plan
    from yokefellow.project_file.load import load
    from yokefellow.what_if import forecast
    from yokefellow.yarn.weighing_log import add, log_path

    if (left is None) != (after is None):
        raise click.UsageError("Give --left and --after together: how much, and at which row.")
    if left is None and (yarn or note or at):
        raise click.UsageError("--yarn, --note and --at belong to a reading: give --left too.")
    made = plan(load(file))
    if left is not None and after is not None:
        time = at or datetime.now(UTC).isoformat(timespec="seconds")
        add(log_path(file), _entry(made, time, yarn or "MC", left, after, note))
    ahead = forecast(made, readings(file))
    say(document(forecast_record(made, ahead)) if form == "json" else forecast_words(made, ahead))


def _entry(made: Plan, time: str, yarn: str, left: str, after: str, note: str) -> Entry:
    """Check a reading against the sweater before it is written down.

    Raises:
        click.BadParameter: the sweater has no such yarn or row, or it is no weight.
    """
    from yokefellow.cli.row_places import read_place
    from yokefellow.yarn.weighing_log import Entry

    code = yarn.strip().upper()
    if code not in made.yarns:
        raise click.BadParameter(
            f"{yarn!r} is none of the yarns of this sweater: {', '.join(made.yarns)}.",
            param_hint="--yarn",
        )
    section, row, side = read_place(after, made.schedule)
    grams, stash = _grams(left), made.yarns[code].stash.grams
    if grams > MOST_OF_STASH * stash:
        raise click.BadParameter(
            f"{left!r} is more than all the {code} of the file, {stash:.0f} g. Weigh again, or "
            f"correct the balls under [yarn.{code}].",
            param_hint="--left",
        )
    return Entry(time, code, grams, section, row, side, note)


def _grams(typed: str) -> float:
    """Read a weight; a ball may also be at its end.

    Raises:
        click.BadParameter: it is no weight.
    """
    import re

    from yokefellow.quantities import QuantityError, parse_mass_g

    if re.fullmatch(r"\s*0+([.,]0*)?\s*(g|oz)?\s*", typed):
        return 0.0
    try:
        return parse_mass_g(typed)
    except QuantityError as refused:
        raise click.BadParameter(f"{refused}.", param_hint="--left") from None


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
