"""Window of the game: shows frames, the dark and the cue, and follows its size and full screen."""

from __future__ import annotations

import os
import warnings
from collections.abc import Sequence

import pygame

from engine.errors import DisplayError
from engine.stage.cursor import Cursor
from engine.stage.less_motion import LessMotion
from engine.stage.sdl_setup import ACCELERATION, quiet_stderr
from engine.stage.window_shape import Shape, Size, at_least

DIM = 3
"""Factor by which the flash of a count-in beat is darker than the flash of the cue."""
CUE_LASTS = 120_000_000
"""Time that the flash of the cue lights the screen, in ns: longer than a blink hides, and over
before the quickest response (0.15 s) has begun to move a pedal."""

Colour = tuple[int, int, int]

NO_DISPLAY = "no display to open a window on; `stillfoot demo --headless` plays without one"


class Window:
    """Window that the game draws in, darkens before a cue and lights up as the cue."""

    def __init__(
        self,
        shape: Shape | None,
        dark: Colour,
        light: Colour,
        icon: pygame.Surface,
        *,
        fit: bool = False,
        less_motion: LessMotion | None = None,
    ) -> None:
        """Open the window; `dark` and `light` are the colours before and at the cue.

        Without a `shape` it takes about two thirds of the screen. `fit` shrinks it to the screen,
        which may be another than the one its shape was saved on. `less_motion` is what the system
        asks for; None: nothing. Raises DisplayError.
        """
        try:
            self._surface = _open(shape, icon, fit)
        except pygame.error as error:
            raise DisplayError(f"{NO_DISPLAY} ({error})") from error
        pygame.font.init()
        self.cursor = Cursor()
        """Mouse pointer over the window."""
        self._dark = dark
        self._light = light
        self._flash = True
        self._motion = True
        self._less_motion = less_motion
        self._shape = Shape(self.size)
        self._fill_colour: Colour | None = None
        self._lit = False
        self._lit_until: int | None = None
        self._refused: Size | None = None
        if shape is not None and shape.full:
            self.toggle_full()

    @property
    def size(self) -> Size:
        """Actual size of the window in pixels."""
        return self._surface.get_size()

    @property
    def shape(self) -> Shape:
        """Shape to save for the next start: size outside full screen, and whether it is full."""
        return self._shape if self.full else Shape(at_least(self.size))

    @property
    def full(self) -> bool:
        """Whether the window fills the screen."""
        return self._shape.full

    @property
    def lit(self) -> bool:
        """Whether the flash of the cue lights the screen now."""
        return self._lit

    @property
    def surface(self) -> pygame.Surface:
        """Surface of the window that the next frame is drawn on."""
        return self._surface

    @property
    def moves(self) -> bool:
        """Whether parts of a screen may move: by the setting, and by what the system asks for.

        They may not until the system has answered.
        """
        return self._motion and (self._less_motion is None or self._less_motion.allows_motion)

    @property
    def wants_less_motion(self) -> bool:
        """Whether the system asks for less motion, as far as it has answered."""
        return self._less_motion is not None and self._less_motion.is_asked_for

    def show(self, areas: Sequence[pygame.Rect] = ()) -> None:
        """Show the frame that was drawn; where only some `areas` of it differ, those alone."""
        self._lit = False
        self._fill_colour = None
        if areas:
            pygame.display.update(areas)
        else:
            pygame.display.flip()
        if self._less_motion is not None:
            self._less_motion.begin()

    def tune(self, *, flash: bool, motion: bool = True) -> None:
        """Set whether the cue to act flashes over the screen, and whether parts of it may move."""
        self._flash, self._motion = flash, motion

    def darken(self) -> None:
        """Make the whole screen dark and hide the pointer, whose height shows a mouse as brake."""
        self._lit = False
        self.cursor.hide()
        self._fill(self._dark)

    def flash(self, *, needed: bool, dim: bool = False) -> None:
        """Light the whole screen as the cue, if the flash is on or `needed`.

        `dim` makes it plainly darker, as a beat of the count-in.
        """
        if self._flash or needed:
            self._lit, self._lit_until = True, None
            red, green, blue = self._light
            self._fill((red // DIM, green // DIM, blue // DIM) if dim else self._light)

    def flash_over(self, now: int) -> bool:
        """Whether the cue's flash ends at `now` (ns); true once for each flash."""
        if not self._lit:
            return False
        if self._lit_until is None:
            self._lit_until = now + CUE_LASTS
        self._lit = now < self._lit_until
        return not self._lit

    def toggle_full(self) -> None:
        """Switch the window between full screen and its normal size."""
        with warnings.catch_warnings():
            # The window system may choose another size than asked for; `size` has the actual one.
            warnings.simplefilter("ignore", RuntimeWarning)
            if self.full:
                self._shape = Shape(self._shape.size)
                self._surface = _resizable(self._shape.size)
            else:
                self._shape = Shape(at_least(self.size), full=True)
                self._surface = pygame.display.set_mode((0, 0), pygame.FULLSCREEN)
        self.resized()

    def resized(self) -> None:
        """Follow a change of the window's size, or repaint it after it was covered."""
        self._surface = pygame.display.get_surface() or self._surface
        enough = at_least(self.size)
        if not self.full and enough != self.size and self._refused != self.size:
            # A window system that insists on a smaller size is asked only once about each size.
            self._refused = self.size
            self._surface = _resizable(enough)
        if self._fill_colour is not None:
            self._fill(self._fill_colour)

    def pointer(self) -> tuple[float, bool]:
        """Height of the mouse in the window, from 0 (bottom) to 1, and whether it is pressed."""
        height = max(self.size[1] - 1, 1)
        return 1 - pygame.mouse.get_pos()[1] / height, bool(pygame.mouse.get_pressed()[0])

    def _fill(self, colour: Colour) -> None:
        """Fill the whole window with a colour and show it.

        Both take 2 ms together at 1920x1080, measured under Xvfb on both builds of pygame.
        """
        self._fill_colour = colour
        self._surface.fill(colour)
        pygame.display.flip()


def _resizable(size: Size) -> pygame.Surface:
    """Resizable window of a size in pixels; both pygame builds need two calls after full screen."""
    surface = pygame.display.set_mode(size, pygame.RESIZABLE)
    if surface.get_size() != size:
        surface = pygame.display.set_mode(size, pygame.RESIZABLE)
    return surface


def _open(shape: Shape | None, icon: pygame.Surface, fit: bool) -> pygame.Surface:
    """Window of a shape, opened with SDL's acceleration if it does not open without it."""
    try:
        return _open_once(shape, icon, fit)
    except pygame.error:
        if os.environ.pop(ACCELERATION, None) is None:
            raise
        pygame.display.quit()
        return _open_once(shape, icon, fit)


def _open_once(shape: Shape | None, icon: pygame.Surface, fit: bool) -> pygame.Surface:
    with quiet_stderr():
        pygame.display.init()
    _refuse_offscreen(pygame.display.get_driver())
    pygame.display.set_caption("stillfoot")
    pygame.display.set_icon(icon)
    screens = pygame.display.get_desktop_sizes()
    opened = Shape.on(screens) if shape is None else shape
    if fit:
        opened = opened.within(screens)
    return pygame.display.set_mode(opened.size, pygame.RESIZABLE)


def _refuse_offscreen(driver: str) -> None:
    """Raise DisplayError if SDL found no display and fell back to drawing offscreen unasked."""
    if driver == "offscreen" and os.environ.get("SDL_VIDEODRIVER") != driver:
        raise DisplayError(NO_DISPLAY)
