"""What system libraries write to standard error is discarded, and nothing else is."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[3]
SCRIPT = """
import os, sys
from engine.stage.sdl_setup import quiet_stderr
{begin}
with quiet_stderr():
    os.write(2, b"inside ")
os.write(2, b"after")
"""


@pytest.mark.parametrize(
    ("begin", "said"),
    [
        ("", "after"),
        # A program that began without standard error may have opened a file in its place.
        ("sys.stderr = None", "inside after"),
    ],
)
def test_only_standard_error_is_discarded(begin: str, said: str) -> None:
    ended = subprocess.run(
        [sys.executable, "-c", SCRIPT.format(begin=begin)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )

    assert ended.stderr == said


HINTED = """
import os
from engine.stage.sdl_setup import give_hints
give_hints()
print(os.environ["SDL_WINDOWS_DPI_AWARENESS"])
"""


@pytest.mark.parametrize(("own", "found"), [(None, "permonitorv2"), ("unaware", "unaware")])
def test_the_game_draws_scaled_displays_itself_unless_the_user_wants_otherwise(
    own: str | None, found: str
) -> None:
    name = "SDL_WINDOWS_DPI_AWARENESS"
    others = {key: value for key, value in os.environ.items() if key != name}
    ended = subprocess.run(
        [sys.executable, "-c", HINTED],
        cwd=ROOT,
        env=others if own is None else {**others, name: own},
        capture_output=True,
        text=True,
        check=True,
    )

    assert ended.stdout == f"{found}\n"
