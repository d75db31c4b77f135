"""Attending to the pedals without a window, for as long as is wanted."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

import pygame

from drills.trace import Sample, nanoseconds
from engine.pedals.rig import Rig
from engine.stage.hints import windowless
from engine.stage.waiting import sdl_events, wait

PERIOD = nanoseconds(0.003)
"""ns from one look at the pedals to the next: all that a device of 250 reports a second tells, at
2 % of a core, and up to 3 % where others want it too. More often would cost more for nothing: over
an hour of made-up drives the dips are as true with 125 looks a second as with 1000."""
_PLUGS = (pygame.JOYDEVICEADDED, pygame.JOYDEVICEREMOVED)


@contextmanager
def no_window() -> Iterator[None]:
    """SDL with joysticks and nothing to be seen."""
    with windowless():
        pygame.display.init()
    try:
        pygame.joystick.init()
        pygame.event.set_blocked(None)
        pygame.event.set_allowed(_PLUGS)
        yield
    finally:
        pygame.joystick.quit()
        pygame.display.quit()


def attend_windowless(
    rig: Rig,
    look: Callable[[Sample | None, int], None],
    cut: Callable[[], None],
    over: Callable[[], bool],
) -> None:
    """Look at the pedals until it is over; `look` is told of them, `cut` when they are pulled."""
    deadline = rig.clock()
    while not over():
        deadline = wait(rig.clock, deadline + PERIOD)
        # To peek costs a third of reading what there is, and nearly always there is nothing.
        if pygame.event.peek(_PLUGS) and list(sdl_events()) and rig.rescan().cut:
            cut()
        sample = rig.sample()
        look(sample, rig.clock() if sample is None else sample.time)
