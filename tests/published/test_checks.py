"""Every check against the outside world holds, and the page that lists them is up to date."""

from __future__ import annotations

from dataclasses import replace
from math import inf

import pytest

from tests.published.check import EXACT, Check, worded
from tests.published.page import PAGE, render
from tests.published.sources import SOURCES, Source, checks


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.name)
def test_the_program_agrees_with_its_source(source: Source) -> None:
    # published: as each source says in its own file
    for check in checks(source.name):
        assert check.holds, (
            f"{check.what}: expected {check.expected}, computed {check.computed}, "
            f"{check.deviation:g} off where {check.within:g} is allowed"
        )


def test_there_are_as_many_as_were_asked_for() -> None:
    # common practice, no source: at least 60 were asked for, of many kinds
    assert sum(len(checks(source.name)) for source in SOURCES) >= 90
    assert all(checks(source.name) for source in SOURCES)


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.name)
def test_no_deviation_is_allowed_without_a_reason(source: Source) -> None:
    found = checks(source.name)
    assert len({check.what for check in found}) == len(found)
    for check in found:
        assert check.within <= EXACT or check.why.strip(), check.what


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source.name)
def test_every_check_can_fail(source: Source) -> None:
    """A computed value that is off by more than is allowed is told."""
    for check in checks(source.name):
        assert not spoilt(check).holds, check.what


def spoilt(check: Check) -> Check:
    """The same check, its first number as far off as is just too far."""
    if isinstance(check.computed, str) or isinstance(check.expected, str):
        return replace(check, computed="something else")
    if check.inside:
        wrong_end = check.ends[0] - check.within - 0.01
        return replace(check, computed=(wrong_end, *check.computed[1:]))
    first = check.expected[0]
    off = check.within + 1e-6
    wrong = (first[0] + off, first[1]) if isinstance(first, tuple) else first + off
    return replace(check, computed=(wrong, *check.computed[1:]))


def test_a_missing_number_is_no_agreement() -> None:
    assert Check("two of three", (1, 2, 0), (1, 2)).deviation == inf
    assert Check("words", "2 × 1", (2.0,)).deviation == inf


def test_sizes_are_worded_the_frequent_first() -> None:
    # derived: 14 groups of 7 and 7 of 6
    assert worded([7, 6] * 7 + [7] * 7) == "7 × 14, 6 × 7"


def test_the_page_says_what_is_computed() -> None:
    assert PAGE.read_text(encoding="utf-8") == render(), "run: make proof"
