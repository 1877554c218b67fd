"""A reader of tagged PDFs: the tree of tags, the words under each, and what is marked as what."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import pypdf
from pypdf.generic import ContentStream, DictionaryObject, IndirectObject, NullObject

# published: ISO 32000-1, sections 8.5.3, 8.6, 8.8, 9.4.3: what puts something on the page
PAINTS = {b"Tj", b"TJ", b"'", b'"', b"f", b"F", b"f*", b"S", b"s", b"B", b"B*", b"b", b"b*"}
PAINTS |= {b"Do", b"sh", b"EI"}


@dataclass
class Tag:
    kind: str
    """Without its stroke: `H1`, `TD`."""
    held: DictionaryObject
    kids: list[Tag] = field(default_factory=list)
    words: str = ""
    """Its own, without those of its kids."""

    def all(self) -> Iterator[Tag]:
        yield self
        for kid in self.kids:
            yield from kid.all()

    @property
    def text(self) -> str:
        return " ".join(" ".join(tag.words for tag in self.all()).split())

    @property
    def look(self) -> DictionaryObject:
        """Its attributes."""
        held: Any = self.held.get("/A", DictionaryObject())
        looked = held.get_object()
        assert isinstance(looked, DictionaryObject)
        return looked


class Tagged:
    """One PDF."""

    def __init__(self, reader: pypdf.PdfReader) -> None:
        self.reader = reader
        trailer: Any = reader.trailer
        self.root: Any = trailer["/Root"]
        self.struct: Any = self.root["/StructTreeRoot"]
        self._numbers = {
            page.indirect_reference.idnum: number
            for number, page in enumerate(reader.pages)
            if page.indirect_reference
        }
        self._words = [words_by_mark(page) for page in reader.pages]
        self.owners: dict[tuple[int, int], DictionaryObject] = {}
        """The element of the tree that holds a mark, by page and mark."""
        (self.top,) = map(self._tag, self.struct["/K"])

    def _tag(self, held: Any) -> Tag:
        element: DictionaryObject = held.get_object()
        tag = Tag(str(element["/S"]).removeprefix("/"), element)
        page = element.raw_get("/Pg") if "/Pg" in element else None
        kids: Any = element.get("/K", [])
        for kid in kids:
            if isinstance(kid, int):
                assert isinstance(page, IndirectObject)
                place = self._numbers[page.idnum], int(kid)
                assert place not in self.owners, "a mark hangs in the tree twice"
                self.owners[place] = element
                tag.words += " " + self._words[place[0]].get(place[1], "")
            else:
                tag.kids.append(self._tag(kid))
        return tag

    def tags(self, *kinds: str) -> list[Tag]:
        return [tag for tag in self.top.all() if tag.kind in kinds]

    def marks(self) -> Iterator[tuple[int, int]]:
        """Every mark of real content, by page and number; refuses what is not marked."""
        for number, page in enumerate(self.reader.pages):
            for mark in marks_of(page):
                yield number, mark

    def parents(self) -> dict[tuple[int, int], DictionaryObject]:
        """What the tree of parents says of each mark."""
        numbers: Any = self.struct["/ParentTree"]["/Nums"]
        pages = dict(zip(numbers[::2], numbers[1::2], strict=True))
        return {
            (number, mark): owner.get_object()
            for number, page in enumerate(self.reader.pages)
            for mark, owner in enumerate(pages[page["/StructParents"]].get_object())
            if not isinstance(owner, NullObject)
        }


def words_by_mark(page: pypdf.PageObject) -> dict[int, str]:
    """The words of a page, by the mark they stand under; those in the margins under -1."""
    found: dict[int, str] = {}
    at = [-1]

    def before(command: bytes, given: list[Any], *_: object) -> None:
        if command == b"BDC":
            at[0] = int(given[1].get("/MCID", -1))
        elif command == b"BMC":
            at[0] = -1

    def take(text: str, *_: object) -> None:
        found[at[0]] = found.get(at[0], "") + text

    page.extract_text(visitor_operand_before=before, visitor_text=take)
    return found


def marks_of(page: pypdf.PageObject) -> Iterator[int]:
    """The marks of a page; nothing may stand unmarked, nor a mark within another."""
    contents = page.get_contents()
    assert isinstance(contents, ContentStream)
    depth = 0
    for given, command in contents.operations:
        if command in (b"BDC", b"BMC"):
            assert depth == 0, "a mark within a mark"
            depth += 1
            if command == b"BDC" and "/MCID" in given[1]:
                yield int(given[1]["/MCID"])
            else:
                assert given[0] == "/Artifact"
        elif command == b"EMC":
            depth -= 1
        elif command in PAINTS:
            assert depth == 1, f"{command!r} paints what is marked as nothing"
