"""Where this body departs from the usual one, and what the sweater does about it.

One sentence each.

Lengths and widths of front and back depart when they ask for a pair of rows or
an inch (`shaping.darts`, `fit.halves`, `sizing.bust`); a girth or a length when
it lies 1.5 standard deviations from that of bodies alike in chest
(`sizing.usual`, which names the surveys).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from yokefellow.advice.context import caution
from yokefellow.body.measurements import Figures
from yokefellow.body.usual import bust_cm, departure_cm, frame_cm
from yokefellow.findings import Finding, Severity
from yokefellow.fit import Finished
from yokefellow.project_file.models import Project
from yokefellow.quantities import length
from yokefellow.shaping import Dart, Shape, dart_rows


@dataclass(frozen=True, slots=True)
class _Desk:
    """What a note may speak of."""

    project: Project
    figures: Figures
    finished: Finished
    shape: Shape

    def show(self, cm: float) -> str:
        """Word a length."""
        return length(cm, self.project.sheet.units)

    def dart(self, half: str) -> Dart | None:
        """Give the dart of one half."""
        return next((dart for dart in self.shape.body.darts if dart.half == half), None)


def mismatches(
    project: Project, figures: Figures, finished: Finished, shape: Shape
) -> Iterator[Finding]:
    """Say for each mismatch what was done about it."""
    desk = _Desk(project, figures, finished, shape)
    yield from _longer(desk, "front", finished.body.bust.front_cm)
    yield from _longer(desk, "back", finished.body.bust.back_cm)
    yield from _raised(desk)
    yield from _full_bust(desk)
    yield from _wider(desk)
    yield from _arm(desk)
    yield from _shoulders(desk)
    yield from _torso(desk)


_note = partial(Finding, severity=Severity.NOTE)

_STAYS = "Nothing needs to change."


def _longer(desk: _Desk, half: str, cm: float) -> Iterator[Finding]:
    """Tell of the short rows, and of those that found no room."""
    dart, other = desk.dart(half), {"front": "back", "back": "front"}[half]
    wanted = dart_rows(cm, rows_per_cm=desk.shape.body.rounds.per_cm)
    if dart is not None:
        first = desk.shape.body.row(dart.number) - dart.rows
        over = "over the bust" if half == "front" else "across the back"
        beyond = " beyond what the raise of the neck takes" if half == "back" else ""
        beyond = beyond if desk.finished.neck.raise_cm else ""
        yield _note(
            code=f"fit.{half}-longer",
            field=f"body.{half}_length",
            message=(
                f"Your {half} is {desk.show(cm)} longer than your {other}{beyond}: "
                f"{len(dart.turns)} pair{'s' if len(dart.turns) > 1 else ''} of short rows {over}, "
                f"from row {first} of the body."
            ),
            remedy=_STAYS,
        )
    got = dart.rows if dart else 0
    if got < wanted:
        few = f"only {got} find" if got else "none of them finds"
        yield caution(
            "fit.dart-short",
            f"body.{half}_length",
            f"The {half} should have {wanted} rows more than the {other}, and {few} room "
            "between the side and the middle: two turns must not lie above one another.",
            "Measure both lengths again; or let the hem be that much longer all round.",
        )


def _raised(desk: _Desk) -> Iterator[Finding]:
    """Tell where the raise of the neck does all there is to do for a longer back."""
    front, back = desk.figures.own_cm("front_length"), desk.figures.own_cm("back_length")
    if front is None or back is None or desk.dart("back") is not None:
        return
    longer, per_cm = back - front, desk.shape.body.rounds.per_cm
    if dart_rows(desk.finished.body.bust.back_cm, rows_per_cm=per_cm):
        return  # there is more to do, and `_longer` says that it found no room
    if dart_rows(longer, rows_per_cm=per_cm) >= 2:
        yield _note(
            code="fit.back-raised",
            field="body.back_length",
            message=(
                f"Your back is {desk.show(longer)} longer than your front: the short rows at the "
                "back of the neck take that."
            ),
            remedy=_STAYS,
        )


def _full_bust(desk: _Desk) -> Iterator[Finding]:
    figures, split, body = desk.figures, desk.shape.split, desk.shape.body
    chest, high = figures.cm("chest"), figures.own_cm("high_chest")
    if high is None or not bust_cm(chest, high):
        return
    did = ["the yoke is sized for that"]
    if split.underarm_front > split.underarm_back:
        did.append(
            f"{split.underarm_front} of the {split.underarm.got} stitches of each underarm belong "
            "to the front"
        )
    if split.front > split.back:
        did.append(f"the front has {split.front - split.back} stitches more than the back")
    if body.growing:
        added = sum(change.front for change in body.changes if change.for_bust)
        did.append(f"the front gains {added} at its sides by row {body.row(body.growing)}")
    yield _note(
        code="fit.full-bust",
        field="body.high_chest",
        message=(
            f"Your chest is {desk.show(chest)} and the round above it {desk.show(high)}, as it "
            f"usually is with a chest of {desk.show(frame_cm(chest, high))}: {_listed(did)}."
        ),
        remedy=_STAYS,
    )


def _listed(parts: list[str]) -> str:
    *first, last = parts
    return f"{', '.join(first)}, and {last}" if first else last


def _wider(desk: _Desk) -> Iterator[Finding]:
    """Tell of a front or back that is wider by its own measure."""
    split, front = desk.shape.split, desk.figures.own_cm("front_chest")
    apart = split.front_total - split.back_total
    if front is None or not desk.finished.yoke.front_more_cm or apart == 0:
        return
    half, other = ("front", "back") if apart > 0 else ("back", "front")
    more = abs(2 * front - desk.figures.cm("chest"))
    theirs, others = split.underarm_front, split.underarm_back
    if apart < 0:
        theirs, others = others, theirs
    among = f", {theirs} of the {split.underarm.got} of each underarm among them"
    yield _note(
        code=f"fit.{half}-wider",
        field="body.front_chest",
        message=(
            f"Your {half} is {desk.show(more)} wider than your {other}: it has {abs(apart)} "
            f"stitches more{among if theirs > others else ''}."
        ),
        remedy=_STAYS,
    )


def _arm(desk: _Desk) -> Iterator[Finding]:
    more = departure_cm(desk.figures, "upper_arm")
    if more <= 0:
        return
    usual_cm, got_cm = desk.figures.cm("underarm_width"), desk.shape.split.underarm.cm
    did = f"the yoke ends with {desk.shape.split.held} stitches for each sleeve"
    if desk.finished.yoke.underarm_cm > usual_cm:
        did = (
            f"each underarm is {desk.show(got_cm)} wide instead of {desk.show(usual_cm)}, and {did}"
        )
    yield _note(
        code="fit.full-arm",
        field="body.upper_arm",
        message=(
            f"Your upper arm is {desk.show(desk.figures.cm('upper_arm'))}, {desk.show(more)} more "
            f"than most with your chest: {did}."
        ),
        remedy=_STAYS,
    )


def _shoulders(desk: _Desk) -> Iterator[Finding]:
    figures, yoke = desk.figures, desk.shape.yoke
    more = departure_cm(figures, "shoulder_girth")
    if not more:
        return
    kind, than = ("broad", "more") if more > 0 else ("narrow", "less")
    wide_cm = yoke.stitches_at(yoke.shoulder_round) / desk.shape.split.body.per_cm
    did = f"the yoke is {desk.show(wide_cm)} round at their point, in round {yoke.shoulder_round}"
    if more > 0 and desk.finished.yoke.underarm_cm < figures.cm("underarm_width"):
        did += f", and each underarm only {desk.show(desk.shape.split.underarm.cm)} wide"
    hint = more < 0 and figures.own_cm("high_chest") is None
    yield _note(
        code=f"fit.{kind}-shoulders",
        field="body.shoulder_girth",
        message=(
            f"Your shoulders are {desk.show(figures.cm('shoulder_girth'))} round, "
            f"{desk.show(abs(more))} {than} than most with your chest: {did}."
        ),
        remedy=(
            "If it is the bust that is full, measure body.high_chest: then the whole yoke goes "
            "by it."
            if hint
            else _STAYS
        ),
    )


def _torso(desk: _Desk) -> Iterator[Finding]:
    more, figures = departure_cm(desk.figures, "back_waist_length"), desk.figures
    if not more:
        return
    kind, than = ("long", "longer") if more > 0 else ("short", "shorter")
    body = desk.finished.body
    waist = desk.show(body.waist_at_cm)
    yield _note(
        code=f"fit.{kind}-torso",
        field="body.back_waist_length",
        message=(
            f"Your back is {desk.show(figures.cm('back_waist_length'))} to the waist, "
            f"{desk.show(abs(more))} {than} than most with your chest: waist and hip are taken "
            f"where yours lie, the waist {waist} below the underarm."
        ),
        remedy=_STAYS,
    )
