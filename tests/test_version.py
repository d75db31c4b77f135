"""The version stands once, where both the package and the command take it from."""

import tomllib
from pathlib import Path

from engine import __version__

ROOT = Path(__file__).resolve().parents[1]


def test_the_package_takes_its_version_from_the_code() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))

    place = ROOT / project["tool"]["hatch"]["version"]["path"]

    assert project["project"]["dynamic"] == ["version"]
    assert "version" not in project["project"]
    assert f'__version__ = "{__version__}"' in place.read_text(encoding="utf-8").splitlines()
