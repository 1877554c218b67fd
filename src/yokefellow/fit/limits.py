"""The least lengths of which a sweater can be made, and what is said below them."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.findings import Finding, Mend, Severity
from yokefellow.quantities import LengthUnit, length
from yokefellow.words import found

LEAST_SLEEVE_CM = 2.0
"""A pick-up round, the round that closes the corners and an edge (common practice)."""

LEAST_BODY_CM = 4.0
"""Less than a hand's breadth below the underarm is no body (common practice)."""


def neck_findings(*, opening_cm: float, shoulder_cm: float, unit: LengthUnit) -> Iterator[Finding]:
    """Refuse a neck through which the shoulders would slip."""
    if opening_cm >= shoulder_cm:
        yield found(
            "neck.over-shoulders",
            Severity.ERROR,
            "garment.neck.opening",
            mends=(Mend("garment.neck.opening", '"crew"'),),
            opening=length(opening_cm, unit),
            shoulders=length(shoulder_cm, unit),
        )


def sleeve_findings(
    *, length_cm: float, full_cm: float, cuff: str | float, unit: LengthUnit
) -> Iterator[Finding]:
    """Refuse a sleeve that is too short to knit, or shorter than its own cuff."""
    if length_cm < LEAST_SLEEVE_CM:
        yield found(
            "sleeve.too-short",
            Severity.ERROR,
            "garment.sleeves.length",
            mends=(Mend("garment.sleeves.length", '"cap"'),),
            length=length(length_cm, unit),
            full=length(full_cm, unit),
            least=length(LEAST_SLEEVE_CM, unit),
            most_shorter=length(full_cm - LEAST_SLEEVE_CM, unit),
        )
    elif not isinstance(cuff, str) and cuff >= length_cm:
        yield found(
            "sleeve.cuff-over-sleeve",
            Severity.ERROR,
            "garment.sleeves.cuff",
            mends=(Mend("garment.sleeves.cuff", '"by length"'),),
            cuff=length(cuff, unit),
            sleeve=length(length_cm, unit),
        )


def body_findings(
    *, length_cm: float, hip_cm: float, hem: str | float, unit: LengthUnit
) -> Iterator[Finding]:
    """Refuse a body that is too short to knit, or shorter than its own hem."""
    if length_cm < LEAST_BODY_CM:
        yield found(
            "body.too-short",
            Severity.ERROR,
            "garment.body.length",
            mends=(Mend("garment.body.length", '"cropped"'),),
            length=length(length_cm, unit),
            hip=length(hip_cm, unit),
            least=length(LEAST_BODY_CM, unit),
            most_shorter=length(hip_cm - LEAST_BODY_CM, unit),
        )
    elif not isinstance(hem, str) and hem >= length_cm:
        yield found(
            "body.hem-over-body",
            Severity.ERROR,
            "garment.body.hem",
            hem=length(hem, unit),
            body=length(length_cm, unit),
            most=length(length_cm / 2, unit),
        )


def waist_findings(*, waist_cm: float, armhole_cm: float, unit: LengthUnit) -> Iterator[Finding]:
    """Refuse a body whose underarm lies below its waist."""
    if waist_cm <= armhole_cm:
        yield found(
            "body.waist-over-underarm",
            Severity.ERROR,
            "body.armhole_depth",
            armhole=length(armhole_cm, unit),
            waist=length(waist_cm, unit),
        )
