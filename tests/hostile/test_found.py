"""What the guided fuzzing found, each in a file as small as can be."""

from __future__ import annotations

import pytest

from tests.hostile import judged
from tests.project_file.sample import SOUND
from yokefellow.project_file.load import parse

RAGLAN = '\n[garment.yoke]\nstyle = "raglan"\nproportions = "percentage 1971"\n'

FOUND = {
    "a back of fewer stitches than none at the neck": (
        SOUND.replace('chest = "38 in"', 'chest = "38 in"\nfront_chest = "30 in"') + RAGLAN
    ),
    "lines wider than what they part": (
        SOUND.replace("26 over 4 in", "7 over 4 in").replace("36 over 4 in", "9.8 over 4 in")
        + RAGLAN
        + "line_width = 6\n"
    ),
    "a band with twice the stitches of the body around it": (
        SOUND
        + '\n[swatch.purl.washed]\nstitches = ["58 over 4 in"]\nrounds = ["60 over 4 in"]\n'
        + '\n[charts.ridge]\nkind = "purl"\nrows = "-."\n[charts.ridge.colours]\n"." = "MC"\n'
        + '\n[garment.body]\nshape = "straight"\n'
        + '[[garment.body.bands]]\nchart = "ridge"\nat = "hem"\n'
    ),
    "an increase round below the end of the yoke": (
        SOUND + "\n[fixed]\nincrease_at = [4, 16, 30, 90]\n"
    ),
}


@pytest.mark.parametrize("name", FOUND)
def test_what_was_found_once_is_a_sheet_or_a_clear_refusal(name: str) -> None:
    judged.planned_or_told(lambda: parse(FOUND[name]))
