"""`CoachScreen`: one sentence on what holds the player back, one cue, one picture."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from drills.capitals import capitalised
from drills.fault_names import fault_name
from engine.five.coach_picture import draw_coach
from engine.five.coach_view import CoachView
from engine.five.coach_words import QUESTION
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.opening import draw_opening
from engine.stage.actions import Action

GAP = 24
"""Gap above the picture and between it and the bar of choices, in canvas units."""


class CoachChoice(Enum):
    """Choice of the player on the coach's page: to go on."""

    ON = "on"


class CoachScreen(Menu[CoachChoice]):
    """The coach's page as a screen of its own; any tap, key or click goes on."""

    name = "coach"
    in_a_bar = True

    def __init__(self, view: CoachView, label: str = "Go on") -> None:
        """`label` is the name of the choice that ends it."""
        super().__init__([Choice(label, CoachChoice.ON)], back=CoachChoice.ON)
        self._view = view

    def details(self) -> Mapping[str, object]:
        """The choice, the fault and what is said, for the events file."""
        view = self._view
        return {
            **super().details(),
            "fault": None if view.fault is None else view.fault.value,
            "says": [view.lead, view.line, *view.more],
            "levels": list(view.titles),
        }

    def on_action(self, action: Action) -> None:
        """Go on at any action, a tap of the throttle too."""
        super().on_action(Action.GO if action in (Action.NEXT, Action.PREVIOUS) else action)

    def picture(self, canvas: Canvas) -> None:
        """Draw the name of the fault, the sentence, the cue and the picture."""
        view = self._view
        heading = QUESTION if view.fault is None else capitalised(fault_name(view.fault))
        top = draw_opening(canvas, heading, view.lead, view.line) + GAP
        bottom = self.choices_top - GAP
        draw_coach(canvas, Area(theme.MARGIN, top, theme.ACROSS, bottom - top), view)
