"""Completion: the scripts, and what they offer."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from tests.cli.running import WRONG_USAGE, alone, run, surroundings
from yokefellow.body.size_tables import tables
from yokefellow.cli.program import VERBS

SHELLS = ("bash", "zsh", "fish")


@pytest.mark.parametrize("shell", SHELLS)
def test_the_script_says_how_to_install_it(shell: str) -> None:
    result = run("completion", shell)
    assert result.exit_code == 0
    assert "_YOKEFELLOW_COMPLETE" in result.stdout
    assert f"yokefellow completion {shell} >" in result.stdout


@pytest.mark.parametrize("shell", SHELLS)
def test_a_shell_can_read_its_script(shell: str, tmp_path: Path) -> None:
    if shutil.which(shell) is None:
        pytest.skip(f"{shell} is not here")
    script = tmp_path / "script"
    script.write_text(run("completion", shell).stdout)
    subprocess.run([shell, "-n", str(script)], check=True, env=surroundings({}))


def test_an_unknown_shell_is_wrong_usage() -> None:
    assert run("completion", "abacus").exit_code == WRONG_USAGE


def offered(cwd: Path, line: str) -> set[str]:
    """What bash is offered for the last word of a line."""
    ended = alone(
        cwd=cwd,
        _YOKEFELLOW_COMPLETE="bash_complete",
        COMP_WORDS=line,
        COMP_CWORD=str(len(line.split(" ")) - 1),
    )
    return {offer.partition(",")[2] for offer in ended.stdout.decode().splitlines()}


def test_verbs_options_and_tables_are_offered(tmp_path: Path) -> None:
    assert offered(tmp_path, "yokefellow ") >= set(VERBS)
    assert offered(tmp_path, "yokefellow che") == {"check"}
    assert "--into" in offered(tmp_path, "yokefellow sheet --")
    assert offered(tmp_path, "yokefellow sheet --as ") == {"html", "text", "json", "pdf"}
    assert offered(tmp_path, "yokefellow sizes ") == set(tables())
    assert offered(tmp_path, "yokefellow begin --table wo") == {"women"}
