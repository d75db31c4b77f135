"""Waiting for the next look at the pedals, and what SDL has told since the last one."""

from __future__ import annotations

import time
from collections.abc import Iterator

import pygame

from drills.trace import SECOND, nanoseconds
from engine.pedals.port import Clock

LATE = nanoseconds(1 / 60)
"""ns behind its deadline, from which on a look counts its time anew instead of catching up."""


def wait(clock: Clock, deadline: int) -> int:
    """Sleep until a deadline; one that is long past is given up and counted from now."""
    now = clock()
    if deadline > now:
        time.sleep((deadline - now) / SECOND)
        return deadline
    return deadline if now - deadline < LATE else now


def sdl_events() -> Iterator[pygame.event.Event]:
    """What SDL tells since the last time.

    Removals are read after everything else and on their own: pygame 2.6.1 raises SystemError for
    one whose device it never opened, and the rest of the batch would be lost with it.
    """
    pygame.event.pump()
    yield from pygame.event.get(exclude=pygame.JOYDEVICEREMOVED, pump=False)
    try:
        yield from pygame.event.get(pygame.JOYDEVICEREMOVED, pump=False)
    except SystemError:
        yield pygame.event.Event(pygame.JOYDEVICEREMOVED)
