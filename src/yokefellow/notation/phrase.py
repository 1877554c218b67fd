"""A row as the sheet prints it: simple words for simple rows, exact counts for the others.

Every phrase can be read back by `read_phrase`, given the count before the row.
"""

from __future__ import annotations

import re
from types import MappingProxyType

from yokefellow.notation.grammar import NotationError
from yokefellow.notation.read import read_between
from yokefellow.notation.write import canonical, write
from yokefellow.rows.model import Feature, Op, Repeat, Row, RowKind, Step, taken
from yokefellow.shaping import BIND_OFFS

_WHOLE = {"k": "knit", "p": "purl"}
_CAST_ONS = MappingProxyType(
    {Feature.CAST_ON: "cast on", Feature.PROVISIONAL: "provisionally cast on"}
)
_FABRIC_STITCHES = frozenset({"k", "p", "k tbl"})

_JOIN = "; join in the round without twisting and pm for BOR"
_OPEN = "; turn without joining"
_CLOSE = "; do not turn: join in the round"
_TO_BACK = " to the centre back; pm for BOR"
_UNDERARM = "from the centre of the underarm: "
_NECK = "along the neck edge: "
_NEW_BOR = "; pm for BOR"
_TO_BOR = " to BOR"
_TO_MARKER = " to the next marker; this is BOR from now on"

_CAST_ON = re.compile(
    rf"(?:provisionally )?cast on ([1-9][0-9]{{0,3}}) sts(?:{re.escape(_JOIN)}|{re.escape(_OPEN)})"
)
_BIND_OFF = re.compile(r"bind off all ([1-9][0-9]{0,3}) sts(?: in rib)?")
_SEW = re.compile(r"sew down all ([1-9][0-9]{0,3}) live sts inside")
_TO_END = re.compile(r"\*(.+); rep from \* to end")


def phrase(row: Row, before: int) -> str:
    """Say a row the way the trade prints it, given the stitches on the needle before it.

    A round of one stitch is `knit` or `purl`; a rib is `*k1, p1; rep from *
    to end`; cast-on, split, pick-up, bind-off, the row that joins the work and
    the rows that end at a marker are sentences. Everything else has exact
    counts, as `write`. A row worked flat is turned at its end without a word,
    as in print.

    Args:
        row: the row.
        before: live stitches before it.

    Raises:
        ValueError: as `write`.
    """
    steps = canonical(row.steps)
    return _whole_round(row, steps, before) or _edge(row, steps, before) or _sentence(row, steps)


def _whole_round(row: Row, steps: tuple[Step, ...], before: int) -> str:
    if not row.kind.uses_every_stitch or len(steps) != 1 or taken(steps) != before:
        return ""
    if row.feature is Feature.JOIN:
        return ""
    only = steps[0]
    if isinstance(only, Repeat):
        return f"*{write(only.steps)}; rep from * to end" if _is_rib(only) else ""
    return _WHOLE[only.code] if only.code in _WHOLE and not only.yarn else ""


def _is_rib(repeat: Repeat) -> bool:
    return all(isinstance(op, Op) and op.code in _FABRIC_STITCHES for op in repeat.steps)


def _edge(row: Row, steps: tuple[Step, ...], before: int) -> str:
    if len(steps) != 1 or not isinstance(only := steps[0], Op) or only.yarn or only.times == 1:
        return ""
    write(steps)  # refuses what no row can say
    if row.feature in _CAST_ONS and only.code == "CO" and before == 0:
        return f"{_CAST_ONS[row.feature]} {only.times} sts{_OPEN if row.kind.is_flat else _JOIN}"
    if row.feature is Feature.BIND_OFF and only.code == "BO" and only.times == before:
        return f"bind off all {before} sts{' in rib' if _is_in_rib(row) else ''}"
    if row.feature is Feature.BIND_OFF and only.code == "sew" and only.times == before:
        return f"sew down all {before} live sts inside"
    return ""


def _is_in_rib(row: Row) -> bool:
    return row.fabric == "rib" and (not row.bind_off or BIND_OFFS[row.bind_off].in_pattern)


def _sentence(row: Row, steps: tuple[Step, ...]) -> str:
    text = write(steps)
    if row.feature is Feature.SPLIT:
        return _name_sleeves(text)
    if row.feature is Feature.PICK_UP:
        return f"{_UNDERARM}{text}{_NEW_BOR}"
    if row.feature is Feature.NECK_EDGE:
        return f"{_NECK}{text}{_NEW_BOR}"
    if row.feature is Feature.JOIN:
        return text + (_CLOSE if row.kind.is_flat else _TO_BACK)
    last = steps[-1]
    if row.kind is not RowKind.PART or not isinstance(last, Op) or last.code != "k":
        return text
    if row.feature is Feature.MOVE_BOR:
        return text + _TO_MARKER
    return text + _TO_BOR if row.feature is Feature.SHORT_ROW else text


def _name_sleeves(text: str) -> str:
    resting = " on waste yarn"
    if text.count(resting) != 2:
        return text
    yoke, front, back = text.split(resting)
    return f"{yoke}{resting} for the first sleeve{front}{resting} for the second sleeve{back}"


def read_phrase(text: str, before: int) -> tuple[Step, ...]:
    """Read a row as the sheet prints it; the exact inverse of `phrase`.

    Args:
        text: the printed instruction.
        before: live stitches before the row.

    Raises:
        NotationError: the text is no such row, or its words do not fit the
            stitches on the needle (`knit` on an empty needle, a rib whose
            repeat does not divide them).
    """
    for code, word in _WHOLE.items():
        if text == word:
            return (_all(code, text, before),)
    if match := _CAST_ON.fullmatch(text):
        return (Op("CO", int(match[1])),)
    for pattern, code, what in ((_BIND_OFF, "BO", "bind off"), (_SEW, "sew", "sew down")):
        if match := pattern.fullmatch(text):
            if int(match[1]) != before:
                raise NotationError(
                    text, position=match.start(1), expected=f"{before} sts to {what}"
                )
            return (Op(code, before),)
    if match := _TO_END.fullmatch(text):
        return canonical((_to_end(match, before),))
    start = next((len(head) for head in (_UNDERARM, _NECK) if text.startswith(head)), 0)
    return read_between(text, start=start, end=len(_without_tail(text)))


def _all(code: str, text: str, before: int) -> Op:
    if before < 1:
        raise NotationError(text, position=0, expected="a cast-on: no stitch is on the needle")
    return Op(code, before)


def _to_end(match: re.Match[str], before: int) -> Repeat:
    steps = read_between(match.string, start=1, end=match.end(1))
    each = taken(steps)
    if each < 1 or before < each or before % each:
        raise NotationError(
            match.string, position=1, expected=f"a repeat that divides the {before} sts before it"
        )
    return Repeat(steps, before // each)


def _without_tail(text: str) -> str:
    for tail in (_TO_BACK, _NEW_BOR, _TO_BOR, _TO_MARKER, _CLOSE):
        if text.endswith(tail):
            return text.removesuffix(tail)
    return text
