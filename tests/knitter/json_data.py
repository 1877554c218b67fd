"""The sheet as data for other programs."""

from __future__ import annotations

import json
from typing import Any

from tests.knitter.printed import Line, Part
from tests.knitter.sheets import Sheet

__all__ = ["read_json"]


def read_json(document: str) -> Sheet:
    """Read a finished document."""
    data = json.loads(document)
    return Sheet(
        title=data["title"],
        measures={
            each["place"]: (each["shown"]["finished"], each["shown"]["counted"])
            for each in data["dimensions"]
        },
        yarns=tuple(yarn["name"] for yarn in data["yarns"]),
        spends=tuple(section["yarn"] for section in data["sections"]),
        parts=tuple(map(_part, data["sections"])),
    )


def _part(section: dict[str, Any]) -> Part:
    lines = tuple(
        Line(item["first"], item["last"], item["kind"], item["what"], item["count"], item["yarn"])
        for item in section["items"]
        if item["is"] == "line"
    )
    return Part(section["title"], section["start"], lines, tuple(section["copies"]))
