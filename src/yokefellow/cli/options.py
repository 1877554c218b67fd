"""Choices on the command line that are read from the tables only when they are used."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click
from click.shell_completion import CompletionItem

if TYPE_CHECKING:
    from yokefellow.body.size_tables import SizingTable

UNIT = click.Choice(["cm", "in"])
SHOWN_AS = click.Choice(["text", "json"])
"""How an answer is shown here."""


def known_table(ctx: click.Context, param: click.Parameter, given: str | None) -> str | None:
    """Give the name of a sizing table as its file has it; the callback of a parameter.

    Raises:
        click.BadParameter: there is no such table.
    """
    if given is None:
        return None
    from yokefellow.body.size_tables import tables

    name = given.strip().lower()
    if name not in tables():
        raise click.BadParameter(
            f"{given!r} is none of the tables {', '.join(tables())}.", ctx=ctx, param=param
        )
    return name


def complete_tables(
    ctx: click.Context,  # noqa: ARG001
    param: click.Parameter,  # noqa: ARG001
    incomplete: str,
) -> list[CompletionItem]:
    """Offer the tables to a shell that completes."""
    from yokefellow.body.size_tables import tables

    return [
        CompletionItem(name, help=table.title)
        for name, table in tables().items()
        if name.startswith(incomplete.lower())
    ]


def known_size(table: SizingTable, given: str) -> str:
    """Give a size as its table writes it.

    Raises:
        click.BadParameter: the table has no such size.
    """
    from yokefellow.body.size_tables import size_meant, size_named

    size = size_named(table, given)
    if size is None:
        meant = size_meant(table, given)
        has = table.size_words(", ".join(table.sizes)).removeprefix(table.name).strip()
        raise click.BadParameter(
            f"{given!r} is no size of the table {table.name}, which has {has}."
            + (f" Did you mean {meant}?" if meant else ""),
            param_hint="--size",
        )
    return size
