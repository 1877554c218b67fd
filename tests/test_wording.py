"""Lengths in sentences."""

from __future__ import annotations

import pytest

from yokefellow.quantities import LengthUnit, length


@pytest.mark.parametrize(
    ("cm", "unit", "words"),
    [
        # derived: 2.54 cm to the inch, tenths of a cm, quarters of an inch
        (96.52, "in", "38 in"),
        (97.2, "in", "38¼ in"),
        (97.8, "in", "38½ in"),
        (98.5, "in", "38¾ in"),
        (99.0, "in", "39 in"),
        (1.27, "in", "½ in"),
        (0.1, "in", "0 in"),
        (-0.1, "in", "0 in"),
        (-3.81, "in", "−1½ in"),
        (96.52, "cm", "96.5 cm"),
        (99.0, "cm", "99 cm"),
        (154.94, "cm", "154.9 cm"),
        (-1.5, "cm", "−1.5 cm"),
        (-0.01, "cm", "0 cm"),
    ],
)
def test_a_length_is_worded(cm: float, unit: LengthUnit, words: str) -> None:
    assert length(cm, unit) == words
