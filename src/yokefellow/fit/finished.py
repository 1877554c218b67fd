"""The finished garment in cm: what the later rooms are given."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple


class FrontFit(NamedTuple):
    """A front neck worked flat."""

    style: Literal["scooped", "V"]
    drop_cm: float
    """How deep the front of the neck lies below the back, band left out."""


@dataclass(frozen=True, slots=True)
class NeckFit:
    """The finished neck, in cm."""

    opening_cm: float
    band_cm: float
    raise_cm: float
    """How much higher short rows make the back than the front."""
    passes_cm: float = 0.0
    """What the edge must stretch over: the head."""
    folds: bool = False
    """Whether the band is worked twice as deep as it is worn, and folded outwards."""
    front: FrontFit | None = None
    """Of a front worked flat only."""


class RaglanFit(NamedTuple):
    """How a raglan's neck is shared out, in cm."""

    back_neck_cm: float
    """Across the back of the neck; the front has as much."""
    sleeve_top_cm: float
    """Each sleeve at the neck. Half of it lies before the shoulder and is depth of the neck."""
    shoulder_at_cm: float
    """From the neck to where the shoulders are fullest, along the sleeve."""


@dataclass(frozen=True, slots=True)
class YokeFit:
    """The finished yoke, in cm."""

    depth_cm: float
    """At the front, below the neckband to the underarm."""
    underarm_cm: float
    shoulder_cm: float
    """Round the shoulders: the yoke must be at least this wide at their point."""
    chest_cm: float
    """Round the body right below the split; less than the chest where the front grows below."""
    front_more_cm: float
    """How much more of that the front has than the back; less than nothing where it has less."""
    raglan: RaglanFit | None = None
    """Of a raglan only."""


@dataclass(frozen=True, slots=True)
class BustFit:
    """What the body has in front or behind beyond an even tube, in cm."""

    grows_cm: float
    """What the front gains at its sides between the underarm and the fullest part."""
    at_cm: float
    """The fullest part, below the underarm."""
    points_cm: float
    """Between the two fullest points, the garment's ease with it."""
    front_cm: float
    """How much longer the front is than the back: worked as short rows over it."""
    back_cm: float
    """How much longer the back is than the front, beyond the raise of the neck."""


@dataclass(frozen=True, slots=True)
class BodyFit:
    """The finished body below the underarm, in cm."""

    chest_cm: float
    shape: str
    length_cm: float
    """Underarm to edge, hem included."""
    hem_cm: float
    """Depth of the hem."""
    waist_cm: float
    """Round the garment at the waist; the chest when it is not shaped."""
    waist_at_cm: float
    """Below the underarm."""
    edge_cm: float
    """Round the garment just above the hem."""
    gather: float
    """Share of stitches the hem leaves out."""
    hip_at_cm: float
    """Where the hip is widest, below the underarm."""
    bust: BustFit
    passes_cm: float = 0.0
    """What the edge must stretch over: the chest, or the hips where it reaches them."""


@dataclass(frozen=True, slots=True)
class SleeveFit:
    """One finished sleeve, in cm."""

    name: str
    """The named length it comes nearest to."""
    upper_arm_cm: float
    length_cm: float
    """Underarm to edge, cuff included."""
    share: float
    """Of underarm to wrist."""
    arm_cm: float
    """Round the widest part of the arm that the edge must pass."""
    edge_cm: float
    cuff_cm: float
    """Depth of the cuff."""
    passes_cm: float = 0.0
    """What the edge must stretch over: the hand, or the arm where it ends above the elbow."""
    arm_at_cm: tuple[tuple[float, float], ...] = ()
    """Where the arm is wide on the way, below the underarm, and how wide the sleeve must be."""


@dataclass(frozen=True, slots=True)
class Finished:
    """The whole finished garment, and the one it was modified from."""

    neck: NeckFit
    yoke: YokeFit
    body: BodyFit
    sleeve: SleeveFit
    ease_chest_cm: float
    ease_arm_cm: float
    plain_body: BodyFit
    """The body without its length modification: hip length."""
    plain_sleeve: SleeveFit
    """The sleeve without its length modification: full length."""
