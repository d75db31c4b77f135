"""The program without a console: what ends it is shown in a message box on the screen."""

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from engine.store import open_history
from engine.store.history import FILE
from tests.engine.commands.command import REMOVED, ROOT
from tests.needs import shell, signals
from tests.screen import virtual_display
from tests.waiting import EventTail, wait_for

pytestmark = shell

START = "import sys; from engine.__main__ import run_game; sys.exit(run_game())"
"""Program that the command `stillfoot-game` runs."""
WITHOUT_NUMPY = f"import sys; sys.modules['numpy'] = None; {START}"
"""The same in an installation that is broken."""
POINT = (640, 250)
"""Pixels on the screen that every message box of a few lines covers, and no button."""
CLICKS = [(640, y) for y in range(POINT[1], 450, 12)]
"""Pixels on the screen, one of which is on the button of every message box of a few lines."""
PATIENCE = 60.0
"""Seconds after which a program that does not end is given up."""


@pytest.fixture
def screen() -> Iterator[dict[str, str]]:
    """Environment of programs on a new screen, where the window under the pointer has the focus."""
    if not (shutil.which("Xvfb") and shutil.which("xdotool")):
        pytest.skip("needs Xvfb and xdotool, to see a box and to press a key in it")
    with virtual_display((1280, 720)) as environment:
        yield environment


@pytest.fixture
def newer(tmp_path: Path) -> Path:
    """Data folder with a history of a stillfoot that is newer than this one."""
    open_history(tmp_path, []).close()
    with closing(sqlite3.connect(tmp_path / FILE)) as db:
        db.execute("PRAGMA user_version = 99")
    return tmp_path


def xdotool(screen: dict[str, str], *arguments: str | int) -> str:
    """What xdotool says after it has done something on the screen."""
    ended = subprocess.run(
        ["xdotool", *map(str, arguments)],
        env=screen,
        capture_output=True,
        text=True,
        timeout=PATIENCE,
        check=False,
    )
    return ended.stdout


def window_at(screen: dict[str, str], point: tuple[int, int]) -> str:
    """Title of the window at a point of the screen; the pointer is moved there."""
    place = xdotool(screen, "mousemove", *point, "getmouselocation", "--shell")
    number = dict(line.split("=") for line in place.splitlines())["WINDOW"]
    return xdotool(screen, "getwindowname", number).strip()


def started(
    screen: dict[str, str], *arguments: str, program: str = START, streams: str = ""
) -> subprocess.Popen[str]:
    """The program, started by a shell with its standard streams redirected."""
    return subprocess.Popen(
        ["sh", "-c", f'exec "$@" {streams}', "sh", sys.executable, "-c", program, *arguments],
        cwd=ROOT,
        env=screen,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def closed_by(
    process: subprocess.Popen[str], screen: dict[str, str], *how: str | int
) -> tuple[int, str, str]:
    """Exit code, output and errors of a program whose box was seen and closed with xdotool."""
    with process:
        try:
            wait_for(lambda: window_at(screen, POINT) == "stillfoot" or process.poll(), PATIENCE)
            assert process.poll() is None, process.communicate()
            xdotool(screen, *how)
            out, err = process.communicate(timeout=PATIENCE)
            return process.returncode, out, err
        finally:
            process.kill()


@pytest.mark.parametrize(
    "how",
    [
        ("key", "Return"),
        ("key", "Escape"),
        tuple(part for place in CLICKS for part in ("mousemove", *place, "click", 1)),
    ],
    ids=["Enter", "Esc", "a click"],
)
def test_a_newer_history_is_told_in_a_box_that_closes(
    screen: dict[str, str], newer: Path, how: tuple[str | int, ...]
) -> None:
    process = started(screen, "--data", str(newer))

    code, out, err = closed_by(process, screen, *how)

    assert (code, out) == (2, "")
    assert err.startswith(f"stillfoot: {newer / FILE}: ")
    assert err.count("\n") == 1


@signals
def test_a_signal_ends_the_program_while_its_box_is_shown(
    screen: dict[str, str], newer: Path
) -> None:
    with started(screen, "--data", str(newer)) as process:
        try:
            wait_for(lambda: window_at(screen, POINT) == "stillfoot" or process.poll(), PATIENCE)
            process.send_signal(signal.SIGTERM)
            code = process.wait(PATIENCE)
        finally:
            process.kill()

    assert code == -signal.SIGTERM


def test_without_standard_streams_the_box_is_shown_all_the_same(
    screen: dict[str, str], newer: Path
) -> None:
    process = started(screen, "--data", str(newer), streams="<&- >&- 2>&-")

    assert closed_by(process, screen, "key", "Return") == (2, "", "")


def test_without_standard_streams_the_game_opens_and_is_left(
    screen: dict[str, str], tmp_path: Path
) -> None:
    events = tmp_path / "events.jsonl"

    with started(
        screen, "--data", str(tmp_path), "--events", str(events), streams="<&- >&- 2>&-"
    ) as process:
        EventTail(events).wait(lambda event: event["event"] == "drawn")
        window_at(screen, POINT)
        xdotool(screen, "key", "Escape")
        code = process.wait(PATIENCE)

    assert code == 0
    assert (tmp_path / FILE).exists()


def test_an_error_of_the_program_itself_is_told_with_the_file_of_its_traceback(
    screen: dict[str, str], tmp_path: Path
) -> None:
    environment = screen | {"TMPDIR": str(tmp_path)}

    process = started(environment, program=WITHOUT_NUMPY)

    code, out, err = closed_by(process, screen, "key", "Return")
    [written] = tmp_path.glob("stillfoot-error-*.txt")
    assert (code, out) == (1, "")
    assert err.startswith("stillfoot: an error of stillfoot itself: ModuleNotFoundError: ")
    assert err.endswith(f" (please report it with {written})\n")
    assert written.read_text(encoding="utf-8").count("Traceback (most recent call last)") >= 1


@pytest.mark.parametrize(
    ("arguments", "code", "begins"),
    [(["--bogus"], 2, "stillfoot: unrecognized arguments: --bogus"), (["--version"], 0, "")],
)
def test_without_a_screen_the_line_goes_to_standard_error_alone(
    arguments: list[str], code: int, begins: str
) -> None:
    inherited = {name: value for name, value in os.environ.items() if name not in REMOVED}

    with started(inherited, *arguments) as process:
        _, err = process.communicate(timeout=PATIENCE)

    assert process.returncode == code
    assert err.startswith(begins)
    assert err.count("\n") == len(begins[:1])
