"""Running the command line: inside this process, or for real in one of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

from click.testing import CliRunner, Result

from yokefellow.cli.program import program

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "little-harbour.toml"
YOKEFELLOW = (sys.executable, "-m", "yokefellow")

REFUSED, WRONG_USAGE, FAULT, STOPPED, UNREAD = 1, 2, 70, 130, 141
"""The exit statuses promised to a shell."""


def run(*words: str | Path, typed: str = "") -> Result:
    return CliRunner().invoke(program, [str(word) for word in words], input=typed)


def alone(
    *words: str | Path, cwd: Path, typed: str = "", **environment: str
) -> subprocess.CompletedProcess[bytes]:
    """A real run; the environment is this one's with changes."""
    return subprocess.run(
        [*YOKEFELLOW, *map(str, words)],
        cwd=cwd,
        input=typed.encode(),
        capture_output=True,
        env=surroundings(environment),
        check=False,
    )


def surroundings(changes: Mapping[str, str]) -> dict[str, str]:
    plain = {
        name: value
        for name, value in os.environ.items()
        if name not in {"NO_COLOR", "COLUMNS", "TERM", "YOKEFELLOW_DEBUG", "PYTHONIOENCODING"}
    }
    return {**plain, "PYTHONPATH": "", **changes}


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def one_line(text: str) -> str:
    """The text with its wrapping taken out."""
    return " ".join(text.split())
