"""What two fields say about each other."""

import re
from pathlib import Path

import pytest

import yokefellow.project_file
from tests.project_file.sample import SOUND, refused, spoil, under
from yokefellow.findings import ProjectError, Severity
from yokefellow.project_file.checks.project import check_project
from yokefellow.project_file.load import parse

WASHED = "swatch.plain.washed"
SWATCH = '[swatch.plain.washed]\nstitches = ["26 over 4 in"]\nrounds = ["36 over 4 in"]\n'
CHEST = 'chest = "38 in"'


def stitches(*readings: str) -> str:
    return spoil(('["26 over 4 in"]', "[" + ", ".join(f'"{r}"' for r in readings) + "]"))


def fabric(name: str, *readings: str) -> str:
    """Add the swatch of another fabric to the sound file, whose plain one has 26 stitches."""
    rest = SWATCH.replace("plain", name).replace("36 over", "44 over")
    return SOUND + rest.replace(
        '["26 over 4 in"]', "[" + ", ".join(f'"{r}"' for r in readings) + "]"
    )


def chart(name: str, yarn: str = "MC") -> str:
    return f'[charts.{name}]\nkind = "purl"\nrows = "#"\ncolours = {{ "#" = "{yarn}" }}\n'


def band(name: str, *lines: str) -> str:
    return "\n".join(["[[garment.yoke.bands]]", f'chart = "{name}"', *lines, ""])


RAGLAN = 'style = "raglan"'
CC2_FOR_CC1 = 'colours = { CC1 = "CC2" }'
CC2 = '[yarn.CC2]\nball_weight = "50 g"\nball_length = "200 m"\nballs = 1\n'


def fixed(*lines: str) -> str:
    return SOUND + "\n[fixed]\n" + "\n".join(lines) + "\n"


def pattern(*sizes: str, about: str = "") -> str:
    tables = "".join(f"[[pattern.sizes]]\n{size}\n" for size in sizes)
    return f"{SOUND}\n[pattern]\n{about}\n{tables}"


def of_a_raglan(*lines: str) -> str:
    return under("garment.yoke", RAGLAN) + "\n".join(("[fixed]", *lines, ""))


MEDIUM = 'size = "M"\nbody = 200'


def v_neck(*lines: str, yoke: str = "") -> str:
    """A sound raglan with a V, and further lines for its neck and its yoke."""
    raglan = under("garment.yoke", RAGLAN, *filter(None, [yoke]))
    return raglan + "\n".join(("\n[garment.neck]", 'front = "V"', *lines, ""))


ERRORS = [
    (
        SOUND + SWATCH.replace("plain", "stripes").replace("36", "53"),
        "swatch.ratio",
        "swatch.stripes.washed.rounds",
    ),
    (spoil(("36 over 4 in", "25 over 4 in")), "swatch.ratio", f"{WASHED}.rounds"),
    (spoil(("36 over 4 in", "53 over 4 in")), "swatch.ratio", f"{WASHED}.rounds"),
    (fabric("mosaic", "42 over 4 in"), "swatch.unlike-plain", "swatch.mosaic"),
    (fabric("purl", "15.5 over 4 in"), "swatch.unlike-plain", "swatch.purl"),
    (pattern('size = "M"\ncast_on = 80'), "pattern.nothing", "pattern.sizes[1]"),
    (pattern(MEDIUM, MEDIUM.replace("M", "m")), "pattern.twice", "pattern.sizes[2].size"),
    (
        pattern(MEDIUM) + '[garment.yoke]\nstyle = "raglan"\n[garment.neck]\nfront = "V"\n',
        "pattern.open-front",
        "garment.neck.front",
    ),
    (pattern(MEDIUM + "\nneck_back = 34"), "fixed.no-lines", "pattern.sizes[1].neck_back"),
    (
        pattern(MEDIUM + "\nsleeve = 66\nunderarm = 16\nheld = 52"),
        "pattern.held",
        "pattern.sizes[1].held",
    ),
    (
        pattern(MEDIUM + "\nyoke = 268\nfront = 84\nback = 84\nheld = 52"),
        "pattern.held",
        "pattern.sizes[1].held",
    ),
    (pattern(MEDIUM, about='follow = "L"'), "pattern.no-size", "pattern.follow"),
    (pattern('size = "M"\nchest = 40'), "pattern.no-gauge", "pattern.stitches"),
    (
        pattern(MEDIUM) + '[garment.yoke]\nproportions = "percentage 1971"\n',
        "pattern.percentage",
        "pattern",
    ),
    (
        under("garment.yoke", 'proportions = "percentage 1971"') + "[fixed]\nsleeve = 70\n",
        "fixed.percentage",
        "fixed.sleeve",
    ),
    (fixed("neck = 130", "increases = [120, 179]"), "fixed.no-growth", "fixed.increases[1]"),
    (fixed("increases = [120, 241]"), "fixed.too-steep", "fixed.increases[2]"),
    (fixed("increases = [120, 179]", "yoke = 180"), "fixed.last-increase", "fixed.yoke"),
    (fixed("yoke = 268", "body = 200", "sleeve = 66", "underarm = 15"), "fixed.equation", "fixed"),
    (fixed("yoke = 267", "body = 200", "underarm = 16"), "fixed.equation", "fixed"),
    (fixed("sleeve = 60", "underarm = 58"), "fixed.underarm-wide", "fixed.underarm"),
    (
        fixed("increases = [120, 179]", "increase_at = [4, 12, 20]"),
        "fixed.increase-rounds",
        "fixed.increase_at",
    ),
    (
        fixed("body = 200", "front = 90", "back = 80", "underarm = 16"),
        "fixed.front-back",
        "fixed.front",
    ),
    (fixed("body = 200", "front = 90", "back = 81"), "fixed.front-back", "fixed.front"),
    (fixed("body = 200", "back = 198"), "fixed.front-back", "fixed.back"),
    (fixed("neck_back = 34"), "fixed.no-lines", "fixed.neck_back"),
    (
        fixed("neck_back = 34", "neck_front = 34", "neck_sleeve = 16", "neck = 102")
        + '[garment.yoke]\nstyle = "raglan"\n',
        "fixed.neck-shares",
        "fixed.neck",
    ),
    (fixed("increase_at = [12, 4]"), "fixed.increase-order", "fixed.increase_at"),
    (
        fixed("increase_at = [12, 64]", "yoke_rounds = 60"),
        "fixed.increase-below",
        "fixed.increase_at",
    ),
    (fixed("increase_at = [1, 12]"), "fixed.increase-first", "fixed.increase_at"),
    (SOUND + chart("dots", "CC1"), "yarn.not-given", "charts.dots.colours"),
    (SOUND + chart("dots", "CC1") + band("dots"), "yarn.not-given", "charts.dots.colours"),
    (
        SOUND + chart("dots", "CC1") + band("dots", CC2_FOR_CC1),
        "yarn.not-given",
        "garment.yoke.bands[1].colours",
    ),
    (
        SOUND + CC2 + chart("dots", "CC1") + band("dots", CC2_FOR_CC1) + band("dots"),
        "yarn.not-given",
        "charts.dots.colours",
    ),
    (
        under("garment.yoke", 'proportions = "percentage 1989"') + band("beads"),
        "yoke.bands-percentage",
        "garment.yoke.bands",
    ),
    (under("swatch.mosaic", 'worked = "flat"'), "swatch.empty", "swatch.mosaic"),
    (
        SOUND + SWATCH.replace("plain", "slip").replace("36", "150"),
        "swatch.rounds-range",
        "swatch.slip.washed.rounds[1]",
    ),
    (spoil((CHEST, "")), "body.no-chest", "body.chest"),
    (
        under("body", "upper_arm = 31", "waist = 30").replace(CHEST, "chest = 31"),
        "body.arm-over-chest",
        "body.upper_arm",
    ),
    (under("body", "wrist = 10", "forearm = 9"), "body.arm-taper", "body.wrist"),
    (under("body", "forearm = 13", "upper_arm = 12"), "body.arm-taper", "body.forearm"),
    (under("body", "wrist = 13", "upper_arm = 12"), "body.arm-taper", "body.wrist"),
    (under("body", "wrist = 11", "elbow = 10"), "body.arm-taper", "body.wrist"),
    (spoil((CHEST, "chest = 20\nneck = 21")), "body.neck-over-chest", "body.neck"),
    (
        under("body", "back_waist_length = 17", "back_hip_length = 16"),
        "body.heights",
        "body.back_waist_length",
    ),
    (
        under("body", "armhole_depth = 12", "back_waist_length = 11"),
        "body.heights",
        "body.armhole_depth",
    ),
    (under("body", "front_chest = 39"), "body.front-over-chest", "body.front_chest"),
    (
        under("body", "front_length = 17", "back_length = 17", "bust_height = 18"),
        "body.bust-under-waist",
        "body.bust_height",
    ),
    (under("body", "bust_points = 20"), "body.points-over-front", "body.bust_points"),
    (
        under("body", "underarm_to_waist = 9", "underarm_to_hip = 8"),
        "body.heights",
        "body.underarm_to_waist",
    ),
    (spoil((SWATCH, "[swatch.plain]\n")), "swatch.empty", "swatch.plain"),
    (under("swatch.rib", 'worked = "flat"'), "swatch.empty", "swatch.rib"),
    (stitches("2 over 10 cm"), "swatch.stitches-range", f"{WASHED}.stitches[1]"),
    (stitches("26 over 10 cm", "61 over 10 cm"), "swatch.stitches-range", f"{WASHED}.stitches[2]"),
    (spoil(("36 over 4 in", "5 over 4 in")), "swatch.rounds-range", f"{WASHED}.rounds[1]"),
    (spoil(("36 over 4 in", "95 over 4 in")), "swatch.rounds-range", f"{WASHED}.rounds[1]"),
    (spoil(("yarn.MC", "yarn.CC1")), "yarn.no-main", "yarn"),
    (spoil(("balls = 6", 'balls = 6\nlots = ["A", "B"]')), "yarn.lots-count", "yarn.MC.lots"),
    (
        under("garment.yoke", RAGLAN, "line_width = 0"),
        "raglan.line-none",
        "garment.yoke.line_width",
    ),
    (of_a_raglan("increase_at = [1, 8]"), "fixed.increase-first", "fixed.increase_at"),
    (of_a_raglan("increases = [100, 110]"), "raglan.gain", "fixed.increases[2]"),
    (of_a_raglan("neck = 98", "increases = [101, 109]"), "raglan.gain", "fixed.increases[1]"),
    (of_a_raglan("neck_back = 33", "back = 80"), "raglan.by-twos", "fixed.neck_back"),
    (of_a_raglan("neck_front = 90", "front = 80"), "raglan.by-twos", "fixed.neck_front"),
    (of_a_raglan("neck = 90", "yoke = 301"), "raglan.by-twos", "fixed.neck"),
    (
        of_a_raglan("neck_sleeve = 11", "sleeve = 66", "underarm = 16"),
        "raglan.by-twos",
        "fixed.neck_sleeve",
    ),
    (
        of_a_raglan(
            "neck = 68", "neck_sleeve = 4", "increases = [76, 84]", "sleeve = 30", "underarm = 12"
        ),
        "raglan.sleeve-rounds",
        "fixed.neck_sleeve",
    ),
    (
        fixed("front = 90", "back = 80", "sleeve = 70", "underarm = 14", "yoke = 280"),
        "fixed.front-back",
        "fixed.front",
    ),
    (
        under(
            "garment.yoke",
            RAGLAN,
            'line_increase = "front and back"',
            'proportions = "percentage 1989"',
        ),
        "raglan.front-and-back",
        "garment.yoke.line_increase",
    ),
    (under("garment.neck", 'front = "V"'), "neck.front-circular", "garment.neck.front"),
    (v_neck(yoke='proportions = "percentage 1971"'), "neck.front-percentage", "garment.neck.front"),
    (v_neck('cast_on = "provisional"'), "neck.front-provisional", "garment.neck.cast_on"),
    (v_neck("band = 3"), "neck.v-band", "garment.neck.band"),
    (v_neck('finish = "folded"'), "neck.v-folded", "garment.neck.finish"),
    (v_neck() + band("beads"), "neck.front-bands", "garment.neck.front"),
    (v_neck() + "[fixed]\ncast_on = 90\n", "neck.front-pinned", "fixed.cast_on"),
]

CAUTIONS = [
    (spoil(('"50 g"', "1.75")), "yarn.ounces", "yarn.MC.ball_weight"),
    (under("body", "upper_arm = 22"), "body.arm-wide", "body.upper_arm"),
    (under("body", "upper_arm = 17.1"), "body.arm-wide", "body.upper_arm"),
    (under("body", "waist = 14"), "body.waist-and-chest", "body.waist"),
    (under("body", "hip = 20"), "body.hip-and-chest", "body.hip"),
    (under("body", "hip = 50"), "body.hip-and-chest", "body.hip"),
    (spoil((CHEST, 'chest = "41 cm"')), "body.chest-unit", "body.chest"),
    (under("ease", 'chest = "-4 1/2 in"'), "ease.unusual", "ease.chest"),
    (under("ease", 'chest = "13 in"'), "ease.unusual", "ease.chest"),
    (under("body", "elbow = 13", "upper_arm = 12"), "body.elbow-over-arm", "body.elbow"),
    (under("body", "waist = 48"), "body.waist-over-chest", "body.waist"),
    (under("body", "high_chest = 44"), "body.high-chest", "body.high_chest"),
    (under("body", "high_chest = 26"), "body.high-chest", "body.high_chest"),
    (under("body", "front_chest = 12"), "body.front-of-chest", "body.front_chest"),
    (under("body", "front_length = 18"), "body.one-length", "body.front_length"),
    (under("body", "back_length = 18"), "body.one-length", "body.back_length"),
    (
        under("body", "front_length = 27", "back_length = 17"),
        "body.lengths-apart",
        "body.front_length",
    ),
    (under("body", "cross_back = 20"), "body.back-over-chest", "body.cross_back"),
    (under("body", "shoulder_girth = 38"), "body.shoulders-under-chest", "body.shoulder_girth"),
    (spoil((WASHED, "swatch.plain.unwashed")), "swatch.unwashed", "swatch.plain"),
    (stitches("26 over 4 in", "31 over 4 in"), "swatch.readings-apart", f"{WASHED}.stitches"),
    (
        SOUND + SWATCH.replace("washed", "unwashed").replace("36", "44").replace("26", "36"),
        "swatch.washing",
        f"{WASHED}.stitches",
    ),
    (spoil(("200 m", "5 m")), "yarn.metres-per-gram", "yarn.MC.ball_length"),
    (spoil(("balls = 6", 'balls = 6\nweights = ["20 g"]')), "yarn.weights-apart", "yarn.MC.balls"),
    (under("needles", 'rib = "4 mm"'), "needles.rib-over-main", "needles.rib"),
]

NOTES = [
    (spoil(('"200 m"', '"219 yds/50g"')), "yarn.length-of-band", "yarn.MC.ball_length"),
    (SOUND + chart("dots"), "charts.unused", "charts.dots"),
    (
        under("garment.yoke", RAGLAN, 'increases = "few"'),
        "raglan.increases",
        "garment.yoke.increases",
    ),
    (under("garment.yoke", "line_width = 3"), "yoke.no-lines", "garment.yoke.style"),
    (under("garment.neck", "drop = 3"), "neck.no-drop", "garment.neck.drop"),
    (v_neck("back_raise = 2"), "neck.raise-in-depth", "garment.neck.back_raise"),
]


@pytest.mark.parametrize(("text", "code", "field"), ERRORS)
def test_the_impossible_is_refused(text: str, code: str, field: str) -> None:
    findings = refused(text)
    assert (code, field) in [(finding.code, finding.field) for finding in findings]
    assert {finding.severity for finding in findings} == {Severity.ERROR}


def test_a_band_may_be_denser_or_looser_than_plain_within_reason() -> None:
    # derived: 0.6 and 1.6 times 26 are 15.6 and 41.6
    for near in ("15.7", "41.5"):
        for name in ("mosaic", "slip", "stranded", "purl"):
            text = fabric(name, f"{near} over 4 in", f"{near} over 4 in")
            assert "swatch.unlike-plain" not in {one.code for one in check_project(parse(text))}
    (found,) = refused(fabric("slip", "41.7 over 4 in"))
    assert (found.code, found.field) == ("swatch.unlike-plain", "swatch.slip")
    assert {("stitches", "41.7"), ("plain", "26"), ("most", "1.6")} <= set(found.values)
    # The rib draws in as it likes: nothing is counted by its stitches.
    assert check_project(parse(fabric("rib", "60 over 4 in"))) == ()


@pytest.mark.parametrize(("text", "code", "field"), CAUTIONS)
def test_the_unlikely_is_a_caution_and_does_not_stop(text: str, code: str, field: str) -> None:
    (finding,) = check_project(parse(text))
    assert (finding.code, finding.field) == (code, field)
    assert finding.severity is Severity.CAUTION


@pytest.mark.parametrize(("text", "code", "field"), NOTES)
def test_what_is_worth_knowing_is_a_note(text: str, code: str, field: str) -> None:
    (finding,) = check_project(parse(text))
    assert (finding.code, finding.field) == (code, field)
    assert finding.severity is Severity.NOTE


def test_a_sound_project_has_no_findings() -> None:
    assert check_project(parse(SOUND)) == ()
    # A band in other yarns needs those, and not the chart's own; packed rounds are no miscount.
    swapped = CC2 + chart("dots", "CC1") + band("dots", CC2_FOR_CC1)
    mosaic = SWATCH.replace("plain", "mosaic").replace("36", "60")
    assert check_project(parse(SOUND + mosaic + swapped)) == ()


# snapshot: the search found the codes at all
def test_every_code_in_the_source_is_in_the_tables_above() -> None:
    (room,) = yokefellow.project_file.__path__
    text = "".join(source.read_text() for source in (Path(room) / "checks").glob("*.py"))
    codes = set(re.findall(r'(?:_error|_caution|Finding|found)\(\s*"([^"{]+)"', text))
    assert len(codes) > 15
    tested = {code for _, code, _ in [*ERRORS, *CAUTIONS, *NOTES]}
    assert codes <= tested
    assert {"swatch.stitches-range", "swatch.rounds-range"} <= tested  # written from a pattern


def test_a_tape_read_on_its_other_side_is_asked_for() -> None:
    (chest,) = check_project(parse(spoil((CHEST, 'chest = "41 cm"'))))
    assert chest.remedy.startswith('Did you mean "41 in"?')
    child = spoil((CHEST, 'chest = "66 in"'), ('name = "me"', 'table = "children"'))
    (chest,) = check_project(parse(child))
    assert chest.remedy.startswith('Did you mean "66 cm"?')
    (stitches,) = refused(spoil(("26 over 4 in", "14 over 10 in")))
    assert stitches.remedy == 'Did you mean "14 over 10 cm"?'


def test_unusual_is_not_what_tables_and_fits_hold() -> None:
    assert check_project(parse(under("ease", 'chest = "-4 in"', 'upper_arm = "oversized"'))) == ()
    assert check_project(parse(under("ease", 'chest = "12 in"'))) == ()
    # An infant's arm is half as wide again beside its chest as a grown woman's.
    child = spoil((CHEST, "chest = 18\nupper_arm = 8.5"), ('name = "me"', 'table = "babies"'))
    assert check_project(parse(child)) == ()


def test_a_size_stands_in_for_the_chest() -> None:
    assert parse(spoil((CHEST, ""), ('name = "me"', 'size = "M"'))).body.chest is None


def test_lengths_are_told_in_the_unit_of_the_file() -> None:
    (finding,) = refused(under("body", "wrist = 13", "upper_arm = 12"))
    assert "13 in" in finding.message
    assert "12 in" in finding.message


# derived: one for each fault
def test_several_are_told_together() -> None:
    with pytest.raises(ProjectError) as error:
        parse(under("body", "wrist = 13", "upper_arm = 12", "neck = 39").replace("39", "27"))
    assert len(error.value.findings) == 1
    with pytest.raises(ProjectError) as error:
        parse(stitches("2 over 4 in", "3 over 4 in").replace("yarn.MC", "yarn.CC1"))
    assert len(error.value.findings) == 3


# published: Heinz, Peterson, Johnson, Kerk, "Exploring Relationships in Body
# Dimensions", J. Statistics Education 11(2), 2003: medians in cm of shoulder
# girth, chest, biceps, forearm and wrist, of 260 women and of 247 men.
MEDIANS = [(99.5, 85.5, 27.8, 23.6, 15.0), (116.5, 101.0, 34.4, 28.4, 17.1)]


@pytest.mark.parametrize(("shoulders", "chest", "arm", "forearm", "wrist"), MEDIANS)
def test_a_median_body_makes_no_finding(
    shoulders: float, chest: float, arm: float, forearm: float, wrist: float
) -> None:
    text = under(
        "body",
        f"shoulder_girth = {shoulders}",
        f"upper_arm = {arm}",
        f"forearm = {forearm}",
        f"wrist = {wrist}",
    )
    text = text.replace('unit = "in"', 'unit = "cm"').replace('"38 in"', str(chest))
    assert check_project(parse(text)) == ()


# published: D. L. Munden, "The geometry and dimensional properties of plain-knit
# fabrics", J. Textile Inst., 1959 (from memory): rounds over stitches of plain
# knitting is Kc / Kw = 5.0/3.8 dry, 5.3/4.1 wet, 5.5/4.2 fully relaxed.
@pytest.mark.parametrize(("kc", "kw"), [(5.0, 3.8), (5.3, 4.1), (5.5, 4.2)])
def test_a_relaxed_fabric_makes_no_finding(kc: float, kw: float) -> None:
    rounds = round(26 * kc / kw, 1)
    assert check_project(parse(spoil(("36 over 4 in", f"{rounds} over 4 in")))) == ()
