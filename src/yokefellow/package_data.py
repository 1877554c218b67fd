"""Where the data files stand: in the installed package first, in the checkout second.

`templates/` and `sizing_tables/` stand at the top of the checkout. The wheel
carries them under `yokefellow/_share/`; an editable install does not. This is
the only module that knows, and nothing else opens package data by path.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Literal


@cache
def package_folder(name: Literal["templates", "sizing_tables"]) -> Path:
    """Return the folder of that name.

    Raises:
        FileNotFoundError: the installation is damaged: neither place has the folder.
    """
    here = Path(__file__).resolve().parent
    places = (here / "_share" / name, here.parent.parent / name)
    for place in places:
        if place.is_dir():
            return place
    raise FileNotFoundError(f"the folder {name!r} is missing from this installation of yokefellow")
