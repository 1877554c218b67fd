"""A disk that is full, a folder that cannot be written: one clear error, and no half file."""

from __future__ import annotations

import errno
import os
import resource
import shlex
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from functools import cache, partial
from pathlib import Path

import pytest

from tests.cli.running import YOKEFELLOW, names, surroundings
from tests.hostile.bounded import ROOT
from tests.project_file.sample import SOUND
from yokefellow.files import FileError, make_folder, replace, write_new

OLD = "the old sheet"
SHEET = ("sheet", "mine.toml", "--as", "html", "--into", "out")


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """A project with an older sheet; the folder that holds them."""
    (tmp_path / "mine.toml").write_text(SOUND)
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "mine.html").write_text(OLD)
    return tmp_path


def told(ran: subprocess.CompletedProcess[str], what: str) -> None:
    """It must be one clear error."""
    words = " ".join(ran.stderr.split())
    assert ran.returncode == 1, ran.stderr
    assert what in words, words
    assert words.count("ERROR") == 1
    assert "→" in words
    assert "Traceback" not in words
    assert "Wrote" not in ran.stdout


def small_files() -> None:
    """Allow no file larger than 4 kB, as a disk that is all but full does."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (4_096, 4_096))


def test_no_room_for_the_sheet(mine: Path) -> None:
    ran = subprocess.run(
        [*YOKEFELLOW, *SHEET],
        cwd=mine,
        env=surroundings({"PYTHONDONTWRITEBYTECODE": "1"}),
        capture_output=True,
        text=True,
        preexec_fn=small_files,
    )
    told(ran, '"mine.html" was not written: the disk is full.')
    assert names(mine / "out") == ["mine.html"]
    assert (mine / "out" / "mine.html").read_text() == OLD


@cache
def can_mount() -> bool:
    """Whether this is a Linux that lets us mount a disk of our own, seen by nobody else."""
    if sys.platform != "linux" or shutil.which("unshare") is None:
        return False
    tried = subprocess.run(
        ["unshare", "--mount", "mount", "-t", "tmpfs", "none", "/mnt"], capture_output=True
    )
    return tried.returncode == 0


needs_mount = pytest.mark.skipif("not can_mount()", reason="no disk can be mounted here")


SPOILT = {
    # A page of it is left to the old sheet, and nothing else.
    "full": "{{ head -c 1000000 /dev/zero > {disk}/others 2>/dev/null || true; }}",
    "read-only": "mount -o remount,ro {disk}",
}


def mounted(mine: Path, how: str, *words: str, old: str = OLD) -> subprocess.CompletedProcess[str]:
    """Run with a spoilt disk at `out`; what is left on it comes on standard output."""
    (mine / "old").write_text(old)
    disk = shlex.quote(str(mine / "out"))
    script = (
        f"mount -t tmpfs -o size=256k none {disk} && cp old {disk}/mine.html && "
        f"{SPOILT[how].format(disk=disk)}; {shlex.join([*YOKEFELLOW, *words])}; status=$?; "
        f"ls -A {disk}; cat {disk}/mine.html; exit $status"
    )
    return subprocess.run(
        ["unshare", "--mount", "sh", "-c", script],
        cwd=mine,
        env=surroundings({}),
        capture_output=True,
        text=True,
    )


@needs_mount
def test_a_full_disk(mine: Path) -> None:
    ran = mounted(mine, "full", *SHEET)
    told(ran, '"mine.html" was not written: the disk is full.')
    assert ran.stdout.split("\n", 2) == ["mine.html", "others", OLD]


@needs_mount
def test_a_disk_that_is_read_only_even_for_root(mine: Path) -> None:
    ran = mounted(mine, "read-only", *SHEET)
    told(ran, '"mine.html" was not written: you may not write there.')
    assert ran.stdout.split("\n", 1) == ["mine.html", OLD]


@needs_mount
@pytest.mark.parametrize(
    ("how", "why"), [("full", "the disk is full"), ("read-only", "you may not write there")]
)
def test_begin_where_nothing_can_be_written(mine: Path, how: str, why: str) -> None:
    ran = mounted(mine, how, "begin", "out/hers.toml")
    told(ran, f'"hers.toml" was not written: {why}.')
    assert "hers.toml" not in ran.stdout


@needs_mount
@pytest.mark.parametrize(
    ("how", "why"), [("full", "No space left on device"), ("read-only", "Read-only file")]
)
def test_a_reading_that_cannot_be_written(mine: Path, how: str, why: str) -> None:
    # The project file itself lies on that disk.
    words = ("weigh", "out/mine.html", "--left", "200 g", "--after", "yoke 5")
    ran = mounted(mine, how, *words, old=SOUND)
    told(ran, f'not added to "mine.weighings.jsonl": {why}')


def code_of(action: Callable[[], object]) -> str:
    with pytest.raises(FileError) as refused:
        action()
    (finding,) = refused.value.findings
    assert finding.message.isprintable()
    assert len(finding.message) < 200
    assert finding.remedy
    return finding.code


@pytest.mark.parametrize("write", [write_new, replace])
def test_places_where_nothing_can_be_written(
    write: Callable[[Path, str], None], tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("")
    (tmp_path / "loop").symlink_to("loop")
    expected = {
        "nowhere/mine.pdf": "file.no-folder",
        "file/mine.pdf": "file.no-folder",
        "y" * 300: "file.not-written",
        "\x1b[31m" * 60: "file.not-written",
        "a\0b": "file.not-written",
        "loop/mine.pdf": "file.not-written",
    }
    for name, code in expected.items():
        assert code_of(partial(write, tmp_path / name, "text")) == code
    assert names(tmp_path) == ["file", "loop"]


@pytest.mark.parametrize("number", [errno.EROFS, errno.EACCES, errno.EPERM])
def test_a_folder_one_may_not_write_in(
    number: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def forbidden(*_: object, **__: object) -> int:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "open", forbidden)
    assert code_of(lambda: replace(tmp_path / "mine.pdf", "text")) == "file.not-allowed"
    assert code_of(lambda: write_new(tmp_path / "mine.toml", "text")) == "file.not-allowed"


def test_a_folder_that_cannot_be_made(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    assert code_of(lambda: make_folder(tmp_path / "file")) == "file.not-a-folder"
    assert code_of(lambda: make_folder(tmp_path / "file" / "inside")) == "file.no-folder"
    assert code_of(lambda: make_folder(tmp_path / ("z" * 300))) == "file.not-written"


def test_the_program_may_be_run_from_a_folder_that_is_gone(tmp_path: Path) -> None:
    gone = tmp_path / "gone"
    gone.mkdir()
    script = f'rmdir {shlex.quote(str(gone))}; exec "$@"'
    ran = subprocess.run(
        ["sh", "-c", script, "sh", *YOKEFELLOW, "begin", "mine.toml"],
        cwd=gone,
        env=surroundings({"PYTHONPATH": str(ROOT / "src")}),
        capture_output=True,
        text=True,
    )
    told(ran, '"mine.toml" was not written: its folder does not exist.')
