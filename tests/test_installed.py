"""The built package, installed beside another project with packages of the same names as ours."""

import json
import os
import shutil
import subprocess
import sys
import tarfile
import venv
import zipfile
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path

import numpy
import platformdirs
import pygame
import pytest

from engine.kit.typeface import PACKAGE

ROOT = Path(__file__).resolve().parents[1]
FOLDERS = ("drills", "engine", "levels")
DISTRIBUTED = (*FOLDERS, "tests", ".package")
STARTS = "engine/installed"
"""The folder whose files stand at the top of the installed package."""
STRAY = ("notes.txt", "attempt/notes.txt", *(f"attempt/{name}/stray.py" for name in DISTRIBUTED))
"""Files that a working copy may have and no package may."""
DEPENDENCIES = (numpy, pygame, platformdirs, import_module(PACKAGE))
FOREIGN = "raise ImportError('a package of another project')"
SPREAD = """
import stillfoot
from drills.refusal import Refusal
from engine.commands.cores import on_cores

print(*on_cores(1)(Refusal, ["one", "two"]), Refusal.__module__)
"""
"""A program that has work done by a spawned process, which must find the function itself."""


@dataclass(frozen=True)
class Built:
    """What a release consists of, made from a working copy with stray files."""

    sources: Path
    """The source archive, unpacked."""
    wheel: Path
    """The wheel built from it."""
    foreign: Path
    """A wheel of another project, with packages of the same names as ours."""


@dataclass(frozen=True)
class Installed:
    """An environment that holds our wheel, the foreign one, and nothing else of ours."""

    folder: Path
    """The environment."""
    elsewhere: Path
    """An empty folder to start programs from."""

    @property
    def scripts(self) -> Path:
        """Its folder of programs."""
        return self.folder / ("Scripts" if os.name == "nt" else "bin")

    @property
    def packages(self) -> Path:
        """Its site-packages."""
        return next(self.folder.rglob("site-packages"))

    def run(self, *command: str) -> str:
        """What a program of the environment prints. Raises AssertionError where it fails."""
        known = {name: os.environ[name] for name in os.environ if not name.startswith("PYTHON")}
        return run([str(self.scripts / command[0]), *command[1:]], self.elsewhere, known)


def run(command: list[str], folder: Path, environment: dict[str, str] | None = None) -> str:
    """What a command prints. Raises AssertionError with all it said where it fails."""
    ended = subprocess.run(
        command,
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert ended.returncode == 0, f"{command}\n{ended.stdout}\n{ended.stderr}"
    return ended.stdout


def files_in(folder: Path) -> set[str]:
    """Every file in a folder and below, as a path from it; none that Python compiled."""
    found = (path for path in folder.rglob("*") if path.is_file() and path.suffix != ".pyc")
    return {path.relative_to(folder).as_posix() for path in found}


def write_foreign_wheel(folder: Path) -> Path:
    """A wheel of three packages that cannot be imported, called as ours are."""
    about = "foreign-1.0.dist-info"
    files = {f"{name}/__init__.py": FOREIGN for name in FOLDERS}
    files[f"{about}/METADATA"] = "Metadata-Version: 2.1\nName: foreign\nVersion: 1.0\n"
    files[f"{about}/WHEEL"] = "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
    files[f"{about}/RECORD"] = "".join(f"{name},,\n" for name in [*files, f"{about}/RECORD"])
    path = folder / "foreign-1.0-py3-none-any.whl"
    with zipfile.ZipFile(path, "w") as wheel:
        for name, text in files.items():
            wheel.writestr(name, text)
    return path


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Built:
    """The source archive of a working copy with stray files, and the wheel made of it."""
    folder = tmp_path_factory.mktemp("built")
    copy = folder / "copy"
    compiled = shutil.ignore_patterns("__pycache__")
    for name in DISTRIBUTED:
        shutil.copytree(ROOT / name, copy / name, ignore=compiled)
    for path in (*ROOT.glob("*.md"), ROOT / "LICENSE", ROOT / "pyproject.toml"):
        shutil.copy(path, copy)
    for name in STRAY:
        (copy / name).parent.mkdir(parents=True, exist_ok=True)
        (copy / name).touch()

    build = [sys.executable, "-m", "hatchling", "build", "-d", str(folder), "-t"]
    run([*build, "sdist"], copy)
    with tarfile.open(next(folder.glob("*.tar.gz"))) as archive:
        archive.extractall(folder / "unpacked", filter="data")
    sources = next((folder / "unpacked").iterdir())
    run([*build, "wheel"], sources)
    return Built(sources, next(folder.glob("stillfoot-*.whl")), write_foreign_wheel(folder))


@pytest.fixture(scope="module", params=["ours first", "ours last"])
def installed(
    request: pytest.FixtureRequest, built: Built, tmp_path_factory: pytest.TempPathFactory
) -> Installed:
    """Our wheel and the foreign one in an empty environment, in either order."""
    folder = tmp_path_factory.mktemp("installed")
    here = Installed(folder / "environment", folder)
    venv.create(here.folder, with_pip=False)
    wheels = [built.wheel, built.foreign]
    for wheel in wheels if request.param == "ours first" else reversed(wheels):
        install = ["--no-index", "--no-deps", "--no-compile", "--disable-pip-version-check"]
        python = next(here.scripts.glob("python*"))
        pip = [sys.executable, "-m", "pip", "--python", str(python), "install", "-q", *install]
        run([*pip, str(wheel)], folder)
    # Packages we depend on are read where the tests have them, once ours is in: pip must not find
    # it there already. A path in a file of paths brings no other file of paths with it, so that
    # the working copy is not seen.
    depends = {str(Path(str(package.__file__)).parents[1]) for package in DEPENDENCIES}
    (here.packages / "depends.pth").write_text("\n".join(sorted(depends)), encoding="utf-8")
    return here


def test_the_source_archive_has_our_folders_and_nothing_that_lies_about(built: Built) -> None:
    ours = {f"{name}/{one}" for name in DISTRIBUTED for one in files_in(ROOT / name)}

    beside = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "PKG-INFO"}

    assert files_in(built.sources) == ours | beside


def test_the_wheel_adds_one_name_and_every_file_of_ours_is_in_it(built: Built) -> None:
    ours = {f"{name}/{one}" for name in FOLDERS for one in files_in(ROOT / name)}
    starts = {f"{STARTS}/{one}" for one in files_in(ROOT / STARTS)}

    with zipfile.ZipFile(built.wheel) as wheel:
        names = {name for name in wheel.namelist() if ".dist-info/" not in name}

    assert names == {
        *(f"stillfoot/{name}" for name in ours - starts),
        *(f"stillfoot/{Path(name).name}" for name in starts),
    }


@pytest.mark.parametrize(
    "start", [("stillfoot",), ("stillfoot-game",), ("python", "-m", "stillfoot")], ids=" ".join
)
def test_it_plays_beside_another_project_with_packages_of_the_same_names(
    installed: Installed, start: tuple[str, ...]
) -> None:
    said = installed.run(*start, "demo", "--headless", "--reps", "2", "--json")

    assert len([json.loads(line) for line in said.splitlines()]) == 2


def test_the_game_has_a_script_that_opens_no_console(installed: Installed) -> None:
    [entries] = installed.packages.glob("stillfoot-*.dist-info/entry_points.txt")

    entry = "[gui_scripts]\nstillfoot-game = stillfoot.__main__:run_game\n"
    assert entry in entries.read_text(encoding="utf-8")


def test_spawned_processes_find_our_packages_too(installed: Installed) -> None:
    said = installed.run("python", "-c", SPREAD)

    assert said == "one two drills.refusal\n"


def test_the_packages_of_the_other_project_are_as_they_were(installed: Installed) -> None:
    texts = [(installed.packages / name / "__init__.py").read_text() for name in FOLDERS]

    assert texts == [FOREIGN] * len(FOLDERS)
