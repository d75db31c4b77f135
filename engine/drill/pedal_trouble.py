"""Screen after pedals made several repetitions in a row void: what they do, and what helps."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from drills.score import Reason
from engine.drill.advice import Advice, draw_advice
from engine.drill.interruptions import LOST
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas

OWN_PORT = "Give the pedals a USB port of their own, without a hub."
"""Advice to a player whose pedals report too little."""
CABLE = "Check the {pedal}'s plug and cable, and clean its sensor."
"""Advice to a player whose pedal reads what no foot does."""
SET_UP = "Set up the pedals again: press as hard as you ever brake."
"""Advice to a player whose brake goes past what was called full."""


class Remedy(Enum):
    """What the player can choose when the pedals make repetitions void."""

    GO_ON = "go on"
    CHECK = "check"
    LEAVE = "leave"


TROUBLES: Mapping[Reason, Advice] = {
    Reason.SELDOM: Advice(
        "The pedals report too seldom",
        "A blip is over before they report enough of it.",
        (
            OWN_PORT,
            "Look in the maker's program for a higher report rate.",
            "Leave out a wireless receiver or adapter.",
        ),
    ),
    Reason.AT_END: Advice(
        "The brake is at its end",
        "However much harder you press, it reads the same.",
        (SET_UP, "Look in the maker's program for a brake limit, and raise it."),
    ),
    Reason.NOT_MOVED: Advice(
        "The brake does not move",
        "It stays on one value while you blip, stiller than any foot.",
        (
            CABLE,
            "Let the brake go once, and see whether it moves.",
            "Turn off a filter or a dead zone in the maker's program.",
        ),
    ),
    Reason.STALLED: Advice(
        "The {pedal} stops reporting",
        "It is silent for a moment, and then is somewhere else.",
        (OWN_PORT, "Turn off power saving of USB ports.", "Try another cable."),
    ),
    Reason.JUMPED: Advice(
        "The {pedal} jumps",
        "Again and again it reads what no foot can do.",
        (CABLE, OWN_PORT, "Keep its cable away from motors and power supplies."),
    ),
}
"""What pedals may do that makes repetitions void, by the outcome of those."""


class PedalTrouble(Menu[Remedy]):
    """Menu after the pedals have voided several repetitions in a row."""

    name = "pedal trouble"
    in_a_bar = True
    back_word = "leave for now"

    def __init__(self, reason: Reason, pedal: str, *, can_check: bool) -> None:
        """`reason` is the outcome of those repetitions, `pedal` the name of the pedal at fault.

        `can_check` offers a check of the pedals.
        """
        check = [Choice("Check the pedals", Remedy.CHECK)] if can_check else []
        super().__init__(
            [
                Choice("Go on", Remedy.GO_ON),
                *check,
                Choice("Leave for now", Remedy.LEAVE),
            ],
            back=Remedy.LEAVE,
        )
        self._reason = reason
        self._trouble = TROUBLES[reason]
        self._pedal = pedal

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: why the repetitions are void, and the choices."""
        return {**super().details(), "reason": self._reason.value}

    def picture(self, canvas: Canvas) -> None:
        """Draw what the pedals do, what it means, and what helps."""
        trouble = self._trouble
        remedies = [line.format(pedal=self._pedal) for line in trouble.remedies]
        heading = trouble.heading.format(pedal=self._pedal)
        draw_advice(canvas, heading, trouble.meaning, LOST, remedies)
