"""An independent knitter: reads the printed rows of a sweater and works every stitch of them.

It knows nothing of the program, and imports nothing from it: it has the sheet
in its hands, as a knitter has, with a parser and a needle of its own. Give it
a page, `knit_page(html)`, or rows from elsewhere, `knit(parts)`. It answers
with what it knitted, or raises `Mistake` at the first row that cannot be worked
as printed or does not end on its printed count.
"""

from tests.knitter.mistakes import Kind, Mistake
from tests.knitter.page import read_page
from tests.knitter.printed import Line, Part
from tests.knitter.sweater import Knitted, knit

__all__ = ["Kind", "Knitted", "Line", "Mistake", "Part", "knit", "knit_page"]


def knit_page(html: str) -> Knitted:
    """Work every row of a finished HTML sheet, as printed; raise `Mistake` at the first fault."""
    return knit(read_page(html))
