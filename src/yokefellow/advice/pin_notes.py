"""What each pinned count costs: the sweater planned with it, beside the one planned without it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import NamedTuple

from yokefellow.findings import Finding, Severity
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import OF_A_RAGLAN, pinned
from yokefellow.quantities import length
from yokefellow.shaping import Count, RaglanShape, Shape, Shaped, repeats_needed


class _Pin(NamedTuple):
    """A count that may be pinned, in words."""

    name: str
    thing: str
    """`stitches` or `rounds`."""
    where: str
    of: Callable[[Shape], Count]


def _yoke(shape: Shape) -> Count:
    split = shape.split
    body, sleeve, under = split.body, split.sleeve, split.underarm
    wanted = body.wanted + 2 * sleeve.wanted - 4 * under.wanted
    return Count(split.yoke, wanted, body.per_cm)


def _hem(shape: Shape) -> Count:
    body = shape.body
    return Count(body.hem_stitches, body.edge.wanted, body.edge.per_cm)


def _cast_on(shape: Shape) -> Count:
    neck = shape.neck
    return Count(neck.band_stitches, neck.stitches.wanted, neck.stitches.per_cm)


def _front(shape: Shape) -> Count:
    split = shape.split
    wanted = split.body.wanted / 2 - split.underarm.wanted
    return Count(split.front, wanted, split.body.per_cm)


def _back(shape: Shape) -> Count:
    return replace(_front(shape), got=shape.split.back)


def _share(piece: str) -> Callable[[Shape], Count]:
    """Give a piece of a raglan's neck; nobody asks for its width but with the pin itself."""

    def of(shape: Shape) -> Count:
        if not isinstance(shape.yoke, RaglanShape):
            raise TypeError("only a raglan has pieces at the neck")
        start = {"back": shape.yoke.back, "front": shape.yoke.front, "sleeve": shape.yoke.sleeve}
        return Count(start[piece].start, start[piece].start, shape.split.body.per_cm)

    return of


_PINS = MappingProxyType(
    {
        "neck_back": _Pin("Back", "stitches", "across the back of the neck", _share("back")),
        "neck_front": _Pin("Front", "stitches", "across the front of the neck", _share("front")),
        "neck_sleeve": _Pin("Sleeve", "stitches", "across its top at the neck", _share("sleeve")),
        "neck": _Pin("Neck", "stitches", "round the neck edge", lambda s: s.neck.stitches),
        "cast_on": _Pin("Cast-on", "stitches", "round the neckband", _cast_on),
        "yoke_rounds": _Pin("Yoke", "rounds", "in the depth of the yoke", lambda s: s.yoke.rounds),
        "yoke": _Pin("Yoke", "stitches", "round the end of the yoke", _yoke),
        "body": _Pin("Body", "stitches", "at the chest", lambda s: s.split.body),
        "sleeve": _Pin("Sleeve", "stitches", "at the upper arm", lambda s: s.split.sleeve),
        "underarm": _Pin(
            "Underarm", "stitches", "in the width of each underarm", lambda s: s.split.underarm
        ),
        "front": _Pin("Front", "stitches", "across the front between the underarms", _front),
        "back": _Pin("Back", "stitches", "across the back between the underarms", _back),
        "hem": _Pin("Hem", "stitches", "round the hem", _hem),
        "cuff": _Pin("Cuff", "stitches", "round the edge of the sleeve", lambda s: s.sleeve.edge),
        "body_rounds": _Pin(
            "Body", "rounds", "in the length above the hem", lambda s: s.body.rounds
        ),
        "sleeve_rounds": _Pin(
            "Sleeve", "rounds", "in the length above the cuff", lambda s: s.sleeve.rounds
        ),
    }
)
"""Every pin that is one number."""

_LISTS = MappingProxyType(
    {
        "increases": "Counts after the increase rounds pinned at {}",
        "increase_at": "Increase rounds pinned at rounds {}",
    }
)

_RULES = MappingProxyType(
    {
        "shoulder": "the yoke does not yet go round the shoulders at their point",
        "apart": "increase rounds lie closer than three rounds",
        "fullness": "the yoke is full too early or too late",
        "steep": "a round adds more than one stitch to every two",
    }
)
"""The rules of the yoke, as they are when broken."""


def pin_notes(
    project: Project, shaped: Shaped, without: Mapping[str, Shaped | None]
) -> Iterator[Finding]:
    """Say of every pin what it gives, what it breaks, and what would be chosen without it.

    Args:
        project: for its pins and units.
        shaped: the sweater with all of them.
        without: the sweater without each; None where none can be made.
    """
    for name in pinned(project.fixed):
        freed = without[name]
        told = [
            _measured(name, shaped, freed, project)
            if name in _PINS
            else _LISTS[name].format(_listed(getattr(project.fixed, name))),
            *_harder(shaped, freed),
            *_elsewhere(name, shaped, freed, project),
        ]
        broken = [rule for rule in shaped.broken if freed is not None and rule not in freed.broken]
        them = "it" if name in _PINS else "them"
        told += [f"with {them} {_RULES[rule]}" for rule in broken]
        yield Finding(
            "fixed.cost",
            Severity.CAUTION if broken else Severity.NOTE,
            f"fixed.{name}",
            f"{'; '.join(told)}.",
            _otherwise(name, shaped, freed),
        )


def _measured(name: str, shaped: Shaped, freed: Shaped | None, project: Project) -> str:
    """Set the measure a pin gives beside the one that was asked for."""
    pin = _PINS[name]
    count = pin.of(shaped.shape)
    # Rounds that are pinned decide a length: what was asked for stands in the other plan.
    asked = count if freed is None else pin.of(freed.shape)
    gathered = 1 - project.garment.body.gather / 100 if name == "hem" else 1.0
    off_cm = count.cm - asked.wanted_cm * gathered
    shown = length(abs(off_cm), project.sheet.units)
    beside = "it would be without" if name in OF_A_RAGLAN else "you asked"
    how = (
        f"what {beside}"
        if shown.startswith("0 ")
        else f"{shown} {'more' if off_cm > 0 else 'less'} than {beside}"
    )
    return f"{pin.name} pinned at {count.got} {pin.thing}: {how} {pin.where}"


ELSEWHERE_CM = 1.0
"""What a pin may move at another place without a word (our choice)."""

_OTHERS = ("neck", "body", "sleeve", "underarm")


def _elsewhere(name: str, shaped: Shaped, freed: Shaped | None, project: Project) -> Iterator[str]:
    """Say which other measure the pin moves."""
    if freed is None:
        return
    for other in _OTHERS:
        if other == name or getattr(project.fixed, other) is not None:
            continue
        ours, theirs = _PINS[other].of(shaped.shape), _PINS[other].of(freed.shape)
        off_cm = ours.cm - theirs.cm
        if abs(off_cm) > ELSEWHERE_CM:
            shown = length(abs(off_cm), project.sheet.units)
            how = "wider" if off_cm > 0 else "narrower"
            yield f"the {other} becomes {shown} {how}"


def _uneven(shaped: Shaped) -> int:
    """Count the increase rounds that cannot be knitted as one repeat all round."""
    steps = shaped.shape.yoke.increase_rounds
    return sum(1 for step in steps if repeats_needed(step.before, step.increases) > 1)


def _harder(shaped: Shaped, freed: Shaped | None) -> Iterator[str]:
    """Say how many more increase rounds a knitter must count than without the pin."""
    # A raglan's increases stand at its lines: its rounds are written piece by piece anyhow.
    if freed is None or isinstance(shaped.shape.yoke, RaglanShape):
        return
    uneven, before = _uneven(shaped), _uneven(freed)
    total = len(shaped.shape.yoke.increase_rounds)
    if uneven > before:
        yield (
            f"{uneven} of the {total} increase rounds cannot be knitted as one repeat all round, "
            f"{before or 'none'} without the pin"
        )


def _otherwise(name: str, shaped: Shaped, freed: Shaped | None) -> str:
    if freed is None:
        return "The other pins cannot be met without this one."
    if name in _PINS:
        count = _PINS[name].of(freed.shape).got
        same = count == _PINS[name].of(shaped.shape).got
        return (
            "Without this pin it would be the same."
            if same
            else f"Without this pin it would be {count}."
        )
    steps = freed.shape.yoke.increase_rounds
    free = [step.after if name == "increases" else step.number for step in steps]
    same = steps == shaped.shape.yoke.increase_rounds
    return (
        "Without this pin they would be the same."
        if same
        else f"Without this pin they would be {_listed(free)}."
    )


LONG = 12
"""Numbers of a list that are told one by one (our choice)."""


def _listed(numbers: Sequence[int]) -> str:
    """Write a list out; of a long one its beginning and its end."""
    if len(numbers) <= LONG:
        return ", ".join(map(str, numbers))
    return f"{', '.join(map(str, numbers[:4]))} … {numbers[-1]} ({len(numbers)} of them)"
