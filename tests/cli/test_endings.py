"""How a run ends: the status for the shell, and never a traceback."""

from __future__ import annotations

import contextlib
import os
import pty
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.running import (
    EXAMPLE,
    FAULT,
    REFUSED,
    STOPPED,
    UNREAD,
    YOKEFELLOW,
    alone,
    names,
    one_line,
    run,
    surroundings,
)


@pytest.fixture
def broken(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(_: object) -> None:
        raise RuntimeError("the loom\nsnapped")

    monkeypatch.setattr("yokefellow.plan.plan", fails)
    monkeypatch.delenv("YOKEFELLOW_DEBUG", raising=False)


@pytest.mark.usefixtures("broken")
def test_a_fault_of_the_program_is_one_sentence() -> None:
    result = run("check", EXAMPLE)
    assert result.exit_code == FAULT
    assert "Traceback" not in result.output
    said = one_line(result.stderr)
    assert "RuntimeError: the loom snapped" in said
    assert "YOKEFELLOW_DEBUG=1" in said


@pytest.mark.usefixtures("broken")
def test_a_fault_shows_its_place_when_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("YOKEFELLOW_DEBUG", "1")
    result = run("check", EXAMPLE)
    assert result.exit_code == FAULT
    assert "Traceback" in result.stderr


def test_a_reader_that_goes_away_is_no_news(tmp_path: Path) -> None:
    read, write = os.pipe()
    os.close(read)
    with os.fdopen(write, "wb") as gone:
        ended = subprocess.run(
            [*YOKEFELLOW, "sizes", "women"],
            cwd=tmp_path,
            stdout=gone,
            stderr=subprocess.PIPE,
            env=surroundings({}),
            check=False,
        )
    assert ended.returncode == UNREAD
    assert ended.stderr == b""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a full disk at hand")
@pytest.mark.parametrize("words", [("sizes", "women"), ("--help",)])
def test_a_full_disk_is_told(tmp_path: Path, words: tuple[str, ...]) -> None:
    with Path("/dev/full").open("wb") as full:
        ended = subprocess.run(
            [*YOKEFELLOW, *words],
            cwd=tmp_path,
            stdout=full,
            stderr=subprocess.PIPE,
            env=surroundings({}),
            check=False,
        )
    assert ended.returncode == REFUSED
    assert b"cannot be written" in ended.stderr
    assert b"Traceback" not in ended.stderr


HEARS_CTRL_C = (
    "import signal; signal.signal(signal.SIGINT, signal.default_int_handler)\n"
    "from yokefellow.cli import main; main()"
)
"""A process started in the background by a shell without job control hears no Ctrl-C."""


def test_ctrl_c_is_one_line(tmp_path: Path) -> None:
    with subprocess.Popen(
        [sys.executable, "-c", HEARS_CTRL_C, "begin", "mine.toml", "--ask"],
        cwd=tmp_path,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=surroundings({}),
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        asked = b""
        while b"inches" not in asked:
            letter = running.stdout.read(1)
            assert letter, "it ended before the first question"
            asked += letter
        while running.poll() is None:
            # Once more if it came in the moment before Python began to wait for an answer.
            running.send_signal(signal.SIGINT)
            with contextlib.suppress(subprocess.TimeoutExpired):
                running.wait(2)
        said = running.stderr.read()
    assert running.returncode == STOPPED
    assert said.split(b"\n") == [b"", b"Stopped; no file is left half written.", b""]
    assert names(tmp_path) == []


@pytest.mark.parametrize(
    "surrounding",
    [
        {"PYTHONIOENCODING": "ascii"},
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
        {"PYTHONIOENCODING": "latin-1"},
    ],
)
def test_a_terminal_without_utf_8_gets_what_stands_nearest(
    tmp_path: Path, surrounding: dict[str, str]
) -> None:
    shown = alone("sizes", "women", "--unit", "in", cwd=tmp_path, **surrounding)
    assert shown.returncode == 0, shown.stderr
    assert b"36-38" in shown.stdout
    refused = alone("check", "no ½ file 毛糸.toml", cwd=tmp_path, **surrounding)
    assert refused.returncode == REFUSED
    assert b"Traceback" not in refused.stderr


def at_a_terminal(cwd: Path, **environment: str) -> str:
    """What standard error shows when it is a terminal."""
    ours, theirs = pty.openpty()
    try:
        subprocess.run(
            [*YOKEFELLOW, "check", "none.toml"],
            cwd=cwd,
            stderr=theirs,
            env=surroundings({"TERM": "xterm", **environment}),
            check=False,
        )
        return os.read(ours, 10_000).decode()
    finally:
        os.close(theirs)
        os.close(ours)


def test_colour_only_at_a_terminal_that_wants_it(tmp_path: Path) -> None:
    assert "\x1b[" in at_a_terminal(tmp_path)
    assert "\x1b[" not in at_a_terminal(tmp_path, NO_COLOR="1")
    assert "\x1b[" not in at_a_terminal(tmp_path, TERM="dumb")
    assert b"\x1b[" not in alone("check", "none.toml", cwd=tmp_path, TERM="xterm").stderr


# derived: the width given, and most of it used
def test_findings_are_wrapped_at_the_width_of_the_terminal(tmp_path: Path) -> None:
    shown = alone("check", str(EXAMPLE), cwd=tmp_path, COLUMNS="44").stdout.decode()
    assert 34 < max(map(len, shown.splitlines())) <= 44
