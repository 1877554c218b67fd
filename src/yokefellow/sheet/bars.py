"""Needs beside the stash, as bars: readable in black and white, each with its verdict in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from yokefellow.plan import Plan
from yokefellow.sheet.figures import grams
from yokefellow.sheet.yarn_pieces import Bar, Bars, OtherGroup, OtherLine, OtherYarn
from yokefellow.yarn import MAIN

__all__ = ["bars"]

WIDE, LEFT, RIGHT = 440.0, 112.0, 352.0
"""Of the picture, and where its bars begin and the longest range ends, in its own units."""
ROW, THICK, HEAD, TOP = 21.0, 13.0, 25.0, 24.0
"""Heights of a row, a bar, the words over a group, and the words of the stash."""

_SHORT_WORDS = {"enough": "enough", "close": "close", "short": "short"}


def bars(plan: Plan, groups: Sequence[OtherGroup]) -> Bars:
    """Draw what sleeves and bodies of each length would take of the main yarn."""
    stash_g = plan.yarn.stash.grams
    drawn = [(group, _lines(group)) for group in groups if group.key in ("sleeves", "body")]
    most_g = max(stash_g, *(yarn.most_g for _, lines in drawn for _, yarn in lines))
    scale = (RIGHT - LEFT) / most_g
    made: list[Bar] = []
    heads: list[tuple[str, str]] = []
    y = TOP
    for group, lines in drawn:
        heads.append((group.title, f"{y + HEAD - 8:.0f}"))
        y += HEAD
        for line, yarn in lines:
            made.append(_bar(line, yarn, y, scale))
            y += ROW
    at = LEFT + stash_g * scale
    return Bars(
        view_box=f"0 0 {WIDE:.0f} {y + 8:.0f}",
        left=f"{LEFT:.0f}",
        thick=f"{THICK:.0f}",
        verdict_x=f"{RIGHT + 14:.0f}",
        heads=tuple(heads),
        bars=tuple(made),
        stash=f"M{at:.1f} {TOP - 4:.0f} V{y + 4:.0f}",
        stash_x=f"{at:.1f}",
        # Written towards the side that has room.
        stash_anchor="end" if at > (LEFT + RIGHT) / 2 else "start",
        stash_words=f"in the drawer {grams(stash_g)}",
        title="What sleeves and bodies of each length take, beside what there is",
        description=" ".join(_told(plan, drawn)),
    )


def _lines(group: OtherGroup) -> list[tuple[OtherLine, OtherYarn]]:
    """Give the lines that can be knitted, each with its main yarn."""
    return [(line, yarn) for line in group.lines for yarn in line.yarns if yarn.code == MAIN]


def _bar(line: OtherLine, yarn: OtherYarn, y: float, scale: float) -> Bar:
    middle = y + THICK / 2
    low, high = LEFT + max(0.0, yarn.least_g) * scale, LEFT + yarn.most_g * scale
    ends = " ".join(f"M{x:.1f} {middle - 4:.1f} V{middle + 4:.1f}" for x in (low, high))
    return Bar(
        style="chosen" if line.is_chosen else "other",
        y=f"{y:.1f}",
        width=f"{yarn.grams * scale:.1f}",
        spread=f"M{low:.1f} {middle:.1f} H{high:.1f} {ends}",
        label=line.choice,
        verdict=_SHORT_WORDS[yarn.verdict],
        baseline=f"{y + THICK - 2:.1f}",
    )


def _told(
    plan: Plan, drawn: Sequence[tuple[OtherGroup, list[tuple[OtherLine, OtherYarn]]]]
) -> Iterator[str]:
    yield f"In the drawer: {grams(plan.yarn.stash.grams)} of {MAIN}."
    for group, lines in drawn:
        said = (
            f"{line.choice} {grams(yarn.grams)}, from {grams(yarn.least_g)} to "
            f"{grams(yarn.most_g)}, {_SHORT_WORDS[yarn.verdict]}"
            for line, yarn in lines
        )
        yield f"{group.title}: {'; '.join(said)}."
