"""Screen that suggests to stop where the scores of a kind of drill fall; the player decides."""

from __future__ import annotations

from collections.abc import Mapping

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas


class FatigueScreen(Menu[bool]):
    """Suggestion to stop for today; its outcome is True where the player takes it."""

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
        """The choices, the kind of drill, and the fall of its scores in points."""
        return {**super().details(), "kind": self._kind, "fall": self._fall}

    def picture(self, canvas: Canvas) -> None:
        """Draw what was measured, and what it may mean."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "The foot tires") + 20
        for line in self.sentences:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY + 4, width=width) + 30

    @property
    def sentences(self) -> tuple[str, ...]:
        """Sentences of the suggestion, one for each line."""
        points = max(round(self._fall), 1)
        by = f"by about {points} point{'s' if points > 1 else ''} of 100"
        return (
            f'Your scores in "{self._kind}" have fallen over the last 12, {by}.',
            "That is what a tired foot looks like. It has done its work for now.",
            "A rest may bring more than another try.",
        )
