"""What cannot be a raglan is refused with a way out, and what may spoil one is said."""

from __future__ import annotations

import re

import pytest

from tests.knitter import knit_page
from tests.raglan.raglans import banded, codes, pieces_of, raglan, refused, yoke_of
from tests.sweaters import Sections, edited, planned
from yokefellow.findings import PlanError
from yokefellow.shaping.model import RaglanShape
from yokefellow.sheet.html import render_html

STEEP = raglan(size="3X", ease__chest="oversized", garment__yoke__depth="12 cm")
WIDE_NECK = raglan(
    body__chest="80 cm",
    body__upper_arm="22 cm",
    ease__upper_arm="-5 cm",
    garment__neck__opening="70 cm",
    garment__yoke__underarm="13 cm",
)
WIDE_LINE = raglan(stitches_per_cm=1.2, garment__yoke__line_width=6, garment__neck__opening="24 cm")


@pytest.mark.parametrize(
    ("sections", "code", "field"),
    [
        (STEEP, "raglan.steep", "garment.yoke.depth"),
        (WIDE_NECK, "raglan.neck-wide", "garment.neck.opening"),
        (WIDE_LINE, "raglan.line-wide", "garment.yoke.line_width"),
    ],
)
def test_a_raglan_that_cannot_be_is_refused(sections: Sections, code: str, field: str) -> None:
    finding = refused(sections)
    assert (finding.code, finding.field) == (code, field)
    assert finding.message
    assert finding.remedy


def said(remedy: str, pattern: str) -> str:
    found = re.search(pattern, remedy)
    assert found, remedy
    return found[1]


def test_the_ways_out_lead_out() -> None:
    remedy = refused(STEEP).remedy
    planned(edited(STEEP, garment__yoke__depth=said(remedy, "at least ([0-9.]+ cm)")))
    remedy = refused(WIDE_LINE).remedy
    width = int(said(remedy, "line_width = ([0-9])"))
    planned(edited(WIDE_LINE, garment__yoke__line_width=width))
    with_one_more = edited(WIDE_LINE, garment__yoke__line_width=width + 1)
    assert refused(with_one_more).code == "raglan.line-wide"


def purl(width: int, rows: int = 1) -> dict[str, object]:
    return {"kind": "purl", "colours": {".": "MC"}, "rows": ["-" * width] * rows}


GROWING = {
    "kind": "stranded",
    "grows": True,
    "colours": {".": "MC", "#": "CC1"},
    "rows": ["...#", "....#"],
}


@pytest.mark.parametrize(
    ("sections", "code"),
    [
        (banded({"chart": "beads", "at": "4 cm"}), "raglan.bands-inside"),
        (banded({"chart": "beads", "at": "20 cm"}), "raglan.band-room"),
        (banded({"chart": "beads", "repeats": 30}), "raglan.band-repeats"),
        (banded({"chart": "wide"}, charts={"wide": purl(61)}), "raglan.band-count"),
        (banded({"chart": "grown"}, charts={"grown": GROWING}), "raglan.band-grows"),
        (banded({"chart": "deep"}, charts={"deep": purl(2, rows=34)}), "raglan.bands-inside"),
    ],
)
def test_a_band_that_does_not_fit_is_refused(sections: Sections, code: str) -> None:
    finding = refused(sections)
    assert finding.code == code
    assert finding.field == "garment.yoke.bands"
    assert finding.remedy


def test_a_band_can_go_where_the_remedy_says() -> None:
    high = banded({"chart": "beads", "at": "4 cm"})
    least = said(refused(high).remedy, "at least ([0-9.]+ cm)")
    planned(banded({"chart": "beads", "at": least}))
    planned(banded({"chart": "beads", "at": "spread"}))
    repeats = int(said(refused(banded({"chart": "beads", "repeats": 30})).remedy, "from ([0-9]+)"))
    made = planned(banded({"chart": "beads", "repeats": repeats}))
    assert made.shape.yoke.bands[0].repeats == repeats


@pytest.mark.parametrize("motif", ["beads", "pebbles", "tide-lines", "drizzle", "fence"])
def test_bands_lie_below_every_increase(motif: str) -> None:
    made = planned(banded({"chart": motif}, {"chart": "beads"}))
    yoke = yoke_of(made)
    first, second = yoke.bands
    assert yoke.last_increase < first.first - 1  # derived: a plain round lies between
    assert first.last < second.first
    assert second.last < yoke.rounds.got
    assert first.start.got == second.start.got == made.shape.split.yoke
    for band, chart in zip(yoke.bands, made.charts, strict=True):
        assert band.repeats * chart.first_width == made.shape.split.yoke


def test_a_raglan_too_narrow_for_the_shoulders_says_so() -> None:
    made = planned(raglan("children", "12", ease__chest="very close"))
    assert "raglan.shoulder" in codes(made)
    assert "raglan.shoulder" not in codes(planned(raglan(ease__chest="loose")))


def test_the_percentage_raglan_says_that_its_depth_is_its_own() -> None:
    by_share = {"garment__yoke__proportions": "percentage 1989"}
    made = planned(raglan(size="4X", **by_share))
    assert "raglan.percentage-depth" in codes(made)
    assert "raglan.percentage-depth" not in codes(planned(raglan(size="4X")))
    shallow = planned(raglan("children", "4", **by_share))
    (finding,) = [one for one in shallow.findings if one.code == "yoke.shallow"]
    assert finding.field == "garment.yoke.proportions"


BY_SHARE: Sections = {"garment__yoke__proportions": "percentage 1971"}
UNEVEN = raglan(**BY_SHARE, body__front_chest="66 cm")
THICK = raglan(stitches_per_cm=0.7, **BY_SHARE)


# derived: a back of 2 stitches at the neck at the most, and 2 lines of 2 and one between
@pytest.mark.parametrize("front", ["66 cm", "80 cm", "30 cm"])
def test_by_percentage_a_half_without_room_at_the_neck_is_refused(front: str) -> None:
    finding = refused(edited(UNEVEN, body__front_chest=front))
    assert (finding.code, finding.field) == ("raglan.uneven", "garment.yoke.proportions")
    held = re.search("would begin with ([0-9]+) at the neck and needs ([0-9]+)", finding.message)
    assert held
    assert int(held[1]) < int(held[2]) == 2 * yoke_of(planned(raglan())).line.width + 1
    knit_page(render_html(planned(edited(UNEVEN, garment__yoke__proportions="measured"))))


def test_by_percentage_the_widest_line_that_is_named_can_be_knitted() -> None:
    finding = refused(edited(THICK, garment__yoke__line_width=6))
    assert (finding.code, finding.field) == ("raglan.line-wide", "garment.yoke.line_width")
    width = int(said(finding.remedy, "line_width = ([0-9])"))
    knit_page(render_html(planned(edited(THICK, garment__yoke__line_width=width))))
    wider = edited(THICK, garment__yoke__line_width=width + 1)
    assert refused(wider).code == "raglan.line-wide"


@pytest.mark.parametrize("increase", ["lifted", "yarn over"])
def test_by_percentage_every_front_is_knitted_or_refused(increase: str) -> None:
    way = edited(UNEVEN, garment__yoke__line_increase=increase)
    refusals: list[str] = []
    fronts = range(36, 66, 3)
    for front in fronts:
        try:
            made = planned(edited(way, body__front_chest=f"{front} cm"))
        except PlanError as error:
            refusals += [finding.code for finding in error.findings]
        else:
            knit_page(render_html(made))
    assert {*refusals} == {"raglan.uneven"}
    assert len(refusals) < len(fronts)


def test_the_armhole_and_not_the_front_decides_whether_a_raglan_is_shallow() -> None:
    # derived: as deep at the front as a circular yoke must be, less half of a sleeve's top
    made = planned(raglan())
    assert made.finished.yoke.depth_cm < made.figures.cm("armhole_depth") + 0.5
    assert not {"yoke.shallow", "yoke.deep"} & codes(made)
    assert "yoke.shallow" in codes(planned(raglan(garment__yoke__depth="13 cm")))
    assert "yoke.deep" in codes(planned(raglan(garment__yoke__depth="29 cm")))


def test_pins_are_met() -> None:
    free = planned(raglan())
    split = free.shape.split
    pins = {"neck": free.shape.neck.stitches.got + 4, "body": split.body.got + 8}
    made = planned(raglan(fixed=pins))
    assert isinstance(made.shape.yoke, RaglanShape)
    assert made.shape.neck.stitches.got == pins["neck"]
    assert made.shape.split.body.got == pins["body"]
    odd = {"neck": free.shape.neck.stitches.got + 2, "body": split.body.got}
    back, front, _ = pieces_of(yoke_of(planned(raglan(fixed=odd))))
    assert abs(back.start - front.start) == 2  # derived: what two stitches of the neck ask for


@pytest.mark.parametrize(
    "moved",
    [
        {"neck_back": 4, "neck_front": 4},
        {"neck_sleeve": 2},
        {"neck_back": 2, "neck_sleeve": -2},
        {"neck_back": 0, "neck_front": -2, "neck_sleeve": 0},
    ],
)
def test_the_shares_of_the_neck_can_be_pinned(moved: dict[str, int]) -> None:
    free = yoke_of(planned(raglan()))
    own = {
        "neck_back": free.back.start,
        "neck_front": free.front.start,
        "neck_sleeve": free.sleeve.start,
    }
    same = planned(raglan(fixed=own))
    assert same.shape == planned(raglan()).shape
    pins = {name: own[name] + by for name, by in moved.items()}
    made = planned(raglan(fixed=pins))
    yoke = yoke_of(made)
    got = (yoke.back.start, yoke.front.start, yoke.sleeve.start)
    for name, count in zip(("neck_back", "neck_front", "neck_sleeve"), got, strict=True):
        assert pins.get(name, count) == count
    assert made.shape.neck.stitches.got == got[0] + got[1] + 2 * got[2]
    prices = [one.field for one in made.findings if one.code == "fixed.cost"]
    assert prices == [f"fixed.{name}" for name in pins]
    assert knit_page(render_html(made)).held == (made.shape.split.held,) * 2


def test_a_share_that_cannot_grow_by_twos_is_refused_with_one_that_can() -> None:
    free = yoke_of(planned(raglan()))
    split = planned(raglan()).shape.split
    pins = {
        "neck_sleeve": free.sleeve.start + 1,
        "sleeve": split.sleeve.got,
        "underarm": split.underarm.got,
    }
    finding = refused(raglan(fixed=pins))
    assert finding.code == "raglan.by-twos"
    assert f"neck_sleeve = {free.sleeve.start}" in finding.remedy


def test_pins_that_no_raglan_meets_are_refused_with_the_nearest() -> None:
    neck = planned(raglan()).shape.neck.stitches.got
    finding = refused(raglan(fixed={"neck": neck + 1}))
    assert finding.code == "fixed.no-way"
    assert f"neck = {neck}" in finding.remedy
    assert "multiple of four" in finding.message


def test_ladders_of_yarn_overs_that_do_not_match_are_told() -> None:
    unlike = planned(raglan(garment__yoke__line_increase="yarn over"))
    yoke = unlike.shape.yoke
    assert isinstance(yoke, RaglanShape)
    assert set(yoke.sleeve.rounds) != set(yoke.back.rounds)
    assert "raglan.ladder" in codes(unlike)
    assert "raglan.ladder" not in codes(planned(raglan(garment__yoke__line_increase="lifted")))
