"""`make fuzz`: guided by coverage where that can be, at random where it cannot.

`python -m tests.hostile.fuzzing SECONDS FOLDER [TARGET …]` shares the time out among the
targets and says of each how far into the program it came. Files that led somewhere new stay in
the folder, and the next run goes on from them. With `--runs N` for the seconds it tries N files
of each target (a hundred times as many rows) from the seeds alone, with the same dice every time.
"""

from __future__ import annotations

import os
import platform
import re
import shutil
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

from tests.hostile.bounded import ROOT

__all__ = ["APART", "NAMES", "Growth", "growth", "guided", "of_fault", "why_not"]

NAMES = ("project", "chart", "row")
APART = ("sh", "-c", '"$@"; exit $?', "sh")
"""Begins a process with a small one between: libFuzzer goes by the most that a process ever held,
and Linux counts what held it at its start, too."""
SHORT = {"row": 100}
"""How many files of a target are tried for one of the others, where they are far shorter."""

_AT = re.compile(r"^#\d+\s+(INITED|DONE)\s+cov: (\d+) ft: (\d+) corp: (\d+)", re.M)
_RAN = re.compile(r"^Done (\d+) runs in (\d+) second", re.M)


@dataclass(frozen=True, slots=True)
class Growth:
    """How far one target came: edges of the program, features (edges and how often each was
    taken), and files that are worth keeping; at its start and at its end."""

    edges: tuple[int, int]
    features: tuple[int, int]
    files: tuple[int, int]
    runs: int
    seconds: int

    def __str__(self) -> str:
        shown = zip(
            ("edges", "features", "files"), (self.edges, self.features, self.files), strict=True
        )
        grown = ", ".join(f"{what} {start:,} → {end:,}" for what, (start, end) in shown)
        return f"{grown}; {self.runs:,} runs in {self.seconds} s"


def growth(log: str) -> Growth | None:
    """Read libFuzzer's own account; None where it did not come to its end."""
    at = {word: tuple(map(int, numbers)) for word, *numbers in _AT.findall(log)}
    ran = _RAN.search(log)
    if ran is None or set(at) != {"INITED", "DONE"}:
        return None
    edges, features, files = zip(at["INITED"], at["DONE"], strict=True)
    return Growth(edges, features, files, int(ran[1]), int(ran[2]))


def why_not() -> str:
    """Say why the fuzzing cannot be guided here; empty where it can."""
    if find_spec("atheris") is not None:
        return ""
    here = f"Python {platform.python_version()} on {platform.system()} {platform.machine()}"
    return (
        f"atheris is not installed for {here}: it is made for Linux on x86-64, Python 3.11 to "
        "3.13. So the typing is at random, by hypothesis."
    )


def guided(name: str, folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """Run one target in a process of its own; what it says is kept in the folder, too."""
    ran = subprocess.run(
        [*APART, sys.executable, "-m", "tests.hostile.guided", name, str(folder), *words],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        errors="replace",
        # The order of a set would change from run to run, and with it what is counted as new.
        env={**os.environ, "PYTHONHASHSEED": "0"},
    )
    (folder / "log").write_text(ran.stdout)
    return ran


def _guided_all(names: Sequence[str], folder: Path, limits: Sequence[Sequence[str]]) -> bool:
    """Run the targets in turn; tell whether none of them found a fault."""
    sound = True
    for name, words in zip(names, limits, strict=True):
        ran = guided(name, folder / name, *words)
        grown = growth(ran.stdout)
        print(f"{name}: {grown or 'stopped by a fault'}", flush=True)
        if ran.returncode or grown is None:
            sound = False
            print(of_fault(name, folder / name, ran.stdout), flush=True)
    return sound


def of_fault(name: str, folder: Path, log: str) -> str:
    """Show what a run ended with, from where it went wrong, and how to have it again."""
    starts = (log.find(mark) for mark in ("=== Uncaught Python exception", "ERROR: libFuzzer"))
    told = log[min((at for at in starts if at >= 0), default=-3000) :]
    files = sorted((folder / "faults").iterdir(), key=lambda path: path.stat().st_mtime)
    file = files[-1] if files else None
    again = f"python -m tests.hostile.guided {name} {folder} {file or 'FILE'}"
    held = file.read_text(errors="backslashreplace")[:6000] if file else "(none was kept)"
    return f"{told[:6000]}\nTry it again: {again}\nThe file:\n{held}"


def main(words: Sequence[str]) -> int:
    """Type for some seconds, or so many files; give the status to end with."""
    *limit, amount, place = words[: 3 if words[0] == "--runs" else 2]
    names = words[len(limit) + 2 :] or NAMES
    folder = Path(place).absolute()
    reason = why_not()
    if reason:
        print(reason, flush=True)
        instead = ["--examples", amount] if limit else [amount]
        return subprocess.run(
            [sys.executable, "-m", "tests.hostile.fuzz", *instead], cwd=ROOT
        ).returncode
    if not limit:
        share = f"-max_total_time={int(amount) // len(names)}"
        return 0 if _guided_all(names, folder, [[share]] * len(names)) else 1
    folder /= "same"
    shutil.rmtree(folder, ignore_errors=True)
    runs = [int(amount) * SHORT.get(name, 1) for name in names]
    return 0 if _guided_all(names, folder, [[f"-runs={n}", "-seed=1"] for n in runs]) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
