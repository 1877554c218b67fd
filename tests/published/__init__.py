"""Published numbers, each table transcribed once, with its source."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any


def published(name: str) -> dict[str, Any]:
    """Read one table by the name of its file."""
    path = Path(__file__).with_name(f"{name}.toml")
    return tomllib.loads(path.read_text(encoding="utf-8"))
