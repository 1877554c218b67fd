"""What is said when a band of the body or the sleeves does not fit, and what would fit instead.

Every other place and every other chart that is offered was put in first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple, TypeVar

from yokefellow.charts.chart import Chart
from yokefellow.charts.resolve import other_charts
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import PieceBand, Project
from yokefellow.shaping.pieces.piece_bands import Banding, MisplacedError, UnrepeatedError, banding
from yokefellow.shaping.yoke.offers import typed

__all__ = ["Piece", "or_refused"]

Shape = TypeVar("Shape")

MOST_OFFERS = 3
STEP_CM = 2.5
"""Other places are tried so far apart."""
TRIED = 8
"""Places tried above the one that does not fit, and as many below."""


class Piece(NamedTuple):
    """The body or the sleeves, and the charts of their bands."""

    name: str
    """`body` or `sleeves`."""
    project: Project
    gauges: Gauges
    charts: Sequence[Chart]

    @property
    def choices(self) -> Sequence[PieceBand]:
        """The bands as the file has them; none where their charts are not given."""
        garment = self.project.garment
        bands: Sequence[PieceBand] = (
            garment.body.bands if self.name == "body" else garment.sleeves.bands
        )
        return bands if self.charts else ()

    @property
    def called(self) -> str:
        """What one of it is called in a sentence."""
        return "the body" if self.name == "body" else "each sleeve"

    @property
    def end(self) -> str:
        """What lies below it."""
        return "hem" if self.name == "body" else "cuff"


def or_refused(made: Callable[[Sequence[Banding]], Shape], piece: Piece) -> Shape:
    """Make a piece with its bands.

    Raises:
        PlanError: a band does not fit; with what would.
    """
    bands = banding(piece.charts, piece.choices, piece.gauges)
    try:
        return made(bands)
    except MisplacedError as refused:
        works = _works(made)
        raise PlanError([_no_room(refused, piece, bands, works)]) from None
    except UnrepeatedError as refused:
        works = _works(made)
        raise PlanError([_no_repeat(refused, piece, bands, works)]) from None


def _rounds(number: int) -> str:
    return "1 round" if number == 1 else f"{number or 'no'} rounds"


_Works = Callable[[Sequence[Banding]], bool]


def _works(made: Callable[[Sequence[Banding]], object]) -> _Works:
    def works(bands: Sequence[Banding]) -> bool:
        try:
            made(bands)
        except (MisplacedError, UnrepeatedError):
            return False
        return True

    return works


def _no_room(
    refused: MisplacedError, piece: Piece, bands: Sequence[Banding], works: _Works
) -> Finding:
    band = bands[refused.place]
    places = tuple(_other_places(piece, refused.place, bands, works))
    instead = f"Write {' or '.join(places)}" if places else f"Make the {piece.name} longer"
    return Finding(
        "band.piece-room",
        Severity.ERROR,
        f"garment.{piece.name}.bands[{refused.place + 1}].at",
        f"{band.task.name!r} takes {_rounds(refused.needs)}; where it would begin, "
        f"{_rounds(refused.has)} {'is' if refused.has == 1 else 'are'} left above the {piece.end}.",
        f"{instead}, or take a chart with fewer rows.",
    )


def _no_repeat(
    refused: UnrepeatedError, piece: Piece, bands: Sequence[Banding], works: _Works
) -> Finding:
    band = bands[refused.place]
    width = refused.width
    below = int(refused.wanted // width) * width
    charts = tuple(_other_charts(piece, refused.place, bands, works))
    places = tuple(_other_places(piece, refused.place, bands, works))
    instead = (*charts, *places)[:MOST_OFFERS]
    near = f"{below} and {below + width}" if below else f"{width}"
    return Finding(
        "band.piece-repeat",
        Severity.ERROR,
        f"garment.{piece.name}.bands[{refused.place + 1}].chart",
        f"{band.task.name!r} repeats over {width} stitches, and {piece.called} there would be "
        f"{refused.wanted:.0f} stitches round at its gauge; {near} would pull it in or stand away.",
        f"Write {' or '.join(instead)}."
        if instead
        else "Take a chart with a shorter repeat, or leave this band out.",
    )


def _other_places(
    piece: Piece, place: int, bands: Sequence[Banding], works: _Works
) -> Iterator[str]:
    """Give the other places that fit: just above the edge, and the nearest depth."""
    band, unit = bands[place], piece.project.sheet.units
    at_cm = band.task.at_cm
    if at_cm is not None and works(_with_task(bands, place, at_cm=None)):
        yield f'at = "{piece.end}"'
    around = 12 * STEP_CM if at_cm is None else at_cm
    for step in range(1, TRIED + 1):
        for other_cm in (around - step * STEP_CM, around + step * STEP_CM):
            tried_cm, told = typed(other_cm, unit)
            if tried_cm > 0 and works(_with_task(bands, place, at_cm=tried_cm)):
                yield f'at = "{told}"'
                return


def _with_task(bands: Sequence[Banding], place: int, *, at_cm: float | None) -> tuple[Banding, ...]:
    changed = replace(bands[place], task=replace(bands[place].task, at_cm=at_cm))
    return (*bands[:place], changed, *bands[place + 1 :])


def _other_charts(
    piece: Piece, place: int, bands: Sequence[Banding], works: _Works
) -> Iterator[str]:
    """Give the charts of the file and the shipped ones that would fit in the same place."""
    choice = piece.choices[place]
    for name, chart in other_charts(piece.project, but=choice.chart):
        (tried,) = banding([chart], [choice], piece.gauges)
        if works((*bands[:place], tried, *bands[place + 1 :])):
            yield f'chart = "{name}"'
