"""The sentences a knitter reads: `templates/words/<language>/<topic>.j2`.

A topic is a file of jinja2 macros, one macro a sentence or a short passage, in the order in which
a knitter meets them; what varies is a named value. Python chooses the sentence and fills it in,
and writes none. A language is a folder; a topic it does not have is read in English.

The text is plain: whoever puts it into a page escapes it there. Line breaks in a macro are blanks.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from yokefellow import __version__
from yokefellow.findings import Finding, Mend, Severity
from yokefellow.package_data import package_folder

if TYPE_CHECKING:
    from jinja2 import BytecodeCache, Environment

LANGUAGE = "en"


class Topic:
    """The sentences of one topic, called by their names: `words("neck").join(stitches=96)`."""

    __slots__ = ("_module",)

    def __init__(self, module: object) -> None:
        self._module = module

    def __getattr__(self, name: str) -> Callable[..., str]:
        """Give a sentence to be filled in.

        Raises:
            AttributeError: the topic has no sentence of this name.
        """
        macro = getattr(self._module, name)

        def filled(**values: object) -> str:
            return " ".join(str(macro(**values)).split())

        return filled

    def has(self, name: str) -> bool:
        """Tell whether the topic has a sentence of this name."""
        return hasattr(self._module, name)


@cache
def words(topic: str, *, language: str = LANGUAGE, folder: Path | None = None) -> Topic:
    """Give the sentences of a topic, such as `"neck"` or `"findings/swatch"`.

    Args:
        topic: a file of the language's folder, without its ending.
        language: the folder.
        folder: where the languages stand; the package's own when not given.

    Raises:
        jinja2.TemplateNotFound: neither the language nor English has the topic.
    """
    languages = folder or package_folder("templates") / "words"
    return Topic(_environment(languages, language).get_template(f"{topic}.j2").module)


@cache
def _environment(folder: Path, language: str) -> Environment:
    # Imported here: a run that says nothing does without.
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    english = package_folder("templates") / "words" / LANGUAGE
    environment = Environment(
        loader=FileSystemLoader([folder / language, english]),
        undefined=StrictUndefined,
        autoescape=False,  # noqa: S701 -- plain text; a page escapes what it shows
        bytecode_cache=compiled_templates(),
    )
    environment.filters |= {"plural": plural, "and_list": and_list, "or_list": or_list}
    return environment


@cache
def compiled_templates() -> BytecodeCache | None:
    """Give the place in the user's cache folder where compiled templates are kept.

    Where nothing can be kept, each run compiles anew.
    """
    from jinja2 import FileSystemBytecodeCache
    from jinja2.bccache import Bucket
    from platformdirs import user_cache_path

    class Kept(FileSystemBytecodeCache):
        """Goes on without what cannot be read or written."""

        def load_bytecode(self, bucket: Bucket) -> None:
            with suppress(OSError):
                super().load_bytecode(bucket)

        def dump_bytecode(self, bucket: Bucket) -> None:
            with suppress(OSError):
                super().dump_bytecode(bucket)

    # Of each version its own: what is compiled depends on more than the text of a template.
    folder = user_cache_path("yokefellow") / f"templates-{__version__}"
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return None
    return Kept(str(folder))


def plural(count: float, one: str, many: str | None = None) -> str:
    """Word a count with its noun.

    >>> plural(1, "stitch", "stitches"), plural(3, "row")
    ('1 stitch', '3 rows')
    """
    return f"{count:g} {one if count == 1 else many or f'{one}s'}"


def and_list(items: Iterable[object]) -> str:
    """List what belongs together.

    >>> and_list(["a", "b", "c"]), and_list(["a", "b"]), and_list(["a"])
    ('a, b and c', 'a and b', 'a')
    """
    return _listed(items, "and")


def or_list(items: Iterable[object]) -> str:
    """List what to choose from.

    >>> or_list([1, 2, 5])
    '1, 2 or 5'
    """
    return _listed(items, "or")


def _listed(items: Iterable[object], last_by: str) -> str:
    *most, last = map(str, items)
    return f"{', '.join(most)} {last_by} {last}" if most else last


def found(
    code: str,
    severity: Severity,
    field: str,
    *,
    mends: tuple[Mend, ...] = (),
    sentence: str = "",
    **values: object,
) -> Finding:
    """Make a finding whose message and remedy are the sentences of its code.

    They stand in `findings/<first part of the code>.j2`, for `body.arm-wide` as the macros
    `arm_wide` and `arm_wide_remedy`, and are given the values by name. Where a code can be found in
    several ways, `sentence` is the name of the macro instead.

    Raises:
        AttributeError: no sentence was written for the code.
    """
    topic, _, rule = code.partition(".")
    sentences = words(f"findings/{topic}")
    name = sentence or rule.replace("-", "_")
    message = getattr(sentences, name)(**values)
    remedy = getattr(sentences, f"{name}_remedy")(**values)
    return Finding(code, severity, field, message, remedy, mends, tuple(values.items()))
