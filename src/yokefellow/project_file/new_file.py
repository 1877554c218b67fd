"""What the program asks before it writes a fresh project file, in order."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal, cast

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from yokefellow.findings import Finding, ProjectError, Severity
from yokefellow.package_data import package_folder
from yokefellow.project_file.field_errors import typed_at
from yokefellow.project_file.fields import remedy
from yokefellow.project_file.models import Body
from yokefellow.project_file.schema import field_note
from yokefellow.quantities import LengthUnit, QuantityError, is_bare, length_unit, show_tape

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class Answers:
    """What the knitter answered, as typed; any may be missing.

    Each name but the last is the key of a question.
    """

    unit: str | None = None
    title: str | None = None
    who: str | None = None
    table: str | None = None
    size: str | None = None
    chest: str | None = None
    upper_arm: str | None = None
    waist: str | None = None
    hip: str | None = None
    arm_length: str | None = None
    ease_chest: str | None = None
    ease_upper_arm: str | None = None
    swatch_stitches: str | None = None
    swatch_rounds: str | None = None
    ball_weight: str | None = None
    ball_length: str | None = None
    balls: str | None = None
    needle: str | None = None
    sleeve_length: str | None = None
    body_length: str | None = None
    body_shape: str | None = None
    paper: str | None = None
    table_cm: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    """The measurements of the size in its table, in cm: shown as remarks, never as hers."""


Measure = Literal["", "length", "g", "m", "mm", "reading", "number"]


@dataclass(frozen=True, slots=True)
class Question:
    """One question, and the field of the project file that its answer fills."""

    key: str
    """The name in `Answers`."""
    field: str
    """The place in the project file, dotted."""
    text: str
    """The question."""
    hint: str = ""
    """How to measure, or what the answers mean; `{over}` and `{some}` stand for lengths."""
    default: str | None = None
    """Taken when nothing is typed; None leaves the field out."""
    default_in_inches: str | None = None
    """The same, in a file whose unit is the inch."""
    needed: bool = False
    """Without it no sweater can be planned."""
    measure: Measure = ""
    """What a bare number means: it gets its unit, or for a reading its width."""

    def hint_in(self, unit: LengthUnit) -> str:
        """Give the hint with its lengths in the unit."""
        inches = unit == "in"
        return self.hint.format(
            over="4 in" if inches else "10 cm",
            some="2 in" if inches else "5 cm",
            yarn="yd or m" if inches else "m or yd",
        )

    @property
    def place(self) -> tuple[str | int, ...]:
        """Give the place in the project file, step by step."""
        steps = tuple(self.field.split("."))
        return (*steps, 0) if self.measure == "reading" else steps


_FITS = "very close, close, classic, loose, oversized"

QUESTIONS: tuple[Question, ...] = (
    Question("unit", "unit", "Do you measure in cm or in inches (in)?", default="cm"),
    Question("title", "title", "What is the sweater called?", default="A yoke sweater"),
    Question("who", "wearer.name", "Who is it for?", "Printed on the sheet; may stay empty."),
    Question(
        "table",
        "wearer.table",
        "Which sizing table stands nearest: babies, children, women or men?",
        "It fills in what you do not measure.",
        default="women",
    ),
    Question(
        "size",
        "wearer.size",
        "Which size of that table?",
        "May stay empty when you give the chest.",
    ),
    Question(
        "chest",
        "body.chest",
        "Chest, round the fullest part?",
        "May stay empty when you gave a size; your own number is always better.",
        measure="length",
    ),
    Question(
        "upper_arm",
        "body.upper_arm",
        "Upper arm, round its widest part?",
        "The measurement in which bodies of one size differ most.",
        measure="length",
    ),
    Question("waist", "body.waist", "Waist, round the narrowest part?", measure="length"),
    Question("hip", "body.hip", "Hip, round the widest part?", measure="length"),
    Question(
        "arm_length",
        "body.arm_length",
        "Underarm to wrist, along the inner arm?",
        measure="length",
    ),
    Question(
        "ease_chest",
        "ease.chest",
        "How closely does it fit at the chest?",
        f"{_FITS}; or how much larger than the body it is, such as {{some}}.",
        default="classic",
        measure="length",
    ),
    Question(
        "ease_upper_arm",
        "ease.upper_arm",
        "And how closely at the upper arm?",
        f"{_FITS}; or a length.",
        default="classic",
        measure="length",
    ),
    Question(
        "swatch_stitches",
        "swatch.plain.washed.stitches",
        "How many stitches did you count on the washed swatch, over how much?",
        "Such as 26 over {over}; a number alone is over {over}.",
        needed=True,
        measure="reading",
    ),
    Question(
        "swatch_rounds",
        "swatch.plain.washed.rounds",
        "And how many rounds, over how much?",
        "Such as 37 over {over}; a number alone is over {over}.",
        needed=True,
        measure="reading",
    ),
    Question(
        "ball_weight",
        "yarn.MC.ball_weight",
        "What does one ball weigh?",
        "In g or oz, as on its band; a number alone is grams.",
        needed=True,
        measure="g",
    ),
    Question(
        "ball_length",
        "yarn.MC.ball_length",
        "How long is the yarn of one ball?",
        "In {yarn}, as on its band.",
        needed=True,
        measure="m",
    ),
    Question(
        "balls",
        "yarn.MC.balls",
        "How many balls have you?",
        "A part of a ball counts too: 5.5, or 5 1/2.",
        needed=True,
        measure="number",
    ),
    Question(
        "needle",
        "needles.main",
        "Which needle did you swatch with?",
        "In mm, or a US size such as US 4.",
        needed=True,
        measure="mm",
    ),
    Question(
        "sleeve_length",
        "garment.sleeves.length",
        "How long are the sleeves?",
        "cap, short, elbow, three-quarter, bracelet, full; a length; or shorter by {some}.",
        default="full",
        measure="length",
    ),
    Question(
        "body_length",
        "garment.body.length",
        "How long is the body?",
        "cropped, waist, high hip, hip, tunic; a length from the underarm; or longer by {some}.",
        default="hip",
        measure="length",
    ),
    Question(
        "body_shape",
        "garment.body.shape",
        "Which shape has the body: straight, a-line or waist?",
        default="straight",
    ),
    Question(
        "paper",
        "sheet.paper",
        "Is the paper A4 or Letter?",
        default="A4",
        default_in_inches="Letter",
    ),
)
"""In the order they are asked; the unit comes first, because the others depend on it."""


def default_of(question: Question, *, unit: LengthUnit) -> str | None:
    """Give what is taken when nothing is typed."""
    inches = question.default_in_inches
    return inches if unit == "in" and inches is not None else question.default


def check(question: Question, answer: str, *, unit: LengthUnit) -> str:
    """Give the answer as it will stand in the file, with its unit.

    Raises:
        ProjectError: the field does not take this answer; one finding, which
            says what is allowed.
    """
    typed = typed_at(question.place)
    if typed is None:
        raise LookupError(f"the question {question.key!r} fills no field")
    answer = " ".join(answer.split()) if answer.isprintable() else answer
    try:
        written = _complete(question.measure, answer, unit)
        read = typed.read(written, unit)
    except QuantityError as refused:
        told = remedy(refused, typed, unit, lambda value: value.strip('"'))
        raise ProjectError(
            [
                Finding(
                    refused.code,
                    Severity.ERROR,
                    question.field,
                    f"{refused}; allowed is {typed.allowed(unit)}.",
                    told.removesuffix("."),
                )
            ]
        ) from None
    if question.measure == "number":
        return f"{read:g}"
    if question.measure == "reading" and is_bare(written.lower().partition(" over ")[2]):
        return f"{written} {unit}"
    if question.measure in {"m", "mm"} and is_bare(written):
        return f"{written} {question.measure}"
    return str(read) if question.key == "unit" else written


def _complete(measure: Measure, answer: str, unit: LengthUnit) -> str:
    """Give a bare number the unit that it means; not where it may mean either of two."""
    if not is_bare(answer.lstrip("+-− ") if measure == "length" else answer):
        return answer
    if measure == "number" or (unit == "in" and measure in {"m", "mm"}):
        return answer
    if measure == "reading":
        return f"{answer} over {'4 in' if unit == 'in' else '10 cm'}"
    return f"{answer} {unit}" if measure == "length" else f"{answer} {measure}".strip()


@dataclass(frozen=True, slots=True)
class _Measure:
    """One line of the body: hers, the table's as a remark, or an example as a remark."""

    key: str
    note: str
    hers: str | None
    tables: str | None
    example: str


def fresh(answers: Answers, *, has_pattern: bool = False) -> str:
    """Write the text of a project file from the answers; any may be missing.

    Her own numbers stand as numbers. A number of the sizing table stands as a
    remark beside its field, so that nobody takes it for a measurement; the
    plan fills in the same number and says so. What is needed and missing
    stands as a remark that asks to be filled in.

    Args:
        answers: as typed.
        has_pattern: whether the table for the numbers of a pattern stands in the
            file to be filled in, and not as a remark.

    Raises:
        ProjectError: an answer that its field does not take.
    """
    unit = length_unit(answers.unit) or "cm"
    page = _environment().get_template("project.toml.j2")
    checked = _checked(answers, unit)
    return page.render(
        {
            "a": checked,
            "unit": unit,
            "has_pattern": has_pattern,
            "measures": tuple(_measures(checked, answers.table_cm, unit)),
            "over": "4 in" if unit == "in" else "10 cm",
            "some": "2 in" if unit == "in" else "5 cm",
        }
    )


def _environment() -> Environment:
    # Not HTML: nothing is escaped but by the filter, which quotes for TOML.
    environment = Environment(
        loader=FileSystemLoader(package_folder("templates")),
        undefined=StrictUndefined,
        autoescape=False,  # noqa: S701
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["toml"] = _quoted
    return environment


def _quoted(text: str) -> str:
    """Quote text for TOML, whose escapes are those of JSON and one more."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _checked(answers: Answers, unit: LengthUnit) -> dict[str, str | None]:
    """Give each answer as it will stand in the file, or its default, or None."""
    written: dict[str, str | None] = {}
    refused: list[Finding] = []
    for question in QUESTIONS:
        answer = cast("str | None", getattr(answers, question.key))
        if answer is None or not answer.strip():
            answer = default_of(question, unit=unit)
        try:
            written[question.key] = None if answer is None else check(question, answer, unit=unit)
        except ProjectError as error:
            refused.extend(error.findings)
    if refused:
        raise ProjectError(refused)
    return written


def _measures(
    checked: Mapping[str, str | None], table_cm: Mapping[str, float], unit: LengthUnit
) -> Iterator[_Measure]:
    for key in Body.model_fields:
        typed = typed_at(("body", key))
        tables = table_cm.get(key)
        yield _Measure(
            key,
            field_note("Body", key),
            checked.get(key),
            None if tables is None else show_tape(tables, unit=unit),
            "" if typed is None else typed.example(unit),
        )
