"""Running a flow without a window, as fast as it can, on a clock that only goes on when told to."""

from __future__ import annotations

from drills.trace import SECOND, nanoseconds
from engine.stage.actions import Action
from engine.stage.scene import Flow, Scene, T

STEP = nanoseconds(0.001)
"""ns from one look at the pedals to the next."""
REST = 1 * SECOND
"""ns that a foot is given to let go at a screen with choices, which nobody reads."""


class ManualClock:
    """A clock that only goes on when told to."""

    def __init__(self) -> None:
        self._now = 0

    def __call__(self) -> int:
        """The time in ns."""
        return self._now

    def advance(self, step: int) -> None:
        """Go on by `step` ns."""
        self._now += step


class NoLights:
    """A window that nobody sees."""

    full = False

    def toggle_full(self) -> None:
        """Nothing."""

    def tune(self, *, flash: bool) -> None:
        """Nothing."""

    def darken(self) -> None:
        """Nothing."""

    def flash(self, *, needed: bool, dim: bool = False) -> None:
        """Nothing."""

    def pointer(self) -> tuple[float, bool]:
        """At the bottom, not pressed."""
        return 0.0, False


def run_headless(flow: Flow[T], clock: ManualClock) -> T:
    """Attend to every scene: repetitions millisecond by millisecond, first choices taken at once.

    Returns what the flow returns.
    """
    while True:
        try:
            scene = next(flow)
        except StopIteration as ended:
            result: T = ended.value
            return result
        _attend(scene, clock)


def _attend(scene: Scene, clock: ManualClock) -> None:
    screen = scene.screen
    screen.on_focus(True, clock())
    if screen.feet_choose:
        scene.stage.open_menu()
        clock.advance(REST)
        scene.rig.sample()
        screen.on_action(Action.GO)
    while screen.outcome is None:
        clock.advance(STEP)
        screen.on_sample(scene.rig.sample(), clock())
