"""What a terminal can show."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from yokefellow.cli.findings import counted
from yokefellow.cli.terminal import as_argument, printable, width
from yokefellow.findings import Finding, Severity


def found(severity: Severity) -> Finding:
    return Finding("test", severity, "", "", "")


def test_what_can_be_shown_stays() -> None:
    assert printable("36–38½ → 毛", "utf-8") == "36–38½ → 毛"
    assert printable("½ – °", "latin-1") == "½ - °"


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252", "cp437", "utf-8", "", None])
def test_every_character_can_be_shown_somehow(encoding: str | None) -> None:
    every = "".join(map(chr, range(0x3000))) + "\ud800𝄞"
    printable(every, encoding).encode(encoding or "utf-8")


NAMES = (
    "mine.toml",
    "my own.toml",
    "it's",
    "a\nb",
    "a\x1b[31mb",
    "\u202eb",
    "\u202e\\'",
    '\x7f"$x',
)


@pytest.mark.parametrize("name", NAMES)
def test_a_file_can_be_typed_again_as_it_is_shown(name: str) -> None:
    shown = as_argument(Path(name))
    assert shown.isprintable()
    if (bash := shutil.which("bash")) is None:
        pytest.skip("there is no bash here")
    said = subprocess.run(
        [bash, "-c", f"LC_ALL=C.UTF-8; printf %s {shown}"], capture_output=True, text=True
    )
    assert said.stdout == name


def test_the_width_is_kept_within_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    for columns, used in (("5", 30), ("64", 64), ("400", 90)):
        monkeypatch.setenv("COLUMNS", columns)
        assert width() == used


def test_counts_in_words() -> None:
    error, caution, note = map(found, Severity)
    assert counted([note, caution, error, caution]) == "1 error, 2 cautions, 1 note"
    assert counted([]) == "nothing found"
