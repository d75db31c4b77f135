"""Screens before and after a placing set: its rules, and the stage to begin practice at."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drills.level import Level
from engine.drill.set_end import Then
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.ladder.climb_picture import ClimbArea, climb_picture
from engine.ladder.ladder import LadderStage
from engine.ladder.ladder_words import FIND_PLACE
from engine.ladder.level_list import heading

RULES = (
    "Up to {most} repetitions, harder with each stage.",
    "Two clean ones pass a stage.",
    "Two that are not clean end it: you begin at that stage.",
    "The stages below stay open to you.",
)
"""Sentences that explain a placing set; `{most}` stands for its largest number of repetitions."""
LINE = 92
"""Distance from one rule of a placing set to the next, in canvas units."""


class BeforePlacing(Menu[bool]):
    """Screen that explains the placing set; its outcome is whether the player begins it."""

    name = "before placing"
    in_a_bar = True

    def __init__(self, most: int) -> None:
        """`most` is the largest number of repetitions in a placing set."""
        super().__init__([Choice("Begin", True), Choice("Back", False)], back=False)
        self._most = most

    def picture(self, canvas: Canvas) -> None:
        """Draw the rules of the placing set as a list."""
        y = title(canvas, FIND_PLACE) + 40
        for rule in RULES:
            canvas.disc((theme.MARGIN + 10, y + 22), 9, theme.BRAKE)
            canvas.text(rule.format(most=self._most), (theme.MARGIN + 52, y), theme.BODY + 4)
            y += LINE


class PlacingEnd(Menu[Level | Then]):
    """Screen at the end of a placing set; its outcome is the level to practise, or Then.HOME."""

    name = "placed"
    back_word = "home"
    in_a_bar = True

    def __init__(
        self, stages: Sequence[LadderStage], following: Level, taken: Sequence[str], played: int
    ) -> None:
        """`following` is the level to practise next, `taken` the names of the stages passed.

        `played` is the number of repetitions that counted.
        """
        choices: list[Choice[Level | Then]] = [
            Choice("Practise", following, following.title),
            Choice("Home", Then.HOME),
        ]
        super().__init__(choices, back=Then.HOME)
        self._stages = tuple(stages)
        self._following = following
        self._taken = tuple(taken)
        self._played = played

    def details(self) -> Mapping[str, object]:
        """Choices, stage and level to practise next, and stages passed, for the events file."""
        place = {"stage": self._following.stage, "level": self._following.id}
        return {**super().details(), **place, "taken": self._taken, "played": self._played}

    def picture(self, canvas: Canvas) -> None:
        """Draw the stage to begin practice at, in words and on the climb."""
        y = heading(canvas, f"Your place: {self._following.stage}")
        width = theme.WIDTH - 2 * theme.MARGIN
        y = canvas.text(self._sentence, (theme.MARGIN, y), theme.BODY, width=width) + 30
        area = ClimbArea(y, self.choices_top - 26)
        climb_picture(canvas, area, self._stages, self._following)

    @property
    def _sentence(self) -> str:
        """Sentence on the screen about the stages that the placing set passed."""
        if not self._taken:
            return "You begin at the first stage: it asks for stillness."
        stages = " and ".join(filter(None, [", ".join(self._taken[:-1]), self._taken[-1]]))
        repetitions = "1 repetition" if self._played == 1 else f"{self._played} repetitions"
        return f"{repetitions}. Passed, and open to you: {stages}."
