"""`ShiftMenu`: the optional question for the shift button, which is found as it is pressed."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass

from drills.capitals import capitalised, uncapitalised
from drills.trace import Sample
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.statement import statement
from engine.pedals.bound import BoundButton

SHIFT_ONCE = "Shift down once"
WHICH_ONE = "By a paddle, a lever or a gate."
WHAT_FOR = "Your shifts are then timed against your blips."
FOUND = "That is your downshift"
ANOTHER = "Another one? Shift down once with it."


@dataclass(frozen=True)
class KeptShift:
    """Outcome of ShiftMenu."""

    button: BoundButton | None
    """Shift button to keep; None for none."""


class ShiftMenu(Menu[KeptShift]):
    """Menu that takes the button pressed last for the shift button, or goes on without one.

    No button chooses here, so that any of them can be the one; feet, keys and mouse choose.
    """

    name = "shift button"
    in_a_bar = True

    def __init__(
        self, pressed: Callable[[], BoundButton | None], before: BoundButton | None = None
    ) -> None:
        """`pressed` returns the button that was pressed last; `before` is the one bound so far."""
        super().__init__(_choices(before, before), back=KeptShift(before))
        self._pressed = pressed
        self._before = before
        self._found = before
        self.back_word = self._word_for_back()

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Take the button that was pressed, and offer to keep it."""
        pressed = self._pressed()
        if pressed is not None and pressed != self._found:
            self._found = pressed
            self._choices, self._selected = _choices(pressed, self._before), 0
            self.back_word = self._word_for_back()
        super().on_sample(sample, now)

    def appearance(self) -> Hashable:
        """State that the picture depends on: the choices, and the button."""
        return super().appearance(), self._found

    def picture(self, canvas: Canvas) -> None:
        """Draw what to do, or the button that was found."""
        if self._found is None:
            statement(canvas, SHIFT_ONCE, WHICH_ONE, note=WHAT_FOR)
        else:
            statement(canvas, FOUND, capitalised(self._found.words), note=ANOTHER)

    def _word_for_back(self) -> str:
        """Label of the choice that does what going back does."""
        labels = [choice.label for choice in self._choices if choice.outcome == self._back]
        return uncapitalised(labels[0])


def _choices(found: BoundButton | None, before: BoundButton | None) -> list[Choice[KeptShift]]:
    """Choices of the menu with the button found so far, and the one bound before."""
    if found is None:
        return [Choice("Go on without", KeptShift(None))]
    choices = [Choice("Keep it", KeptShift(found))]
    if before is not None and before != found:
        choices.append(Choice("As before", KeptShift(before)))
    return [*choices, Choice("Without one", KeptShift(None))]
