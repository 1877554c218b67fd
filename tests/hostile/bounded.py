"""Runs commands in one process of little memory, each against a clock.

Called as a program it reads a list of commands from its input and writes what
each of them said; a command that takes too long ends the whole run.
"""

from __future__ import annotations

import json
import os
import resource
import signal
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

MEMORY = 512 * 2**20
"""In bytes, all that the process may ask for; a plain run asks for less than half of it."""

SECONDS = 20
"""For one command, on a machine that does much else; alone none takes a second."""


@dataclass(frozen=True)
class Said:
    status: int
    out: str
    err: str


def bounded(commands: Sequence[Sequence[str]], *, cwd: Path) -> list[Said]:
    """Run the commands one after another within the bounds."""
    ran = subprocess.run(
        [sys.executable, "-m", "tests.hostile.bounded", str(cwd)],
        input=json.dumps(commands),
        capture_output=True,
        text=True,
        cwd=ROOT,
        env={**os.environ, "COLUMNS": "80"},
        timeout=SECONDS * len(commands) + 60,
    )
    told = [Said(**json.loads(line)) for line in ran.stdout.splitlines()]
    if len(told) < len(commands):
        stopped = commands[len(told)]
        raise AssertionError(f"{stopped} ended the run ({ran.returncode}): {ran.stderr[-2000:]}")
    return told


def bound_memory(most: int) -> None:
    """Let this process ask for no more; macOS knows no such bound."""
    if sys.platform == "linux":
        resource.setrlimit(resource.RLIMIT_AS, (most, most))


def _main() -> None:
    from click.testing import CliRunner

    from yokefellow.cli.program import program

    os.chdir(sys.argv[1])
    bound_memory(MEMORY)
    for words in json.load(sys.stdin):
        signal.alarm(SECONDS)
        ran = CliRunner().invoke(program, words)
        signal.alarm(0)
        told = {"status": ran.exit_code, "out": ran.stdout, "err": ran.stderr}
        sys.stdout.write(json.dumps(told) + "\n")
        sys.stdout.flush()


if __name__ == "__main__":
    _main()
