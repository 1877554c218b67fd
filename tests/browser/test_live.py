"""The live page in a real browser: by keyboard alone, in every setting, under its own policy."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.browser.chromium import ROOT, browser_here, needed
from tests.browser.test_accessible import SETTINGS
from yokefellow.project_file.load import load

EXAMPLE = ROOT / "examples" / "warm-evenings.toml"


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, Any]]:
    """The file after the story, and what was seen."""
    tools = needed()
    file = Path(shutil.copy(EXAMPLE, tmp_path_factory.mktemp("live") / "mine.toml"))
    command = (sys.executable, "-m", "yokefellow", "open", str(file), "--no-browser")
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as served:
        assert served.stdout is not None
        url = served.stdout.readline().split()[-1]
        try:
            ran = subprocess.run(
                ["node", Path(__file__).with_name("live.mjs")],
                input=json.dumps({"browser": browser_here(), "url": url, "settings": SETTINGS}),
                env={**os.environ, "PAGE_TOOLS": str(tools)},
                capture_output=True,
                text=True,
                timeout=600,
            )
        finally:
            served.terminate()
    assert ran.returncode == 0, ran.stderr
    return file, json.loads(ran.stdout)


@pytest.mark.parametrize("setting", SETTINGS)
def test_axe_finds_nothing_and_nothing_is_too_wide(
    page: tuple[Path, dict[str, Any]], setting: str
) -> None:
    found = page[1]["settings"][setting]
    assert found["violations"] == []
    assert {"label", "target-size"} <= set(found["passed"])
    # published: W3C, WCAG 2.2, criterion 1.4.10, no scrolling sideways at 320 px
    assert found["wide"] <= SETTINGS[setting]["viewport"]["width"]
    assert found["said"] == []


def test_a_length_is_moved_by_the_keyboard_and_everything_follows(
    page: tuple[Path, dict[str, Any]],
) -> None:
    story = page[1]["story"]
    assert story["changed"]
    assert story["moved"]["length"].endswith(" in")
    assert story["strip"] > 10  # derived: one for each place of the slider that is tried
    assert story["foot"].strip()
    assert story["said"] == []


def test_a_slip_is_told_at_its_field_and_undone(page: tuple[Path, dict[str, Any]]) -> None:
    story = page[1]["story"]
    assert story["refused"]["typed"] == "38-39"
    assert story["refused"]["marked"] == 1
    assert "one number is wanted" in story["refused"]["told"]
    assert story["undone"] != "close"
    assert story["redone"] == "close"


def test_what_was_shaped_is_in_the_file_with_its_remarks(
    page: tuple[Path, dict[str, Any]],
) -> None:
    file, seen = page
    project = load(file)
    assert project.ease.chest == "close"
    assert isinstance(project.garment.sleeves.length, float)
    assert "mine.toml" in seen["story"]["message"]
    before = EXAMPLE.read_text("utf-8").splitlines()
    remarks = {line for line in before if line.startswith("#")}
    assert remarks <= set(file.read_text("utf-8").splitlines())
    assert [path.name for path in file.parent.iterdir()] == ["mine.toml"]
