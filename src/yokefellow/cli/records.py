"""Data for other programs: one JSON document on standard output."""

from __future__ import annotations

import json
from typing import Any

__all__ = ["document"]


def document(content: dict[str, Any]) -> str:
    """Give a JSON document; ASCII, so that any terminal and pipe can carry it."""
    return json.dumps({"edition": 1, **content}, indent=2, ensure_ascii=True)
