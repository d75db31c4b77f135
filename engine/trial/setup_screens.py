"""Screens before a trial begins: its two set-ups and its level."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import replace
from enum import Enum, StrEnum
from typing import TypeVar

from drills.level import Level
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.typeface import Weight
from engine.trial.screen_words import ONE_LEVEL, PURPOSES, THE_SAME, UNNAMED
from engine.trial.trial import Arm, SetUp, differ

Word = TypeVar("Word", bound=StrEnum)


class PositionRow(Enum):
    """Rows of the menu of one set-up: what to change, or to go on."""

    ON = "on"
    BALL = "ball"
    HEEL = "heel"
    SHOES = "shoes"
    SPACING = "spacing"
    NAME = "name"
    NOTE = "note"
    BACK = "back"


class PositionMenu(Menu[PositionRow]):
    """Menu to choose one set-up; some rows change it in place, the others end the menu."""

    name = "set-up"

    def __init__(
        self, arm: Arm, set_up: SetUp, other: SetUp | None, begin: PositionRow = PositionRow.ON
    ) -> None:
        """`set_up` is shown at first; the result must differ from `other`, if that is given.

        `begin` is the row that is selected first.
        """
        self.set_up = set_up
        """Set-up as it is chosen so far."""
        self._arm = arm
        self._other = other
        self._refusal = ""
        super().__init__(self._rows(), back=PositionRow.BACK)
        self._selected = [choice.outcome for choice in self._choices].index(begin)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, the selected one, the set-up and any refusal."""
        now = self.set_up
        return {
            **super().details(),
            "selected": self._selected,
            "arm": self._arm.value,
            "said": self._refusal,
            "ball": now.ball.value,
            "heel": now.heel.value,
            "shoes": now.shoes.value,
            "spacing": now.spacing.value,
            "called": now.name,
            "note": now.note,
        }

    def choose(self, choice: Choice[PositionRow]) -> None:
        """Change the set-up or end the menu; a set-up equal to the other one is refused."""
        now, self._refusal = self.set_up, ""
        match choice.outcome:
            case PositionRow.BALL:
                self.set_up = replace(now, ball=_after(now.ball))
            case PositionRow.HEEL:
                self.set_up = replace(now, heel=_after(now.heel))
            case PositionRow.SHOES:
                self.set_up = replace(now, shoes=_after(now.shoes))
            case PositionRow.SPACING:
                self.set_up = replace(now, spacing=_after(now.spacing))
            case PositionRow.ON if self._other is not None and not differ(self._other, now):
                self._refusal = THE_SAME
            case row:
                self.outcome = row
        self._choices = self._rows()

    def appearance(self) -> Hashable:
        """State that the picture depends on: the selected row, the set-up and the refusal."""
        return super().appearance(), self.set_up, self._refusal

    def picture(self, canvas: Canvas) -> None:
        """Draw which of the two set-ups it is, what it is for, and the refusal, if any."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, f"Set-up {self._arm.value}")
        purpose = PURPOSES[self._arm]
        y = canvas.text(purpose, (theme.MARGIN, y), theme.BODY, theme.QUIET, width=width) + 14
        canvas.text(self._refusal, (theme.MARGIN, y), theme.BODY, width=width, weight=Weight.BOLD)

    def _rows(self) -> list[Choice[PositionRow]]:
        now = self.set_up
        return [
            Choice("Go on", PositionRow.ON),
            Choice("On the brake", PositionRow.BALL, now.ball.value),
            Choice("Heel", PositionRow.HEEL, now.heel.value),
            Choice("Shoes", PositionRow.SHOES, now.shoes.value),
            Choice("Pedals", PositionRow.SPACING, now.spacing.value),
            Choice("Name", PositionRow.NAME, now.name or UNNAMED),
            Choice("Note", PositionRow.NOTE, now.note or "none"),
            Choice("Back", PositionRow.BACK),
        ]


def _after(word: Word) -> Word:
    """Next value of a feature, such as the next kind of shoes; the last leads to the first."""
    words = list(type(word))
    return words[(words.index(word) + 1) % len(words)]


class TrialBack(Enum):
    """Outcome of a menu if the player goes back."""

    BACK = "back"


class TrialLevel(Menu[Level | TrialBack]):
    """Question on which level both set-ups are played; its outcome is the level."""

    name = "trial level"
    list_top = theme.LIST

    def __init__(self, levels: Sequence[Level]) -> None:
        """`levels` are the levels to choose from, the most suitable first."""
        choices: list[Choice[Level | TrialBack]] = [
            Choice(level.title, level, level.purpose) for level in levels
        ]
        super().__init__([*choices, Choice("Back", TrialBack.BACK)], back=TrialBack.BACK)

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading, and what the level is used for if there is room."""
        y = title(canvas, "On which level?")
        if y < self.choices_top - 2 * theme.BODY:
            canvas.text(ONE_LEVEL, (theme.MARGIN, y), theme.BODY, theme.QUIET)
