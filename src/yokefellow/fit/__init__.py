"""From body, ease and style to the finished garment, in cm."""

from yokefellow.fit.finished import BodyFit, BustFit, Finished, NeckFit, SleeveFit, YokeFit
from yokefellow.fit.garment import HEAD_STRETCH, body_fit, fit, sleeve_fit

__all__ = [
    "HEAD_STRETCH",
    "BodyFit",
    "BustFit",
    "Finished",
    "NeckFit",
    "SleeveFit",
    "YokeFit",
    "body_fit",
    "fit",
    "sleeve_fit",
]
