"""The sizing tables beside the published ones they hold, and their own sense."""

from __future__ import annotations

from itertools import pairwise
from typing import get_args

import pytest

from tests.body.bodies import COUNCIL, IN
from yokefellow.body.fill_in import GARMENT_FIGURES
from yokefellow.body.measurements import MEASURES, OWN_MEASURES
from yokefellow.body.size_tables import nearest_size, size_named, tables
from yokefellow.project_file.models import BODY_LENGTHS, Body, Group

GROUPS = ("babies", "children", "women", "men")


def test_there_is_a_table_for_every_group_smallest_bodies_first() -> None:
    assert tuple(tables()) == GROUPS
    (allowed,) = get_args(Group)[:1]
    assert set(GROUPS) == set(get_args(allowed))


def test_the_measures_are_the_body_and_the_garment_figures() -> None:
    assert {*MEASURES, *OWN_MEASURES} == {*Body.model_fields, *GARMENT_FIGURES}


@pytest.mark.parametrize("group", GROUPS)
def test_the_sizes_are_the_councils(group: str) -> None:
    assert list(tables()[group].sizes) == COUNCIL["body"][group]["sizes"]


@pytest.mark.parametrize("group", GROUPS)
def test_no_row_claims_the_council_without_a_published_row(group: str) -> None:
    table = tables()[group]
    claimed = {row.name for row in table.rows.values() if row.source.short == "Craft Yarn Council"}
    published = set(COUNCIL["body"][group]) - {"sizes"}
    # the length table gives women and children a hip length that the main table has not
    assert claimed == published | {"back_hip_length"}


@pytest.mark.parametrize(
    ("group", "key"), [("women", "women"), ("children", "children"), ("babies", "children")]
)
def test_body_lengths_are_the_councils_where_it_gives_them(group: str, key: str) -> None:
    # published: Craft Yarn Council, Standard Body Measurements, length table
    table = tables()[group]
    lengths = COUNCIL["length"]
    assert table.body_lengths["waist"] == 0
    assert table.body_lengths["hip"] == pytest.approx(lengths[f"{key}_hip"] * IN)
    assert table.body_lengths["tunic"] == pytest.approx(lengths[f"{key}_tunic"] * IN)
    waist, hip = (table.rows[name].middle_cm for name in ("back_waist_length", "back_hip_length"))
    for above, below in zip(waist, hip, strict=True):
        assert below - above == pytest.approx(lengths[f"{key}_hip"] * IN)


def test_a_mans_hip_length_lies_about_its_offset_below_his_waist() -> None:
    # derived: the council's back hip length less ANSUR II's waist back length, size by size
    table = tables()["men"]
    rows = (table.rows["back_waist_length"].middle_cm, table.rows["back_hip_length"].middle_cm)
    for waist, hip in zip(*rows, strict=True):
        assert hip - waist == pytest.approx(table.body_lengths["hip"], abs=1.5)


@pytest.mark.parametrize("group", GROUPS)
def test_columns_grow_with_the_size(group: str) -> None:
    table = tables()[group]
    for row in table.rows.values():
        for column in (row.low_cm, row.middle_cm, row.high_cm):
            assert all(one <= other for one, other in pairwise(column)), row.name
    for leader in {row.by for row in table.rows.values()}:
        column = table.rows[leader].middle_cm
        assert all(one < other for one, other in pairwise(column)), leader


@pytest.mark.parametrize("group", GROUPS)
def test_arms_narrow_downwards_and_necks_fit_heads(group: str) -> None:
    rows = tables()[group].rows
    arm = ("upper_arm", "elbow", "forearm", "wrist")
    for above, below in pairwise(arm):
        for wide, narrow in zip(rows[above].middle_cm, rows[below].middle_cm, strict=True):
            assert narrow < wide
    for opening, neck, head in zip(
        rows["neck_opening"].middle_cm, rows["neck"].middle_cm, rows["head"].middle_cm, strict=True
    ):
        assert neck < opening < head
        # common practice, no source: a ribbed edge stretches by 1.35
        assert opening * 1.35 >= head - 0.1


@pytest.mark.parametrize("group", GROUPS)
def test_every_row_says_where_it_comes_from(group: str) -> None:
    table = tables()[group]
    assert set(MEASURES) <= set(table.rows)
    assert tuple(table.body_lengths) == BODY_LENGTHS
    for row in table.rows.values():
        assert row.source.full, row.name
        assert row.sure, row.name
        assert bool(row.spread_cm) == bool(row.spread_source), row.name
        assert bool(row.surveyed_cm) == bool(row.surveyed_source), row.name


@pytest.mark.parametrize(
    ("group", "given", "size"),
    [
        ("women", "1x", "1X"),
        ("women", " m ", "M"),
        ("babies", "6 months", "6"),
        ("babies", "24", "24"),
        ("children", "8", "8"),
        ("men", "2xl", "2XL"),
        ("men", "3XL", None),
        ("women", "", None),
    ],
)
def test_a_size_is_found_however_it_is_typed(group: str, given: str, size: str | None) -> None:
    assert size_named(tables()[group], given) == size


def test_the_nearest_size_is_the_nearest_and_between_two_the_larger() -> None:
    women = tables()["women"]
    # derived: the middles of M and L are 37 and 41 in
    assert nearest_size(women, 38.9 * IN) == "M"
    assert nearest_size(women, 39 * IN) == "L"
    assert nearest_size(women, 20 * IN) == "XS"
    assert nearest_size(women, 78 * IN) == "5X"
