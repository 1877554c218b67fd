"""`log`: the knitting log, to read, to add a note to, and to take an event back."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import click

from yokefellow.cli.findings import tell_findings
from yokefellow.cli.row_places import place_words
from yokefellow.cli.terminal import say, wrapped
from yokefellow.knitting import (
    Counted,
    Event,
    Knitted,
    Measured,
    Note,
    Ripped,
    TakenBack,
    TriedOn,
    Weighed,
    append,
    read_log,
)
from yokefellow.project_file.load import load
from yokefellow.quantities import LengthUnit, length
from yokefellow.words import words

HELP = """\
Show the knitting log of a sweater, with the number of each event.

\b
Examples:
  $ yokefellow log mine.toml
  $ yokefellow log mine.toml --note 'needle changed to 3.25 mm'
  $ yokefellow log mine.toml --take-back 1
"""


@click.command("log", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--note", metavar="TEXT", help="Keep a note.")
@click.option("--take-back", type=click.IntRange(1), help="Take back the event of this number.")
def log(file: Path, note: str | None, take_back: int | None) -> None:
    """Add to the log what is asked, or show it."""
    unit = load(file).sheet.units
    now = datetime.now(UTC)
    sentences = words("knitting")
    if note is not None:
        number = append(file, Note(time=now, note=note), now=now)
        say(sentences.written_note(number=number))
    if take_back is not None:
        append(file, TakenBack(time=now, number=take_back), now=now)
        say(sentences.taken_back(number=take_back))
    if note is not None or take_back is not None:
        return
    held = read_log(file)
    tell_findings(held.messages)
    if not held.events:
        say(sentences.empty())
    for logged in held.events:
        when = f"{logged.event.time.astimezone():%Y-%m-%d %H:%M}"
        said = event_words(logged.event, unit)
        say(wrapped(f"{logged.number:>4}  {when}  {said}", rest=" " * 24))


def event_words(event: Event, unit: LengthUnit) -> str:
    """Say what happened."""
    sentences = words("knitting")
    match event:
        case Note(note=note):
            return sentences.event_note(note=note)
        case TakenBack(number=number):
            return sentences.taken_back(number=number)
        case _:
            where = place_words(event.section, event.row, event.copy_)
    match event:
        case Knitted():
            return sentences.event_knitted(where=where)
        case Ripped():
            return sentences.event_ripped(where=where)
        case Counted(stitches=stitches):
            return sentences.event_counted(where=where, stitches=stitches)
        case Weighed(yarn=yarn, grams=grams):
            return sentences.event_weighed(where=where, yarn=yarn, grams=f"{grams:g}")
        case Measured(what=what, cm=cm):
            return sentences.event_measured(where=where, what=what, cm=length(cm, unit))
        case TriedOn(wants=wants):
            return sentences.event_tried_on(where=where, wants=wants)
