"""What is built is what runs: the wheel carries its lexicons and finds them away from the checkout.

The check in a fresh environment, dependencies and all, is in ``.ci/run``; here the wheel is unpacked beside
the libraries that are already there.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tarfile
import tomllib
import zipfile
from pathlib import Path

import pytest

from extract import __version__
from extract.lexicon import lexicon_folder

ROOT = Path(__file__).parents[1]
LEXICONS = {f"extract/{path.relative_to(ROOT)}" for path in (ROOT / "lexicons").rglob("*") if path.is_file()}


def build(kind: str, folder: Path) -> Path:
    """A wheel or source archive of the checkout, built by the build system that pyproject.toml names."""
    code = f"import sys; from hatchling.build import build_{kind} as build; print(build(sys.argv[1]))"
    done = subprocess.run(
        [sys.executable, "-c", code, str(folder)], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return folder / done.stdout.splitlines()[-1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build("wheel", tmp_path_factory.mktemp("wheel"))


def test_checkout_uses_its_own_lexicons() -> None:
    assert lexicon_folder() == ROOT / "lexicons"


def test_wheel_holds_package_and_lexicons_and_nothing_else(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    assert {name.partition("/")[0] for name in names} == {"extract", f"cardwright-{__version__}.dist-info"}
    assert {name for name in names if name.startswith("extract/lexicons/")} == LEXICONS
    assert {
        "extract/py.typed",
        "extract/publish/templates/page.html",
        "extract/publish/templates/page.css",
        "extract/review/templates/page.html",
        "extract/review/static/main.js",
        "extract/review/static/looks/page.css",
    } <= set(names)


def test_unpacked_wheel_runs_from_another_folder(wheel: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    zipfile.ZipFile(wheel).extractall(site)
    code = (
        "import extract, extract.lexicon, sys\n"
        "from extract.transcript import read_transcript\n"
        "print(extract.__file__); print(extract.lexicon.lexicon_folder())\n"
        "print(read_transcript(None, b'[0:01] (laughs) two cups').cues[0].text)\n"
    )
    environment = {**os.environ, "PYTHONPATH": str(site)}
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    )
    package = site / "extract"
    assert done.stdout.splitlines() == [str(package / "__init__.py"), str(package / "lexicons"), "two cups"]


def test_command_starts_where_the_wheel_says(wheel: Path) -> None:
    archive = zipfile.ZipFile(wheel)
    (entry,) = [name for name in archive.namelist() if name.endswith("entry_points.txt")]
    assert "cardwright = extract.cli:main" in archive.read(entry).decode()


def test_source_archive_holds_what_the_tests_need(tmp_path: Path) -> None:
    with tarfile.open(build("sdist", tmp_path)) as archive:
        tops = {Path(name).parts[1] for name in archive.getnames() if len(Path(name).parts) > 1}
    assert {"extract", "lexicons", "samples", "tests", "pyproject.toml", "README.md", "LICENSE"} <= tops


def test_version_stands_in_one_form() -> None:
    with (ROOT / "pyproject.toml").open("rb") as stream:
        assert tomllib.load(stream)["project"]["version"] == __version__


def test_top_level_holds_what_it_should() -> None:
    done = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode:
        pytest.skip("not a git checkout")
    tops = {line.partition("/")[0] for line in done.stdout.splitlines()}
    folders = {"extract", "lexicons", "samples", "tests"}
    assert {top for top in tops if not top.startswith(".")} == folders | {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "LICENSE",
    }
