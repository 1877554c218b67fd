"""The log of weighings beside the project file: one line each, only ever added to.

A reading is one JSON object on a line of `NAME.weighings.jsonl`. It is added
with a single write at the end of the file and flushed to the disk, so that a
crash loses at most the line being written; what it leaves of that line is
passed over, and told. Nothing in the log is trusted: every field is checked as
if a stranger had written it.
"""

from __future__ import annotations

import errno
import json
import os
import re
import stat
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from types import MappingProxyType
from typing import Any

from yokefellow.files import FileError
from yokefellow.findings import Finding, Severity, as_typed
from yokefellow.project_file.chart_fields import YARN_CODE
from yokefellow.project_file.fields import is_hidden
from yokefellow.words import found, words

LARGEST_BYTES = 1_000_000
"""Some five thousand readings."""

MOST_LINES = 20_000
"""More than `LARGEST_BYTES` holds of the shortest readings there can be."""

LONGEST_LINE = 1_000
"""In bytes; the longest that `add` writes is shorter."""

LONGEST_NOTE = 100
MOST_NOTES = 20
"""About lines passed over: with so many it is no log."""
MOST_GRAMS = 25_000.0
MOST_ROWS = 5_000

SECTIONS = (
    *("neckband", "cast_on", "front", "back_neck", "yoke"),
    *("split", "body", "hem", "sleeve", "cuff"),
)
COPIES = ("", "right", "left")

_NO_LINK = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""Neither through a link to another file, nor waiting at a pipe, nor with line ends changed."""


@dataclass(frozen=True, slots=True)
class Entry:
    """What was left of a yarn when a row was finished."""

    time: str
    """When it was weighed, as ISO 8601; the caller's clock."""
    yarn: str
    """`MC`, `CC1`, ..."""
    grams: float
    """All that is left of it, every ball together, the needle and the work not."""
    section: str
    row: int
    """The last finished row of the section, from 1."""
    copy: str = ""
    """`right` or `left` in a sleeve."""
    note: str = ""

    @property
    def shown(self) -> str:
        """Its weight for reading, to a tenth of a gram: ounces come to no round number."""
        return f"{round(self.grams, 1):.10g} g"


def log_path(project: Path) -> Path:
    """Give the log that stands beside a project file."""
    return project.with_name(f"{project.stem}.weighings.jsonl")


def add(path: Path, entry: Entry) -> None:
    """Add a reading to the log, which is begun when it is not there.

    Raises:
        FileError: the reading is not sound, or the log cannot be written.
    """
    wrong = _wrong(asdict(entry))
    if wrong:
        raise FileError([found("weighings.entry", Severity.ERROR, "", wrong=wrong)])
    line = json.dumps(asdict(entry), ensure_ascii=True, allow_nan=False) + "\n"
    try:
        flags = os.O_RDWR | os.O_APPEND | os.O_CREAT | _NO_LINK
        log = os.open(path, flags, 0o666)
        try:
            append_line(log, line.encode(), largest_bytes=LARGEST_BYTES)
        finally:
            os.close(log)
    except (OSError, ValueError) as problem:
        raise FileError([_unusable("weighings.not-written", path, problem)]) from None


def append_line(log: int, line: bytes, *, largest_bytes: int) -> None:
    """Add a line to an open log with one write, and flush it to the disk.

    Raises:
        OSError: it is no ordinary file, would grow too large, or the disk took a part only.
    """
    state = os.fstat(log)
    if not stat.S_ISREG(state.st_mode):
        raise _UnusableError("no_ordinary_file")
    if state.st_size + len(line) > largest_bytes:
        raise _UnusableError("too_large", most_bytes=LARGEST_BYTES)
    # A line torn by a crash is closed first, so that this one begins a line of its own.
    torn = False
    if state.st_size > 0:
        os.lseek(log, -1, os.SEEK_END)
        torn = os.read(log, 1) != b"\n"
    whole = b"\n" + line if torn else line
    if os.write(log, whole) != len(whole):
        raise _UnusableError("half_written")
    os.fsync(log)


def read(path: Path) -> tuple[tuple[Entry, ...], tuple[Finding, ...]]:
    """Read the log; one that is not there holds nothing.

    The same reading twice counts once: adding it again after a doubtful crash
    does no harm.

    Returns:
        The sound readings in the order they were added, and a note for every
        line that was passed over.

    Raises:
        FileError: the log is there and cannot be read.
    """
    try:
        lines = _lines(path)
    except FileNotFoundError:
        return (), ()
    except (OSError, ValueError) as problem:
        if getattr(problem, "errno", None) == errno.ENAMETOOLONG:
            return (), ()  # no such file can be there
        raise FileError([_unusable("weighings.not-read", path, problem)]) from None
    entries: dict[Entry, None] = {}
    notes: list[Finding] = []
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        entry = _entry(line)
        if isinstance(entry, Entry):
            entries[entry] = None
        else:
            notes.append(_passed_over(path, number, entry, is_last=number == len(lines)))
    return tuple(entries), _not_too_many(path, notes)


def _lines(path: Path) -> list[bytes]:
    log = os.open(path, os.O_RDONLY | _NO_LINK)
    with os.fdopen(log, "rb") as file:
        state = os.fstat(file.fileno())
        if not stat.S_ISREG(state.st_mode):
            raise _UnusableError("no_ordinary_file")
        content = file.read(LARGEST_BYTES + 1)
    if len(content) > LARGEST_BYTES:
        raise _UnusableError("too_large", most_bytes=LARGEST_BYTES)
    if content.count(b"\n") > MOST_LINES:
        raise _UnusableError("many_lines", most_lines=MOST_LINES)
    return content.split(b"\n")


def _entry(line: bytes) -> Entry | str:
    """Read one line; or say what is wrong with it."""
    if len(line) > LONGEST_LINE:
        return words("weighings").line_long()
    try:
        given = json.loads(line.decode("utf-8"))
    except (ValueError, RecursionError):
        return words("weighings").torn()
    if not isinstance(given, dict):
        return words("weighings").no_record()
    wrong = _wrong(given)
    if wrong:
        return wrong
    return Entry(**{**given, "grams": float(given["grams"])})


def _is_time(given: object) -> bool:
    if not isinstance(given, str) or len(given) > 40:
        return False
    try:
        datetime.fromisoformat(given)
    except ValueError:
        return False
    return True


def _is_number(given: object) -> bool:
    # Compared, and not asked whether it is finite: an int may be larger than any float.
    if isinstance(given, bool) or not isinstance(given, (int, float)):
        return False
    return 0 <= given <= MOST_GRAMS


def _is_note(given: object) -> bool:
    short = isinstance(given, str) and len(given) <= LONGEST_NOTE
    return short and not any(is_hidden(letter) or letter in "\n\r" for letter in str(given))


_CHECKS: Mapping[str, Callable[[Any], bool]] = MappingProxyType(
    {
        "time": _is_time,
        "yarn": lambda given: isinstance(given, str) and bool(re.fullmatch(YARN_CODE, given)),
        "grams": _is_number,
        "section": lambda given: given in SECTIONS,
        "row": lambda given: type(given) is int and 1 <= given <= MOST_ROWS,
        "copy": lambda given: given in COPIES,
        "note": _is_note,
    }
)
_MAY_LACK = frozenset({"copy", "note"})


def _wrong(given: Mapping[str, Any]) -> str:
    """Say what is wrong with a record; nothing when it is sound."""
    return next(_faults(given), "")


def _faults(given: Mapping[str, Any]) -> Iterator[str]:
    for name in given:
        if name not in _CHECKS:
            yield words("weighings").unknown_field(name=as_typed(name))
    for name, is_sound in _CHECKS.items():
        if name not in given:
            if name not in _MAY_LACK:
                yield words("weighings").missing_field(name=name)
        elif not isinstance(given[name], (str, int, float)) or not is_sound(given[name]):
            yield words("weighings").wrong_field(name=name, given=as_typed(given[name]))


class _UnusableError(OSError):
    """The log is there and cannot be used, for a reason of this program's own."""

    def __init__(self, reason: str, **values: Any) -> None:
        super().__init__(0, getattr(words("weighings"), reason)(**values))


def _unusable(code: str, path: Path, problem: OSError | ValueError) -> Finding:
    reason = getattr(problem, "strerror", None) or ""
    return found(code, Severity.ERROR, "", name=as_typed(path.name), reason=reason)


def _not_too_many(path: Path, notes: Sequence[Finding]) -> tuple[Finding, ...]:
    """Give the first notes, and count the others; the last one may tell of a crash."""
    if len(notes) <= MOST_NOTES:
        return tuple(notes)
    name, more = as_typed(path.name), len(notes) - MOST_NOTES
    count = found("weighings.many-lines", Severity.NOTE, "", name=name, more=f"{more:,}")
    return (*notes[: MOST_NOTES - 1], count, notes[-1])


def _passed_over(path: Path, number: int, wrong: str, *, is_last: bool) -> Finding:
    torn = is_last and wrong == words("weighings").torn()
    code = "weighings.torn" if torn else "weighings.line"
    name = as_typed(path.name)
    return found(code, Severity.NOTE, "", name=name, line=number, wrong=wrong)
