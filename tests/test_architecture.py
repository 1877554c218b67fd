"""The walls of the house: who knows whom, how long a file is, what a file may not say."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
LONGEST_FILE = 800
"""Lines that belong together; cutting a file to satisfy a count makes it worse."""

MACHINE = re.compile(
    r"(?<![\w.~])/(?:root|home/\w|Users/\w|work/|opt/(?!homebrew)|private/|mnt/)[\w./-]*"
    r"|\b[A-Z]:\\Users"
)
"""A path that is there on one machine only."""

REGISTRY = re.compile(
    r"index-url|find-links|\bpypi\.|pythonhosted|artifactory|devpi|registry\.npmjs"
    r"|https?://(?:10\.|192\.168\.)",
    re.IGNORECASE,
)
"""Where a package manager fetches from is each person's own affair."""


def tracked() -> Iterator[Path]:
    """Every file git knows, but this one, which has to name what it looks for."""
    listed = subprocess.run(
        ["git", "-c", "safe.directory=*", "ls-files", "-z"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    for name in filter(None, listed.stdout.split("\0")):
        path = ROOT / name
        if path.is_file() and path != Path(__file__):
            yield path


def test_the_rooms_know_only_the_rooms_before_them() -> None:
    pytest.importorskip("importlinter", reason="`make check` runs it; it is in the extra `check`")
    linter = shutil.which("lint-imports", path=str(Path(sys.executable).parent))
    assert linter, "import-linter is installed without its command"
    ended = subprocess.run([linter, "--no-cache"], cwd=ROOT, capture_output=True, text=True)
    assert ended.returncode == 0, ended.stdout


def test_every_file_fits_in_one_sitting() -> None:
    long = {
        path.relative_to(ROOT).as_posix(): lines
        for path in (ROOT / "src").rglob("*.py")
        if (lines := len(path.read_text("utf-8").splitlines())) > LONGEST_FILE
    }
    assert not long


def test_importing_the_package_costs_nothing() -> None:
    looked = "import sys; before = set(sys.modules); import yokefellow; "
    looked += "print(*sorted(set(sys.modules) - before))"
    ended = subprocess.run(
        [sys.executable, "-c", looked], capture_output=True, text=True, check=True
    )
    assert set(ended.stdout.split()) <= {"yokefellow", "__future__"}


@pytest.mark.skipif(not (ROOT / ".git").exists(), reason="only a checkout knows what is tracked")
@pytest.mark.parametrize(
    ("what", "pattern"), [("path", MACHINE), ("registry", REGISTRY)], ids=["path", "registry"]
)
def test_no_file_names_this_machine(what: str, pattern: re.Pattern[str]) -> None:
    found = []
    for path in tracked():
        try:
            text = path.read_text("utf-8")
        except UnicodeDecodeError:
            continue  # a picture
        for number, line in enumerate(text.splitlines(), start=1):
            if said := pattern.search(line):
                found.append(f"{path.relative_to(ROOT)}:{number}: {said[0]}")
    assert not found, f"a {what} of one machine"


def test_what_is_looked_for_would_be_found() -> None:
    assert MACHINE.search('"/home/anna/sweater.toml"')
    assert MACHINE.search("see /" + "root/x")
    assert not MACHINE.search("https://example.org/home/a or ~/.bashrc or /tmp/a or and/or")
    assert REGISTRY.search("pip install --index-url https://example.org")
