"""The HTML sheet as it is seen: titles, tables and words; none of the marks meant for programs."""

from __future__ import annotations

from html.parser import HTMLParser

from tests.knitter.sheets import Sheet
from tests.knitter.tables import read_tree
from tests.knitter.tree import Tag

__all__ = ["read_html"]

# published: WHATWG, HTML Living Standard, section 13.1.2, void elements.
_VOID = frozenset(
    (
        *("area", "base", "br", "col", "embed", "hr", "img"),
        *("input", "link", "meta", "source", "track", "wbr"),
    )
)
_UNSEEN = frozenset(("style", "script", "title", "desc", "head"))
_IN_LINE = frozenset(("span", "b", "i", "strong", "em", "tspan"))


def read_html(html: str) -> Sheet:
    """Read a finished page."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return read_tree(reader.top, work=_work)


def _work(cell: Tag) -> str:
    """The yarn, where one is named before the words, and the words; not the reason below them."""
    yarn, what = cell.of_class("yarn-of"), cell.of_class("what")
    return " ".join(tag.text for tag in (yarn, what) if tag)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.top = Tag("page")
        self._open = [self.top]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        classes = next((value or "" for name, value in attrs if name == "class"), "")
        new = Tag(tag, frozenset(classes.split()))
        self._open[-1].held.append(new)
        if tag not in _VOID:
            self._open.append(new)

    def handle_endtag(self, tag: str) -> None:
        if any(each.kind == tag for each in self._open):
            while self._open.pop().kind != tag:
                pass

    def handle_data(self, data: str) -> None:
        if not _UNSEEN & {each.kind for each in self._open}:
            self._open[-1].held.append(data)
