"""What is explained of the mutants that no test notices still speaks of the program as it is."""

from __future__ import annotations

import inspect
from importlib import import_module

import pytest

from tests.mutation.run import HERE, Mutant, explained
from tests.plain_speech import is_sentence

ROOMS = sorted(path.stem for path in (HERE / "survivors").glob("*.toml"))
EXPLAINED = [(mutant, why) for room in ROOMS for mutant, why in explained(room).items()]


def lines_of(mutated: str) -> list[str]:
    """The changed function's lines: `notation.read.x_read`, `notation.read.xǁ_Readerǁyarn`."""
    module, _, name = mutated.rpartition(".")
    found: object = import_module(f"yokefellow.{module}")
    for part in name.removeprefix("x_").removeprefix("xǁ").split("ǁ"):
        found = getattr(found, part)
    assert callable(found)
    return [line.strip() for line in inspect.getsource(found).splitlines()]


@pytest.mark.parametrize(("mutant", "why"), EXPLAINED, ids=lambda one: str(one)[:60])
def test_each_explained_change_is_one_of_the_program_and_has_a_reason(
    mutant: Mutant, why: str
) -> None:
    lines = lines_of(mutant.function)
    taken_out = [line[2:] for line in mutant.change.splitlines() if line.startswith("- ")]
    assert taken_out
    assert [line for line in taken_out if line not in lines] == []
    assert is_sentence(why)
