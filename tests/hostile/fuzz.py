"""Whatever can be typed: project files, charts and rows, spoilt at random.

Called as a program it runs within little memory and against a clock:
`python -m tests.hostile.fuzz SECONDS` with other dice every time, or
`--examples N` with the same dice. Whatever is no project, no chart and no row
must end in findings for the knitter; anything else is a fault, shown shrunk.
"""

from __future__ import annotations

import functools
import json
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import hypothesis
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.hostile.bounded import bound_memory
from tests.hostile.judged import planned_or_told, read_back_or_told
from tests.hostile.tables import as_toml
from tests.hostile.words import SAMPLE, WORDS
from tests.project_file.sample import SOUND
from yokefellow.project_file.load import parse

ROOT = Path(__file__).resolve().parents[2]
MEMORY = 1024 * 2**20
SECONDS = 60
"""For one example; alone the slowest takes a second."""

FILES = (SOUND, *(path.read_text() for path in sorted((ROOT / "examples").glob("*.toml"))))
LINES = sorted({line for text in FILES for line in text.splitlines() if line.strip()})

AMOUNTS = (
    "0", "-1", "0.1", "1", "2", "3", "7", "19", "20", "99", "100", "200", "1e3", "1e400", "nan",
    "1/3", "38 1/2", "38½", "1,5", "1.000.000", "999999999999999999999", "0x7f", "1_0", "½",
)  # fmt: skip
UNITS = ("", " in", " cm", " mm", " g", " oz", " yd", " m", " US", " over 4 in", " over 10 cm", '"')
CHOICES = (
    "cap", "short", "elbow", "full", "hip", "tunic", "cropped", "shorter by 4 in",
    "longer by 99 cm", "by size", "quarter of chest", "spread", "none", "wide", "few", "gentle",
    "waist", "a-line", "percentage 1971", "wrapped", "babies", "men", "in", "cm", "A4",
    "Letter", "pebbles", "leaf", "very close", "oversized", "twisted", "flat", "body first",
    "sleeves first", "",
)  # fmt: skip

quoted = st.builds(json.dumps, st.one_of(
    st.sampled_from(CHOICES),
    st.sampled_from([word[:80] for word in WORDS.values()]),
    st.builds(lambda amount, unit: amount + unit, st.sampled_from(AMOUNTS), st.sampled_from(UNITS)),
    st.text(max_size=12),
))  # fmt: skip
values = st.recursive(
    st.one_of(quoted, st.sampled_from(AMOUNTS), st.sampled_from(["true", "false", "2025-03-01"])),
    lambda inner: st.one_of(
        st.lists(inner, max_size=4).map(lambda many: f"[{', '.join(many)}]"),
        inner.map(lambda one: f"{{ a = {one} }}"),
    ),
    max_leaves=4,
)


@st.composite
def project_files(draw: st.DrawFn) -> str:
    """A sound file with a few lines changed, taken out, doubled, moved or broken."""
    lines = draw(st.sampled_from(FILES)).splitlines()
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(lines) - 1))
        how = draw(st.sampled_from(("value", "value", "value", "out", "twice", "other", "break")))
        if how == "value" and "=" in lines[at]:
            lines[at] = f"{lines[at].partition('=')[0]}= {draw(values)}"
        elif how == "out" and len(lines) > 1:
            del lines[at]
        elif how == "twice":
            lines.insert(draw(st.integers(0, len(lines))), lines[at])
        elif how == "other":
            lines.insert(at, draw(st.sampled_from(LINES)))
        elif how == "break":
            cut = draw(st.integers(0, len(lines[at])))
            lines[at] = lines[at][:cut] + draw(st.text(max_size=3)) + lines[at][cut:]
    return "\n".join(lines)


def stopped(*_: object) -> None:
    raise TimeoutError(f"an example took more than {SECONDS} s")


def timed(test: Callable[..., None]) -> Callable[..., None]:
    """Bound the time of each example."""

    @functools.wraps(test)
    def bounded(*given: Any, **named: Any) -> None:
        signal.alarm(SECONDS)
        try:
            test(*given, **named)
        finally:
            signal.alarm(0)

    return bounded


def files(text: str) -> None:
    planned_or_told(lambda: parse(text))


MARKS = ".#o+v-x"


@st.composite
def chart_tables(draw: st.DrawFn) -> dict[str, Any]:
    """The sample with a chart of any kind and any rows, and bands of it anywhere."""
    legend = draw(
        st.dictionaries(st.sampled_from(MARKS), st.sampled_from(["MC", "CC1", "CC2"]), min_size=1)
    )
    marks = st.sampled_from([*legend, *legend, *legend, *MARKS])
    width = draw(st.integers(1, 12))
    row = st.lists(marks, min_size=width, max_size=width + draw(st.integers(0, 1)))
    rows = draw(st.lists(row.map("".join), min_size=1, max_size=draw(st.sampled_from((3, 8, 40)))))
    chart = {
        "kind": draw(st.sampled_from(("mosaic", "slip", "stranded", "stripes", "purl"))),
        "colours": legend,
        "rows": sorted(rows, key=len) if draw(st.booleans()) else rows,
        "times": draw(st.integers(1, 4)),
        "grows": draw(st.booleans()),
    }
    band: dict[str, Any] = {
        "chart": draw(st.sampled_from(("dots", "dots", "pebbles", "drizzle"))),
        "at": draw(st.sampled_from(("spread", "1 cm", "3 cm", "11 cm", "45 cm"))),
    }
    if draw(st.booleans()):
        band["repeats"] = draw(st.sampled_from((1, 5, 20, 600)))
    return {
        **SAMPLE,
        "yarn": {**SAMPLE["yarn"], "CC2": SAMPLE["yarn"]["CC1"]},
        "charts": {"dots": chart},
        "garment": {"yoke": {"bands": [band] * draw(st.integers(1, 3))}},
    }


def charts(tables: dict[str, Any]) -> None:
    planned_or_told(lambda: parse(as_toml(tables)))


PIECES = (
    "k", "p", "k5", "k1", "k0", "k99999", "k999999999999", "M1L", "M1R", "k2tog", "ssk", "sl1 wyib",
    "*", "[", "]", "(", ")", " 4 times", " 99999 times", "; rep from * 4 times", " in all",
    "; rep from * to end", ", ", ",", " ", " to BOR", " CC1", " MC", "knit", "purl", "k tbl", "m1",
    "cast on 9 sts", "bind off all 9 sts", " on waste yarn", "from the centre of the underarm: ",
)  # fmt: skip


written_rows = st.one_of(
    st.lists(st.sampled_from(PIECES), max_size=24).map("".join),
    st.integers(1, 3000).map(lambda deep: "[" * deep + "k1" + "] 2 times" * deep),
    st.integers(1, 300_000).map(lambda long: "k1, " * long + "k1"),
)


whole_rows = st.tuples(written_rows, st.integers(0, 10**9))


def rows(case: tuple[str, int]) -> None:
    read_back_or_told(*case)


ALL = ((project_files(), files), (chart_tables(), charts), (whole_rows, rows))


def run(examples: int, seed: int | None) -> None:
    """Run each of `ALL`; raises what it finds, shrunk by hypothesis."""
    chosen = settings(
        max_examples=examples,
        deadline=None,
        database=None,
        derandomize=seed is None,
        suppress_health_check=list(HealthCheck),
        print_blob=True,
    )
    for cases, body in ALL:
        inner: Any = body
        test: Any = chosen(given(cases)(timed(inner)))
        (test if seed is None else hypothesis.seed(seed)(test))()


def main(words: list[str]) -> None:
    bound_memory(MEMORY)
    signal.signal(signal.SIGALRM, stopped)
    if words[0] == "--examples":
        run(int(words[1]), None)
        return
    end = time.monotonic() + float(words[0])
    seed = time.time_ns() % 10**9
    while time.monotonic() < end:
        print(f"seed {seed}", flush=True)
        run(100, seed)
        seed += 1


if __name__ == "__main__":
    main(sys.argv[1:])
