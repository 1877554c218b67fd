"""What is wrong with a file that is not TOML: the mistakes people make, and what to type."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import count
from typing import TypeAlias

from yokefellow.findings import Finding, Severity, as_typed
from yokefellow.words import found, words

_AT = re.compile(r"line (\d+)\D+(\d+)")
_WORDS = r"(?!(?:true|false|inf|nan)\b)[A-Za-z][\w ./-]*?"
_CURLY = "“”„«»‘’‚"
_KEY = r"^\s*(?P<key>[A-Za-z0-9_.-]+)\s*"
_UNIT = r"(?:[A-Za-z]+\.?|[\"″”°']+|(?<=/[0-9])|(?<=/[0-9][0-9])|(?<=[½¼¾]))"
_AMOUNT = r"[0-9]+(?:[ -][0-9]+/[0-9]+|/[0-9]+|[.,][0-9]+)?[½¼¾]?"

_END = r"\s*(?:#.*)?$"
_ITEM = r"(?:\"[^\"]*\"|[0-9]+(?:\.[0-9]+)?)"

# Each mistake: its code, its sentence, the line it looks like. The order
# matters: the first that fits a line is told.
_MISTAKES: tuple[tuple[str, str, re.Pattern[str]], ...] = (
    ("toml.bracket", "double_bracket",
     re.compile(r"^\s*\[\[(?P<key>[A-Za-z0-9_. -]+?)\s*\]?\s*(?:#.*)?$")),
    ("toml.bracket", "bracket",
     re.compile(r"^\s*\[(?P<key>[A-Za-z0-9_. -]+?)\s*(?:[)}]|\]\])?\s*(?:#.*)?$")),
    ("toml.bracket", "opening_bracket",
     re.compile(r"^\s*(?P<key>[A-Za-z][A-Za-z0-9_.-]*)\s*\]\s*(?:#.*)?$")),
    ("toml.curly-quotes", "curly_quotes",
     re.compile(rf"{_KEY}=\s*\[?\s*[{_CURLY}](?P<value>[^{_CURLY}\"']*)")),
    ("toml.no-brackets", "no_brackets",
     re.compile(rf"{_KEY}=\s*(?P<value>{_ITEM}(?:(?:,\s+{_ITEM})+|(?:,{_ITEM}){{2,}})){_END}")),
    ("toml.no-brackets", "no_brackets",
     re.compile(r"^\s*(?P<key>increases|increase_at)\s*=\s*(?P<value>[0-9]+,[0-9]+)\s*(?:#.*)?$")),
    ("toml.decimal-comma", "decimal_comma",
     re.compile(rf"{_KEY}=\s*(?P<value>[0-9]+,[0-9]+){_END}")),
    ("toml.unquoted", "unquoted",
     re.compile(rf"{_KEY}=\s*(?P<value>[-+−]?{_AMOUNT}\s*{_UNIT}){_END}")),
    ("toml.unquoted", "unquoted_reading",
     re.compile(rf"{_KEY}=\s*\[\s*(?P<value>{_AMOUNT} over [^\"'\],]+?)\s*[\],]")),
    ("toml.inch-mark", "inch_mark",
     re.compile(rf"{_KEY}=\s*\"(?P<value>{_AMOUNT})\s*\"\"{_END}")),
    ("toml.true-false", "true_false",
     re.compile(rf"{_KEY}=\s*(?P<value>True|TRUE|False|FALSE|[Yy]es|[Nn]o|[Oo]n|[Oo]ff){_END}")),
    ("toml.empty-value", "empty_value",
     re.compile(rf"{_KEY}={_END}")),
    ("toml.unquoted", "unquoted_words",
     re.compile(rf"{_KEY}=\s*(?P<value>{_WORDS}){_END}")),
    ("toml.unclosed", "unclosed_quote",
     re.compile(rf"{_KEY}=\s*\"(?P<value>[^\"#]*?){_END}")),
    ("toml.colon", "colon",
     re.compile(rf"{_KEY}:\s*(?P<value>.+?)\s*$")),
    ("toml.key-with-blank", "key_with_blank",
     re.compile(r"^\s*(?P<key>[A-Za-z]+(?: +[A-Za-z]+)+)\s*=")),
)  # fmt: skip

_REASONS = (
    ("Cannot overwrite", "toml.repeated", "name_twice"),
    ("Cannot declare", "toml.repeated", "table_twice"),
    ("Duplicate inline table", "toml.repeated", "name_twice_in_braces"),
    ("Cannot mutate", "toml.repeated", "table_twice"),
    ("Unclosed array", "toml.unclosed", "unclosed_list"),
    ("Unterminated string", "toml.unclosed", "unclosed_text"),
)
"""How the TOML reader begins its complaint, and the code and the sentence of it."""


def toml_mistakes(text: str, problem: ValueError) -> tuple[Finding, ...]:
    """Explain why the text is not TOML: the line that stopped the reading, and its like.

    Args:
        text: the file.
        problem: what the TOML reader raised.
    """
    lines = text.splitlines()
    line_number, column = _where(problem, lines)
    stopped = _at_stop(lines, line_number, column, str(problem))
    # A form filled in by hand repeats its slip: tell all that are certain, in one go.
    alike = [
        finding
        for number, line in enumerate(lines, start=1)
        if number != line_number
        for finding in _mistakes_in(number, line)
        if finding.code == stopped.code != "toml.syntax"
    ]
    return (stopped, *alike[:20])


def _where(problem: ValueError, lines: list[str]) -> tuple[int, int]:
    at = _AT.search(str(problem))
    if at is None:
        return max(len(lines), 1), 1
    return int(at[1]), int(at[2])


_ONE_OF_SEVERAL = re.compile(
    r"^\s*\[(?P<key>pattern\.sizes|garment\.(?:yoke|body|sleeves)\.bands)\]\s*(?:#.*)?$"
)


def _at_stop(lines: list[str], line_number: int, column: int, reason: str) -> Finding:
    line = lines[line_number - 1] if line_number <= len(lines) else ""
    known = next(
        ((code, name) for begins, code, name in _REASONS if reason.startswith(begins)), None
    )
    if known is None or known[0] != "toml.repeated":
        for finding in _mistakes_in(line_number, line):
            return finding
    where = _where_is(line_number, line)
    if known and (several := _ONE_OF_SEVERAL.match(line)):
        return found("toml.single-bracket", Severity.ERROR, "", where=where, table=several["key"])
    header = _HEADER.match(line)
    if known and known[0] == "toml.repeated" and header:
        return _twice(lines, line_number, line, ".".join(_parts(header[1])))
    where = _where_is(line_number, line, column)
    if known:
        return found(known[0], Severity.ERROR, "", sentence=known[1], where=where)
    if any(ord(letter) < 32 and letter != "\t" for letter in line):
        return found("toml.control-character", Severity.ERROR, "", where=where)
    return found("toml.syntax", Severity.ERROR, "", where=where)


def _twice(lines: list[str], line_number: int, line: str, table: str) -> Finding:
    """Say where else a table stands, and what the second of two yarns may be called."""
    headings = [
        (number, ".".join(_parts(read[1])))
        for number, other in enumerate(lines, start=1)
        if (read := _HEADER.match(other))
    ]
    others = [number for number, name in headings if name == table and number != line_number]
    free = ""
    if table.startswith("yarn."):
        taken = {name for _, name in headings}
        free = next(code for number in count(1) if (code := f"yarn.CC{number}") not in taken)
    return found(
        "toml.repeated",
        Severity.ERROR,
        "",
        sentence="heading_twice",
        where=_where_is(line_number, line),
        table=table,
        first=others[0] if others else None,
        free=free,
    )


def _mistakes_in(line_number: int, line: str) -> Iterator[Finding]:
    for code, sentence, looks in _MISTAKES:
        read = looks.match(line)
        if read is not None:
            typed = {key: as_typed(value)[1:-1] for key, value in read.groupdict().items()}
            value = typed.get("value", "")
            yield found(
                code,
                Severity.ERROR,
                "",
                sentence=sentence,
                where=_where_is(line_number, line),
                key=typed["key"],
                value=re.sub(r"[\"″”']+$", " in", value) if code == "toml.unquoted" else value,
                joined=typed["key"].replace(" ", "_"),
            )
            return


def _where_is(line_number: int, line: str, column: int | None = None) -> str:
    shown = as_typed(line.strip()) if line.strip() else ""
    return words("toml").where(line=line_number, column=column, shown=shown)


Lines: TypeAlias = dict[tuple[str | int, ...], int]
"""The line of each place in a file, counted from 1."""

_HEADER = re.compile(r"\s*\[([^\[\]\"']+)\]\s*(?:#.*)?$")
_LIST_HEADER = re.compile(r"\s*\[\[([^\[\]\"']+)\]\]\s*(?:#.*)?$")
_KEY_LINE = re.compile(r"\s*([A-Za-z0-9_-]+(?:\s*\.\s*[A-Za-z0-9_-]+)*)\s*=(.*)$")
_QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'')


def key_lines(text: str) -> Lines:
    """Give the line of each table header and each plain key, counted from 1.

    Quoted keys, keys inside an inline table, and whatever stands within a text
    of several lines are not looked for.
    """
    places: Lines = {}
    items: Counter[tuple[str, ...]] = Counter()
    table: tuple[str | int, ...] = ()
    until = ""
    depth = 0
    for line_number, line in enumerate(text.splitlines(), start=1):
        if until:
            until = "" if until in line else until
            continue
        key = _KEY_LINE.match(line) if depth == 0 else None
        header = (_HEADER.match(line) or _LIST_HEADER.match(line)) if depth == 0 else None
        if header:
            table = _parts(header[1])
            if header.re is _LIST_HEADER:
                items[table] += 1
                table = (*table, items[table] - 1)
            places.setdefault(table, line_number)
            continue
        if key:
            places.setdefault((*table, *_parts(key[1])), line_number)
        bare = _QUOTED.sub("", (key[2] if key else line).replace('"""', "\0").replace("'''", "\1"))
        until = '"""' if bare.count("\0") % 2 else "'''" if bare.count("\1") % 2 else ""
        bare = bare.partition("#")[0]
        depth = max(0, depth + sum(map(bare.count, "[{")) - sum(map(bare.count, "]}")))
    return places


_REMARKED = re.compile(r"\s*#+\s*\[{1,2}([A-Za-z0-9_. -]+)\]{1,2}\s*(?:#.*)?$")


def remarked_headings(text: str) -> dict[str, int]:
    """Give the last line in which each table's heading stands behind a `#`, counted from 1."""
    return {
        ".".join(_parts(heading[1])): number
        for number, line in enumerate(text.splitlines(), start=1)
        if (heading := _REMARKED.match(line))
    }


def _parts(dotted: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in dotted.split("."))


def find_line(lines: Lines, place: Sequence[str | int]) -> int | None:
    """Give the line of the key at `place`, or of the list it is an item of; None when not seen."""
    if tuple(place) in lines:
        return lines[tuple(place)]
    keys = tuple(part for part in place if isinstance(part, str))
    return lines.get(keys)
