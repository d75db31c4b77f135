"""The window: its picture, the dark, the cue, its size and full screen."""

from __future__ import annotations

import os
import warnings

import pygame

from engine.errors import DisplayError
from engine.stage.hints import ACCELERATION
from engine.stage.hush import hushed
from engine.stage.shape import Shape, Size, at_least

DIM = 3
"""1, how many times darker than the cue a beat before it is."""
CUE_LASTS = 120_000_000
"""ns, how long the cue lights the screen: long enough not to be missed in a blink, and gone
before the quickest answer (0.15 s) has begun to move a pedal."""

Colour = tuple[int, int, int]

NO_DISPLAY = "no display to open a window on; `stillfoot demo --headless` plays without one"


class Window:
    """The one window of the game."""

    def __init__(
        self,
        shape: Shape,
        dark: Colour,
        light: Colour,
        icon: pygame.Surface,
        *,
        fit: bool = False,
    ) -> None:
        """Open a window, with the colours of the dark and of the cue.

        `fit`: no larger than the screen, which may be another than the shape was kept on.
        Raises DisplayError.
        """
        try:
            self._surface = _open(shape, icon, fit)
        except pygame.error as error:
            raise DisplayError(f"{NO_DISPLAY} ({error})") from error
        pygame.font.init()
        self._dark = dark
        self._light = light
        self._flash = True
        self._shape = Shape(self.size)
        self._plain: Colour | None = None
        self._lit = False
        self._lit_until: int | None = None
        self._refused: Size | None = None
        if shape.full:
            self.toggle_full()

    @property
    def size(self) -> Size:
        """pixels, what the window really has."""
        return self._surface.get_size()

    @property
    def shape(self) -> Shape:
        """Its size when it does not fill the screen, and whether it does."""
        return self._shape if self.full else Shape(at_least(self.size))

    @property
    def full(self) -> bool:
        """Whether the window fills the screen."""
        return self._shape.full

    @property
    def lit(self) -> bool:
        """Whether the cue is on the screen."""
        return self._lit

    @property
    def surface(self) -> pygame.Surface:
        """What the next picture is drawn on."""
        return self._surface

    def show(self) -> None:
        """Bring the picture to the screen, and the pointer with it."""
        self._lit = False
        self._plain = None
        pygame.display.flip()
        pygame.mouse.set_visible(True)

    def tune(self, *, flash: bool) -> None:
        """Whether the cue lights the screen from now on."""
        self._flash = flash

    def darken(self) -> None:
        """Nothing at all on the screen, not even the pointer: it would tell of a mouse as brake."""
        self._lit = False
        pygame.mouse.set_visible(False)
        self._fill(self._dark)

    def flash(self, *, needed: bool, dim: bool = False) -> None:
        """The cue: the whole screen, where it is to be seen or is `needed`.

        `dim`: a beat before it, plainly darker.
        """
        if self._flash or needed:
            self._lit, self._lit_until = True, None
            red, green, blue = self._light
            self._fill((red // DIM, green // DIM, blue // DIM) if dim else self._light)

    def flash_over(self, now: int) -> bool:
        """Whether at `now` (ns) the cue has been on the screen for long enough; told once."""
        if not self._lit:
            return False
        if self._lit_until is None:
            self._lit_until = now + CUE_LASTS
        self._lit = now < self._lit_until
        return not self._lit

    def toggle_full(self) -> None:
        """To full screen, or back to a window."""
        with warnings.catch_warnings():
            # A window system may give another size than asked for; `size` tells what it gave.
            warnings.simplefilter("ignore", RuntimeWarning)
            if self.full:
                self._shape = Shape(self._shape.size)
                self._surface = _resizable(self._shape.size)
            else:
                self._shape = Shape(at_least(self.size), full=True)
                self._surface = pygame.display.set_mode((0, 0), pygame.FULLSCREEN)
        self.resized()

    def resized(self) -> None:
        """The window has another size than before, or was uncovered."""
        self._surface = pygame.display.get_surface()
        enough = at_least(self.size)
        if not self.full and enough != self.size and self._refused != self.size:
            # A window system that insists is asked once for each size it insists on.
            self._refused = self.size
            self._surface = _resizable(enough)
        if self._plain is not None:
            self._fill(self._plain)

    def pointer(self) -> tuple[float, bool]:
        """Height of the mouse in the window, 0 bottom to 1 top, and its main button."""
        height = max(self.size[1] - 1, 1)
        return 1 - pygame.mouse.get_pos()[1] / height, bool(pygame.mouse.get_pressed()[0])

    def _fill(self, colour: Colour) -> None:
        """Fill and flip: 2 ms together at 1920x1080, measured under Xvfb on both builds."""
        self._plain = colour
        self._surface.fill(colour)
        pygame.display.flip()


def _resizable(size: Size) -> pygame.Surface:
    """A window of a size: coming from full screen both builds have to be asked twice."""
    surface = pygame.display.set_mode(size, pygame.RESIZABLE)
    if surface.get_size() != size:
        surface = pygame.display.set_mode(size, pygame.RESIZABLE)
    return surface


def _open(shape: Shape, icon: pygame.Surface, fit: bool) -> pygame.Surface:
    """A window of a shape; where none opens without acceleration, one with it."""
    try:
        return _open_once(shape, icon, fit)
    except pygame.error:
        if os.environ.pop(ACCELERATION, None) is None:
            raise
        pygame.display.quit()
        return _open_once(shape, icon, fit)


def _open_once(shape: Shape, icon: pygame.Surface, fit: bool) -> pygame.Surface:
    with hushed():
        pygame.display.init()
    _refuse_unseen(pygame.display.get_driver())
    pygame.display.set_caption("stillfoot")
    pygame.display.set_icon(icon)
    fitting = shape.within(pygame.display.get_desktop_sizes()) if fit else shape
    return pygame.display.set_mode(fitting.size, pygame.RESIZABLE)


def _refuse_unseen(driver: str) -> None:
    """Without a display SDL quietly draws where nobody can see it, unless it was told to."""
    if driver == "offscreen" and os.environ.get("SDL_VIDEODRIVER") != driver:
        raise DisplayError(NO_DISPLAY)
