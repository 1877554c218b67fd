"""What the page shows of a project file: its fields, the sweater they make, what was found."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Any, NamedTuple

from yokefellow.findings import Finding, Mend, ProjectError, Severity, YokefellowError
from yokefellow.live.edit import EditError, edited
from yokefellow.plan import Plan, plan
from yokefellow.project_file.fields import Kind
from yokefellow.project_file.load import parse
from yokefellow.project_file.models import Project
from yokefellow.project_file.new_file import check, quoted
from yokefellow.project_file.statements import FieldFacts, every_field
from yokefellow.quantities import CM_PER_INCH, LengthUnit, length_unit
from yokefellow.sheet.dimensions import dimensions
from yokefellow.sheet.drawing import drawing
from yokefellow.sheet.fit_pieces import FitView
from yokefellow.sheet.fit_view import fit_view
from yokefellow.sheet.pieces import Drawing
from yokefellow.words import found, words


class Slider(NamedTuple):
    """A length to be moved: its ends, its step and where it stands, in the unit of the file."""

    low: float
    high: float
    step: float
    value: float


class Told(NamedTuple):
    """A finding as the page says it: in the words of its fields, and not in those of a file."""

    severity: str
    field: str
    message: str
    way: str
    """What to do; empty where the field itself says it."""
    mends: tuple[Mend, ...]


class Measure(NamedTuple):
    """One letter of the drawing."""

    letter: str
    place: str
    finished: str


class Input(NamedTuple):
    """One field as the page shows it."""

    field: str
    label: str
    help: str
    kind: str
    names: tuple[str, ...]
    """Words to choose from; with a length they are suggestions."""
    only_names: bool
    typed: str
    """As it stands in the file, without quotes; empty where it is left out."""
    shown: str
    """What is taken where nothing is typed."""
    is_needed: bool
    is_relevant: bool
    findings: tuple[Finding, ...] = ()
    slider: Slider | None = None


class Group(NamedTuple):
    """Fields that belong together."""

    key: str
    title: str
    inputs: tuple[Input, ...]
    more: tuple[Input, ...]
    """Those that are seldom changed."""


class YarnBar(NamedTuple):
    """One color of the drawer: what there is, what is needed, as shares of the larger."""

    code: str
    verdict: str
    have: float
    low: float
    likely: float
    high: float
    words: str


@dataclass(frozen=True, slots=True)
class Answer:
    """Everything the page shows of one text."""

    text: str
    """The project file after the changes."""
    groups: tuple[Group, ...]
    findings: tuple[Finding, ...]
    """Those that stand at no field of the page, and all errors; the gravest first."""
    refused: Mapping[str, str]
    """By field, what was typed and not taken."""
    sweater: Plan | None
    """None while something is missing or impossible."""
    drawing: Drawing | None
    measures: tuple[Measure, ...]
    fit: FitView | None
    yarns: tuple[YarnBar, ...]

    @property
    def state(self) -> str:
        """`enough`, `close`, `short` or `unfinished`: the one line at the foot of the page."""
        if self.sweater is None:
            return "unfinished"
        order = ("short", "close", "enough")
        return min((bar.verdict for bar in self.yarns), key=order.index, default="enough")

    @property
    def at_fields(self) -> dict[str, Finding]:
        """The gravest finding of each field of the page."""
        shown = (one for group in self.groups for one in (*group.inputs, *group.more))
        return {one.field: one.findings[0] for one in shown if one.findings}

    @staticmethod
    def say(finding: Finding) -> Told:
        """Say a finding in the words of the page."""
        return told(finding)

    @property
    def told(self) -> tuple[Told, ...]:
        """All findings as the page says them, the gravest first."""
        return tuple(map(told, self.findings))

    @property
    def unit(self) -> LengthUnit:
        """The unit of the file."""
        return unit_of(self.text)


GROUPS: tuple[tuple[str, str, tuple[str, ...], tuple[str, ...]], ...] = (
    # key, title, fields shown at once, fields behind "more"
    (
        "body",
        "Body",
        ("body.chest", "body.upper_arm", "body.arm_length", "wearer.table", "wearer.size"),
        (
            *("body.waist", "body.hip", "body.head", "body.wrist", "body.elbow", "body.forearm"),
            *("body.shoulder_girth", "body.neck", "body.cross_back", "body.armhole_depth"),
            *("body.back_waist_length", "body.back_hip_length", "body.high_chest"),
            *("body.front_length", "body.back_length", "body.bust_height", "body.bust_points"),
        ),
    ),
    (
        "swatch",
        "Swatch",
        ("swatch.plain.washed.stitches", "swatch.plain.washed.rounds", "needles.main"),
        (
            "swatch.plain.weighed.weight",
            "swatch.plain.weighed.stitches",
            "swatch.plain.weighed.rounds",
            "swatch.rib.washed.stitches",
            "swatch.rib.washed.rounds",
            "needles.rib",
        ),
    ),
    (
        "yarn",
        "Yarn",
        ("yarn.MC.balls", "yarn.MC.ball_weight", "yarn.MC.ball_length"),
        ("yarn.MC.name", "yarn.MC.strands", "garment.work_order", "weighing.sure"),
    ),
    (
        "wishes",
        "Wishes",
        (
            *("garment.sleeves.length", "garment.body.length", "ease.chest", "ease.upper_arm"),
            *("garment.yoke.style", "garment.body.shape"),
        ),
        (
            *("garment.neck.opening", "garment.neck.finish", "garment.neck.front"),
            *("garment.neck.drop", "garment.neck.band", "garment.yoke.depth"),
            *("garment.yoke.increases", "garment.yoke.line_width", "garment.yoke.line_increase"),
            *("garment.body.finish", "garment.body.hem", "garment.body.gather"),
            *("garment.sleeves.finish", "garment.sleeves.cuff"),
        ),
    ),
    ("sheet", "Sheet", ("title", "sheet.paper", "unit", "sheet.units"), ("sheet.large_print",)),
)
"""What the page asks, in the order in which she can answer it."""


def unit_of(text: str) -> LengthUnit:
    """Give the unit of a file's bare numbers."""
    return length_unit(typed_values(text).get("unit")) or "cm"


@lru_cache(maxsize=8)
def typed_values(text: str) -> Mapping[str, str]:
    """Give what stands in a file, by the dotted field, as a person types it."""
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return MappingProxyType({})
    return MappingProxyType(dict(_typed(tables, ())))


def _typed(tables: Mapping[str, Any], path: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    for name, value in tables.items():
        place = (*path, name)
        if isinstance(value, dict):
            yield from _typed(value, place)
        elif isinstance(value, list):
            if all(isinstance(one, (str, int, float)) for one in value):
                yield ".".join(place), "; ".join(map(str, value))
        elif isinstance(value, bool):
            yield ".".join(place), "true" if value else "false"
        else:
            yield ".".join(place), str(value)


def as_toml(field: FieldFacts, typed: str, *, unit: LengthUnit) -> str | None:
    """Give what was typed as it will stand in the file; None takes the field out.

    Raises:
        ProjectError: the field does not take it.
    """
    if not typed.strip():
        return None
    if field.is_list:
        each = [one for one in typed.split(";") if one.strip()]
        return f"[{', '.join(quoted(check(field, one, unit=unit)) for one in each)}]"
    match field.typed.kind:
        case Kind.YES_NO:
            return "true" if typed.strip().lower() in {"true", "yes", "on"} else "false"
        case Kind.COUNT:
            whole = typed.strip()
            if not whole.isdigit():
                check(field, whole, unit=unit)
            field_value = int(whole)
            field.typed.read(field_value, unit)
            return whole
        case Kind.NUMBER:
            return check(field, typed, unit=unit)
        case _:
            return quoted(check(field, typed, unit=unit))


@cache
def _facts() -> Mapping[str, FieldFacts]:
    return MappingProxyType({field.field: field for field in every_field()})


def answer(text: str, changes: Mapping[str, str]) -> Answer:
    """Take changes into the text of a project file, and say what comes of them.

    Args:
        text: the project file.
        changes: by the dotted field, what was typed; empty leaves the field to be filled in.
    """
    facts = _facts()
    refused: dict[str, str] = {}
    wrong: list[Finding] = []
    for name, typed in changes.items():
        try:
            value = as_toml(facts[name], typed, unit=unit_of(text))
            text = edited(text, {name: value})
        except ProjectError as error:
            refused[name] = typed
            wrong += error.findings
        except (EditError, KeyError):
            refused[name] = typed
            wrong.append(found("page.not-changed", Severity.ERROR, name))
    made, findings = _made(text)
    everything = (*wrong, *findings)
    measures = dimensions(made) if made else ()
    return Answer(
        text,
        tuple(_groups(text, facts, refused, everything, made)),
        tuple(_gravest_first(everything)),
        refused,
        made,
        drawing(made, measures) if made else None,
        tuple(Measure(one.letter, one.place, one.finished) for one in measures),
        fit_view(made) if made else None,
        tuple(_bars(made)) if made else (),
    )


def _made(text: str) -> tuple[Plan | None, Sequence[Finding]]:
    try:
        project: Project = parse(text)
        made = plan(project)
    except YokefellowError as error:
        return None, error.findings
    return made, made.findings


def _gravest_first(findings: Sequence[Finding]) -> list[Finding]:
    order = list(Severity)
    return sorted(dict.fromkeys(findings), key=lambda finding: order.index(finding.severity))


def _groups(
    text: str,
    facts: Mapping[str, FieldFacts],
    refused: Mapping[str, str],
    findings: Sequence[Finding],
    made: Plan | None,
) -> Iterator[Group]:
    values = typed_values(text)
    unit = unit_of(text)
    sliders = _sliders(made, unit) if made else {}

    def shown(name: str) -> Input:
        field = facts[name]
        typed, only = field.typed, field.stated.only
        default = field.default if isinstance(field.default, str) else ""
        here = values.get(only.field) or str(facts[only.field].default or "") if only else ""
        mine = tuple(one for one in findings if one.field.partition("[")[0] == name)
        usual = getattr(field.default, "name", default)
        return Input(
            name,
            field.label,
            field.help,
            typed.kind.value,
            typed.names,
            typed.kind is Kind.CHOICE,
            refused.get(name, values.get(name, "")),
            str(usual or typed.example(unit).strip('"')),
            field.is_required,
            only is None or here in only.values,
            tuple(_gravest_first(mine)),
            sliders.get(name),
        )

    for key, title, first, more in GROUPS:
        yield Group(key, title, tuple(map(shown, first)), tuple(map(shown, more)))


def _sliders(made: Plan, unit: LengthUnit) -> dict[str, Slider]:
    """Give the lengths that can be moved, each from short to long for this body."""
    body, arm = made.figures.cm("back_hip_length"), made.figures.cm("arm_length")
    chest, girth = made.figures.cm("chest"), made.figures.cm("upper_arm")
    ends_cm = {
        "garment.sleeves.length": (0.08 * arm, 1.05 * arm, made.finished.sleeve.length_cm),
        "garment.body.length": (0.25 * body, 1.1 * body, made.finished.body.length_cm),
        "ease.chest": (-0.1 * chest, 0.3 * chest, made.finished.body.chest_cm - chest),
        "ease.upper_arm": (-0.1 * girth, 0.5 * girth, made.finished.sleeve.upper_arm_cm - girth),
    }
    per_unit, step = (CM_PER_INCH, 0.25) if unit == "in" else (1.0, 0.5)

    def on_the_tape(cm: float) -> float:
        return round(cm / per_unit / step) * step

    return {
        field: Slider(on_the_tape(low), on_the_tape(high), step, on_the_tape(value))
        for field, (low, high, value) in ends_cm.items()
    }


def told(finding: Finding) -> Told:
    """Say a finding in the words of the page: a remedy names a field by its label."""
    labels = {name: field.label for name, field in _facts().items()}
    label = labels.get(finding.field.partition("[")[0], "")
    sentences = words("live")
    message, way = finding.message, finding.remedy
    if finding.code == "field.missing":
        message, way = sentences.missing(label=label or finding.field), ""
    elif finding.mends:
        way = sentences.mend(
            changes=[
                (labels.get(mend.field.partition("[")[0], mend.field), mend.value.strip('"'))
                for mend in finding.mends
                if mend.value is not None
            ]
        )
    return Told(finding.severity.value, finding.field, message, way, finding.mends)


class Stop(NamedTuple):
    """What one place of a slider comes to."""

    value: float
    """In the unit of the file."""
    verdict: str
    """`enough`, `close`, `short`; `impossible` where no sweater can be made."""
    cautions: int


STOPS = 24
"""Places of a slider that are tried: one in an inch or so."""


def along(text: str, field: str) -> tuple[Stop, ...]:
    """Try a length from end to end: where the yarn lasts, and where cautions begin.

    Nothing comes back where the field has no slider or the text makes no sweater.
    """
    here = answer(text, {})
    shown = (one for group in here.groups for one in (*group.inputs, *group.more))
    slider = next((one.slider for one in shown if one.field == field and one.slider), None)
    if slider is None:
        return ()
    each = (slider.high - slider.low) / STOPS
    stops = []
    for number in range(STOPS):
        value = round((slider.low + (number + 0.5) * each) / slider.step) * slider.step
        made, findings = _made(edited(text, {field: quoted(f"{value:g} {here.unit}")}))
        order = ("short", "close", "enough")
        verdict = "impossible"
        if made is not None:
            verdict = min((one.verdict for one in made.yarns.values()), key=order.index)
        cautions = sum(one.severity is Severity.CAUTION for one in findings)
        stops.append(Stop(value, verdict, cautions))
    return tuple(stops)


def _bars(made: Plan) -> Iterator[YarnBar]:
    for code, estimate in made.yarns.items():
        need, have = estimate.need, estimate.have.mean.grams
        most = max(have, need.high.grams, 1.0)
        yield YarnBar(
            code,
            estimate.verdict,
            have / most,
            need.low.grams / most,
            need.mean.grams / most,
            need.high.grams / most,
            f"{need.low.grams:.0f}–{need.high.grams:.0f} g of {have:.0f} g",
        )
