"""The command line: parse, call, print."""

from __future__ import annotations

import sys

__all__ = ["main"]


def main() -> None:
    """Run the command line; the entry point `yokefellow`."""
    try:
        # Imported here, so that Ctrl-C in the first tenth of a second is met too.
        from yokefellow.cli.endings import endings
        from yokefellow.cli.program import program

        with endings():
            program(prog_name="yokefellow")
    except KeyboardInterrupt:
        sys.exit(130)
