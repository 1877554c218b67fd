"""The sheet as a PDF, from the same templates. WeasyPrint is imported only when asked."""

from __future__ import annotations

import contextlib
import gc
import io
import logging
import os
import re
import warnings
from collections.abc import Callable, Iterator
from typing import Any, NoReturn

from yokefellow.findings import Finding, Severity, YokefellowError
from yokefellow.plan import Plan
from yokefellow.sheet.pages import page
from yokefellow.sheet.tagging import mend_tags
from yokefellow.sheet.view import view
from yokefellow.what_if import Prospects

__all__ = ["render_pdf", "typeset"]

_EPOCH = "315532800"
"""1 January 1980, printed as the date of every PDF: the same plan gives the same bytes."""

_INSTALL = (
    "On Debian or Ubuntu: sudo apt-get install libpangoft2-1.0-0 libharfbuzz-subset0 "
    "fonts-dejavu-core. On macOS: brew install pango. Until then, make the sheet as HTML and "
    "print it from a browser."
)


def render_pdf(
    plan: Plan,
    prospects: Prospects | None = None,
    *,
    progress: Callable[[str], None] | None = None,
) -> bytes:
    """Give the sheet as a PDF.

    Args:
        plan: what to print.
        prospects: with them it tells what other lengths would take.
        progress: told in a few words what is being done, for a knitter who waits;
            and which characters no font has, as they print as empty boxes.

    Raises:
        YokefellowError: a library or a font that typesetting needs is missing;
            the finding `pdf.library-missing` says how to install it.
    """
    tell = progress or _silent
    tell("Writing the page")
    html = page(view(plan, prospects), medium="paper")
    with _seldom_collecting():
        tell("Loading the typesetter")
        _check_library()
        tell("Setting the pages")
        with _listening() as missing:
            pdf = typeset(html, key=plan.key)
    if missing:
        tell(f"No font here has {' '.join(map(_named, sorted(missing)))}: printed as empty boxes")
    return pdf


_SELDOM = 20_000
"""Objects made between two looks for dead cycles; Python's own number is some hundreds."""


@contextlib.contextmanager
def _seldom_collecting() -> Iterator[None]:
    """Look for dead cycles seldom while pages are set, and as before afterwards.

    Setting makes hundreds of thousands of objects that all live to its end; walking
    them again and again is as dear as tagging the whole PDF.
    """
    before = gc.get_threshold()
    gc.set_threshold(_SELDOM, *before[1:])
    try:
        yield
    finally:
        gc.set_threshold(*before)


def _silent(_: str) -> None:
    """Say nothing."""


def _check_library() -> None:
    """Refuse before the typesetter would: it prints a banner, or ends the whole process."""
    try:
        with contextlib.redirect_stdout(io.StringIO()), warnings.catch_warnings():
            warnings.simplefilter("ignore")
            from weasyprint.text.ffi import fontconfig
    except OSError as problem:
        _missing(str(problem))
    config = fontconfig.FcInitLoadConfigAndFonts()
    fonts = fontconfig.FcConfigGetFonts(config, fontconfig.FcSetSystem).nfont
    fontconfig.FcConfigDestroy(config)
    if not fonts:
        _missing("there is no font on this computer")


def _missing(reason: str) -> NoReturn:
    first = reason.strip().partition("\n")[0] or "it does not load"
    raise YokefellowError(
        [
            Finding(
                "pdf.library-missing",
                Severity.ERROR,
                "",
                f"A PDF needs the library Pango and at least one font, and {first}.",
                _INSTALL,
            )
        ]
    ) from None


_NO_GLYPH = re.compile(r"\.notdef glyph rendered .*?\"(.)\"", re.DOTALL)


class _Listener(logging.Handler):
    """Collects the characters of which the typesetter says that no font has them."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.missing: set[str] = set()

    def emit(self, record: logging.LogRecord) -> None:
        """Take a character from the warning, if it is one."""
        self.missing.update(_NO_GLYPH.findall(record.getMessage()))


def _named(letter: str) -> str:
    """Give a letter with its number, by which it can be looked up where it cannot be seen."""
    number = f"U+{ord(letter):04X}"
    return f"{letter} ({number})" if letter.isprintable() else number


@contextlib.contextmanager
def _listening() -> Iterator[set[str]]:
    """Collect the characters that print as an empty box, which a tick box is taken for."""
    listener = _Listener()
    logger = logging.getLogger("weasyprint")
    logger.addHandler(listener)
    try:
        yield listener.missing
    finally:
        logger.removeHandler(listener)


@contextlib.contextmanager
def _fixed_date() -> Iterator[None]:
    """Fix the date in the PDF, and put the knitter's own setting back."""
    before = os.environ.get("SOURCE_DATE_EPOCH")
    os.environ["SOURCE_DATE_EPOCH"] = _EPOCH
    try:
        yield
    finally:
        if before is None:
            del os.environ["SOURCE_DATE_EPOCH"]
        else:
            os.environ["SOURCE_DATE_EPOCH"] = before


def typeset(html: str, *, key: str) -> bytes:
    """Set a page of HTML as a tagged PDF; nothing is fetched, from network or disk."""
    import weasyprint
    from weasyprint.urls import URLFetcher

    with _fixed_date():
        document = weasyprint.HTML(
            string=html, url_fetcher=URLFetcher(allowed_protocols=set()), media_type="print"
        )
        pdf: Any = document.write_pdf(
            finisher=mend_tags,
            pdf_variant="pdf/ua-1",
            pdf_identifier=key.encode(),
            custom_metadata=False,
        )
    return bytes(pdf)
