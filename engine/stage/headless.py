"""Headless run of a flow: no window, a clock that is advanced by hand, and no waiting."""

from __future__ import annotations

from drills.trace import SECOND, nanoseconds
from engine.stage.actions import Action
from engine.stage.scene import Flow, Scene, T

STEP = nanoseconds(0.001)
"""Time from one reading of the pedals to the next in a headless run, in ns."""
REST = 1 * SECOND
"""Time that the simulated foot gets at a menu to let go of its pedals, in ns."""


class ManualClock:
    """Clock for headless runs: it stands still until it is advanced."""

    def __init__(self) -> None:
        self._now = 0

    def __call__(self) -> int:
        """Current time of this clock in ns."""
        return self._now

    def advance(self, step: int) -> None:
        """Move the time of this clock forward by `step` ns."""
        self._now += step


class NoLights:
    """Stand-in for the window in a headless run: it shows nothing and has no mouse."""

    full = False
    wants_less_motion = False

    def toggle_full(self) -> None:
        """No window to fill the screen with here: do nothing."""

    def tune(self, *, flash: bool, motion: bool = True) -> None:
        """No flash to turn on or off and nothing that moves here: do nothing."""

    def darken(self) -> None:
        """No screen to darken here: do nothing."""

    def flash(self, *, needed: bool, dim: bool = False) -> None:
        """No screen to flash here: do nothing."""

    def pointer(self) -> tuple[float, bool]:
        """No mouse here: always the bottom of the window, not pressed."""
        return 0.0, False


def run_headless(flow: Flow[T], clock: ManualClock) -> T:
    """Run a flow of screens to its end without a window and return its result.

    In menus the first choice is taken at once, unless the pedals end them; in
    repetitions the pedals are read every STEP.
    """
    while True:
        try:
            scene = next(flow)
        except StopIteration as ended:
            result: T = ended.value
            return result
        _run_scene(scene, clock)


def _run_scene(scene: Scene, clock: ManualClock) -> None:
    screen = scene.screen
    screen.on_focus(True, clock())
    if screen.feet_choose:
        scene.stage.open_menu()
        clock.advance(REST)
        screen.on_sample(scene.rig.sample(), clock())
        if screen.outcome is None:
            screen.on_action(Action.GO)
    while screen.outcome is None:
        clock.advance(STEP)
        screen.on_sample(scene.rig.sample(), clock())
