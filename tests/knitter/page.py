"""The HTML sheet, read as printed rows.

Looks at nothing but this: `<section class="rounds" data-key data-start
[data-copies]>`, inside it elements of class `line` with `data-section`,
`data-first`, `data-last` and `data-kind`, and inside those one element of
class `what` and one of class `count`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from html.parser import HTMLParser

from tests.knitter.mistakes import Kind, Mistake
from tests.knitter.printed import Line, Part

# published: WHATWG, HTML Living Standard, section 13.1.2, void elements.
_VOID = frozenset(
    (
        *("area", "base", "br", "col", "embed", "hr", "img"),
        *("input", "link", "meta", "source", "track", "wbr"),
    )
)
_INVISIBLE = re.compile("[\u00ad\u200b-\u200d\u2060\ufeff]")


def read_page(html: str) -> tuple[Part, ...]:
    reader = _PageReader()
    reader.feed(html)
    reader.close()
    if not reader.parts:
        raise Mistake(Kind.UNREADABLE, "the page holds no section of rounds")
    return tuple(part.finished() for part in reader.parts)


@dataclass
class _OpenLine:
    attributes: dict[str, str]
    texts: dict[str, list[str]] = field(default_factory=dict)

    def finished(self, key: str) -> Line:
        where = f"{key}, row {self.attributes.get('data-first', '?')}"
        if self.attributes.get("data-section") != key:
            raise Mistake(Kind.UNREADABLE, "the line names another section", where)
        return Line(
            first=_number(self.attributes.get("data-first"), where),
            last=_number(self.attributes.get("data-last"), where),
            kind=self.attributes.get("data-kind", ""),
            what=self._only("what", where),
            count=_number(re.sub(r" sts?$", "", self._only("count", where)), where),
        )

    def _only(self, name: str, where: str) -> str:
        if name not in self.texts:
            raise Mistake(Kind.UNREADABLE, f"the line has no {name!r}", where)
        return " ".join(_INVISIBLE.sub("", "".join(self.texts[name])).split())


@dataclass
class _OpenPart:
    attributes: dict[str, str]
    lines: list[_OpenLine] = field(default_factory=list)

    def finished(self) -> Part:
        key = self.attributes.get("data-key", "")
        return Part(
            key=key,
            start=_number(self.attributes.get("data-start"), key),
            lines=tuple(line.finished(key) for line in self.lines),
            copies=tuple(self.attributes.get("data-copies", "").split()),
        )


def _number(text: str | None, where: str) -> int:
    if text is None or not re.fullmatch("[0-9]{1,5}", text):
        raise Mistake(Kind.UNREADABLE, f"{text!r} is no number", where)
    return int(text)


class _PageReader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.parts: list[_OpenPart] = []
        self.open: list[tuple[str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        attributes = {name: value or "" for name, value in attrs}
        role = self._role(tag, set(attributes.get("class", "").split()))
        if tag not in _VOID:
            self.open.append((tag, role))
        if role == "part":
            self.parts.append(_OpenPart(attributes))
        elif role == "line":
            self.parts[-1].lines.append(_OpenLine(attributes))
        elif role:
            self._begin(role)

    def _role(self, tag: str, classes: set[str]) -> str:
        inside = {role for _, role in self.open}
        if tag == "section" and "rounds" in classes:
            return "part"
        if "line" in classes and "part" in inside:
            return "line"
        if "line" in inside and not inside & {"what", "count"}:
            return next((name for name in ("what", "count") if name in classes), "")
        return ""

    def _begin(self, name: str) -> None:
        texts = self.parts[-1].lines[-1].texts
        if name in texts:
            raise Mistake(Kind.UNREADABLE, f"a line has two {name!r}", self._key())
        texts[name] = []

    def _key(self) -> str:
        return self.parts[-1].attributes.get("data-key", "")

    def handle_endtag(self, tag: str) -> None:
        if not any(name == tag for name, _ in self.open):
            return
        while self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        roles: Iterable[str] = (role for _, role in reversed(self.open))
        name = next((role for role in roles if role in ("what", "count")), "")
        if name:
            self.parts[-1].lines[-1].texts[name].append(data)
