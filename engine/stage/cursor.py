"""`Cursor`: hides the mouse pointer until the mouse moves, and again once it rests."""

from __future__ import annotations

from collections.abc import Callable

import pygame

from drills.trace import nanoseconds

RESTS_AFTER = nanoseconds(2.0)
"""Time without a move of the mouse after which its pointer hides, in ns."""


class Cursor:
    """The mouse pointer: in view while the mouse moves, hidden once it rests or keys or feet act.

    It is hidden at first. In the dark it stays hidden, as its height shows a mouse as brake.
    """

    def __init__(self, show: Callable[[bool], object] = pygame.mouse.set_visible) -> None:
        """`show` makes the pointer visible or not."""
        self._show = show
        self._at: tuple[int, int] | None = None
        self._rests_at: int | None = None
        show(False)

    @property
    def is_visible(self) -> bool:
        """Whether the pointer is in view."""
        return self._rests_at is not None

    def move(self, at: tuple[int, int], now: int) -> None:
        """Note at `now` (ns) that the mouse is at a pixel; show the pointer if it moved there.

        The first place is where the mouse lay when the window opened: it shows nothing.
        """
        moved = self._at is not None and at != self._at
        self._at = at
        if moved:
            self.click(now)

    def click(self, now: int) -> None:
        """Show the pointer, as a button of the mouse was pressed at `now` (ns)."""
        if not self.is_visible:
            self._show(True)
        self._rests_at = now + RESTS_AFTER

    def look(self, now: int) -> None:
        """Hide the pointer if the mouse rests at `now` (ns)."""
        if self._rests_at is not None and now >= self._rests_at:
            self.hide()

    def hide(self) -> None:
        """Hide the pointer, as keys or feet act or the screen goes dark."""
        if self.is_visible:
            self._show(False)
        self._rests_at = None
