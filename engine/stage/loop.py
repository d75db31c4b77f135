"""Main loop, on the one thread: reads SDL's events and the pedals, and draws the screen."""

from __future__ import annotations

import gc
from collections.abc import Callable

import pygame

from drills.refusal import Refusal
from drills.trace import nanoseconds
from engine.pedals.rig import Rig
from engine.pedals.sdl import Unopened
from engine.stage.actions import action_of, button_of, typed_by
from engine.stage.events import Events
from engine.stage.polling import PERIOD, sdl_events, wait
from engine.stage.scene import Attended, Flow, Pace, Scene, next_scene
from engine.stage.scene_view import SceneView
from engine.stage.window import Window

PERIODS = {
    Pace.STILL: nanoseconds(0.016),
    Pace.SMOOTH: nanoseconds(1 / 120),
    Pace.LIVE: nanoseconds(0.001),
    Pace.ROAD: PERIOD,
    Pace.DARK: nanoseconds(0.0005),
}
"""Time between two readings of the pedals for each pace of a screen, in ns."""
_EVENTS = (
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
    pygame.AUDIODEVICEREMOVED,
)


def _never() -> bool:
    """Whether the system asks the program to end, where nobody listens for that: False."""
    return False


class Loop:
    """Main loop: runs the scenes of a flow until it ends or the window is to close."""

    def __init__(
        self,
        window: Window,
        rig: Rig,
        events: Events,
        asked_to_end: Callable[[], bool] = _never,
    ) -> None:
        """`rig` has the player's devices, which are watched even if a scene uses another rig.

        `asked_to_end` says whether a signal asks the program to end, which closes the window.
        """
        self._window = window
        self._rig = rig
        self._events = events
        # Until an event reports the focus, the window is taken to have it.
        self._focused = True
        self._asked_to_end = asked_to_end
        self._closing = False
        self._view: SceneView | None = None
        self._unopened: tuple[Unopened, ...] = ()
        # Axes are read directly, as their events would crowd plug events out of the queue.
        pygame.event.set_blocked(None)
        pygame.event.set_allowed(_EVENTS)

    def run(self, flow: Flow[object]) -> None:
        """Run the scenes of a flow one after another, until it ends or the window is to close.

        A screen may end as the window closes, as a repetition does after its cue: the flow then
        goes on up to its next scene, so that it stores the outcome, and that scene is not shown. An
        error that a screen raises is raised in the flow, where it waits for the screen. A Refusal
        that ends the flow is raised, once the events file tells of the end.
        """
        try:
            scene = next_scene(flow)
            while scene is not None and not (self._closing or self._asked_to_end()):
                scene = self._scene_after(scene, flow)
        except Refusal:
            self._events.note("closed")
            raise
        finally:
            flow.close()
            self._events.note("closed")

    def run_aside(self, scene: Scene) -> object | None:
        """Run a scene at once, in the middle of another one or between two of the flow.

        Returns its outcome; None if the window is to close, which it does before the flow's next
        scene.
        """
        around = self._view
        if not self._closing:
            self._run_scene(scene)
        self._view = around
        if around is not None:
            around.mark_stale()
            around.listen_to_feet(self._focused)
        return scene.screen.outcome

    def _scene_after(self, scene: Scene, flow: Flow[object]) -> Scene | None:
        """Run a scene and return the next one of its flow; None if there is none to run."""
        try:
            self._run_scene(scene)
        except Refusal as error:
            return next_scene(flow, error)
        if self._closing and scene.screen.outcome is None:
            return None
        return next_scene(flow)

    def _run_scene(self, scene: Scene) -> None:
        screen = scene.screen
        self._note_unopened()
        view = SceneView(self._window, scene, self._rig, self._events)
        self._view = view
        view.listen_to_feet(self._focused)
        if screen.hears_text:
            pygame.key.start_text_input()
        screen.on_means(scene.rig.means)
        moves = self._window.moves
        screen.on_motion(allowed=moves)
        if screen.feet_choose:
            scene.stage.open_menu()
        began = scene.rig.clock()
        screen.on_focus(self._focused, began)
        # The first look comes at once, and with it the first picture.
        deadline = began - PERIODS[screen.pace]
        dark = False
        try:
            while screen.outcome is None and not self._closing:
                if (screen.pace is Pace.DARK) != dark:
                    dark = not dark
                    _pause_collector(dark)
                deadline = wait(scene.rig.clock, deadline + PERIODS[screen.pace])
                self._handle_events(view, scene)
                if self._closing:
                    break
                self._window.cursor.look(scene.rig.clock())
                if self._window.flash_over(scene.rig.clock()):
                    self._end_flash(screen, view)
                if self._window.moves != moves:
                    moves = not moves
                    screen.on_motion(allowed=moves)
                drawn = view.look()
                if screen.pace is Pace.STILL and screen.outcome is None and not drawn:
                    scene.stage.idle()
        finally:
            _pause_collector(False)
            self._view = None

    def _end_flash(self, screen: Attended, view: SceneView) -> None:
        """End the cue's flash: go dark again, or redraw a screen where the flash is tried out."""
        if screen.pace is Pace.DARK:
            self._window.darken()
        else:
            view.mark_stale()

    def _handle_events(self, view: SceneView, scene: Scene) -> None:
        """Act on what SDL and signals have told since the last look, up to the window's closing."""
        if self._asked_to_end():
            self._close(scene.screen)
        for event in sdl_events():
            if self._closing:
                break
            self._handle(event, view, scene)

    def _close(self, screen: Attended) -> None:
        """Note that the window is to close, and tell the screen, which may end by that."""
        self._closing = True
        screen.on_closing()

    def _handle(self, event: pygame.event.Event, view: SceneView, scene: Scene) -> None:
        """Act on one SDL event: pass it to the screen, the window or the devices."""
        screen = scene.screen
        self._move_cursor(event, scene)
        if event.type == pygame.QUIT:
            self._close(screen)
        elif event.type in (pygame.JOYDEVICEADDED, pygame.JOYDEVICEREMOVED):
            self._rescan(scene)
        elif event.type == pygame.AUDIODEVICEREMOVED:
            # Number 0 stands for any device that the game does not play on.
            if event.which and not event.iscapture:
                scene.stage.lose_sound()
        elif event.type in (pygame.VIDEORESIZE, pygame.VIDEOEXPOSE):
            self._window.resized()
            view.mark_stale()
        elif event.type in (pygame.WINDOWFOCUSGAINED, pygame.WINDOWFOCUSLOST):
            self._focused = event.type == pygame.WINDOWFOCUSGAINED
            view.listen_to_feet(self._focused)
            screen.on_focus(self._focused, scene.rig.clock())
        elif event.type == pygame.MOUSEMOTION:
            screen.on_pointer(event.pos, pressed=False)
        elif event.type == pygame.MOUSEBUTTONDOWN and event.button == 1:
            screen.on_pointer(event.pos, pressed=True)
        elif event.type == pygame.KEYDOWN and event.key == pygame.K_F11:
            # It takes a tenth of a second: while pedals are measured, that would void a miss.
            if screen.pace is not Pace.DARK:
                self._window.toggle_full()
                view.mark_stale()
        elif screen.hears_text and (typed := typed_by(event)) is not None:
            screen.on_text(typed)
        elif (button := button_of(event)) is None or not self._rig.takes(button):
            action = action_of(event)
            if action is not None:
                screen.on_action(action)

    def _move_cursor(self, event: pygame.event.Event, scene: Scene) -> None:
        """Show the pointer as the mouse moves, save in the dark; hide it as keys or buttons act."""
        cursor, in_sight = self._window.cursor, scene.screen.pace is not Pace.DARK
        if event.type in (pygame.KEYDOWN, pygame.JOYBUTTONDOWN):
            cursor.hide()
        elif event.type == pygame.MOUSEMOTION and in_sight:
            cursor.move(event.pos, scene.rig.clock())
        elif event.type == pygame.MOUSEBUTTONDOWN and in_sight:
            cursor.click(scene.rig.clock())

    def _rescan(self, scene: Scene) -> None:
        rescan = self._rig.rescan()
        for name, devices in (
            ("device lost", rescan.changes.lost),
            ("device added", rescan.changes.added),
        ):
            for device in devices:
                self._events.note(name, vars(device.identity) | {"id": device.id})
        unopened_changed = self._note_unopened()
        if rescan.changes.added or rescan.changes.lost or unopened_changed:
            scene.screen.on_means(scene.rig.means)
            scene.screen.on_devices(cut=rescan.cut and scene.rig is self._rig)

    def _note_unopened(self) -> bool:
        """Note devices that could not be opened, each once; return whether it is others now."""
        unopened = () if self._rig.devices is None else self._rig.devices.unopened
        before, self._unopened = self._unopened, unopened
        for device in unopened:
            if device not in before:
                self._events.note("device not opened", device._asdict())
        return unopened != before


def _pause_collector(pause: bool) -> None:
    """Pause garbage collection while pedals are measured: it may take several milliseconds."""
    if pause:
        gc.disable()
    else:
        gc.enable()
