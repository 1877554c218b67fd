"""The charts of the bands: every square is painted, on the page, in words, in characters, as data.

What is drawn is read back from the drawing, and compared with the picture
that the band's chart makes (`yokefellow.charts.chart`).
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import replace
from io import BytesIO
from itertools import product

import pypdf
import pytest

from tests.sheet.pages import read, squeezed
from tests.sheet.plans import HOSTILE, banded, meadow, small, tall
from yokefellow.charts.chart import Work, picture
from yokefellow.plan import Plan
from yokefellow.sheet.chart_drawing import CELL, EDGE, draw_chart
from yokefellow.sheet.colourwork import ChartPart, ChartRowView
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.lines import Block, Halt, Line
from yokefellow.sheet.pages import page
from yokefellow.sheet.pdf import render_pdf
from yokefellow.sheet.text import render_text
from yokefellow.sheet.tints import INK, NO_STITCH, TINTS, colours
from yokefellow.sheet.view import view

BANDED = {"banded": banded, "meadow": meadow, "tall": tall}

_OBLONG = re.compile(r"M(-?[0-9.]+) (-?[0-9.]+)h([0-9.]+)v([0-9.]+)h-([0-9.]+)z")


@pytest.fixture(params=BANDED)
def banded_plan(request: pytest.FixtureRequest) -> Plan:
    return BANDED[request.param]()


def bands(plan: Plan) -> list[Block]:
    return [block for s in view(plan).sections for block in s.blocks if block.part]


def part_of(block: Block) -> ChartPart:
    assert block.part is not None
    return block.part


def code_of(plan: Plan) -> dict[str, str]:
    return {colour.letter: colour.code for colour in colours(plan).values()}


def squares(d: str) -> set[tuple[float, float]]:
    """The upper left corners of the squares an oblong path paints; none twice."""
    found: list[tuple[float, float]] = []
    for x, y, wide, high, back in _OBLONG.findall(d):
        assert wide == back
        assert float(high) == CELL
        steps = float(wide) / CELL
        assert steps == round(steps)
        found += [(round(float(x) + CELL * step, 1), float(y)) for step in range(round(steps))]
    assert _OBLONG.sub("", d) == ""
    assert len(found) == len(set(found))
    return set(found)


def painted(part: ChartPart) -> list[list[str]]:
    """Read the picture back from the paths, in the order of working: a letter for each square."""
    outline = re.fullmatch(r"M([0-9.]+) [0-9]+h([0-9]+)v([0-9]+)h-[0-9]+z", part.drawing.outline)
    assert outline
    left, wide, high = map(float, outline.groups())
    at = {
        place: fill.letter for fill in part.drawing.fills for place in squares(fill.d)
    } | dict.fromkeys(squares(part.drawing.empty), "")
    seen = [
        [
            at[round(left + column * CELL, 1), EDGE + row * CELL]
            for column in range(round(wide / CELL))
        ]
        for row in range(round(high / CELL))
    ]
    if part.chart.as_it_hangs:
        return seen
    # common practice, no source: a chart in the round is read from the bottom up, from the right
    return [row[::-1] for row in reversed(seen)]


def test_the_squares_paint_the_picture(banded_plan: Plan) -> None:
    letters = code_of(banded_plan)
    for number, chart in enumerate(banded_plan.charts, start=1):
        parts = [
            part_of(block) for block in bands(banded_plan) if part_of(block).chart.number == number
        ]
        shown = [row for part in parts for row in painted(part)]
        seen = [tuple(letters[letter] for letter in row if letter) for row in shown]
        assert seen == list(picture(chart)[:: chart.times])


def test_one_path_for_each_colour(banded_plan: Plan) -> None:
    for block in bands(banded_plan):
        letters = [fill.letter for fill in part_of(block).drawing.fills]
        assert len(letters) == len(set(letters))
        assert len(letters) <= len(part_of(block).chart.colours)


def test_nothing_leaves_the_chart(banded_plan: Plan) -> None:
    for block in bands(banded_plan):
        drawing = part_of(block).drawing
        _, _, width, height = map(float, drawing.view_box.split())
        for fill in (*drawing.fills, *drawing.ghosts):
            for x, y in squares(fill.d):
                assert 0 <= x <= width - CELL
                assert 0 <= y <= height - CELL
        for number in drawing.numbers:
            # derived: a bold digit of the font is 0.7 of its size wide, at most
            long = len(number.text) * 11 * 0.7
            assert drawing.anchor == "start"
            assert float(number.x) + long < width + 1
        for stitch in drawing.columns:
            assert 0 < float(stitch.x) < width
            assert 0 < float(stitch.baseline) < height


def test_a_growing_chart_stands_in_columns() -> None:
    chart = view(meadow()).charts[1]
    assert (chart.first_width, chart.last_width) == (4, 8)  # derived: as the chart is written
    for above, below in zip(chart.rows, chart.rows[1:], strict=False):
        for before, after in zip(above.cells, below.cells, strict=True):
            # A stitch begins as it is made, and never ends.
            assert (before is None) == (after is None or after.work == "make")
    assert "empty" in render_html(meadow())


def test_signs_stand_where_the_work_is() -> None:
    for block in bands(meadow()):
        part = part_of(block)
        works = [cell.work for row in part.rows for cell in row.cells if cell is not None]
        drawn = part.drawing
        # derived: a dot is drawn with two arcs; every other sign and letter begins with one M
        assert drawn.dots.count("a") == 2 * works.count(Work.PURL)
        assert drawn.signs.count("M") == works.count(Work.SLIP) + works.count(Work.MAKE)
        hands = sum(1 for row in part.rows if row.hand)
        lettered = len(part.chart.colours) > 1
        assert drawn.letters.count("M") == hands + lettered * len(works)
        assert drawn.arrows.count("M") == len(part.rows)


def test_the_repeats_beside_are_those_of_the_chart() -> None:
    stairs = tuple(view(meadow()).charts[3].rows)
    drawing = draw_chart(stairs)
    ghosts = {place: fill.letter for fill in drawing.ghosts for place in squares(fill.d)}
    left = float(re.match(r"M([0-9.]+)", drawing.outline)[1])  # type: ignore[index]
    last = len(stairs) - 1
    wide = len(stairs[0].cells)
    for (place, row), column in product(enumerate(stairs), range(wide)):
        cell = row.cells[column]
        assert cell is not None
        for away in (-wide, wide):
            x = round(left + (wide - 1 - column + away) * CELL, 1)
            assert ghosts[x, EDGE + (last - place) * CELL] == cell.letter


# published: W3C, Web Content Accessibility Guidelines 2.2, criterion 1.4.3 (4.5 to 1) and the
# definition of relative luminance
def test_letters_can_be_read_on_every_tint() -> None:
    def luminance(tint: str) -> float:
        parts = [int(tint[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    for tint in TINTS.values():
        assert (luminance(tint) + 0.05) / (luminance(INK) + 0.05) >= 4.5
    # The main colour and the first contrast are told apart without any hue.
    assert (luminance(TINTS["A"]) + 0.05) / (luminance(TINTS["B"]) + 0.05) > 2


def test_every_row_is_numbered_as_its_rounds(banded_plan: Plan) -> None:
    for chart, shape in zip(view(banded_plan).charts, banded_plan.shape.yoke.bands, strict=True):
        rounds = [n for row in chart.rows for n in range(row.first, row.last + 1)]
        assert rounds == list(range(shape.first, shape.last + 1))
        for row in chart.rows:
            several = row.last > row.first
            assert row.numbers == (f"{row.first}–{row.last}" if several else f"{row.first}")


def test_blocks_hold_every_item_once_and_in_order(plan: Plan) -> None:
    for section in view(plan).sections:
        items = [
            item for block in section.blocks for item in (*block.ahead, *block.items, *block.behind)
        ]
        assert tuple(items) == section.items


def test_a_band_stands_beside_its_own_rounds(banded_plan: Plan) -> None:
    for block in bands(banded_plan):
        lines = [item for item in block.items if isinstance(item, Line)]
        rows = part_of(block).rows
        assert (lines[0].first, lines[-1].last) == (rows[0].first, rows[-1].last)
        by_round = {n: row for row in rows for n in range(row.first, row.last + 1)}
        for line in lines:
            row = by_round[line.first]
            assert line.yarn == "" or line.yarn in {hand.code for hand in line.hands}
            worked = {cell.code for cell in row.cells if cell and cell.work != "slip"}
            assert {hand.code for hand in line.hands} == worked


def test_every_round_of_a_band_has_its_box_beside_the_chart(banded_plan: Plan) -> None:
    html = render_html(banded_plan)
    tables = re.findall(r'<table class="lines banded.*?</table>', html, re.DOTALL)
    boxes = [int(n) for table in tables for n in re.findall(r'id="yoke-([0-9]+)"', table)]
    wanted = [n for b in banded_plan.shape.yoke.bands for n in range(b.first, b.last + 1)]
    assert boxes == wanted


def test_a_tall_band_is_divided_with_its_chart() -> None:
    parts = bands(tall())
    assert len(parts) > 1
    assert [row for block in parts for row in part_of(block).rows] == list(
        view(tall()).charts[0].rows
    )
    assert {part_of(block).part for block in parts} == {
        f"part {number} of {len(parts)}" for number in range(1, len(parts) + 1)
    }


@pytest.mark.parametrize("which", ["meadow", "tall"])
def test_a_band_stays_on_one_page_with_its_chart(which: str) -> None:
    plan = BANDED[which]()
    reader = pypdf.PdfReader(BytesIO(render_pdf(plan)))
    pages = [squeezed(page.extract_text()) for page in reader.pages]
    for block in bands(plan):
        lines = [item for item in block.items if isinstance(item, Line)]
        # The numbers of the chart come first, then the table.
        chart = "".join(row.numbers for row in reversed(part_of(block).rows))
        first, last = squeezed(lines[0].what), squeezed(lines[-1].what)
        assert any(chart in text and first in text and last in text for text in pages)


def test_the_chart_is_told_to_those_who_do_not_see_it(banded_plan: Plan) -> None:
    elements = read(render_html(banded_plan))
    titles = {e.attributes.get("id"): e.text for e in elements if e.tag in ("title", "desc")}
    drawn = [e for e in elements if e.tag == "svg"]
    assert all(e.attributes["role"] == "img" for e in drawn)
    for block in bands(banded_plan):
        part = part_of(block)
        title, text = titles[f"{part.id}-title"], titles[f"{part.id}-text"]
        assert part.chart.name in title
        assert part.chart.kind in title
        assert f"{part.chart.last_width} stitch" in title
        for row in part.rows:
            assert row.words in text
    reader = pypdf.PdfReader(BytesIO(render_pdf(banded_plan)))
    alternatives = "\n".join(alternative_texts(reader.trailer["/Root"]))
    for chart in view(banded_plan).charts:
        assert chart.title in alternatives
        assert squeezed(chart.description) in squeezed(alternatives)


def alternative_texts(node: object) -> list[str]:
    """Every alternative text below a node of the structure tree."""
    if isinstance(node, pypdf.generic.IndirectObject):
        node = node.get_object()
    if isinstance(node, pypdf.generic.ArrayObject):
        return [text for kid in node for text in alternative_texts(kid)]
    if not isinstance(node, pypdf.generic.DictionaryObject):
        return []
    own = [str(node["/Alt"])] if "/Alt" in node else []
    below = next((node[key] for key in ("/StructTreeRoot", "/K") if key in node), None)
    return own + alternative_texts(below)


@pytest.mark.parametrize("which", [banded, meadow])
def test_the_rows_in_words_are_the_picture(which: Callable[[], Plan]) -> None:
    letters = code_of(which())
    for chart, view_of in zip(which().charts, view(which()).charts, strict=True):
        for row, seen in zip(view_of.rows, picture(chart)[:: chart.times], strict=True):
            counted = re.findall(r"([0-9]+) ([A-K])\b", row.words)
            told = [letters[letter] for count, letter in counted for _ in range(int(count))]
            assert tuple(told) == seen


def from_characters(row: ChartRowView) -> list[str]:
    """Read the letters from the arrow, which stands at the right."""
    return [row.text[at] for at in range(len(row.text) - 2, -1, -2) if row.text[at] != " "]


def test_the_text_holds_the_chart(banded_plan: Plan) -> None:
    letters = code_of(banded_plan)
    text = render_text(banded_plan)
    for chart, view_of in zip(banded_plan.charts, view(banded_plan).charts, strict=True):
        for row, seen in zip(view_of.rows, picture(chart)[:: chart.times], strict=True):
            assert tuple(letters[letter] for letter in from_characters(row)) == seen
            shown = rf"{re.escape(row.text)} < {row.hand:1} {row.numbers}\n"
            assert re.search(shown, text)


def turned(plan: Plan) -> Plan:
    """The same plan with its charts drawn as the sweater hangs."""
    choices = plan.project.sheet.model_copy(update={"chart_direction": "as it hangs"})
    return replace(plan, project=plan.project.model_copy(update={"sheet": choices}))


def test_both_directions_show_one_picture(banded_plan: Plan) -> None:
    for worked, hung in zip(bands(banded_plan), bands(turned(banded_plan)), strict=True):
        one, other = part_of(worked), part_of(hung)
        assert (one.chart.as_it_hangs, other.chart.as_it_hangs) == (False, True)
        assert painted(one) == painted(other)
        assert one.drawing.outline != other.drawing.outline
        # The first round stands at the bottom, or on top; the arrows beside the first stitch.
        assert [mark.text for mark in one.drawing.numbers] == [
            mark.text for mark in reversed(other.drawing.numbers)
        ]
        first = next(mark for mark in one.drawing.columns if mark.text == "1")
        same = next(mark for mark in other.drawing.columns if mark.text == "1")
        assert float(first.x) >= max(float(mark.x) for mark in one.drawing.columns)
        assert float(same.x) <= min(float(mark.x) for mark in other.drawing.columns)
        assert one.chart.reading != other.chart.reading


def test_the_text_holds_the_chart_as_it_hangs() -> None:
    text = render_text(turned(banded()))
    for chart in view(turned(banded())).charts:
        for row in chart.rows:
            assert re.search(
                rf"{row.numbers} +{row.hand} *> {re.escape(row.text.rstrip())}\n", text
            )


def test_the_data_holds_the_chart(banded_plan: Plan) -> None:
    document = json.loads(render_json(banded_plan))
    given = zip(document["charts"], banded_plan.charts, banded_plan.shape.yoke.bands, strict=True)
    for data, chart, shape in given:
        assert (data["first"], data["last"]) == (shape.first, shape.last)
        assert data["repeats"] == shape.repeats
        seen = [tuple(c["code"] for c in row["cells"] if c) for row in data["rows"]]
        assert seen == list(picture(chart)[:: chart.times])
        works = [tuple(c["work"] for c in row["cells"] if c) for row in data["rows"]]
        assert works == [tuple(cell.work.value for cell in row.cells) for row in chart.lines]


def test_a_sheet_without_bands_has_no_charts() -> None:
    assert view(small()).charts == ()
    assert view(small()).above is None
    assert json.loads(render_json(small()))["charts"] == []


def test_hostile_colours_stay_words() -> None:
    for html in (render_html(meadow()), page(view(meadow()), medium="paper")):
        elements = read(html)
        assert "img" not in {element.tag for element in elements}
        assert HOSTILE[:80].strip() in next(e for e in elements if e.tag == "body").text


def test_the_key_names_every_colour_and_sign_of_the_chart(banded_plan: Plan) -> None:
    keys = [e.text for e in read(render_html(banded_plan)) if e.has("key")]
    first = [part_of(block) for block in bands(banded_plan) if part_of(block).is_first]
    # The first key is that of the yoke from above.
    for part, key in zip(first, keys[1:], strict=True):
        for colour in part.chart.colours:
            shade = " ".join(colour.shade.split())
            assert f"{colour.letter} {colour.code} {shade}".strip() in key
        for sign in part.chart.signs:
            assert sign.work == "knit" or sign.words in key


def test_what_stands_in_for_a_missing_swatch_is_told() -> None:
    assumed = " ".join(view(meadow()).assumed)
    for fabric in ("purl texture", "stranded", "slip stitch", "mosaic"):
        assert f"no swatch of the {fabric} fabric" in assumed
    assert "Stripes are plain knitting" in " ".join(view(banded()).assumed)
    got = {residual.place: residual.counted for residual in view(meadow()).residuals}
    for number, band in enumerate(meadow().shape.yoke.bands, start=1):
        assert got[f"Band {number}, {band.name}, all round"] == f"{band.start.got} sts"


def test_a_yarn_is_joined_where_it_was_cut_and_nowhere_else() -> None:
    """Every `join` of a round answers to a `Break`, or to the first use of its yarn."""
    yoke = next(section for section in view(meadow()).sections if section.key == "yoke")
    in_drawer = {colour.code for colour in colours(meadow()).values()} - {"MC"}
    joined = 0
    for item in yoke.items:
        if isinstance(item, Line):
            for code in re.findall(r"join (CC[1-9])", item.why):
                assert code in in_drawer
                in_drawer.remove(code)
                joined += 1
            worked = {hand.code for hand in item.hands} - {"MC"}
            assert not worked & in_drawer
        elif isinstance(item, Halt):
            in_drawer |= set(re.findall(r"Break (CC[1-9])", item.text))
    assert joined >= len(colours(meadow())) - 1


def test_the_grey_of_no_stitch_is_no_yarns() -> None:
    assert NO_STITCH not in TINTS.values()
    assert NO_STITCH in render_html(meadow())
