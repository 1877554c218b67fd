"""Charts in files of their own: found beside the project file, and nowhere else."""

import os
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import yokefellow.project_file
from tests.project_file.sample import SOUND
from yokefellow.charts.library import motifs
from yokefellow.findings import Finding, ProjectError, Severity
from yokefellow.package_data import package_folder
from yokefellow.project_file.load import LARGEST_CHART_BYTES, load, parse

DOTS = 'kind = "mosaic"\ncolours = { "." = "MC", "#" = "MC" }\nrows = """\n#.\n\n..\n"""\n'
NAMED = SOUND + '[charts.dots]\nfile = "dots.toml"\n'


def project(folder: Path, text: str = NAMED) -> Path:
    path = folder / "sweater.toml"
    path.write_text(text)
    return path


def refused(path: Path) -> Finding:
    with pytest.raises(ProjectError) as error:
        load(path)
    (finding,) = error.value.findings
    assert finding.severity is Severity.ERROR
    assert finding.message.endswith(".")
    assert finding.remedy
    return finding


def test_a_chart_is_read_from_its_file(tmp_path: Path) -> None:
    (tmp_path / "dots.toml").write_text(DOTS)
    chart = load(project(tmp_path)).charts["dots"]
    assert chart.rows == ("#.", "..")
    assert chart.times == 2
    assert chart.file == "dots.toml"


def test_a_file_may_lie_in_a_folder_inside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "charts").mkdir()
    (tmp_path / "charts" / "dots.toml").write_text(DOTS)
    text = NAMED.replace('"dots.toml"', '"charts/dots.toml"')
    assert load(project(tmp_path, text)).charts["dots"].rows == ("#.", "..")
    monkeypatch.chdir(tmp_path)
    assert load(Path("sweater.toml")).charts["dots"].rows == ("#.", "..")


def test_what_the_project_file_says_of_the_chart_wins(tmp_path: Path) -> None:
    (tmp_path / "dots.toml").write_text(DOTS)
    chart = load(project(tmp_path, NAMED + "times = 4\n")).charts["dots"]
    assert chart.times == 4  # derived: as typed
    assert chart.rows == ("#.", "..")


def test_a_shipped_motif_can_be_copied_beside_the_project_file(tmp_path: Path) -> None:
    yarn = '[yarn.CC1]\nball_weight = "50 g"\nball_length = "200 m"\nballs = 1\n'
    for name, motif in motifs().items():
        source = package_folder("sizing_tables") / "motifs" / f"{name}.toml"
        (tmp_path / "dots.toml").write_bytes(source.read_bytes())
        assert load(project(tmp_path, NAMED + yarn)).charts["dots"].rows == motif.lines


FILES: list[tuple[bytes, str]] = [
    (b"#" * (LARGEST_CHART_BYTES + 1), "chart-file.too-large"),
    (b"title = '\xff'", "chart-file.not-utf-8"),
    (b"x = " + b"1" * 2000, "chart-file.long-line"),
    (b"x = " + b"[" * 900, "chart-file.nested"),
    (b"kind = mosaic\n", "toml.unquoted"),
    (b'file = "dots.toml"\n', "chart-file.chained"),
]


@pytest.mark.parametrize(("content", "code"), FILES, ids=[code for _, code in FILES])
def test_a_broken_file_is_one_clear_finding(tmp_path: Path, content: bytes, code: str) -> None:
    (tmp_path / "dots.toml").write_bytes(content)
    finding = refused(project(tmp_path))
    assert (finding.code, finding.field) == (code, "charts.dots.file")
    assert '"dots.toml"' in finding.message


def test_a_file_that_is_not_there_or_no_file_is_told(tmp_path: Path) -> None:
    path = project(tmp_path)
    assert refused(path).code == "chart-file.missing"
    (tmp_path / "dots.toml").mkdir()
    assert refused(path).code == "chart-file.folder"
    (tmp_path / "dots.toml").rmdir()
    os.mkfifo(tmp_path / "dots.toml")  # reading it would wait for ever
    assert refused(path).code == "chart-file.outside"


def test_a_file_that_may_not_be_read_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "dots.toml").write_text(DOTS)
    path = project(tmp_path)
    opened = os.open

    def forbidden(path: Path, flags: int) -> int:
        if path.name == "dots.toml":
            raise PermissionError(13, "Permission denied")
        return opened(path, flags)

    monkeypatch.setattr(os, "open", forbidden)
    assert refused(path).code == "chart-file.unreadable"


def test_a_link_does_not_lead_out_of_the_folder(tmp_path: Path) -> None:
    inside = tmp_path / "inside"
    inside.mkdir()
    (tmp_path / "secret.toml").write_text(DOTS)
    (inside / "dots.toml").symlink_to(tmp_path / "secret.toml")
    assert refused(project(inside)).code == "chart-file.outside"
    (inside / "dots.toml").unlink()
    (inside / "dots.toml").symlink_to(inside / "dots.toml")
    assert refused(project(inside)).code in {"chart-file.unreadable", "chart-file.missing"}


def test_several_broken_files_are_told_together(tmp_path: Path) -> None:
    text = NAMED + '[charts.more]\nfile = "more.toml"\n'
    with pytest.raises(ProjectError) as error:
        load(project(tmp_path, text))
    assert [finding.field for finding in error.value.findings] == [
        "charts.dots.file",
        "charts.more.file",
    ]


def test_what_is_wrong_inside_is_told_of_the_chart(tmp_path: Path) -> None:
    (tmp_path / "dots.toml").write_text(DOTS.replace("mosaic", "lace"))
    finding = refused(project(tmp_path))
    assert (finding.code, finding.field) == ("value.choice", "charts.dots.kind")


def test_every_code_in_the_source_is_tested_here() -> None:
    (room,) = yokefellow.project_file.__path__
    source = (Path(room) / "load.py").read_text()
    codes = set(re.findall(r'"(chart-file\.[a-z-]+)"', source))
    assert len(codes) > 2
    tests = Path(__file__).read_text() + (Path(__file__).parent / "test_load.py").read_text()
    assert [code for code in codes if code not in tests] == []


@given(st.text(max_size=30))
def test_any_name_of_a_file_is_read_or_refused(name: str) -> None:
    quoted = "".join(f"\\U{ord(c):08x}" for c in name if not 0xD800 <= ord(c) < 0xE000)
    with pytest.raises(ProjectError) as error:
        parse(SOUND + f'[charts.dots]\nfile = "{quoted}"\n', folder=Path(__file__).parent)
    (finding,) = error.value.findings
    assert finding.field == "charts.dots.file"
    assert str(finding).isprintable()
