"""A hostile project file gets one clear error: no traceback, no wait, no heap of memory."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from tests.hostile.bounded import Said, bounded
from tests.project_file.sample import SOUND, spoil

CHART = '\n[charts.a]\nkind = "stranded"\ncolours = { "." = "MC" }\n'
DRAWN = CHART.split("\n", 2)[2]
DEEP = 20_000


def titled(title: str) -> str:
    return spoil(("Sample", title))


FILES: dict[str, tuple[bytes | str, str]] = {
    "10 MB of one word": (b"x" * 10_000_000, "larger than 200 kB"),
    "10 MB of lines": (b"a = 1\n" * 1_666_667, "larger than 200 kB"),
    "a gauge of 10^9": (
        spoil(("26 over 4 in", "1000000000 over 4 in")),
        "swatch.plain.washed.stitches[1]",
    ),
    "a gauge of 10^9, bare": (spoil(('"26 over 4 in"', "1e9")), "is not a reading of the swatch"),
    "a gauge that is allowed to be typed": (
        spoil(("26 over 4 in", "999999 over 4 in")),
        "swatch.plain.washed.stitches[1]",
    ),
    "10^6 rows": (f'{SOUND}{CHART}rows = """\n' + ".\n" * 10**6 + '"""\n', "larger than 200 kB"),
    "as many rows as a file holds": (
        f'{SOUND}{CHART}rows = """\n' + ".\n" * 99_000 + '"""\n',
        "the chart has too many rows",
    ),
    "as many rows in a list": (
        f"{SOUND}{CHART}rows = [\n" + '".",\n' * 39_000 + "]\n",
        "the chart has too many rows",
    ),
    "a row as wide as a line": (f'{SOUND}{CHART}rows = ["{"." * 900}"]\n', "is too wide"),
    "deep lists": ("a = " + "[\n" * DEEP, "more deeply than can be read"),
    "deep lists, closed": ("a = " + "[\n" * DEEP + "]\n" * DEEP, "more deeply than can be read"),
    "deep lists on a line": ("a = " + "[" * 900, "more deeply than can be read"),
    "deep tables": ("a = " + "{ a = " * 160, "cannot be read from there on"),
    "deep headers": ("\n".join(f"[[{'a.' * depth}a]]" for depth in range(1, 430)), "swatch"),
    "a line of names": ("a." * 90_000 + "a = 1", "Line 1 of"),
    "a header of names": (f"[{'a.' * 90_000}a]", "Line 1 of"),
    "NUL": (titled("Sam\0ple"), "a control character"),
    "an escaped NUL": (titled("Sam\\u0000ple"), "cannot be printed"),
    "half a pair of UTF-16": (titled("Sam\\ud800ple"), "cannot be read"),
    "bytes that are no UTF-8": (SOUND.encode().replace(b"Sam", b"S\xff"), "not text in UTF-8"),
    "UTF-16": (SOUND.encode("utf-16"), "UTF-16"),
    "UTF-16 without its mark": (SOUND.encode("utf-16-le"), "UTF-16"),
    "UTF-32": (SOUND.encode("utf-32-be"), "UTF-16 or UTF-32"),
    "turned writing": (titled("Sam\u202eple"), '"Sam\\u202eple" holds a character'),
    "isolated writing": (titled("Sam\u2067ple"), "cannot be printed"),
    "a mark of direction": (titled("Sam\u200fple"), "cannot be printed"),
    "what is never a character": (titled("Sam\uffffple"), "cannot be printed"),
    "a colour for the terminal": (titled("Sam\\u001b[31mple"), "cannot be printed"),
    "a very long word": (titled("w" * 900), "has 900 letters"),
    "a number of 900 digits": (
        spoil(("balls = 6", f"balls = {'9' * 900}")),
        "a number of more than 15 digits",
    ),
    "infinitely many balls": (spoil(("balls = 6", "balls = inf")), "yarn.MC.balls"),
    "a number without an end": (spoil(("38 in", "1e999999999 in")), "body.chest"),
    "a power": (spoil(("38 in", "9**9**9 in")), "body.chest"),
    "5000 charts": (
        SOUND + "".join(f'[charts.a{n}]\nkind = "x"\n' for n in range(5_000)),
        "There are 5000 charts",
    ),
    "4000 bands": (
        SOUND + '[[garment.yoke.bands]]\nchart = "pebbles"\n' * 4_000,
        "up to 20 bands",
    ),
    "5000 yarns": (
        SOUND + "".join(f"[yarn.a{n}]\nballs = 1\n" for n in range(5_000)),
        "more errors are not shown",
    ),
    "a letter that turns its row round": (
        SOUND + CHART.replace('"."', '"א"') + 'rows = ["אא"]\n',
        "cannot be a mark of a chart",
    ),
}
"""Each file, and what must be said about it."""

MANY = {"deep headers", "5000 yarns"}
"""With more than one fault."""


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Said]:
    folder = tmp_path_factory.mktemp("hostile")
    for number, (content, _) in enumerate(FILES.values()):
        data = content if isinstance(content, bytes) else content.encode()
        (folder / f"{number}.toml").write_bytes(data)
    commands = [["check", f"{number}.toml"] for number in range(len(FILES))]
    return dict(zip(FILES, bounded(commands, cwd=folder), strict=True))


def is_clear(said: Said) -> bool:
    """Whether it says what is wrong and what to do, and nothing of the program's inside."""
    words = said.err.replace("\n", "")
    return (
        said.status == 1
        and said.out == ""
        and said.err.startswith("ERROR")
        and "→" in words
        and words.isprintable()
        and "Traceback" not in words
        and "itself failed" not in words
    )


# derived: forty findings of at most 500 letters
@pytest.mark.parametrize("name", FILES)
def test_a_hostile_file_gets_one_clear_error(name: str, told: dict[str, Said]) -> None:
    said = told[name]
    assert is_clear(said), said
    assert FILES[name][1] in " ".join(said.err.split()), said.err
    assert (said.err.count("ERROR") > 1) == (name in MANY)
    assert len(said.err) < 20_000


VAST = 10**10
"""Bytes of a file with nothing in it: no disk holds them, and no memory must."""


def of_nothing(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate(VAST)


def test_of_a_vast_file_no_more_is_read_than_is_needed(tmp_path: Path) -> None:
    of_nothing(tmp_path / "mine.toml")
    of_nothing(tmp_path / "drawn.toml")
    of_nothing(tmp_path / "weighed.weighings.jsonl")
    (tmp_path / "weighed.toml").write_text(SOUND)
    (tmp_path / "charted.toml").write_text(SOUND + NAMED)
    commands = [["check", f"{name}.toml"] for name in ("mine", "charted", "weighed")]
    expected = ("larger than 200 kB", "larger than 60 kB", "larger than 1,000,000 bytes")
    for said, words in zip(bounded(commands, cwd=tmp_path), expected, strict=True):
        assert is_clear(said), said
        assert words in " ".join(said.err.split())
        assert said.err.count("ERROR") == 1


NAMED = '\n[charts.a]\nfile = "drawn.toml"\n'
CHART_FILES: dict[str, tuple[str, str]] = {
    "10 MB of rows": (f"{DRAWN}{'.' * 9}\n" * 10**6, "larger than 60 kB"),
    "as many rows as it holds": (f'{DRAWN}rows = """\n' + ".\n" * 29_000 + '"""', "too many rows"),
    "a row as wide as a line": (f'{DRAWN}rows = ["{"." * 900}"]', "is too wide"),
    "deep lists": (f"{DRAWN}rows = " + "[\n" * DEEP, "more deeply than can be read"),
    "deep tables": (f"{DRAWN}a = " + "{ a = " * 160, "cannot be read from there on"),
    "NUL": (f'{DRAWN}rows = ["\0"]', "a control character"),
    "turned writing": (f'{DRAWN}rows = [".\u202e."]', "cannot be printed"),
    "a turned title": (f'{DRAWN}rows = ["."]\ntitle = "\u2067"', "cannot be printed"),
    "a mark of markup": ('kind = "purl"\ncolours = { "</script>" = "MC" }\nrows = ["."]', "mark"),
    "a way out": ('file = "../../x"', "names another file"),
}
"""What may stand in the file of a chart, and what is said."""


@pytest.mark.parametrize("name", CHART_FILES)
def test_a_hostile_chart_file_gets_one_clear_error(name: str, charted: dict[str, Said]) -> None:
    said = charted[name]
    assert is_clear(said), said
    assert CHART_FILES[name][1] in " ".join(said.err.split()), said.err
    assert said.err.count("ERROR") == 1


@pytest.fixture(scope="module")
def charted(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Said]:
    folder = tmp_path_factory.mktemp("charted")
    for number, (content, _) in enumerate(CHART_FILES.values()):
        (folder / f"{number}.drawn.toml").write_text(content)
        named = NAMED.replace("drawn.toml", f"{number}.drawn.toml")
        (folder / f"{number}.toml").write_text(SOUND + named)
    commands = [["check", f"{number}.toml"] for number in range(len(CHART_FILES))]
    return dict(zip(CHART_FILES, bounded(commands, cwd=folder), strict=True))


def test_the_mark_that_editors_put_first_is_no_fault(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_bytes(b"\xef\xbb\xbf" + SOUND.encode())
    (said,) = bounded([["check", "mine.toml"]], cwd=tmp_path)
    assert said.status == 0, said.err


NO_FILES = {
    "folder": "is a folder",
    "pipe": "is a pipe or a device",
    "/dev/zero": "is a pipe or a device",
    "/dev/full": "is a pipe or a device",
    "/dev/null": "is a pipe or a device",
    "loop": "cannot be read",
    "x" * 300: "cannot be read",
    "nowhere/mine.toml": "There is no file",
    "a\x1b[31mb": 'no file "a\\u001b[31mb"',
    "\u202elmot": 'no file "\\u202elmot"',
}
"""What may be given as a project file and is none, and what is said."""


@pytest.mark.parametrize("verb", ["check", "sheet", "weigh"])
def test_what_is_no_file_gets_one_clear_error(verb: str, tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "loop").symlink_to("loop")
    commands = [[verb, name] for name in NO_FILES]
    for said, words in zip(bounded(commands, cwd=tmp_path), NO_FILES.values(), strict=True):
        assert is_clear(said), said
        assert words in " ".join(said.err.split())
        assert said.err.count("ERROR") == 1


READING = {"time": "2025-03-01", "yarn": "MC", "grams": 100.0, "section": "yoke", "row": 5}


def reading(**changes: object) -> str:
    return json.dumps({**READING, **changes}) + "\n"


LOGS = {
    "broken lines": "x\n" * 20_000,
    "empty lines": "\n" * 20_000,
    "records of nothing": "{}\n" * 20_000,
    "deep lists": ("[" * 990 + "\n") * 900,
    "seven thousand readings that disagree": "".join(
        reading(row=1 + number % 70, grams=number % 400) for number in range(7_000)
    ),
    "every time there can be": reading(time="0001-01-01T00:00:00+23:59")
    + reading(time="9999-12-31T23:59:59-23:59", row=6)
    + reading(time="2025-03-01T10:00:00Z", row=7),
    "rows that are not there": reading(row=5_000) + reading(section="cuff", copy="left", row=4_999),
    "letters that run to the left": reading(note="שלום", grams=300),
}


# derived: of twenty thousand broken lines the first nineteen and the last are told
def test_a_hostile_log_is_passed_over_and_told(tmp_path: Path) -> None:
    for number, log in enumerate(LOGS.values()):
        (tmp_path / f"{number}.toml").write_text(SOUND)
        (tmp_path / f"{number}.weighings.jsonl").write_text(log)
    commands = [["weigh", f"{number}.toml"] for number in range(len(LOGS))]
    for name, said in zip(LOGS, bounded(commands, cwd=tmp_path), strict=True):
        assert said.status == 0, (name, said.err)
        assert said.err.count("NOTE") <= 21
        assert "Traceback" not in said.err
        if name == "broken lines":
            assert "19,980 more lines" in said.err
        if name == "letters that run to the left":
            assert "(\u200eשלום\u200e)" in said.out


NO_LOGS = ("x\n" * 490_000, "\n" * 900_000, "x" * 2_000_000)


def test_what_is_no_log_at_all_is_one_clear_error(tmp_path: Path) -> None:
    for number, log in enumerate(NO_LOGS):
        (tmp_path / f"{number}.toml").write_text(SOUND)
        (tmp_path / f"{number}.weighings.jsonl").write_text(log)
    commands = [["check", f"{number}.toml"] for number in range(len(NO_LOGS))]
    for said in bounded(commands, cwd=tmp_path):
        assert is_clear(said), said
        assert 'weighings.jsonl" cannot be read: it ' in " ".join(said.err.split())
        assert said.err.count("ERROR") == 1
