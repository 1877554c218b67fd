"""What a printed pattern gives before its instructions: gauge, skills, notions, notes."""

from __future__ import annotations

import re

import pytest

from tests.sheet.plans import banded, meadow, small
from yokefellow.notation.write import write
from yokefellow.plan import Plan
from yokefellow.sheet.lines import Halt, Line
from yokefellow.sheet.text import render_text
from yokefellow.sheet.view import view


@pytest.mark.parametrize("made", [small, banded, meadow])
def test_as_many_markers_as_are_in_the_work_at_once(made: object) -> None:
    plan: Plan = made()  # type: ignore[operator]
    placed = most = 0
    for row in plan.rows:
        if row.section.key == "sleeve" and row.number == 1:
            placed = 0
        said = write(row.row.steps)
        placed += len(re.findall(r"\bpm\b", said)) - len(re.findall(r"\brm\b", said))
        most = max(most, placed)
    told = int(re.match(r"[0-9]+", view(plan).materials.notions[0])[0])  # type: ignore[index]
    assert told == max(1, most)


def test_waste_yarn_is_for_the_stitches_of_each_sleeve() -> None:
    assert f" {small().shape.split.held} sts" in view(small()).materials.notions[1]


def test_floats_are_told_of_only_where_there_are_some() -> None:
    assert len(view(meadow()).materials.notes) == len(view(small()).materials.notes) + 1
    assert "tranded" in view(meadow()).materials.skills
    assert "tranded" not in view(small()).materials.skills


@pytest.mark.parametrize("made", [small, banded])
def test_the_twist_is_looked_for_before_the_join(made: object) -> None:
    section = view(made()).sections[0]  # type: ignore[operator]
    first = section.items[0]
    assert isinstance(first, Halt)
    assert first.after == 0
    assert not any(isinstance(item, Line) for item in section.items[: section.items.index(first)])


def test_the_text_tells_it_all() -> None:
    text = " ".join(render_text(meadow()).split())
    told = view(meadow()).materials
    for words in (told.skills, *told.notions, *told.notes):
        assert words in text
