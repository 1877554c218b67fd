"""Run the branches of the rooms by their own tests, those of `rooms.toml`: `make covered`."""

from __future__ import annotations

import subprocess
import sys

from tests.mutation.run import QUICK, ROOT, chosen

COVERED = ("notation", "charts", "rows", "yarn")
"""Rooms whose tests are their own; those of shaping are being moved to its face."""
LEAST = 97
"""Per cent of lines and branches together."""


def main(*rooms: str) -> int:
    return max(map(covered, rooms or COVERED))


def covered(room: str) -> int:
    """Print what the tests of a room leave out, and tell whether it is anything."""
    data = ROOT / "build" / "coverage" / room
    data.parent.mkdir(parents=True, exist_ok=True)
    file = f"--data-file={data}"
    source = f"--source=src/yokefellow/{room}"
    tests = ("-m", "pytest", "-q", "-p", "no:cacheprovider", "-p", "no:xdist", *chosen(room))
    return coverage("run", "--branch", file, source, *tests) or coverage(
        "report", file, "--show-missing", "--skip-covered", f"--fail-under={LEAST}"
    )


def coverage(*arguments: str) -> int:
    command = (sys.executable, "-m", "coverage", *arguments)
    return subprocess.run(command, cwd=ROOT, env=QUICK, check=False).returncode


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
