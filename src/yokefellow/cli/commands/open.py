"""`open`: the live page, in the browser of this computer."""

from __future__ import annotations

import secrets
import socket
import threading
import time
import webbrowser
from pathlib import Path

import click

from yokefellow.cli.terminal import say, wrapped
from yokefellow.live.answer import answer
from yokefellow.live.server import Served, application, fragments
from yokefellow.project_file.load import read_text
from yokefellow.project_file.new_file import fresh
from yokefellow.words import words

HELP = """\
Open a sweater as a page in the browser, to shape by changing it.

The page shows the drawing, the fit, the yarn and what to be careful of while
you type, and saves into the project file, remarks kept. It is there for this
computer only. A file that is not there yet is begun when you save.

\b
Examples:
  $ yokefellow open mine.toml
  $ yokefellow open mine.toml --no-browser
"""

UNUSED_S = 3_600
"""So long without a request, the page was closed."""


@click.command("open", help=HELP)
@click.argument("file", type=click.Path(path_type=Path), default=Path("sweater.toml"))
@click.option("--port", type=click.IntRange(1024, 65535), help="The port.  [default: a free one]")
@click.option("--browser/--no-browser", default=True, help="Open the browser.  [default: browser]")
@click.option("--unit", type=click.Choice(["cm", "in"]), default="in", help="Of a new file.")
def open(file: Path, port: int | None, unit: str, *, browser: bool) -> None:  # noqa: A001
    """Serve one project file until it is no longer used."""
    import uvicorn

    if file.exists():
        read_text(file)
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    listening.bind(("127.0.0.1", port or 0))
    used = [time.monotonic()]
    served = Served(
        file,
        secrets.token_urlsafe(32),
        listening.getsockname()[1],
        new_text=fresh({"unit": unit, "wearer.size": "M"}),
        touched=lambda: used.__setitem__(0, time.monotonic()),
    )
    # The first plan of a process takes twenty times as long as the others.
    fragments(answer(served.new_text if not file.exists() else read_text(file), {}))
    address = f"http://127.0.0.1:{served.port}/{served.token}/"
    say(words("live").opened(address=address))
    say(wrapped(words("live").how_to_end()))
    server = uvicorn.Server(
        uvicorn.Config(application(served), log_level="error", lifespan="off", ws="none")
    )
    threading.Thread(target=_end_unused, args=(server, used), daemon=True).start()
    if browser:
        threading.Timer(0.3, webbrowser.open, (address,)).start()
    server.run(sockets=[listening])
    say(words("live").ended())


def _end_unused(server: object, used: list[float]) -> None:
    while time.monotonic() - used[0] < UNUSED_S:
        time.sleep(min(60, UNUSED_S))
    server.should_exit = True  # type: ignore[attr-defined]
