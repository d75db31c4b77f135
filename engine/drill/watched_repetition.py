"""Repetition screen of the demo: lit all the time, with a small foot on its pedals."""

from __future__ import annotations

from collections.abc import Hashable

from drills.trace import Sample
from engine.drill.repetition_screen import RepetitionScreen
from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.stage.scene import Pace

STEP = 2.0
"""Smallest movement of a pedal after which the demo's foot is drawn again, in %."""
PLACE: Point = (1650.0, 470.0)
"""Middle of the demo's drawn foot, in canvas units."""
DARK = "A player sees nothing now"
"""Text of the demo while the screen of a player would be dark."""
REACH = 46.0
"""Distance that a drawn pedal sinks when fully pressed, in canvas units."""


class WatchedRepetition(RepetitionScreen):
    """Repetition screen of a demo: the pedals are shown even where a player's screen is dark."""

    _foot = (0.0, 0.0)

    @property
    def pace(self) -> Pace:
        """Live all the time: unlike that of a player, this screen never goes dark."""
        return Pace.LIVE

    def on_closing(self) -> None:
        """Store nothing: the player who closes the window leaves no repetition of their own."""

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Move the drawn foot with the pedals, besides playing the repetition."""
        if sample is not None:
            self._foot = (sample.brake, sample.throttle)
        super().on_sample(sample, now)

    def appearance(self) -> Hashable:
        """State that the picture depends on: that of the prompt, and where the foot is."""
        return super().appearance(), *(round(percent / STEP) for percent in self._foot)

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the foot always, and the prompt while the screen is lit."""
        if self.is_lit:
            super().paint(canvas, press)
        else:
            canvas.text(DARK, (theme.WIDTH / 2, 500), theme.BODY, theme.QUIET, "centre")
        _foot(canvas, PLACE, *self._foot)


def _foot(canvas: Canvas, middle: Point, brake: float, throttle: float) -> None:
    """Draw a sole on two pedals from behind; it sinks and tips as `brake` and `throttle` (%) do."""
    x, y = middle
    sunk, rolled = REACH * brake / 100, REACH * throttle / 100
    for side, depth, colour, name in (
        (-1, sunk, theme.BRAKE, "brake"),
        (1, rolled, theme.THROTTLE, "throttle"),
    ):
        at = x + side * 110
        canvas.box((at - 70, y + depth), (140, 18), colour, 8)
        canvas.line((at, y + depth + 18), (at, y + REACH + 70), theme.FAINT, 6)
        canvas.text(name, (at, y + REACH + 82), theme.SMALL, theme.QUIET, "centre")
    tip = rolled - sunk * 0.25
    sole = [(x - 170, y - 14 + sunk), (x + 70, y - 30 + sunk + tip * 0.8)]
    canvas.shape(
        [sole[0], sole[1], (sole[1][0] + 16, sole[1][1] - 26), (sole[0][0] - 4, sole[0][1] - 34)],
        theme.TEXT,
    )
