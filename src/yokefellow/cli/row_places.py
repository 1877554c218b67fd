"""Where the knitting stands, as a knitter types it: `yoke 58`, `left sleeve 30`, `body`."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, NoReturn

import click

from yokefellow.cli.findings import tell_findings
from yokefellow.words import words

if TYPE_CHECKING:
    from yokefellow.rows.model import Schedule
    from yokefellow.yarn.weighing_log import Entry

_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "neckband": "neckband",
        "cast on": "cast_on",
        "front": "front",
        "back neck": "back_neck",
        "yoke": "yoke",
        "split": "split",
        "body": "body",
        "hem": "hem",
        "sleeve": "sleeve",
        "sleeves": "sleeve",
        "cuff": "cuff",
        "cuffs": "cuff",
    }
)
_SIDES = ("right", "left")


def read_place(typed: str, schedule: Schedule, *, option: str = "--after") -> tuple[str, int, str]:
    """Read the last finished row: section, row, and side of a sleeve.

    Without a row the whole section is finished. A sleeve and its cuff need a side:
    the other one is not counted with it.

    Raises:
        click.BadParameter: the sweater has no such row.
    """
    given = re.findall(r"[a-z]+|\d+", typed.lower().replace("_", " "))
    side = next((word for word in given if word in _SIDES), "")
    numbers = [int(word) for word in given if word.isdigit()]
    fillers = {*_SIDES, "round", "rnd", "row", "the", "of"}
    name = " ".join(word for word in given if not word.isdigit() and word not in fillers)
    section = next((s for s in schedule.sections if s.key == _WORDS.get(name)), None)
    if section is None or len(numbers) > 1:
        keys = {section.key: len(section.rows) for section in schedule.sections}
        _refuse("no_section", typed, option, yoke=keys["yoke"], body=keys["body"] // 2)
    rows = len(section.rows)
    row = numbers[0] if numbers else rows
    if not 1 <= row <= rows:
        _refuse("no_row", typed, option, section=name, rows=rows)
    if side and side not in section.copies:
        _refuse("no_side", typed, option, section=name, side=side)
    if not side and len(section.copies) > 1:
        _refuse("which_side", typed, option, section=name, row=row)
    return section.key, row, side


def _refuse(sentence: str, typed: str, option: str, **values: object) -> NoReturn:
    message = getattr(words("commands"), sentence)(typed=repr(typed), **values)
    raise click.BadParameter(message, param_hint=option)


def place_words(section: str, row: int, side: str = "") -> str:
    """Tell a row.

    >>> place_words("sleeve", 20, "right")
    'round 20 of the right sleeve'
    """
    return words("commands").place_of_the_row(
        section=section.replace("_", " "),
        row=row,
        side=side,
        is_flat=section in ("back_neck", "front"),
    )


def readings(file: Path) -> tuple[Entry, ...]:
    """Give the readings beside a project file; what was passed over goes to standard error.

    Raises:
        FileError: there is a log, and it cannot be read.
    """
    from yokefellow.yarn.weighing_log import log_path, read

    entries, notes = read(log_path(file))
    tell_findings(notes)
    return entries
