"""The independent knitter works the printed sheet of sweaters with bands, and looks at the yoke.

She has the HTML page alone: every row must be workable and end on its printed count, and the
yoke she painted must show each chart, repeated round, at the rounds of its band.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from itertools import count, islice
from pathlib import Path

import pytest

from tests.banded.sweaters import banded
from tests.knitter import knit_page
from tests.knitter.page import read_page
from tests.knitter.painting import Printed, Round, felt, paint, plain_round, seen
from tests.often import portions
from tests.sweaters import project
from yokefellow.charts.chart import Chart, ChartKind, Work, picture
from yokefellow.findings import PlanError
from yokefellow.plan import Plan, plan
from yokefellow.project_file.load import load
from yokefellow.sheet.html import render_html

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "late-veranda.toml"

SWEATERS = 48
PORTIONS = 8
FIRST_SEED = 50_000


@dataclass
class Yarns(HTMLParser):
    """Reads which yarn is printed in front of each row: `span.yarn-of` inside `.line`."""

    by_row: dict[tuple[str, int], str] = field(default_factory=dict)
    at: tuple[str, int] | None = None
    is_yarn: bool = False

    def __post_init__(self) -> None:
        super().__init__()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        del tag  # the class alone says what it is
        said = {name: value or "" for name, value in attrs}
        classes = said.get("class", "").split()
        if "line" in classes:
            self.at = (said["data-section"], int(said["data-first"]))
        self.is_yarn = "yarn-of" in classes

    def handle_data(self, data: str) -> None:
        if self.is_yarn and self.at:
            self.by_row[self.at] = data.split()[0]
            self.is_yarn = False


def printed_yoke(html: str) -> list[Printed]:
    """Every round of the yoke as printed, with the yarn that stands in front of it."""
    yarns = Yarns()
    yarns.feed(html)
    (yoke,) = (part for part in read_page(html) if part.key == "yoke")
    return [
        Printed(line.what, yarns.by_row.get(("yoke", line.first), "MC"))
        for line in yoke.lines
        for _ in range(line.first, line.last + 1)
    ]


def painted_bands(made: Plan, html: str) -> tuple[Round, ...]:
    """The fabric from the first round of the first band to the underarm."""
    first = made.shape.yoke.bands[0]
    return paint(printed_yoke(html)[first.first - 1 :], plain_round(first.start.got))


def purled(chart: Chart) -> list[tuple[bool, ...]]:
    return [tuple(cell.work is Work.PURL for cell in row.cells) for row in chart.rows]


def looks_right(made: Plan) -> None:
    html = render_html(made)
    knitted = knit_page(html)
    assert knitted.held == (made.shape.split.held,) * 2
    assert knitted.loops == made.total_stitches
    fabric = painted_bands(made, html)
    above = made.shape.yoke.bands[0].first
    for band, chart in zip(made.shape.yoke.bands, made.charts, strict=True):
        part = fabric[band.first - above : band.last - above + 1]
        if chart.kind is ChartKind.PURL:
            assert list(felt(part)) == [row * band.repeats for row in purled(chart)]
        assert seen(part) == tuple(row * band.repeats for row in picture(chart)), chart.name


def portion(number: int) -> list[Plan]:
    found: list[Plan] = []
    for seed in islice(count(FIRST_SEED + 1000 * number), 100):
        try:
            found.append(plan(project(banded(seed))))
        except PlanError:
            continue
        if len(found) == SWEATERS // PORTIONS:
            break
    return found


@pytest.mark.parametrize("number", portions(PORTIONS))
def test_the_knitter_gets_every_picture_back_from_the_printed_sheet(number: int) -> None:
    made = portion(number)
    assert len(made) == SWEATERS // PORTIONS
    for one in made:
        looks_right(one)


def test_the_example_comes_off_the_needles_as_it_was_drawn() -> None:
    looks_right(plan(load(EXAMPLE)))


def test_the_example_has_nothing_to_be_careful_of() -> None:
    made = plan(load(EXAMPLE))
    assert made.findings == ()
    assert [band.name for band in made.shape.yoke.bands] == ["pebbles", "lanterns", "low-wall"]
    assert set(made.yarns) == {"MC", "CC1", "CC2"}
    # derived: read off the chart drawn in the example, from the neck down
    drawn = ["######", "...#..", "..###.", "..#.#.", "..###.", "...#..", "######"]
    colours = {".": "MC", "#": "CC2"}
    lanterns = picture(made.charts[1])
    assert [tuple(colours[mark] for mark in line) for line in drawn] == list(lanterns[::2])


@pytest.mark.parametrize("number", range(0, PORTIONS, 4))
def test_the_front_has_a_whole_or_a_half_repeat_at_its_centre(number: int) -> None:
    """From the printed split: where the round begins, and where the middle of the front is."""
    for made in portion(number):
        split = made.shape.split
        half_back = split.back // 2
        centre = half_back + split.held + split.front / 2
        whole = split.yoke
        # derived: the round begins at the centre back, so the front's centre lies half-way round,
        # to half a stitch where the back is odd
        assert abs(centre - whole / 2) <= 0.5
        for band in made.shape.yoke.bands:
            (check,) = (
                one
                for one in made.checks
                if one.number == band.first - 1 and one.title.startswith("Band ")
            )
            half_way = band.start.got / 2
            width = band.start.got / band.repeats
            if "the middle of a repeat" in check.text:
                assert half_way % width == pytest.approx(width / 2)
            else:
                assert "between two repeats" in check.text
                assert half_way % width == pytest.approx(0)
            assert "begins at the center back" in check.text
