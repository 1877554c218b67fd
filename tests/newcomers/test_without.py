"""What a newcomer meets on a machine that lacks something: it works, or says what is missing.

The libraries and the network are truly gone, in a namespace of Linux that only
the tested program sees; where none can be made, these tests are left out.
"""

from __future__ import annotations

import shlex
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

from tests.cli.running import EXAMPLE, YOKEFELLOW, surroundings
from tests.hostile.bounded import ROOT

SHEET = [*YOKEFELLOW, "sheet", str(EXAMPLE), "--into"]
Ran = subprocess.CompletedProcess[str]


def run(words: list[str], **environment: str) -> Ran:
    return subprocess.run(
        words,
        cwd=ROOT,
        env=surroundings({"PYTHONPATH": str(ROOT / "src"), **environment}),
        capture_output=True,
        text=True,
        timeout=300,
    )


@cache
def can(*flags: str) -> bool:
    """Whether a namespace can be made, and in a mount namespace a file covered."""
    if sys.platform != "linux":
        return False
    cover = "mount --bind /dev/null /etc/hostname" if "--mount" in flags else "true"
    try:
        return run(["unshare", *flags, "sh", "-c", cover]).returncode == 0
    except FileNotFoundError:
        return False


needs_net = pytest.mark.skipif("not can('--net')", reason="the network cannot be taken away here")
needs_mount = pytest.mark.skipif("not can('--mount')", reason="no library can be hidden here")


@needs_net
def test_without_a_network(tmp_path: Path) -> None:
    words = [*SHEET, str(tmp_path), "--as", "html", "--as", "pdf", "--as", "json"]
    ran = run(["unshare", "--net", *words])
    assert ran.returncode == 0, ran.stderr
    assert (tmp_path / "little-harbour.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "little-harbour.html").stat().st_size > 0


def hidden(*libraries: str) -> str:
    """Give the shell's words that cover libraries with nothing."""
    found = [
        path.resolve()
        for folder in map(Path, ("/lib", "/usr/lib", "/usr/local/lib"))
        for library in libraries
        for path in (*folder.glob(f"{library}.so*"), *folder.glob(f"*/{library}.so*"))
    ]
    return "; ".join(f"mount --bind /dev/null {shlex.quote(str(path))}" for path in found) or "true"


def without(libraries: tuple[str, ...], words: list[str], **environment: str) -> Ran:
    script = f"{hidden(*libraries)}; exec {shlex.join(words)}"
    return run(["unshare", "--mount", "sh", "-c", script], **environment)


PANGO = ("libpango-1.0", "libpangoft2-1.0")


@needs_mount
def test_without_pango_the_page_is_there_and_the_packages_are_named(tmp_path: Path) -> None:
    ran = without(PANGO, [*SHEET, str(tmp_path)])
    assert ran.returncode == 1
    said = " ".join(ran.stderr.split())
    assert "A PDF needs the library Pango" in said
    # published: package names of Debian 12 and of Homebrew
    assert "libpangoft2-1.0-0 libharfbuzz-subset0 fonts-dejavu-core" in said
    assert "brew install pango" in said
    assert "Traceback" not in said
    assert [path.name for path in tmp_path.iterdir()] == ["little-harbour.html"]


def libraries_of(what: str, path: Path) -> list[str]:
    """The step of `make` that sees to what pip cannot install; nothing else on the path."""
    return ["env", f"PATH={path}", "/bin/sh", ".ci/libraries", what, sys.executable]


@pytest.fixture
def tools(tmp_path: Path) -> Path:
    """A path with the shell's usual tools and no package manager."""
    folder = tmp_path / "tools"
    folder.mkdir()
    for tool in ("uname", "find", "head", "id"):
        found = shutil.which(tool)
        assert found
        (folder / tool).symlink_to(found)
    return folder


@needs_mount
def test_make_says_which_libraries_are_missing(tools: Path) -> None:
    ran = without(PANGO, libraries_of("sheet", tools))
    assert ran.returncode == 0, "the page is made all the same"
    assert "The PDF needs libraries that are not here." in ran.stderr
    assert "libpangoft2-1.0-0" in ran.stderr


def test_make_says_which_programs_the_tests_miss(tools: Path) -> None:
    ran = run(libraries_of("tests", tools))
    assert ran.returncode == 0
    assert "Some tests need programs that are not here." in ran.stderr
    assert "poppler-utils" in ran.stderr


@pytest.mark.parametrize("what", ["sheet", "tests"])
def test_make_does_not_install_without_the_right_to(what: str, tools: Path) -> None:
    (tools / "apt-get").write_text("#!/bin/sh\nexit 99\n")
    (tools / "apt-get").chmod(0o755)
    (tools / "id").unlink()
    (tools / "id").write_text("#!/bin/sh\necho 1000\n")
    (tools / "id").chmod(0o755)
    lacking = tools.parent / "python"
    lacking.write_text("#!/bin/sh\nexit 1\n")
    lacking.chmod(0o755)
    ran = run([*libraries_of(what, tools)[:-1], str(lacking)])
    assert ran.returncode == 0
    assert "sudo apt-get install" in ran.stderr


def python_that(folder: Path, name: str, *, is_old: bool, has_venv: bool) -> None:
    """A stand-in that answers what `.ci/environment` asks of a Python."""
    (folder / name).write_text(
        "#!/bin/sh\n"
        'case "$2" in\n'
        f"*version_info\\ \\<*) exit {int(is_old)} ;;\n"
        f"*ensurepip*) exit {int(not has_venv)} ;;\n"
        '*print*) echo "python3.11-venv" ;;\n'
        "esac\n"
    )
    (folder / name).chmod(0o755)


def environment_with(tools: Path) -> Ran:
    made = tools.parent / "made"
    return run(["env", f"PATH={tools}", "/bin/sh", ".ci/environment", str(made)])


def test_make_says_that_python_is_too_old(tools: Path) -> None:
    python_that(tools, "python3", is_old=True, has_venv=True)
    ran = environment_with(tools)
    assert ran.returncode == 1
    assert "Python 3.11 or later is needed" in ran.stderr


def test_make_says_what_python_cannot_make_an_environment(tools: Path) -> None:
    python_that(tools, "python3", is_old=True, has_venv=True)
    python_that(tools, "python3.11", is_old=False, has_venv=False)
    ran = environment_with(tools)
    assert ran.returncode == 1
    assert "python3.11 cannot make a virtual environment" in ran.stderr
    assert "sudo apt-get install python3.11-venv" in ran.stderr
