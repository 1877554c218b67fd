"""Where the knitting stands, as a knitter types it: `yoke 58`, `left sleeve 30`, `body`."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, NoReturn

import click

from yokefellow.cli.findings import tell_findings

if TYPE_CHECKING:
    from yokefellow.rows.model import Schedule

if TYPE_CHECKING:
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
    words = re.findall(r"[a-z]+|\d+", typed.lower().replace("_", " "))
    side = next((word for word in words if word in _SIDES), "")
    numbers = [int(word) for word in words if word.isdigit()]
    fillers = {*_SIDES, "round", "rnd", "row", "the", "of"}
    name = " ".join(word for word in words if not word.isdigit() and word not in fillers)
    section = next((s for s in schedule.sections if s.key == _WORDS.get(name)), None)
    if section is None or len(numbers) > 1:
        _refuse(typed, f"name a section and a row of it, such as {_examples(schedule)}", option)
    rows = len(section.rows)
    row = numbers[0] if numbers else rows
    if not 1 <= row <= rows:
        _refuse(typed, f"the section {name} has rows 1 to {rows}", option)
    if side and side not in section.copies:
        _refuse(typed, f"the section {name} has no {side} side", option)
    if not side and len(section.copies) > 1:
        _refuse(typed, f"say which one, such as right {name} {row}", option)
    return section.key, row, side


def _refuse(typed: str, why: str, option: str) -> NoReturn:
    raise click.BadParameter(f"{typed!r} cannot be read: {why}.", param_hint=option)


def _examples(schedule: Schedule) -> str:
    keys = {section.key: len(section.rows) for section in schedule.sections}
    return f"'yoke {keys['yoke']}', 'body {keys['body'] // 2}' or 'right sleeve 20'"


def place_words(section: str, row: int, side: str = "") -> str:
    """Tell a row.

    >>> place_words("sleeve", 20, "right")
    'round 20 of the right sleeve'
    """
    kind = "row" if section in ("back_neck", "front") else "round"
    name = " ".join(word for word in (side, section.replace("_", " ")) if word)
    return f"{kind} {row} of the {name}"


def readings(file: Path) -> tuple[Entry, ...]:
    """Give the readings beside a project file; what was passed over goes to standard error.

    Raises:
        FileError: there is a log, and it cannot be read.
    """
    from yokefellow.yarn.weighing_log import log_path, read

    entries, notes = read(log_path(file))
    tell_findings(notes)
    return entries
