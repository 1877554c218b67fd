"""Yarn of each colour: bands counted by hand, and against a count made stitch by stitch."""

from __future__ import annotations

from collections import Counter, defaultdict
from math import sqrt

import pytest

from tests.banded.sweaters import banded
from tests.charts.drawn import read
from tests.sweaters import Sections, edited, planned, project, sized, swatch
from yokefellow.charts.chart import ChartKind
from yokefellow.findings import PlanError
from yokefellow.gauge import Gauges, gauges
from yokefellow.plan import Plan, plan
from yokefellow.rows.bands import band_rows
from yokefellow.rows.model import Section, flat_ops
from yokefellow.yarn import LOOP_STATES, spent

BALL = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 20}


def knitted_band(kind: str, *lines: str, repeats: int, times: int = 1) -> Section:
    chart = read(kind, *lines, times=times)
    return Section("yoke", chart.first_width * repeats, band_rows(chart, repeats=repeats))


def fabric(kind: str, stitches_per_cm: float, rounds_per_cm: float) -> Gauges:
    """The gauges where a band's fabric has this swatch."""
    own = {"washed": swatch(stitches_per_cm, rounds_per_cm=rounds_per_cm)}
    return gauges(project(edited(sized(stitches_per_cm=2.5), **{f"swatch__{kind}": own})))


def test_a_small_mosaic_band_counted_by_hand() -> None:
    """Two lines of a repeat of four, each worked twice, ten repeats: 40 stitches round.

    CC1: # # . #    3 of 4 worked in CC1, 1 slipped
    MC:  # . . .    3 of 4 worked in MC, 1 slipped
    """
    band = knitted_band("mosaic", "CC1: ##.#", "MC: #...", repeats=10, times=2)
    gauge = fabric("mosaic", 3.0, 4.0)
    found = spent(band, gauge)
    # derived: 2 rounds of 30 loops in each yarn, with 10 stitches passed behind in each round
    assert {code: (one.loops, one.floats) for code, one in found.items()} == {
        "CC1": (60, 20),
        "MC": (60, 20),
    }
    # derived: a loop is the root of 21.6 over 3 by 4 stitches in a square cm, 1.3416 cm (Munden
    # 1959, wet relaxed, from memory); a float is a stitch wide, a third of a cm.
    # 60 loops of 1.3416 cm and 20 floats of 0.3333 cm are 87.165 cm.
    assert found["CC1"].metres == pytest.approx(0.87165, abs=1e-5)
    assert found["MC"].metres == pytest.approx(found["CC1"].metres)


def test_a_small_stranded_band_counted_by_hand() -> None:
    """One line of a repeat of five, `# # # . .`, worked once, eight repeats: 40 stitches."""
    band = knitted_band("stranded", "###..", repeats=8)
    found = spent(band, fabric("stranded", 2.0, 2.7))
    # derived: 24 stitches in CC1 and 16 in MC; each passes behind the other's
    assert (found["CC1"].loops, found["CC1"].floats) == (24, 16)
    assert (found["MC"].loops, found["MC"].floats) == (16, 24)
    # derived: a loop is the root of 21.6 over 5.4, 2 cm; a float half a cm.
    # CC1: 24 of 2 cm and 16 of 0.5 cm, 56 cm; MC: 16 of 2 cm and 24 of 0.5 cm, 44 cm.
    assert found["CC1"].metres == pytest.approx(0.56)
    assert found["MC"].metres == pytest.approx(0.44)


@pytest.mark.parametrize(("share", "first", "second"), [(0.7, 0.771, 0.467), (0.3, 0.467, 0.771)])
def test_two_colours_in_a_round_by_the_share_of_each(
    share: float, first: float, second: float
) -> None:
    """A colour with the share p of the stitches takes p + (1 - p)/Kw of the plain yarn."""
    state = LOOP_STATES["wet relaxed"]
    width = 10
    in_cc = round(share * width)
    band = knitted_band("stranded", "#" * in_cc + "." * (width - in_cc), repeats=50)
    # A fabric exactly as Munden 1959 has it, so that a stitch is 1/Kw of its loop wide.
    loop_cm = 1.6
    gauge = fabric("stranded", state.wales / loop_cm, state.courses / loop_cm)
    found = spent(band, gauge)
    plain_m = 500 * loop_cm / 100
    # The constants are rounded: Kc by Kw is 21.73, where Ks is 21.6.
    assert found["CC1"].metres == pytest.approx(
        plain_m * (share + (1 - share) / state.wales), rel=0.005
    )
    # derived: from Kw 4.2, as a worked example has it; Kw 4.1 differs by half a hundredth
    assert found["CC1"].metres / plain_m == pytest.approx(first, abs=0.006)
    assert found["MC"].metres / plain_m == pytest.approx(second, abs=0.006)
    both = (found["CC1"].metres + found["MC"].metres) / plain_m
    # derived: 1 + 1/Kw, between 1.238 (Kw 4.2) and 1.263 (Kw 3.8)
    assert 1.236 <= both <= 1.263


@pytest.mark.parametrize("state", LOOP_STATES)
def test_a_float_is_one_over_kw_of_a_loop(state: str) -> None:
    """Published: Munden 1959 (from memory): wales per cm are Kw over the loop."""
    constants = LOOP_STATES[state]
    loop_cm = 1.5
    wide_cm = 1 / (constants.wales / loop_cm)
    assert wide_cm / loop_cm == pytest.approx(1 / constants.wales)
    # published: figures as above; derived: 23.8 % to 26.3 % of a loop
    assert 0.238 <= wide_cm / loop_cm <= 0.2632


# An oracle of its own: one stitch after another, by name.

WORKED = {"k", "p", "k tbl", "M1L", "M1R", "k2tog", "ssk", "p2tog", "k DS", "k wrap"}
WORKED |= {"CO", "BO", "PU"}
SLIPPED = {"sl wyib", "sl wyif"}


def counted(made: Plan) -> tuple[Counter[str], Counter[str], dict[str, float]]:
    """Loops, floats and cm of each yarn, stitch by stitch."""
    loops: Counter[str] = Counter()
    floats: Counter[str] = Counter()
    cm: dict[str, float] = defaultdict(float)
    for section in made.schedule.sections:
        for row in section.rows:
            gauge = made.gauges.of(row.fabric)
            loop_cm = sqrt(21.6 / (gauge.stitches_per_cm * gauge.rounds_per_cm))
            stitches = [
                (op.code, op.yarn or row.yarn)
                for op in flat_ops(row.steps)
                for _ in range(op.times)
            ]
            in_hand = {yarn for code, yarn in stitches if code in WORKED}
            for _ in section.copies or ("",):
                for code, yarn in stitches:
                    if code in WORKED:
                        loops[yarn] += 1
                        cm[yarn] += loop_cm
                        behind = in_hand - {yarn}
                    else:
                        behind = in_hand if code in SLIPPED else set()
                    for other in behind:
                        floats[other] += 1
                        cm[other] += 1 / gauge.stitches_per_cm
    return loops, floats, cm


def sweaters() -> list[Plan]:
    found: list[Plan] = []
    for seed in range(70_000, 70_100):
        try:
            found.append(plan(project(banded(seed))))
        except PlanError:
            continue
        if len(found) == 12:
            break
    return found


def test_every_stitch_and_float_of_every_yarn_is_counted_once() -> None:
    kinds = set()
    for made in sweaters():
        loops, floats, cm = counted(made)
        assert set(made.yarns) == set(loops) | {"MC"}
        for code, yarn in made.yarns.items():
            assert (yarn.knitted.stitches, yarn.floats) == (loops[code], floats[code]), code
            # derived: cm to m
            assert yarn.knitted.metres == pytest.approx(cm[code] / 100)  # derived: cm in a m
            parts = [use.amount for use in yarn.by_section]
            assert sum(part.stitches for part in parts) == loops[code]
            assert sum(part.metres for part in parts) == pytest.approx(cm[code] / 100)
            assert yarn.need.mean.metres == pytest.approx(yarn.knitted.metres + yarn.extras_m)
            assert yarn.need.mean.metres < yarn.needed.metres < yarn.need.high.metres
        kinds |= {chart.kind for chart in made.charts}
    assert kinds == set(ChartKind)


def two_colours(**changes: object) -> Sections:
    base = edited(sized(stitches_per_cm=2.8), yarn__CC1=BALL, yarn__CC2=BALL, **changes)
    return edited(base, garment__yoke__bands=[{"chart": "beads"}])


def test_a_yarn_is_spent_only_where_it_is_worked() -> None:
    made = planned(two_colours())
    assert list(made.yarns) == ["MC", "CC1"]
    for use in made.yarns["CC1"].by_section:
        assert (use.amount.metres > 0) == (use.key == "yoke")
    (band,) = made.shape.yoke.bands
    # derived: the motif has 6 of its 12 stitches in the second colour
    assert made.yarns["CC1"].knitted.stitches == 6 * band.repeats


def test_another_yarn_for_the_band_takes_all_that_the_first_did() -> None:
    one = planned(two_colours())
    swapped = [{"chart": "beads", "colours": {"CC1": "CC2"}}]
    other = planned(edited(two_colours(), garment__yoke__bands=swapped))
    assert other.yarns["CC2"].knitted == one.yarns["CC1"].knitted
    assert other.yarns["MC"].knitted == one.yarns["MC"].knitted


def test_a_part_ball_that_is_too_little_is_told_by_its_name() -> None:
    made = planned(edited(two_colours(), yarn__CC1__balls=0.02))
    assert made.yarns["CC1"].verdict == "short"
    (said,) = (one for one in made.findings if one.code == "yarn.short")
    assert said.field == "yarn.CC1.balls"
