"""What holds for the rows of every sweater, looked at in a few of every kind.

The shape says how many stitches and rounds there are; these tests hold the rows
to it, with the independent knitter's hands where it matters how they are worked.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

import pytest

from tests.knitter import knit
from tests.notation.printed_rows import parts_of
from tests.rows.kinds import KINDS, made
from yokefellow.plan import Plan
from yokefellow.rows.model import (
    Feature,
    Op,
    Repeat,
    Row,
    RowKind,
    Step,
    WorkedRow,
    flat_ops,
    net,
)
from yokefellow.shaping.model import BodyShape, ChartedBand, RaglanPiece, RaglanShape

pytestmark = pytest.mark.parametrize("kind", KINDS)

FABRICS = {"plain", "rib", "garter", "facing", "stranded", "mosaic", "slip", "stripes", "purl"}
"""As `Row.fabric` has them: the plain one, those of the edges, and the kinds of charts."""

REASON = re.compile(r"(BOR )?[a-z0-9]([^A-Z]*[a-z0-9])?")
"""A few words, no sentence: in small letters, but for BOR."""

NEEDLE = {"rib": "rib", "garter": "garter", "rolled": "plain", "folded": "facing"}
"""The fabric of the round at the very edge, by the finish."""


def rows(plan: Plan, key: str) -> list[WorkedRow]:
    return [row for row in plan.rows if row.section.key == key]


def codes(row: Row) -> list[str]:
    """Every stitch of a row by itself."""
    return [op.code for op in flat_ops(row.steps) for _ in range(op.times)]


def test_the_independent_knitter_makes_the_garment_of_the_shape(kind: str) -> None:
    plan = made(kind)
    shape, split, neck = plan.shape, plan.shape.split, plan.shape.neck
    knitted = knit(parts_of(plan.schedule))
    assert knitted.held == (split.held,) * 2
    assert knitted.underarms == (split.underarm.got,) * 2
    # derived: the underarm and a stitch at each of two corners, both sleeves
    assert knitted.picked_up == 2 * (split.underarm.got + 2)
    assert knitted.taken_up == (neck.stitches.got if neck.is_last and not neck.picked else 0)
    assert knitted.at_neck == (neck.band_stitches if neck.picked else 0)
    assert knitted.bumps == 0  # derived: rows worked flat are stockinette
    band = rows(plan, "neckband")[-1]
    edges = shape.body.hem_stitches + 2 * shape.sleeve.edge.got
    assert knitted.bound_off == edges + (band.before if neck.is_last else 0)
    assert knitted.loops == plan.total_stitches
    done = shape.flat_rows
    assert knitted.counts["yoke", ""] == tuple(
        shape.yoke.stitches_at(number) for number in range(done + 1, shape.yoke.rounds.got + 1)
    )
    raised = knitted.heights.get(("back_neck", ""), (0,))
    turns = shape.yoke.short_rows.turns
    assert max(raised) == 2 * len(turns)  # derived: a pair is two rows
    assert raised[len(raised) // 2] == 0


def test_every_row_says_what_it_is_and_why(kind: str) -> None:
    plan = made(kind)
    for section in plan.schedule.sections:
        for row in section.rows:
            assert isinstance(row.feature, Feature)
            assert isinstance(row.kind, RowKind)
            assert row.fabric in FABRICS
            assert row.yarn in plan.project.yarn
            assert all(op.yarn in ("", *plan.project.yarn) for op in flat_ops(row.steps))
            assert row.why == "" or REASON.fullmatch(row.why), row.why
            assert not re.search(r"\bbor\b", row.why)
            plain = row.feature is Feature.PLAIN
            assert plain or row.why, row.feature
            assert (row.feature is Feature.BIND_OFF) == bool(row.bind_off)
            assert (row.fabric in ("stranded", "mosaic", "slip", "stripes", "purl")) == (
                row.feature is Feature.BAND
            )


def test_the_sections_stand_in_the_order_of_the_work(kind: str) -> None:
    plan = made(kind)
    shape = plan.shape
    above = ["front"] if shape.front else ["cast_on" if shape.neck.is_last else "neckband"]
    raised = ["back_neck"] if shape.yoke.short_rows.turns else []
    pieces = [["body", "hem"], ["sleeve", "cuff"]]
    if plan.project.garment.work_order == "sleeves first":
        pieces.reverse()
    last = ["neckband"] if shape.neck.is_last else []
    keys = [section.key for section in plan.schedule.sections]
    assert keys == [*above, *raised, "yoke", "split", *pieces[0], *pieces[1], *last]
    for section in plan.schedule.sections:
        twice = section.key in ("sleeve", "cuff")
        assert section.copies == (("right", "left") if twice else ("",))
    starts = {section.key: section.start for section in plan.schedule.sections}
    assert starts["body"] == shape.split.body.got
    assert starts["sleeve"] == shape.split.held
    assert starts["split"] == shape.split.yoke
    assert starts[above[0]] == 0


def test_short_rows_are_told_from_rounds(kind: str) -> None:
    """What a row is hangs on how it ends, and on whether the neck is open."""
    plan = made(kind)
    for section in plan.schedule.sections:
        for row in section.rows:
            worked = codes(row)
            turned = worked[-1] in ("turn", "w&t")
            assert turned == (row.kind in (RowKind.RIGHT_SIDE, RowKind.WRONG_SIDE))
            if turned:
                assert row.feature is Feature.SHORT_ROW
                assert ("p" in worked) == (row.kind is RowKind.WRONG_SIDE)
            assert row.kind.is_flat <= (section.key == "front")
            flat = section.key == "front" and row is not section.rows[-1]
            assert row.kind.is_flat == flat
            if row.kind.is_flat:
                back = row.kind is RowKind.FLAT_WRONG
                assert back == bool({"p", "pfb", "M1LP", "M1RP"} & set(worked))
            if row.feature in (Feature.CAST_ON, Feature.PROVISIONAL):
                # Before it is joined there is no round.
                assert row.kind is (RowKind.FLAT_RIGHT if flat else RowKind.PART)
            if row.kind is RowKind.PART:
                assert row.feature in (
                    *(Feature.CAST_ON, Feature.PROVISIONAL, Feature.SHORT_ROW),
                    *(Feature.MOVE_BOR, Feature.JOIN),
                )


def test_the_features_are_those_of_each_section(kind: str) -> None:
    plan = made(kind)
    shape = plan.shape
    found = {s.key: [row.feature for row in s.rows] for s in plan.schedule.sections}
    assert found["split"] == [Feature.SPLIT, Feature.MOVE_BOR]
    assert found["sleeve"][:2] == [Feature.PICK_UP, Feature.CORNERS]
    for key in ("hem", "cuff"):
        assert set(found[key][:-1]) == {Feature.EDGE}
        assert found[key][-1] is Feature.BIND_OFF
    if "cast_on" in found:
        assert found["cast_on"] == [Feature.PROVISIONAL, Feature.PLAIN]
    if "back_neck" in found:
        assert set(found["back_neck"]) == {Feature.SHORT_ROW}
        assert found["yoke"][0] is Feature.CLOSE_GAPS
    elif isinstance(shape.yoke, RaglanShape) and shape.front is None:
        assert found["yoke"][0] is Feature.MARK
    else:
        assert Feature.CLOSE_GAPS not in found["yoke"]
    if shape.front is not None:
        first, mark, *_ = found["front"]
        assert (first, mark) == (Feature.CAST_ON, Feature.MARK)
        assert found["front"][-2:] == [Feature.JOIN, Feature.JOIN]
    grown = [step.number for step in shape.yoke.increase_rounds]
    in_yoke = [at for at, one in enumerate(found["yoke"], 1) if one is Feature.INCREASE]
    assert in_yoke == [n - shape.flat_rows for n in grown if n > shape.flat_rows]
    neck, band = found["neckband"], shape.neck
    begins = {Feature.CAST_ON, Feature.NECK_EDGE, Feature.ADJUST, Feature.PLAIN}
    assert neck[0] in begins
    assert neck.count(Feature.BIND_OFF) == band.is_last
    assert neck[0] is (
        Feature.CAST_ON
        if not band.is_last
        else Feature.NECK_EDGE
        if band.picked
        else Feature.ADJUST
        if band.stitches.got != band.band_stitches
        else Feature.PLAIN
    )


def test_edges_are_in_their_fabric_from_the_cast_on_to_the_bind_off(kind: str) -> None:
    plan = made(kind)
    shape = plan.shape
    for key, edge in (
        ("neckband", shape.neck.band),
        ("hem", shape.body.hem),
        ("cuff", shape.sleeve.cuff),
    ):
        section = next(s for s in plan.schedule.sections if s.key == key)
        upward = key == "neckband" and not shape.neck.is_last
        end = section.rows[0] if upward else section.rows[-1]
        assert end.fabric == NEEDLE[edge.finish]
        worked = [
            row
            for row in section.rows
            if row.feature is Feature.EDGE or (row.feature is Feature.ADJUST and shape.neck.picked)
        ]
        assert len(worked) == edge.all_rounds
        fabrics = [fabric for fabric, _ in groupby(row.fabric for row in worked)]
        if edge.finish == "folded":
            assert fabrics == (["facing", "plain"] if upward else ["plain", "facing"])
            assert sum(row.fabric == "plain" for row in worked) == edge.rounds.got
        else:
            assert fabrics == [NEEDLE[edge.finish]]
        if section.rows[-1].feature is Feature.BIND_OFF:
            assert section.rows[-1].bind_off == edge.bind_off
            assert codes(section.rows[-1])[0] == ("sew" if edge.finish == "folded" else "BO")


def around(bands: Sequence[ChartedBand]) -> tuple[set[int], set[int]]:
    """The rounds of bands, and those beside them that go to their count and back."""
    shapes = [band.shape for band in bands]
    within = {n for shape in shapes for n in range(shape.first, shape.last + 1)}
    other = [band for band in bands if band.shape.start.got != band.around]
    beside = {band.shape.first - 1 for band in other}
    beside |= {band.shape.last + 1 for band in other if not band.goes_on}
    return within, beside


def round_rows(plan: Plan, body: BodyShape) -> list[tuple[int, WorkedRow]]:
    """The rows of the body with the round that each one carries out or is part of."""
    place = {body.row(number): number for number in range(1, body.rounds.got + 1)}
    found: list[tuple[int, WorkedRow]] = []
    number = body.rounds.got
    for row in reversed(rows(plan, "body")):
        number = place.get(row.number, number)
        found.append((number, row))
    return found[::-1]


def test_the_body_has_the_counts_and_the_rounds_of_its_shape(kind: str) -> None:
    plan = made(kind)
    body, start = plan.shape.body, plan.shape.split.body.got
    within, beside = around(body.bands)
    shaped = {change.number for change in body.changes}
    darts = {dart.number for dart in body.darts}
    count = start
    assert round_rows(plan, body)[-1][0] == body.rounds.got
    for number, row in round_rows(plan, body):
        feature = row.row.feature
        assert (feature is Feature.SHAPE) == (number in shaped)
        assert (feature is Feature.SHORT_ROW) == (number in darts)
        assert (feature is Feature.CLOSE_GAPS) == (number - 1 in darts)
        assert (feature is Feature.BAND) == (number in within)
        last = number == body.rounds.got
        assert feature is not Feature.ADJUST or number in beside or last
        assert number not in beside or feature is Feature.ADJUST
        count = start + sum(c.added for c in body.changes if c.number <= number)
        if not (within | beside) & {number}:
            assert row.after == (body.hem_stitches if last else count)
        if number in within:
            assert row.after in {band.shape.start.got for band in body.bands}
    assert rows(plan, "body")[-1].after == body.hem_stitches


def test_the_sleeve_has_the_counts_and_the_rounds_of_its_shape(kind: str) -> None:
    plan = made(kind)
    sleeve, split = plan.shape.sleeve, plan.shape.split
    within, beside = around(sleeve.bands)
    worked = rows(plan, "sleeve")
    assert len(worked) == sleeve.rounds.got
    assert worked[0].after == split.sleeve.got + 2  # derived: one more at each of two corners
    for row in worked[1:]:
        number, feature = row.number, row.row.feature
        last = number == sleeve.rounds.got
        assert (feature is Feature.SHAPE) == (number in sleeve.decreases)
        assert (feature is Feature.BAND) == (number in within)
        assert feature is not Feature.ADJUST or number in beside or last
        tapered = split.sleeve.got - 2 * sum(n <= number for n in sleeve.decreases)
        if not (within | beside) & {number}:
            assert row.after == (sleeve.edge.got if last else tapered)
        if number in beside and number + 1 not in within and not last:
            assert row.after == tapered
    assert worked[-1].after == sleeve.edge.got


def test_stitches_that_a_chart_does_not_ask_for_change_evenly(kind: str) -> None:
    """Gaps between the changes of a round differ by at most one, in either half of the body."""
    plan = made(kind)
    for row in plan.rows:
        spread = row.row.feature is Feature.ADJUST and row.section.key != "neckband"
        spread |= row.row.feature is Feature.INCREASE and "sm" not in codes(row.row)
        if not spread:
            continue
        assert row.row.kind is RowKind.ROUND
        for half in halves(codes(row.row)):
            gaps = [len(gap) for gap in between(half)]
            assert not gaps or max(gaps) - min(gaps) <= 1, row.row.why


def test_increases_do_not_stand_over_those_of_the_round_before(kind: str) -> None:
    """At the ends of equal groups in one round, in their middles in the next."""
    plan = made(kind)
    for row in plan.rows:
        stitches, added = codes(row.row), net(row.row.steps)
        if row.row.feature is not Feature.INCREASE or "sm" in stitches or row.before % added:
            continue
        group = row.before // added
        (number,) = re.findall(r"increase round (\d+)", row.row.why)
        # derived: the larger half of a group goes first
        assert stitches.index("M1L") == ((group + 1) // 2 if int(number) % 2 == 0 else group)


def test_rows_are_turned_as_the_knitter_chose(kind: str) -> None:
    plan = made(kind)
    turns = ({"turn", "DS", "k DS"}, {"w&t", "k wrap"})
    wrapped = plan.project.garment.neck.short_rows == "wrapped"
    found = {code for row in plan.rows for code in codes(row.row)}
    assert not found & turns[not wrapped]


def test_nothing_is_repeated_once(kind: str) -> None:
    for row in made(kind).rows:
        assert 1 not in {repeat.times for repeat in repeats(row.row.steps)}


def repeats(steps: Sequence[Step]) -> Iterator[Repeat]:
    """The repeats of a row, and those within them."""
    for step in steps:
        if isinstance(step, Repeat):
            yield step
            yield from repeats(step.steps)


def halves(stitches: list[str]) -> Iterator[list[str]]:
    """A round cut at its marker."""
    for marker, run in groupby(stitches, key=lambda code: code in ("sm", "rm")):
        if not marker:
            yield list(run)


def between(stitches: list[str]) -> Iterator[list[str]]:
    """The plain stitches between the changes, those round BOR together."""
    changes = [at for at, code in enumerate(stitches) if code != "k"]
    for early, late in pairwise(changes):
        yield stitches[early + 1 : late]
    if changes:
        yield stitches[changes[-1] + 1 :] + stitches[: changes[0]]


MIRROR = {
    "M1L": "M1R",
    "M1R": "M1L",
    "M1LP": "M1RP",
    "M1RP": "M1LP",
    "ssk": "k2tog",
    "k2tog": "ssk",
}


def mirrored(stitches: Sequence[str]) -> list[str]:
    return [MIRROR.get(code, code) for code in reversed(stitches)]


def test_both_sides_of_the_wearer_are_alike(kind: str) -> None:
    """Read from the other end, with every lean the other way, the shaping is the same."""
    plan = made(kind)
    for row in plan.rows:
        stitches = codes(row.row)
        feature = row.row.feature
        if feature is Feature.SHAPE:
            assert all(half == mirrored(half) for half in halves(stitches)), row.row.why
        elif feature is Feature.CORNERS:
            # An odd underarm leaves its odd stitch on one side.
            ones = [code for code in stitches if code != "k"]
            assert ones == ["k2tog", "ssk"]
            first, last = stitches.index("k2tog"), stitches[::-1].index("ssk")
            assert 0 <= first - last <= 1
        elif feature is Feature.INCREASE and "sm" in stitches and stitches[-1] != "CO":
            made_here = [code for code in stitches if code not in ("k", "p")]
            assert made_here == mirrored(made_here)


def test_the_increases_of_a_raglan_stand_beside_the_line(kind: str) -> None:
    """On either side of every marker lies its share of the line, and then the increase."""
    plan = made(kind)
    yoke = plan.shape.yoke
    if not isinstance(yoke, RaglanShape):
        return
    increases = {"lifted": ("M1R", "M1L"), "yarn over": ("yo", "yo")}.get(
        yoke.line.increase, ("kfb", "kfb")
    )
    for row in plan.rows:
        if row.section.key != "yoke" or row.row.feature is not Feature.INCREASE:
            continue
        number = row.number + plan.shape.flat_rows
        at_back, right, at_front, left, rest = pieces(codes(row.row))
        assert right == left
        grows = {name: number in piece.rounds for name, piece in named(yoke).items()}
        named_pieces = row.row.why.rpartition(": ")[2]
        wanted = " and ".join(name for name, does in grows.items() if does)
        assert named_pieces == ("all pieces" if all(grows.values()) else wanted)
        for piece, share, does in (
            (rest + at_back, yoke.body_share, grows["back"]),
            (at_front, yoke.body_share, grows["front"]),
            (right, yoke.sleeve_share, grows["sleeves"]),
        ):
            others = [(at, code) for at, code in enumerate(piece) if code != "k"]
            if "CO" in piece:
                assert piece == ["CO", "CO"]
                continue
            ends = [(share, increases[1]), (len(piece) - 1 - share, increases[0])]
            assert others == (ends if does else []), row.row.why


def pieces(stitches: list[str]) -> list[list[str]]:
    found: list[list[str]] = [[]]
    for code in stitches:
        if code == "sm":
            found.append([])
        else:
            found[-1].append(code)
    return found


def named(yoke: RaglanShape) -> dict[str, RaglanPiece]:
    return {"back": yoke.back, "front": yoke.front, "sleeves": yoke.sleeve}


def test_reasons_tell_what_happens(kind: str) -> None:
    plan = made(kind)
    shape = plan.shape
    for row in plan.rows:
        why, grown = row.row.why, net(row.row.steps)
        if row.row.feature is Feature.SHAPE and row.section.key == "body":
            front, back = (net(tuple(Op(c) for c in half)) for half in halves(codes(row.row)))
            where = "the sides" if front and back else "the front" if front else "the back"
            does = "widens" if grown > 0 else "narrows"
            assert why in (f"{does} {where}", "makes room in the front"), why
            assert ("room" not in why) or (front > 0 and not back)
        if row.row.feature is Feature.SHAPE and row.section.key == "sleeve":
            assert "tapers" in why
        if row.row.feature is Feature.ADJUST and row.section.key in ("body", "sleeve"):
            to = {"body": "hem", "sleeve": "cuff"}[row.section.key]
            nothing = "marker" if grown == 0 else to
            assert nothing in why or "band's count" in why
    told = [re.match(r"increase (?:round|row) (\d+) of (\d+)", row.row.why) for row in plan.rows]
    numbers = [(int(one[1]), int(one[2])) for one in told if one]
    rounds = len(shape.yoke.increase_rounds)
    assert numbers == [(n, rounds) for n in range(1, rounds + 1)]
    if shape.front is not None:
        edges = [row for row in plan.rows if "neck edges" in row.row.why]
        # derived: row 1 casts on
        assert [row.number - 1 for row in edges] == list(shape.front.increases)
        said = [re.search(r"both neck edges, (\d+) of (\d+)", row.row.why) for row in edges]
        of = len(shape.front.increases)
        assert [(int(one[1]), int(one[2])) for one in said if one] == [
            (n, of) for n in range(1, of + 1)
        ]
        joins = [row.row.why for row in plan.rows if row.row.feature is Feature.JOIN]
        assert "joins the fronts" in joins[0]
        assert "BOR" in joins[1]
