"""The page on the loopback interface: carries what is asked to `answer`, and what comes of it back.

Only this computer reaches it: it listens on 127.0.0.1, its address holds a token of 32 random
bytes, and a request must name the loopback host and port, and come from the page itself. Only the
one project file is ever written, and never over a version that the page has not seen.
"""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, Response
from starlette.routing import Route

from yokefellow.files import FileError, replace
from yokefellow.findings import YokefellowError
from yokefellow.live.answer import Answer, along, answer, told, typed_values
from yokefellow.package_data import package_folder
from yokefellow.project_file.load import LARGEST_BYTES, read_text
from yokefellow.project_file.statements import every_field
from yokefellow.words import compiled_templates, words

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Receive, Scope, Send

MOST_BYTES = 1_000_000
"""Of one request."""

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cache-Control": "no-store",
    "Cross-Origin-Resource-Policy": "same-origin",
}


@dataclass
class Served:
    """The one file that is served, and the last version of it that was read or written."""

    file: Path
    token: str
    port: int
    new_text: str = ""
    """What stands on the page while there is no file yet."""
    known: str = ""
    """Digest of the file's text as the page has it; empty while there is no file."""
    touched: Callable[[], None] = field(default=lambda: None)
    """Called at every request, so that an unused server can end itself."""

    @property
    def unsaved(self) -> Path:
        """Where the text of the page is kept until it is saved, against a crash."""
        return self.file.with_name(f"{self.file.stem}.unsaved.toml")


def digest(text: str) -> str:
    """Name a version of the text."""
    return sha256(text.encode()).hexdigest()


@cache
def _templates() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(package_folder("templates")),
        bytecode_cache=compiled_templates(),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals["words"] = words
    return environment


def fragments(made: Answer) -> dict[str, str]:
    """Give the parts of the page that follow a change, by the element they stand in."""
    module = _templates().get_template("live/fragments.html.j2").module
    return {
        name: str(getattr(module, name)(made))
        for name in ("drawing", "fit", "yarn", "findings", "foot")
    }


def page(made: Answer, served: Served, *, message: str = "") -> str:
    """Give the whole page."""
    template = _templates().get_template("live/page.html.j2")
    return template.render(
        made=made,
        parts=fragments(made),
        base=f"/{served.token}",
        name=served.file.name,
        digest=served.known,
        message=message,
    )


class Guard:
    """Lets through only what the page itself asks of this very address."""

    def __init__(self, app: ASGIApp, served: Served) -> None:
        self.app, self.served = app, served

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse, or hand on."""
        if scope["type"] != "http":
            return
        request = Request(scope)
        refusal = self._refusal(request)
        if refusal is not None:
            await PlainTextResponse(refusal, 403, HEADERS)(scope, receive, send)
            return
        self.served.touched()
        await self.app(scope, receive, send)

    def _refusal(self, request: Request) -> str | None:
        hosts = {f"{name}:{self.served.port}" for name in ("127.0.0.1", "localhost", "[::1]")}
        if request.headers.get("host", "") not in hosts:
            return words("live").other_host()
        given = request.url.path.split("/")[1]
        if not hmac.compare_digest(given.encode(), self.served.token.encode()):
            return words("live").no_token()
        if request.method not in {"GET", "HEAD"}:
            if request.headers.get("origin", "") not in {f"http://{host}" for host in hosts}:
                return words("live").other_origin()
            if int(request.headers.get("content-length") or MOST_BYTES + 1) > MOST_BYTES:
                return words("live").too_large()
        return None


def application(served: Served) -> Starlette:
    """Make the application that serves one project file."""
    base = f"/{served.token}"

    def route(
        path: str, handler: Callable[[Served, Request], Awaitable[Response]], *methods: str
    ) -> Route:
        async def endpoint(request: Request) -> Response:
            response = await handler(served, request)
            response.headers.update(HEADERS)
            return response

        return Route(f"{base}{path}", endpoint, methods=list(methods))

    routes = [
        route("/", _show, "GET"),
        route("/", _change_by_form, "POST"),
        route("/change", _change, "POST"),
        route("/save", _save, "POST"),
        route("/along", _along, "POST"),
        route("/live.css", _static("live.css", "text/css"), "GET"),
        route("/live.js", _static("live.js", "text/javascript"), "GET"),
        route("/icon.svg", _static("icon.svg", "image/svg+xml"), "GET"),
    ]
    return Starlette(routes=routes, middleware=[Middleware(Guard, served=served)])


def _static(name: str, kind: str) -> Callable[[Served, Request], Awaitable[Response]]:
    async def send(_: Served, __: Request) -> Response:
        text = (package_folder("templates") / "live" / name).read_text("utf-8")
        return Response(text, media_type=kind)

    return send


def current(served: Served) -> tuple[str, str]:
    """Read the text to show: what was not saved, else the file, else a fresh one; with a message.

    Raises:
        ProjectError: the file is there and cannot be read.
    """
    saved = read_text(served.file) if served.file.exists() else ""
    served.known = digest(saved) if saved else ""
    if served.unsaved.exists():
        return read_text(served.unsaved), words("live").unsaved_found()
    return saved or served.new_text, ""


async def _show(served: Served, _: Request) -> Response:
    try:
        text, message = current(served)
    except YokefellowError as error:
        return PlainTextResponse("\n\n".join(map(str, error.findings)), 409)
    return HTMLResponse(page(answer(text, {}), served, message=message))


async def _form(request: Request) -> dict[str, str]:
    async with request.form(max_files=0, max_fields=400, max_part_size=LARGEST_BYTES) as form:
        return {name: value for name, value in form.items() if isinstance(value, str)}


def _changes(given: Mapping[str, str]) -> dict[str, str]:
    known = {one.field for one in every_field()}
    return {name: value for name, value in given.items() if name in known}


async def _change(served: Served, request: Request) -> Response:
    """Answer one change, and keep the text against a crash."""
    given = await _form(request)
    made = answer(given.get("text", ""), _changes(given))
    message = _kept(served, made.text)
    return JSONResponse(
        {
            "text": made.text,
            "parts": fragments(made),
            "refused": dict(made.refused),
            "values": dict(typed_values(made.text)),
            "fields": {
                name: [said.severity, said.message, said.way]
                for name, one in made.at_fields.items()
                for said in (told(one),)
            },
            "message": message,
        }
    )


async def _along(_: Served, request: Request) -> Response:
    """Answer the second wave: what a slider comes to from end to end."""
    given = await _form(request)
    module = _templates().get_template("live/fragments.html.j2").module
    # In a thread of its own: the answer to the next change must not wait for it.
    stops = await run_in_threadpool(along, given.get("text", ""), given.get("field", ""))
    return JSONResponse({"strip": str(module.strip(stops))})  # type: ignore[attr-defined]


def _kept(served: Served, text: str) -> str:
    """Keep the text beside the file until it is saved; say so when it cannot be."""
    try:
        if digest(text) != served.known:
            replace(served.unsaved, text)
    except FileError as error:
        return str(error)
    return ""


async def _save(served: Served, request: Request) -> Response:
    """Write the file, unless another version than the page's stands there."""
    given = await _form(request)
    status, message = saved(served, given.get("text", ""), given.get("digest", ""))
    return JSONResponse({"digest": served.known, "message": message}, status)


def saved(served: Served, text: str, known: str) -> tuple[int, str]:
    """Save a text over the version it was made from.

    Returns:
        The status, 200 or 409, and what to say.
    """
    sentences = words("live")
    try:
        there = read_text(served.file) if served.file.exists() else ""
        if (digest(there) if there else "") != known:
            other = served.file.with_name(f"{served.file.stem}.from-page.toml")
            replace(other, text)
            return 409, sentences.changed_elsewhere(name=served.file.name, other=other.name)
        replace(served.file, text)
        served.known = digest(text)
        served.unsaved.unlink(missing_ok=True)
    except (YokefellowError, OSError) as error:
        return 409, sentences.not_saved(reason=str(error))
    return 200, sentences.saved(name=served.file.name)


async def _change_by_form(served: Served, request: Request) -> Response:
    """Do without a script: take the whole form, save it when asked, show the page again."""
    given = await _form(request)
    before = given.get("text", "")
    made = answer(before, _changed_only(before, _changes(given)))
    message = _kept(served, made.text)
    if given.get("do") == "save" and not made.refused:
        _, message = saved(served, made.text, given.get("digest", ""))
    return HTMLResponse(page(made, served, message=message))


def _changed_only(text: str, changes: Mapping[str, str]) -> dict[str, str]:
    """Leave out what stands in the text already, as the form carries every field."""
    there = typed_values(text)
    return {name: value for name, value in changes.items() if value != there.get(name, "")}
