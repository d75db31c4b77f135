"""The system's wish for less motion: how each system says it, and that nothing waits for it."""

import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from threading import Event

import pytest

from engine.stage.less_motion import (
    GNOME,
    MACOS,
    LessMotion,
    asks_for_less_motion,
    gnome_asks,
    kde_asks,
    kde_file,
    macos_asks,
)
from tests.needs import shell
from tests.scripted import ROOT, printed
from tests.waiting import wait_for

ASK_GNOME = "from engine.stage.less_motion import *; print(gnome_asks(run_command))"


class System:
    """Runner of commands that prints one answer, and records what it ran."""

    def __init__(self, answer: str) -> None:
        self.answer = answer
        self.ran: list[Sequence[str]] = []

    def __call__(self, command: Sequence[str]) -> str:
        """Record the command; returns the answer."""
        self.ran.append(command)
        return self.answer


@pytest.mark.parametrize(
    ("answer", "asks"), [("false\n", True), ("true\n", False), ("", False), ("0\n", False)]
)
def test_gnome_asks_where_it_animates_nothing(answer: str, asks: bool) -> None:
    system = System(answer)

    assert gnome_asks(system) is asks
    assert system.ran == [GNOME]


@pytest.mark.parametrize(("answer", "asks"), [("1\n", True), ("0\n", False), ("", False)])
def test_macos_asks_where_it_reduces_motion(answer: str, asks: bool) -> None:
    system = System(answer)

    assert macos_asks(system) is asks
    assert system.ran == [MACOS]


@pytest.mark.parametrize(
    ("text", "asks"),
    [
        ("[General]\nfont=Sans\n\n[KDE]\nAnimationDurationFactor=0\n", True),
        ("[KDE]\n AnimationDurationFactor = 0.0 \n[Icons]\nTheme=plain\n", True),
        ("[KDE]\nAnimationDurationFactor=0.5\n", False),
        ("[KDE]\nAnimationDurationFactor=\n", False),
        ("[KDE]\nSingleClick=false\n", False),
        ("[Other]\nAnimationDurationFactor=0\n", False),
        ("[KDE]\n[KDE][Other]\nAnimationDurationFactor=0\n", False),
        ("", False),
    ],
)
def test_kde_asks_where_its_animations_last_no_time(text: str, asks: bool, tmp_path: Path) -> None:
    path = tmp_path / "kdeglobals"
    path.write_text(text, encoding="utf-8")

    assert kde_asks(path) is asks


def test_settings_of_kde_that_are_missing_or_no_text_are_no_wish(tmp_path: Path) -> None:
    noise = tmp_path / "noise"
    noise.write_bytes(b"\xff\xfe[KDE]\x00=\n")

    assert [kde_asks(path) for path in (tmp_path / "none", tmp_path, noise)] == [False] * 3


def test_the_file_of_kde_is_where_the_system_keeps_its_settings(tmp_path: Path) -> None:
    assert kde_file({}, tmp_path) == tmp_path / ".config" / "kdeglobals"
    elsewhere = {"XDG_CONFIG_HOME": str(tmp_path / "settings")}
    assert kde_file(elsewhere, tmp_path) == tmp_path / "settings" / "kdeglobals"


@shell
@pytest.mark.parametrize(
    ("script", "printed_is"),
    [
        ('[ "$*" = "get org.gnome.desktop.interface enable-animations" ] && echo false', "True"),
        ("echo true", "False"),
        ("echo false; exit 1", "False"),
        ("printf '\\377'", "False"),
        (None, "False"),
    ],
)
def test_the_program_that_is_found_first_is_asked(
    script: str | None, printed_is: str, tmp_path: Path
) -> None:
    if script is not None:
        program = tmp_path / "gsettings"
        program.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
        program.chmod(0o755)

    asked = subprocess.run(
        [sys.executable, "-c", ASK_GNOME],
        cwd=ROOT,
        env={"PATH": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )

    assert (asked.stdout, asked.stderr) == (f"{printed_is}\n", "")


ASK_SYSTEM = """
import sys
from engine.stage.less_motion import asks_for_less_motion
sys.platform = "{system}"
print(asks_for_less_motion())
"""


@shell
@pytest.mark.parametrize(
    ("system", "programs", "factor", "asks"),
    [
        ("linux", {"gsettings": "false"}, "1", True),
        ("linux", {"gsettings": "true"}, "0", True),
        ("linux", {}, "0", True),
        ("linux", {"gsettings": "true", "defaults": "1"}, "1", False),
        ("darwin", {"defaults": "1"}, "1", True),
        ("darwin", {"gsettings": "false", "defaults": "0"}, "0", False),
    ],
)
def test_each_system_is_asked_in_every_way_it_may_answer(
    system: str, programs: dict[str, str], factor: str, asks: bool, tmp_path: Path
) -> None:
    for name, answer in programs.items():
        program = tmp_path / name
        program.write_text(f"#!/bin/sh\necho {answer}\n", encoding="utf-8")
        program.chmod(0o755)
    settings = f"[KDE]\nAnimationDurationFactor={factor}\n"
    (tmp_path / "kdeglobals").write_text(settings, encoding="utf-8")

    asked = subprocess.run(
        [sys.executable, "-c", ASK_SYSTEM.format(system=system)],
        cwd=ROOT,
        env={"PATH": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )

    assert (asked.stdout, asked.stderr) == (f"{asks}\n", "")


def test_this_system_is_asked_without_an_error() -> None:
    assert asks_for_less_motion() in (True, False)


@pytest.mark.parametrize("wish", [True, False])
def test_asking_waits_for_nothing_and_nothing_moves_before_the_answer(wish: bool) -> None:
    answered, calls = Event(), [0]

    def ask() -> bool:
        calls[0] += 1
        answered.wait()
        return wish

    less = LessMotion(ask)
    before = (less.allows_motion, less.is_asked_for)
    less.begin()
    less.begin()
    while_asking = (less.allows_motion, less.is_asked_for)
    answered.set()
    wait_for(lambda: less.allows_motion or less.is_asked_for)

    assert before == while_asking == (False, False)
    assert (less.allows_motion, less.is_asked_for) == (not wish, wish)
    assert calls == [1]


WINDOW = """
from threading import Event
import pygame
from engine.kit import theme, widgets
from engine.kit.base import Screen
from engine.pedals.rig import Rig
from engine.stage.events import Events
from engine.stage.headless import ManualClock
from engine.stage.less_motion import LessMotion
from engine.stage.loop import Loop
from engine.stage.scene import Scene
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.stage.window import Window
from engine.stage.window_shape import Shape
import time

answered = Event()

def ask():
    print("asked after", *window.drawn)
    answered.wait()
    return {wish}

class Drawn(Window):
    drawn = []
    def show(self, areas=()):
        self.drawn.append("a picture")
        super().show(areas)

class Still(Screen[bool]):
    name = "still"
    heard = []
    def on_motion(self, *, allowed):
        super().on_motion(allowed=allowed)
        self.heard.append(allowed)
    def on_sample(self, sample, now):
        if window.drawn:
            answered.set()
        if window.moves or window.wants_less_motion:
            self.looks = getattr(self, "looks", 0) + 1
            self.outcome = True if self.looks > 2 else None

window = Drawn(
    Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon(), less_motion=LessMotion(ask)
)
window.tune(flash=True, motion={setting})
pygame.joystick.init()
clock = time.perf_counter_ns
events, rig, screen = Events(None, clock), Rig(clock), Still()
Loop(window, rig, events).run(Scene(screen, rig, Stage(window, Silence(), events)) for _ in "1")
print(*screen.heard, window.moves, window.wants_less_motion)
"""


@pytest.mark.parametrize(
    ("wish", "heard"), [(False, "False True True False"), (True, "False False True")]
)
def test_a_screen_is_told_once_the_system_has_answered_which_is_asked_after_the_first_picture(
    wish: bool, heard: str
) -> None:
    assert printed(WINDOW.format(wish=wish, setting=True)) == ["asked after a picture", heard]


def test_the_setting_alone_keeps_everything_still_too() -> None:
    script = WINDOW.format(wish=True, setting=False)

    assert printed(script) == ["asked after a picture", "False False True"]
