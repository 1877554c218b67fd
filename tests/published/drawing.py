"""The outline in the finished page, measured, beside the lengths in the same page's table."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from math import dist
from pathlib import Path
from typing import TypeAlias

from tests.published import published
from tests.published.check import Check
from yokefellow.plan import plan
from yokefellow.project_file.load import load
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = ("warm-evenings", "little-harbour", "broad-oak", "late-veranda")
BOUND = published("drawing")["bound"]

_EDGE = re.compile(r'<path class="edge"[^>]* d="([^"]+)"')
_SPOT = re.compile(r"(-?[0-9.]+) (-?[0-9.]+)")

Point: TypeAlias = tuple[float, float]


def checks() -> Iterator[Check]:
    """Every length that the outline shows, in four sweaters."""
    for name in NAMES:
        table, drawn = _example(name)
        for key, units in drawn.lengths().items():
            if key in table:
                yield Check(
                    f"{name}: {_WORDS[key]}",
                    (table[key],),
                    (units / drawn.per_cm(table["chest"]),),
                    "cm",
                    within=BOUND["units"] / drawn.per_cm(table["chest"]),
                    why=BOUND["why"],
                )


_WORDS = {
    "body_length": "body, underarm to edge",
    "edge": "half the body above the hem, doubled",
    "upper_arm": "sleeve at the top, doubled",
    "sleeve_length": "sleeve, underarm to edge",
    "cuff": "sleeve edge, doubled",
    "yoke_depth": "underarm below the neck edge at the front",
}


@dataclass(frozen=True, slots=True)
class Drawn:
    """The right half of the outline, in units of the picture."""

    body: tuple[Point, ...]
    """From the underarm down to the edge."""
    sleeve: tuple[Point, ...]
    """From the top of the sleeve round its edge to the underarm."""
    middle: float
    """Where the centre front is."""
    throat: float
    """How low the neck edge hangs at the centre front."""

    def per_cm(self, chest_cm: float) -> float:
        """Units of a cm, from the width across the chest."""
        return 4 * (self.body[0][0] - self.middle) / chest_cm

    def lengths(self) -> dict[str, float]:
        """Every length, as the table has it: widths all round."""
        half = len(self.sleeve) // 2
        edge = self.sleeve[half - 1], self.sleeve[half]
        top = self.sleeve[0], self.sleeve[-1]
        return {
            "body_length": self.body[-1][1] - self.body[0][1],
            "edge": 4 * (self.body[-3][0] - self.middle),
            "upper_arm": 2 * dist(*top),
            "sleeve_length": dist(_middle(*top), _middle(*edge)),
            "cuff": 2 * dist(*edge),
            "yoke_depth": self.body[0][1] - self.throat,
        }


def _middle(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


@cache
def _example(name: str) -> tuple[dict[str, float], Drawn]:
    """The table of an example and its drawing, both from finished sheets."""
    made = plan(load(EXAMPLES / f"{name}.toml"))
    table = {d["key"]: d["finished_cm"] for d in json.loads(render_json(made))["dimensions"]}
    return table, _drawn(render_html(made))


def _drawn(html: str) -> Drawn:
    figure = html[html.index('<figure class="schematic">') :].partition("</figure>")[0]
    paths = [
        (d, tuple((float(x), float(y)) for x, y in _SPOT.findall(d))) for d in _EDGE.findall(figure)
    ]
    straight = [points for d, points in paths if "Q" not in d and len(points) > 2]
    sleeve = max(straight, key=lambda points: max(x for x, _ in points))
    (body,) = (points for points in straight if dist(points[0], sleeve[-1]) < 0.2)
    curves = [points for d, points in paths if "Q" in d]
    level = [points for points in curves if points[0][1] == points[-1][1]]
    # The curve of the front hangs lowest: half-way down its pull.
    front = max(level, key=lambda points: points[1][1])
    throat = (front[0][1] + front[1][1]) / 2
    return Drawn(body, sleeve, (front[0][0] + front[-1][0]) / 2, throat)
