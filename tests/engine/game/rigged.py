"""`Rigged`: the whole game on fake joysticks, played step by step without a window."""

from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from weakref import finalize

import numpy as np

from drills.level import Level
from drills.trace import nanoseconds
from engine.drill.demonstration import Demonstration
from engine.game.flow import play
from engine.game.offer import Offer
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended, Flow
from engine.stage.stage import Stage
from engine.store import open_history
from tests.engine.pedals.joysticks import FakeJoysticks, Pad
from tests.engine.walking import Step, walk
from tests.fakes import Lamp, a_stage
from tests.loudspeaker import Loudspeaker

LEVELS = load_levels([SHIPPED])
LOOK = nanoseconds(0.050)
REST, FULL = -1.0, 1.0
READ = ("cautions", "I have read this")


class Rigged:
    """A game on fake joysticks, played step by step."""

    def __init__(self, folder: Path, *pads: Pad) -> None:
        self.levels: Sequence[Level] = LEVELS
        self.is_sized = True
        """Whether the window has a size asked for, so that the game does not ask about it."""
        self.clock = ManualClock()
        self.joysticks = FakeJoysticks(*pads)
        self.rig = Rig(self.clock, Devices(self.joysticks))
        self.stage = a_stage()
        self.history = open_history(folder, [])
        # Closes it where a test did not: Python 3.13 warns of one that is left open.
        finalize(self, self.history.close)

    @property
    def speaker(self) -> Loudspeaker:
        """Speaker that records sounds."""
        assert isinstance(self.stage.speaker, Loudspeaker)
        return self.stage.speaker

    @property
    def lamp(self) -> Lamp:
        """Lights that record flashes."""
        assert isinstance(self.stage.lights, Lamp)
        return self.stage.lights

    def flow(self, stage: Stage | None = None) -> Flow[None]:
        """Flow of the whole game."""
        demo = Demonstration(LEVELS[0], 1, seed=3, skill=1.0)
        return play(
            self.rig,
            stage or self.stage,
            self.history,
            Offer(self.levels, load_band(), demo, is_sized=self.is_sized),
            np.random.default_rng(1),
            lambda: datetime(2024, 5, 17, tzinfo=UTC),
        )

    def walk(self, *steps: tuple[str, Step], seen: list[str] | None = None) -> None:
        """Play the game with some steps."""
        walk(self.flow(), self.clock, steps, seen)

    def look(self, screen: Attended, seconds: float) -> None:
        """Feed a screen samples for some seconds, or until it ends."""
        until = self.clock() + nanoseconds(seconds)
        while screen.outcome is None and self.clock() < until:
            self.clock.advance(LOOK)
            screen.on_sample(self.rig.sample(), self.clock())

    def rest(self, screen: Attended) -> None:
        """Keep the feet off until the screen ends."""
        self.look(screen, 10.0)

    def moves(self, pad: Pad, axis: int, *ends: float) -> Step:
        """Step that moves an axis to one end after another, for a second each."""

        def step(screen: Attended) -> None:
            for end in ends:
                pad.move(axis, end)
                self.look(screen, 1.0)

        return step

    def presses(self, pad: Pad, axis: int) -> Step:
        """Step that presses a pedal, releases it, presses it fully and releases it."""
        return self.moves(pad, axis, REST, FULL, REST, FULL, REST)

    def set_up(self, pad: Pad) -> list[tuple[str, Step]]:
        """Steps that set up brake and throttle on one device."""
        return [
            ("pedals", self.rest),
            ("pedals", self.presses(pad, 0)),
            ("pedals", self.rest),
            ("pedals", self.presses(pad, 1)),
            ("pedals", self.rest),
            ("pedals", self.moves(pad, 0, REST, FULL)),
            ("pedals", self.lets_go(pad, 0)),
            ("pedals found", "Keep them"),
        ]

    def lets_go(self, pad: Pad, axis: int) -> Step:
        """Step that takes the foot off a pedal."""

        def step(screen: Attended) -> None:
            pad.move(axis, REST)
            self.rest(screen)

        return step
