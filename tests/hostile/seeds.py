"""What the guided fuzzing starts from: the examples, the motifs, the rows the examples print."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from tests.banded.sweaters import banded
from tests.banded.test_pieces import thrown
from tests.hostile.bounded import ROOT
from tests.hostile.tables import as_toml
from tests.hostile.words import SAMPLE
from tests.pattern_sizes.test_raglans import BY_PERCENTAGE, COMPOUND, with_pattern
from tests.project_file.sample import SOUND
from tests.raglan.raglans import raglan
from tests.shaping.test_pins import chosen
from tests.sweaters import edited, necked, planned, sized
from yokefellow.notation.phrase import phrase
from yokefellow.plan import plan
from yokefellow.project_file.load import load
from yokefellow.project_file.schema import schema
from yokefellow.rows.model import STITCHES

__all__ = [
    "BANDED",
    "CHART",
    "DRAWN_FILE",
    "PROJECT",
    "chart_seeds",
    "project_seeds",
    "project_words",
    "row_seeds",
    "row_words",
]

PROJECT: Mapping[str, Any] = schema()
CHART: Mapping[str, Any] = {"$defs": PROJECT["$defs"], **PROJECT["$defs"]["ChartChoices"]}

EXAMPLES = tuple(sorted((ROOT / "examples").glob("*.toml")))
MOTIFS = tuple(sorted((ROOT / "sizing_tables" / "motifs").glob("*.toml")))

DRAWN: tuple[dict[str, Any], ...] = (
    {"kind": "slip", "colours": {".": "MC", "#": "CC1"}, "rows": ["#v", "..", "CC1: v#"]},
    {"kind": "purl", "colours": {".": "MC"}, "rows": ["-.-.", ".-.-"]},
    {"kind": "stripes", "colours": {".": "MC", "#": "CC1"}, "rows": ["....", "####"], "times": 2},
    {
        "kind": "stranded",
        "colours": {".": "MC", "#": "CC1"},
        "rows": ["..#.", "..##..", ".####."],
        "grows": True,
    },
    {"kind": "mosaic", "colours": {".": "MC", "#": "CC1"}, "rows": ["####", "#.#.", "MC: ...."]},
)
"""A chart of every kind that is not among the motifs, and one that grows."""


DRAWN_FILE = "drawn.toml"


def _banded(**bands: list[str]) -> str:
    """The sample with bands of the drawn chart, at those places of those pieces."""
    garment = {
        piece: {"bands": [{"chart": "drawn", "at": at} for at in places]}
        for piece, places in bands.items()
    }
    yarn = {**SAMPLE["yarn"], "CC2": SAMPLE["yarn"]["CC1"]}
    charts = {"drawn": {"file": DRAWN_FILE}}
    return as_toml({**SAMPLE, "yarn": yarn, "charts": charts, "garment": garment})


BANDED: Mapping[str, str] = {
    "yoke": _banded(yoke=["spread"]),
    "twice": _banded(yoke=["spread", "spread"]),
    "below": _banded(body=["hem"], sleeves=["cuff"]),
}
"""Projects that take the drawn chart's file, and where its bands lie."""


def project_seeds() -> Iterator[str]:
    yield SOUND
    yield from map(Path.read_text, EXAMPLES)
    yield from map(as_toml, (SAMPLE, *_sweaters()))


def _sweaters() -> Iterator[Mapping[str, Any]]:
    """A few of each kind that other tests draw: the rooms that no example enters."""
    yield from map(necked, range(8))
    yield from map(banded, range(6))
    yield from map(thrown, range(4))
    yield from (with_pattern(BY_PERCENTAGE), with_pattern(BY_PERCENTAGE, COMPOUND))
    for sections in (sized(), raglan(), banded(0)):
        yield {**sections, "fixed": chosen(planned(sections))}
        yield edited(sections, yarn__MC__balls=3)


def chart_seeds() -> Iterator[str]:
    yield from map(Path.read_text, MOTIFS)
    yield from map(as_toml, DRAWN)


def row_seeds() -> Iterator[str]:
    """Every row that the examples print, once."""
    rows = (row for path in EXAMPLES for row in plan(load(path)).rows)
    yield from dict.fromkeys(f"{row.before}|{phrase(row.row, row.before)}" for row in rows)


def project_words() -> Iterator[str]:
    """Every name and every choice of the schema."""
    yield from sorted(set(_names(PROJECT)))


def _names(schema: Any) -> Iterator[str]:
    for table in schema.values() if isinstance(schema, dict) else schema:
        if isinstance(table, dict):
            yield from table.get("properties", ())
            yield from (word for word in table.get("enum", ()) if isinstance(word, str))
        if isinstance(table, dict | list):
            yield from _names(table)


def row_words() -> Iterator[str]:
    yield from STITCHES
    yield from (
        "; rep from * ", " times in all", " times", "; rep from * to end", "cast on ", " sts",
        "bind off all ", " on waste yarn", " for the first sleeve", " to BOR", "knit", "purl",
        "; join in the round without twisting and pm for BOR", "; turn without joining",
        "from the centre of the underarm: ", "along the neck edge: ", "; pm for BOR",
        " to the next marker; this is BOR from now on", "sew down all ", " CC1", "9999", "|",
    )  # fmt: skip
