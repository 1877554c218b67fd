"""Whole projects with colour bands: any size, gauge and style, one to four bands anywhere.

`banded(seed)` gives the sections of a project file, as `tests.sweaters.written`
does. Charts come from the shipped motifs and from the strategies of
`tests.charts.drawn`, drawn once by hypothesis with a fixed seed.
"""

from __future__ import annotations

from functools import cache
from itertools import count
from random import Random

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from tests.charts.drawn import mosaics, purls, slips, stranded, stripes
from tests.sweaters import STYLES, Sections, every_size, swatch
from yokefellow.body.size_tables import tables
from yokefellow.charts.library import motifs
from yokefellow.charts.read import read_chart
from yokefellow.charts.text import ChartText, lines_of

DRAWN = 400
"""Charts in the drawer from which the sweaters take theirs."""

SIZES = tuple(sorted(every_size()))


@cache
def drawn_charts() -> tuple[ChartText, ...]:
    """Charts of every kind, growing ones among them, that can be worked."""
    found: list[ChartText] = []

    @seed(3)
    @settings(
        max_examples=DRAWN,
        database=None,
        phases=[Phase.generate],
        deadline=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(st.one_of(mosaics(), stranded(), slips(), stripes(), purls()))
    def draw(text: ChartText) -> None:
        if read_chart(text)[0] is not None:
            found.append(text)

    draw()
    return tuple(found)


def chart(text: ChartText) -> Sections:
    """A chart as written in a project file."""
    return {
        "kind": text.kind.value,
        "colours": dict(text.legend),
        "rows": "\n".join(text.lines),
        "times": text.times,
        "grows": text.grows,
    }


def banded(number: int, *, bands: int | None = None) -> Sections:
    """A random project with colour bands; the same number always gives the same sweater."""
    dice = Random(number)
    group, size = dice.choice(SIZES)
    per_cm = dice.uniform(1.2, 4.0)
    rounds = per_cm * dice.uniform(1.3, 1.45)
    sections: Sections = {
        "title": f"banded {number}",
        "wearer": {"table": group, "size": size},
        "swatch": {"plain": {"washed": swatch(per_cm, rounds_per_cm=rounds)}},
        "yarn": {
            code: {"ball_weight": "50 g", "ball_length": "200 m", "balls": 20}
            for code in ("MC", "CC1", "CC2")
        },
        "needles": {"main": "3.5 mm"},
        "garment": {
            "neck": {"opening": dice.choice(("crew", "wide")), "rib": dice.choice(("1x1", "2x2"))},
            "yoke": {"increases": dice.choice(STYLES)},
            "sleeves": {"length": dice.choice(("short", "elbow", "full"))},
        },
        "charts": {},
    }
    _fabrics(sections, dice, per_cm, rounds)
    depth_cm = 1.15 * tables()[group].middle_cm("armhole_depth", size)
    chest = per_cm * tables()[group].middle_cm("chest", size)
    sections["garment"]["yoke"]["bands"] = [
        _band(sections, dice, at, chest)
        for at in _places(dice, bands or dice.randint(1, 4), depth_cm)
    ]
    return sections


def _fabrics(sections: Sections, dice: Random, per_cm: float, rounds: float) -> None:
    """Swatches of the bands' fabrics: tighter or looser than the plain one, or missing."""
    for kind in ("mosaic", "slip", "stranded", "stripes", "purl"):
        if dice.random() < 0.6:
            sections["swatch"][kind] = {
                "washed": swatch(
                    per_cm * dice.uniform(0.94, 1.12),
                    rounds_per_cm=rounds * dice.uniform(0.95, 1.25),
                )
            }


def _places(dice: Random, bands: int, depth_cm: float) -> list[str]:
    """Spread, or at depths that grow, or a mixture."""
    way = dice.random()
    if way < 0.6:
        return ["spread"] * bands
    share = 0.8 / bands
    depths = [(0.05 + share * (n + dice.random())) * depth_cm for n in range(bands)]
    return [f"{cm:.1f} cm" if way < 0.8 or dice.random() < 0.5 else "spread" for cm in depths]


def _band(sections: Sections, dice: Random, at: str, chest: float) -> Sections:
    if dice.random() < 0.5:
        name = dice.choice(tuple(motifs()))
        text = motifs()[name]
    else:
        texts = drawn_charts()
        text = texts[dice.randrange(len(texts))]
        name = next(f"drawn-{n}" for n in count(1) if f"drawn-{n}" not in sections["charts"])
        sections["charts"][name] = chart(text)
    band: Sections = {"chart": name, "at": at}
    if dice.random() < 0.12:
        width = len(next(lines_of(text)).marks)
        band["repeats"] = max(1, round(dice.uniform(0.5, 1.3) * chest / width))
    return band
