"""Polling of pedals and SDL events: the wait between two readings, and a loop without a window."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import pygame

from drills.trace import SECOND, Sample, nanoseconds
from engine.pedals.port import Clock
from engine.pedals.rig import Rig
from engine.stage.sdl_setup import dummy_video_driver

LATE = nanoseconds(1 / 60)
"""Delay after which a missed deadline of the polling is skipped, not caught up with, in ns."""
PERIOD = nanoseconds(0.003)
"""Time between two readings of the pedals while someone drives, in ns.

It catches every report of a device that sends 250 a second, at 2 % of a core, or 3 % where other
programs want that core. Polling more often gains nothing: over an hour of simulated drives the
dips are measured as well with 125 readings a second as with 1000.
"""
_PLUG_EVENTS = (pygame.JOYDEVICEADDED, pygame.JOYDEVICEREMOVED)


def wait(clock: Clock, deadline: int) -> int:
    """Sleep until `deadline` (ns); returns the time in ns that the next deadline counts from.

    That is the deadline itself, or now if the deadline was missed by LATE or more.
    """
    now = clock()
    if deadline > now:
        time.sleep((deadline - now) / SECOND)
        return deadline
    return deadline if now - deadline < LATE else now


def sdl_events() -> Iterator[pygame.event.Event]:
    """SDL's events since the last call, with those of unplugged devices last.

    Removals are read last and by themselves: pygame 2.6.1 raises SystemError for the removal of a
    device that it never opened, and the rest of the batch would be lost with it.
    """
    pygame.event.pump()
    yield from pygame.event.get(exclude=pygame.JOYDEVICEREMOVED, pump=False)
    try:
        yield from pygame.event.get(pygame.JOYDEVICEREMOVED, pump=False)
    except SystemError:
        yield pygame.event.Event(pygame.JOYDEVICEREMOVED)


@contextmanager
def joysticks_without_window() -> Iterator[None]:
    """Context in which SDL reports joysticks although there is no window."""
    with dummy_video_driver():
        pygame.display.init()
    try:
        pygame.joystick.init()
        pygame.event.set_blocked(None)
        pygame.event.set_allowed(_PLUG_EVENTS)
        yield
    finally:
        pygame.joystick.quit()
        pygame.display.quit()


def poll_without_window(
    rig: Rig,
    look: Callable[[Sample | None, int], None],
    cut: Callable[[], None],
    over: Callable[[], bool],
    period: int = PERIOD,
) -> None:
    """Read the pedals every `period` ns, without a window, until `over` returns true.

    `look` is called with each sample and its time in ns, `cut` when the pedals are unplugged.
    """
    deadline = rig.clock()
    while not over():
        deadline = wait(rig.clock, deadline + period)
        # Peeking costs a third of reading the queue, which is nearly always empty.
        if pygame.event.peek(_PLUG_EVENTS) and list(sdl_events()) and rig.rescan().cut:
            cut()
        sample = rig.sample()
        look(sample, rig.clock() if sample is None else sample.time)
