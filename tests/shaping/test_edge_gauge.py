"""How wide a rib or garter edge is: by its swatch, else by its usual ratio to the plain fabric."""

from __future__ import annotations

import pytest

from tests.sweaters import edited, planned, sized, swatch
from yokefellow.advice.fit_report import Verdict
from yokefellow.gauge import RIB_AT_REST

PLAIN = 20 / 10.16
FIRM = 28 / 10.16
"""Plain 20 stitches over 4 in, rib 28."""

BODY = {"chest": "96 cm", "hip": "104 cm", "wrist": "16 cm", "neck": "37 cm"}
SWEATER = edited(sized("women", "M", stitches_per_cm=PLAIN), body=BODY)


def test_a_rib_that_draws_in_far_gets_more_stitches_at_every_edge() -> None:
    plain = planned(SWEATER).shape
    firm = planned(edited(SWEATER, swatch__rib={"washed": swatch(FIRM)})).shape
    # derived: the usual width at rest of what was wanted, in stitches of the rib; a repeat is 2
    for got, was in (
        (firm.neck.band_stitches, plain.neck.stitches.got),
        (firm.body.hem_stitches, plain.body.edge.got),
        (firm.sleeve.edge.got, plain.sleeve.edge.got),
    ):
        assert got == pytest.approx(was * RIB_AT_REST * 28 / 20, abs=2.5)
    assert firm.body.edge == plain.body.edge
    assert firm.sleeve.edge.cm == pytest.approx(plain.sleeve.edge.cm, abs=1)


@pytest.mark.parametrize("per_cm", [PLAIN, 1.15 * PLAIN, 1.3 * PLAIN])
def test_a_rib_as_ribs_are_keeps_the_stitches_beside_it(per_cm: float) -> None:
    assert (
        planned(edited(SWEATER, swatch__rib={"washed": swatch(per_cm)})).shape.body.hem_stitches
        == planned(SWEATER).shape.body.hem_stitches
    )


def test_a_garter_edge_goes_by_its_swatch() -> None:
    garter = edited(SWEATER, garment__sleeves__finish="garter")
    loose = edited(garter, swatch__garter={"washed": swatch(0.8 * PLAIN)})
    wide, own = planned(garter).shape.sleeve.edge, planned(loose).shape.sleeve.edge
    # derived: a fifth fewer stitches make the same width
    assert own.got == pytest.approx(0.8 * wide.got, abs=1)
    assert own.cm == pytest.approx(wide.cm, abs=1)


def test_a_cuff_smaller_than_the_wrist_is_told_in_the_fit_report() -> None:
    firm = edited(SWEATER, swatch__rib={"washed": swatch(FIRM)})
    narrow = planned(edited(firm, fixed={"cuff": planned(SWEATER).shape.sleeve.edge.got}))
    *_, cuff = narrow.fit_report
    # derived: 42 stitches at 28 over 4 in are 6 in, and the wrist is 6.3 in
    assert cuff.edge is not None
    assert cuff.edge.rest_cm < 16
    assert cuff.verdict is Verdict.TIGHT
    assert "sleeve.rib-tight" in {found.code for found in narrow.findings}
    *_, cuff = planned(firm).fit_report
    assert cuff.verdict is Verdict.INSIDE


def test_a_rib_without_a_swatch_draws_in_and_grips_nowhere() -> None:
    for fit in ("close", "classic", "loose"):
        widths = planned(edited(SWEATER, ease={"chest": fit, "upper_arm": fit})).edge_widths
        for width in widths:
            assert width.gauge.is_assumed
            # common practice, no source: 85 % of as many plain stitches
            assert width.rest_cm == pytest.approx(0.85 * width.stitches / PLAIN, rel=1e-4)
            assert not width.grips
