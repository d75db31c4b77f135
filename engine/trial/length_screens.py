"""Screens that ask how long a trial is to be, and how long a change of set-up takes."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.trial.length import ChangeTime, Length, OwnSpread
from engine.trial.screen_words import CHANGE_COUNTS, FINDS, FIXED, OF_DAYS, OF_PAIRS
from engine.trial.setup_screens import TrialBack

NOTES = {
    ChangeTime.SECONDS: "the foot is placed differently",
    ChangeTime.MINUTE: "something is moved, or a shoe taken off",
    ChangeTime.SHOES: "shoes are changed, or pedals bolted",
}
"""What a change is that takes so long."""


class HowLongChange(Menu[ChangeTime | TrialBack]):
    """Question how long a change of set-up takes. Its outcome is what the player chose."""

    name = "change time"
    list_top = theme.LIST

    def __init__(self, likely: ChangeTime) -> None:
        """`likely` is the time that is selected first."""
        times: list[Choice[ChangeTime | TrialBack]] = [
            Choice(time.value.capitalize(), time, NOTES[time]) for time in ChangeTime
        ]
        super().__init__([*times, Choice("Back", TrialBack.BACK)], back=TrialBack.BACK)
        self._selected = list(ChangeTime).index(likely)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, and the one that is selected first."""
        return {**super().details(), "selected": self._selected}

    def picture(self, canvas: Canvas) -> None:
        """Draw the question and what it is asked for."""
        y = title(canvas, "How long is a change from A to B?")
        canvas.text(CHANGE_COUNTS, (theme.MARGIN, y), theme.BODY, theme.QUIET)


class LengthRow(Enum):
    """Row of the menu of lengths that changes how long a change takes."""

    CHANGE = "change"


class TrialLength(Menu[Length | LengthRow | TrialBack]):
    """Question how long the trial is to be; its outcome is the length."""

    name = "trial length"

    def __init__(
        self,
        lengths: Mapping[ChangeTime, Sequence[Length]],
        change: ChangeTime,
        spread: OwnSpread,
    ) -> None:
        """`lengths` are those on offer by the time of a change, the shortest first.

        `change` is the time that a change takes at first, `spread` what the lengths find it by.
        """
        self.change = change
        """How long a change takes, as it is chosen so far."""
        self._lengths = lengths
        self._spread = spread
        super().__init__(self._rows(), back=TrialBack.BACK)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, the notes beside them, and the spread's."""
        notes = [choice.note for choice in self._choices[:-1]]
        return {**super().details(), "notes": notes, "said": self._spread.words}

    def choose(self, choice: Choice[Length | LengthRow | TrialBack]) -> None:
        """End the menu, or take the next time of a change, and with it the times of the lengths."""
        if not isinstance(choice.outcome, LengthRow):
            self.outcome = choice.outcome
            return
        times = list(ChangeTime)
        self.change = times[(times.index(self.change) + 1) % len(times)]
        self._choices = self._rows()

    def appearance(self) -> Hashable:
        """State that the picture depends on: the selected row, and the time of a change."""
        return super().appearance(), self.change

    def picture(self, canvas: Canvas) -> None:
        """Draw what a pair of blocks is, and what it means that a trial finds a difference."""
        y = title(canvas, "How many pairs?")
        width = theme.WIDTH - 2 * theme.MARGIN
        known_from = canvas.cut(self._spread.words, width)
        for line in (OF_PAIRS, FIXED, OF_DAYS, FINDS, known_from):
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, theme.QUIET, width=width) + 12

    def _rows(self) -> list[Choice[Length | LengthRow | TrialBack]]:
        choices: list[Choice[Length | LengthRow | TrialBack]] = [
            Choice(f"{each.pairs} pairs", each, each.words) for each in self._lengths[self.change]
        ]
        return [
            *choices,
            Choice("A change takes", LengthRow.CHANGE, self.change.value),
            Choice("Back", TrialBack.BACK),
        ]
