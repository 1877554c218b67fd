"""What each length modification saves against the unmodified garment."""

from __future__ import annotations

from dataclasses import dataclass

from yokefellow.fit import Finished
from yokefellow.gauge import Gauges
from yokefellow.project.models import Yarn
from yokefellow.schedule.compile import body_sections, sleeve_sections
from yokefellow.shaping.shapes import Shape
from yokefellow.yarn import Amount, sections_amount

__all__ = ["Saving", "savings"]


@dataclass(frozen=True, slots=True)
class Saving:
    """One modification, and what it saves; below zero when it costs more."""

    what: str
    """`sleeves` or `body`."""
    from_cm: float
    to_cm: float
    saved: Amount


def savings(finished: Finished, shape: Shape, gauges: Gauges, yarn: Yarn) -> tuple[Saving, ...]:
    """Compare the chosen sleeves and body with full-length sleeves and a hip-length body.

    Only what differs by half a centimetre or more counts as a modification.
    """
    found: list[Saving] = []
    split = shape.split
    if abs(finished.sleeve.length_cm - finished.plain_sleeve.length_cm) >= LEAST_CM:
        plain = sections_amount(sleeve_sections(shape.plain_sleeve, split), gauges, yarn)
        chosen = sections_amount(sleeve_sections(shape.sleeve, split), gauges, yarn)
        lengths = (finished.plain_sleeve.length_cm, finished.sleeve.length_cm)
        found.append(Saving("sleeves", *lengths, _less(plain, chosen)))
    if abs(finished.body.length_cm - finished.plain_body.length_cm) >= LEAST_CM:
        plain = sections_amount(body_sections(shape.plain_body, split), gauges, yarn)
        chosen = sections_amount(body_sections(shape.body, split), gauges, yarn)
        lengths = (finished.plain_body.length_cm, finished.body.length_cm)
        found.append(Saving("body", *lengths, _less(plain, chosen)))
    return tuple(found)


LEAST_CM = 0.5


def _less(plain: Amount, chosen: Amount) -> Amount:
    return Amount(
        plain.stitches - chosen.stitches,
        plain.metres - chosen.metres,
        plain.grams - chosen.grams,
        plain.balls - chosen.balls,
    )
