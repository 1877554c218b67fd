"""Other lengths, necks and edges beside the plan: what each takes, saves, and whether it lasts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Literal, NamedTuple, TypeAlias, get_args

from yokefellow.findings import Finding, PlanError
from yokefellow.plan import Plan, reckoned
from yokefellow.project_file.fields import ChosenLength, NamedLength
from yokefellow.project_file.models import (
    BODY_LENGTHS,
    NECK_OPENINGS,
    SLEEVE_LENGTHS,
    FinishName,
    Project,
    RibName,
)
from yokefellow.what_if.change import change
from yokefellow.what_if.pieces import Length, body_of, own_body, own_sleeve, sleeve_of, unmodified
from yokefellow.yarn import PRIOR, Amount, Knowledge, Reckoning, YarnEstimate, less

Kind = Literal["sleeves", "body", "neck", "ribs", "edges"]

AS_CHOSEN = "as chosen"
"""The choice of a length that has no name."""

RIBS: tuple[str, ...] = get_args(get_args(RibName)[0])

FINISHES: tuple[str, ...] = get_args(get_args(FinishName)[0])

_FINISH_FIELDS = ("garment.neck.finish", "garment.body.finish", "garment.sleeves.finish")
_RIB_FIELDS = ("garment.neck.rib", "garment.body.rib", "garment.sleeves.rib")


class Variant(NamedTuple):
    """The sweater with one thing chosen otherwise."""

    kind: Kind
    choice: str
    """The name of the length, opening, rib or finish; `as chosen` for a length without a name."""
    choices: Mapping[str, str]
    """What would stand in the file, by field; empty for the plan itself."""
    chosen: bool
    """Whether it is the plan itself."""
    cm: float | None
    """The length in whole rounds, or the opening; None for ribs and finishes."""
    yarns: Mapping[str, YarnEstimate]
    """By code; empty when it cannot be knitted."""
    saved: Mapping[str, Amount]
    """By code, against full sleeves and a hip-length body with all else as in the plan."""
    refused: tuple[Finding, ...] = ()
    """Why it cannot be knitted."""


def table(made: Plan, knowledge: Knowledge = PRIOR) -> tuple[Variant, ...]:
    """Try every named sleeve, body and neck, every rib and every finish, one at a time.

    Args:
        made: the sweater as it is planned.
        knowledge: what weighings have taught.
    """
    whole = made.reckoning.with_parts(unmodified(made))
    bare = {code: estimate.knitted for code, estimate in whole.estimates(knowledge).items()}
    desk = _Desk(knowledge, bare)
    return (*_lengths(made, desk), *_necks(made, desk), *_ribs(made, desk), *_finishes(made, desk))


class _Desk(NamedTuple):
    """What every line is reckoned with."""

    knowledge: Knowledge
    bare: Mapping[str, Amount]
    """By code, what full sleeves and a hip-length body would take."""


_Piece: TypeAlias = tuple[
    Literal["sleeves", "body"],
    tuple[str, ...],
    Callable[[Plan, ChosenLength], Length],
    Callable[[Plan], Length],
]


def _refused(kind: Kind, name: str, choices: Mapping[str, str], refused: PlanError) -> Variant:
    return Variant(
        kind,
        name,
        choices,
        chosen=False,
        cm=None,
        yarns=MappingProxyType({}),
        saved=MappingProxyType({}),
        refused=refused.findings,
    )


def _lengths(made: Plan, desk: _Desk) -> Iterator[Variant]:
    """Only the rows below the underarm change: nothing else is planned anew."""
    pieces: tuple[_Piece, ...] = (
        ("sleeves", SLEEVE_LENGTHS, sleeve_of, own_sleeve),
        ("body", BODY_LENGTHS, body_of, own_body),
    )
    for kind, names, of, own in pieces:
        for name, length in _choices(made.project, kind, names):
            try:
                piece = own(made) if length is None else of(made, length)
            except PlanError as refused:
                yield _refused(kind, name, {f"garment.{kind}.length": name}, refused)
                continue
            yield _variant(
                kind,
                name,
                {} if length is None else {f"garment.{kind}.length": name},
                piece.knitted_cm,
                made.reckoning.with_parts(piece.parts),
                desk,
            )


def _choices(
    project: Project, kind: Literal["sleeves", "body"], names: tuple[str, ...]
) -> Iterator[tuple[str, NamedLength | None]]:
    """Name the lengths; None stands for the sweater's own, which may have pins."""
    garment, fixed = project.garment, project.fixed
    chosen = garment.sleeves.length if kind == "sleeves" else garment.body.length
    rounds = fixed.sleeve_rounds if kind == "sleeves" else fixed.body_rounds
    own = chosen.name if isinstance(chosen, NamedLength) and rounds is None else AS_CHOSEN
    if own == AS_CHOSEN:
        yield own, None
    for name in names:
        yield name, None if name == own else NamedLength(name)


def _variant(
    kind: Kind,
    choice: str,
    choices: Mapping[str, str],
    cm: float | None,
    reckoning: Reckoning,
    desk: _Desk,
) -> Variant:
    yarns = reckoning.estimates(desk.knowledge)
    saved = {
        code: less(desk.bare[code], estimate.knitted)
        for code, estimate in yarns.items()
        if code in desk.bare
    }
    return Variant(
        kind,
        choice,
        MappingProxyType(dict(choices)),
        chosen=not choices,
        cm=cm,
        yarns=yarns,
        saved=MappingProxyType(saved),
    )


def _necks(made: Plan, desk: _Desk) -> Iterator[Variant]:
    if made.followed is not None and made.followed.fixed.neck is not None:
        return  # the neck is the pattern's, whatever opening is chosen
    opening = made.project.garment.neck.opening
    if not isinstance(opening, str):
        cm = made.shape.neck.edge.cm
        yield _variant("neck", AS_CHOSEN, {}, cm, made.reckoning, desk)
    for name in NECK_OPENINGS:
        choices = {} if name == opening else {"garment.neck.opening": name}
        yield _planned(made, "neck", name, choices, desk)


def _ribs(made: Plan, desk: _Desk) -> Iterator[Variant]:
    """All three edges in the same rib, where there is any."""
    if all(_at(made.project, field) != "rib" for field in _FINISH_FIELDS):
        return
    for name in RIBS:
        choices = {field: name for field in _RIB_FIELDS if _at(made.project, field) != name}
        yield _planned(made, "ribs", name, choices, desk)


def _finishes(made: Plan, desk: _Desk) -> Iterator[Variant]:
    """All three edges finished alike; where all are ribbed the ribs stand for that."""
    for name in FINISHES:
        choices = {field: name for field in _FINISH_FIELDS if _at(made.project, field) != name}
        if name != "rib" or choices:
            yield _planned(made, "edges", name, choices, desk)


def _at(project: Project, field: str) -> object:
    here: object = project
    for part in field.split("."):
        here = getattr(here, part)
    return here


def _planned(made: Plan, kind: Kind, name: str, choices: Mapping[str, str], desk: _Desk) -> Variant:
    """Plan the sweater anew: with the neck and the ribs the yoke may change, too."""
    try:
        shape, reckoning = (
            reckoned(change(made.project, **choices)) if choices else (made.shape, made.reckoning)
        )
    except PlanError as refused:
        return _refused(kind, name, choices, refused)
    cm = shape.neck.edge.cm if kind == "neck" else None
    return _variant(kind, name, choices, cm, reckoning, desk)
