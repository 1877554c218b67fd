"""A reader of finished pages that is strict where a browser forgives."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

# published: WHATWG, HTML Living Standard, section 13.1.2, void elements
VOID = frozenset(("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta"))
VOID |= {"source", "track", "wbr"}
_ALSO_SELF_CLOSED = frozenset({"path", "circle", "rect"})


@dataclass
class Element:
    tag: str
    attributes: dict[str, str]
    texts: list[str] = field(default_factory=list)
    """Of the element and everything inside it."""
    inside: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        return " ".join("".join(self.texts).split())

    def has(self, name: str) -> bool:
        return name in self.attributes.get("class", "").split()


class StrictReader(HTMLParser):
    """Reads every element; refuses a tag that is not closed, or closed out of turn."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[Element] = []
        self._open: list[Element] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        names = [name for name, _ in attrs]
        assert len(set(names)) == len(names), f"{tag} has an attribute twice: {names}"
        inside = tuple(element.tag for element in self._open)
        element = Element(tag, {name: value or "" for name, value in attrs}, [], inside)
        self.elements.append(element)
        if tag not in VOID:
            self._open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag in _ALSO_SELF_CLOSED, f"{tag} is closed in itself"
        self.handle_starttag(tag, attrs)
        self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        assert self._open, f"{tag} is closed and never opened"
        assert self._open[-1].tag == tag, f"{tag} is closed inside {self._open[-1].tag}"
        self._open.pop()

    def handle_data(self, data: str) -> None:
        for element in self._open:
            element.texts.append(data)


def read(html: str) -> list[Element]:
    reader = StrictReader()
    reader.feed(html)
    reader.close()
    assert not reader._open, f"never closed: {[element.tag for element in reader._open]}"
    return reader.elements


def squeezed(text: str) -> str:
    """The text without any white space: what a line break cannot change."""
    return "".join(text.split())
