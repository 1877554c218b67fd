"""Looks at pages in headless Chromium, through `looks.mjs`."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from tests.sheet.plans import hostile, named
from tests.sweaters import planned as project_plan
from tests.sweaters import sized
from yokefellow.plan import Plan, plan
from yokefellow.project_file.load import load
from yokefellow.sheet.html import render_html
from yokefellow.what_if import prospects

ROOT = Path(__file__).resolve().parents[2]
TOOLS = ROOT / ".tool/page"
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
EXAMPLES = tuple(sorted(path.stem for path in (ROOT / "examples").glob("*.toml")))


def needed(*, browser: bool = True) -> Path:
    """The folder of the node packages; skips where a tool is missing, unless none may be."""
    missing = [] if shutil.which("node") else ["node"]
    missing += [] if (TOOLS / "node_modules/axe-core").is_dir() else ["its packages"]
    missing += ["Chromium"] if browser and not browser_here() else []
    if missing:
        words = f"not here: {', '.join(missing)}; `make page` says how to get it"
        if os.environ.get("YOKEFELLOW_SKIP_NOTHING"):
            pytest.fail(words)
        pytest.skip(words)
    return TOOLS


@cache
def browser_here() -> str:
    return next(filter(None, map(shutil.which, BROWSERS)), "")


def look(*looks: Mapping[str, Any], flags: Sequence[str] = ()) -> list[dict[str, Any]]:
    """What is seen in one browser, look by look."""
    tools = needed()
    ran = subprocess.run(
        ["node", Path(__file__).with_name("looks.mjs")],
        input=json.dumps({"browser": browser_here(), "flags": flags, "looks": looks}),
        env={**os.environ, "PAGE_TOOLS": str(tools)},
        capture_output=True,
        text=True,
        timeout=600,
    )
    assert ran.returncode == 0, ran.stderr
    seen: list[dict[str, Any]] = json.loads(ran.stdout)
    return seen


@cache
def planned(name: str) -> Plan:
    if name in EXAMPLES:
        return plan(load(ROOT / f"examples/{name}.toml"))
    own: dict[str, Callable[[], Plan]] = {"bands": bands, "hostile": hostile, "raglan": raglan}
    return own[name]() if name in own else named(name)


def bands() -> Plan:
    """A baby's sweater with two bands: everything a page can hold, and few boxes."""
    ball = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 4}
    return project_plan(
        sized(
            "babies",
            "24",
            stitches_per_cm=2.4,
            yarn={"MC": {**ball, "colour": "oat"}, "CC1": {**ball, "colour": "moss"}},
            garment__yoke__bands=[{"chart": "diamonds"}, {"chart": "pebbles"}],
        )
    )


def raglan() -> Plan:
    """A child's sweater with four lines."""
    return project_plan(sized("children", "6", stitches_per_cm=2.2, garment__yoke__style="raglan"))


def written(name: str, folder: Path) -> Path:
    """The page of an example, or of one of the sweaters of the other tests, as a file."""
    file = folder / f"{name}.html"
    file.write_text(render_html(planned(name), prospects(planned(name))), "utf-8")
    return file
