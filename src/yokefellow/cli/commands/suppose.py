"""`suppose`: the sweater with something chosen otherwise; the file stays as it is."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from yokefellow.cli.columns import columns
from yokefellow.cli.findings import paragraphs
from yokefellow.cli.options import SHOWN_AS
from yokefellow.cli.terminal import say, wrapped
from yokefellow.cli.yarn_tables import (
    VERDICTS,
    amount_record,
    amount_words,
    metres_or_yards,
    record,
    verdict_of,
    yarn_called,
    yarn_unit,
)
from yokefellow.plan import Plan
from yokefellow.project_file.models import Project
from yokefellow.quantities import length
from yokefellow.sheet.dimensions import body_cm, sleeve_cm
from yokefellow.what_if import Variant, freed
from yokefellow.yarn import MAIN, YarnEstimate, less

if TYPE_CHECKING:
    from yokefellow.project_file.models import Project

HELP = """\
Plan the sweater with something chosen otherwise, and show it beside the
sweater of the file: lengths, stitches, yarn, and whether the yarn lasts. The
file stays as it is. "Longer by" and "shorter by" go from the length in the
file. Without a choice, show every length, neck, rib and finish.

\b
Examples:
  $ yokefellow suppose mine.toml
  $ yokefellow suppose mine.toml --sleeves short
  $ yokefellow suppose mine.toml --body cropped --rib 2x2 --neck wide
  $ yokefellow suppose mine.toml --body "longer by 2 in"
  $ yokefellow suppose mine.toml --field "garment.body.gather = 10"
"""

_FIELDS = {
    "sleeves": ("garment.sleeves.length",),
    "body": ("garment.body.length",),
    "neck": ("garment.neck.opening",),
    "rib": ("garment.neck.rib", "garment.body.rib", "garment.sleeves.rib"),
    "finish": ("garment.neck.finish", "garment.body.finish", "garment.sleeves.finish"),
    "hem": ("garment.body.hem",),
    "cuff": ("garment.sleeves.cuff",),
    "shape": ("garment.body.shape",),
}
"""The fields that each option chooses."""


@click.command("suppose", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--sleeves", metavar="LENGTH", help="Sleeves of this length, as in the file.")
@click.option("--body", metavar="LENGTH", help="A body of this length, as in the file.")
@click.option("--neck", metavar="OPENING", help="This neck opening.")
@click.option("--rib", metavar="RIB", help="This rib at neck, hem and cuffs.")
@click.option("--finish", metavar="FINISH", help="This finish at neck, hem and cuffs.")
@click.option("--hem", metavar="DEPTH", help="A hem of this depth.")
@click.option("--cuff", metavar="DEPTH", help="Cuffs of this depth.")
@click.option("--shape", metavar="SHAPE", help="A body of this shape.")
@click.option(
    "--field",
    "fields",
    metavar="FIELD=VALUE",
    multiple=True,
    help="Any field of the file; may be given several times.",
)
@click.option("--as", "form", type=SHOWN_AS, default="text", help="Which form.  [default: text]")
def suppose(file: Path, fields: tuple[str, ...], form: str, **given: str | None) -> None:
    """Show the sweater with something chosen otherwise; the file stays as it is."""
    from yokefellow.project_file.load import load

    choices = {
        field: value
        for name, value in given.items()
        if value is not None
        for field in _FIELDS[name]
    }
    choices.update(map(_field, fields))
    project = load(file)
    say(_supposed(file, project, choices, form) if choices else _every_choice(file, project, form))


def _field(typed: str) -> tuple[str, str]:
    """Read `FIELD=VALUE`.

    Raises:
        click.BadParameter: a part of it is missing.
    """
    field, equals, value = (part.strip() for part in typed.partition("="))
    if not (field and equals and value):
        raise click.BadParameter(
            f"{typed!r} is no field with its value, such as garment.body.gather=10.",
            param_hint="--field",
        )
    return field, value


def _every_choice(file: Path, project: Project, form: str) -> str:
    from yokefellow.cli.commands.suppose import every_choice, every_choice_record
    from yokefellow.cli.row_places import readings
    from yokefellow.cli.terminal import document
    from yokefellow.plan import plan
    from yokefellow.what_if import learn, table

    made = plan(project)
    learnt = learn(made, readings(file))
    made = learnt.of(made)
    variants = table(made, learnt.knowledge)
    if form == "json":
        return document(every_choice_record(made, variants))
    return every_choice(made, made.yarns, variants)


def _supposed(file: Path, project: Project, choices: dict[str, str], form: str) -> str:
    from yokefellow.cli.commands.suppose import beside, beside_record
    from yokefellow.cli.row_places import readings
    from yokefellow.cli.terminal import document
    from yokefellow.plan import plan
    from yokefellow.what_if import change, from_own_lengths, learn

    made = plan(project)
    choices = from_own_lengths(made, choices)
    other = plan(change(project, **choices))
    learnt = learn(made, readings(file))
    made, other = learnt.of(made), learnt.of(other)
    yarns = (made.yarns, other.yarns)
    if form == "json":
        return document(beside_record(made, other, yarns, choices))
    return beside(made, other, yarns, choices)


_KINDS = {"sleeves": "Sleeves", "body": "Body", "neck": "Neck", "ribs": "Ribs", "edges": "Edges"}

Yarns = Mapping[str, YarnEstimate]


def every_choice(made: Plan, yarns: Yarns, variants: Sequence[Variant]) -> str:
    """Show every length, neck and rib, a table for each yarn that they change.

    Args:
        made: the sweater of the file.
        yarns: its yarns by what is known of them.
        variants: what could be chosen instead.
    """
    parts = [
        wrapped(
            "Each line is the sweater of the file with one thing chosen otherwise; * is as in the"
            " file. Saved: against full sleeves and a body to the hip."
        )
    ]
    for code, own in yarns.items():
        parts += ["", yarn_called(made.project, code), *_of_one_yarn(made, own, variants)]
    refused = [variant for variant in variants if variant.refused]
    for variant in refused:
        head = f"{_KINDS[variant.kind]} {variant.choice} cannot be knitted:"
        parts += ["", head, *paragraphs(variant.refused)]
    return "\n".join(parts)


def _of_one_yarn(made: Plan, own: YarnEstimate, variants: Sequence[Variant]) -> Iterator[str]:
    code = own.code
    here = [
        variant
        for variant in variants
        if code in variant.yarns and (code == MAIN or variant.chosen or _differs(variant, own))
    ]
    if not any(_differs(variant, own) for variant in here):
        words = f"About {own.need.mean.grams:.0f} g, whichever is chosen. "
        yield wrapped(words + verdict_of(made.project, own))
        return
    unit = made.project.sheet.units
    heads = ["", "length", "stitches", yarn_unit(unit), "g", "balls", "saved g", "lasts"]
    lines = []
    for kind, several in groupby(here, key=lambda variant: variant.kind):
        lines.append([_KINDS[kind], *[""] * (len(heads) - 1)])
        for variant in several:
            estimate = variant.yarns[code]
            need = estimate.need.mean
            lines.append(
                [
                    f"{'*' if variant.chosen else ' '} {variant.choice}",
                    "" if variant.cm is None else length(variant.cm, unit),
                    f"{need.stitches:,}",
                    metres_or_yards(need.metres, unit),
                    f"{need.grams:.0f}",
                    f"{need.balls:.1f}",
                    f"{variant.saved[code].grams:.0f}".replace("-0", "0").replace("-", "−"),
                    VERDICTS[estimate.verdict],
                ]
            )
    yield from columns([heads, *lines])
    yield wrapped(f"As in the file: {verdict_of(made.project, own)}")


def _differs(variant: Variant, own: YarnEstimate) -> bool:
    """Tell whether a yarn takes another whole gram."""
    return abs(variant.yarns[own.code].need.mean.grams - own.need.mean.grams) >= HALF_A_GRAM


HALF_A_GRAM = 0.5


def every_choice_record(made: Plan, variants: Sequence[Variant]) -> dict[str, Any]:
    """Give the same as data."""
    return {
        "title": made.project.title,
        "variants": [
            {
                "kind": variant.kind,
                "choice": variant.choice,
                "choices": dict(variant.choices),
                "chosen": variant.chosen,
                "cm": variant.cm and round(variant.cm, 2),
                "yarns": record(made.project, variant.yarns.values()),
                "saved": {code: amount_record(saved) for code, saved in variant.saved.items()},
                "refused": [found.message for found in variant.refused],
            }
            for variant in variants
        ],
    }


def beside(made: Plan, other: Plan, yarns: tuple[Yarns, Yarns], choices: Mapping[str, str]) -> str:
    """Set the sweater supposed beside that of the file.

    Args:
        made: the sweater of the file.
        other: the sweater supposed.
        yarns: of either, by what is known of them.
        choices: what was supposed, by field.
    """
    unit = made.project.sheet.units
    lines = [["", "in the file", "supposed"]]
    for what, ours, theirs in zip(_PLACES, _measures(made), _measures(other), strict=True):
        lines.append([what, length(ours, unit), length(theirs, unit)])
    parts = [*columns(lines), ""]
    for code in dict.fromkeys((*yarns[0], *yarns[1])):
        parts += [yarn_called(made.project, code), *_of_both(made, code, yarns), ""]
    known = {found.message for found in made.findings}
    new = [found for found in other.findings if found.message not in known]
    parts += paragraphs(new)
    parts += ["To keep it, write into the file:", *file_lines(choices)]
    parts += pins_to_take_out(made.project, choices)
    return "\n".join(parts)


_PLACES = ("Neck edge, all round", "Body, underarm to edge", "Sleeve, underarm to edge")


def _measures(made: Plan) -> tuple[float, ...]:
    shape = made.shape
    return (shape.neck.edge.cm, body_cm(shape.body), sleeve_cm(shape.sleeve))


def _of_both(made: Plan, code: str, yarns: tuple[Yarns, Yarns]) -> Iterator[str]:
    unit = made.project.sheet.units
    found = [mapping.get(code) for mapping in yarns]
    for words, estimate in zip(("in the file", "supposed"), found, strict=True):
        if estimate is None:
            yield f"  {words}: not used."
            continue
        yield wrapped(
            f"{words}: {amount_words(estimate.need.mean, unit)}."
            f" {verdict_of(made.project, estimate)}",
            first="  ",
            rest="    ",
        )
    ours, theirs = found
    if ours is not None and theirs is not None:
        yield wrapped(_saving(ours, theirs, made), first="  ", rest="    ")


def _saving(ours: YarnEstimate, theirs: YarnEstimate, made: Plan) -> str:
    unit = made.project.sheet.units
    saved = less(ours.need.mean, theirs.need.mean)
    if abs(saved.grams) < HALF_A_GRAM:
        return "No difference that a scale would show."
    if saved.grams >= 0:
        return f"It saves {amount_words(saved, unit)}.".replace("-", "−")
    more = less(theirs.need.mean, ours.need.mean)
    return f"It takes {amount_words(more, unit)} more.".replace("-", "−")


def beside_record(
    made: Plan, other: Plan, yarns: tuple[Yarns, Yarns], choices: Mapping[str, str]
) -> dict[str, Any]:
    """Give the same as data."""
    keys = ("neck_cm", "body_cm", "sleeve_cm")
    sweaters = {"file": (made, yarns[0]), "supposed": (other, yarns[1])}
    return {
        "title": made.project.title,
        "choices": dict(choices),
        **{
            name: {
                **{key: round(cm, 2) for key, cm in zip(keys, _measures(sweater), strict=True)},
                "yarns": record(sweater.project, estimates.values()),
            }
            for name, (sweater, estimates) in sweaters.items()
        },
        "saved": {
            code: amount_record(less(yarns[0][code].need.mean, yarns[1][code].need.mean))
            for code in yarns[0]
            if code in yarns[1]
        },
    }


def pins_to_take_out(project: Project, choices: Iterable[str]) -> list[str]:
    """Name the pins that would hold against what is written into the file, in a remark of it."""
    names = freed(project, choices)
    return [f"  # and take out of [fixed]: {' and '.join(names)}"] if names else []


def file_lines(choices: Mapping[str, str]) -> list[str]:
    """Give choices as they stand in a project file, each under its table.

    >>> file_lines({"garment.sleeves.length": "short", "garment.body.gather": "10"})
    ['  [garment.sleeves]', '  length = "short"', '  [garment.body]', '  gather = 10']
    """
    by_table: dict[str, list[str]] = {}
    for field, value in choices.items():
        table, _, key = field.rpartition(".")
        by_table.setdefault(table, []).append(f"  {key} = {_as_in_a_file(value)}")
    # What stands in no table would, after a header, belong to that table.
    top = by_table.pop("", [])
    return [*top, *(line for table, keys in by_table.items() for line in (f"  [{table}]", *keys))]


def _as_in_a_file(value: str) -> str:
    try:
        tomllib.loads(f"value = {value}")
    except tomllib.TOMLDecodeError:
        return json.dumps(value, ensure_ascii=False)
    return value
