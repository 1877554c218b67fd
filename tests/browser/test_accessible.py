"""axe finds nothing against WCAG 2.2 AA, on any width, in any scheme of colours."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.browser.chromium import EXAMPLES, look, written

WIDE = {"viewport": {"width": 1280, "height": 900}}
SETTINGS: dict[str, dict[str, Any]] = {
    "desk": WIDE,
    "phone": {"viewport": {"width": 390, "height": 844}},
    "narrow phone": {"viewport": {"width": 320, "height": 640}},
    # A browser zoomed to 200 % has half as many of its own pixels.
    "zoomed": {"viewport": {"width": 640, "height": 450}, "scale": 2},
    "dark": {**WIDE, "colorScheme": "dark"},
    "dark narrow phone": {"viewport": {"width": 320, "height": 640}, "colorScheme": "dark"},
    "forced colours": {**WIDE, "forcedColors": "active"},
    "forced dark colours": {**WIDE, "forcedColors": "active", "colorScheme": "dark"},
    "no motion": {**WIDE, "reducedMotion": "reduce"},
}
FEW = ("desk", "narrow phone")

CASES = {"bands": tuple(SETTINGS), **dict.fromkeys((*EXAMPLES, "inches", "raglan", "hostile"), FEW)}

LOOKED_AT = {"color-contrast", "target-size", "label", "region"}
"""Some rules that must have been applied, or nothing was looked at."""

UNDECIDED = {
    # One letter in a drawing, one sign: too short. Words in a cell that lies over two others;
    # tests/sheet/test_contrast.py reckons with every ground.
    "color-contrast": ("text[", ".filled", "partially overlaps other elements"),
    "th-has-data-cells": (".lengths",),  # where a choice is refused, its cells are one
}
"""What axe leaves to people, by its rule, and where or why alone it may."""


@pytest.mark.parametrize("name", CASES)
def test_axe_finds_nothing(name: str, tmp_path: Path) -> None:
    url = written(name, tmp_path).as_uri()
    seen = look(*({"task": "check", "url": url, "setting": SETTINGS[s]} for s in CASES[name]))
    for setting, found in zip(CASES[name], seen, strict=True):
        assert found["violations"] == [], setting
        assert LOOKED_AT - ({"color-contrast"} if "forced" in setting else set()) <= set(
            found["passed"]
        )
        for rule, where, why in found["undecided"]:
            assert any(known in where + why for known in UNDECIDED[rule]), (setting, where, why)
        # published: W3C, WCAG 2.2, criterion 1.4.10, no scrolling sideways at 320 px
        assert found["wide"] <= SETTINGS[setting]["viewport"]["width"], setting
        assert found["moving"] == 0, setting
        assert found["said"] == [], setting


@pytest.mark.parametrize("name", ["bands", "inches"])
def test_letters_twice_as_large_fit(name: str, tmp_path: Path) -> None:
    """Someone has set the browser's letters to 200 %."""
    look_of = {"task": "check", "url": written(name, tmp_path).as_uri(), "setting": WIDE}
    # derived: twice the 16 px of a browser as it comes
    (found,) = look(look_of, flags=["--blink-settings=defaultFontSize=32"])
    assert found["violations"] == []
    assert found["wide"] <= WIDE["viewport"]["width"]
