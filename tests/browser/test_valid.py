"""The page is valid HTML, by a checker that is not ours."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

from tests.browser.chromium import EXAMPLES, needed, written

NAMES = (*EXAMPLES, "small", "inches", "meadow", "tall", "raglan", "hostile")


CONFIG = Path(__file__).with_name("valid.json")


def test_html_validate_finds_nothing(tmp_path: Path) -> None:
    assert told([written(name, tmp_path) for name in NAMES], tmp_path) == []


def test_it_would_find_something(tmp_path: Path) -> None:
    wrong = tmp_path / "wrong.html"
    wrong.write_text(written("small", tmp_path).read_text("utf-8").replace("</h2>", "</h3>", 1))
    assert "close-order" in told([wrong], tmp_path)


def told(files: list[Path], folder: Path) -> list[str]:
    """The rules that are broken; the words of the first one stand beside it."""
    command = needed(browser=False) / "node_modules/.bin/html-validate"
    into = folder / "told.json"
    ran = subprocess.run(
        [command, "--config", CONFIG, "--formatter", f"json={into}", *files],
        capture_output=True,
        text=True,
        timeout=120,
    )
    assert into.exists(), ran.stderr
    found = json.loads(into.read_text("utf-8"))
    assert ran.returncode == (1 if found else 0)
    return [message["ruleId"] for each in found for message in each["messages"]]
