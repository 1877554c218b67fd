"""Whether back and front of a raglan by percentage have room at the neck for their lines."""

from __future__ import annotations

from math import ceil

from yokefellow.findings import Finding, Severity
from yokefellow.project_file.models import Project
from yokefellow.shaping.shapes import Split

__all__ = ["least_by_percentage", "narrow_by_percentage"]


def least_by_percentage(line_width: int) -> int:
    """Give the fewest stitches back or front may begin with when all is taken by percentage.

    Nothing is left of the sleeves there, so both lines beside a piece are its own; one stitch
    stands between its two increases.
    """
    return 2 * line_width + 1


def narrow_by_percentage(project: Project, each: int, split: Split, needed: int) -> Finding:
    """Tell that back or front begins too narrow for its lines when all is taken by percentage.

    Args:
        project: what was asked for.
        each: with how many stitches both would begin, were they alike.
        split: how back and front differ at the underarm.
        needed: with how many they must begin.
    """
    if each < needed:
        width = project.garment.yoke.line_width - ceil((needed - each) / 2)
        return Finding(
            "raglan.line-wide",
            Severity.ERROR,
            "garment.yoke.line_width",
            f"Four lines of {project.garment.yoke.line_width} leave too little of a neck by "
            f"percentage: the back begins with {each} stitches there and needs {needed}.",
            f'Write line_width = {width}, or proportions = "measured".',
        )
    start = each - abs(split.front - split.back) // 2
    return Finding(
        "raglan.uneven",
        Severity.ERROR,
        "garment.yoke.proportions",
        f"By percentage a raglan begins narrow, and the front has {split.front} stitches at the "
        f"underarm and the back {split.back}: the smaller would begin with {max(0, start)} at the "
        f"neck and needs {needed}.",
        'Write proportions = "measured", or check what was measured across the front and round '
        "the chest.",
    )
