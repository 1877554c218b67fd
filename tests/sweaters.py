"""Whole projects for the tests: any size or a body around one, any gauge, every choice.

`written(seed)` gives the sections of a project file, so that a test can edit
them as a knitter would; `project(sections)` reads them. The same seed always
gives the same sweater.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from copy import deepcopy
from random import Random
from typing import Any, TypeAlias

from hypothesis import strategies as st

from yokefellow.body.size_tables import tables
from yokefellow.findings import PlanError, Severity
from yokefellow.plan import Plan, plan
from yokefellow.project_file.models import BODY_LENGTHS, FIT_NAMES, SLEEVE_LENGTHS, Project

IN = 2.54

Sections: TypeAlias = dict[str, Any]

GAUGES = (1.2, 1.6, 2.0, 2.4, 2.8, 3.3, 4.0)
"""Stitches per cm of the fixed grid, from the coarsest to the finest."""
ROUNDS_TO_STITCHES = 1.35
"""Rounds per cm over stitches per cm of the fixed grid; Munden 1959 has 1.29 to 1.31 relaxed."""
YOKES = ("circular", "raglan")
LINE_INCREASES = ("lifted", "yarn over", "front and back")
STYLES = ("regular", "few", "gentle")
RIBS = ("1x1", "2x2", "twisted")
FINISHES = ("rib", "rib", "rib", "garter", "rolled", "folded")
"""Most edges are ribbed; `turning` is read only where one is folded."""
TURNINGS = ("purl", "picot")
SHAPES = ("straight", "a-line", "waist")
PROPORTIONS = ("measured", "percentage 1971", "percentage 1989")


def swatch(
    stitches_per_cm: float, *, rounds_per_cm: float | None = None, over_cm: float = 10
) -> Sections:
    """One state of a swatch, as written."""
    rounds = rounds_per_cm or ROUNDS_TO_STITCHES * stitches_per_cm
    return {
        "stitches": [f"{stitches_per_cm * over_cm:.4f} over {over_cm:g} cm"],
        "rounds": [f"{rounds * over_cm:.4f} over {over_cm:g} cm"],
    }


def sized(
    group: str = "women", size: str | None = "M", *, stitches_per_cm: float = 2.2, **changes: object
) -> Sections:
    """A sweater of one size, all defaults; `changes` as in `edited`."""
    sections: Sections = {
        "wearer": {"table": group} | ({"size": size} if size else {}),
        "swatch": {"plain": {"washed": swatch(stitches_per_cm)}},
        "yarn": {"MC": {"ball_weight": "50 g", "ball_length": "200 m", "balls": 30}},
        "needles": {"main": "3.5 mm"},
    }
    return edited(sections, **changes)


def edited(sections: Mapping[str, Any], **changes: object) -> Sections:
    """The same project with some fields changed: `garment__sleeves__length="short"`."""
    new: Sections = deepcopy(dict(sections))
    for path, value in changes.items():
        *way, name = path.split("__")
        at = new
        for step in way:
            at = at.setdefault(step, {})
        at[name] = value
    return new


def project(sections: Mapping[str, Any]) -> Project:
    return Project.model_validate(sections, context={"unit": sections.get("unit", "cm")})


def planned(sections: Mapping[str, Any]) -> Plan:
    return plan(project(sections))


def planned_or_refused(sections: Mapping[str, Any]) -> Plan | None:
    """The plan; or None where the lengths a knitter may write cannot all be knitted."""
    try:
        return planned(sections)
    except PlanError as refused:
        codes = {one.code for one in refused.findings if one.severity is Severity.ERROR}
        if not codes <= REFUSABLE:
            raise
        return None


REFUSABLE = {
    "body.too-short",
    "body.hem-over-body",
    "body.waist-over-underarm",
    "raglan.line-wide",
    "raglan.neck-wide",
    "raglan.steep",
    "neck.v-shallow",
    "neck.drop-deep",
    "neck.front-narrow",
}
"""What the generator may run into; its other choices must always make a sweater."""


def every_size() -> Iterator[tuple[str, str]]:
    for group, table in tables().items():
        for size in table.sizes:
            yield group, size


def written(seed: int) -> Sections:
    """A random project file: a body anyone may have, and choices that suit some sweater."""
    dice = Random(seed)
    unit = dice.choice(("cm", "in"))
    group = dice.choice(tuple(tables()))
    size = dice.choice(tables()[group].sizes)
    wearer, body = _body(dice, group, size)
    sections: Sections = {
        "title": f"sweater {seed}",
        "unit": unit,
        "wearer": wearer,
        "body": body,
        "ease": {
            "chest": dice.choice((*FIT_NAMES, "classic", "classic")),
            "upper_arm": dice.choice((*FIT_NAMES, "classic", "classic")),
        },
        "swatch": _swatches(dice),
        "yarn": {
            "MC": {
                "ball_weight": f"{dice.choice((25, 50, 100))} g",
                "ball_length": f"{dice.choice((60, 110, 200, 437))} yd",
                "balls": dice.choice((3, 7.4, 12, 20)),
            }
        },
        "needles": {"main": f"{dice.choice((2.5, 3.5, 5, 8))} mm"},
        "garment": _with_raglan(
            _with_necks(_garment(dice, group, size), Random(f"neck {seed}")),
            Random(f"{seed} raglan"),
        ),
        "sheet": {
            "paper": dice.choice(("A4", "Letter")),
            "units": dice.choice(("cm", "in")),
            "large_print": dice.random() < 0.2,
        },
    }
    for place in ("neck", "body", "sleeves"):
        # Thrown last, so that the other choices of a seed stay what they were.
        sections["garment"][place]["finish"] = dice.choice(FINISHES)
        sections["garment"][place]["turning"] = dice.choice(TURNINGS)
    return sections


def necked(seed: int) -> Sections:
    """The sweater of a seed with every kind of neck there is."""
    sections = written(seed)
    _choose_front(sections["garment"], Random(f"{seed} front"))
    return sections


def _body(dice: Random, group: str, size: str) -> tuple[Sections, Sections]:
    """A size by its name, a chest alone, or a body measured in part or whole."""
    table = tables()[group]
    if dice.random() < 0.25:
        return {"table": group, "size": size}, {}
    around = dice.uniform(0.94, 1.06)
    body = {"chest": around * table.middle_cm("chest", size)}
    for name in ("waist", "hip", "upper_arm", "head", "neck", "shoulder_girth", "arm_length"):
        if dice.random() < 0.4:
            body[name] = around * dice.uniform(0.94, 1.06) * table.middle_cm(name, size)
    if "upper_arm" in body and dice.random() < 0.5:
        # Each from the one above it, so that the arm never widens downwards.
        for above, name in (("upper_arm", "forearm"), ("forearm", "wrist")):
            usual = table.middle_cm(name, size) / table.middle_cm(above, size)
            body[name] = min(0.98, usual * dice.uniform(0.95, 1.05)) * body[above]
    if dice.random() < 0.4:
        around = dice.uniform(0.96, 1.04)
        for name in ("armhole_depth", "back_waist_length", "back_hip_length"):
            body[name] = around * table.middle_cm(name, size)
    return {"table": group}, {name: f"{cm:.1f} cm" for name, cm in body.items()}


def _swatches(dice: Random) -> Sections:
    stitches = dice.uniform(1.2, 4.0)
    rounds = stitches * dice.uniform(1.3, 1.45)
    plain: Sections = {"worked": dice.choice(("round", "round", "flat"))}
    state = dice.choice(("washed", "both", "both", "unwashed"))
    if state != "unwashed":
        plain["washed"] = swatch(stitches, rounds_per_cm=rounds, over_cm=dice.choice((8, 10, 15)))
    if state != "washed":
        shrunk = dice.uniform(0.94, 1.06)
        plain["unwashed"] = swatch(stitches * shrunk, rounds_per_cm=rounds / shrunk)
    swatches: Sections = {"plain": plain}
    if dice.random() < 0.4:
        rib = swatch(
            stitches * dice.uniform(1.0, 1.4), rounds_per_cm=rounds * dice.uniform(0.95, 1.1)
        )
        swatches["rib"] = {"washed": rib}
    return swatches


def _garment(dice: Random, group: str, size: str) -> Sections:
    table = tables()[group]
    return {
        "neck": {
            "opening": dice.choice(("crew", "crew", "wide")),
            "rib": dice.choice(RIBS),
            "band": f"{dice.uniform(1, 6):.1f} cm",
            "back_raise": dice.choice(
                ("by size", "by size", "none", f"{dice.uniform(1, 5):.1f} cm")
            ),
            "short_rows": dice.choice(("german", "wrapped")),
        },
        "yoke": {
            "proportions": dice.choice(("measured", "measured", "measured", *PROPORTIONS[1:])),
            "increases": dice.choice(STYLES),
            "depth": dice.choice(("by size", "by size", "quarter of chest")),
        },
        "body": {
            "shape": dice.choice(SHAPES),
            "length": _length(dice, BODY_LENGTHS, table.middle_cm("back_waist_length", size) / 2),
            "rib": dice.choice(RIBS),
            "hem": f"{dice.uniform(1, 4 if group == 'babies' else 8):.1f} cm",
            "gather": dice.choice((0, 0, 5, 10)),
        },
        "sleeves": {
            "length": _length(dice, SLEEVE_LENGTHS, 0.8 * table.middle_cm("arm_length", size)),
            "rib": dice.choice(RIBS),
            "cuff": dice.choice(("by length", "by length", f"{dice.uniform(0.6, 1.9):.1f} cm")),
        },
    }


def _with_necks(garment: Sections, dice: Random) -> Sections:
    """The same choices with the ways of a neck added, from dice of their own."""
    garment["neck"]["cast_on"] = dice.choice(("plain", "plain", "provisional"))
    return garment


def _with_raglan(garment: Sections, dice: Random) -> Sections:
    """One sweater in three is a raglan; drawn apart, so that the others stay what they are."""
    if dice.random() < 2 / 3:
        return garment
    measured = garment["yoke"]["proportions"] == "measured"
    increase = dice.choice(LINE_INCREASES if measured else LINE_INCREASES[:2])
    least = 0 if increase == "front and back" else 1
    lines = {"line_width": dice.randint(least, 4), "line_increase": increase}
    return {**garment, "yoke": {**garment["yoke"], "style": YOKES[1], **lines}}


def _choose_front(garment: Sections, dice: Random) -> None:
    """Boat necks, high necks, and of a raglan by measure fronts worked flat."""
    neck, yoke = garment["neck"], garment["yoke"]
    if dice.random() < 0.12:
        neck["opening"] = "boat"
    if dice.random() < 0.25:
        neck["finish"] = dice.choice(("high", "folded high"))
    if yoke.get("style") != YOKES[1] or yoke["proportions"] != "measured":
        return
    neck["front"] = dice.choice(("level", "scooped", "scooped", "V", "V"))
    if neck["front"] == "level":
        return
    neck["cast_on"] = "plain"
    if neck["front"] == "V" and neck["finish"] not in ("rib", "garter", "rolled"):
        neck["finish"] = "rib"


def _length(dice: Random, names: tuple[str, ...], about_cm: float) -> str:
    """A name, a measure, or a change."""
    way = dice.random()
    if way < 0.6:
        return dice.choice(names)
    if way < 0.8:
        return f"{about_cm * dice.uniform(0.7, 1.3):.1f} cm"
    if way < 0.9:
        return f"shorter by {about_cm * dice.uniform(0.05, 0.4):.1f} cm"
    return f"longer by {about_cm * dice.uniform(0.02, 0.2):.1f} cm"


SECTIONS: st.SearchStrategy[Sections] = st.integers(0, 10**6).map(written)
"""Any project file of the generator."""
