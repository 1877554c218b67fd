"""What belongs together is of one length: where something is missing nothing is cut short."""

from __future__ import annotations

import pytest

from tests.banded.test_pieces import CC1, with_bands
from tests.sweaters import edited, project, sized
from yokefellow.body.fill_in import fill
from yokefellow.fit import fit
from yokefellow.gauge import gauges
from yokefellow.plan import draft
from yokefellow.shaping.assemble import shape
from yokefellow.shaping.chain import Layer, stations
from yokefellow.shaping.line import broken_rules
from yokefellow.shaping.piece_bands import banding
from yokefellow.shaping.section_bands import section_bands
from yokefellow.shaping.standing import set_places
from yokefellow.shaping.zones import Zones


def test_every_count_of_a_chain_has_its_layer() -> None:
    layers = (Layer(100, range(98, 103)), Layer(120, range(118, 123)))
    for chain in ((80, 100), (80, 100, 120, 140)):
        with pytest.raises(ValueError, match="zip"):
            stations(chain, layers)


@pytest.mark.parametrize("at", [(10,), (10, 30, 50)])
def test_every_step_of_a_yoke_has_its_round(at: tuple[int, ...]) -> None:
    with pytest.raises(ValueError, match="zip"):
        broken_rules((80, 100, 120), at, shoulder=0, rounds=70)


@pytest.mark.parametrize("gap_of", [(0,), (0, 0, 0)])
def test_every_increase_round_has_its_stretch(gap_of: tuple[int, ...]) -> None:
    zones = Zones(70, (), 3.0, 2)
    with pytest.raises(ValueError, match="zip"):
        set_places([(80, 100), (100, 120)], gap_of, zones=zones, per_cm=2.0, shoulder=0)


@pytest.mark.parametrize("style", ["circular", "raglan"])
def test_every_band_of_the_yoke_has_its_chart(style: str) -> None:
    bands = [{"chart": "fence"}]
    yoke = {"style": style, "bands": bands, "depth": "28 cm"}
    read = project(edited(sized(), yarn__CC1=CC1, garment__yoke=yoke))
    with pytest.raises(ValueError, match="zip"):
        shape(read, fit(read, fill(read)[0]), gauges(read))
    found = draft(read)
    with pytest.raises(ValueError, match="zip"):
        section_bands(found.shaped.shape, ())
    with pytest.raises(ValueError, match="zip"):
        section_bands(found.shaped.shape, (*found.charts, *found.charts))


def test_every_band_of_a_piece_has_its_chart() -> None:
    read = project(with_bands([{"chart": "fence", "at": "8 cm"}, {"chart": "pebbles"}]))
    charts = draft(read).piece_charts.body
    for wrong in (charts[:1], (*charts, *charts)):
        with pytest.raises(ValueError, match="zip"):
            banding(wrong, read.garment.body.bands, gauges(read))
