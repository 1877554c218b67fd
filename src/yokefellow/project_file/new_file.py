"""A fresh project file, written from what the models state of their fields."""

from __future__ import annotations

import json
import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TypeAlias

from yokefellow.findings import Finding, ProjectError, Severity
from yokefellow.project_file.fields import Kind, NamedLength, remedy
from yokefellow.project_file.statements import (
    FieldFacts,
    TableFacts,
    every_field,
    first_questions,
    project_table,
    second_color_questions,
)
from yokefellow.quantities import LengthUnit, QuantityError, is_bare, length_unit, show_tape

Answers: TypeAlias = Mapping[str, str | Sequence[str]]
"""What the knitter typed, by the dotted field; a list for a field that takes several readings."""

WIDTH = 78
"""Letters in a line of a remark."""


def usual(field: FieldFacts, *, unit: LengthUnit) -> str | None:
    """Give what is taken when a first question is left without an answer; None for nothing."""
    stated = field.stated
    return (unit == "in" and stated.usual_in_inches) or stated.usual or None


def hint(field: FieldFacts, *, unit: LengthUnit) -> str:
    """Say under a question how to measure, and what may be typed."""
    return f"{field.help} {_bare_means(field, unit)}Allowed is {field.typed.allowed(unit)}."


def _bare_means(field: FieldFacts, unit: LengthUnit) -> str:
    if field.typed.kind is Kind.GAUGE:
        return f"A number alone is over {_over(unit)}. "
    return ""


def _over(unit: LengthUnit) -> str:
    return "4 in" if unit == "in" else "10 cm"


def check(field: FieldFacts, answer: str, *, unit: LengthUnit) -> str:
    """Give the answer as it will stand in the file, with its unit and without quotes.

    Raises:
        ProjectError: the field does not take this answer; one finding, which
            says what is allowed.
    """
    typed = field.typed
    answer = " ".join(answer.split()) if answer.isprintable() else answer
    try:
        written = _complete(typed.kind, answer, unit)
        read = typed.read(written, unit)
    except QuantityError as refused:
        told = remedy(refused, typed, unit, lambda value: value.strip('"'))
        raise ProjectError(
            [
                Finding(
                    refused.code,
                    Severity.ERROR,
                    field.field,
                    f"{refused}; allowed is {typed.allowed(unit)}.",
                    told.removesuffix("."),
                )
            ]
        ) from None
    if typed.kind is Kind.NUMBER:
        return f"{read:g}"
    if typed.kind is Kind.GAUGE and is_bare(written.lower().partition(" over ")[2]):
        return f"{written} {unit}"
    if typed.kind is Kind.YARN_LENGTH and is_bare(written):
        return f"{written} m"
    if typed.kind is Kind.NEEDLE and is_bare(written):
        return f"{written} mm"
    return str(read) if field.place == ("unit",) else written


def _complete(kind: Kind, answer: str, unit: LengthUnit) -> str:
    """Give a bare number the unit that it means; not where it may mean either of two."""
    if not is_bare(answer.lstrip("+-− ") if kind is Kind.LENGTH else answer):
        return answer
    match kind:
        case Kind.GAUGE:
            return f"{answer} over {_over(unit)}"
        case Kind.LENGTH:
            return f"{answer} {unit}"
        case Kind.WEIGHT:
            return f"{answer} g"
        case Kind.YARN_LENGTH | Kind.NEEDLE if unit == "cm":
            return f"{answer} {'m' if kind is Kind.YARN_LENGTH else 'mm'}"
        case _:
            return answer


def fresh(
    answers: Answers,
    *,
    table_cm: Mapping[str, float] | None = None,
    has_pattern: bool = False,
) -> str:
    """Write the text of a project file from the answers; any may be missing.

    Her own numbers stand as numbers. A number of the sizing table stands as a
    remark beside its field, so that nobody takes it for a measurement; the
    plan fills in the same number and says so. What is needed and missing
    stands as a remark that asks to be filled in.

    Args:
        answers: as typed.
        table_cm: the measurements of the size in its table, in cm.
        has_pattern: whether the table for the numbers of a pattern stands in the
            file to be filled in, and not as a remark.

    Raises:
        ProjectError: an answer that its field does not take.
    """
    unit = length_unit(answers.get("unit")) or "cm"
    checked = _checked(answers, unit)
    if has_pattern:
        checked.setdefault("pattern.sizes.size", quoted("M"))
    writer = _Writer(checked, table_cm or {}, unit, has_pattern=has_pattern)
    return "\n".join([*_HEAD, *writer.root(), ""])


_HEAD = (
    "# A project file for yokefellow: one sweater, knitted from the top down.",
    "#",
    "# Edit it in any plain text editor. A line that begins with # is a remark; take",
    "# the # away to use what stands behind it. Words and measurements stand in",
    '# straight quotes: "38 in", "96.5 cm", "1 1/2 in". A number without a unit and',
    "# without quotes is in the unit named below; a weight is then in grams.",
    "",
)


def _checked(answers: Answers, unit: LengthUnit) -> dict[str, str]:
    """Give each answer as it will stand in the file, quotes included."""
    written: dict[str, str] = {}
    refused: list[Finding] = []
    usuals = {field.field: usual(field, unit=unit) for field in first_questions()}
    for field in (*every_field(), *second_color_questions()[:-1]):
        answer = answers.get(field.field) or usuals.get(field.field)
        typed = [answer] if isinstance(answer, str) else list(answer or ())
        typed = [one for one in typed if one.strip()]
        try:
            values = [_in_file(field, check(field, one, unit=unit)) for one in typed]
        except ProjectError as error:
            refused.extend(error.findings)
            continue
        if values:
            written[field.field] = f"[{', '.join(values)}]" if field.is_list else values[0]
    if refused:
        raise ProjectError(refused)
    return {"sheet.units": quoted(unit), **written}


def _in_file(field: FieldFacts, value: str) -> str:
    return value if field.typed.kind in {Kind.NUMBER, Kind.COUNT} else quoted(value)


def quoted(text: str) -> str:
    """Quote text for TOML, whose escapes are those of JSON and one more."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


class _Writer:
    """Writes the lines of a file; a table that need not be there stands as a remark."""

    def __init__(
        self,
        answers: Mapping[str, str],
        table_cm: Mapping[str, float],
        unit: LengthUnit,
        *,
        has_pattern: bool,
    ) -> None:
        self.answers, self.table_cm, self.unit = answers, table_cm, unit
        self.has_pattern = has_pattern

    def root(self) -> Iterator[str]:
        """Write the fields before the first table, and then every table."""
        root = project_table()
        for field in root.fields:
            yield from self.line(field, asleep=False)
        for table in root.tables:
            yield ""
            yield from self.table(table, asleep=False)

    def table(self, table: TableFacts, *, asleep: bool) -> Iterator[str]:
        """Write a table and those below it."""
        asleep = asleep or (table.is_optional and not self._is_wanted(table))
        if table.place[0] == "swatch" and len(table.place) == 2 and asleep:
            # The others are written as the plain one, and one table of each shows it.
            (worn,) = (below for below in table.tables if below.place[-1] == "washed")
            table = replace(worn, heading=table.heading)
        name = ".".join(table.place)
        yield ""
        yield from _remark(table.heading)
        if table.fields or not table.tables:
            header = f"[[{name}]]" if table.is_list else f"[{name}]"
            yield f"# {header}" if asleep else header
        for field in table.fields:
            yield from self.line(field, asleep=asleep)
            if field.field == "pattern.sizes.size" and self.has_pattern:
                yield "# FILL IN below what it prints, and take each # away:"
        for below in table.tables:
            yield from self.table(below, asleep=asleep)
        if table.place == ("yarn", "MC"):
            yield from self.second_yarn(table)

    def _is_wanted(self, table: TableFacts) -> bool:
        """Tell whether an optional table stands in the file awake."""
        return (
            table.place == ("swatch", "plain", "washed")
            or (self.has_pattern and table.place[0] == "pattern")
            or any(field.field in self.answers for field in table.fields)
        )

    def line(self, field: FieldFacts, *, asleep: bool) -> Iterator[str]:
        """Write a field under its help: answered, as it is by default, or to be filled in."""
        if field.field == "swatch.plain.worked" or field.place[0] != "swatch" or not asleep:
            yield from _remark(self._help(field))
        key, example = field.name, self._example(field)
        value = self.answers.get(field.field)
        if value is not None:
            yield f"{key} = {value}"
        elif field.place[0] == "body":
            yield from self._measure(field, example)
        elif field.is_required or self._is_asked_for(field):
            if not asleep:
                yield "# FILL IN the next line and take its # away:"
            yield f"# {key} = {example}"
        else:
            # What is the default of a count may depend on the rest of a table that is not there.
            shown = "" if asleep and field.typed.kind is Kind.COUNT else self._shown(field)
            is_awake = shown and not asleep and self._matters(field)
            yield f"{'' if is_awake else '# '}{key} = {shown or example}"

    def _matters(self, field: FieldFacts) -> bool:
        """Tell whether a field matters where every other has its default."""
        only = field.stated.only
        if only is None:
            return True
        (other,) = (one for one in every_field() if one.field == only.field)
        return other.default in only.values

    def _is_asked_for(self, field: FieldFacts) -> bool:
        return self.has_pattern and field.place in {("pattern", "stitches"), ("pattern", "rounds")}

    def _measure(self, field: FieldFacts, example: str) -> Iterator[str]:
        size = self.answers.get("wearer.size")
        if field.name == "chest" and not size:
            yield "# FILL IN the next line and take its # away, or give a size above:"
        cm = self.table_cm.get(field.name)
        if cm is None:
            yield f"# {field.name} = {example}   # an example; measure yours"
        else:
            source = f"from the table, size {size.strip(chr(34))}" if size else "from the table"
            tape = quoted(show_tape(cm, unit=self.unit))
            yield f"# {field.name} = {tape}   # {source}; measure yours"

    def second_yarn(self, table: TableFacts) -> Iterator[str]:
        """Show as a remark how another color is begun."""
        fields = [field for field in table.fields if field.is_required]
        given = [self.answers.get(f"yarn.CC1.{field.name}") for field in fields]
        asleep = "" if any(given) else "# "
        yield from ("", "# Another color, for bands.", f"{asleep}[yarn.CC1]")
        for field, value in zip(fields, given, strict=True):
            yield f"{'' if value else '# '}{field.name} = {value or self._example(field)}"

    def _help(self, field: FieldFacts) -> str:
        typed = field.typed
        told = {Kind.TEXT, Kind.YES_NO, Kind.OTHER, Kind.GAUGE, Kind.WEIGHT, Kind.YARN_LENGTH}
        told |= {Kind.NEEDLE}
        is_hers = field.place[0] in {"body", "fixed", "pattern"} and not typed.names
        if typed.kind in told or is_hers:
            return field.help
        return f"{field.help} May be {typed.allowed(self.unit)}."

    def _example(self, field: FieldFacts) -> str:
        example = field.typed.example(self.unit)
        return f"[{example}]" if field.is_list else example

    def _shown(self, field: FieldFacts) -> str:
        """Write a default as it stands in the file; nothing where there is none."""
        match field.default:
            case None | ():
                return ""
            case bool():
                return "true" if field.default else "false"
            case NamedLength(name):
                return quoted(name)
            case str(word):
                return quoted(word)
            case int() | float() as number if field.typed.kind is Kind.LENGTH:
                return quoted(show_tape(number, unit=self.unit))
            case int() | float() as number:
                return f"{number:g}"
            case _:
                return ""


_WHOLE = re.compile(r'"[^"]*"|[0-9]+ (?:[0-9]/[0-9] )?(?:in|cm|mm|g)\b')


def _remark(text: str) -> Iterator[str]:
    """Break a text into lines of remarks, but never a length or a word in quotes."""
    held = _WHOLE.sub(lambda whole: whole[0].replace(" ", "\u00a0"), text)
    for line in textwrap.wrap(held, WIDTH, break_long_words=False, break_on_hyphens=False):
        yield f"# {line}".replace("\u00a0", " ")
