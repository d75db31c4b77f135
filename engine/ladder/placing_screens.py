"""Before a placing set and after it: what it is, and where the player stands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drills.level import Level
from engine.drill.set_end import Then
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.ladder.climb_picture import ClimbArea, climb_picture
from engine.ladder.ladder import LadderStage

SAID = (
    "Up to {most} repetitions, a few from each stage, harder and harder.",
    "It ends at the first stage that is not yours yet, and that is where you begin.",
    "Two clean ones make a stage yours. What lies below it stays open to you.",
)
"""What a placing set is."""


class BeforePlacing(Menu[bool]):
    """Ends with whether it is begun."""

    name = "before placing"

    def __init__(self, most: int) -> None:
        """`most` repetitions it takes."""
        super().__init__([Choice("Begin", True), Choice("Back", False)], back=False)
        self._most = most

    def picture(self, canvas: Canvas) -> None:
        """The rules of it as a list."""
        y = title(canvas, "Find my place") + 20
        for line in SAID:
            canvas.disc((theme.MARGIN + 12, y + 21), 8, theme.BRAKE)
            said = line.format(most=self._most)
            width = theme.WIDTH - 2 * theme.MARGIN - 48
            y = canvas.text(said, (theme.MARGIN + 48, y), theme.BODY + 2, width=width) + 30


class PlacingEnd(Menu[Level | Then]):
    """Ends with a level to begin with, or Then.HOME."""

    name = "placed"
    back_word = "home"

    def __init__(
        self, stages: Sequence[LadderStage], following: Level, taken: Sequence[str], played: int
    ) -> None:
        """`taken` are the stages that were passed by, `played` the repetitions that counted."""
        choices: list[Choice[Level | Then]] = [
            Choice(f"Practise: {following.title}", following, following.purpose),
            Choice("Home", Then.HOME),
        ]
        super().__init__(choices, back=Then.HOME)
        self._flights = tuple(stages)
        self._following = following
        self._taken = tuple(taken)
        self._played = played

    def details(self) -> Mapping[str, object]:
        """Where the player stands."""
        stands = {"stage": self._following.stage, "level": self._following.id}
        return {**super().details(), **stands, "taken": self._taken, "played": self._played}

    def picture(self, canvas: Canvas) -> None:
        """The place in words, and on the climb."""
        y = title(canvas, f"Your place: {self._following.stage}") + 6
        width = theme.WIDTH - 2 * theme.MARGIN
        y = canvas.text(self._said, (theme.MARGIN, y), theme.BODY, width=width) + 20
        climb_picture(canvas, ClimbArea(y, self.choices_top - 30), self._flights, self._following)

    @property
    def _said(self) -> str:
        if not self._taken:
            return "The first stage is where you begin: the foot learns stillness first."
        stages = " and ".join(filter(None, [", ".join(self._taken[:-1]), self._taken[-1]]))
        several = "lie behind you and stay open to you"
        behind = "lies behind you and stays open to you" if len(self._taken) == 1 else several
        return f"In {self._played} repetitions: {stages} {behind}."
