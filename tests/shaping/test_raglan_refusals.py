"""What is said of a raglan that cannot be made: the numbers in it, worked out by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.raglan.raglans import raglan
from tests.shaping.parts import task, yoke, zones
from tests.sweaters import planned
from yokefellow.fit import Finished, RaglanFit
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.raglan import RaglanTask
from yokefellow.shaping.raglan_refusals import Asked, bands_crowd, unreached
from yokefellow.shaping.zones import BandTask, Zones

ALL = Fixed(body=200, sleeve=66, underarm=16)
"""Pins that leave the yoke 268 stitches, four times 67."""


@pytest.fixture(scope="module")
def finished() -> Finished:
    return planned(raglan()).finished


def asked(
    finished: Finished,
    *,
    sleeve_top: float = 16.0,
    bands: tuple[BandTask, ...] = (),
    at: Zones | None = None,
    counts: dict[str, object] | None = None,
    **changes: object,
) -> Asked:
    """From a back of 32 stitches and sleeves of 16 to 84 and 50, in 60 rounds and 20 cm."""
    fit = RaglanFit(back_neck_cm=16.0, sleeve_top_cm=sleeve_top / 2, shoulder_at_cm=13.0)
    wanted = RaglanTask(
        counts=yoke(**{"shoulder": 0.0, **(counts or {})}),
        back_neck=32.0,
        line_width=2,
        room=60,
        shoulder_round=40,
    )
    return Asked(
        replace(wanted, **changes),  # type: ignore[arg-type]
        bands,
        at or zones(),
        replace(finished, yoke=replace(finished.yoke, raglan=fit, depth_cm=20.0)),
        "cm",
    )


def who(finished: Finished, **changes: object) -> tuple[str, str]:
    """The code of what is wrong, and the piece."""
    found = unreached(asked(finished, **changes))  # type: ignore[arg-type]
    return found.code.removeprefix("raglan."), "back" if "back" in found.message else "sleeve"


def test_the_piece_that_misses_most_is_named(finished: Finished) -> None:
    # derived: a piece needs a stitch of each of two lines of two, and two between, four. A back of
    # one misses three, which count double; a sleeve from 57 to 50 misses seven, and one of none
    # four, which count double. 26 times where 23 can be miss three, and six stitches.
    short = {"sleeve_top": 57.0}
    assert who(finished, back_neck=1.0, **short) == ("neck-wide", "sleeve")
    assert who(finished, back_neck=0.0, **short) == ("line-wide", "back")
    assert who(finished, back_neck=90.0, sleeve_top=0.0) == ("line-wide", "sleeve")
    assert who(finished, back_neck=93.0, sleeve_top=0.0) == ("neck-wide", "back")
    assert who(finished, room=24, sleeve_top=0.0) == ("line-wide", "sleeve")
    assert who(finished, room=22, sleeve_top=0.0) == ("steep", "back")
    # derived: 26 times where 22 can be are eight stitches, and so are twice four: the first one
    assert who(finished, room=23, sleeve_top=0.0) == ("steep", "back")


def test_a_line_of_three_leaves_its_larger_half_to_the_body(finished: Finished) -> None:
    # derived: twice two stitches and two between; twice one and two
    found = unreached(asked(finished, line_width=3, back_neck=1.0))
    assert "the back begins with 1 stitches there and needs 6." in found.message
    found = unreached(asked(finished, line_width=3, sleeve_top=1.0))
    assert "the sleeve begins with 1 stitches there and needs 4." in found.message


@pytest.mark.parametrize(
    ("width", "pins", "words"),
    [
        # derived: the next narrower line, where the counts can be made with any
        (3, {}, "Write line_width = 2, or a wider neck opening."),
        (2, {}, "Write line_width = 1, or a wider neck opening."),
        # derived: of a line of one the sleeve has none, so it may begin with two
        (3, {"neck_sleeve": 2}, "Write line_width = 1, or a wider neck opening."),
        (3, {"neck_sleeve": 1}, "Write a wider neck opening."),
    ],
)
def test_the_widest_line_is_named_with_which_it_can_be_made(
    finished: Finished, width: int, pins: dict[str, int], words: str
) -> None:
    counts: dict[str, object] = {"fixed": Fixed(**pins)}
    found = unreached(asked(finished, sleeve_top=0.0, line_width=width, counts=counts))
    assert (found.code, found.remedy) == ("raglan.line-wide", words)


def test_a_piece_that_would_have_to_narrow_is_told_its_ease(finished: Finished) -> None:
    # derived: 100 stitches are 50 cm; half of 32 less an underarm of 16 is none
    back = unreached(asked(finished, back_neck=100.0, counts={"body": 32.0}))
    assert (back.code, back.message) == (
        "raglan.neck-wide",
        "In a neck of 48 cm the back begins 50 cm wide, and at the underarm it is only 0 cm: "
        "a raglan can only widen.",
    )
    assert back.remedy == (
        "Choose a smaller neck opening, a narrower underarm, or more ease at the chest."
    )
    sleeve = unreached(asked(finished, sleeve_top=100.0, counts={"sleeve": 16.0}))
    assert sleeve.remedy == (
        "Choose a smaller neck opening, a narrower underarm, or more ease at the upper arm."
    )


def test_the_depth_and_the_underarm_that_help_are_named(finished: Finished) -> None:
    # derived: 26 times and the round before them are 28 of 27 rounds, and of 61 in all, 20.3 cm; an
    # underarm of two stitches more, 18, is 9 cm wide
    found = unreached(asked(finished, room=27))
    assert found.remedy == (
        "Make the yoke at least 20.3 cm deep, or the underarm 9 cm wide; or choose a wider neck "
        "opening or less ease."
    )
    # derived: 28 of 5 rounds, 83 in all; an underarm of 62 stitches is 31 cm
    found = unreached(asked(finished, room=5))
    assert found.remedy == (
        "Make the yoke at least 27.7 cm deep; or choose a wider neck opening or less ease."
    )


def test_an_underarm_is_offered_up_to_the_widest_that_can_be_written(finished: Finished) -> None:
    # derived: 58 stitches and two more are 30 cm; 60 and two are 31
    for underarm, words in ((58, ", or the underarm 30 cm wide;"), (60, "deep;")):
        counts: dict[str, object] = {
            "body": 168.0 + 2 * underarm,
            "sleeve": 50.0 + underarm,
            "underarm": float(underarm),
        }
        found = unreached(asked(finished, room=27, counts=counts))
        assert words in found.remedy


@pytest.mark.parametrize(
    ("repeat", "words"),
    [
        # derived: 268 is twice 134, four times 67, and nothing else but 1 and itself
        (3, " A repeat of 2 or 4 stitches would fit."),
        (6, " A repeat of 2 or 4 stitches would fit."),
        (7, " A repeat of 4 stitches would fit."),
        (63, " A repeat of 67 stitches would fit."),
        (71, " A repeat of 67 stitches would fit."),
        (62, ""),
        (72, ""),
    ],
)
def test_a_repeat_that_fits_is_looked_for_within_four_stitches(
    finished: Finished, repeat: int, words: str
) -> None:
    found = bands_crowd(asked(finished, repeat=repeat, counts={"fixed": ALL}))
    assert found.code == "raglan.band-count"
    assert found.remedy == (f"Choose a chart with another repeat, or more or less ease.{words}")


def test_repeats_that_do_not_go_round_are_told_with_those_that_do(finished: Finished) -> None:
    bands = (task(2), task(4, repeats=30))
    found = bands_crowd(
        asked(finished, repeat=4, pinned=(120,), bands=bands, counts={"fixed": ALL})
    )
    # derived: 30 fours are 120, and 67 fours are 268
    assert (found.code, found.message) == (
        "raglan.band-repeats",
        "30 repeats of 'dots' make 120 stitches; below a raglan's increases the yoke can have "
        "from 268 to 268.",
    )
    assert found.remedy == "Leave out repeats, or write 67."


def test_a_round_that_lacks_below_makes_the_yoke_deeper(finished: Finished) -> None:
    # derived: the increases need 26 and two rounds. A band of 30 with two below it begins in round
    # 29 of 60, and leaves 27 above a plain one; a round more is a third of a cm
    deep = task(2, 30, at_cm=4.0)
    found = bands_crowd(asked(finished, room=11, bands=(deep,), at=zones((deep, 13))))
    assert (found.code, found.remedy) == (
        "raglan.bands-inside",
        'Write at = "spread" and make the yoke at least 20.5 cm deep, or take fewer rounds of '
        "colour.",
    )
    # derived: one round less of colour is the round that lacked: 29 rounds are 9.7 cm
    less = task(2, 29, at_cm=4.0)
    found = bands_crowd(asked(finished, room=11, bands=(less,), at=zones((less, 13))))
    assert found.remedy == 'Write at = "spread", or at least 10 cm.'


def test_a_first_band_may_move_down_to_the_second(finished: Finished) -> None:
    # derived: at 10 cm the first takes rounds 31 to 36; the second is 10.5 cm of plain rounds and
    # six of the first down, and begins in 39, where a first that is spread would still run
    first, second = task(2, at_cm=4.0), task(2, at_cm=12.5)
    placed = zones((first, 13), (second, 39))
    found = bands_crowd(asked(finished, room=11, bands=(first, second), at=placed))
    assert found.remedy == 'Write at = "spread", or at least 10 cm.'
    near = replace(second, at_cm=11.0)
    placed = zones((first, 13), (near, 34))
    found = bands_crowd(asked(finished, room=11, bands=(first, near), at=placed))
    assert found.remedy == 'Write at = "spread".'
