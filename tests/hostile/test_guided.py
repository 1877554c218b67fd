"""The guided fuzzing itself: what it changes, what it takes for a fault, that it gets about."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from collections.abc import Callable
from dataclasses import replace
from itertools import islice
from json import JSONDecodeError
from pathlib import Path
from random import Random
from typing import Any

import pytest

from tests.hostile import fuzzing, judged, seeds
from tests.hostile.bounded import ROOT
from tests.hostile.fuzzing import APART, NAMES, growth, guided, why_not
from tests.hostile.mutating import mixed, mutated
from tests.hostile.tables import as_toml
from tests.knitter import Mistake
from tests.project_file.sample import SOUND, refused
from yokefellow.findings import Finding, Severity, YokefellowError
from yokefellow.plan import plan
from yokefellow.project_file.load import LONGEST_LINE, parse
from yokefellow.rows.model import Op, Row

needs_atheris = pytest.mark.skipif(bool(why_not()), reason=why_not() or "it is here")

FILES = [seed.encode() for seed in islice(seeds.project_seeds(), 8)]


@pytest.mark.parametrize("file", FILES, ids=range(len(FILES)))
def test_tables_are_written_as_they_were_read(file: bytes) -> None:
    tables = tomllib.loads(file.decode())
    assert tomllib.loads(as_toml(tables)) == tables


# derived: what is read again is what was written
@pytest.mark.parametrize(
    "value", ["\x7f\"\\'\n", {"a b": [{"c": {}}], "": []}, [[{}], [0.5]], True]
)
def test_odd_tables_are_written_too(value: Any) -> None:
    assert tomllib.loads(as_toml({"x": value})) == {"x": value}


def is_planned(file: bytes) -> bool:
    try:
        plan(parse(file.decode()))
    except YokefellowError:
        return False
    return True


# derived: of eighty changes a few coincide; some plan and some do not, or one half is never met
def test_changed_tables_are_other_files_and_many_of_them_are_sweaters() -> None:
    made = [mutated(FILES[at % len(FILES)], seeds.PROJECT, Random(at)) for at in range(80)]
    changed = [file for file in made if file is not None]
    assert len({*changed}) > 70
    assert all(tomllib.loads(file.decode()) is not None for file in changed)
    assert max(map(len, b"\n".join(changed).decode().split("\n"))) <= LONGEST_LINE
    assert 15 < sum(map(is_planned, changed)) < 75


def test_files_are_mixed_table_by_table() -> None:
    mix = mixed(FILES[0], FILES[-1], Random(3))
    assert mix is not None
    tables, one, other = (tomllib.loads(file.decode()) for file in (mix, FILES[0], FILES[-1]))
    assert tables not in (one, other)
    assert {*tables} <= {*one, *other}


@pytest.mark.parametrize("file", [b"", b"\xff", b"a = ", b"a = " + b"[" * 5_000])
def test_what_has_no_tables_is_left_to_the_bytes(file: bytes) -> None:
    assert mutated(file, seeds.PROJECT, Random(1)) is None
    assert mixed(FILES[0], file, Random(1)) is None


def test_the_dictionary_knows_every_table_and_its_fields() -> None:
    words = set(seeds.project_words())
    assert {"swatch", "plain", "washed", "ball_weight", "bands", "raglan", "mosaic"} <= words


CLEAR = Finding("x.y", Severity.ERROR, "body.chest", "It is so.", "Do this.")


@pytest.mark.parametrize(
    "spoilt",
    [{"remedy": ""}, {"field": ""}, {"message": ""}, {"message": "a \x1b[31m."}, {"remedy": "Do"}],
)
def test_an_unclear_finding_is_a_fault(spoilt: dict[str, str]) -> None:
    judged.clear(CLEAR)
    with pytest.raises(AssertionError):
        judged.clear(replace(CLEAR, **spoilt))  # type: ignore[arg-type]


def test_a_finding_of_the_whole_file_names_no_field() -> None:
    (finding,) = refused("a = ")
    assert not finding.field
    judged.clear(finding)


def without_its_end(rendered: str) -> str:
    return rendered[: len(rendered) * 2 // 3]


@pytest.mark.parametrize("form", judged.FORMS)
def test_a_sheet_that_breaks_off_is_a_fault(form: str, monkeypatch: pytest.MonkeyPatch) -> None:
    made = plan(parse(SOUND))
    judged.whole(made, form)
    render: Callable[..., str] = getattr(judged, f"render_{form}")
    monkeypatch.setattr(judged, f"render_{form}", lambda *all_: without_its_end(render(*all_)))
    with pytest.raises((AssertionError, Mistake, JSONDecodeError)):
        judged.whole(made, form)


def test_a_row_that_is_printed_as_another_is_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    row = Row((Op("k", 5), Op("M1L")))
    judged.printed_and_read(row)
    monkeypatch.setattr(judged, "phrase", lambda *_: "k4, M1L")
    with pytest.raises(AssertionError):
        judged.printed_and_read(row)


# snapshot: as libFuzzer wrote it
LOG = """\
#2	INITED cov: 4835 ft: 7730 corp: 8/14124b exec/s: 4 rss: 101Mb
#3	NEW    cov: 5013 ft: 8000 corp: 9/15Kb lim: 8000 exec/s: 4 rss: 101Mb
#453	DONE   cov: 5402 ft: 10067 corp: 133/231Kb lim: 8000 exec/s: 21 rss: 104Mb
Done 453 runs in 21 second(s)
"""


def test_how_far_it_came_is_read_from_its_account() -> None:
    said = "edges 4,835 → 5,402, features 7,730 → 10,067, files 8 → 133; 453 runs in 21 s"
    assert str(growth(LOG)) == said
    assert growth(LOG.replace("Done", "")) is None
    assert growth(LOG.replace("INITED", "READ")) is None


# derived: the status of the one that ran instead
def test_without_atheris_it_says_so_and_types_at_random(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    ran: list[list[str]] = []

    def run(words: list[str], **_: object) -> subprocess.CompletedProcess[str]:
        ran.append(words)
        return subprocess.CompletedProcess(words, 3)

    monkeypatch.setattr(fuzzing, "find_spec", lambda _: None)
    monkeypatch.setattr(subprocess, "run", run)
    assert fuzzing.main(["7", str(tmp_path)]) == 3
    assert fuzzing.main(["--runs", "70", str(tmp_path), "row"]) == 3
    at_random = [sys.executable, "-m", "tests.hostile.fuzz"]
    assert ran == [[*at_random, "7"], [*at_random, "--examples", "70"]]
    assert "atheris is not installed for Python 3." in capsys.readouterr().out
    assert not [*tmp_path.iterdir()]


def limits_of(monkeypatch: pytest.MonkeyPatch, *words: str) -> list[tuple[str, ...]]:
    """What each target is run with: its name, the end of its folder, its limits."""
    ran: list[tuple[str, ...]] = []

    def run(name: str, folder: Path, *limits: str) -> subprocess.CompletedProcess[str]:
        ran.append((name, *folder.parts[-2:], *limits))
        return subprocess.CompletedProcess((), 0, LOG)

    monkeypatch.setattr(fuzzing, "why_not", lambda: "")
    monkeypatch.setattr(fuzzing, "guided", run)
    assert fuzzing.main(words) == 0
    return ran


def test_the_time_is_shared_out_or_so_many_files_are_tried_from_the_beginning(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    place = tmp_path / "fuzz"
    kept = place / "same" / "row" / "kept" / "old"
    kept.parent.mkdir(parents=True)
    kept.touch()
    assert limits_of(monkeypatch, "90", str(place)) == [
        ("project", "fuzz", "project", "-max_total_time=30"),
        ("chart", "fuzz", "chart", "-max_total_time=30"),
        ("row", "fuzz", "row", "-max_total_time=30"),
    ]
    assert limits_of(monkeypatch, "90", str(place), "row") == [
        ("row", "fuzz", "row", "-max_total_time=90")
    ]
    assert kept.exists()
    # our choice: rows are far shorter than files, and a hundred of them are tried for one
    assert limits_of(monkeypatch, "--runs", "5", str(place), "row", "chart") == [
        ("row", "same", "row", "-runs=500", "-seed=1"),
        ("chart", "same", "chart", "-runs=5", "-seed=1"),
    ]
    assert not kept.exists()


def test_a_fault_is_shown_from_where_it_went_wrong(tmp_path: Path) -> None:
    (tmp_path / "faults").mkdir()
    log = (
        "#1 NEW\n === Uncaught Python exception: ===\nKeyError: 1\n==7== ERROR: libFuzzer: exited\n"
    )
    shown = fuzzing.of_fault("row", tmp_path, log)
    assert shown.startswith(
        "=== Uncaught Python exception: ===\nKeyError: 1\n==7== ERROR: libFuzzer"
    )
    assert shown.endswith("FILE\nThe file:\n(none was kept)")
    slow = fuzzing.of_fault("row", tmp_path, "#1 NEW\n==7== ERROR: libFuzzer: timeout\n")
    assert slow.startswith("ERROR: libFuzzer: timeout")
    (tmp_path / "faults" / "crash-1").write_bytes(b"k5\xff")
    shown = fuzzing.of_fault("row", tmp_path, log)
    assert shown.endswith(f"{tmp_path / 'faults' / 'crash-1'}\nThe file:\nk5\\xff")


@needs_atheris
def test_the_same_dice_type_the_same_files(tmp_path: Path) -> None:
    kept: list[set[str]] = []
    for at in ("once", "again"):
        assert guided("chart", tmp_path / at, "-runs=30", "-seed=1").returncode == 0
        kept.append({file.name for file in (tmp_path / at / "kept").iterdir()})
    assert kept[0] == kept[1] != set()


RUNS = {"project": 60, "chart": 30, "row": 500}
"""Of which the seeds are a half or more."""


# derived: a hundred edges are far fewer than the smallest room has
@needs_atheris
@pytest.mark.parametrize("name", NAMES)
def test_each_target_gets_further_than_its_seeds(name: str, tmp_path: Path) -> None:
    ran = guided(name, tmp_path, f"-runs={RUNS[name]}", "-seed=1")
    grown = growth(ran.stdout)
    assert ran.returncode == 0, ran.stdout[-3000:]
    assert grown is not None
    assert grown.edges[1] > grown.edges[0] > 100
    assert grown.features[1] > grown.features[0]
    assert [*(tmp_path / "kept").iterdir()]


FAULTS = {
    "raises": ("raise KeyError(file)", "crash-"),
    "waits": ("__import__('time').sleep(30)", "timeout-"),
    "swells": ("held.append(b'x' * 10**8); __import__('time').sleep(0.2)", "oom-"),
}
"""What a faulty program might do with a file, and what that file is then called."""


@needs_atheris
@pytest.mark.parametrize("name", FAULTS)
def test_each_kind_of_fault_ends_the_run_and_its_file_is_kept(name: str, tmp_path: Path) -> None:
    deed, called = FAULTS[name]
    script = f"""
import sys
from dataclasses import replace
from pathlib import Path
from tests.hostile import guided
held = []
def tried(file):
    {deed}
guided.SECONDS, guided.MEGABYTES = 2, 300
guided.TARGETS = {{"row": replace(guided.TARGETS["row"], tried=lambda _: tried, seeds=list)}}
guided.main("row", Path(sys.argv[1]), ["-runs=100"])
"""
    # What the tests hold is not held against it.
    ballast = b"x" * (400 * 2**20)
    ran = subprocess.run(
        [*APART, sys.executable, "-c", script, str(tmp_path)],
        cwd=ROOT,
        capture_output=True,
        text=True,
    )
    assert ballast
    assert ran.returncode not in (0, 1), ran.stderr[-3000:]
    (fault,) = (tmp_path / "faults").iterdir()
    assert fault.name.startswith(called)
