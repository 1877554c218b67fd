"""How far a garment reaches down the body."""

from __future__ import annotations

from yokefellow.fit import SHORT_OF_HIPS_CM, Finished

__all__ = ["reaches_hips"]


def reaches_hips(finished: Finished) -> bool:
    """Tell whether the hem lies on the hips."""
    return finished.body.length_cm >= finished.plain_body.length_cm - SHORT_OF_HIPS_CM
