"""Bodies drawn from surveys: each measure by its line on the chest, with its own spread.

Women and men by the regressions of ANSUR II (`tests/published/army.toml`), the
chest itself by its mean and spread there; children and babies by the council's
tables (`tests/published/council.toml`). What is drawn beside them without a
survey says so. The residuals are drawn apart from each other, so that bodies
come out odder than they are: a full arm on a short back with a long front.
"""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from typing import Any

from tests.published import published
from tests.sweaters import RIBS, SHAPES, STYLES, Sections, swatch
from yokefellow.project_file.models import BODY_LENGTHS, FIT_NAMES, SLEEVE_LENGTHS

IN = 2.54
ARMY: dict[str, Any] = published("army")
COUNCIL: dict[str, Any] = published("council")

# published: Gordon et al., ANSUR II, 2014, worked out from the public data: chest, mean and SD;
# underarm to wrist, mean and SD
CHEST_CM = {"women": (94.69, 8.27), "men": (105.87, 8.74)}
ARM_CM = {"women": (44.48, 2.98), "men": (48.16, 3.13)}

# published: ASTM D5585-11e1, misses: from -5/8 in at a chest of 31 1/8 in to 2 1/8 in at 46 in
BUST_SLOPE, BUST_BEFORE_CM = 0.1849, 16.2
BUST_SD_CM = 3.5  # common practice, no source: from one cup to the next is an inch
FRONT_LONGER_CM = (1.5, 2.5)  # common practice, no source: mean and SD of front less back
FRONT_WIDER_CM = (1.0, 2.0)  # common practice, no source
CHILD_SPREAD = 0.05  # common practice, no source: of each measure of a size

GIRTHS = ("waist", "hip", "neck", "head", "upper_arm", "wrist", "shoulder_girth")
CHILD_MEASURES = ("waist", "hip", "upper_arm", "arm_length", "back_waist_length", "armhole_depth")


def body(seed: int) -> tuple[str, dict[str, float]]:
    """Draw one body: its table, and its measures in cm."""
    dice = Random(f"body {seed}")
    group = dice.choices(("women", "men", "children", "babies"), (50, 30, 15, 5))[0]
    drawn = _child(dice, group) if group in ("children", "babies") else _adult(dice, group)
    return group, {name: round(cm, 1) for name, cm in drawn.items()}


def _normal(dice: Random, mean: float, sd: float) -> float:
    """Draw within three deviations: the surveys hold no more."""
    return mean + sd * min(3.0, max(-3.0, dice.gauss(0, 1)))


def _adult(dice: Random, group: str) -> dict[str, float]:
    # One in five far larger than soldiers are: the line is carried on.
    chest = dice.uniform(110, 150) if dice.random() < 0.2 else _normal(dice, *CHEST_CM[group])
    found = {"chest": chest}
    for name, (start, slope, sd) in ARMY[group]["by_chest"].items():
        found[name] = _normal(dice, start + slope * chest, sd)
    found["arm_length"] = _normal(dice, *ARM_CM[group])
    # A forearm between upper arm and wrist, as every arm has it.
    found["forearm"] = found["wrist"] + 0.7 * max(2.0, found["upper_arm"] - found["wrist"])
    found["upper_arm"] = max(found["upper_arm"], found["forearm"])
    back = found["back_waist_length"]
    found["back_length"] = back - 1.0
    found["front_length"] = found["back_length"] + _normal(dice, *FRONT_LONGER_CM)
    found["front_chest"] = chest / 2 + _normal(dice, *FRONT_WIDER_CM) / 2
    if group == "women":
        usual = max(0.0, BUST_SLOPE * chest - BUST_BEFORE_CM)
        found["high_chest"] = chest - max(-2.0, _normal(dice, usual, BUST_SD_CM))
    return _some(dice, found)


def _some(dice: Random, found: dict[str, float]) -> dict[str, float]:
    """Leave measures out, as knitters do; the two lengths come together."""
    kept = {name for name in found if name == "chest" or dice.random() < 0.6}
    if "front_length" in kept:
        kept.add("back_length")
    kept -= {"back_length"} - ({"back_length"} if "front_length" in kept else set())
    return {name: cm for name, cm in found.items() if name in kept}


def _child(dice: Random, group: str) -> dict[str, float]:
    rows = COUNCIL["body"][group]
    at = dice.uniform(0, len(rows["sizes"]) - 1)
    low = min(int(at), len(rows["sizes"]) - 2)

    def drawn(name: str) -> float:
        cm: float = IN * (rows[name][low] + (at - low) * (rows[name][low + 1] - rows[name][low]))
        return cm * (1 + _normal(dice, 0, CHILD_SPREAD))

    found = {"chest": drawn("chest")}
    found |= {name: drawn(name) for name in CHILD_MEASURES if dice.random() < 0.6}
    return found


def sweater(seed: int, style: str) -> Sections:
    """Draw a sweater for that body: gauge, fit, shape and lengths."""
    group, measures = body(seed)
    dice = Random(f"sweater {seed}")
    stitches = dice.uniform(1.2, 4.0)
    rounds = stitches * dice.uniform(1.3, 1.45)
    return {
        "title": f"body {seed}, {style}",
        "wearer": {"table": group},
        "body": {name: f"{cm:.1f} cm" for name, cm in measures.items()},
        "ease": {"chest": dice.choice(FIT_NAMES), "upper_arm": dice.choice(FIT_NAMES)},
        "swatch": {"plain": {"washed": swatch(stitches, rounds_per_cm=rounds)}},
        "yarn": {"MC": {"ball_weight": "50 g", "ball_length": "200 m", "balls": 30}},
        "needles": {"main": "3.5 mm"},
        "garment": {
            "neck": {
                "rib": dice.choice(RIBS),
                "short_rows": dice.choice(("german", "wrapped")),
                "back_raise": dice.choice(("by size", "by size", "none")),
            },
            "yoke": {"style": style, "increases": dice.choice(STYLES)},
            "body": {
                "shape": dice.choice(SHAPES),
                "length": dice.choice(BODY_LENGTHS),
                "hem": f"{dice.uniform(1, 2 if group == 'babies' else 5):.1f} cm",
            },
            "sleeves": {"length": dice.choice(SLEEVE_LENGTHS), "rib": dice.choice(RIBS)},
        },
    }


def portion(first: int, count: int, *, styles: tuple[str, ...]) -> Iterator[Sections]:
    """Give the sweaters of so many bodies, each in every yoke."""
    for seed in range(first, first + count):
        for style in styles:
            yield sweater(seed, style)
