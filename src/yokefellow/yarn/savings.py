"""What each length modification saves against the unmodified garment."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from yokefellow.fit import Finished
from yokefellow.rows.build import body_sections, sleeve_sections
from yokefellow.rows.model import Section
from yokefellow.shaping import Shape, Unmodified
from yokefellow.yarn import MAIN, Amount, Rates, counted, less


class Saving(NamedTuple):
    """One modification, and what it saves; below zero when it costs more."""

    what: str
    """`sleeves` or `body`."""
    from_cm: float
    to_cm: float
    saved: Amount


def savings(
    finished: Finished, shape: Shape, usual: Unmodified, rates: Rates, *, wrapped: bool
) -> tuple[Saving, ...]:
    """Compare the chosen sleeves and body with full-length sleeves and a hip-length body.

    Only what differs by half a centimetre or more counts as a modification.

    Args:
        finished: the dimensions wanted.
        shape: the sweater in integers.
        usual: its pieces in their usual lengths.
        rates: what a stitch costs.
        wrapped: whether the short rows of darts are wrapped and turned, or German.
    """
    found: list[Saving] = []
    split = shape.split
    if abs(finished.sleeve.length_cm - finished.plain_sleeve.length_cm) >= LEAST_CM:
        plain = _amount(sleeve_sections(usual.sleeve, split), rates)
        chosen = _amount(sleeve_sections(shape.sleeve, split), rates)
        lengths = (finished.plain_sleeve.length_cm, finished.sleeve.length_cm)
        found.append(Saving("sleeves", *lengths, less(plain, chosen)))
    if abs(finished.body.length_cm - finished.plain_body.length_cm) >= LEAST_CM:
        plain = _amount(body_sections(usual.body, split, wrapped=wrapped), rates)
        chosen = _amount(body_sections(shape.body, split, wrapped=wrapped), rates)
        lengths = (finished.plain_body.length_cm, finished.body.length_cm)
        found.append(Saving("body", *lengths, less(plain, chosen)))
    return tuple(found)


LEAST_CM = 0.5


def _amount(sections: Iterable[Section], rates: Rates) -> Amount:
    parts = [rates.amount(MAIN, counted(section)) for section in sections]
    return Amount(
        sum(part.stitches for part in parts),
        sum(part.metres for part in parts),
        sum(part.grams for part in parts),
        sum(part.balls for part in parts),
    )
