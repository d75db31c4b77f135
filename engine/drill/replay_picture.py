"""Picture of a replay: the curve with its playhead, and right of it the foot that moves."""

from __future__ import annotations

from collections.abc import Sequence

from drills.deviation import Deviation
from engine.drill.replay_course import PedalCourse
from engine.drill.replay_words import speed_words
from engine.kit import deviation_plot, theme
from engine.kit.canvas import Canvas, Point
from engine.kit.deviation_frame import Frame
from engine.kit.foot import draw_foot
from engine.kit.foot_pose import Way

CURVE = 900.0
"""Width of the curve with its labels, in canvas units."""
FOOT = (700.0, 520.0)
"""Width and greatest height of the foot on its pedals, in canvas units."""
MIDDLE = theme.WIDTH - theme.MARGIN - FOOT[0] / 2
"""Middle of the foot, in canvas units from the left."""
ABOVE_SPEED = 20.0
"""Gap between the foot and the words on the speed below it, in canvas units."""
GLOW = 20.0
"""How far the light of a pedal reaches over the right, upper and lower edge of the area of the foot
at most, in canvas units."""
HEAD = 16.0
"""Radius of the playhead, in canvas units."""
AROUND = HEAD + 4.0
"""How far the playhead reaches over the edge of the plot, in canvas units."""


class ReplayPicture:
    """Picture of one course while it plays; the parts that do not move are drawn once."""

    def __init__(self, course: PedalCourse, way: Way, behind: Deviation | None = None) -> None:
        """`behind` is the picture whose curve is drawn faintly behind that of the course."""
        self.course = course
        """What it is a picture of."""
        self._way = way
        seen = course.picture
        fits = behind is not None and (behind.zero, behind.throttle is None) == (
            seen.zero,
            seen.throttle is None,
        )
        self._behind = behind if fits else None
        self._frame: Frame | None = None
        self._foot_top = 0.0
        self._foot_size = FOOT

    @property
    def shows_behind(self) -> bool:
        """Whether a curve is drawn behind: only where both are measured from the same line."""
        return self._behind is not None

    def paint(self, canvas: Canvas, top: float, curve_top: float, bottom: float) -> None:
        """Draw all that does not move, from `top` to `bottom`, the curve from `curve_top`.

        All are in canvas units.
        """
        corner, size = (float(theme.MARGIN), curve_top), (CURVE, bottom - curve_top)
        now = self.course.picture
        if self._behind is None:
            self._frame = deviation_plot.decisive(canvas, corner, size, now)
        else:
            self._frame = deviation_plot.deviation(canvas, corner, size, now, [self._behind])
        words = speed_words(self.course.speed)
        speed_top = bottom - theme.SMALL
        canvas.text(words, (MIDDLE, speed_top), theme.SMALL, theme.QUIET, "centre")
        self._foot_top = max(speed_top - ABOVE_SPEED - FOOT[1], top)
        self._foot_size = (FOOT[0], speed_top - ABOVE_SPEED - self._foot_top)

    @property
    def moving_areas(self) -> Sequence[tuple[Point, Point]]:
        """Areas of the playhead and of the foot, in canvas units; none before the first `paint`."""
        if self._frame is None:
            return ()
        area = self._frame.axes.frame
        corner = (area.left - AROUND, area.top - AROUND)
        size = (area.width + 2 * AROUND, self._frame.floor - area.top + 2 * AROUND)
        (x, y), (wide, high) = self._foot_corner, self._foot_size
        return ((corner, size), ((x, y - GLOW), (wide + GLOW, high + 2 * GLOW)))

    def paint_moving(self, canvas: Canvas, at: float) -> None:
        """Draw playhead and foot at a time on the axis of the picture, in s."""
        if self._frame is None:
            return
        axes = self._frame.axes
        x, y = self._frame.place(self.course.picture, at, self.course.deviation(at))
        canvas.line((x, axes.frame.top), (x, self._frame.floor), theme.QUIET, 3)
        canvas.disc((x, y), HEAD, theme.TEXT)
        canvas.disc((x, y), HEAD - 6, theme.BRAKE)
        pressed = self.course.pressed(at)
        draw_foot(canvas, self._foot_corner, self._foot_size, pressed, self._way)

    @property
    def _foot_corner(self) -> Point:
        return MIDDLE - self._foot_size[0] / 2, self._foot_top
