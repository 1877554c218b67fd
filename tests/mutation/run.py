"""Change the program in small ways and see whether the tests notice: `make mutants ROOM=notation`.

mutmut makes the mutants of one room in a copy of the tracked files under
`build/mutation/`, and tries each on the tests that `rooms.toml` names and that
reach the changed function. It does so in forks of a process that has imported
the program already; so what survives is tried again in a process of its own,
where what is worked out at the import, or once and for all, is worked out by
the mutant. What survives that is printed. The command fails when fewer than nine in ten are
noticed; that all are is no aim, since many a change makes no difference to a knitter.
"""

from __future__ import annotations

import json
import os
import resource
import shutil
import subprocess
import sys
import tomllib
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
SCRATCH = ROOT / "build" / "mutation"

CONFIG = """

[tool.mutmut]
source_paths = ["src"]
only_mutate = ["src/yokefellow/{room}/*"]
also_copy = {beside}
pytest_add_cli_args = ["-p", "no:cacheprovider", "-p", "no:xdist"]
pytest_add_cli_args_test_selection = {tests}
timeout_multiplier = 2.0
"""
"""mutmut ends a mutant after four times the processor time of its tests, and four seconds."""

BESIDE = ["templates", "sizing_tables", "examples", "README.md", "DEVELOPERS.md", "Makefile"]
"""What the tests read as it stands in the checkout."""

SHOW = """
import json, sys
from mutmut.mutation.diff_apply import get_diff_for_mutant
print(json.dumps({name: get_diff_for_mutant(name) for name in json.load(sys.stdin)}))
"""

QUICK = os.environ | {"YOKEFELLOW_QUICK": "1"}
"""Few examples for each law, and the same ones every time."""

LONGEST_SECONDS = 150
"""All tests of a room take a minute of processor time at the most: a mutant that needs so much
does not come back. A busy machine makes no mutant noticed."""
MOST_BYTES = 3 * 2**30
"""Nor does one that needs so much memory, ten times what the tests need."""

LEAST_NOTICED = 0.9
"""Of the mutants of a room (our choice)."""

SURVIVED: dict[int | None, str] = {0: "survived", 5: "no test", 33: "no test"}
TIMED_OUT: set[int | None] = {-24, 24, 36, 152, 255}
UNTRIED: set[int | None] = {None, 2, 34}


class Mutant(NamedTuple):
    """A change that no test noticed."""

    function: str
    change: str
    """The lines taken out and put in, without the others."""


def main(room: str, children: str = "2") -> int:
    folder = SCRATCH / room
    prepare(folder, room)
    subprocess.run(
        (sys.executable, "-m", "mutmut", "run", "--max-children", children),
        cwd=folder,
        check=False,
        env=QUICK,
        stdout=(folder / "mutmut.log").open("w"),
        stderr=subprocess.STDOUT,
    )
    codes = exit_codes(folder)
    if not codes:
        print((folder / "mutmut.log").read_text()[-3000:])
        return 1
    codes = alone(folder, room, codes)
    return told(room, codes, survivors(folder, codes))


def prepare(folder: Path, room: str) -> None:
    """Copy the tracked files beside what an earlier run left to go on from."""
    tracked = subprocess.run(
        ("git", "ls-files", "-z"), cwd=ROOT, check=True, capture_output=True, text=True
    ).stdout
    for name in filter(None, tracked.split("\0")):
        if not (ROOT / name).is_file():
            continue
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(ROOT / name, target)
    tests = json.dumps(chosen(room))
    config = CONFIG.format(room=room, beside=json.dumps(BESIDE), tests=tests)
    with (folder / "pyproject.toml").open("a") as file:
        file.write(config)


def chosen(room: str) -> list[str]:
    """Give the tests that try the mutants of a room."""
    tests: list[str] = tomllib.loads((HERE / "rooms.toml").read_text())[room]["tests"]
    return tests


def exit_codes(folder: Path) -> dict[str, int | None]:
    """Read what mutmut wrote of each mutant."""
    found: dict[str, int | None] = {}
    for file in sorted((folder / "mutants" / "src").rglob("*.py.meta")):
        found |= json.loads(file.read_text())["exit_code_by_key"]
    return found


def alone(folder: Path, room: str, codes: Mapping[str, int | None]) -> dict[str, int | None]:
    """Try what survived once more, each mutant in a process of its own on all tests of the room.

    So is what took too long, which on a busy machine may be anything.
    """
    alive = [name for name, code in codes.items() if code in SURVIVED or code in TIMED_OUT]
    # Without a mutant the tests must pass, or they would notice everything.
    if alive and (failed := exit_code_alone(folder, room, "")):
        raise SystemExit(f"the tests of {room} fail without a mutant ({failed})")
    found = {name: int(exit_code_alone(folder, room, name) != 0) for name in alive}
    for file in (folder / "mutants" / "src").rglob("*.py.meta"):
        written = json.loads(file.read_text())
        mutants = written["exit_code_by_key"]
        mutants |= {name: found[name] for name in mutants.keys() & found.keys()}
        file.write_text(json.dumps(written))
    return exit_codes(folder)


def exit_code_alone(folder: Path, room: str, mutant: str) -> int:
    inside = (folder / "mutants").resolve()
    named = {"MUTANT_UNDER_TEST": mutant, "PYTHONPATH": str(inside / "src")}
    command = (sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider")
    return subprocess.run(
        (*command, "-p", "no:xdist", *chosen(room)),
        cwd=inside,
        env=QUICK | named,
        check=False,
        capture_output=True,
        preexec_fn=_within_bounds,
    ).returncode


def _within_bounds() -> None:
    resource.setrlimit(resource.RLIMIT_CPU, (LONGEST_SECONDS, LONGEST_SECONDS))
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))


def survivors(folder: Path, codes: Mapping[str, int | None]) -> list[Mutant]:
    """Show every change that no test noticed."""
    names = [name for name, code in codes.items() if code in SURVIVED]
    shown = subprocess.run(
        (sys.executable, "-c", SHOW),
        cwd=folder,
        input=json.dumps(names),
        check=True,
        capture_output=True,
        text=True,
    )
    diffs = json.loads(shown.stdout.splitlines()[-1])
    return sorted(Mutant(function(name), change(diff)) for name, diff in diffs.items())


def function(mutant: str) -> str:
    """Name the changed function: `yokefellow.notation.write.x_words__mutmut_3` in words."""
    return mutant.removeprefix("yokefellow.").rpartition("__mutmut_")[0]


def change(diff: str) -> str:
    """Keep the lines that differ."""
    kept = [line for line in diff.splitlines()[2:] if line.startswith(("-", "+"))]
    return "\n".join(line[0] + " " + line[1:].strip() for line in kept)


def told(room: str, codes: Mapping[str, int | None], alive: list[Mutant]) -> int:
    """Print what no test noticed, and the figures; fail below the share that must be noticed."""
    for mutant in alive:
        print(f"\n{mutant.function}\n{mutant.change}")
    tried = Counter(SURVIVED.get(code, "noticed") for code in codes.values() if code not in UNTRIED)
    total = tried.total()
    share = tried["noticed"] / max(1, total)
    print(
        f"\n{room}: {total} mutants, {tried['noticed']} noticed ({share:.1%}), "
        f"{len(alive)} alive; {len(codes) - total} not tried"
    )
    return int(share < LEAST_NOTICED)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
