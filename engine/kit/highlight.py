"""`Highlight`: the selected choice of a menu, which moves from one button to the next."""

from __future__ import annotations

from collections.abc import Hashable, Sequence

import pygame

from engine.kit.area import Area
from engine.kit.buttons import Button, draw_between, draw_buttons
from engine.kit.canvas import Canvas
from engine.kit.motion import SHORT, Movement

EDGE = 1
"""Pixels beyond the highlight that its smooth edge may touch."""


class Highlight:
    """Place of the highlight of a menu, and its way to another choice."""

    def __init__(self) -> None:
        self._at: int | None = None
        self._from: Area | None = None
        self._way: Movement | None = None
        self._now = 0
        self._moves = False
        self._buttons: dict[int, Button] = {}
        self._drawn = pygame.Rect(0, 0, 0, 0)

    @property
    def is_moving(self) -> bool:
        """Whether the highlight is on its way to another choice."""
        return self._way is not None

    def follow(self, selected: int, now: int, *, moves: bool) -> None:
        """Head for the selected choice at `now` (ns); jump there unless the screen `moves`."""
        self._now, self._moves = now, moves
        if self._way is not None and self._way.is_over(now):
            self._way = None
        if selected == self._at:
            return
        if moves and self._at in self._buttons and selected in self._buttons:
            self._from, self._way = self._box(self._at), Movement(now, SHORT)
        else:
            self._way = None
        self._at = selected

    def state(self, selected: int) -> Hashable:
        """State that the drawn highlight depends on, while this choice is selected."""
        return self._shown(selected), None if self._way is None else self._way.share(self._now)

    def draw(
        self,
        canvas: Canvas,
        buttons: Sequence[Button],
        first: int,
        selected: int,
        press: float,
    ) -> list[pygame.Rect]:
        """Draw all buttons, of which the first is choice number `first`; returns their pixels."""
        self._buttons = dict(enumerate(buttons, start=first))
        shown = self._shown(selected)
        box = self._box(shown)
        self._drawn = canvas.pixels((box.left, box.top), (box.width, box.height))
        if self._way is not None:
            return draw_between(canvas, buttons, box)
        return draw_buttons(canvas, buttons, shown - first, press)

    def redraw(self, canvas: Canvas, selected: int, press: float) -> pygame.Rect:
        """Draw the buttons anew where the highlight was or is; returns the pixels that differ."""
        if not self._buttons:
            return pygame.Rect(0, 0, 0, 0)
        before, box = self._drawn, self._box(self._shown(selected))
        now = canvas.pixels((box.left, box.top), (box.width, box.height))
        changed = before.union(now).inflate(2 * EDGE, 2 * EDGE)
        buttons, first = list(self._buttons.values()), min(self._buttons)
        with canvas.clipped(changed):
            canvas.clear()
            self.draw(canvas, buttons, first, selected, press)
        return changed

    def _shown(self, selected: int) -> int:
        """Number of the choice that the highlight is at, or is on its way to."""
        waits = self._moves and self._at in self._buttons and selected in self._buttons
        return self._at if waits and self._at is not None else selected

    def _box(self, number: int) -> Area:
        """Place of the highlight on its way to a choice, or at it."""
        box = self._buttons[number].box
        if self._way is None or self._from is None:
            return box
        return self._from.towards(box, self._way.share(self._now))
