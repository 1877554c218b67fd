"""What is refused, with which code, at which field; and that nothing else ever comes out."""

import contextlib
import os
import re
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

import yokefellow.project_file
from tests.project_file.sample import SOUND, refused, spoil, under
from yokefellow.findings import ProjectError, Severity
from yokefellow.project_file.checks.project import check_project
from yokefellow.project_file.fields import LengthChange, NamedLength, Reading
from yokefellow.project_file.load import LARGEST_BYTES, load, parse

CHEST = 'chest = "38 in"'
STITCHES = 'stitches = ["26 over 4 in"]'
WASHED = "swatch.plain.washed"

KIND, COLOURS, ROWS = 'kind = "slip"', 'colours = { "#" = "CC1" }', 'rows = "#"'
CHARTS: list[tuple[tuple[str, ...], str, str]] = [
    # lines of the chart, code, field
    ((COLOURS, ROWS), "field.missing", ".kind"),
    ((KIND, ROWS), "field.missing", ".colours"),
    ((KIND, COLOURS), "field.missing", ".rows"),
    ((KIND, COLOURS, ROWS, "row = 3"), "field.unknown", ".row"),
    (('kind = "lace"', COLOURS, ROWS), "value.choice", ".kind"),
    ((KIND, "colours = {}", ROWS), "value.colours", ".colours"),
    ((KIND, 'colours = ["MC"]', ROWS), "value.colours", ".colours"),
    ((KIND, f"colours = {{ {', '.join(f'{chr(c)!r} = 1' for c in range(161, 192))} }}", ROWS),
     "value.colours", ".colours"),
    ((KIND, 'colours = { "##" = "CC1" }', ROWS), "value.mark", ".colours"),
    ((KIND, 'colours = { "" = "CC1" }', ROWS), "value.mark", ".colours"),
    ((KIND, 'colours = { " " = "CC1" }', ROWS), "value.mark", ".colours"),
    ((KIND, 'colours = { ":" = "CC1" }', ROWS), "value.mark", ".colours"),
    ((KIND, 'colours = { "\\u202e" = "CC1" }', ROWS), "value.mark", ".colours"),
    ((KIND, 'colours = { "\\u0301" = "CC1" }', ROWS), "value.mark", ".colours"),
    ((KIND, 'colours = { "#" = "red" }', ROWS), "value.yarn-code", ".colours"),
    ((KIND, 'colours = { "#" = "CC0" }', ROWS), "value.yarn-code", ".colours"),
    ((KIND, 'colours = { "#" = 1 }', ROWS), "value.yarn-code", ".colours"),
    ((KIND, COLOURS, "rows = 3"), "value.rows", ".rows"),
    ((KIND, COLOURS, "rows = { a = 1 }"), "value.rows", ".rows"),
    ((KIND, COLOURS, 'rows = ["#", 1]'), "value.rows", ".rows"),
    ((KIND, COLOURS, 'rows = [["#"]]'), "value.rows", ".rows"),
    ((KIND, COLOURS, "rows = []"), "value.rows-empty", ".rows"),
    ((KIND, COLOURS, 'rows = " \\n \\n"'), "value.rows-empty", ".rows"),
    ((KIND, COLOURS, f'rows = "{"#" * 261}"'), "value.rows-long", ".rows"),
    ((KIND, COLOURS, "rows = [" + '"#",\n' * 201 + "]"), "value.rows-long", ".rows"),
    ((KIND, COLOURS, 'rows = "\\u202e#"'), "value.text-hidden", ".rows"),
    ((KIND, COLOURS, ROWS, "times = 5"), "value.range", ".times"),
    ((KIND, COLOURS, ROWS, "times = 0"), "value.range", ".times"),
    ((KIND, COLOURS, ROWS, "times = true"), "value.whole", ".times"),
    ((KIND, COLOURS, ROWS, "times = 1.5"), "value.whole", ".times"),
    ((KIND, COLOURS, ROWS, 'grows = "yes"'), "value.yes-or-no", ".grows"),
    ((KIND, COLOURS, ROWS, f'about = "{"x" * 401}"'), "value.text-long", ".about"),
    *(
        ((f"file = {name}",), "value.chart-file", ".file")
        for name in (
            "3", '""', '"dots"', '"/dots.toml"', '"../dots.toml"', '"a/../dots.toml"',
            '"~/dots.toml"', '"c:dots.toml"', "'a\\dots.toml'", '"a//dots.toml"',
            '"https://a/dots.toml"', '"a\\u0000.toml"', f'"{"a" * 116}.toml"',
        )
    ),
    (('file = "dots.toml"',), "chart-file.no-folder", ".file"),
]  # fmt: skip
BANDS: list[tuple[tuple[str, ...], str, str]] = [
    # lines of the second band, code, field
    (("",), "field.missing", "[2].chart"),
    (('chart = "dots"', "repeat = 3"), "field.unknown", "[2].repeat"),
    (('chart = "my dots"',), "value.chart-name", "[2].chart"),
    (("chart = 3",), "value.chart-name", "[2].chart"),
    (('chart = "dots"', "repeats = 0"), "value.range", "[2].repeats"),
    (('chart = "dots"', "repeats = 601"), "value.range", "[2].repeats"),
    (('chart = "dots"', 'repeats = "12"'), "value.whole", "[2].repeats"),
    (('chart = "dots"', 'at = "low"'), "value.choice", "[2].at"),
    (('chart = "dots"', "at = 0"), "value.not-positive", "[2].at"),
    (('chart = "dots"', 'at = "50 cm"'), "value.range", "[2].at"),
    (('chart = "dots"', "colours = { CC1 = 1 }"), "value.yarn-code", "[2].colours"),
    (('chart = "dots"', 'colours = { red = "CC1" }'), "value.yarn-code", "[2].colours"),
    (('chart = "dots"', 'colours = "CC1"'), "value.colours", "[2].colours"),
]


def bands(*second: str) -> str:
    """Give the sample two bands, the second with these lines."""
    header = "[[garment.yoke.bands]]\n"
    return SOUND + header + 'chart = "beads"\n' + header + "\n".join(second) + "\n"


REFUSED: list[tuple[str, str, str]] = [
    # text of the file, code, field
    (spoil((CHEST, 'chest = "38-39"')), "value.span", "body.chest"),
    (spoil(('"3.5 mm"', '"US 3 (3.5 mm)"')), "value.two-needles", "needles.main"),
    (spoil(("[needles]", "# [needles]")), "toml.heading-remarked", "needles"),
    (spoil(("[yarn.MC]", "#[yarn.MC]")), "toml.heading-remarked", "yarn.MC"),
    (spoil((CHEST, 'chest = "38 to 39 in"')), "value.span", "body.chest"),
    (spoil((CHEST, "chest = 38 in")), "toml.unquoted", ""),
    (spoil((CHEST, 'chest = 38"')), "toml.unquoted", ""),
    (spoil((CHEST, "chest = 38°")), "toml.unquoted", ""),
    (spoil((CHEST, "chest = 38 1/2")), "toml.unquoted", ""),
    (spoil((CHEST, "chest = 38½")), "toml.unquoted", ""),
    (spoil((STITCHES, "stitches = [26 over 4 in]")), "toml.unquoted", ""),
    (spoil((STITCHES, "stitches = [26 over 4 in, 27 over 4 in]")), "toml.unquoted", ""),
    (spoil(('name = "me"', "name = my sister")), "toml.unquoted", ""),
    (spoil((CHEST, "chest = “38 in”")), "toml.curly-quotes", ""),
    (spoil((STITCHES, "stitches = [“26 over 4 in”]")), "toml.curly-quotes", ""),
    (spoil((CHEST, "chest = 38,5")), "toml.decimal-comma", ""),
    (SOUND + "[fixed]\nincreases = 120, 179, 268\n", "toml.no-brackets", ""),
    (SOUND + "[fixed]\nincreases = 120,179,268\n", "toml.no-brackets", ""),
    (SOUND + "[fixed]\nincrease_at = 4,13\n", "toml.no-brackets", ""),
    (spoil((STITCHES, 'stitches = "26 over 4 in", "27 over 4 in"')), "toml.no-brackets", ""),
    (SOUND + "[pattern.sizes]\n[pattern.sizes]\n", "toml.single-bracket", ""),
    (SOUND + '[garment.yoke.bands]\nchart = "beads"\n' * 2, "toml.single-bracket", ""),
    (spoil((CHEST, 'chest = "38""')), "toml.inch-mark", ""),
    (spoil((CHEST, "chest =")), "toml.empty-value", ""),
    (spoil((CHEST, "chest =   # later")), "toml.empty-value", ""),
    (spoil((CHEST, 'chest: "38 in"')), "toml.colon", ""),
    (spoil((CHEST, 'chest = "38 in')), "toml.unclosed", ""),
    (spoil((CHEST, 'chest = ["38 in"')), "toml.unclosed", ""),
    (spoil((CHEST, 'chest = """38 in')), "toml.unclosed", ""),
    (spoil(("[body]", "[body")), "toml.bracket", ""),
    (spoil((CHEST, f"{CHEST}\n{CHEST}")), "toml.repeated", ""),
    (SOUND + '[body]\nwaist = "30 in"\n', "toml.repeated", ""),
    (under("sheet", "large_print = yes"), "toml.true-false", ""),
    (under("sheet", "large_print = True"), "toml.true-false", ""),
    (under("body", 'upper arm = "12 in"'), "toml.key-with-blank", ""),
    (spoil((CHEST, "ch\x00est = 3")), "toml.control-character", ""),
    (spoil((CHEST, "chest")), "toml.syntax", ""),
    (spoil((CHEST, "chest = %")), "toml.syntax", ""),
    ("x = [" * 190 + "\n" + "[" * 900, "toml.syntax", ""),
    ("x = " + "[" * 900, "file.nested", ""),
    ("x = " + "1" * 2000, "file.long-line", ""),
    ("#\n" * LARGEST_BYTES, "file.too-large", ""),
    ("".join(f"k{n} = 1\n" for n in range(100)), "file.many-errors", ""),
    (under("body", 'chset = "38 in"'), "field.unknown", "body.chset"),
    (under("body", "balls = 3"), "field.unknown", "body.balls"),
    (SOUND + "\n[pocket]\n", "field.unknown", "pocket"),
    ('"\\u202e" = 1\n' + SOUND, "field.unknown", "\\u202e"),
    (spoil(("balls = 6\n", "")), "field.missing", "yarn.MC.balls"),
    (spoil(("balls = 6", 'weights = "50 g"')), "value.list", "yarn.MC.weights"),
    (spoil(("balls = 6", "weights = []")), "value.list", "yarn.MC.weights"),
    (spoil(("balls = 6", 'weights = ["50 m"]')), "value.unit", "yarn.MC.weights"),
    (spoil(("balls = 6", "balls = 6\nlots = [3]")), "value.text", "yarn.MC.lots"),
    (under("weighing", "sure = 100"), "value.range", "weighing.sure"),
    (under("weighing", 'scale = "80 g"'), "value.range", "weighing.scale"),
    (spoil((STITCHES, "")), "field.missing", f"{WASHED}.stitches"),
    ("", "field.missing", "swatch"),
    ("", "field.missing", "yarn"),
    ("", "field.missing", "needles"),
    ("body = 3\n", "field.not-a-table", "body"),
    ("body = [1]\n", "field.not-a-table", "body"),
    ("body = 1979-05-27\n", "field.not-a-table", "body"),
    ("yarn = true\n", "field.not-a-table", "yarn"),
    ("[[body]]\nchest = 38\n", "field.not-a-table", "body"),
    (spoil((STITCHES, 'stitches = "26 over 4 in"')), "field.not-a-list", f"{WASHED}.stitches"),
    (spoil((STITCHES, "stitches = 26")), "field.not-a-list", f"{WASHED}.stitches"),
    (spoil((STITCHES, "stitches = []")), "field.list-length", f"{WASHED}.stitches"),
    (
        spoil((STITCHES, "stitches = [" + '"26 over 4 in", ' * 21 + "]")),
        "field.list-length",
        f"{WASHED}.stitches",
    ),
    (spoil(("yarn.MC", "yarn.main")), "yarn.name", "yarn.main"),
    (under('charts."my dots"', KIND, COLOURS, ROWS), "charts.name", "charts.my dots"),
    (under("charts", "dots = 3"), "field.not-a-table", "charts.dots"),
    ("charts = 3\n" + SOUND, "field.not-a-table", "charts"),
    (under("charts", "".join(f"c{n} = 3\n" for n in range(51))), "charts.too-many", "charts"),
    (under("garment.yoke", "bands = 3"), "field.not-a-list", "garment.yoke.bands"),
    (under("garment.yoke.bands", 'chart = "a"'), "field.not-a-list", "garment.yoke.bands"),
    (under("garment.yoke", "bands = [3]"), "field.not-a-table", "garment.yoke.bands[1]"),
    (
        SOUND + '[[garment.yoke.bands]]\nchart = "a"\n' * 21,
        "field.list-length",
        "garment.yoke.bands",
    ),
    *[(under("charts.dots", *lines), code, f"charts.dots{field}") for lines, code, field in CHARTS],
    *[(bands(*lines), code, f"garment.yoke.bands{field}") for lines, code, field in BANDS],
    (spoil((CHEST, "chest = true")), "value.unreadable", "body.chest"),
    (spoil((CHEST, "chest = 1979-05-27")), "value.unreadable", "body.chest"),
    (spoil((CHEST, "chest = [38]")), "value.unreadable", "body.chest"),
    (spoil((CHEST, "chest = {in = 38}")), "value.unreadable", "body.chest"),
    (spoil((CHEST, "chest = 1e400")), "value.unreadable", "body.chest"),
    (spoil((CHEST, "chest = nan")), "value.unreadable", "body.chest"),
    (spoil((CHEST, "chest = 0x" + "f" * 900)), "value.unreadable", "body.chest"),
    (spoil((CHEST, "chest = " + "9" * 900)), "value.unreadable", "body.chest"),
    (spoil((CHEST, 'chest = "9**9**9 in"')), "value.unreadable", "body.chest"),
    (spoil((CHEST, 'chest = "3 ft"')), "value.unit", "body.chest"),
    (spoil((CHEST, 'chest = "38 g"')), "value.unit", "body.chest"),
    (spoil(("200 m", "200 cm")), "value.unit", "yarn.MC.ball_length"),
    (spoil(('"200 m"', "200")), "value.no-unit", "yarn.MC.ball_length"),
    (spoil(("3.5 mm", "4")), "value.no-unit", "needles.main"),
    (spoil(("26 over 4 in", "28 over 10")), "value.no-unit", f"{WASHED}.stitches[1]"),
    (spoil(("200 m", "1,200 m")), "value.thousands", "yarn.MC.ball_length"),
    (spoil((CHEST, "chest = 0")), "value.not-positive", "body.chest"),
    (spoil((CHEST, 'chest = "-38 in"')), "value.not-positive", "body.chest"),
    (spoil((CHEST, 'chest = "3 in"')), "value.range", "body.chest"),
    (spoil((CHEST, "chest = 380")), "value.range", "body.chest"),
    (spoil(("balls = 6", "balls = 0")), "value.range", "yarn.MC.balls"),
    (spoil(("balls = 6", "balls = -1")), "value.range", "yarn.MC.balls"),
    (spoil(("balls = 6", "balls = 501")), "value.range", "yarn.MC.balls"),
    (under("ease", 'chest = "-12 in"'), "value.range", "ease.chest"),
    (under("garment.body", "gather = 26"), "value.range", "garment.body.gather"),
    (under("garment.body", 'length = "longer by 200 cm"'), "value.range", "garment.body.length"),
    (spoil(("balls = 6", 'balls = "six"')), "value.number", "yarn.MC.balls"),
    (spoil(("balls = 6", "balls = true")), "value.number", "yarn.MC.balls"),
    (spoil(("balls = 6", "balls = inf")), "value.number", "yarn.MC.balls"),
    (spoil(('unit = "in"', 'unit = "furlong"')), "value.choice", "unit"),
    (under("wearer", 'table = "woman"'), "value.choice", "wearer.table"),
    (under("garment.sleeves", 'length = "to the knee"'), "value.choice", "garment.sleeves.length"),
    (under("garment.neck", 'opening = "polo"'), "value.choice", "garment.neck.opening"),
    (under("garment.neck", "short_rows = 3"), "value.choice", "garment.neck.short_rows"),
    (under("ease", 'chest = "snug"'), "value.choice", "ease.chest"),
    (under("sheet", 'paper = "A5"'), "value.choice", "sheet.paper"),
    (under("sheet", 'large_print = "yes"'), "value.yes-or-no", "sheet.large_print"),
    (under("sheet", "large_print = 1"), "value.yes-or-no", "sheet.large_print"),
    ("edition = 2\n" + SOUND, "value.edition", "edition"),
    ("edition = true\n" + SOUND, "value.edition", "edition"),
    (spoil(('name = "me"', "name = 3")), "value.text", "wearer.name"),
    (spoil(('name = "me"', 'name = "\\u0000"')), "value.text-hidden", "wearer.name"),
    (spoil(('name = "me"', 'name = "a\u202eb"')), "value.text-hidden", "wearer.name"),
    (spoil(('name = "me"', 'name = "\ue000"')), "value.text-hidden", "wearer.name"),
    (spoil(('name = "me"', f'name = "{"x" * 81}"')), "value.text-long", "wearer.name"),
    (spoil(("3.5 mm", "US 12")), "value.needle-size", "needles.main"),
    (spoil(("3.5 mm", "US 10.5.5")), "value.unreadable", "needles.main"),
    (spoil(("26 over 4 in", "26 in 4 in")), "value.reading", f"{WASHED}.stitches[1]"),
    (spoil(("26 over 4 in", "26 sts over 4 in")), "value.reading", f"{WASHED}.stitches[1]"),
    (spoil(('["26 over 4 in"]', "[26]")), "value.reading", f"{WASHED}.stitches[1]"),
    (spoil(('["26 over 4 in"]', '["26 over 4 in", 7]')), "value.reading", f"{WASHED}.stitches[2]"),
    (spoil(("26 over 4 in", "6 over 1 in")), "value.swatch-narrow", f"{WASHED}.stitches[1]"),
]


# common practice, no source: a message of more than a screenful is not read
@pytest.mark.parametrize(("text", "code", "field"), REFUSED)
def test_each_fault_has_its_code_its_field_and_a_remedy(text: str, code: str, field: str) -> None:
    findings = refused(text)
    assert (code, field) in {(finding.code, finding.field) for finding in findings}
    for finding in findings:
        assert finding.severity is Severity.ERROR
        assert finding.message.endswith(".")
        assert finding.remedy
        assert len(str(finding)) < 800
        assert not re.search(r"pydantic|tomllib|Traceback|<class|Input should", str(finding))


CODE = re.compile(
    r'"((?:toml|field|value|yarn|charts)\.[a-z-]+|file\.(?:nested|long-line|too-large|many)[a-z-]*)"'
)


# snapshot: the search found the codes at all
def test_every_code_in_the_source_is_in_the_table_above() -> None:
    (room,) = yokefellow.project_file.__path__
    # What two fields say about each other has a test of its own.
    sources = [*Path(room).glob("*.py"), Path(room).parent / "quantities.py"]
    codes = {code for source in sources for code in CODE.findall(source.read_text())}
    assert len(codes) > 25
    assert codes <= {code for _, code, _ in REFUSED}


def test_a_sound_file_is_read() -> None:
    project = parse(SOUND)
    assert project.body.chest == 96.52  # derived: 38 in
    assert project.swatch.plain.washed is not None
    assert project.swatch.plain.washed.stitches == (Reading(26, 10.16),)  # derived: 4 in
    assert project.sheet.units == "in"


def test_a_bare_number_is_in_the_unit_of_the_file() -> None:
    assert parse(spoil((CHEST, "chest = 38"))).body.chest == 96.52  # derived: 38 in
    metric = spoil(('unit = "in"', 'unit = " CM "'), (CHEST, "chest = 96"))
    assert parse(metric).body.chest == 96
    assert parse(metric).sheet.units == "cm"
    assert parse(spoil(('unit = "in"', 'unit = "IN"'), (CHEST, "chest = 38"))).body.chest == 96.52


def test_the_sheet_may_differ_from_the_file_in_its_unit() -> None:
    assert parse(under("sheet", 'units = "cm"')).sheet.units == "cm"
    assert parse(under("sheet", 'paper = "letter"')).sheet.units == "in"


def test_words_are_read_in_any_case_and_spacing() -> None:
    text = under("garment.body", 'shape = "A-Line"', 'length = " High  Hip "')
    assert parse(text).garment.body.shape == "a-line"
    assert parse(text).garment.body.length == NamedLength("high hip")


@pytest.mark.parametrize(
    ("typed", "length"),
    [
        ('"shorter by 2 in"', LengthChange(-5.08)),  # derived: 2 in
        ('"Longer by 1 1/2"', LengthChange(3.81)),  # derived: 1.5 in
        ('"elbow"', NamedLength("elbow")),
        ('"12½"', 31.75),  # derived: 12.5 in
        ("12", 30.48),  # derived: 12 in
    ],
)
def test_a_sleeve_length_is_a_name_a_change_or_a_length(typed: str, length: object) -> None:
    assert parse(under("garment.sleeves", f"length = {typed}")).garment.sleeves.length == length


@pytest.mark.parametrize(
    ("typed", "cm"),
    [
        ('"-2 in"', -5.08),
        ('"−2"', -5.08),
        ("-2", -5.08),
        ('"+ 2 in"', 5.08),
        ("0", 0),
        ('"0 in"', 0),
    ],
)
def test_ease_has_a_sign(typed: str, cm: float) -> None:
    assert parse(under("ease", f"chest = {typed}")).ease.chest == cm  # derived: 2 in


def test_several_faults_are_told_together() -> None:
    text = spoil((CHEST, "chest = 3\nwiast = 30"), ("balls = 6", "balls = 0"), ("3.5 mm", "90 mm"))
    assert [finding.field for finding in refused(text)] == [
        "body.chest",
        "body.wiast",
        "yarn.MC.balls",
        "needles.main",
    ]


# derived: one for each slip
def test_slips_of_one_kind_are_told_together() -> None:
    text = spoil((CHEST, "chest = 38 in\nwaist = 30 in"), ('"3.5 mm"', "3.5 mm"))
    assert [finding.code for finding in refused(text)] == ["toml.unquoted"] * 3


def test_the_line_is_told() -> None:
    (finding,) = refused(spoil((CHEST, "chest = 3")))
    assert "(line 8)" in finding.message
    (finding,) = refused(spoil((CHEST, "chest = 38 in")))
    assert "line 8" in finding.message


def test_a_message_names_value_limits_and_an_example_in_the_unit_of_the_file() -> None:
    (finding,) = refused(spoil((CHEST, 'chest = "3 in"')))
    # derived: 35 cm = 13.78 in and 200 cm = 78.74 in, rounded inward to a quarter.
    assert finding.message == (
        '"3 in" is too small; allowed is a length from 14 in to 78 1/2 in (line 8).'
    )
    assert finding.remedy == 'Type, for example: chest = "38 in".'


def sleeve(length: str) -> str:
    return under("garment.sleeves", f"length = {length}")


MEANT = [
    # A bare number that may be either says its unit.
    (
        spoil(('"200 m"', "230")),
        'Type ball_length = "230 yd" or ball_length = "230 m".',
    ),
    (
        spoil(('"200 m"', '"230"')),
        'Type ball_length = "230 yd" or ball_length = "230 m".',
    ),
    (spoil(('"3.5 mm"', "3")), 'Type main = "US 3" or main = "3 mm".'),
    (spoil(('"3.5 mm"', '"10 1/2"')), 'Type main = "US 10.5" or main = "10 1/2 mm".'),
    (
        spoil(("26 over 4 in", "28 over 10")),
        'Type stitches = ["28 over 10 cm"] or stitches = ["28 over 10 in"].',
    ),
    # The other unit of the tape.
    (
        spoil(("26 over 4 in", "26 over 4"), ('unit = "in"', 'unit = "cm"')),
        'Did you mean stitches = ["26 over 4 in"]?',
    ),
    (spoil((CHEST, "chest = 96")), 'Did you mean chest = "96 cm"?'),
    (spoil((CHEST, 'chest = "97 in"')), 'Did you mean chest = "97 cm"?'),
    (spoil((CHEST, 'chest = "30 1/2 cm"')), 'Did you mean chest = "30 1/2 in"?'),
    # Words of the trade.
    (sleeve('"short sleeve"'), 'Did you mean length = "short"?'),
    (sleeve('"Long Sleeves"'), 'Did you mean length = "full"?'),
    (sleeve('"3/4"'), 'Did you mean length = "three-quarter"?'),
    (sleeve('"3/4 sleeve"'), 'Did you mean length = "three-quarter"?'),
    (sleeve('"elbows"'), 'Did you mean length = "elbow"?'),
    (sleeve('"shorter 4 in"'), 'Did you mean length = "shorter by 4 in"?'),
    (sleeve('"4 in longer"'), 'Did you mean length = "longer by 4 in"?'),
    (sleeve('"-4 in"'), 'Did you mean length = "shorter by 4 in"?'),
    (under("ease", 'chest = "regular"'), 'Did you mean chest = "classic"?'),
    (
        under("garment.neck", 'front = "v-neck"') + '[garment.yoke]\nstyle = "raglan"\n',
        'Did you mean front = "V"?',
    ),
    (under("garment.neck", 'finish = "turtleneck"'), 'Did you mean finish = "folded high"?'),
    (under("garment.body", 'finish = "garter stitch"'), 'Did you mean finish = "garter"?'),
    (bands('chart = "low wall"'), 'Did you mean chart = "low-wall"?'),
    (under("wearer", "size = 6"), 'Did you mean size = "6"?'),
    # A reading in other words.
    (spoil(('["26 over 4 in"]', '"26 over 4 in"')), 'Did you mean stitches = ["26 over 4 in"]?'),
    (spoil(("26 over 4 in", "26 per 4 in")), 'Did you mean stitches = ["26 over 4 in"]?'),
    (spoil(("26 over 4 in", "26 sts/10 cm")), 'Did you mean stitches = ["26 over 10 cm"]?'),
    (spoil(("26 over 4 in", "26 sts / 4 cm")), 'Type, for example: stitches = ["26 over 4 in"].'),
    (spoil(('"26 over 4 in"', "26")), 'Did you mean stitches = ["26 over 4 in"]?'),
    (
        spoil(('"26 over 4 in"', "26"), ('unit = "in"', 'unit = "cm"')),
        'Did you mean stitches = ["26 over 10 cm"]?',
    ),
    (under("body", "bust = 38"), "Did you mean chest?"),
    (under("body", "biceps = 12"), "Did you mean upper_arm?"),
    (under("body", "hips = 40"), "Did you mean hip?"),
    (under("body", "sleeve = 17"), "Did you mean arm_length?"),
    (under("wearer", "bust = 38"), "It belongs under [body], where it is called chest."),
    (spoil(("balls = 6", 'balls = 6\nstrands = "2"')), "Did you mean strands = 2?"),
    # A bracket.
    (spoil(("[body]", "[body")), "Close the bracket: [body]."),
    (spoil(("[body]", "[body)")), "Close the bracket: [body]."),
    (spoil(("[body]", "body]")), "Open the bracket: [body]."),
    (SOUND + "[[garment.yoke.bands]\n", "Close the brackets: [[garment.yoke.bands]]."),
]


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        (under("body", "chset = 38"), "Did you mean chest?"),
        (under("body", "upper-arm = 12"), "Did you mean upper_arm?"),
        (under("wearer", "upper_arm = 12"), "It belongs under [body]."),
        (under("wearer", "repeats = 12"), "It belongs under [[garment.yoke.bands]]."),
        (under("body", "grows = true"), "It belongs under [charts.NAME]."),
        (
            under("body", 'title = "mine"'),
            "It belongs at the top of the file, before the first table.",
        ),
        (bands('at = "3 in"'), 'Type under [[garment.yoke.bands]]: chart = "pebbles".'),
        (bands('chart = "a"', "repeats = 0"), "Type, for example: repeats = 48."),
        *MEANT,
        (under("wearer", 'table = "woman"'), 'Did you mean table = "women"?'),
        (under("garment.body", 'length = "tunik"'), 'Did you mean length = "tunic"?'),
        (spoil((CHEST, "chest = 38 in")), 'Put quotes round it: chest = "38 in".'),
        (spoil((CHEST, 'chest = 38"')), 'Put quotes round it: chest = "38 in".'),
    ],
)
def test_a_remedy_says_what_to_type(text: str, remedy: str) -> None:
    assert remedy in [finding.remedy for finding in refused(text)]


# derived: 230 m, 28 stitches over 10 in = 25.4 cm, US 3 = 3.25 mm, as typed
def test_what_a_bare_number_may_mean_can_be_typed() -> None:
    metric = ('unit = "in"', 'unit = "cm"')
    assert parse(spoil(('"200 m"', "230"), metric)).yarn["MC"].ball_length == 230
    assert parse(spoil(('"3.5 mm"', "3"), metric)).needles.main == 3
    assert parse(spoil(('"3.5 mm"', '"#3"'))).needles.main == 3.25
    assert parse(spoil(('"50 g"', "50"))).yarn["MC"].ball_weight == 50
    wide = parse(spoil(("26 over 4 in", "50 over 10 in"))).swatch.plain.washed
    assert wide is not None
    assert wide.stitches == (Reading(50, 25.4),)


@pytest.mark.parametrize("typed", ['"5,5"', '"5 1/2"', '"5½"', '"5.5 balls"', "5.5", '"5,5 Balls"'])
def test_a_count_may_stand_in_quotes(typed: str) -> None:
    assert parse(spoil(("balls = 6", f"balls = {typed}"))).yarn["MC"].balls == 5.5  # derived: typed


def test_a_decimal_comma_is_no_dead_end() -> None:
    (slip,) = refused(spoil(("balls = 6", "balls = 5,5")))
    told = slip.remedy.removeprefix("Put quotes round it: ").removesuffix(".")
    assert parse(spoil(("balls = 6", told))).yarn["MC"].balls == 5.5  # derived: as typed


@pytest.mark.parametrize("typed", ["inches", "Inch", "in"])
def test_the_unit_may_be_written_out(typed: str) -> None:
    project = parse(spoil(('unit = "in"', f'unit = "{typed}"'), (CHEST, "chest = 38")))
    assert (project.unit, project.sheet.units) == ("in", "in")
    assert project.body.chest == 96.52  # derived: 38 in


@pytest.mark.parametrize(
    "text",
    [
        spoil((STITCHES, 'stitches = ["26 ovr 4 in"]')),
        spoil((CHEST, 'bust = "38 in"')),
        spoil((CHEST, 'chset = "38 in"')),
    ],
)
def test_one_slip_is_told_once(text: str) -> None:
    assert len(refused(text)) == 1  # derived: one slip


def test_every_example_in_a_file_in_inches_is_in_its_units() -> None:
    for text, _, _ in REFUSED:
        for finding in refused(text):
            if 'unit = "in"' in text and finding.code != "value.no-unit":
                typed = re.findall(r'= \[?"[^"]* (?:cm|m)"', finding.remedy)
                assert not [each for each in typed if each.split('"')[1] not in text], finding


def test_a_file_that_is_not_there_is_looked_for_by_its_like(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text(SOUND)
    for typed in ("mine", "mine.tmol", "Mine.toml", "mien.toml"):
        if not (tmp_path / typed).exists():
            with pytest.raises(ProjectError) as error:
                load(tmp_path / typed)
            (finding,) = error.value.findings
            assert finding.remedy == 'Did you mean "mine.toml"?'


def test_the_limits_told_are_themselves_allowed() -> None:
    for unit in ("cm", "in"):
        (finding,) = refused(spoil((CHEST, "chest = 1"), ('unit = "in"', f'unit = "{unit}"')))
        told = re.search(r"from (.+? (?:in|cm)) to (.+? (?:in|cm))", finding.message)
        assert told is not None
        for limit in told.groups():
            parse(spoil((CHEST, f'chest = "{limit}"')))


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"title = \xff\xfe", "file.not-utf-8"),
        (SOUND.encode("utf-16"), "file.not-utf-8"),
        (b"#" * 10_000_000, "file.too-large"),
        (b"\x00" * 100, "toml.control-character"),
    ],
)
def test_a_file_that_is_no_text_is_told(tmp_path: Path, content: bytes, code: str) -> None:
    path = tmp_path / "sweater.toml"
    path.write_bytes(content)
    with pytest.raises(ProjectError) as error:
        load(path)
    assert error.value.findings[0].code == code


def test_a_file_that_cannot_be_opened_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def code_of(path: Path) -> str:
        with pytest.raises(ProjectError) as error:
            load(path)
        (finding,) = error.value.findings
        return finding.code

    assert code_of(tmp_path / "nowhere.toml") == "file.missing"
    assert code_of(tmp_path) == "file.folder"
    assert code_of(tmp_path / "a\x00b") == "file.unreadable"
    assert code_of(tmp_path / ("x" * 300)) == "file.unreadable"

    def forbidden(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", forbidden)
    assert code_of(tmp_path / "hers.toml") == "file.unreadable"


def test_the_mark_some_editors_put_first_and_their_line_ends_do_no_harm(tmp_path: Path) -> None:
    path = tmp_path / "sweater.toml"
    path.write_bytes(b"\xef\xbb\xbf" + SOUND.replace("\n", "\r\n").encode())
    assert load(path) == parse(SOUND) == parse("\ufeff" + SOUND)


HOSTILE = {
    "dotted names": "\n".join(f"b{n}." + ".".join("a" * 450) + "=1" for n in range(200)),
    "a deep table": "["
    + ".".join("a" * 450)
    + "]\n"
    + "".join(f"{n:x}=1\n" for n in range(25_000)),
    "many keys": "".join(f"k{n:x}=1\n" for n in range(18_000)),
    "many quotes": '"\n' * 90_000,
    "an open list": "x = [" + '"a",\n' * 39_000,
    "an open text": 'x = """' + "a\n" * 90_000,
    "many brackets": "[\n" * 90_000,
    "many blanks": "chest =" + (" " * 900 + "\n") * 200,
    "many words": "a = " + "a " * 450 + "!",
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_a_hostile_file_is_refused_in_the_end(text: str) -> None:
    # Each would take a quadratic reader minutes; the worst takes 1.5 s.
    assert len(text) <= LARGEST_BYTES
    assert refused(text)


KEYS = st.sampled_from(["body", "chest", "swatch", "plain", "yarn", "MC", "unit", "garment", "x"])
VALUES = st.recursive(
    st.one_of(
        st.none(),
        st.booleans(),
        st.integers(),
        st.floats(),
        st.text(max_size=20),
        st.dates(),
        st.sampled_from(["38 in", "26 over 10 cm", "in", "cm", "elbow"]),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.one_of(KEYS, st.text(max_size=4)), inner)
    ),
    max_leaves=12,
)


def toml_of(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key!r} = {toml_of(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(toml_of, value)) + "]"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return '"' + "".join(f"\\U{ord(c):08x}" if not c.isalnum() else c for c in value) + '"'
    return str(value)


def read_or_refused(text: str) -> None:
    """Nothing but a project or a `ProjectError` may come out, and nothing hidden in its text."""
    try:
        parse(text)
    except ProjectError as refusal:
        said = str(refusal)
    else:
        return
    assert said
    assert said.replace("\n", "").isprintable()


@given(st.text())
@example("\ud800")
@example("x = '\x7f'")
def test_any_text_is_read_or_refused(text: str) -> None:
    read_or_refused(text)
    read_or_refused(SOUND + text)


@given(st.dictionaries(KEYS, VALUES, max_size=4))
def test_any_tables_are_read_or_refused(tables: dict[str, object]) -> None:
    read_or_refused("\n".join(f"{key} = {toml_of(value)}" for key, value in tables.items()))


@given(st.sampled_from(SOUND.splitlines()), VALUES)
def test_any_value_in_any_field_is_read_or_refused(line: str, value: object) -> None:
    key = line.partition("=")[0]
    read_or_refused(SOUND.replace(line, f"{key} = {toml_of(value)}") if "=" in line else SOUND)


@given(st.binary())
def test_any_bytes_are_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, content: bytes
) -> None:
    path = tmp_path_factory.getbasetemp() / "any.toml"
    path.write_bytes(content)
    with contextlib.suppress(ProjectError):
        load(path)


# derived: what was typed, as a list
@pytest.mark.parametrize(
    "typed", ['"120, 179, 268"', '"120 179 268"', '"120,179;268"'], ids=["comma", "blank", "mixed"]
)
def test_counts_typed_as_text_are_shown_in_brackets(typed: str) -> None:
    (found,) = refused(SOUND + f"[fixed]\nincreases = {typed}\n")
    assert found.remedy == "Put brackets round them: increases = [120, 179, 268]."


def test_a_pattern_without_sizes_is_told_how_each_begins() -> None:
    (found,) = refused(SOUND + '[pattern]\nname = "a leaflet"\n')
    assert found.remedy.startswith("Begin each size with [[pattern.sizes]] on a line; ")
    size = "[[pattern.sizes]]\nbody = 200\n"
    assert [one.field for one in refused(SOUND + size)] == ["pattern.sizes[1].size"]
    misplaced = SOUND + '[pattern]\nbody = 200\n[[pattern.sizes]]\nsize = "M"\nbody = 200\n'
    (found,) = refused(misplaced)
    assert found.remedy == "It belongs under [[pattern.sizes]]."


def test_several_sizes_typed_into_one_are_told_apart() -> None:
    size = '[[pattern.sizes]]\nsize = "M"\nbody = [184, 204, 224]\n'
    (found,) = refused(SOUND + size)
    assert found.remedy.endswith("and give each its own: body = 184.")


# common practice, no source: how ball bands, needles and a tired hand write it
@pytest.mark.parametrize(
    ("typed", "instead"),
    [
        ('"3.5 mm"', '"US 3 (3.25 mm)"'),
        ('"3.5 mm"', '"3.25 mm / US 3"'),
        ('"3.5 mm"', '"3.25 mm (US 3)"'),
    ],
)
def test_a_needle_may_be_named_twice(typed: str, instead: str) -> None:
    assert parse(spoil((typed, instead))).needles.main == 3.25  # derived: typed


@pytest.mark.parametrize("band", ["251 yds/50g", "251 yd per 50 g", "251 yards / 1.75 oz"])
def test_a_ball_band_gives_its_length_and_that_is_told(band: str) -> None:
    project = parse(spoil(('"200 m"', f'"{band}"')))
    assert project.yarn["MC"].ball_length == pytest.approx(251 * 0.9144)  # derived: yards
    (note,) = (one for one in check_project(project) if one.code == "yarn.length-of-band")
    assert note.severity is Severity.NOTE
    (mend,) = note.mends
    again = parse(spoil(('"200 m"', str(mend.value))))
    assert again.yarn == project.yarn or again.yarn["MC"].ball_length == pytest.approx(251 * 0.9144)
    assert "yarn.length-of-band" not in {one.code for one in check_project(again)}


def test_ounces_typed_as_grams_are_asked_about() -> None:
    spoilt = spoil(('"50 g"', "1.75"))
    (found,) = (one for one in check_project(parse(spoilt)) if one.field == "yarn.MC.ball_weight")
    assert found.code == "yarn.ounces"
    (mend,) = found.mends
    mended = parse(spoilt.replace("ball_weight = 1.75", f"ball_weight = {mend.value}"))
    assert mended.yarn["MC"].ball_weight == pytest.approx(49.6, abs=0.05)  # derived: 1.75 oz
    assert not [one for one in check_project(mended) if one.code == found.code]


@pytest.mark.parametrize("typed", ['"0 cm"', '"0.0 cm"', '"0 in"', "0", "0.0", '"+0,0"', "'0\"'"])
def test_no_ease_is_an_ease(typed: str) -> None:
    assert parse(SOUND + f"[ease]\nchest = {typed}\n").ease.chest == 0  # derived: typed


def test_stitches_and_rounds_exchanged_are_told_and_mended() -> None:
    text = spoil(("26 over 4 in", "36 over 4 in"), ('rounds = ["36 over', 'rounds = ["26 over'))
    (found,) = refused(text)
    assert (found.code, found.field) == ("swatch.ratio", "swatch.plain.washed.rounds")
    for mend in found.mends:
        name = mend.field.rpartition(".")[2]
        lines = text.splitlines()
        at = next(i for i, line in enumerate(lines) if line.startswith(f"{name} = ["))
        lines[at] = f"{name} = {mend.value}"
        text = "\n".join(lines)
    assert parse(text).swatch.plain == parse(SOUND).swatch.plain


def test_a_bare_count_of_ten_is_not_guessed_at() -> None:
    (found,) = refused(spoil(('["36 over 4 in"]', "[10]")))
    assert found.code == "value.reading"
    assert "10 over" not in found.remedy


@pytest.mark.parametrize("begins", [b"{\\rtf1\\ansi ", b"PK\x03\x04", b"\xd0\xcf\x11\xe0"])
def test_a_word_processors_file_is_named_for_what_it_is(tmp_path: Path, begins: bytes) -> None:
    path = tmp_path / "mine.toml"
    path.write_bytes(begins + SOUND.encode())
    with pytest.raises(ProjectError) as error:
        load(path)
    assert [one.code for one in error.value.findings] == ["file.rich-text"]


def test_a_missing_chest_is_told_with_the_other_gaps() -> None:
    found = refused(spoil((f"{CHEST}\n", ""), ("balls = 6\n", "")))
    assert {one.code for one in found} == {"field.missing", "body.no-chest"}


def test_a_table_written_twice_names_both_lines() -> None:
    (found,) = refused(SOUND + "[yarn.MC]\n")
    lines = (SOUND + "[yarn.MC]\n").splitlines()
    assert f"line {lines.index('[yarn.MC]') + 1}." in found.message
    assert f"line {len(lines)} " in found.message
    assert "[yarn.CC1]" in found.remedy


def test_a_heading_behind_a_hash_is_the_one_thing_told() -> None:
    text = spoil(("[yarn.MC]", "#[yarn.MC]"))
    (found,) = refused(text)
    parse(text.replace("#[yarn.MC]", "[yarn.MC]"))
    assert "[yarn.MC]" in found.remedy
