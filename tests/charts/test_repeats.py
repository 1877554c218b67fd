"""Repeat arithmetic of the stitch dictionaries: a multiple of n, and of n plus m.

published: B. G. Walker, "A Treasury of Knitting Patterns", 1968 (from memory): each pattern is
headed by the count it needs, "multiple of 8 sts plus 5"; n stitches stand between the asterisks,
and the m balance the two edges of a flat piece. In the round there are no edges: the count is a
multiple of n, and the m are left out.
"""

from __future__ import annotations

import pytest

from tests.charts.drawn import read
from tests.knitter.mistakes import Mistake
from tests.knitter.painting import Printed, felt, paint, plain_round
from yokefellow.charts.chart import Chart
from yokefellow.notation.write import write
from yokefellow.rows.bands import band_rows
from yokefellow.rows.model import taken

# published: as above (from memory): the count that heads each pattern.
# derived: rounds of one repeat, simplified; only their width matters here.
DICTIONARY = [
    # name, n, m, rounds
    ("knit-two purl-two ribbing", 4, 2, ("..--",)),
    ("mistake-stitch ribbing", 4, 3, ("..--", "...-")),
    ("seed stitch", 2, 1, (".-", "-.")),
    ("broken block basketweave", 8, 5, ("........", "-----...", "-----...")),
]


def work(chart: Chart, *, repeats: int, stitches: int) -> list[tuple[bool, ...]]:
    page = [Printed(write(row.steps), row.yarn) for row in band_rows(chart, repeats=repeats)]
    return list(felt(paint(page, plain_round(stitches))))


@pytest.mark.parametrize(("name", "n", "m", "rounds"), DICTIONARY)
@pytest.mark.parametrize("repeats", [1, 2, 13, 60])
def test_a_multiple_of_n_goes_round_and_n_plus_m_does_not(
    name: str, n: int, m: int, rounds: tuple[str, ...], repeats: int
) -> None:
    """Published: Walker 1968, as above."""
    chart = read("purl", *rounds)
    assert chart.first_width == chart.last_width == n, name
    for row in band_rows(chart, repeats=repeats):
        assert taken(row.steps) == repeats * n
    fabric = work(chart, repeats=repeats, stitches=repeats * n)
    assert fabric == [tuple(mark == "-" for mark in line * repeats) for line in rounds]
    with pytest.raises(Mistake):
        work(chart, repeats=repeats, stitches=repeats * n + m)
