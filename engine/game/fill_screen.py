"""`ask_to_fill_screen`: the question at the first start whether the window fills the screen."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from drills.trace import Sample
from engine.kit.base import Choice
from engine.kit.canvas import Canvas
from engine.kit.flow import show
from engine.kit.statement import statement
from engine.pedals.identity import Axis
from engine.pedals.rig import Rig
from engine.pedals.together import ALL_OFF, Presses
from engine.setup.any_pedal_menu import AnyPedalMenu
from engine.stage.scene import Flow
from engine.stage.stage import Stage

QUESTION = "Fill the screen?"
"""Question in the middle of the screen."""
LATER = "F11 changes it at any time."
"""Sentence below the question: no answer is for ever."""
FILL = "Yes, fill it"
"""Choice that fills the screen."""
IN_A_WINDOW = "No, a window"
"""Choice that keeps the window."""


class FillScreen(AnyPedalMenu[bool]):
    """Question whether the game fills the screen; its outcome is the answer."""

    name = "fill the screen"
    in_a_bar = True
    back_word = "no"

    def __init__(self, values: Callable[[], Mapping[Axis, float]]) -> None:
        """`values` returns the raw value of every axis: pedals are not set up at a first start."""
        self._values = values
        self._presses = Presses()
        self._measured: frozenset[Axis] = frozenset()
        self._rest_until = 0
        choices = [Choice(FILL, True), Choice(IN_A_WINDOW, False)]
        super().__init__(lambda: self._presses.shares(values()), choices, back=False)

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Choose with any pedal, measured from where it rests a moment after it came.

        Not at once: the pedal that confirmed the cautions is still on its way up.
        """
        values = self._values()
        if values.keys() != self._measured:
            self._measured, self._rest_until = frozenset(values), now + ALL_OFF
        if now <= self._rest_until:
            self._presses.rest(values, self._measured)
        super().on_sample(sample, now)

    def picture(self, canvas: Canvas) -> None:
        """Draw the question in the middle."""
        statement(canvas, QUESTION, LATER)


def ask_to_fill_screen(rig: Rig, stage: Stage) -> Flow[None]:
    """Ask whether to fill the screen, and do so; a screen that is filled already is an answer."""
    if stage.lights.full:
        return
    fill = yield from show(FillScreen(rig.values), rig, stage)
    # A key may have filled it meanwhile.
    if fill is not stage.lights.full:
        stage.lights.toggle_full()
