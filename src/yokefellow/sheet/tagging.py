"""Puts right what the typesetter leaves undone in the tags of a PDF, for those who listen to it.

Elements, streams and arrays are the typesetter's own, changed in place just before
the file is written. What the finished tags must be is in ISO 14289-1 (PDF/UA-1) and,
for each element, in ISO 32000-1, section 14.8.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypeAlias

__all__ = ["mend_tags"]

_Element: TypeAlias = Any
"""A dictionary of the PDF, which is a Python one besides."""

_PIXEL_BOXES_UNTIL = 70
"""The last version of the typesetter known to place figures in pixels, from above."""
_POINTS_PER_PIXEL = 0.75


def mend_tags(document: Any, pdf: Any) -> None:
    """Complete the tags: headers of tables, places of drawings, running heads.

    Args:
        document: the typesetter's document, which it hands over and nobody needs here.
        pdf: its file, about to be written.
    """
    del document
    elements = {each.reference: each for each in pdf.objects if _is(each, "/StructElem")}
    for element in elements.values():
        _mend(element, elements, pdf)
    _mend_running_heads(pdf, elements)


def _is(thing: object, kind: str) -> bool:
    return isinstance(thing, dict) and thing.get("Type") == kind


def _mend(element: _Element, elements: dict[bytes, _Element], pdf: Any) -> None:
    match element["S"]:
        case "/TH":
            _say_scope(element, elements)
        case "/TD":
            element["A"].pop("Headers", None)
        case "/Figure":
            _place(element, pdf)


def _say_scope(header: _Element, elements: dict[bytes, _Element]) -> None:
    """Say of what it is the header, instead of by names that a second page gives again."""
    part = elements[elements[header["P"]]["P"]]
    header["A"]["Scope"] = "/Column" if part["S"] == "/THead" else "/Row"
    header.pop("ID", None)


def _place(figure: _Element, pdf: Any) -> None:
    """Give the place of a drawing in points from below, as everything else on the page."""
    from weasyprint import VERSION

    if int(VERSION.partition(".")[0]) > _PIXEL_BOXES_UNTIL or "BBox" not in figure.get("A", {}):
        return
    page = _object(pdf, figure["Pg"])
    box = figure["A"]["BBox"]
    left, top, right, bottom = (_POINTS_PER_PIXEL * value for value in box)
    height = page["MediaBox"][3]
    box[:] = [left, height - bottom, right, height - top]


def _object(pdf: Any, reference: bytes) -> Any:
    return pdf.objects[int(reference.split()[0])]


def _mend_running_heads(pdf: Any, elements: dict[bytes, _Element]) -> None:
    """Mark as beside the text what stands in the margins, instead of leaving it to no parent."""
    root = _object(pdf, pdf.catalog["StructTreeRoot"])
    told = set(_reached(root["K"], elements))
    numbers = _object(pdf, root["ParentTree"])["Nums"]
    for page, owners in zip(_pages(pdf), numbers[1::2], strict=False):
        marks = {mark for mark, owner in enumerate(owners) if owner not in told}
        for mark in marks:
            owners[mark] = "null"
        _mark_beside(_object(pdf, page["Contents"]).stream, marks)


def _reached(kids: Any, elements: dict[bytes, _Element]) -> Iterator[bytes]:
    """Find every element that hangs in the tree."""
    waiting = list(kids)
    while waiting:
        kid = waiting.pop()
        if isinstance(kid, bytes) and kid in elements:
            yield kid
            waiting += elements[kid]["K"]


def _pages(pdf: Any) -> Iterator[_Element]:
    return (_object(pdf, reference) for reference in pdf.page_references)


def _mark_beside(stream: list[Any], marks: set[int]) -> None:
    """Turn the marks of some content into marks of an artifact, in the commands of a page."""
    for at, command in enumerate(stream):
        if command == b"BDC" and stream[at - 1].get("MCID") in marks:
            stream[at - 2] = "/Artifact"
            del stream[at - 1]["MCID"]
            stream[at - 1]["Type"] = "/Pagination"
