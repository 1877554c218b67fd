"""What the README shows is true: its project files plan, its library example runs."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

from yokefellow.charts.library import motifs
from yokefellow.plan import plan
from yokefellow.project_file.load import parse
from yokefellow.shaping.model import RaglanShape

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", README, re.DOTALL)


def test_the_project_files_of_the_readme_can_be_knitted() -> None:
    plain, banded = blocks("toml")
    assert not plan(parse(plain)).shape.yoke.bands
    both = plan(parse(plain + "\n" + banded))
    assert [band.name for band in both.shape.yoke.bands] == ["pebbles", "ripple"]


def test_the_raglan_of_the_readme_can_be_knitted() -> None:
    (raglan,) = [block for block in blocks("text") if 'style = "raglan"' in block]
    plain, _ = blocks("toml")
    assert isinstance(plan(parse(plain + "\n" + raglan)).shape.yoke, RaglanShape)


def test_the_fuller_front_of_the_readme_can_be_knitted() -> None:
    plain, _ = blocks("toml")
    (body,) = [block for block in blocks("text") if "high_chest" in block]
    made = plan(parse(plain.replace('[body]\nchest = "38 in"', body)))
    assert [dart.half for dart in made.shape.body.darts] == ["front"]
    (told,) = [found for found in made.findings if found.code == "fit.front-longer"]
    assert told.message in README.replace("\n", " ")


def test_the_pins_and_the_pattern_of_the_readme_can_be_knitted() -> None:
    plain, _ = blocks("toml")
    (pins,) = [block for block in blocks("text") if block.startswith("[fixed]")]
    made = plan(parse(f"{plain}\n{pins}"))
    assert made.shape.split.body.got == 264  # derived: as the block has it
    (pattern,) = [block for block in blocks("text") if block.startswith("[pattern]")]
    followed = plan(parse(f"{plain}\n{pattern}"))
    assert followed.shape.split.yoke == 356  # derived: (268 - 2 * 24) + 2 * (92 - 24)
    assert followed.followed is not None


def test_the_library_example_runs() -> None:
    (example,) = blocks("python")
    ran = subprocess.run(
        [sys.executable, "-c", example], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert re.fullmatch(r"\d+ stitches at the end of the yoke\n\d+ m of yarn .*\n", ran.stdout)


def test_every_file_and_motif_the_readme_names_is_there() -> None:
    for path in re.findall(r"\]\((?!https?:)([^)]+)\)", README):
        assert (ROOT / path).exists(), path
    listed = re.search(r"Motifs\s+that\s+come\s+with\s+it: ([a-z, \n-]+)\.", README)
    assert listed is not None
    assert {name.strip() for name in listed[1].split(",")} == set(motifs())
