"""Kept sweaters, and the command that keeps what the program decides now.

`python -m tests.kept.keep` tells the counts of every kept sweater anew and
names those that changed. A count that changed is a decision: a knitter in the
middle of such a sweater would find another one on her sheet. It is told in the
commit, with the reason. To keep one more sweater, add a line that has a `name`
and a `project`, and run the command.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, TypeAlias

from tests.kept.telling import told

FOLDER = Path(__file__).parent / "sweaters"
"""A file for each kind of sweater, a line for each sweater."""

Kept: TypeAlias = Mapping[str, Any]
"""Its `name`; its `project`, without what no count hangs on; and what was `told` of it."""


def kept_sweaters() -> tuple[Kept, ...]:
    """Read every kept sweater."""
    return tuple(one for path in _files() for one in _read(path))


def main() -> None:
    for path in _files():
        old = tuple(_read(path))
        new = [{**one, "told": told(one["project"])} for one in old]
        for before, after in zip(old, new, strict=True):
            if before != after:
                print(f"{path.name}: {after['name']}")
        path.write_text("".join(map(_line, new)), encoding="utf-8")


def _files() -> list[Path]:
    return sorted(FOLDER.glob("*.jsonl"))


def _read(path: Path) -> Iterator[Kept]:
    for line in path.read_text(encoding="utf-8").splitlines():
        yield json.loads(line)


def _line(kept: Kept) -> str:
    return json.dumps(kept, ensure_ascii=False, separators=(",", ":")) + "\n"


if __name__ == "__main__":
    main()
