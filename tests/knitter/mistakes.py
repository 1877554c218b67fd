"""What can be wrong with printed rows, found by working them."""

from __future__ import annotations

from enum import StrEnum


class Kind(StrEnum):
    UNREADABLE = "unreadable"
    """The words are no instruction."""
    ROW_NUMBERS = "row numbers"
    """Rows are not numbered 1, 2, 3, ... in their section."""
    START = "start"
    """A section starts on another count than the work has."""
    TOO_FEW = "too few"
    """A row needs more stitches than there are before its end."""
    LEFT_OVER = "left over"
    """A row ends and stitches are left before its end."""
    COUNT = "count"
    """The printed count is not the number of live stitches."""
    SIDE = "side"
    """A row is for the other side than the one that faces the knitter, or starts away from BOR."""
    TURN = "turn"
    """A turn where none may be, or none where one must be."""
    JOIN = "join"
    """A round on work that lies open, a flat row on work that is joined, or never joined."""
    GAP = "gap"
    """A short-row gap: not guarded, worked past without closing, or closed where there is none."""
    INCREASE = "increase"
    """No bar to lift between two stitches."""
    MARKER = "marker"
    """No marker where one is named, or one where none may lie."""
    PICK_UP = "pick up"
    """No edge to pick up from."""
    HELD = "held"
    """Stitches on waste yarn: forgotten, or wanted back when there are none."""
    BIND_OFF = "bind off"
    """Live stitches that were never bound off."""


class Mistake(Exception):  # noqa: N818 -- the trade's word for it
    def __init__(self, kind: Kind, message: str, where: str = "") -> None:
        self.kind = kind
        self.message = message
        self.where = where
        super().__init__(f"{where}: {message}" if where else message)

    def at(self, where: str) -> Mistake:
        return Mistake(self.kind, self.message, where)
