"""A trial before it begins: its two set-ups, its level, and how long it is."""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum, StrEnum
from typing import TypeVar

from drills.level import Level
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.trial.setups import differ
from engine.trial.trial import Arm, SetUp

Word = TypeVar("Word", bound=StrEnum)


class PositionRow(Enum):
    """What can be chosen of a set-up."""

    ON = "on"
    BALL = "ball"
    HEEL = "heel"
    SHOES = "shoes"
    SPACING = "spacing"
    NAME = "name"
    NOTE = "note"
    BACK = "back"


SAID = {
    Arm.A: "A is how the foot stands now. Choose a line to change what it says.",
    Arm.B: "B is what you would like to try. Change one thing alone, and you know what did it.",
}
"""What each set-up is for."""
UNNAMED = "made from what differs, or type one"
"""What is said of a name that was not typed."""
THE_SAME = "B is the same as A: change a line, or give B a name of its own."
"""What is said of two that cannot be told apart."""


class PositionMenu(Menu[PositionRow]):
    """Ends with going on or back, or with what is to be typed; other choices change the set-up."""

    name = "set-up"

    def __init__(
        self, arm: Arm, set_up: SetUp, other: SetUp | None, begin: PositionRow = PositionRow.ON
    ) -> None:
        """`set_up` is what it says so far, `other` the one that it has to differ from, if any.

        The row to `begin` with is selected.
        """
        self.set_up = set_up
        """What it says now."""
        self._arm = arm
        self._other = other
        self._said = ""
        super().__init__(self._rows(), back=PositionRow.BACK)
        self._selected = [choice.outcome for choice in self._choices].index(begin)

    def details(self) -> Mapping[str, object]:
        """The labels of the choices, the one that is selected, and what the set-up says."""
        now = self.set_up
        return {
            **super().details(),
            "selected": self._selected,
            "arm": self._arm.value,
            "said": self._said,
            "ball": now.ball.value,
            "heel": now.heel.value,
            "shoes": now.shoes.value,
            "spacing": now.spacing.value,
            "called": now.name,
            "note": now.note,
        }

    def choose(self, choice: Choice[PositionRow]) -> None:
        """Change what it says, or end; two that are the same go no further."""
        now, self._said = self.set_up, ""
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
                self._said = THE_SAME
            case row:
                self.outcome = row
        self._choices = self._rows()

    def appearance(self) -> Hashable:
        """What is selected, what it says, and what is said of it."""
        return super().appearance(), self.set_up, self._said

    def picture(self, canvas: Canvas) -> None:
        """Which of the two it is."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, f"Set-up {self._arm.value}")
        y = canvas.text(SAID[self._arm], (theme.MARGIN, y), theme.BODY, width=width) + 14
        canvas.text(self._said, (theme.MARGIN, y), theme.BODY)

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
    """The next one there is, the first after the last."""
    words = list(type(word))
    return words[(words.index(word) + 1) % len(words)]


class TrialBack(Enum):
    """Going back."""

    BACK = "back"


class TrialLevel(Menu[Level | TrialBack]):
    """Ends with the level that both set-ups are tried on."""

    name = "trial level"

    def __init__(self, levels: Sequence[Level]) -> None:
        """`levels` are those to choose from, the most fitting one first."""
        choices: list[Choice[Level | TrialBack]] = [
            Choice(level.title, level, level.purpose) for level in levels
        ]
        super().__init__([*choices, Choice("Back", TrialBack.BACK)], back=TrialBack.BACK)

    def picture(self, canvas: Canvas) -> None:
        """What it is for."""
        y = title(canvas, "On which level?")
        if y < self.choices_top - 2 * theme.BODY:
            said = "Both are tried on the same one. What is asked is the same for A and for B."
            width = theme.WIDTH - 2 * theme.MARGIN
            canvas.text(said, (theme.MARGIN, y), theme.BODY, width=width)


@dataclass(frozen=True)
class Length:
    """A number of pairs, and what a trial of so many can find."""

    pairs: int
    """count of pairs of blocks."""
    repetitions: int
    """count of repetitions."""
    finds: float
    """points, the difference of the dip that is found in 8 of 10 trials."""
    minutes: float
    """min, that it takes."""

    @property
    def words(self) -> str:
        """What it finds and takes."""
        points = math.ceil(self.finds)
        found = f"{points} point{'s' if points > 1 else ''}"
        return (
            f"finds {found} or more; {self.repetitions} repetitions, "
            f"about {max(round(self.minutes), 1)} minutes"
        )


class TrialLength(Menu[Length | TrialBack]):
    """Ends with the number of pairs."""

    name = "trial length"

    def __init__(self, lengths: Sequence[Length]) -> None:
        """`lengths` are those to choose from."""
        choices: list[Choice[Length | TrialBack]] = [
            Choice(f"{one.pairs} pairs", one, one.words) for one in lengths
        ]
        super().__init__([*choices, Choice("Back", TrialBack.BACK)], back=TrialBack.BACK)

    def details(self) -> Mapping[str, object]:
        """The labels of the choices, and their notes."""
        return {**super().details(), "notes": [choice.note for choice in self._choices[:-1]]}

    def picture(self, canvas: Canvas) -> None:
        """What a pair is, and what finding means."""
        y = title(canvas, "How many pairs?") + 10
        width = theme.WIDTH - 2 * theme.MARGIN
        for line in OF_PAIRS:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, width=width) + 22


OF_PAIRS = (
    "A pair is five repetitions of A and five of B, the order by lot. The number is fixed now and "
    "holds: stopping when it looks good would fool you.",
    "Finds 3 points: where one is better by as much, 8 of 10 such trials tell it.",
    "It may be spread over several days. Stop after a pair, and go on where you stopped.",
)
"""What the choice of a number rests on."""
