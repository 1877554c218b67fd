"""The program where the system is not a Unix: Windows, or Python inside a browser.

Neither is to be had here, so what they lack is taken away before the program is imported.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

WITHOUT_UNIX = """
import errno, os, sys
for name in ("fcntl", "pwd", "grp", "resource", "termios", "tty", "readline"):
    sys.modules[name] = None
for name in (
    "O_NOFOLLOW", "O_NONBLOCK", "pread", "pwrite", "fork", "getuid", "mkfifo", "link", "chown",
    "O_CLOEXEC",
):
    if hasattr(os, name):
        delattr(os, name)
for name in ("EDQUOT",):
    if hasattr(errno, name):
        delattr(errno, name)
os.O_BINARY = 0
"""


def ran(program: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", WITHOUT_UNIX + program],
        cwd=folder,
        capture_output=True,
        text=True,
        encoding="utf-8",
    )


def test_a_sweater_is_begun_checked_and_written(tmp_path: Path) -> None:
    ended = ran(
        f"""
import shutil
import yokefellow.cli.program as cli
shutil.copy({str(ROOT / "examples" / "warm-evenings.toml")!r}, "mine.toml")
def run(*words):
    assert not cli.program(list(words), standalone_mode=False), words
run("begin", "other.toml", "--size", "M")
run("check", "mine.toml")
run("sheet", "mine.toml", "--as", "html")
run("weigh", "mine.toml", "--left", "300 g", "--after", "yoke 20")
run("weigh", "mine.toml", "--left", "290 g", "--after", "yoke 30")
""",
        tmp_path,
    )
    assert ended.returncode == 0, ended.stderr
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "mine.html",
        "mine.toml",
        "mine.weighings.jsonl",
        "other.toml",
    ]


def test_line_ends_of_another_system_change_nothing(tmp_path: Path) -> None:
    text = (ROOT / "examples" / "warm-evenings.toml").read_bytes()
    (tmp_path / "unix.toml").write_bytes(text)
    (tmp_path / "windows.toml").write_bytes(b"\xef\xbb\xbf" + text.replace(b"\n", b"\r\n"))
    ended = ran(
        """
from pathlib import Path
from yokefellow.plan import plan
from yokefellow.project_file.load import load
assert plan(load(Path("unix.toml"))).key == plan(load(Path("windows.toml"))).key
""",
        tmp_path,
    )
    assert ended.returncode == 0, ended.stderr
