"""A raglan whose front is worked flat, from the cast-on to the band picked up round its neck."""

from __future__ import annotations

from functools import cache

import pytest

from tests.knitter import Knitted, knit
from tests.notation.printed_rows import parts_of
from tests.sweaters import GAUGES, Sections, edited, every_size, planned, sized
from yokefellow.findings import PlanError
from yokefellow.plan import Plan
from yokefellow.rows.model import Feature, RowKind, Section, flat_ops
from yokefellow.shaping.edges.front_neck import FrontNeck
from yokefellow.shaping.model import RaglanShape

FRONTS = ("scooped", "V")
MAY_REFUSE = {"neck.v-shallow", "neck.drop-deep", "neck.front-narrow"}


def with_front(front: str, **changes: object) -> Sections:
    raglan = sized(garment__yoke__style="raglan", garment__neck__front=front)
    return edited(raglan, **changes)


def made(sections: Sections) -> Plan | None:
    try:
        return planned(sections)
    except PlanError as refused:
        codes = {finding.code for finding in refused.findings}
        assert any(code in MAY_REFUSE or code.startswith("raglan.") for code in codes), codes
        return None


@cache
def sweaters() -> tuple[Plan, ...]:
    """Every size, each in a third of the gauges, both fronts by turns."""
    found = []
    for at, (group, size) in enumerate(every_size()):
        for gauge in GAUGES[at % 3 :: 3]:
            front = FRONTS[(at // 3 + GAUGES.index(gauge)) % 2]
            rib = ("1x1", "2x2", "twisted")[at % 3]
            sections = edited(
                sized(group, size, stitches_per_cm=gauge),
                garment__yoke__style="raglan",
                garment__neck={"front": front, "rib": rib},
            )
            found.append(made(sections))
    return tuple(plan for plan in found if plan is not None)


def parts(plan: Plan) -> tuple[RaglanShape, FrontNeck, Section]:
    assert isinstance(plan.shape.yoke, RaglanShape)
    assert plan.shape.front is not None
    return plan.shape.yoke, plan.shape.front, plan.schedule.sections[0]


def test_a_folded_band_is_picked_up_on_the_needle_of_its_outside() -> None:
    plan = planned(with_front("scooped", garment__neck__finish="folded"))
    changes = [change for change in plan.needles if change.section == "neckband"]
    needles = plan.project.needles
    fold = plan.shape.neck.band.rounds.got + 2
    # derived: the pick-up, the outside, then the fold and the facing on the finer needle
    assert [(change.number, change.mm) for change in changes] == [
        (1, needles.main),
        (fold, needles.main - 0.5),
    ]


def test_every_size_and_gauge_has_a_front_worked_flat_by_size() -> None:
    tried = sum(len(GAUGES[at % 3 :: 3]) for at, _ in enumerate(every_size()))
    # derived: a drop by size bends to the yoke and to the edges of a V, so none is refused
    assert len(sweaters()) == tried
    assert {plan.finished.neck.front.style for plan in sweaters() if plan.finished.neck.front} == {
        *FRONTS
    }


def test_the_independent_knitter_arrives_and_every_flat_row_is_stockinette() -> None:
    for plan in sweaters():
        knitted: Knitted = knit(parts_of(plan.schedule))
        neck = plan.shape.neck
        assert knitted.bumps == 0  # derived: purled back, knitted forth
        assert knitted.at_neck == neck.band_stitches
        assert knitted.loops == plan.yarn.knitted.stitches


def test_the_join_comes_at_the_drop_with_the_count_of_a_level_neck() -> None:
    for plan in sweaters():
        yoke, front, section = parts(plan)
        rows = [row for row in plan.rows if row.section is section]
        join = next(row for row in rows if row.row.feature is Feature.JOIN)
        # Row 1 casts on; so the join is the row of the drop and one.
        assert join.number == front.rows.got + 1
        assert join.after == yoke.stitches_at(front.rows.got)
        assert abs(front.rows.got - front.rows.wanted) <= 1 + 1e-9
        cast_on = sum(op.times for op in flat_ops(join.row.steps) if op.code == "CO")
        assert cast_on == front.centre
        if front.style == "V":
            assert front.centre <= 1
        assert rows[-1].row.kind is RowKind.PART
        assert plan.schedule.sections[1].start == rows[-1].after


def test_rows_alternate_and_every_increase_of_a_neck_edge_faces_the_knitter() -> None:
    for plan in sweaters():
        _, front, section = parts(plan)
        flat = section.rows[:-1]
        kinds = [row.kind for row in flat]
        assert kinds == [
            RowKind.FLAT_WRONG if number % 2 else RowKind.FLAT_RIGHT for number in range(len(kinds))
        ]
        for number in front.increases:
            ops = list(flat_ops(flat[number].steps))
            assert [op.code for op in ops[:2]] == ["k", "M1L"]
            ends = ops[-3:] if ops[-1].code == "CO" else ops[-2:]
            assert [op.code for op in ends][:2] == ["M1R", "k"]


def test_the_whole_yoke_grows_as_with_a_level_neck() -> None:
    for plan in sweaters():
        yoke, front, section = parts(plan)
        counts = [row.after for row in plan.rows if row.section.key == "yoke"]
        done = front.rows.got
        assert counts == [yoke.stitches_at(n) for n in range(done + 1, yoke.rounds.got + 1)]
        assert not yoke.short_rows.turns
        assert section.start == 0


def test_the_band_divides_its_rib_and_mirrors_at_the_point() -> None:
    for plan in sweaters():
        neck = plan.shape.neck
        assert neck.picked is not None
        band = plan.schedule.sections[-1]
        assert band.key == "neckband"
        if neck.picked.mitre is None:
            # common practice, no source: stitches in one repeat of each rib
            assert neck.band_stitches % {"1x1": 2, "2x2": 4, "twisted": 2}[neck.rib] == 0
            continue
        centre = neck.picked.mitre.before
        for row in band.rows[1:-1]:
            codes = [op.code for op in flat_ops(row.steps) for _ in range(op.times)]
            at = codes.index("CDD") if "CDD" in codes else centre
            left, right = codes[:at][::-1], codes[at + 1 :]
            shorter = min(len(left), len(right))
            assert left[:shorter] == right[:shorter]
            if "CDD" in codes:
                centre -= 1


def test_rates_in_every_row_are_purled_on_the_way_back() -> None:
    # A steep raglan: a large chest in a coarse gauge increases in every round.
    steep = with_front(
        "scooped",
        body__chest="150 cm",
        body__upper_arm="50 cm",
        garment__yoke__depth="22 cm",
    )
    plan = made(steep)
    assert plan is not None
    codes = {
        op.code
        for row in plan.schedule.sections[0].rows
        if row.kind is RowKind.FLAT_WRONG
        for op in flat_ops(row.steps)
    }
    assert codes == {"p", "pm", "sm", "M1LP", "M1RP"}
    for row in plan.schedule.sections[0].rows:
        kinds = [op.code for op in flat_ops(row.steps) if op.code not in ("k", "p")]
        beside = {
            (kinds[at - 1], kinds[at + 1])
            for at, code in enumerate(kinds[:-1])
            if code == "sm" and kinds[at - 1] != "sm" != kinds[at + 1] and at
        }
        # derived: on the right side an M1R comes before a line and an M1L after it; the way back
        # meets the one after it first
        back = row.kind is RowKind.FLAT_WRONG
        assert beside <= {("M1LP", "M1RP") if back else ("M1R", "M1L")}
    assert knit(parts_of(plan.schedule)).bumps == 0  # derived


def refusal(sections: Sections) -> dict[str, tuple[str, str]]:
    with pytest.raises(PlanError) as refused:
        planned(sections)
    return {found.code: (found.message, found.remedy) for found in refused.value.findings}


def test_a_v_too_shallow_to_meet_is_refused_with_a_drop_that_works() -> None:
    message, remedy = refusal(with_front("V", garment__neck__drop="3 cm"))["neck.v-shallow"]
    assert "3 cm" in message
    deep = remedy.split("at least ")[1].split(",")[0]
    assert made(with_front("V", garment__neck__drop=deep)) is not None


def test_a_front_cut_below_the_underarm_is_refused_with_a_drop_that_works() -> None:
    message, remedy = refusal(with_front("V", garment__neck__drop="30 cm"))["neck.drop-deep"]
    assert "30 cm" in message
    most = remedy.split("at most ")[1].removesuffix(".")
    assert made(with_front("V", garment__neck__drop=most)) is not None


def test_a_front_too_narrow_to_part_is_refused() -> None:
    narrow = with_front("scooped", garment__neck__opening="20 cm", garment__yoke__line_width=4)
    coarse = edited(
        narrow,
        swatch__plain={"washed": {"stitches": ["12 over 10 cm"], "rounds": ["17 over 10 cm"]}},
    )
    assert {"neck.front-narrow", "raglan.line-wide"} & set(refusal(coarse))


@pytest.mark.parametrize(
    ("code", "changes"),
    [
        ("neck.front-circular", {"garment__yoke__style": "circular"}),
        ("neck.front-percentage", {"garment__yoke__proportions": "percentage 1971"}),
        ("neck.front-provisional", {"garment__neck__cast_on": "provisional"}),
        ("neck.v-band", {"garment__neck__band": "8 cm"}),
        ("neck.front-bands", {"garment__yoke__bands": [{"chart": "tide-lines"}]}),
    ],
)
def test_what_does_not_go_with_a_front_worked_flat_is_refused(
    code: str, changes: dict[str, object]
) -> None:
    message, remedy = refusal(with_front("V", **changes))[code]
    assert '"V"' in message or "V" in message
    assert "Write" in remedy


def test_what_is_not_heeded_is_said() -> None:
    level = planned(sized(garment__neck__drop="8 cm"))
    assert "neck.no-drop" in {found.code for found in level.findings}
    raised = planned(with_front("scooped", garment__neck__back_raise="4 cm"))
    assert "neck.raise-in-depth" in {found.code for found in raised.findings}
    usual = planned(with_front("scooped"))
    # derived: the raise asked for, less the usual one, makes the yoke deeper at the back
    deeper = raised.finished.yoke.depth_cm - usual.finished.yoke.depth_cm
    assert deeper == pytest.approx(4.0 - usual.figures.cm("back_raise"))


# published: ANSUR II, 2012: height of the seventh neck vertebra less that of the top of the
# breastbone, means 6.60 cm (women) and 7.87 cm (men)
@pytest.mark.parametrize(("group", "size", "drop_cm"), [("women", "M", 6.6), ("men", "L", 7.9)])
def test_a_scooped_front_is_as_deep_as_the_base_of_the_neck(
    group: str, size: str, drop_cm: float
) -> None:
    sections = edited(
        sized(group, size), garment__yoke__style="raglan", garment__neck__front="scooped"
    )
    front = planned(sections).finished.neck.front
    assert front is not None
    assert front.drop_cm == pytest.approx(drop_cm)
