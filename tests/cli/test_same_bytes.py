"""The same project file gives the same bytes, whoever runs the program, where and when."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
FORMATS = ("html", "pdf", "text", "json")


def sheets(example: str, folder: Path, **environment: str) -> dict[str, bytes]:
    """Every format, written by fresh processes from a copy of the example in a folder."""
    folder.mkdir()
    copy = Path(shutil.copy(ROOT / f"examples/{example}.toml", folder / "mine.toml"))
    wanted = [word for name in FORMATS for word in ("--as", name)]
    subprocess.run(
        [sys.executable, "-m", "yokefellow", "sheet", copy, *wanted, "--into", folder / "out"],
        env={**os.environ, **environment},
        cwd=folder,
        check=True,
        capture_output=True,
    )
    return {file.name: file.read_bytes() for file in (folder / "out").iterdir()}


@pytest.mark.parametrize("example", ["late-veranda", "little-harbour"])
def test_two_processes_in_two_folders_write_the_same_bytes(example: str, tmp_path: Path) -> None:
    one = sheets(example, tmp_path / "one", PYTHONHASHSEED="1", TZ="Asia/Tokyo")
    other = sheets(
        example,
        tmp_path / "another, with spaces",
        PYTHONHASHSEED="2",
        TZ="America/Lima",
        LC_ALL="C.UTF-8",
        SOURCE_DATE_EPOCH="12345",
        HOME=str(tmp_path),
    )
    assert len(one) == len(FORMATS)
    assert one.keys() == other.keys()
    for name, held in one.items():
        assert other[name] == held, f"{name} differs"
