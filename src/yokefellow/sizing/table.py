"""One sizing table as a frozen value: bodies of one group, size by size, in cm."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from yokefellow.units import LengthUnit

__all__ = ["Row", "SizingTable", "Source"]


class Source(NamedTuple):
    """Where a row comes from."""

    short: str
    """In a few words, for a sentence."""
    full: str
    """Author, title, year; or that it is common practice."""


class Row(NamedTuple):
    """One measure for every size of a table, in cm."""

    name: str
    low_cm: tuple[float, ...]
    high_cm: tuple[float, ...]
    """The same as `low_cm` where the source gives one number."""
    middle_cm: tuple[float, ...]
    unit: LengthUnit
    """The unit in which the source gives it."""
    source: Source
    sure: str
    """How well the numbers are known, in words."""
    note: str
    by: str
    """The measure by which it is filled: `chest`, or another row that goes by the chest."""
    moves_with: str
    """The row with whose departure from the table it shifts; empty when with none."""
    spread_cm: tuple[float, ...]
    """One standard deviation among bodies alike in `by`, for each size; empty when unknown."""
    spread_source: str
    surveyed_cm: tuple[float, ...]
    """What a survey measured on bodies of each size; empty when unknown."""
    surveyed_source: str


class SizingTable(NamedTuple):
    """One group of bodies."""

    name: str
    """As written in `wearer.table`: the name of its file."""
    title: str
    size_word: str
    """What a size counts (`months`); empty when it is only a name."""
    sizes: tuple[str, ...]
    """From small to large."""
    rows: Mapping[str, Row]
    """Every name of `MEASURES`, and `neck_to_cuff`, which is shown and not used."""
    body_lengths: Mapping[str, float]
    """Named body lengths as cm below the waist; negative above it."""
    body_lengths_source: Source
    body_lengths_sure: str
    elbow_share: float
    """The elbow's place as a share of underarm to wrist."""
    elbow_source: Source
    elbow_sure: str

    def middle_cm(self, name: str, size: str) -> float:
        """Give the middle of one entry."""
        return self.rows[name].middle_cm[self.sizes.index(size)]

    def size_words(self, shown: str) -> str:
        """Name sizes in a sentence: `women M–L`, `babies 6–12 months`."""
        return " ".join(word for word in (self.name, shown, self.size_word) if word)
