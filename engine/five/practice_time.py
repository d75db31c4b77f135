"""`PracticeTime`: duration of each repetition, without menus, lessons, replays and trouble."""

from __future__ import annotations

from drills.trace import SECOND, nanoseconds
from engine.drill.lesson import Lesson
from engine.kit.base import Menu
from engine.kit.flow import watched
from engine.kit.timed_screen import TimedScreen
from engine.pedals.port import Clock
from engine.stage.scene import Flow, Scene, T

BETWEEN = nanoseconds(1.0)
"""Longest time between two screens that counts as practice, in ns: in a longer one the history
could not be used, and the player was asked what to do."""


class PracticeTime:
    """Start of the next repetition's duration, moved on by what does not count as practice."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._since = self._opened = self._closed = clock()

    def restart(self) -> None:
        """Count the next duration from now on."""
        self._since = self._clock()

    def take(self, seconds: float) -> None:
        """Count the next duration from the end of a repetition that took some seconds."""
        self._since += round(seconds * SECOND)

    def since(self) -> int:
        """Time from which the next duration counts, in ns; no screen may be shown now."""
        self._leave_out(self._clock() - max(self._since, self._closed))
        return self._since

    def of(self, flow: Flow[T]) -> Flow[T]:
        """The given flow; menus, lessons and looks into repetitions are left out of durations."""
        return watched(flow, self._open, self._close)

    def _open(self, _: Scene) -> None:
        """Note the time at which a screen opens, and leave out a long one before it."""
        self._opened = self._clock()
        self._leave_out(self._opened - max(self._since, self._closed))

    def _close(self, scene: Scene) -> None:
        """Note when a screen closes; leave out a menu, a lesson, and looks into a repetition."""
        self._closed = self._clock()
        if isinstance(scene.screen, Menu | Lesson):
            self._since += self._closed - self._opened
        elif isinstance(scene.screen, TimedScreen):
            self._since += scene.screen.looked_into

    def _leave_out(self, between: int) -> None:
        """Leave out the time between two screens, in ns, if it is long."""
        if between > BETWEEN:
            self._since += between
            self._closed = self._clock()
