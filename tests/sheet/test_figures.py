"""How the sheet words its numbers."""

from __future__ import annotations

import doctest

import pytest

from yokefellow.quantities import yarn_length
from yokefellow.sheet import figures


def test_the_examples_hold() -> None:
    assert doctest.testmod(figures).failed == 0


@pytest.mark.parametrize(
    ("part", "whole", "shown"),
    # derived: rounded down, so that 100 % is said only of the whole
    [(0, 7, "0 %"), (6, 7, "85 %"), (699, 700, "99 %"), (700, 700, "100 %")],
)
def test_a_share_is_rounded_down(part: int, whole: int, shown: str) -> None:
    assert figures.percent(part, whole) == shown


def test_yards_and_metres() -> None:
    # published: the yard is 0.9144 m exactly, international yard and pound agreement, 1959
    assert yarn_length(91.44, "in") == "100 yd (91 m)"
    assert yarn_length(91.44, "cm") == "91 m"


@pytest.mark.parametrize(
    ("mm", "shown"),
    # published: Craft Yarn Council, Standards and Guidelines, knitting needle sizes (from memory)
    [(3.25, "3.25 mm (US 3)"), (4.0, "4 mm (US 6)"), (8.0, "8 mm (US 11)"), (7.0, "7 mm")],
)
def test_needles_by_both_names(mm: float, shown: str) -> None:
    assert figures.needle(mm, "in") == shown
    assert "US" not in figures.needle(mm, "cm")


def test_gauge_over_four_inches() -> None:
    # derived: 4 in are 10.16 cm
    assert figures.in_a_swatch(2.0, "in") == "20.3"
    assert figures.in_a_swatch(2.0, "cm") == "20"
