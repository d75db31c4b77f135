"""`AnyPedalMenu`: base of the menus that any pedal operates, as none is certain yet."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from enum import Enum
from typing import TypeVar

import pygame

from drills.trace import Sample
from engine.kit import widgets
from engine.kit.base import Choice, Menu
from engine.pedals.gestures import Gesture
from engine.pedals.identity import Axis
from engine.pedals.together import TapOrStay
from engine.stage.actions import Action

T = TypeVar("T")


class SetUpChoice(Enum):
    """What the player can choose in the menus of the pedal setup."""

    ALL = "all"
    KEEP = "keep"
    GO_ON = "go on"
    AGAIN = "again"
    REFUSE = "refuse"
    SHIFT = "shift"
    STOP = "stop"


class AnyPedalMenu(Menu[T]):
    """Menu in which a tap of any pedal selects the next choice, and a held pedal confirms."""

    feet_choose = False

    def __init__(
        self,
        shares: Callable[[], Mapping[Axis, float]],
        choices: Sequence[Choice[T]],
        back: T | None,
    ) -> None:
        """`shares` returns how far each axis is pressed; `back` is the outcome of going back."""
        super().__init__(choices, back)
        self._shares = shares
        self._chosen = TapOrStay()
        self._focused = True
        self._has_axes = False

    def on_focus(self, focused: bool, now: int) -> None:
        """Note whether the window has the focus; without it, pedals choose nothing."""
        self._focused = focused
        self._chosen = TapOrStay()

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Choose with any pedal: a tap selects the next choice, a held pedal confirms."""
        super().on_sample(sample, now)
        shares = self._shares()
        self._has_axes = bool(shares)
        if not self._focused:
            return
        match self._chosen.feed(now, shares):
            case Gesture.GO:
                self.on_action(Action.GO)
            case Gesture.NEXT:
                self.on_action(Action.NEXT)

    def appearance(self) -> Hashable:
        """State that the picture depends on: the choices, and the progress of a held pedal."""
        return super().appearance(), self._has_axes, round(20 * self._chosen.progress)

    def draw(self, surface: pygame.Surface, press: float) -> None:
        """Draw the menu, with the progress of a held pedal towards confirming a choice."""
        super().draw(surface, self._chosen.progress)

    @property
    def hint(self) -> str:
        """Line at the foot of the menu that says how to choose with any pedal or with keys."""
        back = "" if self._back is None else self.back_word
        if not self._has_axes:
            return widgets.hint(self.means, True, back)
        ways = ["Hold any pedal, or Enter: choose", "Tap it, or Tab: next"]
        return "    ".join([*ways, f"Esc: {back}"] if back else ways)
