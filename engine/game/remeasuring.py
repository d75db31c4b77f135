"""Remeasuring in the background of the game: a copy first, then one repetition at a time.

The first start after a change of the definitions finds the repetitions of the earlier ones. They
are remeasured while a still screen waits, never while pedals are measured, and stored some at a
time: a game that is ended in between, however it is, goes on at its next start.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import pygame

from drills.level import Level
from drills.remeasure import Remeasurer
from engine.drill.attempt import Now
from engine.kit import theme
from engine.kit.base import Choice, Menu, Screen
from engine.kit.canvas import Canvas
from engine.kit.flow import show
from engine.kit.statement import statement
from engine.pedals.rig import Rig
from engine.practice.remeasuring import Remeasuring
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History, StoreError
from engine.store.error import DamagedError
from engine.store.remeasure import (
    Replacement,
    copy_before,
    is_copied,
    remeasuring,
    replace_measures,
    replacement,
    stored_repetition,
    waiting_numbers,
)

BATCH = 20
"""Number of repetitions whose new measures are stored at a time, in one transaction."""
DRAWN = 2
"""Looks at the pedals after which a screen that came up is drawn, as a count."""


class BackgroundRemeasurer:
    """Remeasures a history step by step, while a still screen waits."""

    def __init__(self, history: History, levels: Sequence[Level]) -> None:
        """`levels` are all levels, the steadiness drill among them. Raises StoreError."""
        self._history = history
        self._remeasurer = Remeasurer(levels)
        self._waiting: list[int] = []
        self._found: list[Replacement] = []
        self._stopped = False
        self.state: Remeasuring | None = remeasuring(history)
        """How far the work has come; None once nothing waits for it."""

    def before(self, other: Callable[[], None]) -> Callable[[], None]:
        """Background work that is this until it is over, and the `other` from then on."""
        return lambda: other() if self.state is None or self._stopped else self.step()

    def step(self) -> None:
        """Remeasure one repetition; it stops for good if the history cannot be written."""
        if self.state is None or self._stopped:
            return
        try:
            with self._history.without_asking():
                self._step()
        except StoreError:
            # The next start goes on; what the player does until then says what is wrong.
            self._stopped = True

    def _step(self) -> None:
        """Remeasure one repetition, and store a batch once it is full. Raises StoreError."""
        if not self._waiting:
            self._waiting = waiting_numbers(self._history, BATCH)
        if self._waiting:
            number = self._waiting.pop(0)
            stored = stored_repetition(self._history, number)
            found: Replacement | None = Replacement(number, None, fixed=True)
            if stored is not None:
                found = replacement(stored, self._remeasurer.measure(stored))
            self._found += [] if found is None else [found]
        if not self._waiting:
            replace_measures(self._history, self._found)
            self._found = []
            self.state = remeasuring(self._history)


class Copying(Screen[str]):
    """Screen shown while the history is copied; its outcome is what went wrong, "" for nothing."""

    name = "copying"

    def __init__(self, copy: Callable[[], object]) -> None:
        """`copy` copies the history; it may raise StoreError, of which damage is passed on."""
        super().__init__()
        self._copy = copy
        self._looks = 0

    def on_sample(self, sample: object, now: int) -> None:
        """Copy the history, once this screen was drawn."""
        self._looks += 1
        if self._looks < DRAWN:
            return
        try:
            self._copy()
        except DamagedError:
            raise
        except StoreError as error:
            self.outcome = str(error)
        else:
            self.outcome = ""

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw what is done, and why."""
        statement(
            canvas,
            "A copy of your history",
            "This version measures more accurately. Your history is copied first.",
            note="Then all you did is measured again, while you practise.",
            bottom=theme.HEIGHT,
        )


class NotCopied(Menu[bool]):
    """Screen that says why earlier repetitions are not remeasured."""

    name = "not copied"
    in_a_bar = True

    def __init__(self, why: str) -> None:
        """`why` says in a line why the history could not be copied."""
        super().__init__([Choice("Go on", True)], back=True)
        self._why = why

    def details(self) -> dict[str, object]:
        """Fields for the events file: the label of the choice, and why there is no copy."""
        return {**super().details(), "why": self._why}

    def picture(self, canvas: Canvas) -> None:
        """Draw why there is no copy, and what follows."""
        statement(
            canvas,
            "No copy of your history",
            "Nothing is measured again, so figures over days stay hidden.",
            "Practise as usual: the next start tries again.",
            note=self._why,
        )


def remeasure_in_background(
    rig: Rig, stage: Stage, history: History, levels: Sequence[Level], now: Now
) -> Flow[BackgroundRemeasurer | None]:
    """Copy a history that waits to be remeasured, and return what remeasures it step by step.

    None if nothing waits, or if there is no copy, which is said. Raises StoreError.
    """
    if remeasuring(history) is None:
        return None
    if not is_copied(history):

        def copy() -> None:
            with history.without_asking():
                copy_before(history, now().date(), answer)

        copying = Copying(copy)
        failed = yield from show(copying, rig, stage)
        if failed:
            yield from show(NotCopied(failed), rig, stage)
            return None
    return BackgroundRemeasurer(history, levels)


def answer() -> None:
    """Answer the system, which takes a window that is silent for seconds to be stuck."""
    if pygame.display.get_init():
        pygame.event.pump()
