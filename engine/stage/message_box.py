"""Message box: a small window of the system's own, which works even where the game's does not."""

from __future__ import annotations

import textwrap

from engine.errors import DisplayError
from engine.stage.sdl_setup import give_hints, quiet_stderr

TITLE = "stillfoot"
"""Title of the box."""
BUTTONS = ("Close",)
"""Buttons of the box; Enter and Esc are the first."""
WIDTH = 50
"""Longest line in the box, in characters: Windows wraps longer ones, X11 makes the box as wide."""


def show_box(text: str) -> None:
    """Show an error in a box until a click, Enter or Esc closes it.

    Raises DisplayError where the system shows none, ImportError without pygame.
    """
    give_hints()
    import pygame

    wrapped = "\n".join(textwrap.wrap(text, WIDTH))
    try:
        with quiet_stderr():
            if hasattr(pygame.display, "message_box"):
                # pygame-ce has SDL's box here, pygame in the other place.
                vars(pygame.display)["message_box"](TITLE, wrapped, "error", None, BUTTONS, 0, 0)
            else:
                from pygame._sdl2 import video

                vars(video)["messagebox"](
                    TITLE, wrapped, error=True, buttons=BUTTONS, return_button=0, escape_button=0
                )
    except pygame.error as error:
        raise DisplayError(
            f"message box: expected a system that shows one, found: {error}"
        ) from error
