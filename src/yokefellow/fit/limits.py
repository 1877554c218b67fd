"""The least lengths of which a sweater can be made, and what is said below them."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.findings import Finding, Severity
from yokefellow.quantities import LengthUnit, length

LEAST_SLEEVE_CM = 2.0
"""A pick-up round, the round that closes the corners and an edge (common practice)."""

LEAST_BODY_CM = 4.0
"""Less than a hand's breadth below the underarm is no body (common practice)."""


def neck_findings(*, opening_cm: float, shoulder_cm: float, unit: LengthUnit) -> Iterator[Finding]:
    """Refuse a neck through which the shoulders would slip."""
    if opening_cm >= shoulder_cm:
        yield Finding(
            "neck.over-shoulders",
            Severity.ERROR,
            "garment.neck.opening",
            f"The neck is {length(opening_cm, unit)} round and the shoulders "
            f"{length(shoulder_cm, unit)}: the sweater would slip off them.",
            'Write garment.neck.opening = "crew" or "wide", or a smaller length.',
        )


def sleeve_findings(
    *, length_cm: float, full_cm: float, cuff: str | float, unit: LengthUnit
) -> Iterator[Finding]:
    """Refuse a sleeve that is too short to knit, or shorter than its own cuff."""
    if length_cm < LEAST_SLEEVE_CM:
        yield Finding(
            "sleeve.too-short",
            Severity.ERROR,
            "garment.sleeves.length",
            f"The sleeve comes out {length(length_cm, unit)} long; a full one is "
            f"{length(full_cm, unit)}, and the least is {length(LEAST_SLEEVE_CM, unit)}.",
            f"Shorten it by at most {length(full_cm - LEAST_SLEEVE_CM, unit)}, or write "
            '"cap" or a length.',
        )
    elif not isinstance(cuff, str) and cuff >= length_cm:
        yield Finding(
            "sleeve.cuff-over-sleeve",
            Severity.ERROR,
            "garment.sleeves.cuff",
            f"The cuff is {length(cuff, unit)} deep and the whole sleeve only "
            f"{length(length_cm, unit)} long; the cuff must be less.",
            'Write garment.sleeves.cuff = "by length", or a longer sleeve.',
        )


def body_findings(
    *, length_cm: float, hip_cm: float, hem: str | float, unit: LengthUnit
) -> Iterator[Finding]:
    """Refuse a body that is too short to knit, or shorter than its own hem."""
    if length_cm < LEAST_BODY_CM:
        yield Finding(
            "body.too-short",
            Severity.ERROR,
            "garment.body.length",
            f"The body comes out {length(length_cm, unit)} long below the underarm; to the hip "
            f"it is {length(hip_cm, unit)}, and the least is {length(LEAST_BODY_CM, unit)}.",
            f"Shorten it by at most {length(hip_cm - LEAST_BODY_CM, unit)}, or write "
            '"cropped" or a length.',
        )
    elif not isinstance(hem, str) and hem >= length_cm:
        yield Finding(
            "body.hem-over-body",
            Severity.ERROR,
            "garment.body.hem",
            f"The hem is {length(hem, unit)} deep and the whole body only "
            f"{length(length_cm, unit)} long below the underarm; the hem must be less.",
            f"Write a hem of at most {length(length_cm / 2, unit)}, or a longer body.",
        )


def waist_findings(*, waist_cm: float, armhole_cm: float, unit: LengthUnit) -> Iterator[Finding]:
    """Refuse a body whose underarm lies below its waist."""
    if waist_cm <= armhole_cm:
        yield Finding(
            "body.waist-over-underarm",
            Severity.ERROR,
            "body.armhole_depth",
            f"The armhole is {length(armhole_cm, unit)} deep and the waist lies "
            f"{length(waist_cm, unit)} below the neck, above the underarm.",
            "Measure body.armhole_depth and body.back_waist_length again, and write both.",
        )
