"""The sweater on one terminal screen: what one looks at before printing the sheet."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from yokefellow.plan import Plan
from yokefellow.sheet.pieces import Sheet
from yokefellow.sheet.text import WIDTH, fit_lines, table
from yokefellow.sheet.view import view
from yokefellow.what_if import Prospects

__all__ = ["render_glance"]


def render_glance(plan: Plan, prospects: Prospects | None = None) -> str:
    """Give a short summary, at most 80 columns wide."""
    return "\n".join(_lines(view(plan, prospects))) + "\n"


def _lines(sheet: Sheet) -> Iterator[str]:
    glance = sheet.glance
    yield from _wrapped(", ".join(words for words in (sheet.title, sheet.wearer) if words))
    yield ""
    yield from table(
        (
            ("", "Body", "Finished", "Worked as"),
            *(
                (d.place, d.body + (" *" if d.filled else ""), d.finished, d.counted)
                for d in glance.dimensions
            ),
        )
    )
    if glance.any_filled:
        yield "* not measured: filled in from a sizing table"
    yield ""
    yield from _wrapped(" ".join(glance.gauge))
    yield ""
    yield from fit_lines(sheet.fit)
    yield ""
    for yarn in glance.yarns:
        yield from _wrapped(yarn.name)
        yield from table((y.what, y.length, y.weight, y.balls) for y in yarn.lines)
        yield from _wrapped(f"{yarn.verdict} {yarn.evidence}")
    for longest in sheet.others.longest if sheet.others else ():
        yield from _wrapped(longest.words)
    for saving in glance.savings:
        yield from _wrapped(f"{saving.what}: {saving.saves} {saving.amount}.")
    yield ""
    yield f"{sheet.total_rows} rows in {len(sheet.sections)} sections."
    for words in sheet.pattern.told if sheet.pattern else ():
        yield from _wrapped(words)
    for found in sheet.before.cautions:
        yield ""
        yield from _wrapped(f"{found.word}: {found.message} {found.remedy}")


def _wrapped(words: str) -> list[str]:
    return textwrap.wrap(words, WIDTH, break_long_words=True, break_on_hyphens=False)
