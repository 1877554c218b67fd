"""From the text of a file to its tables."""

from __future__ import annotations

import tomllib
from typing import Any

from yokefellow.findings import ProjectError
from yokefellow.project.slips import slips
from yokefellow.project.texts import refuse

__all__ = ["tables_of"]


def tables_of(text: str) -> dict[str, Any]:
    """Read TOML.

    Raises:
        ProjectError: it is none; says what looks wrong, and where.
    """
    plain = text.removeprefix("\ufeff")
    try:
        return tomllib.loads(plain)
    except RecursionError:
        refuse(
            "file.nested",
            "Lists or tables stand inside each other more deeply than can be read.",
            "Check the square brackets and the braces.",
        )
    except ValueError as problem:  # TOMLDecodeError, and a number with thousands of digits
        raise ProjectError(slips(plain, problem)) from None
