"""The window: its picture, the dark, the cue, and full screen."""

from __future__ import annotations

import os
import warnings

import pygame

from engine.errors import DisplayError
from engine.stage.hints import ACCELERATION
from engine.stage.hush import hushed

CUE = 0.16
"""1, side of the cue as a share of the window's height: seen without looking, quick to draw."""

Colour = tuple[int, int, int]

NO_DISPLAY = "no display to open a window on; `stillfoot demo --headless` plays without one"


class Window:
    """The one window of the game."""

    def __init__(
        self, size: tuple[int, int], dark: Colour, light: Colour, icon: pygame.Surface
    ) -> None:
        """Open a window of `size` pixels, with the colours of the dark and of the cue.

        Raises DisplayError.
        """
        try:
            self._surface = _open(size, icon)
        except pygame.error as error:
            raise DisplayError(f"{NO_DISPLAY} ({error})") from error
        pygame.font.init()
        self._dark = dark
        self._light = light
        self._windowed = size
        self._full = False
        self._cue = self._make_cue()

    @property
    def size(self) -> tuple[int, int]:
        """pixels, what the window really has."""
        return self._surface.get_size()

    @property
    def surface(self) -> pygame.Surface:
        """What the next picture is drawn on."""
        return self._surface

    def show(self) -> None:
        """Bring the picture to the screen."""
        pygame.display.flip()

    def darken(self) -> None:
        """Nothing at all on the screen."""
        self._surface.fill(self._dark)
        pygame.display.flip()

    def flash(self) -> None:
        """The cue: one small rectangle, made before, in the middle."""
        place = self._cue.get_rect(center=self._surface.get_rect().center)
        self._surface.blit(self._cue, place)
        pygame.display.update(place)

    def toggle_full(self) -> None:
        """To full screen, or back to a window."""
        with warnings.catch_warnings():
            # A window system may give another size than asked for; `size` tells what it gave.
            warnings.simplefilter("ignore", RuntimeWarning)
            if self._full:
                self._leave_full()
            else:
                self._windowed = self.size
                self._surface = pygame.display.set_mode((0, 0), pygame.FULLSCREEN)
        self._full = not self._full
        self.resized()

    def _leave_full(self) -> None:
        """Back to a window: both builds keep the size of the screen until they are asked again."""
        for _ in range(2):
            self._surface = pygame.display.set_mode(self._windowed, pygame.RESIZABLE)
            if self._surface.get_size() == self._windowed:
                return

    def resized(self) -> None:
        """The window has another size than before."""
        self._surface = pygame.display.get_surface()
        self._cue = self._make_cue()

    def pointer(self) -> tuple[float, bool]:
        """Height of the mouse in the window, 0 bottom to 1 top, and its main button."""
        height = max(self.size[1] - 1, 1)
        return 1 - pygame.mouse.get_pos()[1] / height, bool(pygame.mouse.get_pressed()[0])

    def _make_cue(self) -> pygame.Surface:
        side = round(self.size[1] * CUE)
        cue = pygame.Surface((side, side)).convert()
        cue.fill(self._light)
        return cue


def _open(size: tuple[int, int], icon: pygame.Surface) -> pygame.Surface:
    """A window of `size` pixels; where none opens without acceleration, one with it."""
    try:
        return _open_once(size, icon)
    except pygame.error:
        if os.environ.pop(ACCELERATION, None) is None:
            raise
        pygame.display.quit()
        return _open_once(size, icon)


def _open_once(size: tuple[int, int], icon: pygame.Surface) -> pygame.Surface:
    with hushed():
        pygame.display.init()
    _refuse_unseen(pygame.display.get_driver())
    pygame.display.set_caption("stillfoot")
    pygame.display.set_icon(icon)
    return pygame.display.set_mode(size, pygame.RESIZABLE)


def _refuse_unseen(driver: str) -> None:
    """Without a display SDL quietly draws where nobody can see it, unless it was told to."""
    if driver == "offscreen" and os.environ.get("SDL_VIDEODRIVER") != driver:
        raise DisplayError(NO_DISPLAY)
