"""What other lengths would take, the longest that lasts, and what to do about a short colour."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from types import MappingProxyType

from yokefellow.plan import Plan
from yokefellow.quantities import LengthUnit, length, yarn_length
from yokefellow.sheet.bars import bars
from yokefellow.sheet.figures import balls, grams, less_than, number, percent_of
from yokefellow.sheet.weighed import weighed
from yokefellow.sheet.yarn_pieces import (
    LongestView,
    OtherGroup,
    OtherLengths,
    OtherLine,
    OtherYarn,
    RescueView,
)
from yokefellow.sheet.yarns import between
from yokefellow.what_if import Length, Longest, Prospects, Rescue, Variant, freed
from yokefellow.yarn import MAIN, YarnEstimate

__all__ = ["other_lengths", "rescue_views"]

_TITLES = MappingProxyType(
    {"sleeves": "Sleeves", "body": "Body", "neck": "Neck", "ribs": "All ribs", "edges": "All edges"}
)
_VERDICTS = MappingProxyType(
    {"enough": "enough", "close": "too close to call", "short": "short", "refused": "cannot be"}
)
_WORST = ("enough", "close", "short")

MOST_RESCUES = 3
"""Suggestions for one colour; the least changes come first."""


def other_lengths(plan: Plan, prospects: Prospects) -> OtherLengths:
    """Put what was asked beside the plan into tables and sentences."""
    groups = tuple(_groups(plan, prospects.variants))
    sought = (prospects.longest_sleeves, prospects.longest_body)
    return OtherLengths(
        intro=_intro(plan),
        groups=groups,
        colours=tuple(_colours(plan, prospects.variants)),
        bars=bars(plan, groups),
        longest=tuple(_longest(plan, found) for found in sought if found is not None),
        rescues=tuple(rescue_views(plan, prospects.rescues)),
        weighed=weighed(plan, prospects.forecast) if prospects.forecast else (),
    )


def _intro(plan: Plan) -> str:
    of = "the main yarn, MC" if len(plan.yarns) > 1 else "the yarn"
    return (
        f"One thing is chosen otherwise at a time, and all else stays as planned. The amounts are "
        f"of {of}, ends and swatch included, by the best guess before any weighing; what it saves "
        "is against full sleeves and a body to the hip. Bold: this sweater."
    )


def _groups(plan: Plan, variants: Sequence[Variant]) -> Iterator[OtherGroup]:
    for kind, together in groupby(variants, key=lambda variant: variant.kind):
        lines = tuple(_line(plan, variant) for variant in together)
        yield OtherGroup(kind, _TITLES[kind], lines)


def _line(plan: Plan, variant: Variant) -> OtherLine:
    unit = plan.project.sheet.units
    refused = not variant.yarns
    worst = max(
        variant.yarns.values(),
        key=lambda e: (_WORST.index(e.verdict), e.code == MAIN),
        default=None,
    )
    key = "refused" if worst is None else worst.verdict
    main = variant.yarns.get(MAIN)
    need = main.need.mean if main else None
    return OtherLine(
        choice=variant.choice,
        is_chosen=variant.chosen,
        long="" if variant.cm is None else length(variant.cm, unit),
        cm=variant.cm,
        stitches=number(need.stitches) if need else "",
        length=yarn_length(need.metres, unit) if need else "",
        weight=grams(need.grams) if need else "",
        balls=balls(need.balls) if need else "",
        saves=_saves(variant),
        verdict_key=key,
        verdict=variant.refused[0].message if refused else _verdict(plan, key, worst),
        yarns=tuple(_yarn(variant, estimate) for estimate in variant.yarns.values()),
    )


def _verdict(plan: Plan, key: str, worst: YarnEstimate | None) -> str:
    several = worst is not None and key != "enough" and len(plan.yarns) > 1
    return f"{_VERDICTS[key]}: {worst.code}" if several and worst else _VERDICTS[key]


def _saves(variant: Variant) -> str:
    saved = variant.saved.get(MAIN)
    if saved is None:
        return ""
    whole = round(saved.grams)
    if whole == 0:
        return "the same"
    return f"{grams(abs(whole))} {'less' if whole > 0 else 'more'}"


def _yarn(variant: Variant, estimate: YarnEstimate) -> OtherYarn:
    need, saved = estimate.need, variant.saved.get(estimate.code)
    return OtherYarn(
        code=estimate.code,
        verdict=estimate.verdict,
        stitches=need.mean.stitches,
        metres=need.mean.metres,
        grams=need.mean.grams,
        least_g=need.low.grams,
        most_g=need.high.grams,
        balls=need.mean.balls,
        saved_stitches=saved.stitches if saved else 0,
        saved_m=saved.metres if saved else 0.0,
        saved_g=saved.grams if saved else 0.0,
        saved_balls=saved.balls if saved else 0.0,
    )


def _colours(plan: Plan, variants: Sequence[Variant]) -> Iterator[str]:
    """Say what the other colours take: no length changes it, a neck or a rib may."""
    for code in plan.yarns:
        if code == MAIN:
            continue
        needs = [one.yarns[code].need.mean for one in variants if code in one.yarns]
        low, high = min(needs, key=lambda n: n.grams), max(needs, key=lambda n: n.grams)
        stitches = between(low.stitches, high.stitches)
        weight = between(low.grams, high.grams)
        yield f"{code} takes {weight} g ({stitches} stitches) in every one of them."


def _longest(plan: Plan, found: Longest) -> LongestView:
    piece = found.sleeve if found.wish == "sleeves" else found.body
    return LongestView(
        key=found.wish,
        words=" ".join(_longest_words(plan, found, piece, plan.project.sheet.units)),
        cm=piece.cm,
        limit=found.limit,
        held_back_g=found.held_back.grams,
        chance_of_more=found.chance_of_more,
        choices=tuple(found.choices.items()),
    )


def _longest_words(plan: Plan, found: Longest, piece: Length, unit: LengthUnit) -> Iterator[str]:
    what = "sleeves" if found.wish == "sleeves" else "body"
    many = what == "sleeves"
    of = found.code if len(plan.yarns) > 1 else "the yarn"
    long = length(piece.knitted_cm, unit)
    if found.limit == "too little":
        yield (
            f"Not even the shortest {what}, {long} from underarm to edge, "
            f"{'last' if many else 'lasts'}: {of} is too little for the rest."
        )
        return
    left = grams(found.held_back.grams)
    is_so = piece.rounds == _rounds(plan, found.wish)
    if found.limit == "yarn":
        yield f"The longest {what} that {'last' if many else 'lasts'}: {long}, underarm to edge."
        yield f"About {left} are held back for what is not known."
        if found.chance_of_more is not None:
            yield (
                f"One round more, and {of} would last with a chance of "
                f"{less_than(found.chance_of_more, found.estimate.sure)}, less than the "
                f"{percent_of(found.estimate.sure)} that were asked for."
            )
    else:
        end = "the wrist" if many else "a tunic's length"
        be = ("are" if many else "is") if is_so else "may be"
        yield (
            f"The {what} {be} as long as {'they' if many else 'it'} can be, {long}: {end} is "
            f"the limit, and not the yarn. About {left} would be left."
        )
    if not is_so:
        yield _to_write(plan, found)
    worse = [code for code, verdict in found.others.items() if verdict != "enough"]
    if worse:
        yield f"No length changes what {' and '.join(worse)} would need."


def _rounds(plan: Plan, wish: str) -> int:
    """Count the rounds that the sweater of the file has there, with the edge."""
    if wish == "sleeves":
        return plan.shape.sleeve.rounds.got + plan.shape.sleeve.cuff.all_rounds
    return plan.shape.body.rounds.got + plan.shape.body.hem.all_rounds


def _to_write(plan: Plan, found: Longest) -> str:
    field, value = next(iter(found.choices.items()))
    table, _, key = field.rpartition(".")
    pins = freed(plan.project, found.choices)
    out = f", and take {' and '.join(pins)} out of [fixed]" if pins else ""
    return f'For that, write {key} = "{value}" under [{table}]{out}.'


def rescue_views(plan: Plan, found: Sequence[Rescue]) -> Iterator[RescueView]:
    """Word the suggestions for each short colour, the least change first."""
    for code, together in groupby(found, key=lambda rescue: rescue.code):
        for rescue in tuple(together)[:MOST_RESCUES]:
            yield RescueView(code, rescue.way, _rescue_words(plan, rescue))


def _rescue_words(plan: Plan, rescue: Rescue) -> str:
    names = [plan.shape.yoke.bands[number - 1].name for number in rescue.bands]
    several = "bands" if len(names) > 1 else "band"
    which = " and ".join(
        f"{number} ({name})" for number, name in zip(rescue.bands, names, strict=True)
    )
    if rescue.way == "swap":
        what = f"take {rescue.instead} in place of {rescue.code} in {several} {which}"
    elif rescue.way == "narrow":
        rows = f"the last {rescue.rows_less} rows" if rescue.rows_less > 1 else "the last row"
        what = f"leave out {rows} of the chart of {several} {which}"
    else:
        what = f"leave out {several} {which}"
    return f"{rescue.code}: {what}, and every yarn is enough."
