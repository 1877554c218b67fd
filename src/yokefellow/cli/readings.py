"""The log of weighings beside a project file, as the verbs read it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from yokefellow.cli.shown import tell_findings

if TYPE_CHECKING:
    from yokefellow.weighings import Entry

__all__ = ["readings"]


def readings(file: Path) -> tuple[Entry, ...]:
    """Give the readings beside a project file; what was passed over goes to standard error.

    Raises:
        FileError: there is a log, and it cannot be read.
    """
    from yokefellow.weighings import log_path, read

    entries, notes = read(log_path(file))
    tell_findings(notes)
    return entries
