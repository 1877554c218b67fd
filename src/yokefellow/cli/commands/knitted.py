"""`knitted`: write down in the log which rows are finished, and what the needle holds."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import click

from yokefellow.cli.findings import tell_findings
from yokefellow.cli.row_places import place_words, read_place
from yokefellow.cli.terminal import say, wrapped
from yokefellow.knitting import (
    Counted,
    Knitted,
    Likely,
    Milestone,
    Recount,
    Ripped,
    append,
    read_log,
    recount,
    remaining,
    row_at,
    standing,
)
from yokefellow.knitting.log import Event
from yokefellow.notation.write import write
from yokefellow.plan import Plan, plan
from yokefellow.project_file.load import load
from yokefellow.words import words
from yokefellow.yarn import Place

HELP = """\
Write down in the knitting log which rows are finished.

ROW is the last finished row, such as 'yoke 34' or 'left sleeve 20'. The log
stands beside the project file, NAME.knitting.jsonl, and is only ever added to.
With --count it compares the stitches on your needle with those of the row,
says what most likely happened, and how to mend it in the next plain round.

\b
Examples:
  $ yokefellow knitted mine.toml 'yoke 34'
  $ yokefellow knitted mine.toml 'yoke 34' --count 228
  $ yokefellow knitted mine.toml 'yoke 24' --ripped
"""


@click.command("knitted", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
@click.argument("row")
@click.option("--count", type=click.IntRange(1, 10_000), help="The stitches on the needle now.")
@click.option("--ripped", is_flag=True, help="The work was ripped back to this row.")
@click.option("--at", metavar="TIME", help="When it was, as ISO 8601.  [default: now]")
def knitted(file: Path, row: str, count: int | None, at: str | None, *, ripped: bool) -> None:
    """Write events into the log, and say what comes next."""
    made = plan(load(file))
    section, number, copy = read_place(row, made.schedule, option="ROW")
    place = Place(section, number, copy)
    now = datetime.now(UTC)
    time = _time(at, now)
    recounted = _recounted(made, place, count)
    event: Event
    if ripped:
        event = Ripped(time=time, section=section, row=number, copy_=copy)
    else:
        event = Knitted(time=time, section=section, row=number, copy_=copy)
    written = append(file, event, now=now)
    if count is not None:
        counted = Counted(time=time, section=section, row=number, copy_=copy, stitches=count)
        append(file, counted, now=now)
    sentences, where = words("knitting"), place_words(section, number, copy)
    wording = sentences.written_ripped if ripped else sentences.written
    say(wording(number=written, where=where))
    if recounted is not None:
        for line in recount_words(recounted):
            say(wrapped(line))
    tell_ahead(file, made)


def tell_ahead(file: Path, made: Plan) -> None:
    """Say the next row, and what can be reached."""
    log = read_log(file)
    tell_findings(log.messages)
    sentences = words("knitting")
    now = standing(made.schedule, log)
    if now.next is None:
        say(sentences.finished())
        return
    row = row_at(made.schedule, now.next)
    where = place_words(*_as_words(now.next))
    say(wrapped(sentences.next_row(where=where, row=write(row.row.steps), stitches=row.after)))
    ahead = remaining(made.schedule, log)
    if ahead.this_evening is not None and not ahead.this_evening.ends_section:
        say(_milestone(ahead.this_evening))
    if ahead.next_end is not None:
        name = section_words(ahead.next_end.place)
        hours = sentences.hours(value=ahead.next_end.hours)
        say(sentences.to_end(name=name, rows=ahead.next_end.rows, hours=hours))


def _milestone(reached: Milestone) -> str:
    sentences = words("knitting")
    return sentences.this_evening(
        where=place_words(*_as_words(reached.place)),
        rows=reached.rows,
        hours=sentences.hours(value=reached.hours),
    )


def _as_words(place: Place) -> tuple[str, int, str]:
    return place.section, place.row, place.copy


def section_words(place: Place) -> str:
    """Name a section: `left sleeve`."""
    return " ".join(filter(None, (place.copy, place.section.replace("_", " "))))


def _time(given: str | None, now: datetime) -> datetime:
    if given is None:
        return now
    try:
        time = datetime.fromisoformat(given)
    except ValueError:
        raise click.BadParameter(
            f"{given!r} is no time such as 2026-03-01T20:30.", param_hint="--at"
        ) from None
    return time if time.tzinfo else time.astimezone()


def _recounted(made: Plan, place: Place, count: int | None) -> Recount | None:
    """Compare a count with the plan before anything is written.

    Raises:
        click.BadParameter: it is too far off to be of this row.
    """
    if count is None:
        return None
    try:
        return recount(made.schedule, place, count)
    except ValueError:
        planned = row_at(made.schedule, place).after
        where = place_words(*_as_words(place))
        told = words("knitting").far_off(counted=count, planned=planned, where=where)
        raise click.BadParameter(told, param_hint="--count") from None


def recount_words(found: Recount) -> list[str]:
    """Say what a count means, and what to do."""
    sentences = words("knitting")
    if found.off_by == 0:
        return [sentences.count_right(stitches=found.counted)]
    lines = [
        sentences.count_off(counted=found.counted, planned=found.planned, off=abs(found.off_by))
    ]
    since = place_words(*_as_words(found.since)) if found.since else ""
    match found.likely:
        case Likely.MISSED:
            lines.append(sentences.likely_missed(times=found.repeats, where=since))
        case Likely.EXTRA:
            lines.append(sentences.likely_extra(times=found.repeats, where=since))
        case Likely.SKIPPED:
            lines.append(sentences.likely_skipped(times=found.repeats, where=since))
        case Likely.UNKNOWN:
            lines.append(sentences.likely_unknown())
    if found.mend_at is not None:
        where = place_words(*_as_words(found.mend_at))
        lines.append(sentences.mend(where=where, row=write(found.mend)))
        if found.before_band:
            lines.append(sentences.mend_before_band())
    elif found.since is not None:
        lines.append(sentences.no_plain_round(where=since))
    return lines
