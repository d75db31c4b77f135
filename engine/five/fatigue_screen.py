"""Screen that suggests to stop when scores fall within a session; the player decides."""

from __future__ import annotations

from collections.abc import Mapping

from drills.remark import Headline
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.opening import draw_opening

LOWER = "Your scores fell over the last twelve."
"""What makes the screen come up, in a sentence."""


class FatigueScreen(Menu[bool]):
    """Suggestion to stop for today; its outcome is True if the player stops."""

    name = "tires"
    in_a_bar = True
    back_word = "go on"

    def __init__(self, kind: str, fall: float) -> None:
        """`kind` names the drill whose scores fall, such as "First blip"; `fall` is in points."""
        choices = [
            Choice("Stop for today", True, "all you did is saved"),
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
        points = max(round(self._fall), 1)
        words = f"point{'s' if points > 1 else ''} lower, of 100"
        more = f'In "{self._kind}". Stop, or go on: you decide.'
        draw_opening(canvas, "Tired?", LOWER, more, Headline(f"{points}", words))
