"""Hostile words, and a project with them in every field that takes words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from copy import deepcopy
from typing import Any, get_args

from yokefellow.project_file.fields import Model, Typed
from yokefellow.project_file.models import Project

Place = tuple[str | int, ...]

WORDS = {
    "a script": "</script><script>alert(1)</script>",
    "a template": "{{7*7}}{% raw %}${7*7}#{7*7}{# x #}",
    "a path": "../../x",
    "a link": "javascript:alert(1)",
    "a file": "file:///etc/passwd",
    "a style": "</style><style>*{background:url(file:///etc/passwd)}</style>",
    "a style's end": "x'); } @import url(http://127.0.0.1/a); *{content:url(x)",
    "a drawing": "</text><image href='file:///etc/passwd'/><use href='#a'/>",
    "a drawing of its own": "<svg onload=alert(1)><foreignObject><iframe src=x>",
    "an attribute": "\" onfocus=alert(1) autofocus x=\"",
    "an attribute in single quotes": "' onfocus=alert(1) x='",
    "entities": "&lt;b&gt;&#x3c;i&#x3e;&amp;&nbsp",
    "a remark": "]]><!-- <?php ?> --><![CDATA[",
    "a formula": "=HYPERLINK(\"http://127.0.0.1\")",
    "a very long word": "w" * 400,
    "marks upon marks": "a" + "\u0301" * 400,
    "an object of a PDF": ") >> endobj 1 0 obj << /JS (app.alert(1))",
    "signs that few fonts have": "x \U0001f9f6 \U0001f411 \u2ffb",
    "letters that run to the left": "שלום 12",
    "digits that run to the left": "٣٤٥",
    "boxes to tick": "☐ ☐ k5",
}  # fmt: skip


SAMPLE: dict[str, Any] = {
    "title": "Sample",
    "wearer": {"table": "babies", "size": "12", "name": "me"},
    "swatch": {
        "plain": {"washed": {"stitches": ["20 over 10 cm"], "rounds": ["27 over 10 cm"]}},
    },
    "yarn": {
        code: {
            "ball_weight": "50 g",
            "ball_length": "120 m",
            "weights": [50] * 6,
            "lots": [f"ﬀ{number}" for number in range(6)],
        }
        for code in ("MC", "CC1")
    },
    "needles": {"main": "4 mm"},
    "charts": {
        "dots": {"kind": "stranded", "colours": {".": "MC", "#": "CC1"}, "rows": [".#", "#."]},
    },
    "garment": {"yoke": {"bands": [{"chart": "dots"}]}},
    "sheet": {},
}  # fmt: skip
"""A baby's sweater, quick to print, with every table that takes words.

Lots are sorted by their names; these stand behind all of `WORDS`.
"""

READ_AS_NAMES = {("wearer", "size")}
"""Words that are looked up, and refused when they are not found."""


def places(model: type[Model], tables: Mapping[str, Any]) -> Iterator[tuple[Place, int]]:
    """Find every field of free words in the tables that are there, and how much it takes."""
    for name, field in model.model_fields.items():
        for typed in field.metadata:
            if isinstance(typed, Typed):
                yield from (((name, *place), most) for place, most in _of_words(typed.schema))
        for inner in _models(field.annotation):
            for key, given in _inside(inner, tables.get(name)):
                yield from (((name, *key, *place), most) for place, most in places(inner, given))


def _of_words(schema: Mapping[str, Any]) -> Iterator[tuple[Place, int]]:
    if schema.get("type") == "string" and "maxLength" in schema and "pattern" not in schema:
        yield (), schema["maxLength"]
    if schema.get("type") == "array" and schema["items"].get("type") == "string":
        yield (0,), schema["items"]["maxLength"]


def _models(annotation: object) -> Iterator[type[Model]]:
    if isinstance(annotation, type) and issubclass(annotation, Model):
        yield annotation
    for part in get_args(annotation):
        yield from _models(part)


def _inside(model: type[Model], given: object) -> Iterator[tuple[Place, Mapping[str, Any]]]:
    """Look into a table, or into each of a list or a table of tables."""
    if isinstance(given, list):
        yield from (((at,), one) for at, one in enumerate(given))
    elif isinstance(given, dict) and not set(given) <= set(model.model_fields):
        yield from (((key,), one) for key, one in given.items())
    elif isinstance(given, dict):
        yield (), given


PLACES = tuple(
    (place, most) for place, most in places(Project, SAMPLE) if place not in READ_AS_NAMES
)


def tables_with(*words: str) -> dict[str, Any]:
    """Give the sample's tables with the words in every field that takes any, in turn."""
    tables = deepcopy(SAMPLE)
    for number, (place, most) in enumerate(PLACES):
        at: Any = tables
        for key in place[:-1]:
            at = at[key]
        at[place[-1]] = words[number % len(words)][:most]
    return tables


def with_words(*words: str) -> Project:
    """Give the sample with the words in every field that takes any, one after another."""
    return Project.model_validate(tables_with(*words), context={"unit": "cm"})
