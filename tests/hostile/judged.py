"""What must become of whatever is typed: a whole sheet that can be knitted, or a clear refusal."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from zlib import crc32

from tests.knitter import knit
from tests.knitter.html_text import read_html
from tests.knitter.json_data import read_json
from tests.knitter.plain_text import read_text
from tests.knitter.sheets import Sheet
from tests.sheet.pages import read as read_strictly
from yokefellow.findings import Finding, YokefellowError
from yokefellow.notation.grammar import NotationError
from yokefellow.notation.phrase import phrase, read_phrase
from yokefellow.notation.read import read
from yokefellow.notation.write import write
from yokefellow.plan import Plan, plan
from yokefellow.project_file.models import Project
from yokefellow.rows.model import Feature, Row, RowKind, Step, taken
from yokefellow.sheet.glance import render_glance
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.text import render_text
from yokefellow.what_if import Prospects, prospects

__all__ = ["FORMS", "clear", "planned_or_told", "read_back_or_told", "told", "whole"]

FORMS = ("html", "text", "json", "glance")

OF_THE_WHOLE = {"file", "toml"}
"""Codes that may name no field: what they tell of is the file, or a line of it."""


def clear(finding: Finding) -> None:
    """A finding says what is so, where, and what to do, and hides nothing."""
    assert finding.message.endswith((".", "?")), finding
    assert finding.remedy.endswith((".", "?")), finding
    assert finding.field or finding.code.partition(".")[0] in OF_THE_WHOLE, finding
    assert str(finding).replace("\n", "").replace("\u200e", "").isprintable(), finding


def told(refused: YokefellowError) -> None:
    """A refusal must be clear."""
    assert refused.findings
    for finding in refused.findings:
        clear(finding)


def planned_or_told(
    project: Callable[[], Project], forms: tuple[str, ...] = FORMS, *, asks: bool = False
) -> Plan | None:
    """Plan what was typed and make those formats of the sheet; None when it was refused.

    One who asks is also told what other lengths would take, as `sheet` does.
    """
    try:
        made = plan(project())
    except YokefellowError as refused:
        told(refused)
        return None
    for finding in made.findings:
        clear(finding)
    more = prospects(made) if asks else None
    for form in forms:
        whole(made, form, more)
    return made


def whole(made: Plan, form: str, more: Prospects | None = None) -> None:
    """A sheet in one format is read back, and the sweater comes off the needles from it."""
    if form == "glance":  # which has no rows to knit
        shown = render_glance(made, more)
        assert shown.endswith("\n")
        assert shown.replace("\n", "").replace("\u200e", "").isprintable()
        return
    knitted = knit(_READ[form](made, more).parts)
    assert knitted.loops == made.total_stitches, (knitted.loops, made.total_stitches)
    assert knitted.held == (made.shape.split.held,) * 2, (knitted.held, made.shape.split)


def _read_page(made: Plan, more: Prospects | None) -> Sheet:
    html = render_html(made, more)
    assert read_strictly(html)
    return read_html(html)


_READ: Mapping[str, Callable[[Plan, Prospects | None], Sheet]] = {
    "html": _read_page,
    "text": lambda made, more: read_text(render_text(made, more)),
    "json": lambda made, more: read_json(render_json(made, more)),
}


def read_back_or_told(text: str, before: int) -> None:
    """A row that is read can be written and read again; any other is refused at a place in it."""
    steps = _read_or_told(text, read)
    if steps is not None:
        assert read(write(steps)) == steps
        for row in _ROWS[crc32(text.encode()) % _PORTIONS :: _PORTIONS]:
            printed_and_read(row._replace(steps=steps))
    _read_or_told(text, lambda text: read_phrase(text, before))


_ROWS = tuple(Row((), feature, kind) for feature in Feature for kind in RowKind)
"""A row of every kind, for every reason."""
_PORTIONS = 18
"""So many texts together try every one of these."""


def printed_and_read(row: Row) -> None:
    """What the sheet prints of a row is read back as its steps."""
    before = taken(row.steps)
    assert read_phrase(phrase(row, before), before) == row.steps, phrase(row, before)


def _read_or_told(text: str, reader: Callable[[str], tuple[Step, ...]]) -> tuple[Step, ...] | None:
    try:
        return reader(text)
    except NotationError as refused:
        if not 0 <= refused.position <= len(text):
            raise
        return None
