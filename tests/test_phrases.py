"""The trade's own phrases: what a printed pattern would not say stands nowhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]

NOT_SAID = (
    r"rep from \* (?:[0-9]+|\{\S+) times in all",
    r"\bhangs? (?:a|the) marker",
    r"\bis ribbed on\b",
    r"not wanted again",
    r"stitches to waste yarn",
    r"stitches slip to waste",
    r"\bto these measures\b",
    r"\bit binds:",
    r"\bit hangs low",
    r"lift the bar there",
    r"matters? to nobody",
    r"two together through the back",
    r"bind off by twos",
    r"hand's length",
    r"finger the folds",
    r"may last to the end",
    r"yoke lies well",
    r"counts it stands on",
    r"(?:yoke|band) begins with [{0-9]",
    r"what lengths save",
    r"chance that it lasts is",
)
"""What no printed pattern says; common practice, no source."""


def spoken() -> list[Path]:
    """Every file whose words a knitter may read."""
    files = [*(ROOT / "src").rglob("*.py"), *(ROOT / "templates").rglob("*.j2")]
    return [*sorted(files), ROOT / "README.md"]


@pytest.mark.parametrize("phrase", NOT_SAID)
def test_the_phrase_stands_nowhere(phrase: str) -> None:
    pattern = re.compile(phrase.replace(" ", r"(?:\s|[\"f])+"), re.IGNORECASE)
    docs = re.compile(r'""".*?"""', re.DOTALL)
    for file in spoken():
        text = file.read_text("utf-8")
        text = docs.sub("", text) if file.suffix == ".py" else text
        assert (said := pattern.search(text)) is None, f"{file.relative_to(ROOT)}: {said}"
