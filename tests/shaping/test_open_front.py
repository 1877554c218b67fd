"""A front worked flat, cut out of a raglan that was drawn by hand; and when it cannot be."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Literal

import pytest

from tests.sweaters import planned, sized
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.fit.finished import FrontFit
from yokefellow.plan import Plan
from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.open_front import OpenFront, open_front
from yokefellow.shaping.model import RaglanLine, RaglanPiece, RaglanShape
from yokefellow.shaping.short_rows import ShortRows

Style = Literal["scooped", "V"]

EVERY_SECOND = tuple(range(2, 61, 2))


def raglan(front: int = 34, *, width: int = 2, increase: str = "lifted") -> RaglanShape:
    """60 rounds at 3 a cm, 2 stitches a cm; every piece grows in every second round."""
    return RaglanShape(
        rounds=Count(60, 60.0, 3.0),
        back=RaglanPiece(34, (), EVERY_SECOND),
        front=RaglanPiece(front, (), EVERY_SECOND),
        sleeve=RaglanPiece(16, (), EVERY_SECOND),
        line=RaglanLine(width, increase),
        short_rows=ShortRows((), 0.0, 3.0),
        shoulder_round=30,
        shoulder_wanted=200.0,
        stitches_per_cm=2.0,
    )


@cache
def asked(style: Style, drop: str, unit: str = "cm") -> Plan:
    return planned(
        sized(
            garment__yoke__style="raglan",
            garment__neck__front=style,
            garment__neck__drop=drop,
            sheet__units=unit,
        )
    )


def cut(
    style: Style, drop_cm: float, yoke: RaglanShape, *, drop: str = "12 cm", unit: str = "cm"
) -> OpenFront | None:
    """The front of a yoke, cut so deep."""
    made = asked(style, drop, unit)
    neck = replace(made.finished.neck, front=FrontFit(style, drop_cm))
    return open_front(made.project, replace(made.finished, neck=neck), yoke)


def refused(style: Style, drop_cm: float, yoke: RaglanShape, unit: str = "cm") -> Finding:
    with pytest.raises(PlanError) as error:
        cut(style, drop_cm, yoke, unit=unit)
    (found,) = error.value.findings
    assert found.severity is Severity.ERROR
    return found


def test_a_level_neck_and_a_round_yoke_have_none() -> None:
    level = planned(sized(garment__yoke__style="raglan"))
    assert open_front(level.project, level.finished, raglan()) is None
    made, circular = asked("V", "12 cm"), planned(sized())
    assert open_front(made.project, made.finished, circular.shape.yoke) is None


def test_a_scooped_front_leaves_its_level_part_to_the_join() -> None:
    found = cut("scooped", 20 / 3, raglan())
    assert found is not None
    front, picked = found
    # derived: the ellipse of a crew front, worked out in test_front_neck.py; 20 rows at 3 a cm
    assert (front.style, front.rows.got, front.edge) == ("scooped", 20, 3)
    assert (front.increases, front.centre) == ((6, 10, 12, 14, 16, 18), 16)
    # derived: 20 rows and 6 stitches across are 7.31 cm along either side; with the 34 of the
    # back, 16 of each sleeve, 3 of each front and 16 at the centre that makes 58.62 cm, 117.2
    # stitches
    assert picked.total.wanted == pytest.approx(117.2, abs=0.05)
    assert picked.total.got == 118
    assert picked.total.per_cm == 2.0
    assert picked.mitre is None


def test_a_v_meets_at_its_point() -> None:
    found = cut("V", 10.0, raglan())
    assert found is not None
    front, picked = found
    # derived: 17 stitches of each front less the 3 it begins with are 14 to gain in 30 rows,
    # every second row but for one gap of four
    assert (front.style, front.rows.got, front.edge, front.centre) == ("V", 30, 3, 0)
    assert front.increases == (4, *range(6, 31, 2))
    # derived: 30 rows and 14 stitches across are 12.21 cm along either side; with 72 stitches over
    # back, sleeves and fronts and one at the point that is 121.8 stitches, to a multiple of four
    # 120 or 124
    assert picked.total.wanted == pytest.approx(121.8, abs=0.05)
    assert picked.total.got == 120
    assert picked.mitre is not None
    assert (picked.mitre.before, picked.mitre.after) == (60, 59)  # derived: one is the point


def test_an_increase_in_a_stitch_leaves_one_more_at_the_edge() -> None:
    found = cut("V", 10.0, raglan(increase="front and back"))
    assert found is not None
    # derived: half of a line of two, the edge stitch, the one beside it, and one more
    assert found[0].edge == 4
    assert len(found[0].increases) == 13  # derived: 17 less 4


def test_a_narrow_front_is_not_parted() -> None:
    # derived: each half takes a stitch of the line and two beside it, and then has none to gain:
    # a slit, whose band loses stitches at the point as fast as can be
    slit = cut("V", 10.0, raglan(6))
    assert slit is not None
    assert (slit[0].increases, slit[0].centre) == ((), 0)
    assert slit[1].mitre is not None
    assert slit[1].mitre.every == 1
    found = refused("V", 10.0, raglan(5))
    assert (found.code, found.field) == ("neck.front-narrow", "garment.neck.opening")
    assert found.message == (
        "The front of the neck has 5 stitches; parted in two it needs at least 6, an edge and a "
        "line on either side."
    )
    assert found.remedy == (
        'Write a wider neck opening, a narrower line_width, or front = "level".'
    )
    # derived: 4 stitches of the line, less two of them that are the sleeve's, and three beside
    wide = raglan(9, width=4, increase="front and back")
    assert "has 9 stitches; parted in two it needs at least 10," in refused("V", 10.0, wide).message


def test_a_drop_that_was_written_must_let_the_v_meet() -> None:
    # derived: 14 stitches gained in every second row are 28 rows, 9.33 cm at 3 rows a cm, and
    # what is offered goes up to the next half
    assert cut("V", 28 / 3, raglan()) is not None
    found = refused("V", 8.0, raglan())
    assert (found.code, found.field) == ("neck.v-shallow", "garment.neck.drop")
    assert found.message == (
        "The edges of a V gain a stitch every second row at most; 34 stitches of front close in "
        "28 rows, 9.3 cm, and the drop is 8 cm."
    )
    assert found.remedy == (
        'Write a drop of at least 9.5 cm, a narrower neck opening, or front = "scooped".'
    )


def test_a_drop_by_size_goes_as_deep_as_the_v_needs() -> None:
    found = cut("V", 8.0, raglan(), drop="by size")
    assert found is not None
    assert found[0].rows.got == 28  # derived: as above
    assert found[0].increases == tuple(range(2, 29, 2))


def test_the_fronts_are_joined_four_rounds_above_the_underarm_at_the_latest() -> None:
    # derived: 56 of 60 rounds
    found = cut("scooped", 56 / 3, raglan())
    assert found is not None
    assert found[0].rows.got == 56
    deep = refused("scooped", 19.4, raglan())
    assert (deep.code, deep.field) == ("neck.drop-deep", "garment.neck.drop")
    # derived: 58 rows are too many; 60 rounds are 20 cm, and 56 of them 18.7 cm
    assert deep.message == (
        "A front cut 19.4 cm deep is joined too late: the underarm lies 20 cm below the back of "
        "the neck."
    )
    # derived: down to the half below
    assert deep.remedy == "Write a drop of at most 18.5 cm."
    # A yoke of an odd number of rounds has one row less, since the rows of a front are even.
    odd = replace(raglan(), rounds=Count(61, 61.0, 3.0))
    assert cut("scooped", 56 / 3, odd) is not None
    deep = refused("scooped", 58 / 3, odd)
    assert deep.code == "neck.drop-deep"
    # derived: 56 rows, as above; 57 would be 19 cm
    assert deep.remedy == "Write a drop of at most 18.5 cm."


def test_a_v_too_wide_for_the_yoke_is_offered_no_drop() -> None:
    # derived: 34 stitches need 28 rows, and 30 rounds leave 26 above the join
    short = replace(raglan(), rounds=Count(30, 30.0, 3.0))
    narrower = 'Write a narrower neck opening, or front = "scooped".'
    for drop_cm, code in ((8.0, "neck.v-shallow"), (12.0, "neck.drop-deep")):
        found = refused("V", drop_cm, short)
        assert (found.code, found.remedy) == (code, narrower)
    with pytest.raises(PlanError, match="34 stitches of front close in 28 rows"):
        cut("V", 8.0, short, drop="by size")
    # derived: a round more would not do, for the rows are even; two are enough
    with pytest.raises(PlanError):
        cut("V", 8.0, replace(short, rounds=Count(31, 31.0, 3.0)), drop="by size")
    deep_enough = replace(short, rounds=Count(32, 32.0, 3.0))
    assert cut("V", 8.0, deep_enough, drop="by size") is not None
    assert refused("V", 8.0, deep_enough).remedy.startswith("Write a drop of at least 9.5 cm, ")
    assert refused("V", 12.0, deep_enough).remedy == "Write a drop of at most 9 cm."


@pytest.mark.parametrize("rows_per_cm", [2.0, 3.0, 4.0, 5.2, 7.0])
@pytest.mark.parametrize("unit", ["cm", "in"])
def test_the_drops_that_are_offered_can_be_cut(rows_per_cm: float, unit: str) -> None:
    rounds = round(22 * rows_per_cm)
    yoke = replace(raglan(40), rounds=Count(rounds, float(rounds), rows_per_cm))
    per = 2.54 if unit == "in" else 1.0
    shallow = refused("V", 2.0, yoke, unit).remedy.split("at least ")[1].split(",")[0]
    deep = refused("scooped", 25.0, yoke, unit).remedy.split("at most ")[1].removesuffix(".")
    assert cut("V", per * number(shallow), yoke) is not None
    assert cut("scooped", per * number(deep), yoke) is not None


def number(words: str) -> float:
    whole = words.split()[0]
    quarters = {"¼": 0.25, "½": 0.5, "¾": 0.75}
    part = quarters.get(whole[-1], 0.0)
    return float(whole.rstrip("¼½¾") or 0) + part
