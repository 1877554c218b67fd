"""What a terminal can show: its width, its letters, its colours."""

from __future__ import annotations

import json
import os
import shlex
import shutil
import sys
import textwrap
from pathlib import Path
from types import MappingProxyType
from typing import Any, TextIO

_NARROWEST, _WIDEST = 30, 90
"""In letters; longer lines than 90 are hard to read on however wide a screen."""

_PLAIN = MappingProxyType(
    {
        "–": "-", "—": "-", "−": "-", "‐": "-", "×": "x", "÷": "/", "→": "->", "•": "*",
        "…": "...", "‘": "'", "’": "'", "“": '"', "”": '"', "′": "'", "″": '"', "\u00a0": " ",
        "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "≤": "<=", "≥": ">=", "≈": "~", "±": "+/-",
        "°": " deg", "☐": "[ ]", "☑": "[x]", "─": "-", "│": "|", "\u202f": " ", "\u2009": " ",
    }
)  # fmt: skip
"""What stands for a character on a terminal that has only ASCII."""

_COLOURS = MappingProxyType({"red": "31", "yellow": "33", "cyan": "36", "bold": "1"})


def called() -> str:
    """Give the command as it was typed, so that the next one can be typed alike."""
    program = Path(sys.argv[0])
    if program.name == "__main__.py":
        return f"{shlex.quote(_from_here(sys.executable))} -m yokefellow"
    if program.stem != "yokefellow" or shutil.which("yokefellow") == sys.argv[0]:
        return "yokefellow"
    return shlex.quote(_from_here(sys.argv[0]))


def as_argument(file: Path) -> str:
    r"""Give a file's name as it is typed behind a command, with nothing hidden in it.

    What cannot be printed is written as bash and zsh read it.

    >>> print(as_argument(Path("a\x1bb.toml")))
    $'a\u001bb.toml'
    """
    from yokefellow.findings import visible

    name = str(file)
    if name.isprintable():
        return shlex.quote(name)
    escaped = name.replace("\\", r"\\").replace("'", r"\'")
    return f"$'{visible(escaped)}'"


def _from_here(path: str) -> str:
    """Shorten a path that lies below the folder one is in."""
    here = f"{Path.cwd()}{os.sep}"
    return path.removeprefix(here)


def say(text: str) -> None:
    """Write lines to standard output."""
    _write(text, sys.stdout)


def tell(text: str) -> None:
    """Write lines to standard error: what is not the result itself."""
    _write(text, sys.stderr)


def _write(text: str, stream: TextIO) -> None:
    stream.write(printable(f"{text.rstrip()}\n", stream.encoding))
    # At once, so that a closed pipe is met here and not when Python ends.
    stream.flush()


def printable(text: str, encoding: str | None) -> str:
    """Replace what an encoding cannot show by what stands nearest, or by `?`.

    >>> printable("36–38½ in", "ascii")
    '36-38 1/2 in'
    """
    encoding = encoding or "utf-8"
    if _shows(text, encoding):
        return text
    return "".join(
        letter if _shows(letter, encoding) else _PLAIN.get(letter, "?") for letter in text
    )


def _shows(text: str, encoding: str) -> bool:
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        return False
    return True


def width() -> int:
    """Give the width to wrap at, in letters: the terminal's, within reason; 80 without one."""
    return min(max(shutil.get_terminal_size().columns, _NARROWEST), _WIDEST)


def wrapped(text: str, *, first: str = "", rest: str = "") -> str:
    """Wrap a paragraph to the terminal, with what stands before its first and other lines."""
    return textwrap.fill(
        text,
        width(),
        initial_indent=first,
        subsequent_indent=rest,
        break_long_words=False,
        break_on_hyphens=False,
    )


def wants_colour(stream: TextIO | None) -> bool:
    """Tell whether colour is welcome: on a terminal, and NO_COLOR not set."""
    if os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return False
    return stream is None or stream.isatty()


def coloured(text: str, colour: str, stream: TextIO) -> str:
    """Colour a word, where that is welcome."""
    if not wants_colour(stream):
        return text
    return f"\x1b[{_COLOURS['bold']};{_COLOURS[colour]}m{text}\x1b[0m"


def document(content: dict[str, Any]) -> str:
    """Give a JSON document; ASCII, so that any terminal and pipe can carry it."""
    return json.dumps({"edition": 1, **content}, indent=2, ensure_ascii=True)
