"""Writing files so that nothing is lost: never over another, never half."""

from __future__ import annotations

import contextlib
import errno
import os
import re
import secrets
import stat
import time
from collections.abc import Iterator
from itertools import islice
from pathlib import Path

from yokefellow.findings import Finding, Severity, YokefellowError, as_typed
from yokefellow.words import found


class FileError(YokefellowError):
    """A file cannot be written."""


def check_free(path: Path) -> None:
    """Refuse early a name that `write_new` would refuse, before much is typed for it.

    Raises:
        FileError: a file of that name exists, or its folder does not.
    """
    with _refusing(path):
        if os.path.lexists(path):
            raise FileExistsError(errno.EEXIST, "it is there")
        if not path.parent.is_dir():
            raise FileNotFoundError(errno.ENOENT, "no such folder")


def write_new(path: Path, text: str) -> None:
    """Write a new file, whole or not at all; never over one that is there.

    Raises:
        FileError: a file of that name exists, or none can be written there.
    """
    with _refusing(path), _written_beside(path, text.encode()) as whole:
        _place(whole, path)


def replace(path: Path, data: bytes | str) -> None:
    """Write a file, whole or not at all, over the one that is there or anew.

    Raises:
        FileError: it cannot be written there.
    """
    content = data.encode() if isinstance(data, str) else data
    with _refusing(path), _written_beside(path, content) as whole:
        if path.is_dir():
            raise IsADirectoryError(errno.EISDIR, "is a folder")
        whole.replace(path)


def make_folder(path: Path) -> Path:
    """Make a folder, and those it stands in, unless it is there; give it back.

    Raises:
        FileError: it cannot be made, or a file has its name.
    """
    with _refusing(path):
        if path.exists() and not path.is_dir():
            name = as_typed(path.name)
            raise FileError([found("file.not-a-folder", Severity.ERROR, "", name=name)])
        path.mkdir(parents=True, exist_ok=True)
    return path


@contextlib.contextmanager
def _written_beside(path: Path, content: bytes) -> Iterator[Path]:
    """Write the content to a file of another name in the same folder; take it away at the end."""
    _sweep(path)
    whole, descriptor = _begun(path)
    with os.fdopen(descriptor, "wb") as file:
        try:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
            if path.is_file():
                whole.chmod(path.stat().st_mode & 0o777)
            yield whole
        finally:
            whole.unlink(missing_ok=True)


def _stem(path: Path) -> str:
    return f".{path.name[:40]}."


def _begun(path: Path) -> tuple[Path, int]:
    """Make an empty file beside the one to write."""
    whole = path.parent / f"{_stem(path)}{secrets.token_hex(6)}"
    # Windows else turns every line end into two characters.
    as_bytes = getattr(os, "O_BINARY", 0)
    return whole, os.open(whole, os.O_WRONLY | os.O_CREAT | os.O_EXCL | as_bytes, 0o666)


def _sweep(path: Path) -> None:
    """Take away what runs that were killed left beside a file, once no run can still write it."""
    stray = re.compile(re.escape(_stem(path)) + "[0-9a-f]{12}")
    stale = time.time() - STALE_AFTER_S
    with contextlib.suppress(OSError, ValueError), os.scandir(path.parent) as entries:
        strays = (entry for entry in entries if stray.fullmatch(entry.name))
        for entry in islice(strays, _MOST_STRAYS):
            # What is not ours to take away does no harm where it is.
            with contextlib.suppress(OSError):
                state = entry.stat(follow_symlinks=False)
                if stat.S_ISREG(state.st_mode) and state.st_mtime < stale:
                    Path(entry.path).unlink()


def _place(whole: Path, path: Path) -> None:
    """Give the file its name, failing if another has it: one step, no race."""
    try:
        path.hardlink_to(whole)
    except FileExistsError:
        raise
    except (OSError, NotImplementedError):
        # Some file systems know no second name for a file (memory cards), some systems neither.
        descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
        os.close(descriptor)
        whole.replace(path)


@contextlib.contextmanager
def _refusing(path: Path) -> Iterator[None]:
    """Turn what the system says into a finding."""
    try:
        yield
    except (OSError, ValueError) as problem:
        raise FileError([_finding(path, problem)]) from None


STALE_AFTER_S = 3_600.0
"""No run takes an hour to write a file: what is older was left by one that was killed."""

_MOST_STRAYS = 100
"""Taken away in one run."""

_REASONS: dict[int, tuple[str, str]] = {
    errno.EEXIST: ("file.exists", ""),
    errno.EISDIR: ("file.is-folder", ""),
    errno.ENOENT: ("file.no-folder", ""),
    errno.ENOTDIR: ("file.no-folder", "folder_is_file"),
    errno.EACCES: ("file.not-allowed", ""),
    errno.ENAMETOOLONG: ("file.not-written", "long_name"),
    errno.ENOSPC: ("file.full", ""),
}
"""The code of each thing that can go wrong, and its sentence where the code has several."""
_ALIKE = {
    errno.EPERM: errno.EACCES,
    errno.EROFS: errno.EACCES,
    getattr(errno, "EDQUOT", errno.ENOSPC): errno.ENOSPC,
    errno.EFBIG: errno.ENOSPC,
}


def _finding(path: Path, problem: OSError | ValueError) -> Finding:
    number = getattr(problem, "errno", None) or 0
    code, sentence = _REASONS.get(_ALIKE.get(number, number), ("file.not-written", ""))
    return found(
        code,
        Severity.ERROR,
        "",
        sentence=sentence,
        name=as_typed(path.name),
        reason=getattr(problem, "strerror", None) or "",
    )
