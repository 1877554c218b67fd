"""What a terminal can show."""

from __future__ import annotations

import pytest

from yokefellow.cli.shown import counted
from yokefellow.cli.terminal import printable, width
from yokefellow.findings import Finding, Severity


def found(severity: Severity) -> Finding:
    return Finding("test", severity, "", "", "")


def test_what_can_be_shown_stays() -> None:
    assert printable("36–38½ → 毛", "utf-8") == "36–38½ → 毛"
    assert printable("½ – °", "latin-1") == "½ - °"


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252", "cp437", "utf-8", "", None])
def test_every_character_can_be_shown_somehow(encoding: str | None) -> None:
    every = "".join(map(chr, range(0x3000))) + "\ud800𝄞"
    printable(every, encoding).encode(encoding or "utf-8")


def test_the_width_is_kept_within_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    for columns, used in (("5", 30), ("64", 64), ("400", 90)):
        monkeypatch.setenv("COLUMNS", columns)
        assert width() == used


def test_counts_in_words() -> None:
    error, caution, note = map(found, Severity)
    assert counted([note, caution, error, caution]) == "1 error, 2 cautions, 1 note"
    assert counted([]) == "nothing found"
