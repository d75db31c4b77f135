"""Reading of the pedals for one scene, and drawing of its screen, as the loop asks for it."""

from __future__ import annotations

from collections.abc import Hashable

from drills.trace import Sample, nanoseconds
from engine.pedals.gestures import AnyPedal, Gesture, Gestures
from engine.pedals.rig import Rig
from engine.stage.actions import Action, actions_of_gesture
from engine.stage.events import Events
from engine.stage.scene import Pace, Scene
from engine.stage.window import Window

FRAME = nanoseconds(0.015)
"""Shortest time between two drawn frames, in ns: a little under a sixtieth of a second, so that a
reading that comes early by a millisecond still draws one."""


class SceneView:
    """Reads the pedals for one scene and draws its screen."""

    def __init__(self, window: Window, scene: Scene, own: Rig, events: Events) -> None:
        """`own` is the player's rig, even if the scene uses another one."""
        self._window = window
        self._scene = scene
        self._own = own
        self._own_gestures = Gestures()
        self._events = events
        self._listens = True
        self._gestures = Gestures(double_taps=not self._scene.screen.counts_taps)
        self._any_pedal = AnyPedal()
        self._last_appearance: Hashable = None
        self._last_movement: Hashable = None
        self._last_drawn = 0
        self._stale = True
        self._details = dict(scene.screen.details())
        events.note("screen", {"name": scene.screen.name, **self._details})

    def listen_to_feet(self, listen: bool) -> None:
        """Set whether foot gestures count: without the focus, the player may drive elsewhere."""
        self._listens = listen
        self._gestures = Gestures(double_taps=not self._scene.screen.counts_taps)
        self._own_gestures = Gestures()
        self._any_pedal = AnyPedal()

    def mark_stale(self) -> None:
        """Have the screen redrawn, as the window no longer shows what was drawn."""
        self._stale = True

    def look(self) -> bool:
        """Read the pedals, pass them to the screen, and draw it unless it is dark or over.

        Returns whether it was drawn.
        """
        screen, rig = self._scene.screen, self._scene.rig
        sample = rig.sample()
        now = rig.clock() if sample is None else sample.time
        screen.on_sample(sample, now)
        if screen.pace is Pace.DARK or screen.outcome is not None:
            return False
        listens = self._listens and screen.pace is not Pace.ROAD
        for action in self._foot_actions(sample) if listens else ():
            self._window.cursor.hide()
            if screen.feet_choose or action is Action.MENU:
                screen.on_action(action)
        press = self._gestures.progress if screen.feet_choose else 0.0
        return self._draw(now, press)

    def _foot_actions(self, sample: Sample | None) -> tuple[Action, ...]:
        """Actions that the feet ask for now; before pedals are bound, any pedal confirms."""
        rig = self._scene.rig
        gesture = None
        if self._own is not rig and self._own.is_feet:
            own = self._own.sample()
            if own is not None and self._own_gestures.feed(own) is Gesture.MENU:
                return actions_of_gesture(Gesture.MENU)
        if rig.pedals is None:
            gesture = self._any_pedal.feed(rig.values())
        elif sample is not None and rig.is_feet:
            gesture = self._gestures.feed(sample)
        return () if gesture is None else actions_of_gesture(gesture)

    def _draw(self, now: int, press: float) -> bool:
        if self._window.lit or now - self._last_drawn < FRAME:
            return False
        screen = self._scene.screen
        appearance, movement = (screen.appearance(), round(press * 20)), screen.movement()
        if appearance != self._last_appearance or self._stale:
            screen.draw(self._window.surface, press)
            self._window.show()
        elif movement != self._last_movement:
            self._window.show(screen.draw_moving(self._window.surface))
        else:
            return False
        if self._last_drawn == 0:
            self._events.note("drawn", {"name": screen.name})
        self._last_appearance, self._last_movement = appearance, movement
        self._last_drawn, self._stale = now, False
        details = dict(screen.details())
        if details != self._details:
            self._details = details
            self._events.note("screen", {"name": screen.name, **details})
        return True
