"""The yarn of a stitch beside the geometry of plain knitting."""

from __future__ import annotations

from collections.abc import Iterator

from tests.published import published
from tests.published.check import Check
from tests.test_yarn_colours import fabric, knitted_band
from yokefellow.yarn import LOOP_STATES, loop_length_cm
from yokefellow.yarn.count_stitches import spent

LOOPS = published("loops")
WET = LOOP_STATES["wet relaxed"]


def checks() -> Iterator[Check]:
    """The constants, an examination, usual gauges, a square metre, two colours in a round."""
    for name, printed in LOOPS["states"].items():
        state = LOOP_STATES[name]
        yield Check(
            f"{name}: Kc, Kw, Ks",
            (printed["courses"], printed["wales"], printed["density"]),
            (state.courses, state.wales, state.density),
        )
        yield Check(
            f"{name}: courses over wales",
            (LOOPS["ratio"][name],),
            (state.courses / state.wales,),
            within=0.007,
            why=LOOPS["bounds"]["ratio_why"],
        )
    yield from _examination()
    for vector in LOOPS["vector"]:
        loop = _loop(vector, "fully relaxed")
        what = f"loop at {vector['stitches']} × {vector['rounds']} in 10 cm, fully relaxed"
        yield Check(what, (vector["loop_cm"],), (loop,), "cm", 0.005, LOOPS["bounds"]["loop_why"])
    yield from _square_metre()
    yield from _two_colours()


def _loop(vector: dict[str, float], state: str) -> float:
    return loop_length_cm(
        stitches_per_cm=vector["stitches"] / 10, rounds_per_cm=vector["rounds"] / 10, state=state
    )


def _examination() -> Iterator[Check]:
    exam, state = LOOPS["exam"], LOOP_STATES["fully relaxed"]
    courses, wales = state.courses / exam["loop_cm"], state.wales / exam["loop_cm"]
    yield Check(
        "examination: loops in a cm²", (exam["loops_per_cm2"],), (courses * wales,), "per cm²"
    )
    yield Check(
        "examination: the loop back from that density",
        (exam["loop_cm"],),
        (loop_length_cm(stitches_per_cm=wales, rounds_per_cm=courses, state="fully relaxed"),),
        "cm",
    )


def _square_metre() -> Iterator[Check]:
    square, weight = LOOPS["square_metre"], LOOPS["weight"]
    metres = square["stitches"] * square["rounds"] * 100 * _loop(square, "wet relaxed") / 100
    yield Check(
        "a square metre at 22 × 30 in 10 cm, wet relaxed: yarn",
        (square["metres"],),
        (metres,),
        "m",
        5.0,
        LOOPS["bounds"]["metres_why"],
    )
    yield Check(
        "a square metre of 250 tex: weight",
        (weight["grams"],),
        (metres * weight["tex"] / 1000,),
        "g",
        0.1,
        LOOPS["bounds"]["grams_why"],
    )


def _two_colours() -> Iterator[Check]:
    """A round with 7 stitches of 10 in one colour, in a fabric with Munden's own gauge."""
    said, loop_cm, width, repeats = LOOPS["two_colours"], 1.6, 10, 50
    own = round(said["share"] * width)
    band = knitted_band("stranded", "#" * own + "." * (width - own), repeats=repeats)
    metres = spent(band, fabric("stranded", WET.wales / loop_cm, WET.courses / loop_cm))
    plain_m = width * repeats * loop_cm / 100
    shares = tuple(metres[yarn].metres / plain_m for yarn in ("CC1", "MC"))
    yield Check(
        "two colours, 7 to 3: yarn of each and of both over plain",
        (said["own"], said["other"], said["both"]),
        (*shares, sum(shares)),
        within=said["within"],
        why=said["why"],
    )
