"""What every sweater with colour bands must obey, over 360 random ones, and what refusals owe."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from itertools import pairwise

import pytest

from tests.banded.sweaters import banded
from tests.sweaters import Sections, every_size, project
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.plan import Plan, plan
from yokefellow.rows.model import Feature
from yokefellow.shaping.counts import permitted

SWEATERS = 360
PORTIONS = 12

LAWFUL = {"bands.crowded", "bands.misfit", "bands.narrow", "bands.no-chain", "bands.unreached"}


@cache
def tried(number: int) -> Plan | PlanError:
    """Plan a random sweater; a refusal must be one of the bands'."""
    try:
        return plan(project(banded(number)))
    except PlanError as refused:
        if not errors(refused) <= LAWFUL:
            raise
        return refused


def errors(refused: PlanError) -> set[str]:
    return {one.code for one in refused.findings if one.severity is Severity.ERROR}


def seeds(portion: int) -> range:
    each = SWEATERS // PORTIONS
    return range(portion * each, (portion + 1) * each)


def plans(portion: int) -> Iterator[Plan]:
    for number in seeds(portion):
        found = tried(number)
        if isinstance(found, Plan):
            yield found


def cautions(made: Plan) -> set[str]:
    return {one.code for one in made.findings}


def told_of(made: Plan, number: int, *codes: str) -> bool:
    """Whether one of the cautions was given about a band."""
    field = f"garment.yoke.bands[{number}]"
    return any(one.code in codes and one.field == field for one in made.findings)


portions = pytest.mark.parametrize("portion", range(PORTIONS))


@portions
def test_counts_chain_from_the_neck_to_the_body(portion: int) -> None:
    for made in plans(portion):
        rows = [row for row in made.rows if row.section.key == "yoke"]
        assert [row.number for row in rows] == list(range(1, len(rows) + 1))
        assert rows[0].before == made.shape.yoke.start
        assert all(early.after == late.before for early, late in pairwise(rows))
        split = made.shape.split
        body, sleeve, underarm = split.body.got, split.sleeve.got, split.underarm.got
        # published: E. Zimmermann, "Knitting Without Tears", 1971 (from memory)
        assert rows[-1].after == (body - 2 * underarm) + 2 * (sleeve - underarm)


@portions
def test_every_repeat_goes_round_and_its_rows_follow_one_another(portion: int) -> None:
    for made in plans(portion):
        rows = {row.number: row for row in made.rows if row.section.key == "yoke"}
        in_bands = [number for number, row in rows.items() if row.row.feature is Feature.BAND]
        wanted = []
        for band, chart in zip(made.shape.yoke.bands, made.charts, strict=True):
            assert band.repeats >= 1
            assert rows[band.first].before == band.start.got == band.repeats * chart.first_width
            for offset, line in enumerate(chart.rows):
                assert rows[band.first + offset].after == band.repeats * line.width
                wanted.append(band.first + offset)
        # In the order of the project file, none inside another, none before the second round.
        assert wanted == in_bands == sorted(set(wanted))
        assert wanted[0] >= 2
        pins = [band.repeats for band in made.project.garment.yoke.bands]
        for band, pin in zip(made.shape.yoke.bands, pins, strict=True):
            assert pin in (None, band.repeats)


@portions
def test_increase_rounds_stand_between_the_bands_and_apart(portion: int) -> None:
    for made in plans(portion):
        rows = [row for row in made.rows if row.section.key == "yoke"]
        own = [row.number for row in rows if row.row.feature is Feature.INCREASE]
        assert own == [step.number for step in made.shape.yoke.increase_rounds]
        for row in rows:
            added = row.after - row.before
            # common practice, no source: one in every two stitches at the most
            assert 0 <= 2 * added <= row.before
            if row.row.feature is Feature.BAND:
                band = next(
                    (b, c)
                    for b, c in zip(made.shape.yoke.bands, made.charts, strict=True)
                    if b.first <= row.number <= b.last
                )
                assert added == band[0].repeats * band[1].rows[row.number - band[0].first].made
            else:
                assert (added > 0) == (row.number in own)
        grown = [r.number for r in rows if r.row.feature is Feature.BAND and r.after > r.before]
        # common practice, no source: three rounds; a chart's own steps are the knitter's choice
        close = any(late - early < 3 for early, late in pairwise(own))
        close |= any(abs(at - step) < 3 for at in own for step in grown)
        assert not close or "yoke.apart" in cautions(made)


def line_cm(made: Plan, depth_cm: float) -> float:
    """The circumference the yoke should have at a depth, worked out a second time.

    From the neck straight to the full yoke at three quarters of the depth; by the point of the
    shoulder, at 45 %, it has reached the shoulders.
    """
    per_cm = made.gauges.plain.stitches_per_cm
    split = made.shape.split
    neck = made.shape.neck.stitches.wanted / per_cm
    full = (split.body.wanted + 2 * split.sleeve.wanted - 4 * split.underarm.wanted) / per_cm
    whole = sum(1 / rounds_per_cm(made, number) for number in range(1, last(made) + 1))
    shoulder = made.finished.yoke.shoulder_cm
    points = [(0.0, neck), (0.75 * whole, full), (whole, full)]
    straight = neck + (full - neck) * 0.45 / 0.75
    if straight < shoulder <= full:
        points.insert(1, (0.45 * whole, shoulder))
    for (above, wide), (below, wider) in pairwise(points):
        if depth_cm <= below:
            return wide + (wider - wide) * (depth_cm - above) / (below - above)
    return full


def last(made: Plan) -> int:
    return made.shape.yoke.rounds.got


def rounds_per_cm(made: Plan, number: int) -> float:
    for band, chart in zip(made.shape.yoke.bands, made.charts, strict=True):
        if band.first <= number <= band.last:
            return made.gauges.of(chart.kind).rounds_per_cm
    return made.gauges.plain.rounds_per_cm


@portions
def test_every_band_lies_on_the_line_of_the_yoke_or_is_told(portion: int) -> None:
    for made in plans(portion):
        for number, (band, chart) in enumerate(
            zip(made.shape.yoke.bands, made.charts, strict=True), start=1
        ):
            above = sum(1 / rounds_per_cm(made, n) for n in range(1, band.first))
            inside = len(chart.rows) / made.gauges.of(chart.kind).rounds_per_cm
            middle = (band.counts[-1] + band.start.got) / 2
            around = middle / made.gauges.of(chart.kind).stitches_per_cm
            off = around / line_cm(made, above + inside / 2) - 1
            # derived: 4 % is the tolerance that the engine promises; beyond it a caution
            told = told_of(made, number, "band.pulls-in", "band.stands-out")
            assert abs(off) <= 0.0401 or told, (made.project.title, number, off)
            # derived: the caution is not given for nothing
            assert not told or abs(off) > 0.0299


@portions
def test_dimensions_are_the_best_that_divisibility_permits_or_it_is_told(portion: int) -> None:
    for made in plans(portion):
        split, per_cm = made.shape.split, made.gauges.plain.stitches_per_cm
        pieces = (split.body, split.sleeve, split.underarm)
        exact = all(piece.got in permitted(piece.wanted, multiple=2) for piece in pieces)
        assert exact != ("band.gives-way" in cautions(made)), made.project.title
        # derived: what the engine promises where it gives way: 1, 0.6 and 1 cm, and a stitch
        for piece, most_cm in zip(pieces, (1.0, 0.6, 1.0), strict=True):
            assert exact or abs(piece.got - piece.wanted) <= most_cm * per_cm + 1
        rib = {"1x1": 2, "2x2": 4}[made.project.garment.neck.rib]
        assert made.shape.neck.stitches.got in permitted(
            made.shape.neck.stitches.wanted, multiple=rib, least=4 * rib
        )
        # derived: half a round of the coarser fabric, unless the bands fill the whole yoke
        rounds = made.shape.yoke.rounds
        in_bands = sum(len(chart.rows) for chart in made.charts)
        depth = sum(1 / rounds_per_cm(made, number) for number in range(1, rounds.got + 1))
        assert rounds.cm == pytest.approx(depth)
        assert rounds.wanted_cm == pytest.approx(made.finished.yoke.depth_cm)
        if rounds.got > in_bands and rounds.got > 8:
            assert abs(rounds.residual_cm) <= 0.5 / made.gauges.plain.rounds_per_cm + 1e-9


@portions
def test_shoulders_are_covered_or_it_is_told(portion: int) -> None:
    for made in plans(portion):
        at = int(0.45 * last(made))  # common practice, no source
        count = made.shape.yoke.stitches_at(at)
        per_cm = made.gauges.plain.stitches_per_cm
        for band, chart in zip(made.shape.yoke.bands, made.charts, strict=True):
            if band.first <= at <= band.last:
                per_cm = made.gauges.of(chart.kind).stitches_per_cm
        covered = count / per_cm >= made.finished.yoke.shoulder_cm - 1e-9
        assert covered or cautions(made) & {"yoke.shoulder", "yoke.narrow", "band.inside-body"}


OFFERS = {
    "repeats": re.compile(r"write repeats = (\d+) for (?:band (\d+)|')"),
    "unpin": re.compile(r"take out repeats = \d+ of (?:band (\d+)|')"),
    "unpin all": re.compile(r"take out repeats = in every band"),
    "at": re.compile(r'write at = "([\d.]+ (?:cm|in))" for (?:band (\d+)|\')'),
    "spread": re.compile(
        r'write at = "spread" for (?:every band|it)(, and take out every repeats)?'
    ),
    "leave out": re.compile(r"leave out band (\d+)"),
    "deeper": re.compile(r'write garment\.yoke\.depth = "([^"]+)"'),
}


def followed(sections: Sections, remedy: str) -> Iterator[tuple[str, Sections]]:
    """Follow each offer of a remedy, as a knitter would in the file."""
    for offer in remedy.split("works: ", 1)[-1].split("; "):
        kind, read = next(
            (kind, read) for kind, pattern in OFFERS.items() if (read := pattern.search(offer))
        )
        new = deepcopy(sections)
        if kind == "deeper":
            new["garment"]["yoke"]["depth"] = read[1]
        else:
            follow(kind, read, new["garment"]["yoke"]["bands"])
        yield kind, new


def follow(kind: str, read: re.Match[str], bands: list[Sections]) -> None:
    match kind:
        case "repeats":
            bands[int(read[2] or 1) - 1]["repeats"] = int(read[1])
        case "unpin":
            del bands[int(read[1] or 1) - 1]["repeats"]
        case "at":
            bands[int(read[2] or 1) - 1]["at"] = read[1]
        case "leave out":
            del bands[int(read[1]) - 1]
        case _:
            for band in bands:
                band["at"] = "spread" if kind == "spread" else band["at"]
                if kind == "unpin all" or read[1]:
                    band.pop("repeats", None)


def refusal(refused: PlanError) -> Finding:
    (finding,) = (one for one in refused.findings if one.severity is Severity.ERROR)
    return finding


@portions
def test_every_offer_of_a_refusal_can_be_planned(portion: int) -> None:
    for number in seeds(portion):
        refused = tried(number)
        if isinstance(refused, Plan):
            continue
        finding = refusal(refused)
        assert finding.field == "garment.yoke.bands"
        assert re.search(r"\d", finding.message), finding
        if finding.remedy.startswith("No small change helps"):
            continue
        for kind, new in followed(banded(number), finding.remedy):
            assert isinstance(plan(project(new)), Plan), (number, kind)


def test_most_sweaters_are_planned_and_the_share_is_known(
    capsys: pytest.CaptureFixture[str],
) -> None:
    there: Counter[int] = Counter()
    made: Counter[int] = Counter()
    offered = refused = 0
    for number in range(SWEATERS):
        bands = len(banded(number)["garment"]["yoke"]["bands"])
        found = tried(number)
        there[bands] += 1
        made[bands] += isinstance(found, Plan)
        if isinstance(found, PlanError):
            refused += 1
            offered += not refusal(found).remedy.startswith("No small change")
    with capsys.disabled():
        told = ", ".join(f"{n} bands {made[n]}/{there[n]}" for n in sorted(there))
        print(f"\nplanned: {told}; refused with an offer that works: {offered}/{refused}")
    # snapshot: well under what is reached; one band hardly ever fails
    assert made[1] >= 0.9 * there[1]
    assert made[2] >= 0.75 * there[2]
    assert made[3] >= 0.5 * there[3]
    assert made[4] >= 0.3 * there[4]
    assert offered >= 0.7 * refused


def test_the_sweaters_are_of_every_kind() -> None:
    seen: Counter[str] = Counter()
    gauges = []
    for number in range(SWEATERS):
        sections = banded(number)
        seen[" ".join(sections["wearer"].values())] += 1
        seen[sections["garment"]["yoke"]["increases"]] += 1
        gauges.append(project(sections).swatch.plain.washed.stitches[0])  # type: ignore[union-attr]
        found = tried(number)
        if not isinstance(found, Plan):
            continue
        for band, chart in zip(sections["garment"]["yoke"]["bands"], found.charts, strict=True):
            seen[chart.kind.value] += 1
            seen["pinned" if "repeats" in band else "free"] += 1
            seen["spread" if band["at"] == "spread" else "at a depth"] += 1
            seen["growing"] += chart.last_width > chart.first_width
            kind = chart.kind.value
            ratio = found.gauges.of(kind).stitches_per_cm / found.gauges.plain.stitches_per_cm
            seen["tighter" if ratio > 1.03 else "looser" if ratio < 0.97 else "alike"] += 1
            seen["no swatch"] += kind in found.gauges.assumed
    wanted = {" ".join(size) for size in every_size()}
    wanted |= {"mosaic", "slip", "stranded", "stripes", "purl", "growing", "pinned", "free"}
    wanted |= {"spread", "at a depth", "tighter", "looser", "alike", "no swatch"}
    wanted |= {"regular", "few", "gentle"}
    assert {name for name in wanted if not seen[name]} == set()
    per_cm = sorted(reading.count / reading.over_cm for reading in gauges)
    # derived: the ends of the range that is drawn from
    assert per_cm[0] < 1.25
    assert per_cm[-1] > 3.95
