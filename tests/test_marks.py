"""Every expected number in a test says where it comes from.

A mark is a comment or a sentence of the docstring, in the test, in its
parametrisation, or right above it: `published: author, title, year`,
`derived`, `common practice, no source` or `snapshot`. Looked at are the numbers that
an `assert` compares with, and those of a parametrisation by whose names it
compares; 0, 1 and 2, and tolerances below a millionth, need no mark.
"""

from __future__ import annotations

import ast
import io
import re
import tokenize
from collections.abc import Iterator
from pathlib import Path

import pytest

TESTS = Path(__file__).parent
MODULES = sorted(path for path in TESTS.rglob("test_*.py") if "benchmarks" not in path.parts)

MARK = re.compile(r"published: \w|\bderived\b|common practice|\bsnapshot\b", re.IGNORECASE)
NEEDS_NONE = (0, 1, 2)
TOLERANCE = 1e-6

HOLDING = {"approx", "set", "frozenset", "tuple", "list", "dict", "Counter", "round"}
"""Calls that hold expected numbers; what other calls are given is their input."""

Test = ast.FunctionDef | ast.AsyncFunctionDef


def numbers(node: ast.AST) -> Iterator[float]:
    """Find the numbers an operand of a comparison holds."""
    match node:
        case ast.Constant(value=int() | float() as value) if not isinstance(value, bool):
            if value not in NEEDS_NONE and abs(value) > TOLERANCE:
                yield value
        case ast.Call(func=ast.Name(id=name) | ast.Attribute(attr=name)):
            if name in HOLDING:
                for argument in (*node.args, *(keyword.value for keyword in node.keywords)):
                    yield from numbers(argument)
        case ast.Subscript():
            yield from numbers(node.value)
        case ast.Compare() | ast.Lambda():
            return
        case _:
            for child in ast.iter_child_nodes(node):
                yield from numbers(child)


def names(node: ast.AST) -> Iterator[str]:
    """Find the names an operand of a comparison is, or holds."""
    match node:
        case ast.Name(id=name):
            yield name
        case ast.Call(func=ast.Name(id=name) | ast.Attribute(attr=name)):
            if name in HOLDING:
                for argument in node.args:
                    yield from names(argument)
        case _:
            for child in ast.iter_child_nodes(node):
                yield from names(child)


def operands(test: Test) -> Iterator[ast.expr]:
    """Find what the asserts of a test compare."""
    for node in ast.walk(test):
        if isinstance(node, ast.Assert):
            for part in ast.walk(node.test):
                if isinstance(part, ast.Compare):
                    yield from (part.left, *part.comparators)


def expected(test: Test) -> Iterator[float]:
    """Find the numbers that a test expects: compared with, itself or by a parameter's name."""
    compared = set()
    for operand in operands(test):
        yield from numbers(operand)
        compared |= set(names(operand))
    for decorator in test.decorator_list:
        if isinstance(decorator, ast.Call) and ast.unparse(decorator.func).endswith("parametrize"):
            yield from parameters(decorator, compared)


def parameters(decorator: ast.Call, compared: set[str]) -> Iterator[float]:
    """Find the numbers of a parametrisation that stand under one of the names compared with."""
    given = re.findall(r"\w+", ast.unparse(decorator.args[0]))
    cases = decorator.args[1]
    for case in cases.elts if isinstance(cases, ast.List | ast.Tuple) else [cases]:
        if isinstance(case, ast.Call) and ast.unparse(case.func).endswith("param"):
            values = case.args
        elif isinstance(case, ast.Tuple) and len(given) > 1:
            values = case.elts
        else:
            values = [case] * len(given)
        for name, value in zip(given, values, strict=True):
            if name in compared:
                yield from numbers(value)


def comments(source: str) -> dict[int, str]:
    """Give every comment by its line."""
    tokens = tokenize.generate_tokens(io.StringIO(source).readline)
    return {token.start[0]: token.string for token in tokens if token.type == tokenize.COMMENT}


def said(test: Test, by_line: dict[int, str]) -> str:
    """Gather what is said in words in a test, its parametrisation, and right above it."""
    first = min((decorator.lineno for decorator in test.decorator_list), default=test.lineno)
    while first - 1 in by_line:
        first -= 1
    words = [
        by_line[line] for line in range(first, (test.end_lineno or first) + 1) if line in by_line
    ]
    return "\n".join([*words, ast.get_docstring(test) or ""])


def unmarked(source: str) -> Iterator[str]:
    """Name the tests of a module with an expected number and no mark."""
    by_line = comments(source)
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, Test) and node.name.startswith("test_"):
            found = sorted(set(expected(node)))
            if found and not MARK.search(said(node, by_line)):
                yield f"line {node.lineno}, {node.name}: {', '.join(f'{n:g}' for n in found[:6])}"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(TESTS)))
def test_every_expected_number_says_where_it_comes_from(path: Path) -> None:
    assert list(unmarked(path.read_text(encoding="utf-8"))) == []


UNMARKED = """
@pytest.mark.parametrize("given, wanted", [(7, 8)])
def test_one(given, wanted):
    assert found(given) == wanted

def test_two():
    assert found(7) == (pytest.approx(3.5), [0, 1, 2])

def test_three():
    for row in rows:
        assert len(row) != 9, "derived in a string is no mark"
"""

MARKED = '''
# published: someone, something, 1971
@pytest.mark.parametrize("given, wanted", [(7, 8)])
def test_one(given, wanted):
    assert found(given) == wanted

@pytest.mark.parametrize("seed", [7])
def test_five(seed):
    assert found(seed) == found(seed)

def test_two():
    # derived: half of seven
    assert found(7) == pytest.approx(3.5)

def test_three():
    """snapshot: of the first page"""
    assert len(row) == 9

def test_four():
    assert found(12, over=30)[5] == wanted(17) and count(99) in (0, 1, 2)
    assert off <= 1e-9 and flag is True
'''


def test_the_scanner_finds_what_is_unmarked_and_nothing_else() -> None:
    assert [line.split(", ")[1].split(":")[0] for line in unmarked(UNMARKED)] == [
        "test_one",
        "test_two",
        "test_three",
    ]
    assert list(unmarked(MARKED)) == []
    assert list(unmarked(MARKED.replace("derived: half of seven", "it must be so"))) != []
