"""Edges that are pinned: what their finish divides by, and what one round leads to."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.shaping.parts import rib
from tests.sweaters import planned, project, sized
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.edges import Edge
from yokefellow.shaping.edges.pinned_edges import refuse_edges


def refused(*hems: Edge, **pins: int) -> tuple[Finding, ...]:
    """What is said of pins where the neck has 96, the body ends with 200, the sleeves with 50."""
    bare = planned(sized()).shape
    shape = replace(
        bare,
        neck=replace(bare.neck, stitches=Count(96, 96.0, 2.0), band=rib()),
        split=replace(bare.split, sleeve=Count(66, 66.0, 2.0)),
        body=replace(bare.body, edge=Count(200, 200.0, 2.0), hem=hems[0] if hems else rib()),
        sleeve=replace(bare.sleeve, decreases=tuple(range(10, 90, 10)), cuff=rib()),
    )
    try:
        refuse_edges(project({**sized(), "fixed": pins} if pins else sized()), shape)
    except PlanError as error:
        return tuple(one for one in error.findings if one.severity is Severity.ERROR)
    return ()


def test_edges_that_can_be_knitted_are_not_refused() -> None:
    assert refused() == ()
    assert refused(neck=100) == ()
    assert refused(cast_on=90, hem=190, cuff=40) == ()


def test_a_rib_goes_over_whole_repeats() -> None:
    (found,) = refused(hem=191)
    assert (found.code, found.field) == ("fixed.rib", "fixed.hem")
    assert found.message == "A 1x1 rib repeats over 2 stitches, and 191 is no multiple of it."
    assert found.remedy == "Write hem = 190 or hem = 192, or choose another rib."
    wide = Edge("rib", "2x2", Count(12, 12.0, 3.0))
    (found,) = refused(wide, hem=191)
    # derived: 47 fours and three
    assert found.remedy == "Write hem = 188 or hem = 192, or choose another rib."


def test_a_picot_goes_over_two() -> None:
    picot = Edge("folded", "1x1", Count(12, 12.0, 3.0), hidden=11, turning="picot")
    (found,) = refused(picot, hem=191)
    assert found.message == "A picot goes over 2 stitches, and 191 is no multiple of it."
    assert found.remedy == "Write hem = 190 or hem = 192, or choose another turning."
    garter = Edge("garter", "1x1", Count(13, 13.0, 3.0))
    assert refused(garter, hem=191) == ()


@pytest.mark.parametrize(
    ("name", "least", "most", "where"),
    [
        # derived: half of 96, 200 and 66 - 16, and three; twice as many, less four
        ("cast_on", 51, 188, "the yoke begins with 96"),
        ("hem", 103, 396, "the body ends with 200"),
        ("cuff", 28, 96, "the sleeve ends with 50"),
    ],
)
def test_one_round_leads_no_further_than_half_or_twice(
    name: str, least: int, most: int, where: str
) -> None:
    few, many = least - 2 + least % 2, most + 2 - most % 2
    (found,) = refused(**{name: few})
    assert (found.code, found.field) == ("fixed.edge-leap", f"fixed.{name}")
    assert found.message == (
        f"One round has to go from one to the other, and {few} stitches are too few where {where}."
    )
    assert found.remedy == f"Write {name} between {least} and {most}."
    (found,) = refused(**{name: many})
    assert f"and {many} stitches are too many where" in found.message
    assert refused(**{name: few + 2}) == ()
    assert refused(**{name: many - 2}) == ()


def test_all_that_is_wrong_is_told_together() -> None:
    found = refused(cast_on=501, cuff=41)
    # derived: in the order of knitting
    assert [(one.code, one.field) for one in found] == [
        ("fixed.rib", "fixed.cast_on"),
        ("fixed.edge-leap", "fixed.cast_on"),
        ("fixed.rib", "fixed.cuff"),
    ]
