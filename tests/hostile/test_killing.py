"""Killed at any moment, the program leaves the old file or the new one, whole."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from random import Random

import pytest

from tests.cli.running import YOKEFELLOW, alone, surroundings
from tests.hostile.bounded import ROOT
from tests.hostile.killing import age_strays
from tests.project_file.sample import SOUND
from yokefellow.files import replace

SEED = int(os.environ.get("YOKEFELLOW_SEED", "20"))
"""Printed when a test fails; `make hostile` takes another every time."""


def test_killed_at_random_and_at_every_line_it_leaves_whole_files(tmp_path: Path) -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "tests.hostile.killing", str(tmp_path), str(SEED)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=300,
    )
    print(ran.stdout)
    assert ran.returncode == 0, ran.stderr[-3000:]
    # Each of its parts came to its end and said so.
    said = [line.partition(":")[0] for line in ran.stdout.splitlines() if not line.startswith("W")]
    assert said == [f"seed {SEED}", "sheet", "large", "files", "log", "begin", "sheet"]


def test_a_run_from_the_shell_is_killed_and_the_old_sheet_stands(tmp_path: Path) -> None:
    dice = Random(SEED)
    (tmp_path / "mine.toml").write_text(SOUND)
    words = ("sheet", "mine.toml", "--as", "text")
    began = time.monotonic()
    assert alone(*words, cwd=tmp_path).returncode == 0
    takes = time.monotonic() - began
    whole = (tmp_path / "mine.txt").read_bytes()
    for _ in range(3):
        program = subprocess.Popen(
            [*YOKEFELLOW, *words],
            cwd=tmp_path,
            env=surroundings({}),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        time.sleep(dice.uniform(0.5, 1) * takes)
        program.send_signal(signal.SIGKILL)
        program.wait()
        assert (tmp_path / "mine.txt").read_bytes() == whole


def test_two_that_begin_the_same_file_at_once(tmp_path: Path) -> None:
    programs = [
        subprocess.Popen(
            [*YOKEFELLOW, "begin", "mine.toml", "--size", size],
            cwd=tmp_path,
            env=surroundings({}),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
        )
        for size in ("S", "L")
    ]
    told = [program.communicate()[1] for program in programs]
    assert sorted(program.returncode for program in programs) == [0, 1]
    winner = ("S", "L")[[program.returncode for program in programs].index(0)]
    assert f'size = "{winner}"' in (tmp_path / "mine.toml").read_text()
    assert "it already exists, and is left as it was" in " ".join("".join(told).split())
    assert [path.name for path in tmp_path.iterdir()] == ["mine.toml"]


STRAY = ".mine.pdf.0123456789ab"


def test_what_another_run_may_still_write_is_left(tmp_path: Path) -> None:
    (tmp_path / STRAY).write_text("half a she")
    replace(tmp_path / "mine.pdf", "whole")
    assert (tmp_path / STRAY).exists()


def test_the_next_run_takes_away_what_a_killed_one_left(tmp_path: Path) -> None:
    (tmp_path / STRAY).write_text("half a she")
    age_strays(tmp_path)
    (tmp_path / ".mine.pdf.notours").write_text("kept")
    (tmp_path / ".yours.pdf.0123456789ab").write_text("kept")
    replace(tmp_path / "mine.pdf", "whole")
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        ".mine.pdf.notours",
        ".yours.pdf.0123456789ab",
        "mine.pdf",
    ]


@pytest.mark.parametrize("kind", ["link", "pipe", "folder"])
def test_what_only_has_the_name_of_a_stray_does_no_harm(tmp_path: Path, kind: str) -> None:
    (tmp_path / "precious").write_text("kept")
    if kind == "link":
        (tmp_path / STRAY).symlink_to("precious")
    elif kind == "pipe":
        os.mkfifo(tmp_path / STRAY)
    else:
        (tmp_path / STRAY).mkdir()
    replace(tmp_path / "mine.pdf", "whole")
    assert (tmp_path / "mine.pdf").read_text() == "whole"
    assert (tmp_path / "precious").read_text() == "kept"
