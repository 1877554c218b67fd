"""The finished garment in cm: ease, lengths, girths, and what is refused."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.published import published
from tests.sweaters import IN, Sections, edited, every_size, project, sized
from yokefellow.body.fill_in import fill
from yokefellow.body.measurements import Figures
from yokefellow.findings import PlanError, Severity
from yokefellow.fit import Finished, fit
from yokefellow.fit.ease import ease_cm
from yokefellow.fit.lengths import arm_cm, body_lengths_cm, sleeve_lengths_cm
from yokefellow.project_file.models import BODY_LENGTHS, SLEEVE_LENGTHS


def figures(sections: Sections) -> Figures:
    return fill(project(sections))[0]


def finished(sections: Sections) -> Finished:
    return fit(project(sections), figures(sections))


def test_a_length_of_ease_is_itself() -> None:
    # derived: as given
    assert ease_cm(-3.5, 90) == -3.5
    assert ease_cm(4.0, 30, arm=True) == 4.0


@pytest.mark.parametrize("arm", [False, True])
def test_a_looser_fit_is_never_smaller(arm: bool) -> None:
    for cm in range(12, 160, 7):
        names = ("very close", "close", "classic", "loose", "oversized")
        eases = [ease_cm(name, cm, arm=arm) for name in names]
        assert eases == sorted(eases)


# common practice, no source: shares of underarm to wrist
SHARES = {"cap": 0.10, "short": 0.30, "three-quarter": 0.75, "bracelet": 0.88, "full": 1.0}


@pytest.mark.parametrize(("name", "share"), SHARES.items())
def test_sleeves_are_shares_of_the_arm(name: str, share: float) -> None:
    body = figures(sized("women", "L"))
    # common practice, no source: SHARES
    assert sleeve_lengths_cm(body)[name] == pytest.approx(share * body.cm("arm_length"))


@pytest.mark.parametrize("group", ["women", "men"])
def test_an_elbow_sleeve_ends_at_the_elbow(group: str) -> None:
    # published: Gordon et al., ANSUR II, 2014; see tests/published/army.toml
    body, share = figures(sized(group)), published("army")[group]["elbow_share"]
    assert sleeve_lengths_cm(body)["elbow"] == pytest.approx(share * body.cm("arm_length"))


# published: Craft Yarn Council, Standard Body Measurements, length table (from memory), inches
@pytest.mark.parametrize(
    ("group", "size", "hip_in", "tunic_in"), [("women", "M", 6, 11), ("children", "8", 2, 6)]
)
def test_bodies_end_below_the_waist(group: str, size: str, hip_in: float, tunic_in: float) -> None:
    lengths = body_lengths_cm(figures(sized(group, size)))
    assert lengths["hip"] - lengths["waist"] == pytest.approx(hip_in * IN)
    assert lengths["tunic"] - lengths["waist"] == pytest.approx(tunic_in * IN)


def test_named_lengths_rise_in_the_order_they_are_listed() -> None:
    for group, size in every_size():
        body = figures(sized(group, size))
        for names, lengths in (
            (SLEEVE_LENGTHS, sleeve_lengths_cm(body)),
            (BODY_LENGTHS, body_lengths_cm(body)),
        ):
            assert all(lengths[one] < lengths[two] for one, two in pairwise(names))
        # common practice, no source: the least that can be knitted
        assert sleeve_lengths_cm(body)["cap"] >= 2
        assert body_lengths_cm(body)["cropped"] >= 4


@given(st.sampled_from(sorted(every_size())), st.floats(0, 1), st.floats(0, 1))
def test_the_arm_lies_between_its_girths_and_narrows_below_the_forearm(
    which: tuple[str, str], one: float, two: float
) -> None:
    body = figures(sized(*which))
    girths = [body.cm(name) for name in ("upper_arm", "elbow", "forearm", "wrist")]
    assert min(girths) - 1e-9 <= arm_cm(body, one) <= max(girths) + 1e-9
    low, high = sorted((one, two))
    if low > 0.6:  # derived: below the forearm, at 0.596 of the arm at most
        assert arm_cm(body, low) >= arm_cm(body, high) - 1e-9
    assert arm_cm(body, 0) == body.cm("upper_arm")
    assert arm_cm(body, 1) == body.cm("wrist")


@given(st.sampled_from(sorted(every_size())), st.integers(25, 400))
def test_a_sleeves_edge_passes_every_part_of_the_arm_below_it(
    which: tuple[str, str], length_mm: int
) -> None:
    length_cm = length_mm / 10
    sections = edited(sized(*which), garment__sleeves__length=f"{length_cm:.1f} cm")
    body, sleeve = figures(sections), finished(sections).sleeve
    share = min(1.0, length_cm / body.cm("arm_length"))
    for step in range(20):
        below = share + (1 - share) * step / 20
        assert sleeve.edge_cm >= min(sleeve.upper_arm_cm, arm_cm(body, below)) - 1e-9


def test_a_shortened_sleeve_is_wider_at_its_edge() -> None:
    edges = [
        finished(sized(garment__sleeves={"length": name})).sleeve.edge_cm for name in SLEEVE_LENGTHS
    ]
    assert edges == sorted(edges, reverse=True)


@pytest.mark.parametrize(
    ("written", "change_cm"), [("shorter by 20 cm", -20), ("longer by 2 in", 2 * IN)]
)
def test_a_changed_length_is_the_unmodified_one_and_the_change(
    written: str, change_cm: float
) -> None:
    # derived: full sleeve or hip length, and the change
    sections = sized(
        "men", "L", garment={"sleeves": {"length": written}, "body": {"length": written}}
    )
    made = finished(sections)
    assert made.sleeve.length_cm == pytest.approx(made.plain_sleeve.length_cm + change_cm)
    assert made.body.length_cm == pytest.approx(made.plain_body.length_cm + change_cm)
    assert made.plain_sleeve.name == "full"


def test_a_quarter_of_the_chest_is_of_the_finished_one() -> None:
    made = finished(sized(garment__yoke__depth="quarter of chest"))
    # published: Zimmermann, Knitting Without Tears, 1971 (retold): 25 % of the circumference
    assert made.yoke.depth_cm == pytest.approx(0.25 * made.body.chest_cm)


@pytest.mark.parametrize("length", [*BODY_LENGTHS, "20 cm"])
def test_a_shaped_body_follows_waist_and_hip(length: str) -> None:
    body = figures(sized())
    choices = {"length": length, "hem": "4 cm"}
    straight, waist, a_line = (
        finished(sized(garment__body=choices | {"shape": shape})).body
        for shape in ("straight", "waist", "a-line")
    )
    assert straight.edge_cm == straight.waist_cm == straight.chest_cm
    assert waist.waist_cm <= waist.chest_cm
    ease = waist.chest_cm - body.cm("chest")
    low, high = sorted((body.cm("waist"), body.cm("hip")))
    assert low <= waist.edge_cm - ease <= high + 1e-9
    # common practice, no source: an A-line is at least 8 % wider than the chest
    assert a_line.edge_cm >= 1.08 * a_line.chest_cm - 1e-9


REFUSED: list[tuple[str, str, str, dict[str, Any]]] = [
    ("neck.over-shoulders", "women", "M", {"garment__neck__opening": "115 cm"}),
    ("sleeve.too-short", "women", "M", {"garment__sleeves__length": "shorter by 80 cm"}),
    ("sleeve.too-short", "women", "M", {"garment__sleeves__length": "shorter by 42 cm"}),
    ("body.too-short", "women", "M", {"garment__body__length": "shorter by 60 cm"}),
    ("body.hem-over-body", "women", "M", {"garment__body": {"length": "10 cm", "hem": "10 cm"}}),
    (
        "sleeve.cuff-over-sleeve",
        "women",
        "M",
        {"garment__sleeves": {"length": "cap", "cuff": "6 cm"}},
    ),
    ("body.waist-over-underarm", "women", "M", {"body__armhole_depth": "45 cm"}),
]


@pytest.mark.parametrize(("code", "group", "size", "changes"), REFUSED)
def test_what_cannot_be_knitted_is_refused_with_field_and_remedy(
    code: str, group: str, size: str, changes: dict[str, Any]
) -> None:
    with pytest.raises(PlanError) as refused:
        finished(sized(group, size, **changes))
    (finding,) = [one for one in refused.value.findings if one.code == code]
    assert finding.severity is Severity.ERROR
    assert finding.field.split(".")[0] in ("garment", "body")
    assert finding.message.endswith(".")
    assert finding.remedy.endswith(".")


def test_all_that_is_wrong_is_told_together() -> None:
    with pytest.raises(PlanError) as refused:
        finished(
            sized(
                garment={
                    "sleeves": {"length": "shorter by 80 cm"},
                    "body": {"length": "shorter by 60 cm"},
                }
            )
        )
    codes = [finding.code for finding in refused.value.findings]
    assert codes == ["body.too-short", "sleeve.too-short"]


def test_the_lengths_just_allowed_are_allowed() -> None:
    for piece, choices in (
        ("sleeves", {"length": "2 cm"}),
        ("body", {"length": "10 cm", "hem": "9 cm"}),
        ("sleeves", {"length": "short", "cuff": "8 cm"}),
    ):
        made = finished(sized(garment={piece: choices}))
        # derived: neither hem nor cuff takes more than half
        assert made.body.hem_cm <= made.body.length_cm / 2
        assert made.sleeve.cuff_cm <= made.sleeve.length_cm / 2


@pytest.mark.parametrize("group", ["women", "men"])
def test_a_v_by_size_is_as_deep_as_vs_are(group: str) -> None:
    for of, size in every_size():
        if of == group:
            neck = {"style": "raglan"}
            sections = sized(of, size, garment={"yoke": neck, "neck": {"front": "V"}})
            asked = project(sections)
            front = fit(asked, fill(asked)[0]).neck.front
            assert front is not None
            # common practice, no source: 6 to 8 in on adults
            assert 6 * IN - 0.6 <= front.drop_cm <= 8 * IN, size


@pytest.mark.parametrize("long", ["cropped", "hip", "9 cm"])
def test_edges_by_length_are_in_proportion_on_every_size(long: str) -> None:
    for group, size in every_size():
        asked = project(sized(group, size, garment__body__length=long))
        made = fit(asked, fill(asked)[0])
        # common practice, no source: a third of a short body at the most
        assert made.body.hem_cm <= 0.351 * made.body.length_cm
        if group in ("babies", "children"):
            # common practice, no source: 3/4 to 1 1/4 in on the small
            for deep in (made.sleeve.cuff_cm, made.neck.band_cm):
                assert 0.75 * IN - 0.1 <= deep <= 1.25 * IN + 0.1, (group, size)
            assert made.body.hem_cm <= 1.25 * IN + 0.1
