"""Every colour of letters stands out from every ground it may stand on, in both schemes."""

from __future__ import annotations

import re

import pytest

from tests.sheet.plans import small
from yokefellow.sheet.html import render_html


def schemes() -> dict[str, dict[str, str]]:
    """The colours of the style sheet by their names: as it comes, and dark."""
    found = re.findall(r":root \{([^}]*)\}", render_html(small()))
    light, dark = (names for names in map(named, found) if names.get("ink", "").startswith("#"))
    return {"light": light, "dark": light | dark}


def named(rules: str) -> dict[str, str]:
    return dict(re.findall(r"--(\w+): (#?\w+)", rules))


def light(colour: str) -> float:
    # published: W3C, WCAG 2.2, definition of relative luminance
    shares = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    r, g, b = (s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    low, high = sorted((light(one), light(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("ground", ["ground", "tint", "here"])
@pytest.mark.parametrize("letters", ["ink", "soft"])
def test_letters_stand_out(letters: str, ground: str, scheme: str) -> None:
    colours = schemes()[scheme]
    # published: W3C, WCAG 2.2, criterion 1.4.3, 4.5 : 1
    assert contrast(colours[letters], colours[ground]) >= 4.5


def test_the_reckoning_is_the_published_one() -> None:
    # published: W3C, Understanding WCAG 2.2, 1.4.3: 21 : 1 for black on white
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
