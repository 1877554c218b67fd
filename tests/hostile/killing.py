"""Kills the program while it writes, many times, and looks at what is left.

A program of its own, because it forks: the child has everything loaded, so
that most of its short life is the writing. Prints what it did; fails loudly.
"""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from random import Random
from types import FrameType
from typing import Any

from tests.cli.running import names
from tests.project_file.sample import spoil
from yokefellow import files
from yokefellow.cli.program import program
from yokefellow.files import STALE_AFTER_S, FileError, replace, write_new
from yokefellow.yarn import weighing_log as weighings
from yokefellow.yarn.weighing_log import Entry, add, read

FORMS = {"html": "mine.html", "text": "mine.txt", "json": "mine.json"}
FINISHED = 0


def forked(work: Callable[[], object]) -> int:
    """Start a child that does the work and ends."""
    child = os.fork()
    if child == 0:
        try:
            work()
        except BaseException as fault:  # noqa: BLE001 -- a child must never go on as its parent
            os.write(2, f"{type(fault).__name__}: {fault}\n".encode())
            os._exit(70)
        os._exit(FINISHED)
    return child


def ended(child: int) -> int:
    """Wait for a child; give its status, below 0 when it was killed."""
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def killed_after(seconds: float, work: Callable[[], object]) -> bool:
    """Kill a child that does the work after so long; tell whether it was still at it."""
    child = forked(work)
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    status = ended(child)
    assert status in (FINISHED, -signal.SIGKILL), status
    return status != FINISHED


def dying_at(line: int, room: Any, work: Callable[[], object]) -> Callable[[], None]:
    """Do the work, and die at the so-manieth line of a module that is run."""
    left = [line]

    def trace(frame: FrameType, event: str, _: object) -> Any:
        if frame.f_code.co_filename != room.__file__:
            return None
        if event == "line":
            left[0] -= 1
            if left[0] < 0:
                os.kill(os.getpid(), signal.SIGKILL)
        return trace

    def run() -> None:
        sys.settrace(trace)
        work()
        sys.settrace(None)

    return run


def killed_at_every_line(
    room: Any, work: Callable[[], object], whole: Callable[[], None], *, again: Callable[[], object]
) -> int:
    """Kill a child at each line of a module in turn; give how many there were."""
    for line in range(1_000):
        again()
        status = ended(forked(dying_at(line, room, work)))
        whole()
        if status == FINISHED:
            return line
        assert status == -signal.SIGKILL, status
    raise AssertionError("it never came to its end")


def sheets(folder: Path) -> Callable[[str], None]:
    """Give what writes the sheet of one of two sweaters over the other's, by the real verb."""
    for name in ("old", "new"):
        (folder / name).mkdir()
        (folder / name / "mine.toml").write_text(spoil(("Sample", f"The {name} one")))

    def write(name: str) -> None:
        words = ["sheet", str(folder / name / "mine.toml"), "--into", str(folder / "out")]
        for form in FORMS:
            words += ["--as", form]
        program(words, standalone_mode=False)

    return write


def written(folder: Path) -> dict[str, bytes]:
    return {name: (folder / name).read_bytes() for name in FORMS.values()}


def strays(folder: Path) -> list[str]:
    return [name for name in names(folder) if name.startswith(".")]


def age_strays(folder: Path) -> None:
    """Make what killed runs left as old as a file that no run can still be writing."""
    then = time.time() - STALE_AFTER_S - 60
    for name in strays(folder):
        os.utime(folder / name, (then, then))


def sheet_killed_at_random(folder: Path, *, times: int, dice: Random) -> None:
    write = sheets(folder)
    out = folder / "out"
    whole: Mapping[str, dict[str, bytes]] = {
        name: (write(name), written(out))[1] for name in ("old", "new")
    }
    began = time.monotonic()
    assert ended(forked(lambda: write("old"))) == FINISHED
    takes = time.monotonic() - began
    killed = left = 0
    for round_number in range(times):
        name = ("new", "old")[round_number % 2]
        killed += killed_after(dice.uniform(0, takes), partial(write, name))
        for form, content in written(out).items():
            assert content in (whole["old"][form], whole["new"][form]), (round_number, form)
        left += len(strays(out))
        age_strays(out)
    write("new")
    assert written(out) == whole["new"]
    assert strays(out) == []
    assert killed > times / 3, f"only {killed} of {times} were killed in time"
    print(f"sheet: {killed} of {times} killed at work, {left} strays seen and swept")


def large_killed_at_random(folder: Path, *, times: int, dice: Random) -> None:
    """Large files, so that most kills fall into the writing itself."""
    target = folder / "large.pdf"
    contents = [bytes([number]) * 4_000_000 for number in (1, 2)]
    replace(target, contents[0])

    def write() -> None:
        while True:
            for content in contents:
                replace(target, content)

    left = 0
    for round_number in range(times):
        assert killed_after(dice.uniform(0, 0.03), write)
        assert target.read_bytes() in contents, round_number
        left += len(strays(folder))
        age_strays(folder)
    replace(target, "the end")
    assert names(folder) == ["large.pdf"]
    assert left > 0, "no kill fell into the writing"
    print(f"large: {times} killed, {left} strays seen and swept")


def files_killed_at_every_line(folder: Path) -> None:
    target = folder / "mine.pdf"

    def old_or_new() -> None:
        age_strays(folder)
        assert target.read_text() in ("old", "new")

    lines = killed_at_every_line(
        files,
        lambda: replace(target, "new"),
        old_or_new,
        again=lambda: replace(target, "old"),
    )
    age_strays(folder)
    replace(target, "end")
    assert names(folder) == ["mine.pdf"]
    target.unlink()

    def none_or_whole() -> None:
        age_strays(folder)
        assert not target.exists() or target.read_text() == "begun"

    begun = killed_at_every_line(
        files,
        lambda: write_new(target, "begun"),
        none_or_whole,
        again=lambda: target.unlink(missing_ok=True),
    )
    assert target.read_text() == "begun"
    assert min(lines, begun) > 20
    print(f"files: killed at each of {lines} lines over an old file, {begun} of a new one")


def log_killed_at_every_line(folder: Path) -> None:
    log = folder / "mine.weighings.jsonl"
    first, second = (Entry("2025-03-01", "MC", grams, "yoke", 5) for grams in (90.0, 80.0))

    def whole_lines() -> None:
        assert log.read_bytes().endswith(b"}\n")
        entries, notes = read(log)
        assert entries in ((first,), (first, second))
        assert notes == ()

    def again() -> None:
        log.unlink(missing_ok=True)
        add(log, first)

    lines = killed_at_every_line(weighings, lambda: add(log, second), whole_lines, again=again)
    assert lines > 20
    print(f"log: killed at each of {lines} lines")


def begun_at_once(folder: Path, *, times: int, at_once: int) -> None:
    """Several begin the same file at the same moment: one does, the others are told."""
    for round_number in range(times):
        path = folder / f"{round_number}.toml"
        waiting, go = os.pipe()

        def begin(number: int, path: Path = path, waiting: int = waiting, go: int = go) -> None:
            os.close(go)
            os.read(waiting, 1)
            try:
                write_new(path, f"of {number}" * 5_000)
            except FileError as refused:
                os._exit(1 if refused.findings[0].code == "file.exists" else 70)

        children = [forked(partial(begin, number)) for number in range(at_once)]
        os.close(waiting)
        os.close(go)
        statuses = [ended(child) for child in children]
        assert sorted(statuses) == [FINISHED, *[1] * (at_once - 1)], statuses
        assert path.read_text() == f"of {statuses.index(FINISHED)}" * 5_000
    assert strays(folder) == []
    print(f"begin: {at_once} at once, {times} times, one wins")


def written_at_once(folder: Path, *, times: int, at_once: int) -> None:
    """Several write the same sheet over and over: none takes the other's unfinished file away."""
    path = folder / "mine.pdf"

    def write(number: int) -> None:
        for _ in range(times):
            replace(path, f"of {number}")

    children = [forked(partial(write, number)) for number in range(at_once)]
    assert [ended(child) for child in children] == [FINISHED] * at_once
    assert names(folder) == ["mine.pdf"]
    print(f"sheet: {at_once} at once, {times} times each")


def main(folder: Path, seed: int) -> None:
    print(f"seed {seed}")
    dice = Random(seed)
    places = [folder / name for name in "abcdef"]
    for place in places:
        place.mkdir()
    sheet_killed_at_random(places[0], times=60, dice=dice)
    large_killed_at_random(places[1], times=40, dice=dice)
    files_killed_at_every_line(places[2])
    log_killed_at_every_line(places[3])
    begun_at_once(places[4], times=20, at_once=6)
    written_at_once(places[5], times=60, at_once=4)


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]))
