"""The sweaters the tests of the sheet look at; each is planned once."""

from __future__ import annotations

from functools import cache

from tests.sweaters import planned, planned_or_refused, sized, written
from yokefellow.plan import Plan

HOSTILE = "</script><img src=x onerror=alert(1)> {{7*7}} {% raw %} \"' & <b>"


@cache
def small() -> Plan:
    """A baby's sweater: short to print."""
    return planned(sized("babies", "12", stitches_per_cm=2.0))


@cache
def inches() -> Plan:
    """A woman's sweater in inches and large print, short sleeves, wrapped short rows."""
    return planned(
        sized(
            stitches_per_cm=2.2,
            unit="in",
            sheet={"units": "in", "paper": "Letter", "large_print": True},
            garment={
                "sleeves": {"length": "elbow"},
                "neck": {"short_rows": "wrapped"},
                "body": {"shape": "waist"},
            },
        )
    )


@cache
def banded() -> Plan:
    """Two colour bands: one stranded, one worked with one yarn at a time."""
    ball = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 8}
    bands = [{"chart": "diamonds"}, {"chart": "tide-lines"}]
    return planned(sized(yarn={"MC": ball, "CC1": ball}, garment__yoke__bands=bands))


@cache
def hostile() -> Plan:
    """Whoever wrote this project file wants to see something happen."""
    return planned(
        sized(
            "babies",
            "12",
            title=HOSTILE[:80],
            wearer__name=HOSTILE[:80],
            yarn__MC__name=HOSTILE[:80],
            yarn__MC__colour="<style>*{display:none}</style>",
            yarn__MC__fibre="javascript:alert(1)",
        )
    )


_BALL = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 12}


@cache
def meadow() -> Plan:
    """Bands of five kinds: growing, slipped, purled, broad; a colour with a hostile name."""
    grows = (".#..", "###.", "..#...", ".###..", "##.##.", "........", "...##...", "..####..")
    broad = ("#.." * 8, "..oo" * 6, "..#" * 8)
    legend = {".": "MC", "#": "CC1", "o": "CC2"}
    return planned(
        sized(
            stitches_per_cm=2.6,
            yarn={
                "MC": {**_BALL, "colour": "oat"},
                "CC1": {**_BALL, "colour": "moss"},
                "CC2": {**_BALL, "colour": HOSTILE[:80]},
            },
            charts={
                "leaf": {
                    "kind": "stranded", "colours": legend, "grows": True, "rows": "\n".join(grows)
                },
                "broad": {"kind": "stranded", "colours": legend, "rows": "\n".join(broad)},
            },
            garment__yoke__bands=[
                {"chart": name} for name in ("drizzle", "leaf", "fence", "pebbles", "broad")
            ],
        )
    )  # fmt: skip


@cache
def tall() -> Plan:
    """One band that is taller than a page, in large print."""
    rows = [("#." if row % 2 else ".#") * 4 for row in range(48)]
    chart = {"kind": "stranded", "colours": {".": "MC", "#": "CC1"}, "rows": "\n".join(rows)}
    return planned(
        sized(
            stitches_per_cm=2.8,
            yarn={"MC": _BALL, "CC1": _BALL},
            sheet={"large_print": True, "paper": "Letter"},
            charts={"check": chart},
            garment__yoke__bands=[{"chart": "check"}],
        )
    )


_NAMED = {
    "small": small,
    "inches": inches,
    "banded": banded,
    "meadow": meadow,
    "tall": tall,
}
NAMES = (*_NAMED, *(f"random {number}" for number in range(8)))


@cache
def named(name: str) -> Plan:
    """One of the above, or the first of its own ten random seeds that can be planned."""
    if not name.startswith("random"):
        return _NAMED[name]()
    first = 500 + 10 * int(name.removeprefix("random "))
    tries = (planned_or_refused(written(seed)) for seed in range(first, first + 10))
    return next(plan for plan in tries if plan is not None)
