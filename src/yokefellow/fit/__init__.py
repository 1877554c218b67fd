"""From body, ease and style to the finished garment, in cm."""

from yokefellow.fit.finished import (
    BodyFit,
    BustFit,
    Finished,
    NeckFit,
    RaglanFit,
    SleeveFit,
    YokeFit,
)
from yokefellow.fit.garment import (
    SHORT_OF_HIPS_CM,
    body_fit,
    body_in_length,
    cuff_cm,
    fit,
    hem_cm,
    sleeve_fit,
)
from yokefellow.fit.neck import HEAD_STRETCH

__all__ = [
    "HEAD_STRETCH",
    "SHORT_OF_HIPS_CM",
    "BodyFit",
    "BustFit",
    "Finished",
    "NeckFit",
    "RaglanFit",
    "SleeveFit",
    "YokeFit",
    "body_fit",
    "body_in_length",
    "cuff_cm",
    "fit",
    "hem_cm",
    "sleeve_fit",
]
