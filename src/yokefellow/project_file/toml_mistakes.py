"""What is wrong with a file that is not TOML: the slips people make, and what to type instead."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import count
from typing import TypeAlias

from yokefellow.findings import Finding, Severity, as_typed

_AT = re.compile(r"\(at line (\d+), column (\d+)\)")
_WORDS = r"(?!(?:true|false|inf|nan)\b)[A-Za-z][\w ./-]*?"
_CURLY = "“”„«»‘’‚"
_KEY = r"^\s*(?P<key>[A-Za-z0-9_.-]+)\s*"
_UNIT = r"(?:[A-Za-z]+\.?|[\"″”°']+|(?<=/[0-9])|(?<=/[0-9][0-9])|(?<=[½¼¾]))"
_AMOUNT = r"[0-9]+(?:[ -][0-9]+/[0-9]+|/[0-9]+|[.,][0-9]+)?[½¼¾]?"

_ITEM = r"(?:\"[^\"]*\"|[0-9]+(?:\.[0-9]+)?)"

# Each slip: its code, the line it looks like, what is so, what to type. The
# order matters: the first that fits a line is told.
_SLIPS: tuple[tuple[str, re.Pattern[str], str, str], ...] = (
    (
        "toml.bracket",
        re.compile(r"^\s*\[\[(?P<key>[A-Za-z0-9_. -]+?)\s*\]?\s*(?:#.*)?$"),
        "the double bracket is not closed",
        "Close the brackets: [[{key}]].",
    ),
    (
        "toml.bracket",
        re.compile(r"^\s*\[(?P<key>[A-Za-z0-9_. -]+?)\s*(?:[)}]|\]\])?\s*(?:#.*)?$"),
        "the bracket is not closed with one of its kind",
        "Close the bracket: [{key}].",
    ),
    (
        "toml.bracket",
        re.compile(r"^\s*(?P<key>[A-Za-z][A-Za-z0-9_.-]*)\s*\]\s*(?:#.*)?$"),
        "a bracket is closed that was not opened",
        "Open the bracket: [{key}].",
    ),
    (
        "toml.curly-quotes",
        re.compile(rf"{_KEY}=\s*\[?\s*[{_CURLY}](?P<value>[^{_CURLY}\"']*)"),
        "the quotes are curly ones, as word processors make them",
        'Type straight quotes: {key} = "{value}".',
    ),
    (
        "toml.no-brackets",
        re.compile(rf"{_KEY}=\s*(?P<value>{_ITEM}(?:(?:,\s+{_ITEM})+|(?:,{_ITEM}){{2,}}))\s*(?:#.*)?$"),
        "several values stand without brackets",
        "Put brackets round them: {key} = [{value}].",
    ),
    (
        "toml.no-brackets",
        re.compile(r"^\s*(?P<key>increases|increase_at)\s*=\s*(?P<value>[0-9]+,[0-9]+)\s*(?:#.*)?$"),
        "several values stand without brackets",
        "Put brackets round them: {key} = [{value}].",
    ),
    (
        "toml.decimal-comma",
        re.compile(rf"{_KEY}=\s*(?P<value>[0-9]+,[0-9]+)\s*(?:#.*)?$"),
        "a number with a decimal comma stands without quotes",
        'Put quotes round it: {key} = "{value}".',
    ),
    (
        "toml.unquoted",
        re.compile(rf"{_KEY}=\s*(?P<value>[-+−]?{_AMOUNT}\s*{_UNIT})\s*(?:#.*)?$"),
        "a number with a unit stands without quotes",
        'Put quotes round it: {key} = "{value}".',
    ),
    (
        "toml.unquoted",
        re.compile(rf"{_KEY}=\s*\[\s*(?P<value>{_AMOUNT} over [^\"'\],]+?)\s*[\],]"),
        "a reading stands without quotes",
        'Put quotes round each reading: {key} = ["{value}"].',
    ),
    (
        "toml.inch-mark",
        re.compile(rf"{_KEY}=\s*\"(?P<value>{_AMOUNT})\s*\"\"\s*(?:#.*)?$"),
        'the mark for inches ends the text too early',
        'Write the unit as letters: {key} = "{value} in".',
    ),
    (
        "toml.true-false",
        re.compile(rf"{_KEY}=\s*(?P<value>True|TRUE|False|FALSE|[Yy]es|[Nn]o|[Oo]n|[Oo]ff)\s*(?:#.*)?$"),
        "yes and no are written true and false, in small letters",
        "Type {key} = true or {key} = false.",
    ),
    (
        "toml.empty-value",
        re.compile(rf"{_KEY}=\s*(?:#.*)?$"),
        "nothing stands after the equals sign",
        "Type a value after {key} =, or put # before the line to leave it out.",
    ),
    (
        "toml.unquoted",
        re.compile(rf"{_KEY}=\s*(?P<value>{_WORDS})\s*(?:#.*)?$"),
        "words stand without quotes",
        'Put quotes round them: {key} = "{value}".',
    ),
    (
        "toml.unclosed",
        re.compile(rf"{_KEY}=\s*\"(?P<value>[^\"#]*?)\s*(?:#.*)?$"),
        "the text is not closed with a second quote",
        'Close it: {key} = "{value}".',
    ),
    (
        "toml.colon",
        re.compile(rf"{_KEY}:\s*(?P<value>.+?)\s*$"),
        "a colon stands where an equals sign belongs",
        "Type {key} = {value}.",
    ),
    (
        "toml.key-with-blank",
        re.compile(r"^\s*(?P<key>[A-Za-z]+(?: +[A-Za-z]+)+)\s*="),
        "the name before the equals sign holds a blank",
        "Join its words with an underline: {joined} = ….",
    ),
)  # fmt: skip

_REASONS = (
    ("Cannot overwrite a value", "toml.repeated", "this name was given before in the same table"),
    ("Cannot declare", "toml.repeated", "this table stands in the file twice"),
    ("Duplicate inline table key", "toml.repeated", "this name stands twice in the same braces"),
    ("Cannot mutate", "toml.repeated", "this table stands in the file twice"),
    ("Unclosed array", "toml.unclosed", "a list is not closed"),
    ("Unterminated string", "toml.unclosed", "a text is not closed with a quote"),
)
_REMEDIES = {
    "toml.repeated": "Keep one of the two and take the other out.",
    "toml.unclosed": "Look for a missing quote or a missing ] in this line or above it.",
}


def slips(text: str, problem: ValueError) -> tuple[Finding, ...]:
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
        for finding in _slip(number, line)
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
    known = [(code, what) for begins, code, what in _REASONS if reason.startswith(begins)]
    if not known or known[0][0] != "toml.repeated":
        for finding in _slip(line_number, line):
            return finding
    several = _ONE_OF_SEVERAL.match(line)
    if known and several:
        return _finding(
            "toml.single-bracket",
            line_number,
            line,
            "a single bracket begins what there may be several of",
            f"Double the brackets, each time it stands there: [[{several['key']}]].",
        )
    header = _HEADER.match(line)
    if known and known[0][0] == "toml.repeated" and header:
        return _twice(lines, line_number, line, ".".join(_parts(header[1])))
    for code, what in known:
        return _finding(code, line_number, line, what, _REMEDIES[code], column)
    if any(ord(letter) < 32 and letter != "\t" for letter in line):
        what, remedy = "it holds a control character", "Type the line anew in a plain text editor."
        return _finding("toml.control-character", line_number, line, what, remedy, column)
    remedy = 'Write it as name = "value", one to a line, with # before a remark.'
    return _finding(
        "toml.syntax", line_number, line, "it cannot be read from there on", remedy, column
    )


def _twice(lines: list[str], line_number: int, line: str, table: str) -> Finding:
    """Say where else a table stands, and what the second of two yarns may be called."""
    headings = [
        (number, ".".join(_parts(read[1])))
        for number, other in enumerate(lines, start=1)
        if (read := _HEADER.match(other))
    ]
    others = [number for number, name in headings if name == table and number != line_number]
    where = f"[{table}] stands in the file twice"
    if others:
        where += f", first in line {others[0]}"
    remedy = _REMEDIES["toml.repeated"]
    if table.startswith("yarn."):
        taken = {name for _, name in headings}
        free = next(code for number in count(1) if (code := f"yarn.CC{number}") not in taken)
        remedy += f" If it is another color, call it [{free}]."
    return _finding("toml.repeated", line_number, line, where, remedy)


def _slip(line_number: int, line: str) -> Iterator[Finding]:
    for code, looks, what, remedy in _SLIPS:
        read = looks.match(line)
        if read is not None:
            words = {key: as_typed(value)[1:-1] for key, value in read.groupdict().items()}
            words["joined"] = words["key"].replace(" ", "_")
            if code == "toml.unquoted":
                words["value"] = re.sub(r"[\"″”']+$", " in", words["value"])
            yield _finding(code, line_number, line, what, remedy.format(**words))
            return


def _finding(
    code: str, line_number: int, line: str, what: str, remedy: str, column: int | None = None
) -> Finding:
    place = f"line {line_number}" + (f", column {column}" if column else "")
    shown = f" ({as_typed(line.strip())})" if line.strip() else ""
    return Finding(code, Severity.ERROR, "", f"In {place}{shown}, {what}.", remedy)


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
    found: Lines = {}
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
            found.setdefault(table, line_number)
            continue
        if key:
            found.setdefault((*table, *_parts(key[1])), line_number)
        bare = _QUOTED.sub("", (key[2] if key else line).replace('"""', "\0").replace("'''", "\1"))
        until = '"""' if bare.count("\0") % 2 else "'''" if bare.count("\1") % 2 else ""
        bare = bare.partition("#")[0]
        depth = max(0, depth + sum(map(bare.count, "[{")) - sum(map(bare.count, "]}")))
    return found


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
