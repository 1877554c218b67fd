"""Filling a body: the laws of the straight line, origins, and what the knitter is told."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.body.bodies import IN, codes, filled, project
from yokefellow.body.fill_in import fill
from yokefellow.body.interpolate import place, value
from yokefellow.body.measurements import MEASURES, Figures, Origin
from yokefellow.body.nearest_size import nearest
from yokefellow.body.size_tables import size_meant, tables
from yokefellow.findings import ProjectError, Severity

GROUPS = ("babies", "children", "women", "men")
groups = st.sampled_from(GROUPS)
chests = st.floats(35, 200)
ARM = ("upper_arm", "elbow", "forearm", "wrist")


def only_chest(group: str, chest_cm: float) -> Figures:
    return filled(group, chest=chest_cm)[0]


@pytest.mark.parametrize("group", GROUPS)
def test_a_body_of_a_sizes_middle_chest_is_that_size(group: str) -> None:
    table = tables()[group]
    for at, size in enumerate(table.sizes):
        figures = only_chest(group, table.rows["chest"].middle_cm[at])
        assert figures.nearest_size == size
        for name in MEASURES:
            assert figures.cm(name) == pytest.approx(table.rows[name].middle_cm[at]), name


@given(group=groups, lower=st.integers(0, 7), share=st.floats(0, 1))
def test_between_two_sizes_every_figure_lies_between_theirs(
    group: str, lower: int, share: float
) -> None:
    table = tables()[group]
    lower = min(lower, len(table.sizes) - 2)
    middles = table.rows["chest"].middle_cm
    figures = only_chest(group, middles[lower] + share * (middles[lower + 1] - middles[lower]))
    for name in MEASURES:
        one, other = table.rows[name].middle_cm[lower : lower + 2]
        assert one - 1e-9 <= figures.cm(name) <= other + 1e-9, name


@given(group=groups, chest=st.floats(35, 199), step=st.floats(0.001, 1))
def test_a_little_more_chest_is_a_little_more_of_everything(
    group: str, chest: float, step: float
) -> None:
    one, other = only_chest(group, chest), only_chest(group, chest + step)
    for name in MEASURES:
        # derived: no column grows by more than 2.5 cm a cm of chest (children 14 to 16: hip)
        assert -1e-9 <= other.cm(name) - one.cm(name) <= 2.5 * step + 1e-9, name


@given(group=groups, chest=chests)
def test_every_figure_is_there_above_zero_and_says_where_it_comes_from(
    group: str, chest: float
) -> None:
    figures, _ = filled(group, chest=chest)
    assert tuple(figures.by_name) == MEASURES
    for name, figure in figures.by_name.items():
        assert figure.name == name
        assert math.isfinite(figure.cm)
        assert figure.cm > 0
        if name == "chest":
            assert figure.origin is Origin.MEASURED
            assert figure.cm == chest
        else:
            assert figure.origin is Origin.FILLED
            assert figure.source.startswith(group)


@given(
    group=groups,
    chest=st.floats(40, 160),
    arm=st.floats(10, 40),
    parts=st.lists(st.floats(0.5, 1), min_size=3, max_size=3),
    measured=st.sets(st.sampled_from(ARM)),
)
def test_a_filled_arm_stays_between_the_knitters_own_girths(
    group: str, chest: float, arm: float, parts: list[float], measured: set[str]
) -> None:
    girths = [arm]
    for part in parts:
        girths.append(max(9.0, girths[-1] * part))
    own = {name: cm for name, cm in zip(ARM, girths, strict=True) if name in measured}
    figures, _ = filled(group, chest=chest, **own)
    for at, name in enumerate(ARM):
        if name in own:
            assert figures.cm(name) == own[name]
            continue
        assert all(figures.cm(name) <= own[above] for above in ARM[:at] if above in own)
        assert all(figures.cm(name) >= own[below] for below in ARM[at + 1 :] if below in own)


def test_the_knitters_own_numbers_stay_as_they_are() -> None:
    own = dict.fromkeys(("waist", "hip", "arm_length"), 70.0) | {"chest": 99.0, "wrist": 15.5}
    figures, _ = filled("women", **own)
    for name, cm in own.items():
        assert figures.is_measured(name)
        assert figures.cm(name) == cm
        assert figures.by_name[name].source == ""


def test_the_source_names_table_sizes_measure_and_origin() -> None:
    figures, _ = filled("women", chest=99.0, upper_arm=33.0)
    # derived: 99 cm lies between 37 and 41 in, 33 cm between the arms of L and 1X
    assert figures.by_name["hip"].source == "women M–L at chest 99 cm, Craft Yarn Council"
    assert figures.by_name["wrist"].source == "women L–1X at upper arm 33 cm, Heinz et al. 2003"


def test_the_source_speaks_the_sheets_unit() -> None:
    figures, _ = fill(project(body={"chest": "39 in"}, sheet={"units": "in"}))
    assert figures.by_name["hip"].source == "women M–L at chest 39 in, Craft Yarn Council"


def test_a_babys_size_is_counted_in_months() -> None:
    figures, _ = filled("babies", chest=17.5 * IN)
    assert figures.by_name["hip"].source.startswith("babies 6–12 months at chest 44.5 cm")


# derived: as much as the waist length
def test_a_hip_length_moves_with_the_knitters_own_waist_length() -> None:
    plain = only_chest("women", 94)
    long_cm = plain.cm("back_waist_length") + 4
    moved, _ = filled("women", chest=94, back_waist_length=long_cm)
    assert moved.cm("back_hip_length") == pytest.approx(plain.cm("back_hip_length") + 4)
    assert "moved with your own back waist length" in moved.by_name["back_hip_length"].source


def test_a_yoke_follows_a_measured_armhole_and_an_opening_a_measured_neck() -> None:
    plain = only_chest("women", 94)
    own, _ = filled("women", chest=94, armhole_depth=21.0, neck=40.0)
    # derived: the armhole of 1X is 20.955 cm and its yoke 24 cm; the opening is the neck and 8 cm
    assert own.cm("yoke_depth") == pytest.approx(24.0, abs=0.1)
    assert own.cm("neck_opening") == pytest.approx(48.0, abs=0.1)
    assert own.cm("underarm_width") == plain.cm("underarm_width")


def test_lengths_given_for_the_garment_are_the_knitters_own() -> None:
    garment = {
        "neck": {"opening": 50.0, "back_raise": 4.0},
        "yoke": {"depth": 21.5, "underarm": 6.5},
    }
    figures, _ = fill(project(body={"chest": 94.0}, garment=garment))
    wanted = {"neck_opening": 50.0, "back_raise": 4.0, "yoke_depth": 21.5, "underarm_width": 6.5}
    for name, cm in wanted.items():
        assert figures.is_measured(name)
        assert figures.cm(name) == cm


def test_words_given_for_the_garment_leave_the_table_in_force() -> None:
    garment = {
        "neck": {"opening": "wide", "back_raise": "none"},
        "yoke": {"depth": "quarter of chest", "underarm": "by size"},
    }
    figures, _ = fill(project(body={"chest": 94.0}, garment=garment))
    plain = only_chest("women", 94)
    for name in ("neck_opening", "back_raise", "yoke_depth", "underarm_width"):
        assert figures.by_name[name] == plain.by_name[name]


def test_a_spread_grows_when_the_leading_measure_is_filled_too() -> None:
    alone, _ = filled("women", chest=94, upper_arm=28)
    both, _ = filled("women", chest=94)
    # published: Heinz et al. 2003, forearm about the biceps 0.83 cm, about the chest 1.08 cm
    assert alone.by_name["forearm"].spread_cm == 0.83
    spread = both.by_name["forearm"].spread_cm
    assert spread is not None
    # derived: hypot(0.83, 0.539 * 2.3), NHANES's spread at M; the table lists tenths
    assert spread == pytest.approx(math.hypot(0.83, 0.539 * 2.3), abs=0.06)
    assert spread > 1.08


@pytest.mark.parametrize(
    ("table", "size"), [("women", "m"), ("babies", "12 Months"), ("men", "Xl")]
)
def test_a_size_alone_is_enough(table: str, size: str) -> None:
    figures, findings = fill(project(wearer={"table": table, "size": size}))
    assert not figures.is_measured("chest")
    assert "the middle of the size" in figures.by_name["chest"].source
    assert codes(findings) == ["sizing.upper-arm-filled"]
    assert figures.nearest_size.casefold() == size.split()[0].casefold()


def test_neither_chest_nor_size_is_refused() -> None:
    with pytest.raises(ProjectError) as refused:
        filled("women", waist=80)
    (finding,) = refused.value.findings
    assert (finding.code, finding.field) == ("sizing.no-chest", "body.chest")
    assert dict(finding.values)["sizes"] == ("XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X")


def test_an_unknown_size_without_a_chest_is_refused() -> None:
    with pytest.raises(ProjectError) as refused:
        fill(project(wearer={"table": "men", "size": "4XL"}))
    (finding,) = refused.value.findings
    assert finding.code == "sizing.unknown-size"
    assert "4XL" in finding.message
    assert "S, M, L, XL, 2XL" in finding.message


def test_an_unknown_size_is_an_error_even_beside_a_chest() -> None:
    _, findings = fill(project(wearer={"table": "babies", "size": "9"}, body={"chest": 45.0}))
    errors = [finding for finding in findings if finding.severity is Severity.ERROR]
    assert codes(tuple(errors)) == ["sizing.unknown-size"]
    assert "3, 6, 12, 18, 24 months" in errors[0].message


def test_a_size_that_is_not_the_chests_is_noted() -> None:
    figures, findings = fill(project(wearer={"size": "S"}, body={"chest": 104.0, "upper_arm": 32}))
    assert figures.nearest_size == "L"
    assert codes(findings) == ["sizing.size-differs"]
    assert findings[0].severity is Severity.NOTE


def test_a_chest_of_the_next_size_is_no_news() -> None:
    # published: Craft Yarn Council, women: a chest of 42 in is L, 38 in is M
    figures, findings = fill(project(wearer={"size": "M"}, body={"chest": 104.0, "upper_arm": 32}))
    assert figures.nearest_size == "L"
    assert codes(findings) == []


@pytest.mark.parametrize(
    ("table", "given", "meant"),
    [
        # common practice, no source: how sizes are named in shops
        ("women", "Medium", "M"),
        ("women", "large", "L"),
        ("women", "XL", "1X"),
        ("women", "XXL", "2X"),
        ("women", "extra small", "XS"),
        ("men", "1X", "XL"),
        ("men", "XXL", "2XL"),
        ("children", "6 years", "6"),
        ("children", "4T", "4"),
        ("babies", "6m", "6"),
        ("women", "tiny", None),
        ("women", "", None),
        ("children", "5", None),
    ],
)
def test_a_size_by_another_name_is_guessed(table: str, given: str, meant: str | None) -> None:
    assert size_meant(tables()[table], given) == meant
    if given:
        with pytest.raises(ProjectError) as error:
            fill(project(wearer={"table": table, "size": given}))
        told = error.value.findings[0].remedy
        assert (f'Did you mean "{meant}"?' == told) == (meant is not None)


def test_a_chest_beyond_the_table_is_carried_on_and_said_to_be() -> None:
    figures, findings = filled("women", chest=170, upper_arm=50)
    assert figures.by_name["hip"].source.startswith("women beyond 5X at chest 170 cm")
    assert codes(findings) == ["sizing.beyond-table"]
    (caution,) = findings
    assert caution.severity is Severity.CAUTION
    assert "beyond 5X" in caution.message
    assert "154.9 cm" in caution.message
    # derived: armholes grow by half an inch from 4X to 5X, four inches of chest
    expected = tables()["women"].middle_cm("armhole_depth", "5X") + (170 - 61 * IN) / 8
    assert figures.cm("armhole_depth") == pytest.approx(expected)
    # elbow, forearm and wrist go by the arm, which lies inside the table
    assert "wrist" not in caution.message


def test_a_chest_below_the_table_is_said_to_be() -> None:
    figures, findings = filled("men", chest=80)
    assert figures.by_name["hip"].source.startswith("men below S at chest 80 cm")
    assert "sizing.beyond-table" in codes(findings)
    # every filled figure goes back to the chest, the arm's too
    (caution,) = [finding for finding in findings if finding.code == "sizing.beyond-table"]
    assert "wrist" in caution.message


def test_an_arm_beyond_the_table_is_said_to_be() -> None:
    _, findings = filled("women", chest=94, upper_arm=56)
    (caution,) = findings
    assert (caution.code, caution.field) == ("sizing.beyond-table", "body.upper_arm")
    assert dict(caution.values)["filled"] == ("elbow", "forearm", "wrist")


def test_half_a_size_outside_is_still_the_size() -> None:
    # derived: XS is 28 to 30 in and the next size 4 in larger, so 27.2 in is within half a size
    figures, findings = filled("women", chest=27.2 * IN, upper_arm=25)
    assert figures.by_name["hip"].source.startswith("women XS at chest")
    assert findings == ()


def test_a_filled_upper_arm_is_said_loudly_with_what_surveys_found() -> None:
    _, findings = filled("women", chest=37 * IN)
    (caution,) = findings
    assert (caution.code, caution.field) == ("sizing.upper-arm-filled", "body.upper_arm")
    assert caution.severity is Severity.CAUTION
    # published: Craft Yarn Council M 11 in; NHANES 2017-March 2020 at its hip 29.6 (2.3) cm
    for said in ("27.9 cm is filled in", "29.6 cm", "1.7 cm below", "27.3 cm and 31.9 cm"):
        assert said in caution.message


def test_large_sizes_are_told_their_arms_are_filled_too_wide() -> None:
    _, findings = filled("women", chest=57 * IN)
    # published: Craft Yarn Council 4X 18.5 in; NHANES 42.8 cm at its hip
    assert "4.2 cm above" in findings[0].message


def test_a_measured_upper_arm_needs_no_caution() -> None:
    assert filled("women", chest=94, upper_arm=29)[1] == ()


def test_departures_are_counted_from_the_sizes_own_range() -> None:
    figures, _ = filled("women", chest=94, waist=80, hip=95, upper_arm=31)
    match = nearest(figures)
    assert (match.group, match.size) == ("women", "M")
    departures = {each.name: each.departure_cm for each in match.departures}
    # derived from the council's M: chest 36-38, waist 28-30, hip 38-40, upper arm 11 in
    assert departures == pytest.approx(
        {
            "chest": 0.0,
            "waist": 80 - 30 * IN,
            "hip": 95 - 38 * IN,
            "upper_arm": 31 - 11 * IN,
        }
    )


def test_a_place_between_sizes_reads_a_column_there() -> None:
    # derived
    where = place((80.0, 90.0, 110.0), 95.0)
    assert where.words(("S", "M", "L")) == "M–L"
    assert value((1.0, 2.0, 4.0), where) == 2.5
    assert place((80.0, 90.0), 90.0).words(("S", "M")) == "M"
    assert place((80.0, 90.0), 74.0).words(("S", "M")) == "below S"
    assert place((80.0, 90.0), 96.0).words(("S", "M")) == "beyond M"


def test_a_full_bust_fills_the_shoulders_by_the_round_above_it() -> None:
    full, _ = filled("women", chest=112, high_chest=97)
    # derived: 112 - 97 - (0.184 x 112 - 16) = 10.4 cm of bust, so the chest of 101.6 cm
    usual, _ = filled("women", chest=101.6)
    for name in ("shoulder_girth", "armhole_depth", "upper_arm", "neck"):
        assert full.cm(name) == pytest.approx(usual.cm(name), abs=0.05)
    assert full.cm("chest") == 112  # derived: as measured
    assert full.own_cm("high_chest") == 97
    assert "by your high chest" in full.by_name["shoulder_girth"].source
    assert usual.own_cm("shoulder_girth") is None
