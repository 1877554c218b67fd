"""The sentences stand in templates, and a second language is one folder."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import jinja2
import pytest

from yokefellow.findings import Severity
from yokefellow.words import and_list, found, plural, words

ROOT = Path(__file__).resolve().parents[1]
SOURCES = ROOT / "src" / "yokefellow"
SENTENCES = ROOT / "templates" / "words" / "en"

WORDLESS = (
    "body/fill_in.py",
    "charts",
    "cli/commands/check.py",
    "cli/commands/follow.py",
    "cli/row_places.py",
    "files.py",
    "fit",
    "gauge.py",
    "pattern_sizes",
    "plan.py",
    "project_file/checks",
    "project_file/field_errors.py",
    "project_file/load.py",
    "sheet/edge_words.py",
    "project_file/toml_mistakes.py",
    "yarn/weighing_log.py",
)
"""Files and folders of the program in which no sentence stands."""


def sentences_in(source: Path) -> Iterator[str]:
    """Give the texts of four words or more that neither document nor are meant for programmers."""
    tree = ast.parse(source.read_text("utf-8"))
    docs = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    helps = [node for node in ast.walk(tree) if isinstance(node, (ast.Assign, ast.keyword))]
    docs |= {
        id(node.value)
        for node in helps
        if (node.arg == "help" if isinstance(node, ast.keyword) else _is_help(node))
    }
    docs |= {
        id(text)
        for node in ast.walk(tree)
        if isinstance(node, ast.Raise) and "ValueError(" in ast.unparse(node)
        for text in ast.walk(node)
    }
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or id(node) in docs:
            continue
        if isinstance(node.value, str) and len(node.value.split()) >= 4:
            yield f"{source.relative_to(SOURCES)}:{node.lineno}: {node.value[:60]}"


def _is_help(node: ast.Assign) -> bool:
    """Tell whether a text is shown by `--help`."""
    return [ast.unparse(target) for target in node.targets] == ["HELP"]


@pytest.mark.parametrize("room", WORDLESS)
def test_python_writes_no_sentence(room: str) -> None:
    place = SOURCES / room
    files = sorted(place.rglob("*.py")) if place.is_dir() else [place]
    assert [found for file in files for found in sentences_in(file)] == []


def test_every_topic_compiles_and_every_remedy_has_its_message() -> None:
    topics = sorted(file.relative_to(SENTENCES).with_suffix("") for file in SENTENCES.rglob("*.j2"))
    assert topics
    for topic in topics:
        module = words(topic.as_posix())
        names = [name for name in dir(module._module) if not name.startswith("_")]
        if topic.parts[0] == "findings":
            for name in names:
                if name.endswith("_remedy"):
                    assert module.has(name.removesuffix("_remedy")), name
                else:
                    assert module.has(f"{name}_remedy"), f"{topic}: {name}"


def test_a_finding_takes_its_sentences_from_its_code() -> None:
    one = found("raglan.line-none", Severity.ERROR, "garment.yoke.line_width", increase="lifted")
    assert '"lifted"' in one.message
    assert "\n" not in one.message
    assert one.remedy.startswith("Write ")
    assert dict(one.values) == {"increase": "lifted"}


def test_a_value_that_is_not_given_is_a_fault_of_the_program() -> None:
    with pytest.raises((TypeError, jinja2.UndefinedError)):
        found("raglan.line-none", Severity.ERROR, "", nothing="")
    with pytest.raises(AttributeError):
        found("raglan.no-such-rule", Severity.ERROR, "")


def test_a_second_language_is_one_folder(tmp_path: Path) -> None:
    german = tmp_path / "de" / "findings"
    german.mkdir(parents=True)
    (german / "yoke.j2").write_text(
        "{% macro no_lines() %}line_width und line_increase sagen, wie die Linien eines Raglans\n"
        "gestrickt werden; eine Rundpasse hat keine.{% endmacro %}",
        "utf-8",
    )
    topic = words("findings/yoke", language="de", folder=tmp_path)
    assert topic.no_lines().startswith("line_width und line_increase sagen, wie die Linien eines")
    # What is not translated is read in English.
    other = words("findings/raglan", language="de", folder=tmp_path)
    assert other.increases_remedy(given="few") == words("findings/raglan").increases_remedy(
        given="few"
    )


def test_counts_and_lists_are_worded() -> None:
    assert [plural(n, "repeat") for n in (0, 1, 2)] == ["0 repeats", "1 repeat", "2 repeats"]
    assert plural(2, "stitch", "stitches") == "2 stitches"
    assert and_list(["front"]) == "front"


@pytest.mark.parametrize("cache", ["read-only", "a file", "none"])
def test_sentences_need_no_cache(tmp_path: Path, cache: str) -> None:
    place = tmp_path / "cache"
    if cache == "a file":
        place.write_text("")
    elif cache == "read-only":
        place.mkdir(mode=0o500)
    run = "from yokefellow.words import words; print(words('findings/yoke').no_lines_remedy())"
    ended = subprocess.run(
        [sys.executable, "-c", run],
        env={"XDG_CACHE_HOME": str(place), "HOME": str(place), "PATH": ""},
        capture_output=True,
        text=True,
    )
    assert ended.stdout.strip() == 'For a raglan write style = "raglan".', ended.stderr
