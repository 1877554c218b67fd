"""`follow` and `begin --pattern`: from a table to type into, to the size to follow."""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path

from tests.cli.running import EXAMPLE, REFUSED, ROOT, one_line, run

PATTERN = ROOT / "examples" / "grandmothers-green.toml"


def test_the_sizes_stand_in_a_table_and_the_one_to_follow_is_marked() -> None:
    result = run("follow", PATTERN)
    assert result.exit_code == 0
    marked = [line for line in result.stdout.splitlines() if line.startswith("* ")]
    assert {line.split()[1] for line in marked} == {"XL"}
    # derived: 240 stitches at 23 in 10 cm
    assert f"{240 / 2.3:.1f} cm" in marked[0]
    assert "plain rounds more before the split" in one_line(result.stdout)


def test_as_data_the_rounds_add_up() -> None:
    found = json.loads(run("follow", PATTERN, "--as", "json").stdout)
    assert found["followed"] == found["nearest"] == "XL"
    rounds = found["rounds"]
    assert [one["first"] for one in rounds[1:]] == [one["last"] + 1 for one in rounds[:-1]]
    printed = rounds[-1]["printed_last"]
    assert rounds[-1]["last"] - printed == sum(one["more"] for one in rounds)


def test_a_file_without_a_pattern_is_told_how_to_get_one() -> None:
    result = run("follow", EXAMPLE)
    assert result.exit_code == REFUSED
    assert "begin FILE --pattern" in one_line(result.stderr)


def test_begin_can_leave_room_for_a_pattern(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    assert run("begin", file, "--pattern", "--size", "M").exit_code == 0
    tables = tomllib.loads(file.read_text("utf-8"))
    assert tables["pattern"]["sizes"] == [{"size": "M"}]
    assert run("check", file).exit_code == REFUSED
    other = tmp_path / "filled.toml"
    other.write_text(filled_in(file.read_text("utf-8")), "utf-8")
    result = run("follow", other)
    assert result.exit_code == 0, result.stderr
    assert "* M" in result.stdout


def filled_in(text: str) -> str:
    """Take the # away from every line that asks for it, as a knitter would."""
    lines, asked = [], False
    for line in text.splitlines():
        asks = "FILL IN" in line
        # What only a raglan has is left out of a round yoke.
        is_field = re.match(r"# (?!neck_)\w+ = ", line) is not None
        lines.append(line.removeprefix("# ") if asked and is_field else line)
        # What a remark between two of the fields says does not end what was asked.
        asked = asks or (asked and line.startswith("#"))
    return "\n".join(lines)
