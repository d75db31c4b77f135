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

RULES = (
    "Up to {most} repetitions, a few from each stage, harder and harder.",
    "It ends at the first stage that is not yours yet, and that is where you begin.",
    "Two clean ones make a stage yours. What lies below it stays open to you.",
)
"""Sentences that explain a placing set; `{most}` stands for its largest number of repetitions."""


class BeforePlacing(Menu[bool]):
    """Screen that explains the placing set; its outcome is whether the player begins it."""

    name = "before placing"

    def __init__(self, most: int) -> None:
        """`most` is the largest number of repetitions in a placing set."""
        super().__init__([Choice("Begin", True), Choice("Back", False)], back=False)
        self._most = most

    def picture(self, canvas: Canvas) -> None:
        """Draw the rules of the placing set as a list."""
        y = title(canvas, "Find my place") + 20
        for rule in RULES:
            canvas.disc((theme.MARGIN + 12, y + 21), 8, theme.BRAKE)
            line = rule.format(most=self._most)
            width = theme.WIDTH - 2 * theme.MARGIN - 48
            y = canvas.text(line, (theme.MARGIN + 48, y), theme.BODY + 2, width=width) + 30


class PlacingEnd(Menu[Level | Then]):
    """Screen at the end of a placing set; its outcome is the level to practise, or Then.HOME."""

    name = "placed"
    back_word = "home"

    def __init__(
        self, stages: Sequence[LadderStage], following: Level, taken: Sequence[str], played: int
    ) -> None:
        """`following` is the level to practise next, `taken` the names of the stages passed.

        `played` is the number of repetitions that counted.
        """
        choices: list[Choice[Level | Then]] = [
            Choice(f"Practise: {following.title}", following, following.purpose),
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
        y = title(canvas, f"Your place: {self._following.stage}") + 6
        width = theme.WIDTH - 2 * theme.MARGIN
        y = canvas.text(self._sentence, (theme.MARGIN, y), theme.BODY, width=width) + 20
        climb_picture(canvas, ClimbArea(y, self.choices_top - 30), self._stages, self._following)

    @property
    def _sentence(self) -> str:
        """Sentence on the screen about the stages that the placing set passed."""
        if not self._taken:
            return "The first stage is where you begin: it asks for stillness."
        stages = " and ".join(filter(None, [", ".join(self._taken[:-1]), self._taken[-1]]))
        several = "lie behind you and stay open to you"
        behind = "lies behind you and stays open to you" if len(self._taken) == 1 else several
        return f"In {self._played} repetitions: {stages} {behind}."
