"""`sheet`: the finished sheet, as files."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from yokefellow.cli.findings import counted
from yokefellow.cli.terminal import as_argument, called, say, tell, wrapped

if TYPE_CHECKING:
    from yokefellow.plan import Plan
    from yokefellow.what_if import Prospects

HELP = """\
Write the sheet: mine.html, which remembers what you tick, on a phone too and
without a network, and mine.pdf, to print. A sheet that is there already is
replaced.

\b
Examples:
  $ yokefellow sheet mine.toml
  $ yokefellow sheet mine.toml --into sheets --as html
  $ yokefellow sheet mine.toml --as text --as json
"""

_SUFFIX = {"html": ".html", "text": ".txt", "json": ".json", "pdf": ".pdf"}
"""In the order they are written: the PDF last, because it needs libraries that may be missing."""


class _Forms(click.Choice[str]):
    """The forms of a sheet, one for each `--as`."""

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> str:
        """Read one form; a list of them is told how it is given."""
        several = [form.strip() for form in re.split(r"[, +]", str(value)) if form.strip()]
        if len(several) > 1 and set(several) <= set(_SUFFIX):
            twice = " ".join(f"--as {form}" for form in several)
            times = {2: "twice", 3: "three times"}.get(len(several), "for each")
            self.fail(f"{value!r} is not one form. Give --as {times}: {twice}", param, ctx)
        return super().convert(value, param, ctx)


@click.command("sheet", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--into",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="Where to write; made when missing.  [default: beside FILE]",
)
@click.option(
    "--as",
    "forms",
    type=_Forms(list(_SUFFIX)),
    multiple=True,
    default=("html", "pdf"),
    help="Which form; may be given several times.  [default: html, pdf]",
)
@click.option(
    "--print",
    "printed",
    type=click.Choice(["whole", "knitting", "appendix"]),
    help="The whole sheet, only what you need at the needle, or only how it was worked out."
    "  [default: as FILE says]",
)
def sheet(file: Path, into: Path | None, forms: tuple[str, ...], printed: str | None) -> None:
    """Plan a project and write its sheet."""
    from yokefellow.cli.row_places import readings
    from yokefellow.files import make_folder, replace
    from yokefellow.findings import visible
    from yokefellow.plan import plan
    from yokefellow.project_file.load import load
    from yokefellow.what_if import learn, prospects

    project = load(file)
    if printed is not None:
        choices = project.sheet.model_copy(update={"print": printed})
        project = project.model_copy(update={"sheet": choices})
    planned = plan(project)
    entries = readings(file)
    planned = learn(planned, entries).of(planned)
    asked = prospects(planned, entries)
    folder = file.parent if into is None else make_folder(into)
    for form, suffix in _SUFFIX.items():
        if form in forms:
            target = folder / f"{file.stem}{suffix}"
            _check_other(target, file)
            replace(target, _rendered(planned, asked, form))
            say(f"Wrote {visible(str(target))}")
    if planned.findings:
        tell(
            wrapped(
                f"The sheet tells what to be careful of ({counted(planned.findings)});"
                f" to read it here: {called()} check {as_argument(file)}"
            )
        )


def _rendered(planned: Plan, asked: Prospects, form: str) -> str | bytes:
    """Render one form; the PDF takes a while, and says what it is doing."""
    if form == "pdf":
        from yokefellow.sheet.pdf import render_pdf

        return render_pdf(planned, asked, progress=_progress)
    from yokefellow.sheet.formats import FORMATS

    return FORMATS[form](planned, asked)


def _progress(doing: str) -> None:
    tell(f"{doing} ...")


def _check_other(target: Path, file: Path) -> None:
    """Refuse to write a sheet over the project file, should it be called `mine.txt`.

    Raises:
        FileError: the two are one file.
    """
    if not (target.exists() and target.samefile(file)):
        return
    from yokefellow.files import FileError
    from yokefellow.findings import Finding, Severity, as_typed

    raise FileError(
        [
            Finding(
                "file.is-the-project",
                Severity.ERROR,
                "",
                f"{as_typed(target.name)} was not written: that is the name of the project file.",
                "Write the sheet into another folder with --into, or rename the project file"
                " to end in .toml.",
            )
        ]
    )
