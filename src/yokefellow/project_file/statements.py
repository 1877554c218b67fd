"""What the models state of their fields, for whoever shows them: a fresh file, a schema, a form.

A field's limits, kind and words stand in its reader (`Typed`), its label, question and relevance
beside it (`Stated`), its help in the docstring below it. The docstrings are read from the source
when they are asked for, not at import: pydantic can do the same while the classes are made, and
every run of the program would pay for it.
"""

from __future__ import annotations

import ast
import inspect
import textwrap
import typing
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from yokefellow.project_file import models, pattern, pins
from yokefellow.project_file.fields import Stated, Typed
from yokefellow.project_file.models import Project

NAMES = {"yarn": "MC", "charts": "my-dots"}
"""A name for each table that a knitter names herself."""


@dataclass(frozen=True, slots=True)
class FieldFacts:
    """One field of the project file."""

    place: tuple[str, ...]
    """Where it stands: `("yarn", "MC", "balls")`."""
    typed: Typed
    """Reads one value of it, and knows its kind, limits and words."""
    is_list: bool
    """Whether several readings stand in it."""
    is_required: bool
    default: object
    help: str
    """What it is, and how it is measured."""
    stated: Stated

    @property
    def name(self) -> str:
        """Its name in the file."""
        return self.place[-1]

    @property
    def field(self) -> str:
        """Its place, dotted."""
        return ".".join(self.place)

    @property
    def label(self) -> str:
        """What it is called where no file is to be seen."""
        return self.stated.label or _spaced(self.name)

    @property
    def first_value(self) -> tuple[str | int, ...]:
        """The place of its value, or of the first of its readings."""
        return (*self.place, 0) if self.is_list else self.place


@dataclass(frozen=True, slots=True)
class TableFacts:
    """One table of the project file, in the order of the file."""

    place: tuple[str, ...]
    heading: str
    """What it is about, and how it is filled in."""
    fields: tuple[FieldFacts, ...]
    tables: tuple[TableFacts, ...]
    is_list: bool = False
    """Whether there may be several, each under `[[...]]`."""
    is_optional: bool = False
    """Whether a sweater can be planned without it."""


@cache
def project_table() -> TableFacts:
    """Give every table and field of the project file."""
    return _table(Project, ())


def every_field(table: TableFacts | None = None) -> Iterator[FieldFacts]:
    """Go through the fields of a table, or of the whole file, in the order of the file."""
    here = table or project_table()
    yield from here.fields
    for below in here.tables:
        yield from every_field(below)


@cache
def first_questions() -> tuple[FieldFacts, ...]:
    """Give what is asked first, in order: the unit before all else, since the others need it."""
    asked = [field for field in every_field() if field.stated.question and _is_asked(field)]
    return tuple(sorted(asked, key=lambda field: field.place != ("unit",)))


@cache
def second_color_questions() -> tuple[FieldFacts, ...]:
    """Give what is asked of another color; the first left empty, none of the others is asked."""
    main = {field.name: field for field in every_field() if field.place[:2] == ("yarn", "MC")}
    (chart,) = (field for field in every_field() if field.field == "garment.yoke.bands.chart")
    asked = {
        "ball_weight": "Have you a second color? What does one ball of it weigh?",
        "ball_length": "How long is the yarn of one ball of it?",
        "balls": "How many balls of it have you?",
    }
    yarn = (
        replace(main[name], place=("yarn", "CC1", name), stated=Stated(question=question))
        for name, question in asked.items()
    )
    band = Stated(question="Which motif shall the yoke show in it?", usual="pebbles")
    return (*yarn, replace(chart, stated=band))


def _is_asked(field: FieldFacts) -> bool:
    """Ask for one swatch only: the plain one, washed."""
    return field.place[0] != "swatch" or field.place[:3] == ("swatch", "plain", "washed")


def _spaced(name: str) -> str:
    return name.replace("_", " ").capitalize()


def field_label(model: str, field: str) -> str:
    """Give what a field of a model is called where no file is to be seen."""
    return next(
        (
            one.label
            for room in (models, pattern, pins)
            for name, known in vars(room).items()
            if name == model
            for one in known.model_fields[field].metadata
            if isinstance(one, Stated) and one.label
        ),
        _spaced(field),
    )


def field_help(model: str, field: str) -> str:
    """Give the docstring of a field of a model, on one line; nothing where it has none."""
    return _helps().get((model, field), "")


@cache
def _helps() -> dict[tuple[str, str], str]:
    trees = [ast.parse(inspect.getsource(room)) for room in (models, pattern, pins)]
    classes = [node for tree in trees for node in tree.body if isinstance(node, ast.ClassDef)]
    return {(node.name, field): note for node in classes for field, note in _of_class(node)}


def _of_class(node: ast.ClassDef) -> Iterator[tuple[str, str]]:
    for field, below in pairwise(node.body):
        if (
            isinstance(field, ast.AnnAssign)
            and isinstance(field.target, ast.Name)
            and isinstance(below, ast.Expr)
            and isinstance(below.value, ast.Constant)
            and isinstance(below.value.value, str)
        ):
            yield field.target.id, " ".join(below.value.value.split())


def _table(
    model: type[BaseModel],
    place: tuple[str, ...],
    *,
    is_list: bool = False,
    is_optional: bool = False,
) -> TableFacts:
    fields: list[FieldFacts] = []
    tables: list[TableFacts] = []
    for name, info in model.model_fields.items():
        below = (*place, name)
        inner, is_several, is_named = _inner(info.annotation)
        if isinstance(inner, type) and issubclass(inner, BaseModel):
            at = (*below, NAMES[name]) if is_named else below
            is_needed = info.is_required()
            has_default = not is_needed and info.default not in (None, ()) and not is_named
            is_bare = not is_needed and not has_default
            own = field_help(model.__name__, name)
            made = _table(inner, at, is_list=is_several, is_optional=is_bare)
            # Several fields hold the same kind of table: what each is for stands at the field.
            tables.append(replace(made, heading=own) if own and place else made)
            continue
        fields.append(_field(model.__name__, below, info, is_several=is_several))
    heading = " ".join(textwrap.dedent(model.__doc__ or "").split())
    return TableFacts(
        place, heading, tuple(fields), tuple(tables), is_list=is_list, is_optional=is_optional
    )


def _field(model: str, place: tuple[str, ...], info: FieldInfo, *, is_several: bool) -> FieldFacts:
    typed = next((one for one in info.metadata if isinstance(one, Typed)), None)
    is_list = typed is None
    if typed is None:
        inside = typing.get_args(info.annotation)[0]
        typed = next(one for one in typing.get_args(inside) if isinstance(one, Typed))
    stated = next((one for one in info.metadata if isinstance(one, Stated)), Stated())
    return FieldFacts(
        place,
        typed,
        is_list=is_list and is_several,
        is_required=info.is_required(),
        default=None if info.is_required() else info.default,
        help=field_help(model, place[-1]),
        stated=stated,
    )


def _inner(annotation: object) -> tuple[object, bool, bool]:
    """Give what a field holds one of, whether it is a list of it, and whether each has a name."""
    origin, arguments = typing.get_origin(annotation), typing.get_args(annotation)
    if origin is tuple:
        return arguments[0], True, False
    if origin is dict:
        return arguments[1], False, True
    kinds = [kind for kind in arguments if kind is not type(None)]
    return (kinds[0] if kinds else annotation), False, False
