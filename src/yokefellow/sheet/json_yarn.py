"""The yarn as data: what the sweater takes, and what other lengths would."""

from __future__ import annotations

from typing import Any

from yokefellow.sheet.yarn_pieces import OtherLengths, OtherLine, YarnLine, YarnView

__all__ = ["other_data", "rounded", "yarn_data"]


def rounded(value: float | None) -> float | None:
    """Keep two decimals: a tenth of a millimetre, a centimetre of yarn."""
    return None if value is None else round(value, 2)


def yarn_data(yarn: YarnView) -> dict[str, Any]:
    """Give one yarn."""
    return {
        "code": yarn.code,
        "name": yarn.name,
        "verdict": yarn.verdict_key,
        "words": yarn.verdict,
        "evidence": yarn.evidence_key,
        "rests_on": yarn.evidence,
        "chance": round(yarn.chance, 4),
        "sure": yarn.sure,
        "amounts": [_amount(line) for line in yarn.lines],
    }


def _amount(line: YarnLine) -> dict[str, Any]:
    return {
        "key": line.key,
        "metres": rounded(line.length_m),
        "grams": rounded(line.weight_g),
        "least_g": rounded(line.least_g),
        "most_g": rounded(line.most_g),
        "balls": rounded(line.ball_count),
        "shown": [line.length, line.weight, line.balls],
    }


def other_data(others: OtherLengths | None) -> dict[str, Any] | None:
    """Give what other lengths would take; null when it was not asked."""
    if others is None:
        return None
    return {
        "intro": others.intro,
        "lengths": [
            {"kind": group.key, **_line(line)} for group in others.groups for line in group.lines
        ],
        "colours": list(others.colours),
        "longest": [
            {
                "key": found.key,
                "words": found.words,
                "cm": rounded(found.cm),
                "limit": found.limit,
                "held_back_g": rounded(found.held_back_g),
                "chance_of_more": rounded(found.chance_of_more),
                "choices": dict(found.choices),
            }
            for found in others.longest
        ],
        "rescues": [rescue._asdict() for rescue in others.rescues],
        "weighed": list(others.weighed),
    }


def _line(line: OtherLine) -> dict[str, Any]:
    return {
        "choice": line.choice,
        "chosen": line.is_chosen,
        "cm": rounded(line.cm),
        "verdict": line.verdict_key,
        "words": line.verdict,
        "shown": [line.long, line.stitches, line.length, line.weight, line.balls, line.saves],
        "yarns": [
            {
                key: rounded(value) if isinstance(value, float) else value
                for key, value in yarn._asdict().items()
            }
            for yarn in line.yarns
        ],
    }
