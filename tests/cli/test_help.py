"""The help: true, short to wait for, and told again in README.md."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import click
import pytest

from tests.cli.running import EXAMPLE, ROOT, names, run, surroundings
from yokefellow.cli.program import VERBS as WHAT_FOR
from yokefellow.cli.program import program

PATTERN = ROOT / "examples" / "grandmothers-green.toml"

VERBS = {
    name: command
    for name in WHAT_FOR
    if (command := program.get_command(click.Context(program), name)) is not None
}
HEAVY = ("pydantic", "jinja2", "weasyprint", "pint", "asyncio", "email", "http")
"""What a help text has no use for."""


def help_of(verb: str) -> str:
    return run(*([verb] if verb else []), "--help").stdout


def examples(verb: str) -> list[str]:
    lines = (line.strip() for line in help_of(verb).splitlines())
    return [line.removeprefix("$ ") for line in lines if line.startswith("$ ")]


def in_a_shell(line: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Type a line as a person would; Enter answers every question."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    return subprocess.run(
        ["sh", "-c", line],
        cwd=cwd,
        input="\n" * 40,
        capture_output=True,
        text=True,
        encoding="utf-8",
        env=surroundings({"HOME": str(cwd), "PATH": path}),
        check=False,
    )


@pytest.mark.parametrize("verb", list(VERBS))
def test_every_example_is_true(verb: str, tmp_path: Path) -> None:
    lines = examples(verb)
    assert lines, "every verb shows an example"
    for number, line in enumerate(lines):
        assert line.startswith(f"yokefellow {verb}")
        place = tmp_path / str(number)
        place.mkdir()
        if verb != "begin":
            example = PATTERN if verb == "follow" else EXAMPLE
            shutil.copy(example, place / "mine.toml")
        if verb == "log":
            in_a_shell("yokefellow knitted mine.toml 'yoke 3'", place)
        if verb == "open":
            # It serves until it is ended, here by the time limit.
            # published: GNU coreutils manual, timeout, exit status 124
            ended = in_a_shell(f"BROWSER=true timeout 6 {line}", place)
            assert (ended.returncode, "http://127.0.0.1:" in ended.stdout) == (124, True)
            continue
        ended = in_a_shell(line, place)
        assert ended.returncode == 0, f"{line}\n{ended.stderr}"


def test_the_worked_example_is_true(tmp_path: Path) -> None:
    first, *others = examples("")
    assert in_a_shell(first, tmp_path).returncode == 0
    # Here the knitter opens the file in an editor.
    shutil.copy(EXAMPLE, tmp_path / "mine.toml")
    for line in others:
        ended = in_a_shell(line, tmp_path)
        assert ended.returncode == 0, f"{line}\n{ended.stderr}"
    assert {"mine.html", "mine.pdf"} <= set(names(tmp_path))


# common practice, no source: a terminal has 80 columns
@pytest.mark.parametrize("verb", ["", *VERBS])
def test_every_terminal_can_show_it(verb: str) -> None:
    text = help_of(verb)
    assert text.isascii()
    assert max(map(len, text.splitlines())) <= 80


def test_every_option_and_verb_says_what_it_is_for() -> None:
    for command in VERBS.values():
        for parameter in command.params:
            assert isinstance(parameter, click.Argument) or getattr(parameter, "help", None)


def test_help_waits_for_nothing_it_does_not_need() -> None:
    looked = (
        "import json, sys; from yokefellow.cli import main\n"
        "sys.argv = ['yokefellow', '--help']\n"
        "try: main()\n"
        "except SystemExit: pass\n"
        "print(json.dumps(sorted(sys.modules)), file=sys.stderr)"
    )
    ended = subprocess.run(
        [sys.executable, "-c", looked], capture_output=True, check=True, env=surroundings({})
    )
    modules = set(json.loads(ended.stderr))
    assert not modules & set(HEAVY)
    rooms = {name for name in modules if re.match(r"yokefellow\.(?!cli|findings)", name)}
    assert not rooms, "a room was imported before it was needed"


def test_the_readme_lists_every_verb_in_the_same_words() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    section = re.search(r"^#+ Commands\n(.*?)(?=^#+ |\Z)", readme, re.MULTILINE | re.DOTALL)
    lines = section[1].splitlines() if section else []
    missing = [
        f"| `yokefellow {name}` | {what} |"
        for name, what in WHAT_FOR.items()
        if not any(re.search(rf"`(yokefellow )?{name}\b", line) and what in line for line in lines)
    ]
    assert not missing, "README.md lacks, in its section Commands:\n" + "\n".join(missing)
