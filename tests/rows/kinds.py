"""A few sweaters of every kind there is, planned anew whenever they are asked for.

Few, so that every small change of the program can be tried on all of them
(`tests.mutation`); anew, so that a change shows.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tests.raglan.raglans import raglan
from tests.sweaters import Sections, edited, planned, sized
from yokefellow.plan import Plan

COLOUR = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 10}
LONG_FRONT = {"front_length": "48 cm", "back_length": "43 cm"}
ROUND_BACK = {"front_length": "40 cm", "back_length": "48 cm"}
FULL_BUST = {"chest": "112 cm", "high_chest": "100 cm"}

HEM_AND_6_CM = [{"chart": "beads", "at": "6 cm"}, {"chart": "tide-lines", "at": "hem"}]


def edges(**choices: object) -> dict[str, Any]:
    """The same choices for all three edges."""
    return {
        f"garment__{place}__{name}": value
        for place in ("neck", "body", "sleeves")
        for name, value in choices.items()
    }


def front(style: str, **changes: Any) -> Sections:
    return raglan(garment__neck__front=style, **changes)


def coloured(sections: Sections, **changes: Any) -> Sections:
    return edited(sections, yarn__CC1=COLOUR, yarn__CC2=COLOUR, **changes)


def darted(body: dict[str, str], turned: str, **changes: Any) -> Sections:
    return sized("women", "L", body=body, garment__neck__short_rows=turned, **changes)


KINDS: Mapping[str, Sections] = {
    "plain": sized("babies", "6"),
    "few": sized(
        "children", "4", garment__yoke__increases="few", garment__neck__short_rows="wrapped"
    ),
    "picot": sized(**edges(finish="folded", turning="picot"), garment__body__shape="a-line"),
    "folded": sized("children", "6", **edges(finish="folded", turning="purl")),
    "garter": sized("children", "8", **edges(finish="garter"), garment__body__shape="waist"),
    "rolled": sized("babies", "12", **edges(finish="rolled"), garment__neck__back_raise="none"),
    "provisional": sized("women", "S", **edges(rib="2x2"), garment__neck__cast_on="provisional"),
    "provisional, twisted": sized(
        "babies", "18", **edges(rib="twisted"), garment__neck__cast_on="provisional"
    ),
    "gathered": sized("men", "S", garment__body__gather=20, garment__work_order="sleeves first"),
    "by percentage": sized("women", "L", garment__yoke__proportions="percentage 1971"),
    "raglan": raglan("babies", "6"),
    "raglan, wrapped": raglan(
        garment__neck__short_rows="wrapped", garment__yoke__line_increase="yarn over"
    ),
    "raglan, no line": raglan(
        garment__yoke__line_width=0, garment__yoke__line_increase="front and back"
    ),
    "raglan, wide line": raglan(
        garment__yoke__line_width=5,
        garment__yoke__line_increase="front and back",
        garment__neck__back_raise="none",
    ),
    "raglan by percentage": raglan(
        size="L", stitches_per_cm=1.9, garment__yoke__proportions="percentage 1989"
    ),
    "full bust": raglan(body=FULL_BUST, garment__body__shape="waist"),
    "scooped": front("scooped", **edges(rib="2x2")),
    "scooped, steep": front(
        "scooped", body__chest="150 cm", body__upper_arm="50 cm", garment__yoke__depth="22 cm"
    ),
    "scooped, slow": front("scooped", garment__yoke__depth="34 cm", garment__neck__drop="10 cm"),
    "scooped, slower": front("scooped", garment__yoke__depth="40 cm", garment__neck__drop="10 cm"),
    "V": front("V", **edges(rib="1x1")),
    "V, 2x2": front("V", garment__neck__rib="2x2", garment__yoke__line_increase="yarn over"),
    "V, garter": front("V", garment__neck__finish="garter"),
    "V, rolled": front("V", garment__neck__finish="rolled", garment__yoke__line_width=4),
    "V, kfb": front(
        "V", garment__neck__rib="twisted", garment__yoke__line_increase="front and back"
    ),
    "dart": darted(LONG_FRONT, "german"),
    "dart, wrapped": darted(LONG_FRONT, "wrapped", garment__body__shape="a-line"),
    "back dart": darted(ROUND_BACK, "german", garment__body__shape="waist"),
    "back dart, wrapped": darted(ROUND_BACK, "wrapped"),
    "yoke bands": coloured(
        sized(), garment__yoke__bands=[{"chart": "beads"}, {"chart": "buds"}, {"chart": "pebbles"}]
    ),
    "raglan bands": coloured(
        raglan(), garment__yoke__bands=[{"chart": "beads"}, {"chart": "low-wall"}]
    ),
    "piece bands": coloured(
        sized(garment__body__shape="a-line"),
        garment__body__bands=HEM_AND_6_CM,
        garment__sleeves__bands=[*HEM_AND_6_CM[:1], {"chart": "tide-lines", "at": "cuff"}],
    ),
    "piece bands, other counts": coloured(
        sized("women", "M"),
        garment__body__bands=[
            {"chart": "low-wall", "at": "8 cm"},
            {"chart": "winding-path", "at": "hem"},
        ],
        garment__sleeves__bands=[{"chart": "winding-path", "at": "cuff"}],
    ),
    "piece bands, to the edge": coloured(
        sized("women", "2X", garment__body__shape="a-line"),
        garment__body__bands=[{"chart": "diamonds", "at": "hem"}],
    ),
    "piece bands, folded": coloured(
        sized("women", "2X", **edges(finish="folded", turning="picot")),
        garment__body__bands=[{"chart": "low-wall", "at": "hem"}],
        garment__sleeves__bands=[{"chart": "low-wall", "at": "6 cm"}],
    ),
}


def made(kind: str) -> Plan:
    """Plan the sweater of a kind."""
    return planned(edited(KINDS[kind], title=kind))
