"""US needle sizes in mm."""

import pytest

from tests.project_file.sample import spoil
from yokefellow.project_file.load import parse
from yokefellow.project_file.measure_fields import US_NEEDLES_MM, us_needle_mm
from yokefellow.quantities import QuantityError


def test_a_larger_size_is_a_thicker_needle() -> None:
    assert list(US_NEEDLES_MM.values()) == sorted(set(US_NEEDLES_MM.values()))
    numbers = [float(size) for size in US_NEEDLES_MM if not size.startswith("00")]
    assert numbers == sorted(set(numbers))


@pytest.mark.parametrize(
    "typed", ["US 10.5", "us10½", "US 10 1/2", "U.S. 10,5", " US  10 ½ ", "#10½", "US #10.5"]
)
def test_a_half_size_is_written_in_many_ways(typed: str) -> None:
    assert us_needle_mm(typed) == 6.5  # published: Craft Yarn Council, from memory


def test_a_needle_in_mm_is_no_us_size() -> None:
    assert us_needle_mm("4 mm") is None
    assert us_needle_mm("4") is None


@pytest.mark.parametrize("typed", ["US 12", "US 4.5", "US 0000", "US 51"])
def test_a_size_that_does_not_exist_is_refused(typed: str) -> None:
    with pytest.raises(QuantityError) as refused:
        us_needle_mm(typed)
    assert refused.value.code == "value.needle-size"


def test_both_stand_in_a_file() -> None:
    assert parse(spoil(("3.5 mm", "US 4"))).needles.main == 3.5  # published: as above
    assert parse(spoil(('"3.5 mm"', "3.5"))).needles.main == 3.5
