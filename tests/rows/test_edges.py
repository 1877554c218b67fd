"""The edges: what each finish makes of the rows, and which bind-off each gets."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.knitter import knit_page
from tests.sweaters import TURNINGS, Sections, edited, planned, sized, swatch
from yokefellow.advice.needles import rib_needle_mm
from yokefellow.notation.phrase import phrase
from yokefellow.plan import Plan
from yokefellow.rows.model import Feature, WorkedRow
from yokefellow.shaping.bindoffs import BIND_OFFS, bind_off_for
from yokefellow.sheet.html import render_html
from yokefellow.sheet.text import render_text
from yokefellow.what_if import table

EDGES = {"neck": "neckband", "body": "hem", "sleeves": "cuff"}


def finished(finish: str, **changes: object) -> Sections:
    """A sweater whose three edges are finished alike."""
    same = {f"garment__{place}__finish": finish for place in EDGES}
    return edited(edited(sized(), **same), **changes)


def section_rows(plan: Plan, key: str) -> list[WorkedRow]:
    return [row for row in plan.rows if row.section.key == key and row.row.feature is Feature.EDGE]


def printed(plan: Plan, key: str) -> list[str]:
    return [phrase(row.row, row.before) for row in plan.rows if row.section.key == key]


def test_garter_begins_and_ends_with_a_purled_round() -> None:
    plan = planned(finished("garter"))
    for key in EDGES.values():
        edge = [r for r in plan.rows if r.section.key == key and r.row.feature is Feature.EDGE]
        words = [phrase(row.row, row.before) for row in edge]
        assert words[0] == words[-1] == "purl"
        assert words[::2] == ["purl"] * len(words[::2])
        assert words[1::2] == ["knit"] * len(words[1::2])


def test_garter_is_counted_at_its_own_gauge_when_there_is_a_swatch() -> None:
    plain = planned(finished("garter"))
    own = planned(finished("garter", swatch__garter={"washed": swatch(2.2, rounds_per_cm=2 * 2.2)}))
    # derived: 5 cm at 2.2 × 1.35 × 1.4 and at 4.4 rounds a cm, to the next odd number
    assert plain.shape.body.hem.rounds.got == 21
    assert own.shape.body.hem.rounds.got == 23


@pytest.mark.parametrize("turning", TURNINGS)
def test_a_fold_has_its_outside_on_the_side_of_the_sweater(turning: str) -> None:
    changes = {f"garment__{place}__turning": turning for place in EDGES}
    plan = planned(finished("folded", **changes))
    fabrics = {
        key: [row.row.fabric for row in plan.rows if row.section.key == key] for key in ("hem",)
    }
    hem = fabrics["hem"]
    outside = hem.count("plain")
    assert hem == ["plain"] * outside + ["facing"] * (len(hem) - outside)
    band = [r.row for r in plan.rows if r.section.key == "neckband"]
    edge = [row.fabric for row in band if row.feature is Feature.EDGE]
    assert edge == sorted(edge)  # derived: "facing" comes before "plain" in the alphabet, too
    assert {"facing", "plain"} == set(edge)
    stitches = plan.shape.body.hem_stitches
    fold = "purl" if turning == "purl" else f"[k2tog, yo] {stitches // 2} times"
    assert printed(plan, "hem")[outside] == fold
    assert printed(plan, "hem")[-1] == f"sew down all {stitches} live sts inside"


@pytest.mark.parametrize("chest", ["92 cm", "93 cm", "94 cm", "95 cm"])
@pytest.mark.parametrize("shape", ["straight", "a-line", "waist"])
def test_no_marker_lies_in_the_way_of_a_picot_fold(shape: str, chest: str) -> None:
    """An odd half of the body would have the marker between two stitches worked together."""
    sections = finished("folded", garment__body__turning="picot", garment__body__shape=shape)
    plan = planned(edited(sections, wearer={"table": "women"}, body__chest=chest))
    last = [row for row in plan.rows if row.section.key == "body"][-1]
    assert ", rm, " in phrase(last.row, last.before)
    assert knit_page(render_html(plan)).loops == plan.total_stitches


@pytest.mark.parametrize("finish", ["rib", "garter", "rolled", "folded"])
@pytest.mark.parametrize("unit", ["cm", "in"])
def test_every_finish_is_knitted_from_its_page_and_told(finish: str, unit: str) -> None:
    plan = planned(finished(finish, sheet__units=unit))
    knitted = knit_page(render_html(plan))
    assert knitted.loops == plan.yarn.knitted.stitches
    words = " ".join(render_text(plan).split())
    told = {
        "rib": "Work the hem in k1, p1 rib",
        "garter": "Work the hem in garter stitch",
        "rolled": "let it roll outward",
        "folded": "Sew down the neckband",
    }
    for name, sentence in told.items():
        assert (sentence in words) == (name == finish), (name, finish)


def test_a_rolled_edge_keeps_its_length_and_costs_its_roll() -> None:
    ribbed, rolled = planned(finished("rib")), planned(finished("rolled"))
    assert rolled.shape.body.hem_rounds == ribbed.shape.body.hem_rounds
    # common practice, no source: 2 cm more of knitting, at 2.2 × 1.35 rounds a cm
    assert rolled.shape.body.hem.hidden == 6
    for key in EDGES.values():
        rounds = [len(section_rows(plan, key)) for plan in (ribbed, rolled)]
        assert rounds[1] - rounds[0] == 6, key
    assert rolled.yarn.knitted.stitches > ribbed.yarn.knitted.stitches


def test_the_needle_of_each_finish() -> None:
    for finish, finer in (("rib", True), ("garter", True), ("rolled", False), ("folded", True)):
        plan = planned(finished(finish))
        needles = plan.project.needles
        first = plan.needles[0].mm
        assert first == (rib_needle_mm(needles) if finer else needles.main)
        here = {change.mm for change in plan.needles if change.section == "hem"}
        assert (rib_needle_mm(needles) in here) == finer


@given(
    st.sampled_from(["rib", "garter", "rolled", "folded"]), st.floats(5, 150), st.floats(0.3, 2.5)
)
def test_the_bind_off_is_the_simplest_that_stretches_enough(
    finish: str, edge_cm: float, ratio: float
) -> None:
    chosen = bind_off_for(finish, edge_cm=edge_cm, passes_cm=ratio * edge_cm)
    least = bind_off_for(finish, edge_cm=edge_cm, passes_cm=0.0)
    most = bind_off_for(finish, edge_cm=edge_cm, passes_cm=1000 * edge_cm)
    assert least.stretch <= chosen.stretch <= most.stretch
    assert chosen.stretch >= ratio - 1e-9 or chosen == most
    if chosen != least:
        assert least.stretch < ratio


def test_no_edge_is_bound_off_plainly_and_the_numbers_are_as_the_trade_has_them() -> None:
    # common practice, no source: a plain bind-off is three widths, a sewn one three to four
    assert BIND_OFFS["plain"].widths == 3.0
    assert 3 <= BIND_OFFS["sewn"].widths <= 4
    plan = planned(sized())
    ends = [row.row.bind_off for row in plan.rows if row.row.feature is Feature.BIND_OFF]
    assert ends == ["through the back"] * 2


def test_a_narrow_cuff_gets_a_bind_off_that_passes_the_hand() -> None:
    narrow = planned(sized(ease__upper_arm="-5 cm", body__wrist="20 cm"))
    shape = narrow.shape.sleeve
    way = BIND_OFFS[shape.cuff.bind_off]
    assert way.stretch * shape.edge.cm >= narrow.finished.sleeve.passes_cm
    # common practice, no source: the hand is 1.3 of the wrist
    assert narrow.finished.sleeve.passes_cm == pytest.approx(26.0)
    assert way.key != "through the back"


def test_a_bind_off_with_yarn_overs_costs_its_yarn() -> None:
    # A hem gathered by a quarter must still pass the hips.
    plan = planned(sized(garment__body={"gather": 25}, ease__chest="very close"))
    assert plan.shape.body.hem.bind_off == "yarn overs"
    (hem,) = (part for part in plan.reckoning.parts if part.key == "hem")
    # derived: six widths less the 4.1 of a loop (Munden's Kw), for every stitch
    assert hem.tail == pytest.approx((6.0 - 4.1) * plan.shape.body.hem_stitches)
    assert "with yarn overs" in render_text(plan)


def test_suppose_tries_every_finish() -> None:
    made = planned(sized())
    lines = {line.choice: line for line in table(made) if line.kind == "edges"}
    assert set(lines) == {"garter", "rolled", "folded"}
    anew = planned(finished("folded"))
    assert lines["folded"].yarns["MC"].knitted.stitches == anew.yarn.knitted.stitches
