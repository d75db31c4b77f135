"""The one loop, on the one thread: pump, read the pedals, draw where nothing is measured."""

from __future__ import annotations

import gc
import time
from collections.abc import Generator, Hashable, Iterator

import pygame

from drills.trace import SECOND, nanoseconds
from engine.pedals.gestures import AnyPedal, Gesture, Gestures
from engine.screens.base import Pace, Screen
from engine.stage.actions import Action, action_of
from engine.stage.stage import Game

Flow = Generator[Screen, object, None]
"""Screens one after another; each is answered with its outcome."""

PERIODS = {
    Pace.STILL: nanoseconds(0.010),
    Pace.LIVE: nanoseconds(0.001),
    Pace.DARK: nanoseconds(0.0005),
}
"""ns from one look at the pedals to the next."""
FRAME = nanoseconds(1 / 60)
"""ns from one picture to the next, at least."""
SPOKEN = {Gesture.GO: Action.GO, Gesture.NEXT: Action.NEXT}

_LISTENED = (
    pygame.QUIT,
    pygame.KEYDOWN,
    pygame.MOUSEMOTION,
    pygame.MOUSEBUTTONDOWN,
    pygame.JOYBUTTONDOWN,
    pygame.JOYDEVICEADDED,
    pygame.JOYDEVICEREMOVED,
    pygame.VIDEORESIZE,
    pygame.VIDEOEXPOSE,
    pygame.WINDOWFOCUSLOST,
)


class ClosedError(Exception):
    """The window was closed."""


class Loop:
    """Runs the screens of a flow until it ends or the window is closed."""

    def __init__(self, game: Game) -> None:
        self._game = game
        # Axis events would fill the queue and push plugs out of it; axes are read directly.
        pygame.event.set_blocked(None)
        pygame.event.set_allowed(_LISTENED)

    def run(self, flow: Flow) -> None:
        """Show the screens of the flow one after another."""
        try:
            screen = next(flow)
            while True:
                screen = flow.send(self._show(screen))
        except (StopIteration, ClosedError):
            self._game.events.note("closed")
        finally:
            if self._game.sound is not None:
                self._game.sound.tone(False)
            flow.close()

    def _show(self, screen: Screen) -> object:
        self._note(screen)
        attending = _Attending(self._game, screen)
        deadline = self._game.clock()
        dark = False
        try:
            while screen.outcome is None:
                if (screen.pace is Pace.DARK) != dark:
                    dark = not dark
                    _rest_collector(dark)
                deadline = self._wait(deadline + PERIODS[screen.pace])
                for event in _events():
                    attending.hear(event)
                attending.look()
        finally:
            _rest_collector(False)
        return screen.outcome

    def _wait(self, deadline: int) -> int:
        """Sleep until a deadline; one that is long past is given up and counted from now."""
        now = self._game.clock()
        if deadline > now:
            time.sleep((deadline - now) / SECOND)
            return deadline
        return deadline if now - deadline < FRAME else now

    def _note(self, screen: Screen) -> None:
        self._game.events.note("screen", {"name": screen.name, **screen.details()})


class _Attending:
    """The loop's dealings with one screen."""

    def __init__(self, game: Game, screen: Screen) -> None:
        self._game = game
        self._screen = screen
        self._gestures = Gestures()
        self._any_pedal = AnyPedal()
        self._drawn: Hashable = None
        self._drawn_at = 0
        self._stale = True
        self._details = dict(screen.details())

    def hear(self, event: pygame.event.Event) -> None:
        """One thing that SDL tells."""
        screen, game = self._screen, self._game
        if event.type == pygame.QUIT:
            raise ClosedError
        if event.type in (pygame.JOYDEVICEADDED, pygame.JOYDEVICEREMOVED):
            self._devices_changed()
        elif event.type in (pygame.VIDEORESIZE, pygame.VIDEOEXPOSE):
            game.window.resized()
            self._stale = True
        elif event.type == pygame.WINDOWFOCUSLOST:
            screen.on_focus_lost(game.clock())
        elif event.type == pygame.MOUSEMOTION:
            screen.on_pointer(event.pos, pressed=False)
        elif event.type == pygame.MOUSEBUTTONDOWN and event.button == 1:
            screen.on_pointer(event.pos, pressed=True)
        elif event.type == pygame.KEYDOWN and event.key == pygame.K_F11:
            game.window.toggle_full()
            self._stale = True
        else:
            action = action_of(event)
            if action is not None:
                screen.on_action(action)

    def look(self) -> None:
        """Read the pedals, let the screen feel them, and draw where that is allowed."""
        screen, game = self._screen, self._game
        sample = None if game.feet is None else game.feet.sample()
        now = game.clock() if sample is None else sample.time
        screen.on_sample(sample, now)
        if screen.pace is Pace.DARK or screen.outcome is not None:
            return
        press = 0.0
        if screen.feet_choose:
            if game.feet is None:
                gesture = self._any_pedal.feed(game.devices.values())
            elif sample is not None and game.feet.source.is_feet:
                gesture = self._gestures.feed(sample)
                press = self._gestures.progress
            else:
                gesture = None
            if gesture is not None:
                screen.on_action(SPOKEN[gesture])
        self._draw(now, press)

    def _draw(self, now: int, press: float) -> None:
        look = (self._screen.appearance(), round(press * 20))
        if now - self._drawn_at < FRAME or (look == self._drawn and not self._stale):
            return
        canvas = self._game.window.canvas()
        canvas.clear()
        self._screen.draw(canvas, press)
        self._game.window.show()
        if self._drawn_at == 0:
            self._game.events.note("drawn", {"name": self._screen.name})
        self._drawn, self._drawn_at, self._stale = look, now, False
        details = dict(self._screen.details())
        if details != self._details:
            self._details = details
            self._game.events.note("screen", {"name": self._screen.name, **details})

    def _devices_changed(self) -> None:
        added, lost = self._game.devices.rescan()
        for device in lost:
            self._game.events.note("device lost", vars(device.identity) | {"id": device.id})
        for device in added:
            self._game.events.note("device added", vars(device.identity) | {"id": device.id})
        if added or lost:
            self._game.reconnect()
            self._screen.on_devices()


def _rest_collector(rest: bool) -> None:
    """No garbage collection while the pedals are measured: it may take several milliseconds."""
    if rest:
        gc.disable()
    else:
        gc.enable()


def _events() -> Iterator[pygame.event.Event]:
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
