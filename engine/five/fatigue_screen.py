"""The foot tires: a stop is suggested, and the player decides."""

from __future__ import annotations

from collections.abc import Mapping

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas


class FatigueScreen(Menu[bool]):
    """Ends with whether to stop."""

    name = "tires"
    back_word = "go on"

    def __init__(self, kind: str, fall: float) -> None:
        """`kind` is what is falling off, such as "First blip"; `fall` by how many of 100 points."""
        choices = [
            Choice("Stop for today", True, "what is done is kept"),
            Choice("Go on", False),
        ]
        super().__init__(choices, back=False)
        self._kind = kind
        self._fall = fall

    def details(self) -> Mapping[str, object]:
        """The choices, and what is falling by how much."""
        return {**super().details(), "kind": self._kind, "fall": self._fall}

    def picture(self, canvas: Canvas) -> None:
        """What was seen, and what it may mean."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "The foot tires") + 20
        for line in self.said:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY + 4, width=width) + 30

    @property
    def said(self) -> tuple[str, ...]:
        """Line by line."""
        points = max(round(self._fall), 1)
        by = f"by about {points} point{'s' if points > 1 else ''} of 100"
        return (
            f'Your scores in "{self._kind}" have fallen over the last 12, {by}.',
            "That is what a tired foot looks like. It has done its work for now.",
            "A rest may bring more than another try.",
        )
