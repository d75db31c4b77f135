"""`SettlingMenu`: menu whose picture moves once as it opens, and is still after that."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence

import pygame

from drills.trace import Sample
from engine.kit.base import Choice, Menu, T
from engine.kit.canvas import Canvas, Point
from engine.kit.motion import LONG, Movement


class Settling:
    """Movement of one picture from 0 to 1, once, from the first reading of the pedals on."""

    def __init__(self, *, is_wanted: bool = True) -> None:
        """`is_wanted` is whether anything moves at all."""
        self._is_wanted = is_wanted
        self._moves = False
        self._movement: Movement | None = None
        self._now = 0
        self._drawn = 0.0 if is_wanted else 1.0

    def follow(self, now: int, *, moves: bool) -> None:
        """Note the time in ns, and whether parts of the screen may move."""
        self._now, self._moves = now, moves
        if self._movement is None and moves and self._is_wanted:
            self._movement = Movement(now, LONG)

    @property
    def is_moving(self) -> bool:
        """Whether the picture is on its way."""
        return self._movement is not None and not self._movement.is_over(self._now)

    def share(self, *, moves: bool) -> float:
        """Share of the way of the picture; where nothing `moves`, all of it at once."""
        if not self._is_wanted or not moves:
            return 1.0
        return 0.0 if self._movement is None else self._movement.share(self._now)

    def redraw(
        self, canvas: Canvas, area: tuple[Point, Point], picture: Callable[[Canvas], None]
    ) -> list[pygame.Rect]:
        """Draw the picture anew within its area, corner and size in canvas units, while it moves.

        `picture` draws the whole screen, buttons and hint apart. Returns the pixels that may
        differ: none once the end was drawn.
        """
        now = self.share(moves=self._moves)
        before, self._drawn = self._drawn, now
        if before == now == 1.0:
            return []
        changed = canvas.pixels(*area)
        with canvas.clipped(changed):
            canvas.clear()
            picture(canvas)
        return [changed]


class SettlingMenu(Menu[T]):
    """Menu with a picture that moves once, as the menu opens, within one area."""

    moving_area: tuple[Point, Point]
    """Corner and size of the area in which the picture moves, in canvas units."""

    def __init__(
        self, choices: Sequence[Choice[T]], back: T | None = None, *, has_motion: bool
    ) -> None:
        """`back` is as in `Menu`; `has_motion` is whether anything in the picture moves at all."""
        super().__init__(choices, back)
        self._settling = Settling(is_wanted=has_motion)

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Move the highlight and the picture on with the clock."""
        super().on_sample(sample, now)
        self._settling.follow(now, moves=self.moves)

    @property
    def share(self) -> float:
        """Share of the way of what moves in the picture, 0 to 1."""
        return self._settling.share(moves=self.moves)

    @property
    def is_moving(self) -> bool:
        """Whether the highlight or the picture moves."""
        return super().is_moving or self._settling.is_moving

    def movement(self) -> Hashable:
        """Where the highlight is, and how far the picture has come."""
        return super().movement(), self.share

    def draw_moving(self, surface: pygame.Surface) -> Sequence[pygame.Rect]:
        """Redraw the highlight and the picture; returns the pixels that may differ."""
        others, canvas = super().draw_moving(surface), Canvas(surface, self._fonts)
        return [*others, *self._settling.redraw(canvas, self.moving_area, self.picture)]
