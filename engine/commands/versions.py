"""Versions of stillfoot and of what it runs on, for `stillfoot --version` and bug reports."""

from __future__ import annotations

import platform
from typing import Any

from engine import __version__


def versions() -> str:
    """Versions of stillfoot, Python, numpy, pygame and SDL, a line each; opens no window."""
    import numpy as np
    import pygame

    return versions_text(np, pygame)


def versions_text(numpy: Any, pygame: Any) -> str:
    """Lines for the modules numpy and pygame; the two builds of pygame are told apart."""
    build = "pygame-ce" if getattr(pygame, "IS_CE", False) else "pygame"
    sdl = ".".join(map(str, pygame.get_sdl_version()))
    return (
        f"stillfoot {__version__}\n"
        f"Python {platform.python_version()}, {platform.system()} {platform.machine()}\n"
        f"numpy {numpy.__version__}\n"
        f"{build} {pygame.version.ver}\n"
        f"SDL {sdl}\n"
    )
