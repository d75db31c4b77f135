"""Stage of a drill: turns cues and verdicts into light, sound, events and calls to listeners."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Protocol

from drills.phases import FINDING, OVER, Phase, Transition
from drills.task import Signal, Task
from engine.practice.record import Record
from engine.stage.brake_tone import BrakeTone
from engine.stage.events import Events
from engine.stage.signals import Signals
from engine.stage.speaker import Speaker


class Lights(Protocol):
    """Interface of the window for a repetition: the dark, the flash of the cue, and the mouse."""

    @property
    def full(self) -> bool:
        """Whether the window fills the screen."""
        ...

    @property
    def wants_less_motion(self) -> bool:
        """Whether the system asks for less motion, which then stays off."""
        ...

    def toggle_full(self) -> None:
        """Switch the window between full screen and its normal size."""
        ...

    def tune(self, *, flash: bool, motion: bool = True) -> None:
        """Set whether the cue to act flashes over the screen, and whether parts of it may move."""
        ...

    def darken(self) -> None:
        """Make the whole screen dark, as before a cue."""
        ...

    def flash(self, *, needed: bool, dim: bool = False) -> None:
        """Light the whole screen as the cue, if the flash is on or `needed`, as no sound was heard.

        `dim` lights it less, as a beat of the count-in.
        """
        ...

    def pointer(self) -> tuple[float, bool]:
        """Height of the mouse in the window, from 0 (bottom) to 1, and whether it is pressed."""
        ...


class Listener(Protocol):
    """Interface of objects that are told what happens during a drill, such as a simulated foot."""

    def on_menu(self) -> None:
        """Called when a menu opens on the screen."""
        ...

    def on_task(self, task: Task) -> None:
        """Called with the task of a repetition as it begins."""
        ...

    def on_transition(self, transition: Transition) -> None:
        """Called with each phase transition of the repetition."""
        ...

    def on_record(self, place: int, record: Record) -> None:
        """Called when repetition `place` (from 1) of a set has been judged and stored."""
        ...


def _nothing() -> None:
    """Background work where there is none to do."""


@dataclass(frozen=True)
class Stage:
    """Window, speaker, events file and listeners that a drill is played with."""

    lights: Lights
    """Window, or a stand-in for it."""
    speaker: Speaker
    """Sound output, or a stand-in for it."""
    events: Events
    """Events file, or one without a path that writes nothing."""
    listeners: tuple[Listener, ...] = ()
    """Objects that are told of every menu, task, phase transition and verdict."""
    idle: Callable[[], None] = _nothing
    """Background work of a few milliseconds, done while a still screen waits; see the loop."""

    def tune(self, signals: Signals) -> None:
        """Apply the player's settings for sound and light."""
        self.speaker.tune(signals.volume, click=signals.click, ear=signals.ear)
        self.lights.tune(flash=signals.flash, motion=signals.motion)

    def open_menu(self) -> None:
        """Tell the listeners that a menu opens."""
        for listener in self.listeners:
            listener.on_menu()

    def begin(self, task: Task, now: int) -> None:
        """Begin a repetition at `now` (ns): the player is to release all pedals.

        Nothing is measured yet, so a lost audio device is opened again here.
        """
        self.recover_sound(now)
        self.speaker.make_fall(task.guide)
        self.events.note("phase", {"phase": Phase.RELEASE.value}, at=now)
        for listener in self.listeners:
            listener.on_task(task)

    def lose_sound(self) -> None:
        """Note that the system took the audio device away; cues flash until it is back."""
        with self._noting_sound(None):
            self.speaker.lose()

    def recover_sound(self, now: int) -> None:
        """Open a missing audio device again at `now` (ns), and look whether it plays."""
        with self._noting_sound(now):
            self.speaker.recover(now)
            self.speaker.check(now)

    @contextmanager
    def _noting_sound(self, now: int | None) -> Iterator[None]:
        """Context after which a sound that was lost or came back is noted at `now` (ns)."""
        before = self.speaker.trouble
        yield
        trouble = self.speaker.trouble
        if trouble and not before:
            self.events.note("sound lost", {"reason": trouble}, at=now)
        elif before and not trouble:
            self.events.note("sound back", at=now)

    def darken(self) -> None:
        """Make the whole screen dark, as before a cue."""
        self.lights.darken()

    def follow(self, transition: Transition) -> None:
        """Act on a phase transition: stop sounds, give the cue, write the event, call listeners.

        As the wait begins, what still sounds of the repetition before fades out: it has ended
        before the measured window opens.
        """
        with self._noting_sound(transition.time):
            self.speaker.check(transition.time)
        if transition.phase not in FINDING:
            self.speaker.play_tone(BrakeTone.SILENT)
        if transition.phase is Phase.WAIT:
            self.speaker.end_feedback()
        if transition.phase in OVER:
            self.speaker.end_fall()
        if transition.signal is not None:
            self._give(transition.signal, transition.time)
        fields = {"phase": transition.phase.value, "by": transition.event.value}
        self.events.note("phase", fields, at=transition.time)
        for listener in self.listeners:
            listener.on_transition(transition)

    def _give(self, signal: Signal, time: int) -> None:
        """Give the player a cue or a knock that was due at `time` (ns), by sound and light.

        The sound starts first, as it travels while the flash reaches the screen. A beat of the
        count-in, and the same knock as the cue to be off, are flashed only if they were not heard.
        A knock of the second task is never flashed: it is to be counted by ear.
        """
        match signal:
            case Signal.LOW | Signal.HIGH:
                heard = self.speaker.knock(high=signal is Signal.HIGH)
                self.events.note("knock", {"signal": signal.value, "heard": heard}, at=time)
                return
            case Signal.COUNT | Signal.OFF:
                if not self.speaker.count():
                    self.lights.flash(needed=True, dim=True)
            case Signal.FALL:
                self.lights.flash(needed=not self.speaker.fall())
            case Signal.CUE:
                self.lights.flash(needed=not self.speaker.click())
        self.events.note("cue", {"signal": signal.value}, at=time)

    def conclude(self, place: int, number: int | None, record: Record) -> None:
        """Report the verdict on repetition `place` of the set; `number`: its id in the history."""
        verdict = record.verdict
        fields = {
            "id": number,
            "level": record.level,
            "target": record.target,
            "score": verdict.score,
            "clean": verdict.clean,
            "reason": verdict.reason.value,
            "over": verdict.over,
            "measures": dict(verdict.measures),
        }
        self.events.note("verdict", fields)
        for listener in self.listeners:
            listener.on_record(place, record)
