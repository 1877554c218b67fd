"""A short run of the fuzzing; `make fuzz` runs it as long as one likes, with other dice."""

from __future__ import annotations

import subprocess
import sys

from tests.hostile.bounded import ROOT

EXAMPLES = 40
"""Of each kind, always the same."""


def test_whatever_is_typed_is_read_or_refused_within_little_memory() -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "tests.hostile.fuzz", "--examples", str(EXAMPLES)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=600,
    )
    assert ran.returncode == 0, ran.stderr[-4000:]
