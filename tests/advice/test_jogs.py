"""The advice for the step where a round begins: each kind of band its own, none against a row."""

from __future__ import annotations

import pytest

from tests.charts.drawn import read
from yokefellow.advice.cautions.bands import jog_advice
from yokefellow.words import words


@pytest.mark.parametrize(
    ("kind", "lines", "times", "advice"),
    [
        # common practice, no source: a slip hides the step of a stripe that has a second round
        ("stripes", ("....", "....", "####", "####"), 1, "jog_wide_stripes"),
        ("stripes", ("....", "####"), 1, "jog_narrow_stripes"),
        ("stripes", ("....", "....", "####"), 1, "jog_mixed_stripes"),
        ("stripes", ("....", "####"), 2, "jog_wide_stripes"),
        ("stranded", (".#.#", "#.#."), 1, "jog_stranded"),
        ("mosaic", ("####", "#.#."), 2, "jog_one_in_hand"),
    ],
)
def test_each_kind_of_band_has_its_own_advice(
    kind: str, lines: tuple[str, ...], times: int, advice: str
) -> None:
    assert jog_advice(read(kind, *lines, times=times)) == advice


@pytest.mark.parametrize("advice", ["jog_stranded", "jog_one_in_hand", "jog_narrow_stripes"])
def test_no_stitch_is_slipped_against_the_row(advice: str) -> None:
    assert "slip the first" not in str(getattr(words("checks/bands"), advice)())
