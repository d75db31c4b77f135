"""Processor time that home takes in a real window: at rest, and while its highlight moves.

    python tests/bench/motion.py [SECONDS of each]

The window has 1920x1080 pixels under a display of its own. The highlight of the selected choice is
driven to and fro without a pause. Printed is the share of one core that the process takes, and how
many pictures a second are drawn. The goals: under 2 % at rest, under 10 % at 60 pictures a second.
"""

import os
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.stage.sdl_setup import give_hints  # noqa: E402

give_hints()

import pygame  # noqa: E402

from drills.calibration import UNIT  # noqa: E402
from drills.trace import SECOND  # noqa: E402
from engine.game.entry import LEAVE, Entry  # noqa: E402
from engine.game.home import Home  # noqa: E402
from engine.kit import theme, widgets  # noqa: E402
from engine.kit.flow import show  # noqa: E402
from engine.ladder.level_files import SHIPPED, load_levels  # noqa: E402
from engine.pedals.port import CalibratedPedals, Reading  # noqa: E402
from engine.pedals.rig import Rig  # noqa: E402
from engine.stage.actions import Action  # noqa: E402
from engine.stage.events import Events  # noqa: E402
from engine.stage.loop import Loop  # noqa: E402
from engine.stage.scene import Flow  # noqa: E402
from engine.stage.speaker import Silence  # noqa: E402
from engine.stage.stage import Stage  # noqa: E402
from engine.stage.window import Window  # noqa: E402
from engine.stage.window_shape import Shape  # noqa: E402
from tests.engine.five import pictures  # noqa: E402
from tests.screen import virtual_display  # noqa: E402

SIZE = (1920, 1080)
SECONDS = 10.0
SETTLE = 1.0  # s before it is measured: the first pictures fill the caches
REST_GOAL, MOVING_GOAL = 2.0, 10.0  # % of one core


class Counting(Window):
    """Window that counts the pictures it shows."""

    shows = 0

    def show(self, areas: Sequence[pygame.Rect] = ()) -> None:
        """Show a picture, and count it."""
        self.shows += 1
        super().show(areas)


class Measuring:
    """Pedals at rest that measure home as they are read; they may drive its highlight."""

    name, is_feet, counts, label = "measuring", True, True, ""

    def __init__(self, window: Counting, home: Home, seconds: float, *, drives: bool) -> None:
        """Measure for so many seconds; `drives` is whether the highlight always moves."""
        self._window, self._home, self._lasts, self._drives = window, home, seconds, drives
        self._next = time.perf_counter_ns() + round(SETTLE * SECOND)
        self._began: tuple[float, float, int] | None = None
        self.core, self.rate = 0.0, 0.0

    def read(self) -> Reading:
        """Both pedals at rest; home ends once all is measured."""
        if self._drives and not self._home.is_moving:
            self._home.on_action(Action.NEXT)
        now = time.perf_counter_ns()
        if now >= self._next:
            self._look(now)
        return Reading(now, 0.0, 0.0)

    def _look(self, now: int) -> None:
        """Begin to measure at `now` (ns), or end home with what was measured since."""
        counts = now / SECOND, time.process_time(), self._window.shows
        if self._began is None:
            self._began, self._next = counts, now + round(self._lasts * SECOND)
            return
        wall, core, shows = (b - a for a, b in zip(self._began, counts, strict=True))
        self.core, self.rate = 100 * core / wall, shows / wall
        self._home.outcome = LEAVE


def measured(window: Counting, seconds: float, *, drives: bool) -> Measuring:
    """What was measured of home in so many seconds."""
    levels = load_levels([SHIPPED])
    home = pictures.home(levels, 11, pictures.LATER, 30, kept=8)
    pedals = Measuring(window, home, seconds, drives=drives)
    rig = Rig(time.perf_counter_ns, pedals=CalibratedPedals(pedals, UNIT))
    events = Events(None, time.perf_counter_ns)
    stage = Stage(window, Silence(), events)
    flow: Flow[Entry] = show(home, rig, stage)
    Loop(window, rig, events).run(flow)
    return pedals


def report(seconds: float) -> None:
    """Print both shares of a core."""
    window = Counting(Shape(SIZE), theme.GROUND, theme.THROTTLE, widgets.icon())
    pygame.joystick.init()
    print(f"pygame {pygame.version.ver}, window of {window.size[0]}x{window.size[1]} pixels")
    for name, drives, goal in (("rest", False, REST_GOAL), ("moving", True, MOVING_GOAL)):
        home = measured(window, seconds, drives=drives)
        met = "met" if home.core < goal else "missed"
        print(
            f"{name:>8}: {home.core:5.1f} % of a core (goal under {goal:.0f} %, {met}),"
            f" {home.rate:5.1f} pictures a second"
        )


def main() -> None:
    """Run the report in a process that has a display of its own."""
    if os.environ.get("MEASURED"):
        report(float(sys.argv[1]) if len(sys.argv) > 1 else SECONDS)
        return
    with virtual_display(SIZE) as environment:
        command = [sys.executable, __file__, *sys.argv[1:]]
        subprocess.run(command, env=environment | {"MEASURED": "1"}, check=True)


if __name__ == "__main__":
    main()
