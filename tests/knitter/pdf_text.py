"""The PDF sheet, read back with a PDF library as a screen reader reads it: along its tags."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pypdf
from pypdf.generic import IndirectObject

from tests.knitter.sheets import Sheet
from tests.knitter.tables import read_tree
from tests.knitter.tree import Tag

__all__ = ["read_pdf"]


def read_pdf(pdf: bytes) -> Sheet:
    """Read a finished PDF."""
    return read_tree(_Tree(pypdf.PdfReader(BytesIO(pdf))).top, work=_work)


def _work(cell: Tag) -> str:
    """The first block of a cell: the reason and the boxes stand in blocks of their own."""
    block = cell
    while block.kids and block.kids[0].kind in ("nonstruct", "div"):
        block = block.kids[0]
    return block.text


class _Tree:
    """The tags of a PDF with the words under each."""

    def __init__(self, reader: pypdf.PdfReader) -> None:
        self._words = [_words_by_mark(page) for page in reader.pages]
        self._pages = {
            page.indirect_reference.idnum: at
            for at, page in enumerate(reader.pages)
            if page.indirect_reference
        }
        trailer: Any = reader.trailer
        self.top = Tag("page")
        self.top.held += [self._tag(kid, 0) for kid in trailer["/Root"]["/StructTreeRoot"]["/K"]]

    def _tag(self, held: Any, page: int) -> Tag:
        element = held.get_object()
        if "/Pg" in element:
            at = element.raw_get("/Pg")
            assert isinstance(at, IndirectObject)
            page = self._pages[at.idnum]
        tag = Tag(str(element["/S"]).removeprefix("/").lower())
        for kid in element.get("/K", []):
            if isinstance(kid, int):
                tag.held.append(self._words[page].get(int(kid), ""))
            else:
                tag.held.append(self._tag(kid, page))
        return tag


def _words_by_mark(page: pypdf.PageObject) -> dict[int, str]:
    """The words of a page by the mark under which they are painted."""
    found: dict[int, str] = {}
    marks = [-1]

    def before(command: bytes, given: list[Any], *_: object) -> None:
        if command in (b"BDC", b"BMC"):
            of = given[1] if command == b"BDC" else {}
            marks.append(int(of.get("/MCID", -1)) if hasattr(of, "get") else -1)
        elif command == b"EMC":
            marks.pop()

    def take(text: str, *_: object) -> None:
        found[marks[-1]] = found.get(marks[-1], "") + text

    page.extract_text(visitor_operand_before=before, visitor_text=take)
    return found
