"""A small sound project file, and how to spoil it."""

from yokefellow.findings import Finding, ProjectError
from yokefellow.project_file.load import parse

SOUND = """\
title = "Sample"
unit = "in"

[wearer]
name = "me"

[body]
chest = "38 in"

[swatch.plain.washed]
stitches = ["26 over 4 in"]
rounds = ["36 over 4 in"]

[yarn.MC]
ball_weight = "50 g"
ball_length = "200 m"
balls = 6

[needles]
main = "3.5 mm"
"""


def spoil(*changes: tuple[str, str]) -> str:
    """Change lines of the sound file; each must be there."""
    text = SOUND
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return text


def under(table: str, *lines: str) -> str:
    """Add lines under a table, or a new table at the end."""
    header = f"[{table}]\n"
    text = SOUND if header in SOUND else SOUND + f"\n{header}"
    return text.replace(header, header + "\n".join(lines) + "\n")


def refused(text: str) -> tuple[Finding, ...]:
    """Read a file that must be refused, and give why."""
    try:
        parse(text)
    except ProjectError as error:
        return error.findings
    raise AssertionError(f"this was read:\n{text}")
