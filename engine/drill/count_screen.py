"""Screen that asks how many high knocks there were: the answer to the second task."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from enum import Enum

from engine.drill.prompt_words import menu_words
from engine.kit import theme, widgets
from engine.kit.base import Place, Screen
from engine.kit.canvas import Canvas
from engine.kit.timed_screen import time_left
from engine.kit.typeface import Weight
from engine.pedals.rig import Means
from engine.stage.actions import Action

QUESTION = "How many high knocks?"
ONE_EACH = "One throttle tap for each"
"""How to answer with the feet, under the number."""
MOST = 25
"""Largest answer, as a count: more high knocks than the longest repetition has. After it comes 0
again, so that a foot alone can take an answer back."""
NUMBER = 400
"""Height of the answer, in canvas units: as large as the target of a prompt."""


class NoCount(Enum):
    """Outcome of the question where the player leaves instead of answering."""

    LEFT = "left"


class CountAnswer(Screen[int | NoCount]):
    """Question for the number of high knocks. Its outcome is the answer, or that there is none."""

    name = "count"
    feet_choose = True
    counts_taps = True

    def __init__(self, place: Place) -> None:
        super().__init__()
        self._place = place
        self._counted = 0

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the number of the repetition, and the answer so far."""
        return {"rep": self._place.number, "counted": self._counted}

    def on_action(self, action: Action) -> None:
        """Count one more or one less, confirm the answer, or leave."""
        match action:
            case Action.NEXT:
                self._counted = (self._counted + 1) % (MOST + 1)
            case Action.PREVIOUS:
                self._counted = (self._counted - 1) % (MOST + 1)
            case Action.GO:
                self.outcome = self._counted
            case Action.BACK | Action.MENU:
                self.outcome = NoCount.LEFT

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Count one more at each click; Enter or a wheel button confirms."""
        if pressed:
            self.on_action(Action.NEXT)

    def on_closing(self) -> None:
        """Leave: closing the window is no answer either."""
        self.outcome = NoCount.LEFT

    def appearance(self) -> Hashable:
        """State that the picture depends on: the answer, and the input methods of the hint."""
        return self._counted, self.means

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the question, the answer so far, and how to answer."""
        middle = theme.WIDTH / 2
        canvas.text(QUESTION, (middle, 150), theme.LARGE, align="centre", weight=Weight.BOLD)
        at = (middle, 270)
        canvas.text(f"{self._counted}", at, NUMBER, theme.BRAKE, "centre", weight=Weight.BOLD)
        if self.means.feet:
            canvas.text(ONE_EACH, (middle, 680), theme.BODY, theme.QUIET, "centre")
        if press > 0:
            canvas.box((middle - 300, 790), (600 * press, 12), theme.TEXT, 6)
        time_left(canvas, self._place)
        widgets.foot(canvas, self._hint(self.means))

    def _hint(self, means: Means) -> str:
        ways = [
            ("Throttle tap" if means.feet else "Click", "Tab", "one more"),
            ("", "Up", "one less"),
            ("brake past half" if means.feet else "", "Enter", "that is it"),
        ]
        hints = [f"{', '.join(filter(None, (way, key)))}: {does}" for way, key, does in ways]
        return "    ".join([*hints, menu_words(means)])
