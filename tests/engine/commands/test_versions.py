"""`stillfoot --version` names everything that a report of a fault has to name."""

import platform
import subprocess
import sys
from importlib.metadata import distributions
from types import SimpleNamespace

import numpy as np
import pytest

from engine import __version__
from engine.commands.versions import versions_text
from tests.engine.commands.command import ROOT, Captured, output_of


def test_it_tells_the_versions_of_everything_that_runs_here(capsys: Captured) -> None:
    installed = {one.name: one.version for one in distributions()}

    lines = output_of(capsys, "--version").splitlines()

    assert lines[0] == f"stillfoot {__version__}"
    assert lines[1].startswith(f"Python {platform.python_version()}, ")
    assert lines[2] == f"numpy {np.__version__}"
    build, version = lines[3].split()
    assert installed[build] == version
    assert lines[4].startswith("SDL 2.")
    assert len(lines) == 5


@pytest.mark.parametrize(
    ("marks", "line"), [({}, "pygame 2.6.1"), ({"IS_CE": True}, "pygame-ce 2.6.1")]
)
def test_the_two_builds_of_pygame_are_told_apart(marks: dict[str, bool], line: str) -> None:
    pygame = SimpleNamespace(
        version=SimpleNamespace(ver="2.6.1"), get_sdl_version=lambda: (2, 28, 4), **marks
    )

    lines = versions_text(SimpleNamespace(__version__="2.0.2"), pygame).splitlines()

    assert lines[2:] == ["numpy 2.0.2", line, "SDL 2.28.4"]


def test_other_help_imports_no_pygame_for_it() -> None:
    look = "from engine.commands.main import main; import sys; main(['--help'])"

    seen = subprocess.run(
        [sys.executable, "-c", f"{look}; print('pygame' in sys.modules)"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )

    assert seen.stdout.endswith("\nFalse\n")
