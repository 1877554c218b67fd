"""From the tags of a page to the sheet: titles, the lines under them, and the tables of rows."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field

from tests.knitter.mistakes import Kind, Mistake
from tests.knitter.printed import Line, Part
from tests.knitter.sheets import NUMBERS, WHERE, Sheet, code_of, number, worked_as
from tests.knitter.tree import Tag, rows_of

__all__ = ["read_tree"]

_YARN_FIRST = re.compile(r"(MC|CC[0-9]?) (.+)")
_LETTER_FIRST = re.compile(r"[a-z] (.+)")


def read_tree(top: Tag, *, work: Callable[[Tag], str]) -> Sheet:
    """Read a page.

    Args:
        top: its tags.
        work: gives the words of the cell of a row that says what to do, and the
            yarn before them, without the reason and the boxes.
    """
    reader = _Reader(work)
    for tag in top.walk():
        reader.meet(tag)
    if not reader.parts:
        raise Mistake(Kind.UNREADABLE, "the page holds no section of rows")
    return Sheet(
        title=reader.title,
        measures=reader.measures,
        yarns=tuple(reader.yarns),
        spends=tuple(part.spends for part in reader.parts),
        parts=tuple(part.finished() for part in reader.parts),
    )


@dataclass
class _OpenPart:
    title: str
    start: int
    spends: str
    copies: tuple[str, ...] = ()
    lines: list[Line] = field(default_factory=list)

    def finished(self) -> Part:
        return Part(self.title, self.start, tuple(self.lines), self.copies)


class _Reader:
    def __init__(self, work: Callable[[Tag], str]) -> None:
        self.work = work
        self.title = ""
        self.measures: dict[str, tuple[str, str]] = {}
        self.yarns: list[str] = []
        self.parts: list[_OpenPart] = []
        self._head = self._last = ""
        self._columns: list[str] = []
        self._is_open = False
        """Whether a section of rows goes on."""

    def meet(self, tag: Tag) -> None:
        """Take what the reading comes to next."""
        if tag.kind == "h1":
            self.title = self.title or tag.text
        elif tag.kind in ("h2", "h3"):
            self._head, self._is_open = tag.text, False
        elif tag.kind == "p":
            self._paragraph(tag.text)
        elif tag.kind == "thead":
            self._heads(tag)
        elif tag.kind == "tr":
            self._row(tag)

    def _paragraph(self, text: str) -> None:
        where = WHERE.fullmatch(text)
        if where:
            self.parts.append(_OpenPart(self._head, int(where["start"] or 0), where["spends"]))
            self._is_open = True
        self._last = text

    def _heads(self, tag: Tag) -> None:
        """Learn the columns of a table; on every page they stand anew."""
        self._columns = [cell.text for cell in rows_of(tag)]
        if self._head == "Yarn" and not self._is_open:
            self.yarns.append(self._last)
        if self._is_open:
            of_copies = self._columns[1 : self._columns.index("Work")]
            self.parts[-1].copies = tuple(
                name.lower() for name in of_copies if name not in ("Done", "Yarn")
            )

    def _row(self, tag: Tag) -> None:
        cells = rows_of(tag)
        if self._is_open:
            numbers = NUMBERS.fullmatch(cells[0].text)
            if numbers and len(cells) > 2:
                self._line(numbers, cells)
        elif "Finished" in self._columns and cells[-1].text not in ("Worked as", ""):
            place = next(cell.text for cell in cells if len(cell.text) > 1)
            lettered = _LETTER_FIRST.fullmatch(place)
            self.measures[lettered[1] if lettered else place] = cells[-2].text, cells[-1].text

    def _line(self, numbers: re.Match[str], cells: list[Tag]) -> None:
        part = self.parts[-1]
        first, last, side = numbers.groups()
        where = f"{part.title}, row {first}"
        yarn, what = "", self.work(cells[-2])
        if "Yarn" in self._columns:
            yarn = code_of(cells[self._columns.index("Yarn")].text)
        elif named := _YARN_FIRST.fullmatch(what):
            yarn, what = named.groups()
        before = part.lines[-1].what if part.lines else ""
        part.lines.append(
            Line(
                first=int(first),
                last=int(last or first),
                kind=worked_as(side or "", what, turned=before.endswith(("turn", "w&t"))),
                what=what,
                count=number(cells[-1].text.partition(" ")[0], where),
                yarn=yarn,
            )
        )
