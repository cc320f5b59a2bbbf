"""The wheel: every data file is in it, and what is in it runs without the source beside it."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
DATA = (".toml", ".csv", ".jinja", ".typed", ".mako", ".sql")


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(build, cwd=ROOT, check=True, capture_output=True)
    (wheel,) = folder.glob("tapeline-*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "unpacked")
    return folder / "unpacked"


def files(top: Path) -> set[str]:
    return {
        path.relative_to(top).as_posix()
        for package in ("bot", "replies", "sizing")
        for path in (top / package).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def test_every_file_of_the_packages_is_in_it(unpacked: Path) -> None:
    data = {name for name in files(ROOT) if name.endswith(DATA)}

    assert len(data) >= 50
    assert files(unpacked) == files(ROOT)


def test_nothing_but_the_packages_is_in_it(unpacked: Path) -> None:
    assert {path.name.split("-")[0] for path in unpacked.iterdir()} == {"bot", "replies", "sizing", "tapeline"}


def test_it_runs_without_the_source_beside_it(unpacked: Path, tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "bot", "demo"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(unpacked), "PYTHONSAFEPATH": "1"},
        capture_output=True,
    )

    assert done.returncode == 0, done.stderr.decode()
    assert "8 of 8" in done.stdout.decode()
