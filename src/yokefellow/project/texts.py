"""A text file from disk: found, not too large, in UTF-8; every refusal is a finding."""

from __future__ import annotations

import difflib
import os
import stat
from itertools import islice
from pathlib import Path
from typing import NoReturn

from yokefellow.findings import Finding, ProjectError, Severity
from yokefellow.units import as_typed

__all__ = ["LARGEST_BYTES", "LONGEST_LINE", "check_size", "read_text", "refuse"]

LARGEST_BYTES = 200_000
"""A long project file has 10,000 bytes; twenty times that is no project file."""

LONGEST_LINE = 1_000
"""In letters. Also keeps a line of dotted names from taking minutes to read."""


def read_text(path: Path, *, largest_bytes: int = LARGEST_BYTES) -> str:
    """Read a text file.

    Raises:
        ProjectError: it is missing, a folder, not to be read, too large, or not in UTF-8.
    """
    name = as_typed(path.name)
    try:
        if path.is_dir():
            refuse("file.folder", f"{name} is a folder.", "Name the project file inside it.")
        content = _content(path, name, largest_bytes + 1)
    except FileNotFoundError:
        near = _nearest(path)
        refuse(
            "file.missing",
            f"There is no file {name} here.",
            f"Did you mean {near}?"
            if near
            else "Check its name and the folder you are in, or write a fresh project file first.",
        )
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or "its name is not one a file can have"
        refuse(
            "file.unreadable",
            f"{name} cannot be read: {reason}.",
            "Check that the file is yours to read.",
        )
    return _decoded(content, name=name, largest_bytes=largest_bytes)


def _content(path: Path, name: str, most_bytes: int) -> bytes:
    # A pipe is not waited for: nobody may ever write into it.
    descriptor = os.open(path, os.O_RDONLY | os.O_NONBLOCK)
    with os.fdopen(descriptor, "rb") as file:
        if not stat.S_ISREG(os.fstat(descriptor).st_mode):
            refuse(
                "file.no-plain-file",
                f"{name} is a pipe or a device, and no file.",
                "Save the project as a file, and name that.",
            )
        return file.read(most_bytes)


def _nearest(path: Path) -> str | None:
    """Give the project file of the same folder whose name is most like this one."""
    try:
        there = [file.name for file in islice(path.parent.glob("*.toml"), 1_000)]
    except (OSError, ValueError):
        return None
    plain = {name.casefold(): name for name in sorted(there)}
    wanted = path.name.casefold()
    alike = [f"{wanted}.toml"] if f"{wanted}.toml" in plain else []
    alike += difflib.get_close_matches(wanted[:100], plain, n=1)
    return as_typed(plain[alike[0]]) if alike else None


def _decoded(content: bytes, *, name: str, largest_bytes: int) -> str:
    if len(content) > largest_bytes:
        _refuse_size(name, largest_bytes)
    if len(content) / 3 < content.count(0) < len(content) * 0.8:
        refuse(
            "file.not-utf-8",
            f"{name} is not a text in UTF-8; it looks like one in UTF-16 or UTF-32.",
            "Save it again as plain text with the encoding UTF-8.",
        )
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        line = content.count(b"\n", 0, problem.start) + 1
        refuse(
            "file.not-utf-8",
            f"{name} is not a text in UTF-8: line {line} cannot be read.",
            "Save it again as plain text with the encoding UTF-8.",
        )


def check_size(text: str, name: str) -> None:
    """Refuse a text that is too long, or has a line that is.

    Raises:
        ProjectError: one of the two.
    """
    if len(text) > LARGEST_BYTES:
        _refuse_size(name, LARGEST_BYTES)
    for line_number, line in enumerate(text.split("\n"), start=1):
        if len(line) > LONGEST_LINE:
            refuse(
                "file.long-line",
                f"Line {line_number} of {name} has {len(line)} letters; "
                f"allowed are {LONGEST_LINE}.",
                "Break the line, or check that this is the right file.",
            )


def _refuse_size(name: str, largest_bytes: int) -> NoReturn:
    refuse(
        "file.too-large",
        f"{name} is larger than {largest_bytes // 1000} kB, the largest such file allowed.",
        "Check that this is the right file.",
    )


def refuse(code: str, message: str, remedy: str) -> NoReturn:
    """Stop with one finding about the whole file.

    Raises:
        ProjectError: always.
    """
    raise ProjectError([Finding(code, Severity.ERROR, "", message, remedy)])
