"""What is written as JSON says its names: a named tuple would be a bare list without a word."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from yokefellow.cli.program import program

EXAMPLES = sorted((Path(__file__).parents[1] / "examples").glob("*.toml"))

SAID = (
    ("sheet", "--as", "json"),
    ("suppose", "--as", "json"),
    ("longest", "--as", "json"),
    ("follow", "--as", "json"),
    ("weigh", "--left", "90 g", "--after", "yoke", "--as", "json"),
)


def nameless(value: object, at: str = "") -> Iterator[str]:
    """Find the records among what is to be written."""
    if hasattr(value, "_fields"):
        yield at
    elif isinstance(value, dict):
        for name, one in value.items():
            yield from nameless(one, f"{at}/{name}")
    elif isinstance(value, list | tuple):
        for place, one in enumerate(value):
            yield from nameless(one, f"{at}/{place}")


def test_a_record_among_the_data_is_found() -> None:
    point = type("Point", (tuple,), {"_fields": ("x", "y")})
    assert list(nameless({"a": [{"b": point((1, 2))}]})) == ["/a/0/b"]  # derived: as it stands


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: str(path.stem))
@pytest.mark.parametrize("said", SAID, ids=" ".join)
def test_no_record_is_written_as_a_list(
    said: tuple[str, ...], example: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "mine.toml"
    file.write_text(example.read_text("utf-8"), "utf-8")
    written: list[Any] = []
    dumps = json.dumps

    def heard(value: object, **how: Any) -> str:
        written.append(value)
        return dumps(value, **how)

    monkeypatch.setattr(json, "dumps", heard)
    verb, *how = said
    done = CliRunner().invoke(program, [verb, str(file), *how])
    if done.exit_code == 0:
        assert any(isinstance(value, dict) and len(value) > 1 for value in written), done.output
    assert [at for value in written for at in nameless(value)] == []
