"""Repetition screen of the demo: lit all the time, with the foot on its pedals."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import astuple

from drills.trace import Pedal, Sample
from engine.drill.repetition_screen import RepetitionScreen
from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.kit.foot import draw_foot
from engine.kit.foot_pose import Pressed
from engine.stage.scene import Pace

STEP = 0.25
"""Smallest movement of a pedal after which the demo's foot is drawn again, in %."""
BESIDE: tuple[Point, Point] = ((1290.0, 170.0), (500.0, 430.0))
"""Corner and size of the foot beside the prompt, in canvas units."""
ALONE: tuple[Point, Point] = ((160.0, 250.0), (1600.0, 720.0))
"""Corner and size of the foot where a player sees nothing, in canvas units."""
DARK = "A player sees nothing now"
"""Text of the demo while the screen of a player would be dark."""
DARK_TOP = 150
"""Top of that text, in canvas units."""


class WatchedRepetition(RepetitionScreen):
    """Repetition screen of a demo: the pedals are shown even where a player's screen is dark."""

    _foot = Pressed(0.0)

    @property
    def pace(self) -> Pace:
        """Live all the time: unlike that of a player, this screen never goes dark."""
        return Pace.LIVE

    def on_closing(self) -> None:
        """Store nothing: the player who closes the window leaves no repetition of their own."""

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Move the drawn foot with the pedals, besides playing the repetition."""
        if sample is not None:
            has_clutch = Pedal.CLUTCH in self._level.pedals
            clutch = sample.clutch if has_clutch else None
            self._foot = Pressed(sample.brake, sample.throttle, clutch)
        super().on_sample(sample, now)

    def appearance(self) -> Hashable:
        """State that the picture depends on: that of the prompt, and whether it is shown."""
        return super().appearance() if self.is_lit else None

    @property
    def moving_areas(self) -> Sequence[tuple[Point, Point]]:
        """Area of the foot: beside the prompt or, where a player sees nothing, in the middle."""
        return (BESIDE,) if self.is_lit else (ALONE,)

    def movement(self) -> Hashable:
        """How far each pedal of the foot is pressed, in steps that can be seen."""
        return tuple(
            None if percent is None else round(percent / STEP) for percent in astuple(self._foot)
        )

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the prompt while the screen is lit, and else that a player sees nothing."""
        if self.is_lit:
            super().paint(canvas, press)
        else:
            at = theme.WIDTH / 2, DARK_TOP
            canvas.text(DARK, at, theme.BODY, theme.QUIET, "centre")

    def paint_moving(self, canvas: Canvas) -> None:
        """Draw the foot on the pedals that it presses."""
        draw_foot(canvas, *self.moving_areas[0], self._foot, self._way)
