"""What the flow of the game works with: the rig, the history, the levels, the time."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import datetime

import numpy as np

from drills.level import Level
from drills.repetition import Phase
from drills.trace import Pedal
from engine.pedals.port import CalibratedPedals, Clock
from engine.pedals.sdl import Devices, SdlPedals
from engine.stage.events import Events
from engine.stage.speaker import Silence, Sound
from engine.stage.window import Window
from engine.store import History


@dataclass
class Game:
    """One running game."""

    window: Window
    """Where it is seen."""
    history: History
    """What is kept."""
    levels: Sequence[Level]
    """Every level, each after those it needs."""
    events: Events
    """What is told of it."""
    clock: Clock
    """Monotonic time."""
    now: Callable[[], datetime]
    """Local date and time with its offset, asked for once a repetition."""
    rng: np.random.Generator
    """Chance."""
    open_sound: Callable[[bool], Sound]
    """Makes the sound, or silence."""
    devices: Devices = field(default_factory=Devices)
    """What is plugged in."""
    sound: Sound | None = None
    """What is heard; None until a set begins, since looking for a speaker takes a tenth of a s."""
    feet: CalibratedPedals | None = None
    """What is played with; None until it is known."""
    watchers: list[Callable[[Phase], None]] = field(default_factory=list)
    """Told each phase a repetition enters."""

    def entered(self, phase: Phase, time: int) -> None:
        """A repetition entered a phase at `time` (ns): show it, sound it, tell it."""
        sound = self.sound or Silence()
        sound.tone(phase is Phase.HELD)
        if phase is Phase.DARK:
            self.window.darken()
        elif phase is Phase.CUE:
            self.window.flash()
            sound.click()
            self.events.note("cue", at=time)
        self.events.note("phase", {"phase": phase.value}, at=time)
        for watch in self.watchers:
            watch(phase)

    @property
    def pedals(self) -> frozenset[Pedal]:
        """The pedals there are to play with: the clutch is the one that may be missing."""
        two = frozenset({Pedal.BRAKE, Pedal.THROTTLE})
        if self.feet is None or self.feet.calibration.clutch is None:
            return two
        return two | {Pedal.CLUTCH}

    def reconnect(self) -> None:
        """Devices came or went: look the bound ones up again."""
        if self.feet is not None and isinstance(self.feet.source, SdlPedals):
            self.feet.source.connect()
