"""Every remedy that is definite, obeyed: the finding is gone, and no error has come instead."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterable
from typing import Any

import pytest

from tests.project_file.test_load import MEANT, REFUSED
from tests.project_file.test_sense import CAUTIONS, ERRORS, NOTES
from yokefellow.findings import Finding, Mend, ProjectError
from yokefellow.project_file.checks.project import check_project
from yokefellow.project_file.load import parse

TEXTS = sorted(
    {text for text, *_ in (*ERRORS, *CAUTIONS, *NOTES, *REFUSED)} | {text for text, _ in MEANT}
)


def findings_of(text: str) -> tuple[Finding, ...]:
    """Give everything that loading and checking the file finds."""
    try:
        return check_project(parse(text))
    except ProjectError as refused:
        return refused.findings


def mended(text: str, mends: Iterable[Mend]) -> str:
    """Make the changes in the text of a file, and write it anew."""
    tables = tomllib.loads(text)
    for mend in mends:
        *above, last = _steps(mend.field)
        here: Any = tables
        for step in above:
            here = here.setdefault(step, {}) if isinstance(here, dict) else here[step]
        if mend.value is None:
            del here[last]
        else:
            here[last] = tomllib.loads(f"value = {mend.value}")["value"]
    # The keys outside of tables stand first.
    keys = sorted(tables, key=lambda key: isinstance(tables[key], dict))
    return "\n".join(_written(key, tables[key]) for key in keys)


def _steps(field: str) -> list[str | int]:
    return [
        int(number) - 1 if number else name
        for name, number in re.findall(r"([\w-]+)|\[(\d+)\]", field)
    ]


def _written(key: str, value: object) -> str:
    if not isinstance(value, dict):
        return f"{json.dumps(key)} = {_inline(value)}"
    return "\n".join([f"[{json.dumps(key)}]", *(_written_in(k, v) for k, v in value.items())])


def _written_in(key: str, value: object) -> str:
    return f"{json.dumps(key)} = {_inline(value)}"


def _inline(value: object) -> str:
    if isinstance(value, dict):
        return f"{{{', '.join(_written_in(key, inner) for key, inner in value.items())}}}"
    if isinstance(value, list):
        return "[" + ",\n".join(map(_inline, value)) + "]"
    return json.dumps(value, ensure_ascii=False) if isinstance(value, (str, bool)) else f"{value}"


WITH_MENDS = [(text, finding) for text in TEXTS for finding in findings_of(text) if finding.mends]


# snapshot: the tables of cases hold many findings that carry mends
def test_many_findings_carry_mends() -> None:
    assert len({finding.code for _, finding in WITH_MENDS}) > 20


@pytest.mark.parametrize(("text", "finding"), WITH_MENDS)
def test_a_remedy_obeyed_works(text: str, finding: Finding) -> None:
    before = {(one.code, one.field) for one in findings_of(text)}
    after = findings_of(mended(text, finding.mends))
    assert (finding.code, finding.field) not in {(one.code, one.field) for one in after}
    new = {(one.code, one.field) for one in after if one.severity == "error"} - before
    assert not new, [str(one) for one in after]
