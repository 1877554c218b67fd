"""`pace`: how many hours are left, and when the sweater is done."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

import click

from yokefellow.cli.commands.knitted import section_words, tell_ahead
from yokefellow.cli.findings import tell_findings
from yokefellow.cli.terminal import say, wrapped
from yokefellow.knitting import Remaining, read_log, remaining
from yokefellow.plan import plan
from yokefellow.project_file.load import load
from yokefellow.words import words
from yokefellow.yarn import Place

HELP = """\
Say how many hours of knitting are left, and when the sweater is done.

The pace is learned from the rows in the knitting log that were written down
within an hour and a half of each other. Before there are any, it is the
common pace, and the range is wide.

\b
Examples:
  $ yokefellow pace mine.toml
  $ yokefellow pace mine.toml --hours 5
  $ yokefellow pace mine.toml --by 2027-03-01
"""


@click.command("pace", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--hours", type=click.FloatRange(0.25, 100), help="Hours you knit in a week.")
@click.option("--by", type=click.DateTime(["%Y-%m-%d"]), help="The day it is to be done.")
def pace(file: Path, hours: float | None, by: datetime | None) -> None:
    """Say what is left."""
    made = plan(load(file))
    log = read_log(file)
    tell_findings(log.messages)
    ahead = remaining(made.schedule, log)
    sentences = words("knitting")
    if not ahead.sections:
        say(sentences.finished())
        return
    for line in _left(ahead):
        say(line)
    today = date.today()
    if hours is not None:
        first, likely, last = ahead.done_on(today, hours_a_week=hours)
        told = sentences.hours(value=hours)
        done = sentences.done_on(hours_a_week=told, likely=likely, first=first, last=last)
        say(wrapped(done))
    if by is not None:
        say(wrapped(_asked(ahead, today, by.date())))
    tell_ahead(file, made)


def _left(ahead: Remaining) -> list[str]:
    sentences = words("knitting")
    known = ahead.pace
    an_hour = f"{round(known.an_hour, -1):,.0f}"
    lines = []
    if known.measured_hours:
        measured = sentences.hours(value=known.measured_hours)
        lines.append(wrapped(sentences.pace_measured(an_hour=an_hour, hours=measured)))
    else:
        lines.append(wrapped(sentences.pace_common(an_hour=an_hour)))
    for section in ahead.sections:
        name = section_words(Place(section.section, 1, section.copy)).capitalize()
        told = sentences.hours(value=section.hours)
        lines.append(f"  {sentences.section_left(name=name, rows=section.rows, hours=told)}")
    low, high = (sentences.hours(value=value) for value in ahead.range_hours)
    whole = sentences.hours(value=ahead.hours)
    lines.append(wrapped(sentences.left(hours=whole, low=low, high=high)))
    return lines


def _asked(ahead: Remaining, today: date, by: date) -> str:
    sentences = words("knitting")
    try:
        asked = ahead.hours_a_week(today, by)
    except ValueError:
        return sentences.date_past(day=by)
    return sentences.date_asks(day=by, hours_a_week=sentences.hours(value=asked))
