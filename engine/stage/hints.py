"""What SDL must know before pygame is imported."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager

ACCELERATION = "SDL_FRAMEBUFFER_ACCELERATION"
"""With "0" a picture goes straight to the window.

Measured under Xvfb at 1920x1080 on both builds, bringing a picture to the screen, as the cue
does, takes 1 ms instead of 10, and at most 2 instead of 40. Only X11 is helped: Windows does it
anyway, and where SDL has no such way (macOS, Wayland; from memory) no window opens, so
`engine/stage/window.py` tries without.
"""

HINTS: Mapping[str, str] = {
    "PYGAME_HIDE_SUPPORT_PROMPT": "1",
    "SDL_JOYSTICK_ALLOW_BACKGROUND_EVENTS": "1",
    "SDL_ACCELEROMETER_AS_JOYSTICK": "1",
    "SDL_MOUSE_FOCUS_CLICKTHROUGH": "1",
}
"""Pedals are heard without focus, pedals that look like an accelerometer are seen, and the click
that brings the window to the front counts as a click."""


def give_hints() -> None:
    """Set the hints in the environment, except those the user has set."""
    for name, value in HINTS.items():
        os.environ.setdefault(name, value)
    if sys.platform.startswith("linux"):
        os.environ.setdefault(ACCELERATION, "0")


DRIVER = "SDL_VIDEODRIVER"
"""What SDL is to show windows with; it hears devices with one alone, be it one that shows none."""


@contextmanager
def windowless() -> Iterator[None]:
    """While SDL's video begins: with the driver that shows nothing."""
    before = os.environ.get(DRIVER)
    os.environ[DRIVER] = "dummy"
    try:
        yield
    finally:
        if before is None:
            del os.environ[DRIVER]
        else:
            os.environ[DRIVER] = before
