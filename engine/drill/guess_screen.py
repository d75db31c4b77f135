"""Screen that asks the player to guess a measure, such as the dip, before the reveal."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from enum import Enum

from engine.drill.guesses import STEPS
from engine.kit import theme, widgets
from engine.kit.base import Place, Screen
from engine.kit.canvas import Canvas
from engine.kit.timed_screen import time_left
from engine.kit.typeface import Weight
from engine.pedals.rig import Means
from engine.stage.actions import Action

NUMBER = 400
"""Height of the guess, in canvas units: as large as the target of a prompt."""
TICK = 130
"""Distance between two answers on the scale of a guess, in canvas units."""


class NoGuess(Enum):
    """Outcome of the question if the player does not guess but asks for the menu."""

    MENU = "menu"


class Guess(Screen[float | NoGuess]):
    """Question for a measure, with a scale. Its outcome is the guess in points, or NoGuess."""

    name = "guess"
    feet_choose = True

    def __init__(self, question: str, place: Place) -> None:
        """`question` is the text of the question, such as how far the brake fell."""
        super().__init__()
        self._question = question
        self._place = place
        self._step = 0

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the repetition, and the dips on offer, in points."""
        return {"rep": self._place.number, "steps": STEPS}

    def on_action(self, action: Action) -> None:
        """Move to another answer, confirm the guess, or ask for the menu."""
        match action:
            case Action.NEXT:
                self._step = (self._step + 1) % len(STEPS)
            case Action.PREVIOUS:
                self._step = (self._step - 1) % len(STEPS)
            case Action.GO:
                self.outcome = STEPS[self._step]
            case Action.BACK | Action.MENU:
                self.outcome = NoGuess.MENU

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Confirm the guess at a click."""
        if pressed:
            self.outcome = STEPS[self._step]

    def appearance(self) -> Hashable:
        """State that the picture depends on: the guess, and the input methods of the hint."""
        return self._step, self.means

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the question, the scale of answers and the guess."""
        middle = theme.WIDTH / 2
        canvas.text(self._question, (middle, 150), theme.LARGE, align="centre", weight=Weight.BOLD)
        points = STEPS[self._step]
        canvas.text(
            f"{points:.0f}", (middle, 270), NUMBER, theme.BRAKE, "centre", weight=Weight.BOLD
        )
        canvas.text("points", (middle, 640), theme.BODY + 8, theme.QUIET, "centre")
        left = middle - TICK * (len(STEPS) - 1) / 2
        canvas.line((left, 830), (left + TICK * (len(STEPS) - 1), 830), theme.FAINT, 4)
        for number, step in enumerate(STEPS):
            x = left + TICK * number
            chosen = number == self._step
            canvas.disc((x, 830), 20 if chosen else 8, theme.BRAKE if chosen else theme.QUIET)
            canvas.text(f"{step:.0f}", (x, 866), theme.SMALL, theme.QUIET, "centre")
        if press > 0:
            canvas.box((middle - 300, 740), (600 * press, 12), theme.TEXT, 6)
        time_left(canvas, self._place)
        widgets.foot(canvas, self._hint(self.means))

    def _hint(self, means: Means) -> str:
        ways = [
            ("throttle tap" if means.feet else "", "Tab", "more"),
            ("two taps" if means.feet else "", "Up", "less"),
            ("brake past half" if means.feet else "", "Enter", "choose"),
        ]
        hints = [f"{', '.join(filter(None, (feet, key)))}: {does}" for feet, key, does in ways]
        return "    ".join([*hints, "Esc: menu"])
