"""The knitting log: only added to, whole after any crash, and honest about what it cannot read."""

from __future__ import annotations

import multiprocessing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from yokefellow.files import FileError
from yokefellow.knitting import (
    Counted,
    Event,
    Knitted,
    Note,
    Ripped,
    TakenBack,
    Weighed,
    append,
    log_path,
    read_log,
)
from yokefellow.yarn.weighing_log import Entry
from yokefellow.yarn.weighing_log import add as add_weighing
from yokefellow.yarn.weighing_log import log_path as weighings_path

NOW = datetime(2026, 3, 1, 20, 0, tzinfo=UTC)


def after(minutes: float) -> datetime:
    return NOW + timedelta(minutes=minutes)


def knitted(row: int, minutes: float = 0, section: str = "yoke") -> Knitted:
    return Knitted(time=after(minutes), section=section, row=row)


def events(project: Path) -> list[Event]:
    return [logged.event for logged in read_log(project).events]


@pytest.fixture
def project(tmp_path: Path) -> Path:
    return tmp_path / "mine.toml"


def test_a_log_that_is_not_there_is_empty(project: Path) -> None:
    assert read_log(project) == ((), ())


def test_what_is_added_is_read_back_in_the_order_of_time(project: Path) -> None:
    given: list[Event] = [
        knitted(20, minutes=30),
        knitted(10),
        Counted(time=after(40), section="yoke", row=20, stitches=228),
        Ripped(time=after(50), section="sleeve", row=3, copy_="left"),
        Note(time=after(60), note="on the train"),
        Weighed(time=after(70), section="yoke", row=20, yarn="MC", grams=210.5),
    ]
    numbers = [append(project, event, now=after(100)) for event in given]
    assert numbers == [1, 2, 3, 4, 5, 6]  # derived: as they were added
    assert events(project) == sorted(given, key=lambda event: event.time)
    assert all(line.startswith("{") for line in log_path(project).read_text().splitlines())


def test_nothing_is_ever_rewritten(project: Path) -> None:
    append(project, knitted(10), now=NOW)
    first = log_path(project).read_bytes()
    append(project, TakenBack(time=after(5), number=1), now=after(5))
    assert log_path(project).read_bytes().startswith(first)
    assert events(project) == []


def test_an_event_that_is_not_there_cannot_be_taken_back(project: Path) -> None:
    append(project, knitted(10), now=NOW)
    before = log_path(project).read_bytes()
    with pytest.raises(FileError) as error:
        append(project, TakenBack(time=NOW, number=2), now=NOW)
    assert [one.code for one in error.value.findings] == ["log.no-event"]
    assert log_path(project).read_bytes() == before


def test_the_future_is_refused(project: Path) -> None:
    with pytest.raises(FileError) as error:
        append(project, knitted(10, minutes=60), now=NOW)
    assert [one.code for one in error.value.findings] == ["log.future"]
    assert not log_path(project).exists()


@pytest.mark.parametrize("cut", range(1, 60, 7))
def test_a_torn_line_loses_itself_alone_and_is_told(project: Path, cut: int) -> None:
    append(project, knitted(10), now=NOW)
    append(project, knitted(20, 30), now=after(30))
    path = log_path(project)
    path.write_bytes(path.read_bytes()[:-cut])
    torn = read_log(project)
    if cut > 1:  # derived: without its end alone the line is whole
        assert [one.code for one in torn.messages] == ["log.torn"]
    append(project, knitted(30, 60), now=after(60))
    rows = [event.row for event in events(project) if isinstance(event, Knitted)]
    assert rows == ([10, 20, 30] if cut == 1 else [10, 30])


# derived: three lines were added behind the first
def test_a_strangers_line_is_passed_over_with_its_number(project: Path) -> None:
    append(project, knitted(10), now=NOW)
    with log_path(project).open("a") as file:
        file.write(
            '{"event": "knitted", "time": "2026-03-01T20:00:00Z", "section": "toe", "row": 1}\n'
        )
        file.write('{"event": "washed", "time": "2026-03-01T20:00:00Z"}\n')
        file.write('{"event": "note", "time": "2026-03-01T20:00:00Z", "note": "\\u202e"}\n')
    found = read_log(project)
    assert [one.code for one in found.messages] == ["log.line"] * 3
    assert [dict(one.values)["line"] for one in found.messages] == [2, 3, 4]  # derived: as added
    assert [one.event for one in found.events] == [knitted(10)]


def test_a_foreign_file_is_refused(project: Path) -> None:
    log_path(project).write_text("shopping\n" * 40)
    with pytest.raises(FileError) as error:
        read_log(project)
    assert [one.code for one in error.value.findings] == ["log.foreign"]


# derived: as weighed
def test_the_weighings_of_before_are_events_of_the_log(project: Path) -> None:
    add_weighing(
        weighings_path(project), Entry("2026-02-28T10:00:00+00:00", "MC", 240.0, "yoke", 5)
    )
    append(project, knitted(10), now=NOW)
    weighed, row = events(project)
    assert isinstance(weighed, Weighed)
    assert (weighed.grams, weighed.row) == (240.0, 5)
    assert row == knitted(10)


def _write(folder: str, number: int) -> None:
    for row in range(1, 26):
        append(Path(folder) / "mine.toml", knitted(row, section="yoke", minutes=-number), now=NOW)


def test_two_processes_at_once_lose_nothing(project: Path) -> None:
    context = multiprocessing.get_context("spawn")
    writers = [context.Process(target=_write, args=(str(project.parent), n)) for n in (1, 2)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert [writer.exitcode for writer in writers] == [0, 0]
    found = read_log(project)
    assert found.messages == ()
    assert len(found.events) == 50  # derived: 25 rows of each
