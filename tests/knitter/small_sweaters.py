"""Small sweaters written by hand, and a page that prints them.

Every number is derived by counting along the rows; they are far too small to
wear, so that a reader can follow each stitch.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from html import escape

from tests.knitter.printed import Line, Part

RIB = "*k1, p1; rep from * to end"


def rnd(first: int, what: str, count: int, last: int = 0, kind: str = "rnd") -> Line:
    return Line(first, last or first, kind, what, count)


GERMAN = (
    rnd(1, "k8, turn", 24, kind="RS"),
    rnd(2, "DS, p15, turn", 24, kind="WS"),
    rnd(3, "DS, k12, turn", 24, kind="RS"),
    rnd(4, "DS, p9, turn", 24, kind="WS"),
    rnd(5, "DS, k4 to BOR", 24, kind="part"),
    rnd(6, "k4, k DS, k2, k DS, k8, k DS, k2, k DS, k4", 24),
)
WRAPPED = (
    rnd(1, "k8, w&t", 24, kind="RS"),
    rnd(2, "p16, w&t", 24, kind="WS"),
    rnd(3, "k13, w&t", 24, kind="RS"),
    rnd(4, "p10, w&t", 24, kind="WS"),
    rnd(5, "k5 to BOR", 24, kind="part"),
    rnd(6, "k5, k wrap, k2, k wrap, k6, k wrap, k2, k wrap, k5", 24),
)

SLEEVES = ("left", "right")
SPLIT = (
    "k6, place 8 sts on waste yarn for the first sleeve, CO 2, pm, CO 2, k13, "
    "place 8 sts on waste yarn for the second sleeve, CO 2, pm, CO 2, k7"
)


def sweater(short_rows: tuple[Line, ...] = GERMAN) -> tuple[Part, ...]:
    """24 sts at the neck, 42 at the split, two sleeves of 8, a body of 34."""
    return (
        Part(
            "neckband",
            0,
            (
                rnd(1, "cast on 24 sts; join in the round without twisting and pm for BOR", 24),
                rnd(2, RIB, 24, last=3),
            ),
        ),
        Part("back_neck", 24, short_rows),
        Part(
            "yoke",
            24,
            (
                rnd(1, "[k1, M1L, k1] 12 times", 36),
                rnd(2, "knit", 36, last=3),
                rnd(4, "*[k5, M1L] 2 times, k8, M1L; rep from * once more", 42),
                rnd(5, "k42", 42),
            ),
        ),
        Part(
            "split",
            42,
            (
                rnd(1, SPLIT, 34),
                rnd(2, "rm, k8 to the next marker; this is BOR from now on", 34, kind="part"),
            ),
        ),
        Part(
            "body",
            34,
            (
                rnd(1, "knit", 34, last=2),
                rnd(3, "k1, ssk, k11, k2tog, k1, sm, k1, ssk, k11, k2tog, k1", 30),
                rnd(4, "k1, M1R, k13, M1L, k1, sm, k1, M1R, k13, M1L, k1", 34),
                rnd(5, "k17, rm, k17", 34),
                rnd(6, "[k15, k2tog] 2 times", 32),
            ),
        ),
        Part("hem", 32, (rnd(1, RIB, 32, last=2), rnd(3, "bind off all 32 sts in rib", 0))),
        Part(
            "sleeve",
            8,
            (
                rnd(
                    1,
                    "from the centre of the underarm: pick up and k3, k8, pick up and k3; "
                    "pm for BOR",
                    14,
                ),
                rnd(2, "k2, k2tog, k6, ssk, k2", 12),
                rnd(3, "knit", 12, last=4),
                rnd(5, "k1, k2tog, k6, ssk, k1", 10),
            ),
            SLEEVES,
        ),
        Part(
            "cuff",
            10,
            (rnd(1, RIB, 10, last=2), rnd(3, "bind off all 10 sts in rib", 0)),
            SLEEVES,
        ),
    )


def tube(start: int, *rows: tuple[str, int]) -> tuple[Part, ...]:
    """Cast on, work the rows given with their printed counts, bind off."""
    end = rows[-1][1] if rows else start
    lines = [rnd(1, f"CO {start}", start)]
    lines += [rnd(number, what, count) for number, (what, count) in enumerate(rows, start=2)]
    return (Part("tube", 0, (*lines, rnd(len(lines) + 1, f"BO {end}", 0))),)


def changed(parts: Iterable[Part], key: str, first: int, **to: object) -> tuple[Part, ...]:
    """The same sweater with one line printed otherwise."""
    return tuple(
        replace(
            part,
            lines=tuple(
                replace(line, **to) if line.first == first else line  # type: ignore[arg-type]
                for line in part.lines
            ),
        )
        if part.key == key
        else part
        for part in parts
    )


def printed(parts: Iterable[Part]) -> str:
    """A page of the sweater, with the marks of the sheet's markup."""
    sections = "\n".join(_section(part) for part in parts)
    return f"<!doctype html><html><body><h1>Rounds</h1>{sections}</body></html>"


def _section(part: Part) -> str:
    copies = f' data-copies="{" ".join(part.copies)}"' if part.copies else ""
    lines = "\n".join(_line(part, line) for line in part.lines)
    return (
        f'<section class="rounds" data-key="{part.key}" data-start="{part.start}"{copies}>'
        f"<h2>{part.key}</h2><table>{lines}</table></section>"
    )


def _line(part: Part, line: Line) -> str:
    return (
        f'<tr class="line" data-section="{part.key}" data-first="{line.first}" '
        f'data-last="{line.last}" data-kind="{line.kind}"><td>{line.label()}</td><td>☐</td>'
        f'<td><span class="what">{escape(line.what)}</span> '
        f'<span class="count">{line.count}</span></td></tr>'
    )
