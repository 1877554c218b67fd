"""`motifs`: the shipped motifs, in letters here or as a page of charts."""

from __future__ import annotations

from pathlib import Path

import click

from yokefellow.cli.terminal import say, wrapped

HELP = """\
Show the motifs that a band may name, a letter for each stitch. With --into,
write them as a page of charts, motifs.html.

\b
Examples:
  $ yokefellow motifs
  $ yokefellow motifs --into sheets
"""


@click.command("motifs", help=HELP)
@click.option(
    "--into",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="Write motifs.html into this folder; made when missing.",
)
def motifs(into: Path | None) -> None:
    """Show the shipped motifs, or write them as a page."""
    if into is not None:
        from yokefellow.files import make_folder, replace
        from yokefellow.findings import visible
        from yokefellow.sheet.pages import motif_page

        target = make_folder(into) / "motifs.html"
        replace(target, motif_page())
        say(f"Wrote {visible(str(target))}")
        return
    from yokefellow.sheet.motifs import motif_views
    from yokefellow.words import words

    say(wrapped(words("motifs").letters()))
    for motif in motif_views():
        say("")
        say(wrapped(f"{motif.name}: {motif.counted}. {motif.about}".rstrip()))
        for row in motif.letters:
            say(f"  {row}")
