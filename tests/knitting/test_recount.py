"""A wrong count: what it means, and the round that mends it, worked by independent hands."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from yokefellow.knitting import Likely, recount, row_at
from yokefellow.notation.write import write
from yokefellow.plan import plan
from yokefellow.project_file.load import load
from yokefellow.rows.model import Schedule, walk
from yokefellow.yarn import Place

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def schedule() -> Schedule:
    return plan(load(ROOT / "examples" / "warm-evenings.toml")).schedule


def worked(text: str, stitches: int) -> int:
    """Work a written round of k, k2tog and M1L, and give the stitches after it.

    A reading of its own: brackets with `N times`, groups that may stand in each other.
    """

    def run(words: str) -> tuple[int, int]:
        takes = makes = 0
        while words:
            repeat = re.match(r"\[([^\[\]]*(?:\[[^\]]*\][^\[\]]*)*)\] (\d+) times(?:, )?", words)
            plain = re.match(r"(k2tog|M1L|k(\d+)?)(?:, )?", words)
            if repeat:
                once = run(repeat[1])
                takes, makes = takes + int(repeat[2]) * once[0], makes + int(repeat[2]) * once[1]
                words = words[repeat.end() :]
                continue
            assert plain, words
            if plain[1] == "k2tog":
                takes, makes = takes + 2, makes + 1
            elif plain[1] == "M1L":
                makes += 1
            else:
                takes, makes = takes + int(plain[2] or 1), makes + int(plain[2] or 1)
            words = words[plain.end() :]
        return takes, makes

    star = re.fullmatch(
        r"\*(.*); rep from \* (?:(\d+) times in all|(\d+) more times|once more)", text
    )
    if star:
        times = int(star[2]) if star[2] else int(star[3] or 1) + 1
        takes, makes = (times * part for part in run(star[1]))
    else:
        takes, makes = run(text)
    assert takes == stitches, text
    return makes


# derived: whatever the slip, the mended count is the planned one
@pytest.mark.parametrize("off", [-9, -4, -3, -2, -1, 1, 2, 3, 5])
def test_the_mending_round_leads_to_the_planned_count(schedule: Schedule, off: int) -> None:
    plain = [
        row
        for row in walk(schedule)
        if row.section.key in {"yoke", "body", "sleeve"} and row.before == row.after
    ]
    for row in plain[::9]:
        place = Place(row.section.key, row.number)
        found = recount(schedule, place, row.after + off)
        assert (found.off_by, found.planned) == (off, row.after)
        if found.mend_at is None:
            continue
        mended = row_at(schedule, found.mend_at)
        assert mended.before == mended.after == row.after
        assert worked(write(found.mend), row.after + off) == row.after


def test_the_right_count_needs_nothing(schedule: Schedule) -> None:
    row = row_at(schedule, Place("yoke", 30))
    found = recount(schedule, Place("yoke", 30), row.after)
    assert (found.off_by, found.likely, found.mend) == (0, Likely.UNKNOWN, ())


# derived: so many were left out, or made
def test_missed_increases_are_told_from_too_many(schedule: Schedule) -> None:
    grown = next(r for r in walk(schedule) if r.section.key == "yoke" and r.after > r.before)
    place = Place("yoke", grown.number + 1)
    missed = recount(schedule, place, grown.after - 3)
    assert (missed.likely, missed.repeats) == (Likely.MISSED, 3)
    assert missed.since == Place("yoke", grown.number)
    extra = recount(schedule, place, grown.after + 2)
    assert (extra.likely, extra.repeats) == (Likely.EXTRA, 2)


def test_a_skipped_repeat_is_a_multiple_of_it() -> None:
    """A raglan adds two at each of four lines: 8 in a round."""
    made = plan(load(ROOT / "examples" / "open-orchard.toml"))
    rows = [row for row in walk(made.schedule) if row.section.key == "yoke"]
    grown = next(row for row in rows if row.after - row.before >= 4)
    found = recount(made.schedule, Place("yoke", grown.number), grown.after - 2)
    assert found.likely in {Likely.MISSED, Likely.SKIPPED}


def test_before_a_band_it_must_be_mended() -> None:
    schedule = plan(load(ROOT / "examples" / "late-veranda.toml")).schedule
    rows = [row for row in walk(schedule) if row.section.key == "yoke"]
    band = next(row for row in rows if row.row.fabric not in {"plain", "rib"})
    before = rows[band.number - 2]
    found = recount(schedule, Place("yoke", before.number), before.after - 1)
    assert found.before_band
    assert found.mend_at is None or found.mend_at.row < band.number


def test_a_count_far_off_is_of_another_row(schedule: Schedule) -> None:
    planned = row_at(schedule, Place("yoke", 30)).after
    # derived: our choice in the program, a quarter
    with pytest.raises(ValueError, match="far from"):
        recount(schedule, Place("yoke", 30), planned // 2)
    with pytest.raises(ValueError, match="no row"):
        recount(schedule, Place("yoke", 9999), planned)
