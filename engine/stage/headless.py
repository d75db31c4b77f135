"""Headless run of a flow: no window, a clock that is advanced by hand, and no waiting."""

from __future__ import annotations

from drills.trace import SECOND, nanoseconds
from engine.pedals.gestures import Gestures
from engine.stage.actions import Action, actions_of_gesture
from engine.stage.scene import Flow, Scene, T

STEP = nanoseconds(0.001)
"""Time from one reading of the pedals to the next in a headless run, in ns."""
REST = 1 * SECOND
"""Time that the simulated foot gets at a menu to let go of its pedals, in ns."""

ANSWER = 20 * SECOND
"""Time that the pedals get to answer a question by taps in a headless run, in ns."""


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

    In menus the first choice is taken at once, unless the pedals end them; where each tap counts
    the pedals answer by their gestures, as in a window. In repetitions they are read every STEP.
    """
    while True:
        try:
            scene = next(flow)
        except StopIteration as ended:
            result: T = ended.value
            return result
        _run_scene(scene, clock)


def _answer_by_feet(scene: Scene, clock: ManualClock) -> None:
    """Run a screen by the gestures of the pedals alone, for ANSWER at the longest."""
    screen, gestures, until = scene.screen, Gestures(double_taps=False), clock() + ANSWER
    while screen.outcome is None and clock() < until:
        clock.advance(STEP)
        sample = scene.rig.sample()
        screen.on_sample(sample, clock())
        gesture = None if sample is None else gestures.feed(sample)
        for action in () if gesture is None else actions_of_gesture(gesture):
            screen.on_action(action)


def _run_scene(scene: Scene, clock: ManualClock) -> None:
    screen = scene.screen
    screen.on_focus(True, clock())
    if screen.feet_choose:
        scene.stage.open_menu()
        if screen.counts_taps:
            _answer_by_feet(scene, clock)
        clock.advance(REST)
        if screen.outcome is None:
            screen.on_sample(scene.rig.sample(), clock())
        if screen.outcome is None:
            screen.on_action(Action.GO)
    while screen.outcome is None:
        clock.advance(STEP)
        screen.on_sample(scene.rig.sample(), clock())
