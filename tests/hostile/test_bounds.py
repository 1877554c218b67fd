"""The bounds themselves: what asks for more memory or time than there is, is stopped."""

from __future__ import annotations

import signal
import subprocess
import sys

import pytest

from tests.hostile.bounded import ROOT

SLOW = """
import sys, time, click
from tests.hostile import bounded
from yokefellow.cli import program
program.program = click.Command("slow", callback=lambda: time.sleep(60))
bounded.SECONDS = 1
sys.argv = ["bounded", "."]
bounded._main()
"""


def ran(script: str, typed: str = "") -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, input=typed, capture_output=True, text=True
    )


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux bounds the memory of a process")
@pytest.mark.parametrize(("share", "is_given"), [(0.5, True), (1, False)])
def test_no_more_memory_is_given(share: float, is_given: bool) -> None:
    asking = ran(
        "from tests.hostile.bounded import MEMORY, bound_memory\n"
        f"bound_memory(MEMORY)\nlen(bytearray(int(MEMORY * {share})))"
    )
    assert (asking.returncode == 0) == is_given, asking.stderr
    assert ("MemoryError" in asking.stderr) != is_given


def test_a_command_that_takes_too_long_ends_the_run() -> None:
    assert ran(SLOW, "[[]]").returncode == -signal.SIGALRM
