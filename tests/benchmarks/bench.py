"""How quick the program is, as ratios measured in one run: `make bench`.

Two things compared are run in turn, each in a fresh process where imports
count, and their medians compared: the machine's mood then falls on both alike.
Nothing here fails a test; a goal that is missed is printed as over.
"""

from __future__ import annotations

import gc
import os
import resource
import subprocess
import sys
import tempfile
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter, process_time
from typing import Any, get_args

from tests.banded.sweaters import banded
from tests.sweaters import edited, project, sized, swatch, written
from yokefellow.findings import PlanError
from yokefellow.plan import plan
from yokefellow.project_file.load import load
from yokefellow.project_file.models import Project
from yokefellow.sheet.pages import page
from yokefellow.sheet.pdf import typeset
from yokefellow.sheet.view import view
from yokefellow.what_if import Wish, longest, prospects, table

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SWEATERS = 1000
BANDED_SWEATERS = 300
PROCESSES = 10
PDFS = 5
"""A PDF takes longer than a help text; five pairs are enough for a median."""

PLAN_MS = 10.0
BANDED_PLAN_MS = 25.0
"""With bands of colourwork, whose places are tried out."""
PLANS_A_SECOND = 500.0
BANDED_PLANS_A_SECOND = 150.0
HELP_RATIO = 2.5
PDF_RATIO = 1.15
LONGEST_RATIO = 10.0
GROWTH = 2
GROWTH_RATIO = 2.25
"""So many times the rounds may take at most so many times as long."""

AS_INSTALLED = "import sys; sys.modules['numpy'] = None; from yokefellow.cli import main; main()"
"""Without numpy, which is here for the tests alone and which pint would load with itself."""
YOKEFELLOW = (sys.executable, "-c", AS_INSTALLED)
BARE_CLICK = (sys.executable, "-c", "import click")
KIB_PER_MIB = 1024 * (1024 if sys.platform == "darwin" else 1)
"""Linux tells the memory in KiB, macOS in bytes."""

COMPILED = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
"""As pip leaves a package: compiled. Else every run would read our source anew."""

BARE_PDF = "import sys, weasyprint; weasyprint.HTML(sys.argv[1]).write_pdf(sys.argv[2])"


def main() -> None:
    for file in sorted(EXAMPLES.glob("*.toml")):
        sweater = load(file)
        bands = len(sweater.garment.yoke.bands)
        what = f"plan {file.stem}{f', {bands} bands' if bands else ''}"
        report(what, plan_ms(sweater), "ms", BANDED_PLAN_MS if bands else PLAN_MS)
    lasting(load(EXAMPLES / "late-veranda.toml"))
    many_sweaters("plain", written, SWEATERS, PLANS_A_SECOND)
    many_sweaters("banded", banded, BANDED_SWEATERS, BANDED_PLANS_A_SECOND)
    growth()
    help_s, click_s = raced((*YOKEFELLOW, "--help"), BARE_CLICK, PROCESSES)
    report("--help beside import click", help_s / click_s, "x", HELP_RATIO)
    with tempfile.TemporaryDirectory() as folder:
        pages(EXAMPLES / "warm-evenings.toml", Path(folder))


def report(
    what: str, value: float, unit: str, goal: float | None = None, *, least: float | None = None
) -> None:
    """Print a figure, and whether it keeps its goal: at most `goal`, or at least `least`."""
    verdict = ""
    if goal is not None:
        verdict = f"goal {goal:g} {unit}  {'pass' if value <= goal else 'OVER'}"
    if least is not None:
        verdict = f"goal {least:g} {unit}  {'pass' if value >= least else 'UNDER'}"
    print(f"{what:<34}{value:>9.2f} {unit:<4}{verdict}".rstrip(), flush=True)


def plan_ms(sweater: Project, *, times: int = 50) -> float:
    """Median milliseconds of planning one sweater, imports and tables already read."""
    plan(sweater)
    return 1000 * median(seconds(lambda: plan(sweater)) for _ in range(times))


def lasting(sweater: Project, *, times: int = 20) -> None:
    """What the yarn allows, beside one plan of the same sweater."""
    made = plan(sweater)
    one_s = plan_ms(sweater, times=times) / 1000
    for wish in get_args(Wish):
        took_s = median(seconds(partial(longest, made, wish)) for _ in range(times))
        report(f"longest {wish} beside its plan", took_s / one_s, "x", LONGEST_RATIO)
    report("what-if table beside its plan", seconds(lambda: table(made)) / one_s, "x")


def many_sweaters(
    kind: str, sections: Callable[[int], Mapping[str, Any]], number: int, goal: float
) -> None:
    """Plans in a second of one core, over random sweaters; those refused are counted apart.

    The collector of dead objects rests meanwhile, as it does in every run of the command.
    """
    gc.disable()
    took: dict[str, list[float]] = {}
    refused: list[float] = []
    for seed in range(number):
        sweater = project(sections(seed))
        started = process_time()
        try:
            plan(sweater)
        except PlanError:
            refused.append(process_time() - started)
        else:
            took.setdefault(sweater.garment.yoke.style, []).append(process_time() - started)
    gc.enable()
    for style, times in sorted(took.items()):
        report(f"{len(times)} {kind} {style} yokes", len(times) / sum(times), "/s", least=goal)
        report("  the median one", 1000 * median(times), "ms", PLAN_MS)
        report("  the slowest one", 1000 * max(times), "ms")
    if refused:
        report(f"{len(refused)} refused, the median one", 1000 * median(refused), "ms")


def growth() -> None:
    """The same sweater at twice the rounds: nothing may grow faster than the sheet."""

    def at(rounds_per_cm: float) -> Project:
        washed = swatch(2.0, rounds_per_cm=rounds_per_cm)
        return project(edited(sized(stitches_per_cm=2.0), swatch__plain__washed=washed))

    small, large = plan(at(2.0)), plan(at(2.0 * GROWTH))
    rows = len(large.rows) / len(small.rows)
    for what, work in (
        ("plan", lambda made: plan(made.project)),
        ("page", lambda made: page(view(made), medium="screen")),
        ("pdf", lambda made: typeset(page(view(made), medium="paper"), key=made.key)),
    ):
        times = 1 if what == "pdf" else 9
        pairs = [
            (cpu_seconds(partial(work, small)), cpu_seconds(partial(work, large)))
            for _ in range(times)
        ]
        shorts, longs = zip(*pairs, strict=True)
        ratio = median(longs) / median(shorts) * GROWTH / rows
        report(f"{what}, {GROWTH} x the rounds", ratio, "x", GROWTH_RATIO)


def pages(example: Path, folder: Path) -> None:
    """The page alone, and the PDF beside bare WeasyPrint on the very page it is set from.

    Ours reads the project, plans it, and tags the PDF for screen readers besides.
    """
    sheet = (*YOKEFELLOW, "sheet", str(example), "--into", str(folder))
    html = (*sheet, "--as", "html")
    report("HTML, cold", 1000 * median(run_s(html) for _ in range(PDFS)), "ms")
    paper = folder / "paper.html"
    made = plan(load(example))
    paper.write_text(page(view(made, prospects(made)), medium="paper"), "utf-8")
    bare = (sys.executable, "-c", BARE_PDF, str(paper), str(folder / "bare.pdf"))
    ours_s, bare_s = raced((*sheet, "--as", "pdf"), bare, PDFS)
    report("PDF, cold", 1000 * ours_s, "ms")
    report("PDF beside bare WeasyPrint", ours_s / bare_s, "x", PDF_RATIO)
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    report("memory of the largest process", peak / KIB_PER_MIB, "MiB")


def raced(one: Sequence[str], other: Sequence[str], times: int) -> tuple[float, float]:
    """Median seconds of two commands, run in turn; the first pair only warms the disk."""
    for command in (one, other):
        run_s(command)
    for command in (one, other):
        run_s(command)
    pairs = [(run_s(one), run_s(other)) for _ in range(times)]
    ones, others = zip(*pairs, strict=True)
    return median(ones), median(others)


def run_s(command: Sequence[str]) -> float:
    """Seconds of processor a fresh process takes, whatever else the machine does.

    Raises:
        CalledProcessError: it failed; its time means nothing.
    """
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, check=True, capture_output=True, env=COMPILED)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime


def cpu_seconds(work: Callable[[], object]) -> float:
    """Seconds of this process alone, whatever else the machine does."""
    started = process_time()
    work()
    return process_time() - started


def seconds(work: Callable[[], object]) -> float:
    started = perf_counter()
    work()
    return perf_counter() - started


if __name__ == "__main__":
    main()
