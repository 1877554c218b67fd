"""The sheet as plain text, 80 columns wide: for a terminal, an e-mail, a screen reader."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from yokefellow.plan import Plan
from yokefellow.sheet.colourwork import PLACES, ChartPart
from yokefellow.sheet.fit_pieces import FitRow, FitView
from yokefellow.sheet.lines import Block, Halt, Line, Note, SectionView, Ticks
from yokefellow.sheet.pattern_pieces import PatternView
from yokefellow.sheet.pieces import Dimension, Sheet
from yokefellow.sheet.view import view
from yokefellow.sheet.yarn_pieces import OtherLengths, OtherLine
from yokefellow.what_if import Prospects

__all__ = ["WIDTH", "fit_lines", "render_text", "table"]

WIDTH = 80
_BOX = "[ ]"
_RUNS_A_LINE = 3


def render_text(plan: Plan, prospects: Prospects | None = None) -> str:
    """Give the whole sheet as text, in the same reading order as the page."""
    return "\n".join(_whole(view(plan, prospects))) + "\n"


def _whole(sheet: Sheet) -> Iterator[str]:
    yield sheet.title
    yield "=" * len(sheet.title)
    if sheet.wearer:
        yield sheet.wearer
    yield from _paragraph(f"{sheet.subtitle}.")
    yield from _paragraph(f"Skills: {sheet.materials.skills}.")
    yield from _at_a_glance(sheet)
    if sheet.pattern:
        yield from _pattern(sheet.pattern)
    yield from _before(sheet)
    yield from _head("The rounds")
    yield from _paragraph(
        "Each [ ] is one row. The number before a run of boxes is the row of its first box; the "
        "number after the arrow is the count of stitches on the needle after the row."
    )
    for section in sheet.sections:
        yield from _section(section)
    yield from _after(sheet)


def _head(words: str, mark: str = "=") -> tuple[str, ...]:
    return ("", "", words, mark * len(words)) if mark == "=" else ("", words, mark * len(words))


def _paragraph(words: str, indent: str = "") -> list[str]:
    return textwrap.wrap(
        words,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=" " * len(indent),
        break_long_words=True,
        break_on_hyphens=False,
    )


def table(rows: Iterable[tuple[str, ...]]) -> Iterator[str]:
    """Line up columns, the widest cell of each setting its width; two blanks between."""
    taken = tuple(rows)
    if not taken:
        return
    widths = [max(len(row[at]) for row in taken) for at in range(len(taken[0]))]
    for row in taken:
        cells = (cell.ljust(width) for cell, width in zip(row, widths, strict=True))
        yield "  ".join(cells).rstrip()


def _at_a_glance(sheet: Sheet) -> Iterator[str]:
    glance = sheet.glance
    yield from _head("The sweater at a glance")
    yield from table(
        (
            ("", "Body", "Ease", "Finished", "Worked as"),
            *((d.place, _body(d), d.ease, d.finished, d.counted) for d in glance.dimensions),
        )
    )
    if glance.any_filled:
        yield "* not measured: filled in from a sizing table"
    yield from _head("Gauge", "-")
    for words in glance.gauge:
        yield from _paragraph(words)
    if sheet.charts:
        yield from _head("The colour bands", "-")
        where = {band.number: band.where for band in sheet.above.bands} if sheet.above else {}
        for chart in sheet.charts:
            place = where.get(f"{chart.number}") or PLACES[chart.section]
            yield from _paragraph(f"{chart.name}: {chart.counted}, {place}", f"{chart.number}. ")
    yield from _head("Yarn", "-")
    for yarn in glance.yarns:
        yield from _paragraph(yarn.name)
        yield from table((y.what, y.length, y.weight, y.balls) for y in yarn.lines)
        yield from _paragraph(yarn.verdict)
    yield from _head("Needles, and when to change", "-")
    for use in glance.needles:
        yield from _paragraph(f"{use.where}: {use.needle}", "- ")
    yield from _head("Notions", "-")
    for words in sheet.materials.notions:
        yield from _paragraph(words, "- ")


def _pattern(pattern: PatternView) -> Iterator[str]:
    yield from _head(pattern.title)
    for words in pattern.intro:
        yield from _paragraph(words)
    yield ""
    yield from table(
        (
            ("  Size", *pattern.heads),
            *((f"{'* ' if n.is_followed else '  '}{n.size}", *n.cells) for n in pattern.lines),
        )
    )
    yield "* the size that is followed"
    yield from _head("What becomes of its rounds", "-")
    for words in pattern.told:
        yield from _paragraph(words, "- ")


def fit_lines(fit: FitView) -> Iterator[str]:
    """Give the fit report in lines."""
    for words in fit.summary:
        yield from _paragraph(words)
    yield from table(
        (
            ("", "Body", "Sweater", "Ease", "Chosen", "Fit"),
            *((r.place, _fit_body(r), r.garment, r.ease, r.chosen, r.verdict) for r in fit.rows),
        )
    )
    yield from _paragraph(fit.heights)
    if fit.any_filled:
        yield "* not measured: filled in from a sizing table"


def _fit_body(row: FitRow) -> str:
    return row.body + (" *" if row.filled else "")


def _others(others: OtherLengths) -> Iterator[str]:
    yield from _head("What other lengths would take")
    yield from _paragraph(others.intro)
    for group in others.groups:
        yield from _head(group.title, "-")
        yield from table(_other(line) for line in group.lines if line.verdict_key != "refused")
        for line in group.lines:
            if line.verdict_key == "refused":
                yield from _paragraph(f"{line.choice}: {line.verdict}")
    yield ""
    for words in others.colours:
        yield from _paragraph(words)
    for heading, said in others.told:
        yield from _head(heading, "-")
        for words in said:
            yield from _paragraph(words, "- ")


def _other(line: OtherLine) -> tuple[str, ...]:
    choice = f"* {line.choice}" if line.is_chosen else f"  {line.choice}"
    shown = (line.long, line.weight, line.balls, line.saves, line.verdict)
    return (choice, *shown)


def _body(measure: Dimension) -> str:
    """Give the body's number, and which it is where the place does not say it."""
    said = f"{measure.body} {measure.body_of}".strip()
    return said + (" *" if measure.filled else "")


def _before(sheet: Sheet) -> Iterator[str]:
    yield from _head("Before you cast on")
    for words in sheet.materials.notes:
        yield from _paragraph(words, "- ")
    for words in sheet.before.swatch:
        yield from _paragraph(words)
    for found in sheet.before.cautions:
        where = f" ({found.where})" if found.where else ""
        yield ""
        yield from _paragraph(f"{found.word}: {found.message} {found.remedy}{where}", "! ")


def _section(section: SectionView) -> Iterator[str]:
    yield from _head(section.title, "-")
    yield from _paragraph(" · ".join(filter(None, (section.rows, section.begins, section.yarn))))
    for words in section.intro:
        yield ""
        yield from _paragraph(words)
    yield ""
    for block in section.blocks:
        yield from _block(block)
    yield ""
    yield section.done


def _block(block: Block) -> Iterator[str]:
    for halt in block.ahead:
        yield from _halt(halt)
    if block.part:
        yield from _chart(block.part)
    for item in block.items:
        if isinstance(item, Line):
            yield from _line(item)
        elif isinstance(item, Halt):
            yield from _halt(item)
        else:
            yield from _note(item)
    for halt in block.behind:
        yield from _halt(halt)


def _chart(part: ChartPart) -> Iterator[str]:
    """Draw a chart in characters: for each stitch its letter, and the sign of its work."""
    chart = part.chart
    yield from _paragraph(chart.title + (f", {part.part}" if part.part else ""), "  ")
    if part.is_first:
        yield from _paragraph(chart.reading, "  ")
        signs = (f"{sign.sign} {sign.words}" for sign in chart.signs if sign.sign.strip())
        known = (f"{c.letter} {c.code} {c.shade}".rstrip() for c in chart.colours)
        yield from _paragraph("; ".join((*known, *signs)), "  ")
    yield ""
    wide = max(len(row.numbers) for row in part.rows)
    if chart.as_it_hangs:
        for row in part.rows:
            yield from _from_the_left(f"  {row.numbers:>{wide}} {row.hand:1} > ", row.text)
    else:
        for row in reversed(part.rows):
            yield from _from_the_right(row.text, f" < {row.hand:1} {row.numbers}")
    yield ""


def _from_the_right(squares: str, tail: str) -> Iterator[str]:
    """Break a row that is wider than the page between two stitches; its first stitch is lowest."""
    room = (WIDTH - len(tail) - 2) // 2 * 2
    ends = range(len(squares), 0, -room)
    for end in reversed(ends):
        part = squares[max(0, end - room) : end]
        yield f"  {part:>{min(room, len(squares))}}{tail if end == len(squares) else ''}".rstrip()


def _from_the_left(head: str, squares: str) -> Iterator[str]:
    """Break a row that is wider than the page between two stitches."""
    room = (WIDTH - len(head)) // 2 * 2
    for start in range(0, max(1, len(squares)), room):
        yield f"{head if not start else ' ' * len(head)}{squares[start : start + room]}".rstrip()


def _line(line: Line) -> Iterator[str]:
    side = f" {line.side}" if line.side else ""
    why = f" ({line.why})" if line.why else ""
    yarn = f" ({line.yarn})" if line.yarn else ""
    label = f"{line.word} {line.numbers}{side}{yarn}: "
    yield from _paragraph(f"{line.what} → {line.count}{why}", label)
    for ticks in line.ticks:
        yield from _boxes(ticks)


def _boxes(ticks: Ticks) -> Iterator[str]:
    runs = [f"{run.first:>4} {_BOX * len(run.boxes)}" for run in ticks.runs]
    name = f"{ticks.name:<5}" if ticks.name else ""
    for start in range(0, len(runs), _RUNS_A_LINE):
        yield f"  {name}{'  '.join(runs[start : start + _RUNS_A_LINE])}"


def _halt(halt: Halt) -> Iterator[str]:
    title = f"{halt.title}. " if halt.title else ""
    boxes = " ".join(f"{ticks.name} {_BOX}".strip() for ticks in halt.ticks)
    yield ""
    yield from _paragraph(f"{halt.word.upper()}. {title}{halt.text}", f"  {boxes} ")
    for blank in halt.blanks:
        yield f"  {blank}: ________ g"
    yield ""


def _note(note: Note) -> Iterator[str]:
    yield from _paragraph(note.text, f"  {note.word.upper()} ")


def _after(sheet: Sheet) -> Iterator[str]:
    yield from _head("Finishing")
    for heading, paragraphs in sheet.finishing:
        yield from _head(heading, "-")
        for words in paragraphs:
            yield from _paragraph(words)
    yield from _head("For you and the wearer", "-")
    for words in sheet.before.safety:
        yield from _paragraph(words, "- ")
    yield from _head("Abbreviations in this sheet")
    for entry in sheet.abbreviations:
        yield from _paragraph(f"{entry.meaning}. {entry.how}", f"{entry.code}: ")
    yield from _appendix(sheet)


def _appendix(sheet: Sheet) -> Iterator[str]:
    """Tell how the sweater was worked out; nothing of it is needed at the needle."""
    yield from _head("How it fits")
    yield from fit_lines(sheet.fit)
    glance = sheet.glance
    yield from _head("Stitch counts")
    yield from table((c.letter, str(c.count), c.what) for c in glance.counts)
    yield glance.equation
    yield glance.equation_in_numbers
    yield from _paragraph(glance.equation_in_words)
    yield from _head("How sure the yarn is")
    for yarn in glance.yarns:
        yield from _paragraph(f"{yarn.name}. {yarn.evidence}", "- ")
    for saving in glance.savings:
        yield from _paragraph(f"{saving.what}: {saving.saves} {saving.amount}.")
    if sheet.others:
        yield from _others(sheet.others)
    yield from _head("What was filled in and assumed")
    for measure in sheet.filled:
        spread = f" ({measure.spread})" if measure.spread else ""
        yield from _paragraph(f"{measure.place}: {measure.value}{spread}. {measure.source}", "- ")
    for words in sheet.assumed:
        yield from _paragraph(words, "- ")
    yield ""
    yield from table(
        (
            ("", "Wanted", "Got", "Difference", "Worked as"),
            *((r.place, r.wanted, r.got, r.difference, r.counted) for r in sheet.residuals),
        )
    )
