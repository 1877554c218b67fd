"""Types whatever leads the program where it has not been: one target of the guided fuzzing.

`python -m tests.hostile.guided TARGET FOLDER -max_total_time=60` goes on until it finds a
fault; with the name of a file behind the folder it tries that one again. What else stands
there is libFuzzer's. Needs atheris; `tests.hostile.fuzzing` says so where it is missing.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import partial
from hashlib import sha1
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any
from zlib import crc32

import atheris

# Only what is loaded in here is watched.
with atheris.instrument_imports(include=["yokefellow"]):
    from tests.banded.test_knitted import looks_right
    from tests.hostile import judged, mutating, seeds
    from tests.hostile.bounded import bound_memory
    from yokefellow.project_file.load import load

MEGABYTES = 768
"""All that the process may hold; a quiet one holds a fifth of it."""
SECONDS = 20
"""For one file; being watched makes a plan and its sheet three times as slow, half a second."""

ASKING = ("asks", *["asks not"] * 7)
"""Whether other lengths are planned too, which takes a second."""

Tried = Callable[[bytes], None]


@dataclass(frozen=True)
class Target:
    """What is typed, and what it starts from."""

    tried: Callable[[Path], Tried]
    """Gives, for a folder to write in, what tries one file."""
    seeds: Callable[[], Iterable[str]]
    words: Callable[[], Iterable[str]]
    longest: int
    """Bytes."""
    schema: Mapping[str, Any] | None = None
    """Of its tables, where it has any."""


def _projects(folder: Path) -> Tried:
    path = folder / "mine.toml"

    def tried(file: bytes) -> None:
        path.write_bytes(file)
        asks = _any_of(ASKING, file) == "asks"
        judged.planned_or_told(lambda: load(path), (_any_of(judged.FORMS, file),), asks=asks)

    return tried


def _charts(folder: Path) -> Tried:
    for place in seeds.BANDED:
        (folder / f"{place}.toml").write_text(seeds.BANDED[place])

    def tried(file: bytes) -> None:
        (folder / seeds.DRAWN_FILE).write_bytes(file)
        place = _any_of(tuple(seeds.BANDED), file)
        made = judged.planned_or_told(lambda: load(folder / f"{place}.toml"), ("json",))
        if made is not None and made.charts:
            looks_right(made)

    return tried


def _rows(_: Path) -> Tried:
    def tried(file: bytes) -> None:
        before, _, text = file.decode(errors="replace").rpartition("|")
        judged.read_back_or_told(text, int(before) if before.isdecimal() else 0)

    return tried


def _any_of(choices: tuple[str, ...], file: bytes) -> str:
    """Choose by the file itself, so that the same file always meets the same fate."""
    return choices[crc32(file) % len(choices)]


TARGETS: Mapping[str, Target] = {
    "project": Target(_projects, seeds.project_seeds, seeds.project_words, 8_000, seeds.PROJECT),
    "chart": Target(_charts, seeds.chart_seeds, seeds.project_words, 2_000, seeds.CHART),
    "row": Target(_rows, seeds.row_seeds, seeds.row_words, 400),
}


def by_structure(schema: Mapping[str, Any], file: bytes, most: int, seed: int) -> bytes:
    """Change the tables, or now and then the bytes: a file that is no TOML must be refused."""
    dice = Random(seed)
    changed = mutating.mutated(file, schema, dice) if dice.random() < 0.85 else None
    if changed is None or len(changed) > most:
        return bytes(atheris.Mutate(file, most))
    return changed


def by_mixing(file: bytes, other: bytes, most: int, seed: int) -> bytes:
    """Put a table of one into the other."""
    made = mutating.mixed(file, other, Random(seed))
    return file[:most] if made is None or len(made) > most else made


def lay_out(target: Target, folder: Path) -> None:
    """Write the seeds and the dictionary; what was kept by earlier runs stays."""
    for name in ("seeds", "kept", "faults"):
        (folder / name).mkdir(parents=True, exist_ok=True)
    for number, seed in enumerate(target.seeds()):
        (folder / "seeds" / f"{number:03}").write_text(seed)
    words = "\n".join(map(_escaped, target.words()))
    (folder / "words").write_text(words + "\n")


def _escaped(word: str) -> str:
    quoted = json.dumps(word)[1:-1]
    return f'"{quoted}"'


def keeping(tried: Tried, folder: Path) -> Tried:
    """Keep the file that meets a fault at once; libFuzzer's own end may come before it can."""

    def kept(file: bytes) -> None:
        try:
            tried(file)
        except BaseException:
            (folder / f"crash-{sha1(file, usedforsecurity=False).hexdigest()}").write_bytes(file)
            raise

    return kept


def main(name: str, folder: Path, words: list[str]) -> None:
    target = TARGETS[name]
    lay_out(target, folder)
    flags = [
        f"-artifact_prefix={folder / 'faults'}/",
        f"-dict={folder / 'words'}",
        f"-max_len={target.longest}",
        f"-rss_limit_mb={MEGABYTES}",
        f"-timeout={SECONDS}",
        "-len_control=0",
        "-print_final_stats=1",
    ]
    is_again = any(not word.startswith("-") for word in words)
    corpus = [] if is_again else [str(folder / "kept"), str(folder / "seeds")]
    structured: dict[str, Any] = {}
    if target.schema is not None:
        structured = {
            "custom_mutator": partial(by_structure, target.schema),
            "custom_crossover": by_mixing,
        }
    # libFuzzer looks at the memory once a second; one great bite must not take the machine down.
    bound_memory(3 * MEGABYTES * 2**20)
    with TemporaryDirectory() as scratch:
        atheris.Setup(
            [sys.argv[0], *flags, *words, *corpus], target.tried(Path(scratch)), **structured
        )
        atheris.Fuzz()


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]), sys.argv[3:])
