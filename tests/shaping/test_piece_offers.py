"""Bands of body and sleeves that do not fit: the words of the refusal, and what was tried first."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pytest

from tests.sweaters import Sections, project, sized
from yokefellow.charts.chart import Chart
from yokefellow.charts.resolve import resolve_pieces
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.gauge import gauges
from yokefellow.shaping.pieces.piece_bands import Banding, MisplacedError, UnrepeatedError
from yokefellow.shaping.pieces.piece_offers import Piece, or_refused

Fits = Callable[[Sequence[Banding]], bool]


def stripes(width: int) -> Sections:
    return {"kind": "stripes", "colours": {"#": "CC1"}, "rows": ["#" * width] * 6}


def piece(
    name: str = "body", *, at: tuple[str, ...] = ("5 cm",), charts: bool = True, unit: str = "cm"
) -> Piece:
    sections = sized(
        yarn__CC1={"ball_weight": "50 g", "ball_length": "200 m", "balls": 5},
        charts={"mine": stripes(24), "other": stripes(8), "third": stripes(6)},
        sheet__units=unit,
    )
    sections["garment"] = {name: {"bands": [{"chart": "mine", "at": one} for one in at]}}
    made = project(sections)
    found = resolve_pieces(made)[0]
    drawn: tuple[Chart, ...] = found.body if name == "body" else found.sleeves
    return Piece(name, made, gauges(made), drawn if charts else ())


def refused(error: Exception, fits: Fits, asked: Piece) -> Finding:
    """What is said where a piece is made only with bands that fit."""

    def made(bands: Sequence[Banding]) -> str:
        if not fits(bands):
            raise error
        return "made"

    with pytest.raises(PlanError) as found:
        or_refused(made, asked)
    (one,) = found.value.findings
    assert one.severity is Severity.ERROR
    return one


def at(place: int, *depths: float | None) -> Fits:
    return lambda bands: any(
        bands[place].task.at_cm == pytest.approx(one) if one else bands[place].task.at_cm is None
        for one in depths
    )


def called(*names: str) -> Fits:
    return lambda bands: bands[0].chart.name in names


never = at(0)


def test_a_piece_whose_bands_fit_is_made_with_them() -> None:
    asked = piece(at=("5 cm", "hem"))
    bands = or_refused(lambda bands: bands, asked)
    # derived: as they were written
    assert [one.task.at_cm for one in bands] == [5.0, None]
    assert [one.chart for one in bands] == list(asked.charts)
    # A length to compare with may be made without them.
    assert or_refused(tuple, piece(charts=False)) == ()


def test_a_piece_has_its_own_bands_and_its_own_end() -> None:
    body, sleeves = piece("body"), piece("sleeves", at=("cuff",))
    assert (body.called, body.end) == ("the body", "hem")
    assert (sleeves.called, sleeves.end) == ("each sleeve", "cuff")
    assert body.choices == body.project.garment.body.bands
    assert sleeves.choices == sleeves.project.garment.sleeves.bands
    assert piece("body", charts=False).choices == ()


def no_room(needs: int, has: int, place: int = 0) -> MisplacedError:
    return MisplacedError(place, needs=needs, has=has)


def test_a_band_without_room_is_offered_the_edge_and_the_nearest_depth() -> None:
    found = refused(no_room(6, 4), at(0, None, 7.5, 2.5, 10.0), piece())
    assert (found.code, found.field) == ("band.piece-room", "garment.body.bands[1].at")
    assert found.message == (
        "'mine' takes 6 rounds; where it would begin, 4 rounds are left above the hem."
    )
    # derived: 2.5 cm higher and lower are tried, the higher first, and one is enough
    assert found.remedy == ('Write at = "hem" or at = "2.5 cm", or take a chart with fewer rows.')


def test_the_offered_depth_is_the_nearest_that_was_tried() -> None:
    found = refused(no_room(6, 1), at(0, 7.5), piece())
    assert "1 round is left above the hem." in found.message
    assert found.remedy == 'Write at = "7.5 cm", or take a chart with fewer rows.'
    # derived: 5 cm and eight times 2.5 cm
    assert 'at = "25 cm"' in refused(no_room(6, 1), at(0, 25.0), piece()).remedy
    assert 'at = "' not in refused(no_room(6, 1), at(0, 27.5), piece()).remedy
    # A depth of nothing is none: the field takes what is above it.
    assert 'at = "' not in refused(no_room(6, 1), at(0, 0.01), piece(at=("2.5 cm",))).remedy


def test_a_band_without_any_room_asks_for_a_longer_piece() -> None:
    found = refused(no_room(6, 0, place=1), never, piece("sleeves", at=("5 cm", "cuff")))
    assert found.field == "garment.sleeves.bands[2].at"
    assert found.message == (
        "'mine' takes 6 rounds; where it would begin, no rounds are left above the cuff."
    )
    assert found.remedy == "Make the sleeves longer, or take a chart with fewer rows."


def test_a_band_at_the_edge_is_tried_from_thirty_centimetres_on() -> None:
    # derived: 30 cm less 2.5 cm
    found = refused(no_room(6, 0), at(0, 27.5), piece(at=("hem",)))
    assert found.remedy == 'Write at = "27.5 cm", or take a chart with fewer rows.'
    # derived: 2.5 cm lower comes before 5 cm higher
    found = refused(no_room(6, 0), at(0, 32.5, 25.0), piece(at=("hem",)))
    assert found.remedy == 'Write at = "32.5 cm", or take a chart with fewer rows.'


def test_the_other_bands_stay_where_they_are() -> None:
    asked = piece(at=("5 cm", "10 cm", "hem"))

    def fits(bands: Sequence[Banding]) -> bool:
        # derived: the second band moved up by 2.5 cm, the others as they were
        return [one.task.at_cm for one in bands] == [5.0, 7.5, None]

    found = refused(no_room(6, 4, place=1), fits, asked)
    assert found.field == "garment.body.bands[2].at"
    assert found.remedy == 'Write at = "7.5 cm", or take a chart with fewer rows.'


def test_a_depth_in_inches_is_tried_as_it_is_offered() -> None:
    # derived: 2 in and 2.5 cm are 7.58 cm, 2.98 in; to a quarter that is 3 in, 7.62 cm
    found = refused(no_room(6, 4), at(0, 7.62), piece(at=("2 in",), unit="in"))
    assert found.remedy == 'Write at = "3 in", or take a chart with fewer rows.'
    # derived: 2 in less 2.5 cm are 2.58 cm, 1.02 in
    found = refused(no_room(6, 4), at(0, 2.54), piece(at=("2 in",), unit="in"))
    assert found.remedy == 'Write at = "1 in", or take a chart with fewer rows.'


def no_repeat(wanted: float, width: int = 24, place: int = 0) -> UnrepeatedError:
    return UnrepeatedError(place, wanted=wanted, width=width)


def test_a_repeat_without_a_count_names_those_beside_it_and_charts_that_fit() -> None:
    found = refused(
        no_repeat(62.4),
        called("other", "third", "pebbles", "beads"),
        piece("sleeves", at=("cuff",)),
    )
    assert (found.code, found.field) == ("band.piece-repeat", "garment.sleeves.bands[1].chart")
    # derived: two and three times 24
    assert found.message == (
        "'mine' repeats over 24 stitches, and each sleeve there would be 62 stitches round at "
        "its gauge; 48 and 72 would pull it in or stand away."
    )
    # derived: three offers at the most, the file's own charts first
    assert found.remedy.startswith('Write chart = "other" or chart = "third" or chart = "')
    assert found.remedy.count("chart = ") == 3


def test_a_repeat_wider_than_the_piece_is_told_alone() -> None:
    found = refused(no_repeat(20.4), called("third"), piece("body"))
    assert "the body there would be 20 stitches round at its gauge; 24 would pull" in found.message
    assert found.remedy == 'Write chart = "third".'


def test_a_repeat_may_fit_at_another_depth() -> None:
    asked = piece("body")
    found = refused(no_repeat(62.4), lambda b: called("third")(b) or at(0, None, 2.5)(b), asked)
    assert found.remedy == 'Write chart = "third" or at = "hem" or at = "2.5 cm".'
    found = refused(no_repeat(62.4), never, asked)
    assert found.remedy == "Take a chart with a shorter repeat, or leave this band out."


def test_another_chart_takes_the_place_of_the_one_that_does_not_fit() -> None:
    asked = piece(at=("5 cm", "10 cm", "hem"))

    def fits(bands: Sequence[Banding]) -> bool:
        # derived: as they were written
        return [(one.chart.name, one.task.at_cm) for one in bands] == [
            ("mine", 5.0),
            ("other", 10.0),
            ("mine", None),
        ]

    found = refused(no_repeat(62.4, place=1), fits, asked)
    assert found.field == "garment.body.bands[2].chart"
    assert found.remedy == 'Write chart = "other".'


def test_no_place_is_offered_that_is_none_or_does_not_fit() -> None:
    longer = "Make the body longer, or take a chart with fewer rows."
    # derived: 2.5 cm less 2.5 cm are none
    assert refused(no_room(6, 4), at_depth(0.0), piece(at=("2.5 cm",))).remedy == longer
    # derived: 3 cm less 2.5 cm
    found = refused(no_room(6, 4), at_depth(0.5), piece(at=("3 cm",)))
    assert found.remedy == 'Write at = "0.5 cm", or take a chart with fewer rows.'


def test_what_was_refused_is_not_tried_again() -> None:
    tried: list[tuple[str, float | None]] = []

    def fits(bands: Sequence[Banding]) -> bool:
        tried.append((bands[0].chart.name, bands[0].task.at_cm))
        return False

    refused(no_repeat(62.4), fits, piece())
    # derived: as it was written, once
    assert tried.count(("mine", 5.0)) == 1


def at_depth(depth_cm: float) -> Fits:
    return lambda bands: bands[0].task.at_cm == pytest.approx(depth_cm)
