"""Screen after the second task voided several repetitions: not heard, or miscounted."""

from __future__ import annotations

from collections.abc import Mapping

from drills.score import Reason
from engine.drill.advice import Advice, draw_advice
from engine.drill.interruptions import LOST
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas

TROUBLES: Mapping[Reason, Advice] = {
    Reason.MISCOUNTED: Advice(
        "The count is off",
        "An answer within one of the high knocks counts.",
        (
            "Say each number to yourself as its knock comes.",
            "Let the low knocks pass.",
            "Turn the volume up if both sound alike.",
        ),
    ),
    Reason.UNHEARD: Advice(
        "The knocks are not heard",
        "These levels need sound: there is nothing to count without.",
        (
            "Plug in the speaker or the headphones again.",
            "Look at the volume under Sound and light.",
            "Leave for now, and play another level.",
        ),
    ),
}
"""What may go wrong with the counting, by the outcome of the repetitions."""


class CountTroubleMenu(Menu[bool]):
    """Menu after several repetitions in a row lost to the second task; its outcome is going on."""

    name = "count trouble"
    in_a_bar = True
    back_word = "leave for now"

    def __init__(self, reason: Reason) -> None:
        """`reason` is the outcome of those repetitions, one of TROUBLES."""
        super().__init__([Choice("Go on", True), Choice("Leave for now", False)], back=False)
        self._reason = reason

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: why the repetitions are void, and the choices."""
        return {**super().details(), "reason": self._reason.value}

    def picture(self, canvas: Canvas) -> None:
        """Draw what went wrong, what counts, and what helps."""
        trouble = TROUBLES[self._reason]
        draw_advice(canvas, trouble.heading, trouble.meaning, LOST, trouble.remedies)
