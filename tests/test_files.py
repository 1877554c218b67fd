"""Files are written whole or not at all, and never over another unasked."""

import errno
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from yokefellow.files import FileError, replace, write_new


def refused_code(error: pytest.ExceptionInfo[FileError]) -> str:
    (finding,) = error.value.findings
    assert finding.message
    assert finding.remedy
    return finding.code


def test_a_new_file_is_written(tmp_path: Path) -> None:
    path = tmp_path / "sweater.toml"
    write_new(path, "naïve ½\n")
    assert path.read_bytes() == "naïve ½\n".encode()
    assert list(tmp_path.iterdir()) == [path]


def test_a_file_that_is_there_is_left_as_it_was(tmp_path: Path) -> None:
    path = tmp_path / "sweater.toml"
    path.write_text("hers")
    with pytest.raises(FileError) as error:
        write_new(path, "ours")
    assert refused_code(error) == "file.exists"
    assert path.read_text() == "hers"
    assert list(tmp_path.iterdir()) == [path]


def test_a_link_that_leads_nowhere_is_not_written_through(tmp_path: Path) -> None:
    path = tmp_path / "sweater.toml"
    path.symlink_to(tmp_path / "elsewhere")
    with pytest.raises(FileError) as error:
        write_new(path, "ours")
    assert refused_code(error) == "file.exists"
    assert not (tmp_path / "elsewhere").exists()


def test_where_no_second_name_is_possible_it_still_never_overwrites(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object) -> None:
        raise PermissionError(errno.EPERM, "no links here")

    monkeypatch.setattr(Path, "hardlink_to", no_links)
    path = tmp_path / "sweater.toml"
    write_new(path, "first")
    with pytest.raises(FileError) as error:
        write_new(path, "second")
    assert refused_code(error) == "file.exists"
    assert path.read_text() == "first"
    assert list(tmp_path.iterdir()) == [path]


# derived: the rights it was given
@pytest.mark.parametrize("content", [b"%PDF", "text"])
def test_a_file_is_replaced_whole(tmp_path: Path, content: bytes | str) -> None:
    path = tmp_path / "sheet"
    replace(path, "old and longer")
    path.chmod(0o640)
    replace(path, content)
    assert path.read_bytes() == (content if isinstance(content, bytes) else content.encode())
    assert path.stat().st_mode & 0o777 == 0o640
    assert list(tmp_path.iterdir()) == [path]


def test_a_full_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_text("old")

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(FileError) as error:
        replace(path, "new")
    assert refused_code(error) == "file.full"
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_folder_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "sheet.pdf").mkdir()
    with pytest.raises(FileError) as error:
        replace(tmp_path / "sheet.pdf", "new")
    assert refused_code(error) == "file.is-folder"
    with pytest.raises(FileError) as error:
        write_new(tmp_path / "sheet.pdf", "new")
    assert refused_code(error) == "file.exists"


@pytest.mark.parametrize("write", [write_new, replace])
def test_a_missing_folder_is_told(tmp_path: Path, write: Callable[[Path, str], None]) -> None:
    with pytest.raises(FileError) as error:
        write(tmp_path / "nowhere" / "sheet", "text")
    assert refused_code(error) == "file.no-folder"
    (tmp_path / "file").write_text("")
    with pytest.raises(FileError) as error:
        write(tmp_path / "file" / "sheet", "text")
    assert refused_code(error) == "file.no-folder"


def test_a_folder_one_may_not_write_in_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def forbidden(*_: object) -> int:
        raise PermissionError(errno.EROFS, os.strerror(errno.EROFS))

    monkeypatch.setattr(os, "open", forbidden)
    with pytest.raises(FileError) as error:
        replace(tmp_path / "sheet", "text")
    assert refused_code(error) == "file.not-allowed"


def test_a_name_no_file_can_have_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileError) as error:
        replace(tmp_path / "a\0b", "text")
    assert refused_code(error) == "file.not-written"
    with pytest.raises(FileError) as error:
        write_new(tmp_path / ("x" * 300), "text")
    assert refused_code(error) == "file.not-written"
