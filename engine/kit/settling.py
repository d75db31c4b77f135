"""`Settling`: the one movement of a picture as its screen opens, after which it is still."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from engine.kit.canvas import Canvas, Point
from engine.kit.motion import CALM, Movement


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
            self._movement = Movement(now, CALM)

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
