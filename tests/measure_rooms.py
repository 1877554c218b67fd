"""Count the code by room: `python -m tests.measure_rooms`, or of another commit: `... REVISION`.

A line of code is one that is neither empty, nor a comment, nor part of a docstring. A one-use
helper is a private function that its file names once beside its definition.
"""

from __future__ import annotations

import ast
import io
import subprocess
import sys
import tarfile
import tokenize
from collections import Counter
from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = PurePosixPath("src/yokefellow")


class Room(NamedTuple):
    """What one folder, or one file at the top, comes to."""

    files: int
    lines: int
    functions: int
    one_use: int
    """Private functions used once."""
    longest: int
    """Lines of its longest file, all of them counted."""


def sources(revision: str | None) -> dict[PurePosixPath, str]:
    """Read the program's files, as they stand or at a commit."""
    if revision is None:
        files = (ROOT / PACKAGE).rglob("*.py")
        return {PurePosixPath(f.relative_to(ROOT).as_posix()): f.read_text("utf-8") for f in files}
    archive = subprocess.run(
        ["git", "archive", revision, PACKAGE.as_posix()], cwd=ROOT, check=True, capture_output=True
    )
    with tarfile.open(fileobj=io.BytesIO(archive.stdout)) as opened:
        return {
            PurePosixPath(member.name): file.read().decode()
            for member in opened
            if member.name.endswith(".py") and (file := opened.extractfile(member))
        }


def lines_of_code(text: str) -> int:
    """Count the lines that hold code.

    >>> lines_of_code('"What it is."' + chr(10) * 2 + "x = 1  # one" + chr(10) + "# none" + chr(10))
    1
    """
    docs = {
        line
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Expr)
        and isinstance(node.value, ast.Constant)
        and isinstance(node.value.value, str)
        for line in range(node.lineno, (node.end_lineno or node.lineno) + 1)
    }
    beside = {
        tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT,
        tokenize.ENCODING, tokenize.ENDMARKER,
    }  # fmt: skip
    code = {
        line
        for token in tokenize.generate_tokens(io.StringIO(text).readline)
        if token.type not in beside
        for line in range(token.start[0], token.end[0] + 1)
    }
    return len(code - docs)


def measured(files: Mapping[PurePosixPath, str]) -> dict[str, Room]:
    """Measure every room, in the order of the alphabet."""
    trees = {path: ast.parse(text) for path, text in files.items()}
    rooms: dict[str, Room] = {}
    for path, tree in sorted(trees.items()):
        inside = path.relative_to(PACKAGE)
        name = inside.parts[0].removesuffix(".py")
        before = rooms.get(name, Room(0, 0, 0, 0, 0))
        used = Counter(
            node.id if isinstance(node, ast.Name) else node.attr
            for node in ast.walk(tree)
            if isinstance(node, (ast.Name, ast.Attribute))
        )
        functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]
        private = [one for one in functions if one.name.startswith("_") and one.name[-1] != "_"]
        rooms[name] = Room(
            before.files + 1,
            before.lines + lines_of_code(files[path]),
            before.functions + len(functions),
            before.one_use + sum(used[one.name] == 1 for one in private),
            max(before.longest, len(files[path].splitlines())),
        )
    return rooms


def main(revision: str | None = None) -> None:
    """Print a line for each room, and the whole."""
    rooms = measured(sources(revision))
    files, lines, functions, one_use, longest = zip(*rooms.values(), strict=True)
    whole = Room(sum(files), sum(lines), sum(functions), sum(one_use), max(longest))
    print(f"{'room':<16}{'files':>6}{'lines':>8}{'functions':>11}{'one-use':>9}{'longest':>9}")
    for name, room in {**rooms, "all": whole}.items():
        share = room.one_use / max(1, room.functions)
        print(
            f"{name:<16}{room.files:>6}{room.lines:>8}{room.functions:>11}"
            f"{share:>8.0%} {room.longest:>8}"
        )


if __name__ == "__main__":
    main(*sys.argv[1:])
