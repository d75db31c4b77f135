"""Where a drill is seen, heard and told: one place for all that follows from what happens."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from drills.phases import FINDING, OVER, Phase, Transition
from drills.task import Signal, Task
from engine.practice.record import Record
from engine.stage.aim import Aim
from engine.stage.events import Events
from engine.stage.signals import Signals
from engine.stage.speaker import Speaker


class Lights(Protocol):
    """What a repetition needs of the window while nothing may be drawn."""

    @property
    def full(self) -> bool:
        """Whether the window fills the screen."""
        ...

    def toggle_full(self) -> None:
        """To full screen, or back to a window."""
        ...

    def tune(self, *, flash: bool) -> None:
        """Whether the cue lights the screen from now on."""
        ...

    def darken(self) -> None:
        """Nothing at all on the screen."""
        ...

    def flash(self, *, needed: bool, dim: bool = False) -> None:
        """The cue, where it is to be seen, or is `needed` since nobody hears it.

        `dim`: a beat before it.
        """
        ...

    def pointer(self) -> tuple[float, bool]:
        """Height of the mouse in the window, 0 bottom to 1 top, and its main button."""
        ...


class Listener(Protocol):
    """Somebody who is told what happens on the stage."""

    def on_menu(self) -> None:
        """A screen with choices was opened."""
        ...

    def on_task(self, task: Task) -> None:
        """A repetition asks this."""
        ...

    def on_transition(self, transition: Transition) -> None:
        """The repetition has moved on."""
        ...

    def on_record(self, place: int, record: Record) -> None:
        """Repetition `place` (from 1) of a set was judged and kept."""
        ...


@dataclass(frozen=True)
class Stage:
    """The window, the speaker, the events file, and whoever listens."""

    lights: Lights
    """The window, as far as a repetition needs it."""
    speaker: Speaker
    """What is heard."""
    events: Events
    """What is told for a bug report."""
    listeners: tuple[Listener, ...] = ()
    """Told all of it."""

    def tune(self, signals: Signals) -> None:
        """Be noticed in this way from now on."""
        self.speaker.tune(signals.volume, click=signals.click)
        self.lights.tune(flash=signals.flash)

    def open_menu(self) -> None:
        """A screen with choices is opened."""
        for listener in self.listeners:
            listener.on_menu()

    def begin(self, task: Task, now: int) -> None:
        """A repetition begins to look for its pedals at `now` (ns)."""
        self.speaker.make_fall(task.falls)
        self.events.note("phase", {"phase": Phase.RELEASE.value}, at=now)
        for listener in self.listeners:
            listener.on_task(task)

    def darken(self) -> None:
        """From here on nothing is shown."""
        self.lights.darken()

    def follow(self, transition: Transition) -> None:
        """The repetition has moved on: light it, sound it, tell it."""
        if transition.phase not in FINDING:
            self.speaker.aim(Aim.SILENT)
        if transition.phase in OVER:
            self.speaker.end_fall()
        if transition.signal is not None:
            self._give(transition.signal, transition.time)
        told = {"phase": transition.phase.value, "by": transition.event.value}
        self.events.note("phase", told, at=transition.time)
        for listener in self.listeners:
            listener.on_transition(transition)

    def _give(self, signal: Signal, time: int) -> None:
        """Give a cue that was due at `time` (ns).

        A sound is on its way while the picture is brought to the screen. A beat of the count-in
        that is heard needs no picture.
        """
        match signal:
            case Signal.COUNT:
                if not self.speaker.count():
                    self.lights.flash(needed=True, dim=True)
            case Signal.FALL:
                self.lights.flash(needed=not self.speaker.fall())
            case Signal.CUE:
                self.lights.flash(needed=not self.speaker.click())
        self.events.note("cue", {"signal": signal.value}, at=time)

    def conclude(self, place: int, number: int | None, record: Record) -> None:
        """Repetition `place` of the set was judged and is kept under a number, if at all."""
        verdict = record.verdict
        told = {
            "id": number,
            "level": record.level,
            "target": record.target,
            "score": verdict.score,
            "clean": verdict.clean,
            "reason": verdict.reason.value,
            "over": verdict.over,
            "measures": dict(verdict.measures),
        }
        self.events.note("verdict", told)
        for listener in self.listeners:
            listener.on_record(place, record)
