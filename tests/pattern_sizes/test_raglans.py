"""The numbers of a raglan that somebody else wrote, followed at another gauge."""

from __future__ import annotations

import json
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.knitter import knit_page
from tests.raglan.raglans import SECOND, pieces_of, raglan, refused, yoke_of
from tests.sweaters import Sections, edited, planned, project, swatch
from yokefellow.pattern_sizes.follow import moved_along, stretches
from yokefellow.plan import Plan, sizes_of
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.text import render_text

# published: Zimmermann, Knitting Without Tears, 1971 (as retold), K = 200: front and back 84 and
# sleeves 50 at the split, two decreased at each of four lines in every 2nd of 50 rounds; read from
# the top, 68 of the neck (34, 34 and nothing of the sleeves) become 268.
BY_PERCENTAGE: Sections = {
    "size": "40 in",
    "cast_on": 68,
    "increases": list(range(76, 269, 8)),
    "increase_at": list(range(2, 51, 2)),
    "yoke_rounds": 50,
    "body": 200,
    "sleeve": 66,
    "underarm": 16,
}
GAUGE = {"stitches": ["20 over 4 in"], "rounds": ["28 over 4 in"]}

# derived: a compound raglan of our own: all pieces every 2nd round 14 times, then back and front
# every 4th round 5 times. Back and front 38 + 2 * 19, each sleeve 10 + 2 * 14.
COMPOUND: Sections = {
    "size": "M",
    "cast_on": 96,
    "increases": [*range(104, 209, 8), *range(212, 229, 4)],
    "increase_at": [*range(2, 29, 2), *range(32, 49, 4)],
    "yoke_rounds": 52,
    "front": 76,
    "back": 76,
    "held": 38,
    "underarm": 12,
}


def with_pattern(*sizes: Sections, gauge: Sections = GAUGE, **changes: object) -> Sections:
    base = raglan(stitches_per_cm=2.0)
    return edited({**base, "pattern": {**gauge, "sizes": list(sizes)}}, **changes)


def without(size: Sections, *names: str) -> Sections:
    return {name: value for name, value in size.items() if name not in names}


def steps(made: Plan) -> tuple[list[int], list[int]]:
    rounds = made.shape.yoke.increase_rounds
    return [one.number for one in rounds], [one.after for one in rounds]


# published: see BY_PERCENTAGE
@pytest.mark.parametrize(("per_cm", "rows"), [(1.75, 2.3), (20 / 10.16, 28 / 10.16), (2.4, 3.5)])
def test_the_percentage_raglan_comes_out_at_another_gauge(per_cm: float, rows: float) -> None:
    made = planned(
        with_pattern(BY_PERCENTAGE, swatch__plain__washed=swatch(per_cm, rounds_per_cm=rows))
    )
    yoke, split = yoke_of(made), made.shape.split
    assert split.body.cm == pytest.approx(200 / per_cm, rel=1e-3)
    assert (split.yoke, split.sleeve.got, split.underarm.got) == (268, 66, 16)
    assert [piece.start for piece in pieces_of(yoke)] == [34, 34, 0]
    assert [piece.stitches_at(yoke.rounds.got) for piece in pieces_of(yoke)] == [84, 84, 50]
    assert steps(made)[1] == BY_PERCENTAGE["increases"]
    assert len(steps(made)[0]) == 25
    assert made.followed is not None
    assert made.followed.size.chest_cm == pytest.approx(200 / per_cm, rel=1e-3)
    knitted = knit_page(render_html(made))
    assert (knitted.held, knitted.underarms) == ((50, 50), (16, 16))


# published: see BY_PERCENTAGE
def test_at_its_own_gauge_and_depth_the_rounds_are_the_patterns() -> None:
    own = swatch(20 / 10.16, rounds_per_cm=28 / 10.16)
    made = planned(with_pattern(BY_PERCENTAGE, swatch__plain__washed=own, pattern__depth="pattern"))
    assert steps(made) == (BY_PERCENTAGE["increase_at"], BY_PERCENTAGE["increases"])
    assert made.shape.yoke.rounds.got == 50
    page = " ".join(render_text(made).split())
    assert "Before each of its increase rounds knit as many rounds as your pattern does" in page
    assert "The split comes right after the last of them, on 268 stitches." in page


# derived: ratio of the row gauges
@pytest.mark.parametrize("per_in", [6.0, 7.0, 8.0, 9.0])
def test_increase_rounds_stay_as_deep_as_the_pattern_has_them(per_in: float) -> None:
    washed = swatch(2.0, rounds_per_cm=per_in / 2.54)
    made = planned(
        with_pattern(BY_PERCENTAGE, swatch__plain__washed=washed, garment__yoke__depth="22 cm")
    )
    ours, theirs = steps(made)[0], BY_PERCENTAGE["increase_at"]
    assert (
        max(abs(mine / per_in - printed / 7) for mine, printed in zip(ours, theirs, strict=True))
        <= 0.5 / per_in + 1e-9
    )


# derived: see COMPOUND
def test_a_compound_raglan_is_told_apart_into_its_pieces() -> None:
    made = planned(with_pattern(COMPOUND, garment__yoke__depth="26 cm"))
    yoke, split = yoke_of(made), made.shape.split
    assert (split.front, split.back, split.held, split.body.got) == (76, 76, 38, 176)
    assert [piece.start for piece in pieces_of(yoke)] == [38, 38, 10]
    assert [len(piece.rounds) for piece in pieces_of(yoke)] == [19, 19, 14]
    assert yoke.sleeve.rounds == yoke.back.rounds[:14]
    shares = {"neck_back": 38, "neck_front": 38, "neck_sleeve": 10}
    typed = planned(with_pattern({**COMPOUND, **shares}, garment__yoke__depth="26 cm"))
    assert typed.shape == made.shape


def test_the_pieces_at_the_split_say_the_same_as_body_and_sleeve() -> None:
    pieces = {**without(BY_PERCENTAGE, "body", "sleeve"), "front": 84, "back": 84, "held": 50}
    whole = planned(with_pattern(BY_PERCENTAGE))
    assert planned(with_pattern(pieces)).shape == whole.shape
    # derived: 200 - 84 - 84 and 66 - 50 are 32 and 16, two underarms and one
    for lacking in (
        {**pieces, "body": 200, "underarm": None},
        {**without(pieces, "front", "back"), "sleeve": 66, "body": 200, "underarm": None},
    ):
        typed = {name: value for name, value in lacking.items() if value is not None}
        assert planned(with_pattern(typed)).shape.split.underarm.got == 16


def test_the_size_whose_chest_comes_nearest_is_followed() -> None:
    smaller = {
        "size": "36 in",
        "cast_on": 68,
        "increases": list(range(76, 245, 8)),
        "body": 180,
        "underarm": 14,
    }
    for per_cm in (1.7, 1.9, 2.1):
        sections = with_pattern(smaller, BY_PERCENTAGE, swatch__plain__washed=swatch(per_cm))
        followed = sizes_of(project(sections))
        wanted_cm = followed.size.chest_cm - followed.size.off_cm
        by_hand = min((180, 200), key=lambda body: abs(body / per_cm - wanted_cm))
        assert followed.size.counts.body == by_hand
        knit_page(render_html(planned(sections)))


@given(
    st.lists(st.integers(1, 6), min_size=1, max_size=40),
    st.floats(0.5, 1.8),
    st.integers(0, 20),
    st.integers(0, 60),
)
def test_moved_rounds_keep_their_order_and_lie_in_the_yoke(
    gaps: list[int], ratio: float, below: int, more: int
) -> None:
    at = [sum(gaps[: end + 1]) for end in range(len(gaps))]
    rounds = len(at) + 1 + more
    for printed in (at[-1] + below, None):
        found = moved_along(at, ratio=ratio, printed=printed, rounds=rounds)
        assert len(found) == len(at)
        assert all(early < late for early, late in pairwise(found))
        assert found[0] >= 2
        assert found[-1] <= rounds


# derived: each takes something away that the rest, or our own choice, replaces
@pytest.mark.parametrize(
    "left_out",
    [
        ("increase_at",),
        ("increases",),
        ("increases", "increase_at"),
        ("yoke_rounds",),
        ("cast_on",),
        ("sleeve",),
        ("body", "sleeve"),
        ("cast_on", "sleeve", "increase_at", "underarm"),
    ],
)
def test_what_a_raglan_does_not_print_is_filled_in(left_out: tuple[str, ...]) -> None:
    typed = without(BY_PERCENTAGE, *left_out)
    chest = {"chest": "40 in"} if "body" in left_out else {}
    made = planned(with_pattern({**typed, **chest}))
    at, counts = steps(made)
    assert typed.get("increases", counts) == counts
    if "increase_at" in typed:
        assert len(at) == 25
    if "body" in typed:
        assert made.shape.split.body.got == 200
    assert knit_page(render_html(made)).held == (made.shape.split.held,) * 2


def test_without_a_row_gauge_the_rounds_keep_their_share_of_the_depth() -> None:
    lacking = {"stitches": GAUGE["stitches"]}
    made = planned(with_pattern(BY_PERCENTAGE, gauge=lacking, garment__yoke__depth="24 cm"))
    assert "pattern.no-row-gauge" in {one.code for one in made.findings}
    assert steps(made)[0][-1] == made.shape.yoke.rounds.got  # derived: round 50 of 50 is the last


def test_every_format_tells_what_becomes_of_the_rounds() -> None:
    made = planned(with_pattern(COMPOUND, garment__yoke__depth="15 cm"))
    assert made.followed is not None
    found = stretches(made.followed, made.shape)
    assert sum(one.last - one.first + 1 for one in found) == made.shape.yoke.rounds.got
    document = json.loads(render_json(made))
    yoke = next(section for section in document["sections"] if section["key"] == "yoke")
    notes = [item["text"] for item in yoke["items"] if item["is"] == "pattern"]
    counts = COMPOUND["increases"]
    for number, count in enumerate(counts, start=1):
        assert any(f"increase round {number} (its round" in note and f"{count} st" in note
                   for note in notes)  # fmt: skip
    fewer = [one for one in found if one.increase and one.more < 0]
    assert fewer
    assert sum(note.startswith("Leave out") for note in notes) == len(fewer)
    for page in (render_text(made), render_html(made)):
        assert "Leave out 1 plain round before its increase rounds" in " ".join(page.split())


def test_plain_rounds_left_out_after_the_last_increase_are_told() -> None:
    size = {**BY_PERCENTAGE, "yoke_rounds": 51}
    made = planned(with_pattern(size, garment__yoke__depth="9.7 cm"))
    assert made.shape.yoke.last_increase == made.shape.yoke.rounds.got
    page = " ".join(render_text(made).split())
    assert "after the last of them, without the 1 plain round of your pattern" in page


def test_bands_lie_below_the_increases_or_are_refused_with_the_round() -> None:
    band: Sections = {"garment__yoke__bands": [{"chart": "beads"}], "yarn__CC1": dict(SECOND)}
    found = refused(with_pattern(BY_PERCENTAGE, **band))
    assert found.code == "fixed.bands"
    assert "above the colour bands" in found.message
    early = {**BY_PERCENTAGE, "increase_at": list(range(2, 27)), "yoke_rounds": 50}
    made = planned(with_pattern(early, **band))
    assert made.shape.yoke.bands
    assert made.shape.yoke.last_increase < made.shape.yoke.bands[0].first - 1


def test_a_yoke_with_too_few_rounds_is_refused_with_what_to_write() -> None:
    shallow = with_pattern(BY_PERCENTAGE, garment__yoke__depth="8 cm")
    found = refused(shallow)
    assert (found.code, found.field) == ("pattern.crowded", "pattern.depth")
    assert 'depth = "pattern"' in found.remedy
    planned(edited(shallow, pattern__depth="pattern"))


def test_a_pin_of_ones_own_that_contradicts_the_raglan_is_refused() -> None:
    found = refused(with_pattern(BY_PERCENTAGE, fixed={"neck": 66}))
    assert found.code == "raglan.gain"
    assert "Your own pins (neck) stand over size 40 in" in found.message
    found = refused(with_pattern({**COMPOUND, "neck_sleeve": 10}, fixed={"neck_sleeve": 12}))
    assert found.code == "raglan.sleeve-rounds"
    assert "Your own pins (neck_sleeve) stand over size M" in found.message


def test_contradictions_name_their_size_and_what_agrees() -> None:
    wrong = with_pattern({**BY_PERCENTAGE, "neck_back": 30, "neck_front": 30, "neck_sleeve": 4})
    found = refused(wrong)
    assert (found.code, found.field) == ("raglan.sleeve-rounds", "pattern.sizes[1].neck_sleeve")
    assert found.message.startswith("Size 40 in: ")
    assert "neck_sleeve = 0; sleeve = 70" in found.remedy
