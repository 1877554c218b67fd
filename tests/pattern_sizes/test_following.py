"""A pattern's numbers at another gauge: which size, which rounds, and every count as printed."""

from __future__ import annotations

import json
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.knitter import knit_page
from tests.often import often
from tests.sweaters import Sections, edited, planned, project, sized, swatch
from yokefellow.findings import PlanError, ProjectError, Severity
from yokefellow.pattern_sizes.follow import moved, stretches
from yokefellow.plan import Plan, plan, sizes_of
from yokefellow.project_file.load import load
from yokefellow.shaping.yoke.rules import FULL_LATEST
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.text import render_text

EXAMPLES = Path(__file__).parents[2] / "examples"

# published: Zimmermann, Knitting Without Tears, 1971 (as retold), K = 200: 40 in at 5 stitches
# to the inch; neck 80; 120, 179 and 268 after its three rounds, at the neck, a quarter and half
# of the depth; each sleeve 66, each underarm 16; depth a quarter of the circumference.
KNITTED_UP = {
    "size": "40 in",
    "cast_on": 80,
    "increases": [120, 179, 268],
    "increase_at": [2, 18, 35],
    "yoke_rounds": 70,
    "yoke": 268,
    "body": 200,
    "sleeve": 66,
    "underarm": 16,
}
GAUGE = {"stitches": ["20 over 4 in"], "rounds": ["28 over 4 in"]}

# derived: another size of our own that keeps the equation
SMALLER = {
    "size": "36 in",
    "cast_on": 72,
    "increases": [108, 160, 240],
    "increase_at": [2, 16, 32],
    "yoke_rounds": 63,
    "body": 180,
    "sleeve": 58,
    "underarm": 14,
}


def with_pattern(*sizes: Sections, gauge: Sections = GAUGE, **changes: object) -> Sections:
    base = sized(stitches_per_cm=2.0, garment__neck__back_raise="by size")
    return edited({**base, "pattern": {**gauge, "sizes": list(sizes)}}, **changes)


def codes(made: Plan) -> set[str]:
    return {one.code for one in made.findings}


def refused(sections: Sections) -> list[tuple[str, str, str]]:
    with pytest.raises((PlanError, ProjectError)) as error:
        planned(sections)
    return [
        (one.code, one.field, one.message)
        for one in error.value.findings
        if one.severity is Severity.ERROR
    ]


# published: see KNITTED_UP
@pytest.mark.parametrize("per_cm", [1.75, 1.97, 2.2])
def test_the_percentage_numbers_come_out_at_another_gauge(per_cm: float) -> None:
    sections = with_pattern(KNITTED_UP, swatch__plain__washed=swatch(per_cm))
    made = planned(sections)
    assert made.shape.split.body.cm == pytest.approx(200 / per_cm)
    assert made.shape.split.sleeve.got == 66
    assert made.shape.split.underarm.got == 16
    assert made.shape.split.yoke == 268
    assert made.shape.neck.stitches.got == 80
    assert [step.after for step in made.shape.yoke.increase_rounds] == [120, 179, 268]
    assert made.followed is not None
    assert made.followed.size.chest_cm == pytest.approx(200 / per_cm)
    knitted = knit_page(render_html(made))
    assert knitted.underarms == (16, 16)
    assert knitted.held == (50, 50)  # derived: 66 - 16


def test_the_size_whose_chest_comes_nearest_is_followed() -> None:
    for per_cm in (1.6, 1.7, 1.8, 1.9, 2.0):
        sections = with_pattern(SMALLER, KNITTED_UP, swatch__plain__washed=swatch(per_cm))
        followed = sizes_of(project(sections))
        wanted_cm = followed.size.chest_cm - followed.size.off_cm
        by_hand = min((180, 200), key=lambda body: abs(body / per_cm - wanted_cm))
        assert followed.size.counts.body == by_hand
        named = edited(sections, pattern__follow="36 IN")
        assert sizes_of(project(named)).size.counts.body == 180  # derived: SMALLER


def test_a_yoke_too_shallow_for_the_rounds_of_the_pattern_is_refused() -> None:
    close: Sections = {
        **KNITTED_UP,
        "increases": [88 + 12 * at for at in range(16)],
        "increase_at": [2 + 3 * at for at in range(16)],
        "yoke": 268,
    }
    shallow = with_pattern(close, garment__yoke__depth="9 cm")
    # derived: fifteen times three rounds below round 2; 9 cm are 24.3 rounds at 2.7 to the cm
    assert refused(shallow) == [
        (
            "pattern.crowded",
            "pattern.depth",
            "Size 40 in has 16 increase rounds. Even moved up, the last would be round 47, and a "
            "yoke as deep as this one has 24 rounds at your row gauge.",
        )
    ]
    assert planned(edited(shallow, pattern__depth="pattern")).shape.yoke.last_increase == 47
    # Her own rounds stand over the pattern's, so that those need no room.
    own = [2 + at for at in range(16)]
    assert planned({**shallow, "fixed": {"increase_at": own}}).shape.yoke.last_increase == 17


def test_a_size_that_is_not_the_nearest_is_told() -> None:
    near = with_pattern(SMALLER, KNITTED_UP)
    assert "pattern.size" in codes(planned(near))
    other = "36 in" if sizes_of(project(near)).size.size.size == "40 in" else "40 in"
    told = codes(planned(edited(near, pattern__follow=other)))
    assert "pattern.not-nearest" in told
    assert "pattern.size" not in told
    assert "pattern.far" in codes(planned(with_pattern({"size": "S", "body": 150})))


# derived: ratio of the row gauges
@pytest.mark.parametrize("per_in", [6.0, 7.0, 8.0, 9.0])
def test_the_increase_rounds_stay_as_deep_as_the_pattern_has_them(per_in: float) -> None:
    washed = swatch(2.0, rounds_per_cm=per_in / 2.54)
    made = planned(
        with_pattern(KNITTED_UP, swatch__plain__washed=washed, garment__yoke__depth="25.4 cm")
    )
    assert made.shape.yoke.rounds.got == round(per_in * 10)
    for step, printed in zip(made.shape.yoke.increase_rounds, [2, 18, 35], strict=True):
        if printed > 2:
            assert abs(step.number / per_in - printed / 7) <= 0.5 / per_in + 1e-9


def test_a_yoke_may_keep_the_depth_of_the_pattern() -> None:
    kept = planned(with_pattern(KNITTED_UP, pattern__depth="pattern"))
    rounds = kept.shape.yoke.rounds
    # derived: 70 rounds at 7 to the inch
    assert rounds.got == round(70 * rounds.per_cm / (7 / 2.54))


@given(
    st.lists(st.integers(1, 9), min_size=1, max_size=7),
    st.floats(0.6, 1.6),
    st.integers(0, 40),
    st.integers(30, 140),
)
def test_moved_rounds_keep_their_order_and_leave_room(
    gaps: list[int], ratio: float, below: int, rounds: int
) -> None:
    at = [sum(gaps[: end + 1]) for end in range(len(gaps))]
    found = moved(at, ratio=ratio, printed=at[-1] + below, rounds=rounds)
    assert len(found) == len(at)
    assert all(early < late for early, late in pairwise(found))
    if found[-1] < FULL_LATEST * rounds - 3 * len(at):
        # Where there is room each lies as deep as the pattern has it, or moves for its neighbour.
        off = [abs(ours - theirs * ratio) for ours, theirs in zip(found, at, strict=True)]
        assert max(off) <= 3 * len(at)  # derived: three rounds to each neighbour


def test_stretches_add_up_to_the_yoke_and_say_each_round_that_is_more() -> None:
    made = planned(with_pattern(SMALLER, KNITTED_UP, garment__yoke__depth="23 cm"))
    assert made.followed is not None
    found = stretches(made.followed, made.shape)
    assert sum(one.last - one.first + 1 for one in found) == made.shape.yoke.rounds.got
    printed = made.followed.size.size.yoke_rounds
    assert printed is not None
    assert sum(one.more for one in found) == made.shape.yoke.rounds.got - printed
    page = render_text(made)
    for one in found:
        if one.more:
            assert f"{abs(one.more)} plain round" in page


def test_what_a_size_lacks_is_computed_and_said_to_be() -> None:
    whole = planned(with_pattern(KNITTED_UP))
    for name in ("body", "sleeve", "underarm"):
        lacking = {key: count for key, count in KNITTED_UP.items() if key != name}
        made = planned(with_pattern(lacking))
        assert made.shape.split == whole.shape.split
        told = [one for one in made.findings if one.code == "pattern.computed"]
        assert [one.field for one in told] == [f"pattern.sizes[1].{name}"]
        assert str(KNITTED_UP[name]) in told[0].message


def test_a_size_with_a_body_alone_is_filled_up_like_any_sweater() -> None:
    made = planned(with_pattern({"size": "M", "body": 206}))
    assert made.shape.split.body.got == 206  # derived: as typed
    assert "pattern.free" in codes(made)
    assert knit_page(render_html(made)).held == (made.shape.split.held,) * 2


def test_a_chest_gives_the_body_at_the_gauge_of_the_pattern() -> None:
    made = planned(with_pattern({"size": "M", "chest": "104 cm"}))
    # derived: 104 cm at 20 stitches in 4 in, an even number
    assert made.shape.split.body.got == 2 * round(104 * 20 / 10.16 / 2)


def test_contradictions_of_all_sizes_are_shown_together() -> None:
    wrong = {**KNITTED_UP, "sleeve": 67}
    steep = {**SMALLER, "increases": [108, 100, 240]}
    found = refused(with_pattern(wrong, steep))
    assert ("fixed.equation", "pattern.sizes[1]") in [one[:2] for one in found]
    assert ("fixed.no-growth", "pattern.sizes[2].increases[2]") in [one[:2] for one in found]
    equation = next(one[2] for one in found if one[0] == "fixed.equation")
    assert equation.startswith("Size 40 in: ")
    assert "(200 − 2 × 16) + 2 × (67 − 16) = 270, not 268" in equation


def test_a_sleeve_typed_as_it_is_held_is_recognised() -> None:
    with pytest.raises(PlanError) as error:
        planned(with_pattern({**KNITTED_UP, "sleeve": 50}))
    (found,) = error.value.findings
    assert "then write sleeve = 66" in found.remedy


# derived: each takes one thing away or makes one thing wrong
@pytest.mark.parametrize(("changes", "code"), [
    ({"pattern__rounds": []}, "pattern.no-row-gauge"),
    ({"garment__neck__rib": "2x2", "pattern__sizes": [{**KNITTED_UP, "cast_on": 82}]},
     "pattern.cast-on"),
    ({"fixed": {"neck": 84}}, "pattern.own-pins"),
    ({"garment__neck__opening": "60 cm"}, "pattern.neck"),
])  # fmt: skip
def test_what_is_worth_knowing_is_told(changes: Sections, code: str) -> None:
    assert code in codes(planned(with_pattern(KNITTED_UP, **changes)))
    assert code not in codes(planned(with_pattern(KNITTED_UP, garment__neck__opening="41 cm")))


def test_a_pin_of_ones_own_that_contradicts_the_pattern_is_refused() -> None:
    ((code, _, message),) = refused(with_pattern(KNITTED_UP, fixed={"sleeve": 72}))
    assert code == "fixed.equation"
    assert message.startswith("Your own pins (sleeve) stand over size 40 in of the pattern")


def test_a_project_without_a_pattern_has_none_to_follow() -> None:
    with pytest.raises(PlanError) as error:
        sizes_of(project(sized()))
    assert [one.code for one in error.value.findings] == ["pattern.none"]
    assert "pattern" not in json.loads(render_json(planned(sized())))


def test_every_format_tells_what_is_followed() -> None:
    made = planned(with_pattern(SMALLER, KNITTED_UP, pattern__name="the grey book"))
    document = json.loads(render_json(made))
    assert [line["size"] for line in document["pattern"]["sizes"]] == ["36 in", "40 in"]
    yoke = next(section for section in document["sections"] if section["key"] == "yoke")
    notes = [item["text"] for item in yoke["items"] if item["is"] == "pattern"]
    assert sum("work it as the pattern does" in text for text in notes) == 3  # derived: rounds
    for page in (render_text(made), render_html(made)):
        assert "From your pattern, the grey book" in page
        assert "Follow your pattern to its round" in " ".join(page.split())


def test_a_pattern_whose_places_are_not_typed_says_which_count_each_round_meets() -> None:
    size = {key: value for key, value in KNITTED_UP.items() if key != "increase_at"}
    made = planned(with_pattern(size))
    page = " ".join(render_text(made).split())
    assert "Your pattern's increase round 2: work it as the pattern does, and meet 179" in page
    assert "evenly along the shoulders" in page


@often(30)
@given(
    st.sampled_from([1.5, 1.9, 2.3, 3.0]),
    st.integers(40, 70).map(lambda half: 2 * half),
    st.integers(2, 5),
    st.floats(1.1, 1.6),
    st.sets(st.sampled_from(["increase_at", "yoke_rounds", "sleeve", "underarm", "cast_on"])),
    st.sampled_from(["body", "pattern"]),
)
def test_every_size_that_agrees_can_be_followed_and_knitted(
    per_cm: float, neck: int, times: int, per_row: float, left_out: set[str], depth: str
) -> None:
    counts = [neck + (at + 1) * (neck // 3) for at in range(times)]
    counts[-1] += counts[-1] % 2
    underarm, sleeve = max(2, counts[-1] // 16), counts[-1] // 4
    size: Sections = {
        "size": "M",
        "cast_on": neck,
        "increases": counts,
        "increase_at": [3 + 9 * at for at in range(times)],
        "yoke_rounds": 9 * times + 14,
        "body": counts[-1] - 2 * sleeve + 4 * underarm,
        "sleeve": sleeve,
        "underarm": underarm,
    }
    typed = {name: value for name, value in size.items() if name not in left_out}
    washed = swatch(per_cm, rounds_per_cm=per_row * per_cm)
    made = planned(with_pattern(typed, swatch__plain__washed=washed, pattern__depth=depth))
    steps = made.shape.yoke.increase_rounds
    assert [step.after for step in steps] == counts
    assert made.shape.split.yoke == counts[-1]
    assert made.shape.split.body.got == size["body"] or {"sleeve", "underarm"} & left_out
    if "cast_on" not in left_out:
        assert made.shape.neck.stitches.got == neck
    assert knit_page(render_html(made)).held == (made.shape.split.held,) * 2


def test_the_example_ends_at_the_elbow_and_can_be_knitted() -> None:
    made = plan(load(EXAMPLES / "grandmothers-green.toml"))
    assert made.finished.sleeve.name == "elbow"
    assert made.followed is not None
    assert made.followed.size.size.size != "M"  # thinner yarn, so another size
    assert knit_page(render_html(made)).bound_off == (
        made.shape.body.hem_stitches + 2 * made.shape.sleeve.edge.got
    )


def notes(made: Plan, key: str) -> list[str]:
    """The notes of a section that speak of the pattern."""
    sections = json.loads(render_json(made))["sections"]
    (items,) = [section["items"] for section in sections if section["key"] == key]
    return [item["text"] for item in items if item["is"] == "pattern"]


def test_neckband_short_rows_and_split_say_whose_they_are() -> None:
    made = planned(with_pattern(KNITTED_UP))
    (band,) = notes(made, "neckband")
    assert "meet 80 stitches" in band  # derived: KNITTED_UP
    assert ["leave those out" in text for text in notes(made, "back_neck")] == [True]
    assert notes(made, "split") == ["From here on follow this sheet alone, not your pattern."]
    # How it increases, the pattern says.
    counts = [check.text for check in made.checks if check.kind == "count"]
    assert any("a missed increase" in text for text in counts)
    assert not any("M1L" in text for text in counts)
    level = planned(with_pattern(KNITTED_UP, garment__neck__back_raise="none"))
    assert "back_neck" not in {section.key for section in level.schedule.sections}


def test_what_was_computed_is_not_said_to_be_the_patterns() -> None:
    whole = " ".join(render_text(planned(with_pattern(KNITTED_UP))).split())
    assert "The split is your pattern's: 50 stitches held" in whole  # derived: 66 - 16
    assert "Keep the pattern beside you" in whole
    bare = " ".join(render_text(planned(with_pattern({"size": "M", "body": 200}))).split())
    assert "The split is your pattern's" not in bare
    assert "Keep the pattern beside you" not in bare


def test_a_single_round_that_is_left_out_is_one_of_several() -> None:
    # derived: the pattern's rounds at 7 to the inch, knitted at 6.5
    washed = swatch(2.0, rounds_per_cm=6.5 / 2.54)
    page = " ".join(
        render_text(planned(with_pattern(KNITTED_UP, swatch__plain__washed=washed))).split()
    )
    assert "without 1 of the plain rounds before its increase round" in page
    assert "of the plain round before" not in page
