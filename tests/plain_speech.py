"""How we speak to the knitter: in sentences, and without raising the voice."""

from __future__ import annotations

import re

from yokefellow.findings import Finding
from yokefellow.notation.abbreviations import ABBREVIATIONS

_ABBREVIATIONS = re.compile("|".join(re.escape(entry.code) for entry in ABBREVIATIONS))
_YARN = re.compile(r"(MC|CC[0-9]*)")
_SENTENCE = re.compile(r"[A-Z\"'`].*[.?]", re.DOTALL)


def shouted(text: str) -> list[str]:
    """Give the words in capitals that are no abbreviation of the sheet and no yarn."""
    words = re.findall(r"[A-Za-z0-9]*[A-Z]{2,}[A-Za-z0-9]*", text)
    known = (_ABBREVIATIONS, _YARN)
    return [word for word in words if not any(one.fullmatch(word) for one in known)]


def is_sentence(text: str) -> bool:
    return bool(_SENTENCE.fullmatch(text)) and not shouted(text)


def is_phrase(text: str) -> bool:
    """Tell whether the words can stand in the middle of a sentence."""
    return text[0] == text[0].lower() and not text.endswith(".") and not shouted(text)


def kindly(found: Finding) -> Finding:
    """Hold a finding to it: what is the matter, and what to do."""
    assert is_sentence(found.message), found
    assert is_sentence(found.remedy), found
    return found
