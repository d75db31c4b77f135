"""Screen after several blips in a row were off the size asked: what they reached, what helps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drills.digits import outside
from drills.kinds.asked_size import AROUND, SIZE, peaks_asked
from drills.level import Level
from engine.drill.advice import draw_advice
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas

TOO_BIG = (
    "Less throttle, and just as short.",
    "Roll only the edge of the foot, not the whole foot.",
)
"""Advice to a player whose blips are all too big."""
TOO_LIGHT = (
    "More throttle, and just as short.",
    "Set up the pedals again if full is not 100 %.",
)
"""Advice to a player whose blips are all too light."""
UNEVEN = ("Go to the same depth each time.",)
"""Advice to a player some of whose blips are too light and some too big."""
AIM = "After each blip it says what it reached: aim from there."
"""Advice to a player whose blips are off their size, whichever way."""


class OffSize(Menu[bool]):
    """Menu after several blips in a row were off the size asked; its outcome is going on."""

    name = "off size"
    in_a_bar = True
    back_word = "leave for now"

    def __init__(self, level: Level, peaks: Sequence[float]) -> None:
        """`level` asks for the size, `peaks` is what its newest blips reached, in %."""
        choices = [Choice("Go on", True), Choice("Leave for now", False)]
        super().__init__(choices, back=False)
        self._size = level.own[SIZE]
        self._asked = peaks_asked(level)
        self._peaks = tuple(peaks)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the size asked, what was reached, and the choices."""
        return {**super().details(), "size": self._size, "peaks": list(self._peaks)}

    def picture(self, canvas: Canvas) -> None:
        """Draw the size asked, what the blips reached, and what helps."""
        *others, last = [outside(peak, self._size, AROUND) for peak in self._peaks]
        least, most = self._asked
        lead = f"The last blips reached {', '.join(others)} and {last} %."
        more = f"{least:g} to {most:g} % counts, any other is repeated."
        draw_advice(canvas, f"Blip to {self._size:g} %", lead, more, self._advice)

    @property
    def _advice(self) -> tuple[str, ...]:
        """What helps, the most likely first."""
        if min(self._peaks) > self._size:
            return (*TOO_BIG, AIM)
        return (*(TOO_LIGHT if max(self._peaks) < self._size else UNEVEN), AIM)
