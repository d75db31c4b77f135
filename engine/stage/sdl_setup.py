"""Setup of SDL before it starts: its hints, its video driver, and its complaints on stderr."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager

ACCELERATION = "SDL_FRAMEBUFFER_ACCELERATION"
"""Environment variable that decides how SDL sends a frame to the window; "0": directly.

Measured under Xvfb at 1920x1080 on both builds of pygame, showing a frame, as the cue does, takes
1 ms instead of 10, and at most 2 instead of 40. It helps only X11: Windows does so anyway, and
where SDL has no such way (macOS, Wayland; from memory) no window opens with it, so
`engine/stage/window.py` tries again without.
"""
VIDEO_DRIVER = "SDL_VIDEODRIVER"
"""Environment variable that names SDL's video driver. SDL reports joysticks only while a video
driver runs, be it one that shows no window."""

HINTS: Mapping[str, str] = {
    "PYGAME_HIDE_SUPPORT_PROMPT": "1",
    "SDL_JOYSTICK_ALLOW_BACKGROUND_EVENTS": "1",
    "SDL_ACCELEROMETER_AS_JOYSTICK": "1",
    "SDL_MOUSE_FOCUS_CLICKTHROUGH": "1",
    "SDL_NO_SIGNAL_HANDLERS": "1",
    "SDL_WINDOWS_DPI_AWARENESS": "permonitorv2",
}
"""Environment variables for SDL on every system: pedals are read while another window has the
focus, pedals that look like an accelerometer are listed, the click that brings the window to the
front also counts as a click in the game, and signals to end are left to the program. Windows is
told that the game draws every pixel of a scaled display itself, so that it does not stretch it
(SDL 2.24 on). pygame's window cannot ask the same of macOS or Wayland, which stretch it (from
memory); windows of X11 are always in pixels."""


def give_hints() -> None:
    """Set SDL's hints as environment variables, before pygame is imported.

    Hints that the user has set stay as they are.
    """
    for name, value in HINTS.items():
        os.environ.setdefault(name, value)
    if sys.platform.startswith("linux"):
        os.environ.setdefault(ACCELERATION, "0")


@contextmanager
def dummy_video_driver() -> Iterator[None]:
    """Context in which SDL's video starts with the driver that shows no window."""
    before = os.environ.get(VIDEO_DRIVER)
    os.environ[VIDEO_DRIVER] = "dummy"
    try:
        yield
    finally:
        if before is None:
            del os.environ[VIDEO_DRIVER]
        else:
            os.environ[VIDEO_DRIVER] = before


@contextmanager
def quiet_stderr() -> Iterator[None]:
    """Context that discards what system libraries write to stderr; the program reports it."""
    if sys.stderr is None:
        # It was closed from the start: its number may be that of another file by now.
        yield
        return
    sys.stderr.flush()
    try:
        original = os.dup(2)
    except OSError:
        # Standard error is closed already: nothing can be written to it.
        yield
        return
    null = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(null, 2)
        yield
    finally:
        os.dup2(original, 2)
        os.close(original)
        os.close(null)
