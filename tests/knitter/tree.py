"""A page as a tree of tags, in reading order: what HTML and a tagged PDF have in common."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from tests.knitter.sheets import plain

__all__ = ["Tag", "rows_of"]


@dataclass
class Tag:
    """One element with what it holds, words and other elements, in order."""

    kind: str
    """`h3`, `p`, `tr`, `td`, ...: in small letters, by the names that HTML has for them."""
    classes: frozenset[str] = frozenset()
    held: list[Tag | str] = field(default_factory=list)

    def walk(self) -> Iterator[Tag]:
        """This element and every one inside it, in reading order."""
        yield self
        for kid in self.kids:
            yield from kid.walk()

    @property
    def kids(self) -> list[Tag]:
        """The elements it holds."""
        return [each for each in self.held if isinstance(each, Tag)]

    def all(self, *kinds: str) -> list[Tag]:
        """Every element of some kinds inside it."""
        return [tag for tag in self.walk() if tag.kind in kinds]

    @property
    def text(self) -> str:
        """Its words and those of all it holds."""
        return plain(" ".join(self._words()))

    def _words(self) -> Iterator[str]:
        for each in self.held:
            if isinstance(each, Tag):
                yield from each._words()
            else:
                yield each

    def of_class(self, name: str) -> Tag | None:
        """The first element of a class inside it."""
        return next((tag for tag in self.walk() if name in tag.classes), None)


def rows_of(row: Tag) -> list[Tag]:
    """The cells of a row."""
    return row.all("th", "td")
