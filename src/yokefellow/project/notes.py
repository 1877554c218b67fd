"""What the models say about their own fields: the docstrings under the fields.

Read from the source when asked for, not at import: pydantic can do the same
while the classes are made, and every run of the program would pay for it.
"""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from functools import cache
from itertools import pairwise

from yokefellow.project import colourwork, fixed, models, pattern, stash

__all__ = ["field_note"]


def field_note(model: str, field: str) -> str:
    """Give the docstring of a field of a model, on one line; nothing where it has none."""
    return _notes().get((model, field), "")


@cache
def _notes() -> dict[tuple[str, str], str]:
    trees = [
        ast.parse(inspect.getsource(room)) for room in (models, colourwork, fixed, pattern, stash)
    ]
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
