"""With the keyboard alone: every control is reached in order, seen, and works."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.browser.chromium import look, written

SETTINGS: dict[str, dict[str, Any]] = {
    "desk": {"viewport": {"width": 1280, "height": 900}},
    "narrow phone": {"viewport": {"width": 320, "height": 640}},
    "dark": {"viewport": {"width": 1280, "height": 900}, "colorScheme": "dark"},
    "forced": {"viewport": {"width": 1280, "height": 900}, "forcedColors": "active"},
}


@pytest.mark.parametrize("setting", SETTINGS)
def test_every_box_can_be_reached_seen_and_ticked(setting: str, tmp_path: Path) -> None:
    url = written("small", tmp_path).as_uri()
    (seen,) = look({"task": "keyboard", "url": url, "setting": SETTINGS[setting]})
    stops = seen["stops"]
    assert [stop["stop"] for stop in stops] == list(range(seen["wanted"]))
    for stop in stops:
        # published: W3C, WCAG 2.2, criteria 2.4.7, 2.4.11, and 1.4.11 with 3 : 1
        assert stop["outline"] >= 2, stop
        assert stop["contrast"] >= 3, stop
        assert stop["seen"], stop
    # All but the first, which was ticked and unticked.
    assert seen["boxes"] - 1 == seen["before"] == seen["after"]
    assert seen["boxes"] == sum(stop["id"].rpartition("-")[2].isdigit() for stop in stops)
    assert seen["skip"] == {"words": "Go to the rounds", "seen": True}
    assert seen["landed"]
    assert seen["said"] == []
