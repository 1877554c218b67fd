"""The wheel carries what the program reads, and finds it there."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from zipfile import ZipFile

import pytest

ROOT = Path(__file__).resolve().parents[2]
SHELVES = ("templates", "sizing_tables")
LOOK = """
import sys
from pathlib import Path
import yokefellow
from yokefellow.package_data import package_folder
from yokefellow.body.size_tables import tables
print(Path(yokefellow.__file__).parent)
print(package_folder("templates"))
print(package_folder("sizing_tables"))
print(*tables())
"""


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built by the backend itself: nothing is fetched."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)],
        cwd=ROOT,
        check=True,
        capture_output=True,
    )
    (built,) = folder.glob("*.whl")
    return built


def carried() -> Iterator[tuple[str, Path]]:
    """What must stand in the wheel, and what it is in the checkout."""
    for package_folder in SHELVES:
        for path in sorted((ROOT / package_folder).rglob("*")):
            if path.is_file():
                yield f"yokefellow/_share/{path.relative_to(ROOT).as_posix()}", path
    for path in sorted((ROOT / "src").rglob("*.py")):
        yield path.relative_to(ROOT / "src").as_posix(), path
    yield "yokefellow/py.typed", ROOT / "src/yokefellow/py.typed"


def test_carries_every_module_template_and_table(wheel: Path) -> None:
    with ZipFile(wheel) as opened:
        names = set(opened.namelist())
        for name, path in carried():
            assert name in names
            assert opened.read(name) == path.read_bytes(), name


def test_carries_nothing_else(wheel: Path) -> None:
    expected = {name for name, _ in carried()}
    with ZipFile(wheel) as opened:
        others = {name for name in opened.namelist() if name not in expected}
    assert all(".dist-info/" in name for name in others), others


def test_names_its_command_and_its_licence(wheel: Path) -> None:
    with ZipFile(wheel) as opened:
        names = opened.namelist()
        (entries,) = (name for name in names if name.endswith("entry_points.txt"))
        assert "yokefellow = yokefellow.cli:main" in opened.read(entries).decode()
    assert any(name.endswith("licenses/LICENSE") for name in names)


def test_the_installed_package_reads_its_own_shelves(wheel: Path, tmp_path: Path) -> None:
    with ZipFile(wheel) as opened:
        opened.extractall(tmp_path)
    looked = subprocess.run(
        [sys.executable, "-c", LOOK],
        cwd=tmp_path,
        check=True,
        capture_output=True,
        text=True,
        env={"PYTHONPATH": str(tmp_path)},
    )
    package, templates, tables, names = looked.stdout.splitlines()
    assert Path(package) == tmp_path / "yokefellow"
    assert Path(templates) == tmp_path / "yokefellow/_share/templates"
    assert Path(tables) == tmp_path / "yokefellow/_share/sizing_tables"
    assert set(names.split()) == {path.stem for path in (ROOT / "sizing_tables").glob("*.toml")}
