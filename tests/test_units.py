"""Quantities as typed, against exact definitions and against what pint's own parser gets wrong."""

import math
import subprocess
import sys
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.findings import as_typed
from yokefellow.quantities import (
    CM_PER_INCH,
    QuantityError,
    in_the_other_unit,
    is_bare,
    length_unit,
    parse_length_cm,
    parse_mass_g,
    parse_number,
    parse_quantity,
    parse_yarn_m,
    show_length,
    show_tape,
    starts_with_number,
)

# published: "Refinement of Values for the Yard and the Pound", U.S. National
# Bureau of Standards, Federal Register, 1 July 1959 (international yard and
# pound agreement): 1 yd = 0.9144 m, 1 lb = 0.45359237 kg, exactly.
YARD_M = 0.9144
POUND_G = 453.59237


def any_unit(text: str | float, base: str) -> float:
    every = ("cm", "mm", "m", "in", "ft", "yd", "g", "kg", "oz", "lb")
    return parse_quantity(text, base=base, allowed=every, default=base)


def test_the_yard_and_the_pound_of_1959() -> None:
    assert any_unit("1 yd", "m") == YARD_M
    assert any_unit("1 lb", "g") == POUND_G
    # derived: 1 in = yard / 36 = 2.54 cm; 1 ft = yard / 3; 1 oz = pound / 16.
    assert any_unit("1 in", "cm") == CM_PER_INCH == 2.54
    assert any_unit("1 ft", "m") == 0.3048
    assert any_unit("1 oz", "g") == 28.349523125
    assert any_unit("36 in", "m") == any_unit("3 ft", "m") == YARD_M
    assert any_unit("16 oz", "g") == POUND_G


def test_put_up_identities() -> None:
    # derived: 3.5 oz = 99.2233309375 g; 219 yd = 200.2536 m.
    assert parse_mass_g("3 1/2 oz") == 99.2233309375
    assert parse_yarn_m("219 yd") == 200.2536


@pytest.mark.parametrize(
    ("text", "cm"),
    [
        # derived: the number times 2.54, or itself.
        ("38 in", 96.52),
        ("38in", 96.52),
        ("38 in.", 96.52),
        ('38"', 96.52),
        ("38″", 96.52),
        ("38''", 96.52),
        ("38 Inches", 96.52),
        ("  38\tin ", 96.52),
        ("38\u00a0in", 96.52),
        ("38.3 in", 97.282),
        ("38½ in", 97.79),
        ("38 ½ in", 97.79),
        ("½ in", 1.27),
        (".5 in", 1.27),
        ("1 1/2 in", 3.81),
        ("1-1/2 in", 3.81),
        ("1 1⁄2 in", 3.81),
        ("1/2 in", 1.27),
        ("96.5 cm", 96.5),
        ("96,5 cm", 96.5),
        ("96,5", 96.5),
        ("965 mm", 96.5),
        ("0,125 cm", 0.125),
        (96.5, 96.5),
        (96, 96.0),
    ],
)
def test_lengths_are_read(text: str | float, cm: float) -> None:
    assert parse_length_cm(text, default="cm") == cm


def test_a_bare_number_is_in_the_default_unit() -> None:
    assert parse_length_cm(38, default="in") == 96.52  # derived: 38 * 2.54
    assert parse_length_cm("38½", default="in") == 97.79  # derived: 38.5 * 2.54


# common practice, no source: a message fits on two lines
@pytest.mark.parametrize(
    ("given_value", "code"),
    [
        ("9**9**9 in", "value.unreadable"),  # pint's parser hangs on it
        ("1 3/2 in", "value.unreadable"),
        ("1/0 in", "value.unreadable"),
        ("nan", "value.unreadable"),
        ("inf cm", "value.unreadable"),
        ("1e3 cm", "value.unreadable"),
        ("", "value.unreadable"),
        ("in", "value.unreadable"),
        ("38 in in", "value.unreadable"),
        ("38 in\n; rm", "value.unreadable"),
        ("３８ in", "value.unreadable"),  # digits, and not ASCII
        ("٣٨ in", "value.unreadable"),
        ("9" * 10_000, "value.unreadable"),
        (math.nan, "value.unreadable"),
        (math.inf, "value.unreadable"),
        (10**400, "value.unreadable"),
        (1e300, "value.unreadable"),
        (True, "value.unreadable"),
        ("1,200 mm", "value.thousands"),
        ("1,200,000 mm", "value.thousands"),
        ("38 stone", "value.unit"),
        ("38 yd", "value.unit"),
        ("38 g", "value.unit"),
        ("0 in", "value.not-positive"),
        ("0", "value.not-positive"),
        ("0/4 in", "value.not-positive"),
        ("-3 in", "value.not-positive"),
        ("−3 in", "value.not-positive"),
        (-3, "value.not-positive"),
        (-1.5, "value.not-positive"),
    ],
)
def test_what_is_no_length_is_refused(given_value: str | float, code: str) -> None:
    with pytest.raises(QuantityError) as refused:
        parse_length_cm(given_value, default="cm")
    assert refused.value.code == code
    assert len(str(refused.value)) < 200


@given(st.integers(1, 9_999_999), st.sampled_from(["cm", "in", "mm"]))
def test_a_whole_number_comes_back(number: int, unit: str) -> None:
    factor = {"cm": Fraction(1), "in": Fraction(254, 100), "mm": Fraction(1, 10)}[unit]
    assert parse_length_cm(f"{number} {unit}", default="cm") == float(number * factor)


# Three places after a comma look like thousands, and are refused.
@given(st.integers(1, 99_999), st.integers(1, 15), st.sampled_from([1, 2, 4, 5, 6]))
def test_every_spelling_of_a_fraction_is_the_same(whole: int, over: int, places: int) -> None:
    inches = whole + Fraction(over, 16)
    exact = float(inches * Fraction(254, 100))
    assert parse_length_cm(f"{whole} {over}/16 in", default="cm") == exact
    assert parse_length_cm(f"{whole}-{over}/16 in", default="cm") == exact
    assert parse_length_cm(f"{float(inches):.4f} in", default="cm") == exact
    point = f"{float(inches):.{places}f} in"
    comma = point.replace(".", ",")
    assert parse_length_cm(comma, default="cm") == parse_length_cm(point, default="cm")


# derived: half a unit of the last place shown
@given(st.floats(0.1, 9_999), st.sampled_from(["cm", "in"]))
def test_what_is_shown_reads_back(cm: float, unit: str) -> None:
    shown = show_length(cm, unit="in" if unit == "in" else "cm", places=4)
    assert parse_length_cm(shown, default="cm") == pytest.approx(cm, abs=2.54e-4 / 2 + 1e-9)


def test_lengths_are_shown_without_trailing_zeros() -> None:
    # derived: 96.52 / 2.54 = 38; 30.5 / 2.54 = 12.007...
    assert show_length(96.52, unit="in") == "38 in"
    assert show_length(30.5, unit="in") == "12 in"
    assert show_length(30.5, unit="cm") == "30.5 cm"
    assert show_length(100, unit="cm", places=0) == "100 cm"
    assert show_length(-0.01, unit="cm") == "0 cm"


@given(st.one_of(st.text(), st.floats(), st.integers(), st.booleans()))
def test_anything_is_read_or_refused(typed: str | float) -> None:
    try:
        value = parse_length_cm(typed, default="in")
    except QuantityError:
        return
    assert value > 0
    assert math.isfinite(value)


# common practice, no source: short enough for one line
def test_what_was_typed_is_shown_whole_short_and_visible() -> None:
    assert as_typed("38 in") == '"38 in"'
    assert as_typed("a\u202eb\x00") == '"a\\u202eb\\u0000"'
    assert len(as_typed("x" * 10_000)) < 70
    assert as_typed(True) == "true"
    assert as_typed(10**5000) == "a number of more than 15 digits"
    assert as_typed({"a": 1}) == "a table"
    assert as_typed([1]) == "a list"
    assert as_typed(12.5) == "12.5"


def test_a_number_is_told_from_a_name() -> None:
    assert starts_with_number("½ in")
    assert starts_with_number(" 12")
    assert not starts_with_number("hip")


IMPORTED = """
import sys
from yokefellow.quantities import parse_length_cm, parse_mass_g, parse_yarn_m
parse_length_cm("96.5 cm", default="in"), parse_mass_g("50 g"), parse_yarn_m(200)
print("pint" in sys.modules)
parse_length_cm("38 in", default="cm"), parse_yarn_m("200 yd")
print("pint" in sys.modules)
parse_mass_g("2 oz")
print("pint" in sys.modules)
"""


def test_pint_is_imported_only_when_a_weight_must_be_converted() -> None:
    run = subprocess.run([sys.executable, "-c", IMPORTED], capture_output=True, text=True)
    assert run.stdout.split() == ["False", "False", "True"], run.stderr


# derived: as typed
@pytest.mark.parametrize(
    ("typed", "number"), [("5,5", 5.5), ("5 1/2", 5.5), ("5", 5), (5, 5), ("0", 0), (0.5, 0.5)]
)
def test_a_number_without_a_unit(typed: str | float, number: float) -> None:
    assert parse_number(typed) == number
    assert is_bare(typed)


@pytest.mark.parametrize("typed", ["5 m", "5 balls", "many", "", "-5", "1,000", True])
def test_what_is_no_bare_number(typed: str) -> None:
    assert not is_bare(typed)
    with pytest.raises(QuantityError):
        parse_number(typed)


@pytest.mark.parametrize(
    ("typed", "unit"),
    [("Inches", "in"), ('"', "in"), (" CM ", "cm"), ("centimeters", "cm"), ("mm", None), (3, None)],
)
def test_the_name_of_a_tapes_unit(typed: object, unit: str | None) -> None:
    assert length_unit(typed) == unit


@pytest.mark.parametrize(
    ("typed", "other"),
    [
        ("41 cm", "41 in"),
        ("16 1/2 in", "16 1/2 cm"),
        ("38½", "38 1/2 cm"),
        (96, "96 cm"),
        ("9 mm", None),
        ("wide", None),
        (True, None),
    ],
)
def test_the_same_number_on_the_other_side_of_the_tape(typed: object, other: str | None) -> None:
    assert in_the_other_unit(typed, default="in") == other


# derived: 9.33 in = 23.7 cm; 22.09 in = 56.11 cm
@pytest.mark.parametrize(
    ("cm", "inches", "halves"),
    [
        (23.7, "9 1/4 in", "23.5 cm"),
        (56.11, "22 in", "56 cm"),
        (1.27, "1/2 in", "1.5 cm"),
        (0.2, "0 in", "0 cm"),
        (-5.715, "-2 1/4 in", "-5.5 cm"),
    ],
)
def test_a_length_as_a_tape_is_divided(cm: float, inches: str, halves: str) -> None:
    assert show_tape(cm, unit="in") == inches
    assert show_tape(cm, unit="cm") == halves
