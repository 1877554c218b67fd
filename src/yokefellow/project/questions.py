"""What the program asks before it writes a fresh project file, in order."""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

from yokefellow.findings import Finding, ProjectError, Severity
from yokefellow.project.refusals import typed_at
from yokefellow.units import LengthUnit, QuantityError, parse_quantity

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["QUESTIONS", "Answers", "Question", "check", "default_of"]


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
    """How to measure, or what the answers mean."""
    default: str | None = None
    """Taken when nothing is typed; None leaves the field out."""
    default_in_inches: str | None = None
    """The same, in a file whose unit is the inch."""
    needed: bool = False
    """Without it no sweater can be planned."""
    measure: Measure = ""
    """What a bare number means: it gets its unit, or for a reading its width."""

    @property
    def place(self) -> tuple[str | int, ...]:
        """Give the place in the project file, step by step."""
        steps = tuple(self.field.split("."))
        return (*steps, 0) if self.measure == "reading" else steps


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
        "swatch_stitches",
        "swatch.plain.washed.stitches",
        "How many stitches did you count on the washed swatch, over how much?",
        "Such as 26 over 10 cm; a bare number is over 10 cm (4 in).",
        needed=True,
        measure="reading",
    ),
    Question(
        "swatch_rounds",
        "swatch.plain.washed.rounds",
        "And how many rounds, over how much?",
        "Such as 36 over 10 cm; a bare number is over 10 cm (4 in).",
        needed=True,
        measure="reading",
    ),
    Question(
        "ball_weight", "yarn.MC.ball_weight", "What does one ball weigh?", needed=True, measure="g"
    ),
    Question(
        "ball_length",
        "yarn.MC.ball_length",
        "How long is the yarn of one ball?",
        "In m or yd, as on its band.",
        needed=True,
        measure="m",
    ),
    Question(
        "balls",
        "yarn.MC.balls",
        "How many balls have you?",
        "A part of a ball counts as a decimal.",
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
        "cap, short, elbow, three-quarter, bracelet, full; a length; or shorter by 5 cm.",
        default="full",
        measure="length",
    ),
    Question(
        "body_length",
        "garment.body.length",
        "How long is the body?",
        "cropped, waist, high hip, hip, tunic; a length from the underarm; or longer by 5 cm.",
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
        typed.read(float(written) if question.measure == "number" else written, unit)
    except QuantityError as refused:
        instead = getattr(refused, "instead", None) or typed.example(unit)
        raise ProjectError(
            [
                Finding(
                    refused.code,
                    Severity.ERROR,
                    question.field,
                    f"{refused}; allowed is {typed.allowed(unit)}.",
                    f"Type, for example: {instead.strip(chr(34))}",
                )
            ]
        ) from None
    return written


def _complete(measure: Measure, answer: str, unit: LengthUnit) -> str:
    """Give a bare number the unit that it means."""
    if measure == "number":
        return f"{parse_quantity(answer, base='m', allowed=('m',), default='m'):g}"
    if not _is_bare(answer):
        return answer
    if measure == "reading":
        return f"{answer} over {'4 in' if unit == 'in' else '10 cm'}"
    return f"{answer} {unit}" if measure == "length" else f"{answer} {measure}".strip()


def _is_bare(answer: str) -> bool:
    return answer[-1:] in set("0123456789½¼¾⅓⅔⅛⅜⅝⅞") and not answer[:1].isalpha()
