"""Every example in a docstring is run: one that is no longer true is worse than none."""

from __future__ import annotations

import doctest
from importlib import import_module
from pathlib import Path

import pytest

import yokefellow

PACKAGE = Path(yokefellow.__file__).parent
EXAMPLES = sorted(file for file in PACKAGE.rglob("*.py") if ">>> " in file.read_text("utf-8"))


def name(file: Path) -> str:
    inside = file.relative_to(PACKAGE.parent).with_suffix("")
    return ".".join(inside.parts).removesuffix(".__init__")


@pytest.mark.parametrize("module", [name(file) for file in EXAMPLES])
def test_the_examples_of_a_module_are_true(module: str) -> None:
    found = doctest.testmod(import_module(module))
    assert found.attempted
    assert found.failed == 0
