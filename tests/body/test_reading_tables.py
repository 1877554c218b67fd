"""A sizing table edited wrongly is answered with one message that names file, row and size."""

from __future__ import annotations

from pathlib import Path

import pytest

from yokefellow.body.size_tables import TableError, read_table, tables
from yokefellow.package_data import package_folder

WOMEN = (package_folder("sizing_tables") / "women.toml").read_text(encoding="utf-8")


def edited(folder: Path, old: str, new: str) -> Path:
    assert old in WOMEN
    path = folder / "women.toml"
    path.write_text(WOMEN.replace(old, new, 1), encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("XS = [28, 30], ", "", "row chest, size XS: missing"),
        ("XS = [28, 30]", "XXS = 26, XS = [28, 30]", "row chest, size XXS: this table has no such"),
        ("L = [40, 42]", "L = [42, 40]", "row chest, size L: [42, 40] is neither"),
        ("L = [40, 42]", 'L = "40"', "row chest, size L: '40' is no number"),
        ("L = [40, 42]", "L = true", "row chest, size L: True is no number"),
        ("L = [40, 42]", "L = nan", "row chest, size L: nan is no number"),
        ("L = [40, 42]", "L = -40", "row chest, size L: -40 is not above zero"),
        ("L = [40, 42]", "L = []", "row chest, size L: [] is neither"),
        ("L = [40, 42]", "L = [35, 38]", "row chest, size L: not larger"),
        ("L = 12,", "L = 11,", "row upper_arm, size L: not larger"),
        (
            'unit = "in"\nsizes = { XS = [28',
            'unit = "mm"\nsizes = { XS = [28',
            "row chest: the unit",
        ),
        ("[measures.wrist]", "[measures.rist]", "row wrist is missing"),
        ("[measures.neck_to_cuff]", "[measures.ankle]", "row ankle is none of"),
        ('by = "upper_arm"', 'by = "arm"', "row elbow follows 'arm'"),
        ('by = "upper_arm"', 'by = "wrist"', "row elbow follows 'wrist'"),
        ('moves_with = "back', 'moves_with = "front', "row back_hip_length follows 'front_"),
        ('source = "heinz"', 'source = "heins"', "row forearm: the source 'heins'"),
        ('note = "the bust"', 'notes = "the bust"', "row chest: notes is none of"),
        ('note = "the bust"', "note = 3", "row chest: note is missing or no text"),
        ("spread_cm = 5.36", "spread_cm = 0", "row waist, spread_cm: 0 is not above zero"),
        ("spread_cm = { XS = 1.9,", "spread_cm = {", "row upper_arm, spread_cm, size XS: missing"),
        ('title = "Women"', 'titel = "Women"', "the file: titel is none of"),
        ('sizes = ["XS", "S"', 'sizes = ["xs", "XS"', "sizes is no list"),
        ("hip = 6, tunic = 11", "hip = 6", "body_lengths, below_waist: not cropped"),
        ("hip = 6, tunic = 11", "hip = 6, tunic = 5", "body_lengths, tunic: not longer than hip"),
        ("share = 0.471", "share = 47.1", "elbow, share: 47.1 is not between 0 and 1"),
        ("[elbow]\nshare", "[elbow\nshare", "line "),
    ],
)
def test_a_slip_is_named(tmp_path: Path, old: str, new: str, said: str) -> None:
    with pytest.raises(TableError) as refused:
        read_table(edited(tmp_path, old, new))
    (finding,) = refused.value.findings
    assert finding.code == "sizing.table"
    assert finding.field == "sizing_tables/women.toml"
    assert said in finding.message


def test_a_row_a_knitter_overrides_is_read(tmp_path: Path) -> None:
    table = read_table(edited(tmp_path, "M = 11,", "M = [11.4, 11.8],"))
    # derived: the middle of 11.4 and 11.8 in
    assert table.middle_cm("upper_arm", "M") == pytest.approx(11.6 * 2.54)


def test_a_table_of_ones_own_is_one_more_file(tmp_path: Path) -> None:
    path = tmp_path / "dolls.toml"
    path.write_text(WOMEN, encoding="utf-8")
    assert read_table(path).name == "dolls"


def test_the_tables_are_read_once() -> None:
    assert tables() is tables()
