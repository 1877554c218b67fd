"""The log of weighings: added to, never rewritten; torn lines and strangers' lines do no harm."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from dataclasses import asdict, replace
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.files import FileError
from yokefellow.yarn.weighing_log import LARGEST_BYTES, Entry, add, log_path, read

ONE = Entry("2025-03-01T20:15:00", "MC", 212.0, "yoke", 60, note="after the bands")
TWO = Entry("2025-03-09T21:00:00+01:00", "CC1", 31.5, "sleeve", 12, "right")


def line(**changes: Any) -> str:
    return json.dumps({**asdict(ONE), **changes}) + "\n"


def test_the_log_stands_beside_its_project() -> None:
    assert log_path(Path("drawer/mine.toml")) == Path("drawer/mine.weighings.jsonl")


def test_what_is_added_is_read_in_its_order(tmp_path: Path) -> None:
    log = tmp_path / "mine.weighings.jsonl"
    assert read(log) == ((), ())
    for entry in (ONE, TWO):
        add(log, entry)
    assert read(log) == ((ONE, TWO), ())
    assert log.read_text().count("\n") == 2


def test_the_same_reading_twice_counts_once(tmp_path: Path) -> None:
    log = tmp_path / "log"
    for entry in (ONE, TWO, ONE):
        add(log, entry)
    assert read(log)[0] == (ONE, TWO)
    assert read(log) == read(log)


def test_a_line_torn_anywhere_loses_nothing_but_itself(tmp_path: Path) -> None:
    whole = (line() + line(grams=180.0)).encode()
    first = len(line().encode())
    for cut in range(first, len(whole)):
        log = tmp_path / f"log{cut}"
        log.write_bytes(whole[:cut])
        entries, notes = read(log)
        kept = cut in (first, len(whole) - 1)  # nothing of it, or all but the line's end
        assert entries[0] == ONE
        assert len(entries) == (2 if cut == len(whole) - 1 else 1)
        assert [note.code for note in notes] == ([] if kept else ["weighings.torn"])
        add(log, TWO)
        assert read(log)[0][-1] == TWO
        assert read(log)[0][0] == ONE


KILLED = """
import sys
from pathlib import Path
from yokefellow.yarn.weighing_log import Entry, add
for number in range(1, 100_000):
    add(Path(sys.argv[1]), Entry("2025-03-01", "MC", float(number % 900), "yoke", 1 + number % 99))
    print(number, flush=True)
"""


def test_a_killed_program_leaves_every_reading_it_told_of(tmp_path: Path) -> None:
    dice = Random(7)
    for run in range(6):
        log = tmp_path / f"log{run}"
        told = tmp_path / f"told{run}"
        with told.open("wb") as out:
            program = subprocess.Popen([sys.executable, "-c", KILLED, str(log)], stdout=out)
            while told.stat().st_size == 0:
                time.sleep(0.005)
            time.sleep(dice.uniform(0, 0.05))
            program.send_signal(signal.SIGKILL)
            program.wait()
        confirmed = int(told.read_text().rstrip("\n").rsplit("\n", 1)[-1] or 0)
        content = log.read_bytes()
        assert content.count(b"\n") >= confirmed > 0
        entries, notes = read(log)
        assert len(notes) <= 1
        add(log, TWO)
        assert read(log)[0] == (*entries, TWO)


@pytest.mark.parametrize(
    "hostile",
    [
        line(grams=float("nan")),
        line(grams=float("inf")),
        line(grams=-1),
        line(grams=10**300),
        line(grams=True),
        line(grams="212"),
        line(grams=None),
        line(row=0),
        line(row=1.5),
        line(row=True),
        line(row=10**9),
        line(section="pocket"),
        line(section=["yoke"]),
        line(copy="middle"),
        line(yarn="MC\n"),
        line(yarn="../MC"),
        line(time="yesterday"),
        line(time="2" * 900),
        line(note="\u202eevil"),
        line(note="\x1b[2J"),
        line(note="x" * 101),
        line(extra=1),
        line().replace('"grams"', '"gramm"'),
        "[" * 900 + "\n",
        "[]\n",
        "3\n",
        '"MC"\n',
        "null\n",
        "\ufeff" + line(),
        "\x00\n",
        "9" * 990 + "\n",
        line(note="a" * 90).replace("a" * 90, "b" * 2000),
    ],
)
def test_a_strangers_line_is_passed_over_and_told(tmp_path: Path, hostile: str) -> None:
    log = tmp_path / "log"
    log.write_text(line() + hostile + line(grams=180.0), "utf-8")
    entries, notes = read(log)
    assert entries == (ONE, replace(ONE, grams=180.0))
    assert [note.code for note in notes] == ["weighings.line"]
    assert notes[0].message.isprintable()


def test_bytes_that_are_no_text_are_passed_over(tmp_path: Path) -> None:
    log = tmp_path / "log"
    log.write_bytes(b"\xff\xfe\n" + line().encode())
    assert read(log)[0] == (ONE,)


@given(st.binary(max_size=400))
def test_any_bytes_are_read_or_passed_over(
    tmp_path_factory: pytest.TempPathFactory, content: bytes
) -> None:
    log = tmp_path_factory.getbasetemp() / "any.jsonl"
    log.write_bytes(line().encode() + content)
    entries, notes = read(log)
    assert entries[0] == ONE or notes


@pytest.mark.parametrize(
    "changes", [{"grams": float("nan")}, {"row": 0}, {"yarn": "wool"}, {"note": "a\nb"}]
)
def test_what_would_not_be_read_is_not_added(tmp_path: Path, changes: dict[str, Any]) -> None:
    log = tmp_path / "log"
    with pytest.raises(FileError) as refused:
        add(log, replace(ONE, **changes))
    assert refused.value.findings[0].code == "weighings.entry"
    assert not log.exists()


def test_no_link_no_pipe_no_folder_is_followed(tmp_path: Path) -> None:
    target, link = tmp_path / "target", tmp_path / "link"
    target.write_text("hers")
    link.symlink_to(target)
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    for path in (link, pipe, tmp_path):
        with pytest.raises(FileError) as refused:
            add(path, ONE)
        assert refused.value.findings[0].code == "weighings.not-written"
        with pytest.raises(FileError) as refused:
            read(path)
        assert refused.value.findings[0].code == "weighings.not-read"
    assert target.read_text() == "hers"


def test_a_log_that_is_too_large_is_neither_read_nor_added_to(tmp_path: Path) -> None:
    log = tmp_path / "log"
    log.write_bytes(b"\n" * (LARGEST_BYTES + 1))
    for use in (lambda: read(log), lambda: add(log, ONE)):
        with pytest.raises(FileError):
            use()
    assert log.stat().st_size == LARGEST_BYTES + 1


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileError) as refused:
        add(tmp_path / "nowhere" / "log", ONE)
    assert "not added" in refused.value.findings[0].message
