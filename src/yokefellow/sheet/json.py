"""The sheet as data for other programs; keys stay as they are within one edition.

The top of the document:

- `edition`: 1. A key is only ever added within an edition; anything else is a new edition.
- `title`, `wearer`, `key`: the sheet's heading, and the name of this very schedule.
- `units`: `cm` or `in`, the unit of every worded length (`shown`). Numbers
  whose key ends in `_cm`, `_m` or `_g` are always in that unit.
- `rows`, `stitches`: rows in all (a sleeve row once), stitches in all (both sleeves).
- `dimensions`: `key`, `letter`, `place`, `body_cm`, `filled`, `ease_cm`,
  `finished_cm`, `count` (stitches or rounds), and `shown` with the worded
  `body`, `body_of` (which measure of the body), `ease`, `finished`, `counted`.
  A number that there is not is null.
- `fit`: `heights` with `key` (`neck`, `shoulder`, `high_chest`, `chest`, `waist`, `hip`, `hem`,
  `upper_arm`, `elbow`, `cuff`), `place`, `body_cm`, `filled`, `garment_cm`, `ease_cm`, `least_cm`
  and `most_cm` (of the ease that was chosen; no most is null), `at_cm` (below the underarm),
  `verdict` (`inside`, `tight`, `loose`, `free`) and `shown`; `summary`:
  sentences; `words`: where the heights of the body lie.
- `gauge`: sentences.
- `counts`: N, Y, B, S and U.
- `yarns`, the main one first: `code`, `name`, `verdict` (`enough`, `close`, `short`), `words`,
  `evidence` (`weighed`, `unravelled`, `gauge`), `rests_on` (in words), `chance` that it lasts,
  `sure` (what the ranges hold), and `amounts` with `key` (`knitted`, `need`, `needed`, `stash`,
  `left`), `metres`, `grams`, `balls` (by the best guess), `least_g` and `most_g` (the range;
  null where the amount is none), `shown`.
- `pattern`, only where one is followed: `title`, `intro`, `heads` (of the table but its first
  column), `sizes` (`size`, `followed`, `nearest`, `shown`), `rounds` (what becomes of them).
- `others`: null unless it was asked what other lengths would take. `lengths`: `kind` (`sleeves`,
  `body`, `neck`, `ribs`, `edges`), `choice`, `chosen` (it is this sweater), `cm`, `verdict` (of
  the yarn that is worst off, or `refused`), `words`, `shown`, and `yarns` (`code`, `verdict`,
  `stitches`, `metres`, `grams`, `least_g`, `most_g`, `balls`, and `saved_` stitches, m, g, balls).
  `longest`: `key`, `words`, `cm`, `limit`, `held_back_g`, `chance_of_more`, `choices` (field and
  value).
  `rescues`: `code`, `way`, `words`. `intro`, `colours`, `weighed`: sentences.
- `charts`, of the bands of yoke, body and sleeves: `band` (from 1), `section` (`yoke`, `body`,
  `sleeve`), `name`, `kind`, `title`, `reading`, `first` and `last` (rows of the section),
  `repeats`, `width` (stitches of a repeat before its first row) and `last_width` (after its
  last), `times` (rounds worked from each row), `counted`, `where` (in the yoke; else empty),
  `colours` (`code`, `letter`, `shade`), and `rows`, the first worked first: `first` and `last`
  (rounds), `hand` (letter of the one yarn in hand, or empty), `words`, `cells`. A cell has
  `code`, `letter` and `work` (`knit`, `purl`, `slip`, `make`); it is null where no stitch is yet.
- `raglan`: null for a circular yoke; else `line_width`, `line_increase`, `armhole_cm`, and
  `pieces` (`back`, `sleeve`, `front`): `name`, stitches at the `neck` and at the `underarm`, and
  `rates` (`every` so many rounds, so many `times`).
- `savings`: `key`, `words`, `stitches`, `metres`, `grams`, `balls`; below zero when it costs.
- `needles`: `where`, `needle`.
- `cautions`: `code`, `severity`, `field`, `message`, `remedy`; `safety`: sentences.
- `sections`: `key`, `title`, `start` (stitches before its first row), `copies`
  (names of the sleeves, or an empty list), `rows`, `begins`, `yarn`, `intro`, `done`, and
  `items` in knitting order. An item's `is` is `line`, `check`, `needle`, `ball`, `lots`, `end` or
  `pattern`:
  - `line`: `kind` (`rnd`, `RS`, `WS`, `part`, and `flat RS`, `flat WS` for rows worked
    flat over every stitch), `first`, `last`, `yarn` (in hand,
    where the section has several and `what` names none), `hands` (in a band,
    the codes of the yarns in hand; elsewhere an empty list), `what`, `count`
    (after each of its rows), `why`, `stitches` (worked in one row), `so_far`,
    `boxes` (one id for each row and copy, in order);
  - `check`: `kind` (`count`, `measure`, `try-on`, `look`, `weigh`), `after`, `title`, `text`,
    `blanks` (what is to be written down), `boxes`;
  - `needle`, `ball` (a new one), `lots` (in turn), `end` (of the yarn), `pattern` (which
    of its rounds follow): `from` (row of the section), `text`.
- `finishing`: `heading`, `paragraphs`; `abbreviations`: `code`, `meaning`, `how`.
- `filled`: `key`, `place`, `cm`, `source`, `shown`, `spread`.
- `assumed`: sentences; `residuals`: `place`, `wanted`, `got`, `difference`, `counted`.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any

from yokefellow.plan import Plan
from yokefellow.sheet.json_yarn import other_data, rounded, yarn_data
from yokefellow.sheet.lines import Halt, Item, Line, SectionView, Ticks
from yokefellow.sheet.pieces import RaglanView, Sheet
from yokefellow.sheet.view import view
from yokefellow.what_if import Prospects

__all__ = ["EDITION", "render_json"]

EDITION = 1


def render_json(plan: Plan, prospects: Prospects | None = None) -> str:
    """Give the sheet as a JSON document."""
    return json.dumps(_document(view(plan, prospects)), ensure_ascii=False, indent=2) + "\n"


def _document(sheet: Sheet) -> dict[str, Any]:
    return {
        "edition": EDITION,
        "title": sheet.title,
        "wearer": sheet.wearer,
        "key": sheet.key,
        "units": sheet.unit,
        "rows": sheet.total_rows,
        "stitches": sheet.total_stitches,
        **_glance(sheet),
        **_pattern(sheet),
        "fit": _fit(sheet),
        "others": other_data(sheet.others),
        "cautions": [
            {
                "code": found.code,
                "severity": found.severity,
                "field": found.field,
                "message": found.message,
                "remedy": found.remedy,
            }
            for found in sheet.before.cautions
        ],
        "raglan": _raglan(sheet.raglan),
        "safety": list(sheet.before.safety),
        "swatch": list(sheet.before.swatch),
        "charts": _charts(sheet),
        "sections": [_section(section) for section in sheet.sections],
        **_end(sheet),
    }


def _raglan(raglan: RaglanView | None) -> dict[str, Any] | None:
    if raglan is None:
        return None
    return asdict(raglan) | {"armhole_cm": rounded(raglan.armhole_cm)}


def _pattern(sheet: Sheet) -> dict[str, Any]:
    """Give what is followed of a pattern; no key where there is none."""
    pattern = sheet.pattern
    if pattern is None:
        return {}
    lines = [
        {
            "size": line.size,
            "followed": line.is_followed,
            "nearest": line.is_best,
            "shown": list(line.cells),
        }
        for line in pattern.lines
    ]
    return {
        "pattern": {
            "title": pattern.title,
            "intro": list(pattern.intro),
            "heads": list(pattern.heads),
            "sizes": lines,
            "rounds": list(pattern.told),
        }
    }


def _fit(sheet: Sheet) -> dict[str, Any]:
    return {
        "heights": [
            {
                "key": row.key,
                "place": row.place,
                "body_cm": rounded(row.body_cm),
                "filled": row.filled,
                "garment_cm": rounded(row.garment_cm),
                "ease_cm": rounded(row.ease_cm),
                "least_cm": rounded(row.least_cm),
                "most_cm": rounded(row.most_cm),
                "at_cm": rounded(row.at_cm),
                "verdict": row.verdict_key,
                "shown": {
                    "body": row.body,
                    "garment": row.garment,
                    "ease": row.ease,
                    "chosen": row.chosen,
                    "verdict": row.verdict,
                },
            }
            for row in sheet.fit.rows
        ],
        "summary": list(sheet.fit.summary),
        "words": sheet.fit.heights,
    }


def _glance(sheet: Sheet) -> dict[str, Any]:
    glance = sheet.glance
    return {
        "dimensions": [
            {
                "key": d.key,
                "letter": d.letter,
                "place": d.place,
                "body_cm": rounded(d.body_cm),
                "filled": d.filled,
                "ease_cm": rounded(d.ease_cm),
                "finished_cm": rounded(d.finished_cm),
                "count": d.count,
                "shown": {
                    "body": d.body,
                    "body_of": d.body_of,
                    "ease": d.ease,
                    "finished": d.finished,
                    "counted": d.counted,
                },
            }
            for d in glance.dimensions
        ],
        "gauge": list(glance.gauge),
        "skills": sheet.materials.skills,
        "notions": list(sheet.materials.notions),
        "notes": list(sheet.materials.notes),
        "counts": {count.letter: count.count for count in glance.counts},
        "yarns": [yarn_data(yarn) for yarn in glance.yarns],
        "savings": [
            {
                "key": s.key,
                "words": f"{s.what}: {s.saves} {s.amount}.",
                "stitches": s.stitches,
                "metres": rounded(s.length_m),
                "grams": rounded(s.weight_g),
                "balls": rounded(s.ball_count),
            }
            for s in glance.savings
        ],
        "needles": [{"where": use.where, "needle": use.needle} for use in glance.needles],
    }


def _charts(sheet: Sheet) -> list[dict[str, Any]]:
    listed = {band.number: band.where for band in sheet.above.bands} if sheet.above else {}
    return [
        {
            "band": chart.number,
            "section": chart.section,
            "name": chart.name,
            "kind": chart.kind,
            "title": chart.title,
            "reading": chart.reading,
            "first": chart.first,
            "last": chart.last,
            "repeats": chart.repeats,
            "width": chart.first_width,
            "last_width": chart.last_width,
            "times": chart.times,
            "counted": chart.counted,
            "where": listed.get(f"{chart.number}", ""),
            "colours": [colour._asdict() for colour in chart.colours],
            "rows": [
                {
                    "first": row.first,
                    "last": row.last,
                    "hand": row.hand,
                    "words": row.words,
                    "cells": [None if cell is None else cell._asdict() for cell in row.cells],
                }
                for row in chart.rows
            ],
        }
        for chart in sheet.charts
    ]


def _section(section: SectionView) -> dict[str, Any]:
    return {
        "key": section.key,
        "title": section.title,
        "start": section.start,
        "copies": list(section.copies),
        "rows": section.rows,
        "begins": section.begins,
        "yarn": section.yarn,
        "intro": list(section.intro),
        "items": [_item(item) for item in section.items],
        "done": section.done,
    }


def _item(item: Item) -> dict[str, Any]:
    if isinstance(item, Line):
        return {
            "is": "line",
            "kind": item.kind,
            "first": item.first,
            "last": item.last,
            "yarn": item.yarn,
            "hands": [colour.code for colour in item.hands],
            "what": item.what,
            "count": item.count,
            "why": item.why,
            "stitches": item.stitches,
            "so_far": item.so_far,
            "boxes": _ids(item.ticks),
        }
    if isinstance(item, Halt):
        return {
            "is": "check",
            "kind": item.kind,
            "after": item.after,
            "title": item.title,
            "text": item.text,
            "blanks": list(item.blanks),
            "boxes": _ids(item.ticks),
        }
    return {"is": item.kind, "from": item.number, "text": item.text}


def _ids(ticks: tuple[Ticks, ...]) -> list[str]:
    return [box.id for each in ticks for run in each.runs for box in run.boxes]


def _end(sheet: Sheet) -> dict[str, Any]:
    return {
        "finishing": [
            {"heading": heading, "paragraphs": list(paragraphs)}
            for heading, paragraphs in sheet.finishing
        ],
        "abbreviations": [
            {"code": entry.code, "meaning": entry.meaning, "how": entry.how}
            for entry in sheet.abbreviations
        ],
        "filled": [
            {
                "key": f.key,
                "place": f.place,
                "cm": rounded(f.cm),
                "source": f.source,
                "shown": f.value,
                "spread": f.spread,
            }
            for f in sheet.filled
        ],
        "assumed": list(sheet.assumed),
        "residuals": [
            {
                "place": r.place,
                "wanted": r.wanted,
                "got": r.got,
                "difference": r.difference,
                "counted": r.counted,
            }
            for r in sheet.residuals
        ],
    }
