"""The page on the loopback interface: what it serves, and what it refuses."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.project_file.sample import SOUND
from yokefellow.live.server import Served, application, digest
from yokefellow.project_file.load import load

TOKEN, PORT = "t" * 43, 8765
HOME = f"http://127.0.0.1:{PORT}"
PAGE = f"/{TOKEN}"
ORIGIN = {"origin": HOME}
SCRIPT = "<script>alert(1)</script>\"'><img src=x onerror=alert(1)>"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "mine.toml"
    path.write_text(SOUND, "utf-8")
    return path


@pytest.fixture
def client(file: Path) -> TestClient:
    return TestClient(application(Served(file, TOKEN, PORT)), base_url=HOME)


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_the_page_is_whole_and_says_nothing_runs_inline(client: TestClient) -> None:
    answer = client.get(PAGE + "/")
    assert answer.status_code == 200  # published: RFC 9110, status codes
    policy = answer.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy
    assert "<script>" not in answer.text
    assert " style=" not in answer.text
    assert " onclick" not in answer.text
    for name in ("live.css", "live.js"):
        assert client.get(f"{PAGE}/{name}").status_code == 200  # published: RFC 9110, status codes


@pytest.mark.parametrize("path", ["/", "/change", f"/{'u' * 43}/", f"/{TOKEN}x/", "//", "/."])
def test_without_the_token_there_is_nothing(client: TestClient, path: str) -> None:
    assert client.get(path).status_code == 403  # published: RFC 9110, status codes
    assert (
        client.post(path, data={}, headers=ORIGIN).status_code == 403
    )  # published: RFC 9110, status codes


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "127.0.0.1:1", "", "localhost:1"])
def test_another_host_name_gets_nothing(client: TestClient, host: str) -> None:
    assert (
        client.get(PAGE + "/", headers={"host": host}).status_code == 403
    )  # published: RFC 9110, status codes


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "", f"{HOME}.evil.example"])
def test_another_page_cannot_change_or_save(client: TestClient, file: Path, origin: str) -> None:
    fields = {"text": "ruined = true", "digest": digest(SOUND)}
    for path in ("/save", "/change", "/"):
        answer = client.post(PAGE + path, data=fields, headers={"origin": origin})
        assert answer.status_code == 403  # published: RFC 9110, status codes
    assert (
        client.post(PAGE + "/save", data=fields).status_code == 403
    )  # published: RFC 9110, status codes
    assert file.read_text("utf-8") == SOUND
    assert names(file.parent) == {"mine.toml"}


def test_a_body_too_large_is_refused_unread(client: TestClient) -> None:
    answer = client.post(PAGE + "/change", content=b"x" * 1_000_001, headers=ORIGIN)
    assert answer.status_code == 403  # published: RFC 9110, status codes

    def endless() -> Iterator[bytes]:
        yield b"text=" + b"x" * 10

    answer = client.post(PAGE + "/change", content=endless(), headers=ORIGIN)
    assert answer.status_code == 403  # derived: without a length nothing is read


def test_a_script_in_every_field_is_shown_as_letters(client: TestClient) -> None:
    page = client.get(PAGE + "/").text
    fields = [
        line.split('name="')[1].split('"')[0] for line in page.splitlines() if 'name="' in line
    ]
    for name in fields:
        answer = client.post(PAGE + "/change", data={"text": SOUND, name: SCRIPT}, headers=ORIGIN)
        assert answer.status_code == 200  # published: RFC 9110, status codes
        for part in answer.json()["parts"].values():
            assert "<script" not in part
            assert "<img" not in part
    whole = client.post(PAGE + "/", data={"text": SOUND, "title": SCRIPT}, headers=ORIGIN).text
    assert "<script>alert" not in whole
    assert "<img" not in whole


def test_a_change_is_answered_and_kept_but_not_saved(client: TestClient, file: Path) -> None:
    client.get(PAGE + "/")
    answer = client.post(
        PAGE + "/change", data={"text": SOUND, "body.chest": "40"}, headers=ORIGIN
    ).json()
    assert 'chest = "40 in"' in answer["text"]
    assert set(answer["parts"]) == {"drawing", "fit", "yarn", "findings", "foot"}
    assert file.read_text("utf-8") == SOUND
    assert (file.parent / "mine.unsaved.toml").read_text("utf-8") == answer["text"]
    # After a crash of the program the page comes back as it was.
    again = TestClient(application(Served(file, TOKEN, PORT)), base_url=HOME)
    assert 'value="40 in"' in again.get(PAGE + "/").text


def test_saving_writes_the_file_and_forgets_what_was_unsaved(
    client: TestClient, file: Path
) -> None:
    client.get(PAGE + "/")
    text = SOUND.replace("38 in", "40 in")
    client.post(PAGE + "/change", data={"text": text}, headers=ORIGIN)
    answer = client.post(
        PAGE + "/save", data={"text": text, "digest": digest(SOUND)}, headers=ORIGIN
    )
    assert answer.status_code == 200  # published: RFC 9110, status codes
    assert answer.json()["digest"] == digest(text)
    assert load(file).body.chest == 101.6  # derived: 40 in
    assert names(file.parent) == {"mine.toml"}


def test_what_was_changed_elsewhere_is_never_overwritten(client: TestClient, file: Path) -> None:
    client.get(PAGE + "/")
    file.write_text(SOUND.replace("38 in", "42 in"), "utf-8")
    mine = SOUND.replace("38 in", "40 in")
    answer = client.post(
        PAGE + "/save", data={"text": mine, "digest": digest(SOUND)}, headers=ORIGIN
    )
    assert answer.status_code == 409  # published: RFC 9110, status codes
    assert load(file).body.chest == pytest.approx(106.68)  # derived: 42 in
    assert (file.parent / "mine.from-page.toml").read_text("utf-8") == mine


def test_without_a_script_the_form_changes_and_saves(client: TestClient, file: Path) -> None:
    client.get(PAGE + "/")
    fields = {"text": SOUND, "digest": digest(SOUND), "body.chest": "40 in", "do": "save"}
    answer = client.post(PAGE + "/", data=fields, headers=ORIGIN)
    assert answer.status_code == 200  # published: RFC 9110, status codes
    assert 'value="40 in"' in answer.text
    assert load(file).body.chest == 101.6  # derived: 40 in


def test_a_new_file_is_begun_when_it_is_saved(tmp_path: Path) -> None:
    file = tmp_path / "new.toml"
    served = Served(file, TOKEN, PORT, new_text=SOUND)
    client = TestClient(application(served), base_url=HOME)
    assert client.get(PAGE + "/").status_code == 200  # published: RFC 9110, status codes
    assert not file.exists()
    saved = client.post(PAGE + "/save", data={"text": SOUND, "digest": ""}, headers=ORIGIN)
    assert saved.status_code == 200  # published: RFC 9110, status codes
    assert file.read_text("utf-8") == SOUND


def test_a_file_that_cannot_be_written_is_told(client: TestClient, file: Path) -> None:
    client.get(PAGE + "/")
    file.unlink()
    file.mkdir()
    answer = client.post(
        PAGE + "/save", data={"text": SOUND, "digest": digest(SOUND)}, headers=ORIGIN
    )
    assert answer.status_code == 409  # published: RFC 9110, status codes
    assert answer.json()["message"]


def test_a_slider_gets_its_strip(client: TestClient) -> None:
    answer = client.post(
        PAGE + "/along", data={"text": SOUND, "field": "garment.sleeves.length"}, headers=ORIGIN
    )
    assert answer.json()["strip"].count("<rect") > 10  # derived: one for each place that is tried
    nothing = client.post(PAGE + "/along", data={"text": "", "field": "x"}, headers=ORIGIN)
    assert nothing.json()["strip"] == ""
