"""How quick the program is, as ratios measured in one run: `make bench`.

Two things compared are run in turn, each in a fresh process where imports
count, and their medians compared: the machine's mood then falls on both alike.
Nothing here fails a test; a goal that is missed is printed as over.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import get_args

from tests.sweaters import project, written
from yokefellow.conductor import plan
from yokefellow.findings import PlanError
from yokefellow.project.load import load
from yokefellow.project.models import Project
from yokefellow.sheet.pages import page
from yokefellow.sheet.view import view
from yokefellow.whatif import Wish, longest, prospects, table

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SWEATERS = 300
PROCESSES = 10
PDFS = 5
"""A PDF takes longer than a help text; five pairs are enough for a median."""

PLAN_MS = 10.0
BANDED_PLAN_MS = 25.0
"""With bands of colourwork, whose places are tried out."""
HELP_RATIO = 2.5
PDF_RATIO = 1.3
LONGEST_RATIO = 10.0

YOKEFELLOW = (sys.executable, "-m", "yokefellow")
BARE_CLICK = (sys.executable, "-c", "import click")
BARE_PDF = "import sys, weasyprint; weasyprint.HTML(sys.argv[1]).write_pdf(sys.argv[2])"


def main() -> None:
    for file in sorted(EXAMPLES.glob("*.toml")):
        sweater = load(file)
        bands = len(sweater.garment.yoke.bands)
        what = f"plan {file.stem}{f', {bands} bands' if bands else ''}"
        report(what, plan_ms(sweater), "ms", BANDED_PLAN_MS if bands else PLAN_MS)
    lasting(load(EXAMPLES / "late-veranda.toml"))
    many_sweaters()
    help_s, click_s = raced((*YOKEFELLOW, "--help"), BARE_CLICK, PROCESSES)
    report("--help beside import click", help_s / click_s, "x", HELP_RATIO)
    with tempfile.TemporaryDirectory() as folder:
        pages(EXAMPLES / "warm-evenings.toml", Path(folder))


def report(what: str, value: float, unit: str, goal: float | None = None) -> None:
    verdict = ""
    if goal is not None:
        verdict = f"goal {goal:g} {unit}  {'pass' if value <= goal else 'OVER'}"
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


def many_sweaters() -> None:
    """Plans per second over random sweaters; those refused are left out, and counted."""
    took: list[float] = []
    refused = 0
    for seed in range(SWEATERS):
        sweater = project(written(seed))
        started = perf_counter()
        try:
            plan(sweater)
        except PlanError:
            refused += 1
        else:
            took.append(perf_counter() - started)
    report(f"{len(took)} random sweaters ({refused} refused)", len(took) / sum(took), "/s")
    report("  the median one", 1000 * median(took), "ms", PLAN_MS)
    report("  the slowest one", 1000 * max(took), "ms")


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
    """Seconds of one fresh process.

    Raises:
        CalledProcessError: it failed; its time means nothing.
    """
    return seconds(lambda: subprocess.run(command, check=True, capture_output=True))


def seconds(work: Callable[[], object]) -> float:
    started = perf_counter()
    work()
    return perf_counter() - started


if __name__ == "__main__":
    main()
