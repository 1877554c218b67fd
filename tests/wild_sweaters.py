"""Projects anywhere within what the file allows: bodies nobody has, sweaters nobody wants."""

from __future__ import annotations

from random import Random

from pydantic import ValidationError

from tests.sweaters import Sections, project, swatch, written
from yokefellow.project_file.models import Project

# The limits of the project file, cm; a value outside is the file's to refuse, not the plan's.
BODY: dict[str, tuple[float, float]] = {
    "chest": (35, 200),
    "waist": (30, 200),
    "hip": (35, 220),
    "upper_arm": (9, 80),
    "elbow": (9, 70),
    "forearm": (8, 60),
    "wrist": (6, 40),
    "head": (30, 70),
    "neck": (15, 70),
    "shoulder_girth": (40, 220),
    "cross_back": (15, 80),
    "back_waist_length": (12, 70),
    "back_hip_length": (15, 100),
    "arm_length": (10, 80),
    "armhole_depth": (6, 45),
}
GARMENT: dict[tuple[str, str], tuple[float, float]] = {
    ("neck", "opening"): (20, 120),
    ("neck", "band"): (0.5, 15),
    ("neck", "back_raise"): (0.5, 12),
    ("yoke", "depth"): (6, 50),
    ("yoke", "underarm"): (1, 30),
    ("body", "length"): (5, 100),
    ("body", "hem"): (0.5, 20),
    ("sleeves", "length"): (2, 90),
    ("sleeves", "cuff"): (0.5, 20),
}


def wild(seed: int) -> Project | None:
    """A project far from any body; None when the file itself refuses it."""
    dice = Random(seed)
    sections: Sections = written(seed)
    for name, limits in BODY.items():
        if dice.random() < 0.25:
            sections["body"][name] = f"{dice.uniform(*limits):.1f} cm"
    for (piece, name), limits in GARMENT.items():
        if dice.random() < 0.3:
            sections["garment"][piece][name] = f"{dice.uniform(*limits):.1f} cm"
    if dice.random() < 0.5:
        stitches = dice.uniform(0.6, 6)
        rounds = min(9, max(0.6, stitches * dice.uniform(1, 1.9)))
        sections["swatch"]["plain"]["washed"] = swatch(stitches, rounds_per_cm=rounds)
    if dice.random() < 0.4:
        sections["ease"] = {
            "chest": f"{dice.uniform(-20, 60):.1f} cm",
            "upper_arm": f"{dice.uniform(-10, 40):.1f} cm",
        }
    if dice.random() < 0.3:
        sections["garment"]["body"]["gather"] = 25
    try:
        return project(sections)
    except ValidationError:
        return None
