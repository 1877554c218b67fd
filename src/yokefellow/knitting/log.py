"""The knitting log beside the project file: one event a line, only ever added to.

`NAME.knitting.jsonl` holds JSON lines, readable by a person. An event is added with a single
write at the end of the file and flushed to the disk, so that a crash loses at most the line being
written, and two processes that write at once lose nothing. A line torn by a crash is closed by the
next event, and told. Nothing is ever rewritten: an event is taken back by a later one.

The weighings of `NAME.weighings.jsonl` are read as events of the same log.
"""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Iterable, Iterator
from datetime import datetime, timedelta
from pathlib import Path
from typing import Annotated, Literal, NamedTuple, TypeAlias

from pydantic import (
    AwareDatetime,
    BaseModel,
    ConfigDict,
    Field,
    StringConstraints,
    TypeAdapter,
    ValidationError,
    field_validator,
)

from yokefellow.files import FileError
from yokefellow.findings import Finding, Severity, as_typed
from yokefellow.project_file.chart_fields import YARN_CODE
from yokefellow.project_file.fields import is_hidden
from yokefellow.words import found
from yokefellow.yarn.weighing_log import COPIES, MOST_GRAMS, MOST_ROWS, SECTIONS, append_line
from yokefellow.yarn.weighing_log import log_path as weighings_path
from yokefellow.yarn.weighing_log import read as read_weighings

LARGEST_BYTES = 4_000_000
"""Some twenty thousand events: a row at a time, several sweaters."""
LONGEST_LINE = 2_000
"""In bytes."""
LONGEST_NOTE = 500
MOST_MESSAGES = 20
"""About lines passed over: with more it is no log."""
EARLY = timedelta(minutes=10)
"""An event this much later than now was made by a clock that is wrong."""

_FLAGS = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""Neither through a link to another file, nor waiting at a pipe, nor with line ends changed."""


class _Event(BaseModel):
    """What every event has."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)

    time: AwareDatetime
    """When it happened, with the offset of its clock."""

    @field_validator("note", "wants", check_fields=False)
    @classmethod
    def _is_plain(cls, text: str) -> str:
        if any(is_hidden(letter) or letter in "\n\r" for letter in text):
            raise ValueError("it holds a character that cannot be printed")
        return text


class _Placed(_Event):
    """An event at a row."""

    section: str
    row: Annotated[int, Field(ge=1, le=MOST_ROWS)]
    """The last finished row of the section, from 1."""
    copy_: Annotated[str, Field(alias="copy")] = ""
    """`right` or `left` in a sleeve."""

    model_config = ConfigDict(populate_by_name=True)

    @field_validator("section")
    @classmethod
    def _is_a_section(cls, name: str) -> str:
        if name not in SECTIONS:
            raise ValueError(f"{as_typed(name)} is no section of a sweater")
        return name

    @field_validator("copy_")
    @classmethod
    def _is_a_copy(cls, name: str) -> str:
        if name not in COPIES:
            raise ValueError(f"{as_typed(name)} is neither right nor left")
        return name


_Text: TypeAlias = Annotated[str, StringConstraints(max_length=LONGEST_NOTE)]


class Knitted(_Placed):
    """All rows up to this one are finished."""

    event: Literal["knitted"] = "knitted"


class Weighed(_Placed):
    """What is left of a yarn, every ball together, the needle and the work not."""

    event: Literal["weighed"] = "weighed"
    yarn: Annotated[str, StringConstraints(pattern=YARN_CODE)]
    grams: Annotated[float, Field(ge=0, le=MOST_GRAMS)]
    note: _Text = ""


class Counted(_Placed):
    """How many stitches are really on the needle."""

    event: Literal["counted"] = "counted"
    stitches: Annotated[int, Field(ge=1, le=10_000)]


class Measured(_Placed):
    """A length or a width of the work, as the tape says."""

    event: Literal["measured"] = "measured"
    what: Literal["length", "width"]
    cm: Annotated[float, Field(gt=0, le=300)]


class TriedOn(_Placed):
    """The sweater was tried on; what she wants changed, in her words."""

    event: Literal["tried on"] = "tried on"
    wants: _Text = ""


class Ripped(_Placed):
    """The work was ripped back: this row is now the last finished one."""

    event: Literal["ripped"] = "ripped"


class Note(_Event):
    """A note."""

    event: Literal["note"] = "note"
    note: _Text


class TakenBack(_Event):
    """An earlier event did not happen."""

    event: Literal["taken back"] = "taken back"
    number: Annotated[int, Field(ge=1)]
    """The number of that event in the log, from 1."""


Event: TypeAlias = Annotated[
    Knitted | Weighed | Counted | Measured | TriedOn | Ripped | Note | TakenBack,
    Field(discriminator="event"),
]
_EVENT: TypeAdapter[Event] = TypeAdapter(Event)


class Logged(NamedTuple):
    """An event with its number in the log, from 1."""

    number: int
    event: Event


class Log(NamedTuple):
    """What holds of a log: the events that were not taken back, in the order of time."""

    events: tuple[Logged, ...]
    messages: tuple[Finding, ...] = ()
    """Lines that were passed over, and why."""

    def of(self, *kinds: type[_Event]) -> Iterator[Event]:
        """Give the events of some kinds, in order."""
        for logged in self.events:
            if isinstance(logged.event, kinds):
                yield logged.event


def log_path(project: Path) -> Path:
    """Give the log that stands beside a project file."""
    return project.with_name(f"{project.stem}.knitting.jsonl")


def append(project: Path, event: Event, *, now: datetime) -> int:
    """Add an event to the log of a project, which is begun when it is not there.

    Args:
        project: the project file.
        event: what happened.
        now: the caller's clock; an event of the future is refused.

    Returns:
        The number of the event in the log.

    Raises:
        FileError: the event is of the future, takes back one that is not there, or the log
            cannot be written.
    """
    path = log_path(project)
    if event.time > now + EARLY:
        raise FileError(
            [found("log.future", Severity.ERROR, "", time=f"{event.time:%Y-%m-%d %H:%M}")]
        )
    numbers = {logged.number for logged in read_log(project).events}
    if isinstance(event, TakenBack) and event.number not in numbers:
        raise FileError([found("log.no-event", Severity.ERROR, "", number=event.number)])
    line = event.model_dump_json(by_alias=True, exclude_defaults=False) + "\n"
    try:
        log = os.open(path, os.O_RDWR | os.O_APPEND | os.O_CREAT | _FLAGS, 0o666)
        try:
            append_line(log, line.encode(), largest_bytes=LARGEST_BYTES)
        finally:
            os.close(log)
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or "its name is not one a file can have"
        name = as_typed(path.name)
        raise FileError(
            [found("log.not-written", Severity.ERROR, "", name=name, reason=reason)]
        ) from None
    return len(_lines(path))


def read_log(project: Path) -> Log:
    """Read the log of a project, and the weighings beside it; one that is not there is empty.

    Raises:
        FileError: a log is there and cannot be read, or it is none.
    """
    path = log_path(project)
    try:
        lines = _lines(path)
    except FileNotFoundError:
        lines = []
    except (OSError, ValueError) as problem:
        if getattr(problem, "errno", None) != errno.ENAMETOOLONG:
            reason = getattr(problem, "strerror", None) or "its name is not one a file can have"
            name = as_typed(path.name)
            raise FileError(
                [found("log.not-read", Severity.ERROR, "", name=name, reason=reason)]
            ) from None
        lines = []
    events: list[Logged] = []
    messages: list[Finding] = []
    for number, line in enumerate(lines, start=1):
        try:
            events.append(Logged(number, _EVENT.validate_json(line)))
        except ValidationError as wrong:
            last = number == len(lines)
            messages.append(_passed_over(path, number, wrong, is_last=last))
    if len(messages) > MOST_MESSAGES and len(messages) > len(events):
        name = as_typed(path.name)
        raise FileError([found("log.foreign", Severity.ERROR, "", name=name, lines=len(messages))])
    weighed, notes = _weighings(project, after=len(lines))
    taken = {one.event.number for one in events if isinstance(one.event, TakenBack)}
    held = [
        one
        for one in (*events, *weighed)
        if one.number not in taken and not isinstance(one.event, TakenBack)
    ]
    held.sort(key=lambda one: (one.event.time, one.number))
    return Log(tuple(held), (*messages[:MOST_MESSAGES], *notes))


def _lines(path: Path) -> list[bytes]:
    log = os.open(path, os.O_RDONLY | _FLAGS)
    with os.fdopen(log, "rb") as file:
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
            raise OSError(0, "it is no ordinary file")
        content = file.read(LARGEST_BYTES + 1)
    if len(content) > LARGEST_BYTES:
        raise OSError(0, f"it is larger than {LARGEST_BYTES:,} bytes")
    return [line for line in content.split(b"\n") if line.strip()]


def _weighings(project: Path, *, after: int) -> tuple[list[Logged], Iterable[Finding]]:
    """Read the older log of weighings as events numbered behind those of the log."""
    entries, notes = read_weighings(weighings_path(project))
    events = []
    for number, entry in enumerate(entries, start=after + 1):
        time = datetime.fromisoformat(entry.time)
        event = Weighed(
            time=time if time.tzinfo else time.astimezone(),
            section=entry.section,
            row=entry.row,
            copy_=entry.copy,
            yarn=entry.yarn,
            grams=entry.grams,
            note=entry.note,
        )
        events.append(Logged(number, event))
    return events, notes


def _passed_over(path: Path, number: int, wrong: ValidationError, *, is_last: bool) -> Finding:
    """Say what is wrong with a line; the last one may be torn."""
    first = wrong.errors(include_url=False)[0]
    name = as_typed(path.name)
    if first["type"] == "json_invalid":
        code = "log.torn" if is_last else "log.line"
        return found(code, Severity.NOTE, "", name=name, line=number, wrong="it is no whole record")
    where = ".".join(str(part) for part in first["loc"][1:])
    said = first["msg"].removeprefix("Value error, ")
    wrong_field = f"its {where}: {said}" if where else said
    return found("log.line", Severity.NOTE, "", name=name, line=number, wrong=wrong_field)
