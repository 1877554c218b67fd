"""Writes CHECKS.md: every check with what is expected, what the program computes, and the source.

`make proof` runs it; a test refuses a page that no longer says what is computed.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import isinf
from pathlib import Path

from tests.published.check import EXACT, Check, Entry, Value
from tests.published.sources import SOURCES, Source, checks

__all__ = ["PAGE", "render"]

PAGE = Path(__file__).with_name("CHECKS.md")

_INTRO = """\
# Checked against the outside world

What the program computes, beside {checks} published or independently computed values from
{sources} sources. The page is written by `make proof`, and a test fails when it no longer says what
is computed. The numbers of a source stand once, in the `.toml` file of its name in this folder,
with where they come from; the `.py` file beside it computes.

*Deviation* is the largest difference in a row, or how far a number lies outside a range; *allowed*
is what the test lets pass. Where more is allowed than the rounding of floats, the reason stands
below the table. SD is a standard deviation of the source.
"""


def render() -> str:
    """Give the whole page."""
    return "\n".join(_lines())


def _lines() -> Iterator[str]:
    total = sum(len(checks(source.name)) for source in SOURCES)
    yield _INTRO.format(checks=total, sources=len(SOURCES))
    yield "| source | checks | with a bound |"
    yield "|---|---:|---:|"
    for source in SOURCES:
        found = checks(source.name)
        loose = sum(one.within > EXACT for one in found)
        yield f"| [{source.title}](#{_anchor(source.title)}) | {len(found)} | {loose} |"
    yield ""
    for source in SOURCES:
        yield from _section(source)


def _anchor(title: str) -> str:
    return "".join(c for c in title.lower().replace(" ", "-") if c.isalnum() or c == "-")


def _section(source: Source) -> Iterator[str]:
    yield f"## {source.title}"
    yield ""
    yield f"{source.citation} {source.how} (`{source.name}.toml`, `{source.name}.py`)"
    yield ""
    yield "| check | expected | computed | deviation | allowed |"
    yield "|---|---|---|---:|---:|"
    reasons: dict[str, int] = {}
    for one in checks(source.name):
        yield _row(one, reasons)
    yield ""
    for reason, number in reasons.items():
        yield f"{number}. {reason}"
    if reasons:
        yield ""


def _row(check: Check, reasons: dict[str, int]) -> str:
    note = ""
    if check.why:
        note = f" ({reasons.setdefault(' '.join(check.why.split()), len(reasons) + 1)})"
    cells = (
        check.what + (f", {check.unit}" if check.unit else ""),
        _range(check) if check.inside else _value(check.expected),
        _value(check.computed),
        _small(check.deviation),
        _small(check.within) + note,
    )
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _range(check: Check) -> str:
    least, most = check.ends
    if least == most:
        return _number(least)
    if isinf(most):
        return f"at least {_number(least)}"
    return f"from {_number(least)} to {_number(most)}"


def _value(value: Value) -> str:
    if isinstance(value, str):
        return value
    if len(value) > 2 and len(set(value)) == 1:
        return f"{_entry(value[0])} each"
    return "; ".join(map(_entry, value))


def _entry(entry: Entry) -> str:
    if isinstance(entry, tuple):
        return f"{_number(entry[0])}–{_number(entry[1])}"
    return _number(entry)


def _number(value: float) -> str:
    """Write a number so that it can be compared by eye, the same on every machine."""
    short = round(value, 5)
    shown = f"{short:.9g}" if abs(value - short) < EXACT else f"{value:.2f}"
    return shown.replace("-", "−") if float(shown) else "0"


def _small(value: float) -> str:
    return f"{value:.3g}" if value > EXACT else "0"


if __name__ == "__main__":
    PAGE.write_text(render(), encoding="utf-8")
    print(f"Wrote {PAGE.relative_to(Path.cwd())}")
