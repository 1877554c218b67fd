"""How a run ends: in words for the knitter and a status for the shell.

0 all is well, 1 a project or a file is at fault, 2 wrong usage (click's own),
70 a fault of this program, 130 stopped by Ctrl-C, 141 the reader of the
output went away (what the shell gives every program that dies of it).
"""

from __future__ import annotations

import errno
import os
import sys
import traceback
from collections.abc import Iterator
from contextlib import contextmanager

import click

from yokefellow.cli.findings import tell_findings
from yokefellow.cli.terminal import tell, wrapped
from yokefellow.findings import YokefellowError

REFUSED = 1
FAULT = 70
STOPPED = 130
UNREAD = 141

_FULL = {errno.ENOSPC, getattr(errno, "EDQUOT", errno.ENOSPC), errno.EFBIG, errno.EIO}


@contextmanager
def endings() -> Iterator[None]:
    """Turn whatever goes wrong inside into words and an exit status."""
    try:
        yield
    except (click.ClickException, click.exceptions.Exit):
        raise
    except YokefellowError as refused:
        tell_findings(refused.findings)
        status = REFUSED
    except (KeyboardInterrupt, click.Abort) as ended:
        status = _stopped(ended)
    except BrokenPipeError:
        _forget_output()
        status = UNREAD
    except Exception as fault:  # noqa: BLE001
        status = _fault(fault)
    else:
        return
    sys.exit(status)


def _stopped(ended: BaseException) -> int:
    # click gives the same Abort for Ctrl-C and for the end of the input.
    if isinstance(ended.__context__, EOFError):
        tell("\nThe answers ended before the questions; nothing was written.")
        return REFUSED
    tell("\nStopped; no file is left half written.")
    return STOPPED


def _forget_output() -> None:
    """Keep Python from trying, and complaining, once more when it ends."""
    try:
        output = sys.stdout.fileno()
    except (OSError, ValueError):
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, output)
    os.close(nowhere)


def _fault(fault: Exception) -> int:
    if os.environ.get("YOKEFELLOW_DEBUG"):
        traceback.print_exception(fault, file=sys.stderr)
    if isinstance(fault, OSError):
        _forget_output()
        if fault.errno is not None and fault.errno in _FULL:
            tell(wrapped(f"The output cannot be written: {os.strerror(fault.errno)}."))
            return REFUSED
    what = " ".join(f"{type(fault).__name__}: {fault}".split())[:200]
    tell(
        wrapped(
            f"Yokefellow itself failed ({what}), and it is not your mistake: please report it"
            " with your project file and what the same command says after"
            " YOKEFELLOW_DEBUG=1."
        )
    )
    return FAULT
