"""The one loop, on the one thread: pump, read the pedals, draw where nothing is measured."""

from __future__ import annotations

import gc
from collections.abc import Hashable

import pygame

from drills.trace import Sample, nanoseconds
from engine.pedals.gestures import AnyPedal, Gesture, Gestures
from engine.pedals.rig import Rig
from engine.stage.actions import Action, action_of, by_feet, typed_by
from engine.stage.events import Events
from engine.stage.scene import Attended, Flow, Pace, Scene
from engine.stage.unseen import PERIOD
from engine.stage.waiting import sdl_events, wait
from engine.stage.window import Window

PERIODS = {
    Pace.STILL: nanoseconds(0.010),
    Pace.LIVE: nanoseconds(0.001),
    Pace.ROAD: PERIOD,
    Pace.DARK: nanoseconds(0.0005),
}
"""ns from one look at the pedals to the next."""
FRAME = nanoseconds(1 / 60)
"""ns from one picture to the next, at least."""

_LISTENED = (
    pygame.QUIT,
    pygame.KEYDOWN,
    pygame.TEXTINPUT,
    pygame.MOUSEMOTION,
    pygame.MOUSEBUTTONDOWN,
    pygame.JOYBUTTONDOWN,
    pygame.JOYDEVICEADDED,
    pygame.JOYDEVICEREMOVED,
    pygame.VIDEORESIZE,
    pygame.VIDEOEXPOSE,
    pygame.WINDOWFOCUSGAINED,
    pygame.WINDOWFOCUSLOST,
)


class ClosedError(Exception):
    """The window was closed."""


class Loop:
    """Attends to the scenes of a flow until it ends or the window is closed."""

    def __init__(self, window: Window, rig: Rig, events: Events) -> None:
        """`rig` is the one whose devices come and go, whatever a scene is played with."""
        self._window = window
        self._rig = rig
        self._events = events
        # A window that is never told of its focus is taken to have it.
        self._focused = True
        # Axis events would fill the queue and push plugs out of it; axes are read directly.
        pygame.event.set_blocked(None)
        pygame.event.set_allowed(_LISTENED)

    def run(self, flow: Flow[object]) -> None:
        """Attend to the scenes of the flow one after another."""
        try:
            for scene in flow:
                self._attend(scene)
        except ClosedError:
            pass
        finally:
            flow.close()
        self._events.note("closed")

    def _attend(self, scene: Scene) -> None:
        screen = scene.screen
        attending = _Attending(self._window, scene, self._rig, self._events)
        attending.listen_to_feet(self._focused)
        if screen.hears_text:
            pygame.key.start_text_input()
        screen.on_means(scene.rig.means)
        if screen.feet_choose:
            scene.stage.open_menu()
        began = scene.rig.clock()
        screen.on_focus(self._focused, began)
        # The first look comes at once, and with it the first picture.
        deadline = began - PERIODS[screen.pace]
        dark = False
        try:
            while screen.outcome is None:
                if (screen.pace is Pace.DARK) != dark:
                    dark = not dark
                    _rest_collector(dark)
                deadline = wait(scene.rig.clock, deadline + PERIODS[screen.pace])
                for event in sdl_events():
                    self._hear(event, attending, scene)
                if self._window.flash_over(scene.rig.clock()):
                    self._unlight(screen, attending)
                attending.look()
        finally:
            _rest_collector(False)

    def _unlight(self, screen: Attended, attending: _Attending) -> None:
        """The cue has been seen: back to the dark, or to the picture it was tried out over."""
        if screen.pace is Pace.DARK:
            self._window.darken()
        else:
            attending.stale()

    def _hear(self, event: pygame.event.Event, attending: _Attending, scene: Scene) -> None:
        """One thing that SDL tells."""
        screen = scene.screen
        if event.type == pygame.QUIT:
            raise ClosedError
        if event.type in (pygame.JOYDEVICEADDED, pygame.JOYDEVICEREMOVED):
            self._rescan(scene)
        elif event.type in (pygame.VIDEORESIZE, pygame.VIDEOEXPOSE):
            self._window.resized()
            attending.stale()
        elif event.type in (pygame.WINDOWFOCUSGAINED, pygame.WINDOWFOCUSLOST):
            self._focused = event.type == pygame.WINDOWFOCUSGAINED
            attending.listen_to_feet(self._focused)
            screen.on_focus(self._focused, scene.rig.clock())
        elif event.type == pygame.MOUSEMOTION:
            screen.on_pointer(event.pos, pressed=False)
        elif event.type == pygame.MOUSEBUTTONDOWN and event.button == 1:
            screen.on_pointer(event.pos, pressed=True)
        elif event.type == pygame.KEYDOWN and event.key == pygame.K_F11:
            self._window.toggle_full()
            attending.stale()
        elif screen.hears_text and (typed := typed_by(event)) is not None:
            screen.on_text(typed)
        else:
            action = action_of(event)
            if action is not None:
                screen.on_action(action)

    def _rescan(self, scene: Scene) -> None:
        found = self._rig.rescan()
        for name, devices in (
            ("device lost", found.changes.lost),
            ("device added", found.changes.added),
        ):
            for device in devices:
                self._events.note(name, vars(device.identity) | {"id": device.id})
        if found.changes.added or found.changes.lost:
            scene.screen.on_means(scene.rig.means)
            scene.screen.on_devices(cut=found.cut and scene.rig is self._rig)


class _Attending:
    """Reading the pedals for one screen, and drawing it."""

    def __init__(self, window: Window, scene: Scene, own: Rig, events: Events) -> None:
        """`own` are the player's pedals, whatever the scene is played with."""
        self._window = window
        self._scene = scene
        self._own = own
        self._own_gestures = Gestures()
        self._events = events
        self._feet_heard = True
        self._gestures = Gestures()
        self._any_pedal = AnyPedal()
        self._drawn: Hashable = None
        self._drawn_at = 0
        self._stale = True
        self._details = dict(scene.screen.details())
        events.note("screen", {"name": scene.screen.name, **self._details})

    def listen_to_feet(self, listen: bool) -> None:
        """Feet choose nothing while another window has the focus: they may be driving there."""
        self._feet_heard = listen
        self._gestures = Gestures()
        self._own_gestures = Gestures()
        self._any_pedal = AnyPedal()

    def stale(self) -> None:
        """What is on the screen is no longer what was drawn."""
        self._stale = True

    def look(self) -> None:
        """Read the pedals, give them to the screen, and draw where that is allowed."""
        screen, rig = self._scene.screen, self._scene.rig
        sample = rig.sample()
        now = rig.clock() if sample is None else sample.time
        screen.on_sample(sample, now)
        if screen.pace is Pace.DARK or screen.outcome is not None:
            return
        heard = self._feet_heard and screen.pace is not Pace.ROAD
        for action in self._by_feet(sample) if heard else ():
            if screen.feet_choose or action is Action.MENU:
                screen.on_action(action)
        press = self._gestures.progress if screen.feet_choose else 0.0
        self._draw(now, press)

    def _by_feet(self, sample: Sample | None) -> tuple[Action, ...]:
        """What the feet do now: any pedal goes on until it is known which is which."""
        rig = self._scene.rig
        gesture = None
        if self._own is not rig and self._own.is_feet:
            own = self._own.sample()
            if own is not None and self._own_gestures.feed(own) is Gesture.MENU:
                return by_feet(Gesture.MENU)
        if rig.pedals is None:
            gesture = self._any_pedal.feed(rig.values())
        elif sample is not None and rig.is_feet:
            gesture = self._gestures.feed(sample)
        return () if gesture is None else by_feet(gesture)

    def _draw(self, now: int, press: float) -> None:
        if self._window.lit or now - self._drawn_at < FRAME:
            return
        screen = self._scene.screen
        appearance = (screen.appearance(), round(press * 20))
        if appearance == self._drawn and not self._stale:
            return
        screen.draw(self._window.surface, press)
        self._window.show()
        if self._drawn_at == 0:
            self._events.note("drawn", {"name": screen.name})
        self._drawn, self._drawn_at, self._stale = appearance, now, False
        details = dict(screen.details())
        if details != self._details:
            self._details = details
            self._events.note("screen", {"name": screen.name, **details})


def _rest_collector(rest: bool) -> None:
    """No garbage collection while the pedals are measured: it may take several milliseconds."""
    if rest:
        gc.disable()
    else:
        gc.enable()
