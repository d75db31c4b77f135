"""Screen that suggests to stop when scores fall within a session; the player decides."""

from __future__ import annotations

from collections.abc import Mapping

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas


class FatigueScreen(Menu[bool]):
    """Suggestion to stop for today; its outcome is True if the player stops."""

    name = "tires"
    back_word = "go on"

    def __init__(self, kind: str, fall: float) -> None:
        """`kind` names the drill whose scores fall, such as "First blip"; `fall` is in points."""
        choices = [
            Choice("Stop for today", True, "what is done is kept"),
            Choice("Go on", False),
        ]
        super().__init__(choices, back=False)
        self._kind = kind
        self._fall = fall

    def details(self) -> Mapping[str, object]:
        """Choices, kind of drill, and fall of its scores in points, for the events file."""
        return {**super().details(), "kind": self._kind, "fall": self._fall}

    def picture(self, canvas: Canvas) -> None:
        """Draw by how much the scores fell, and that the player decides."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "Tired?") + 20
        for line in self.sentences:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY + 4, width=width) + 30

    @property
    def sentences(self) -> tuple[str, ...]:
        """Sentences of the suggestion to stop, one for each line on the screen."""
        points = max(round(self._fall), 1)
        by = f"by about {points} point{'s' if points > 1 else ''} of 100"
        return (
            "Your scores have fallen over the last twelve.",
            f'They fell {by} in "{self._kind}".',
            "Stop for today, or go on: you decide.",
        )
