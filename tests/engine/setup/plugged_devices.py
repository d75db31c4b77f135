"""`Bench`: fake devices that are set up step by step, without a window."""

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path
from weakref import finalize

from drills.trace import Pedal, nanoseconds
from engine.pedals.gestures import Gestures
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices
from engine.setup.flow import set_up
from engine.setup.saved_rigs import saved_binding
from engine.setup.search_screen import SearchScreen
from engine.stage.actions import Action, actions_of_gesture
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended
from engine.store import open_history
from tests.engine.pedals.joysticks import FakeJoysticks, Pad
from tests.engine.walking import Step, walk
from tests.fakes import a_stage

AT = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
LOOK = nanoseconds(0.010)
REST, FULL = -1.0, 1.0
BRAKE, THROTTLE, CLUTCH, WHEEL = range(4)

Act = Callable[[Attended], None]
"""Function that does one step of a test on a screen."""


class Bench:
    """A fake device of four axes, the last of them a wheel, and a player who sets it up."""

    def __init__(self, folder: Path) -> None:
        self.clock = ManualClock()
        self.pad = Pad(REST, REST, REST, 0.02)
        self.joysticks = FakeJoysticks(self.pad)
        self.rig = Rig(self.clock, Devices(self.joysticks))
        self.rig.rescan()
        self.history = open_history(folder, [])
        finalize(self, self.history.close)
        self.notes: list[str] = []

    def walk(self, *steps: tuple[str, Step]) -> bool:
        """Run the setup with some steps; return whether pedals were bound."""
        return walk(set_up(self.rig, a_stage(), self.history, lambda: AT), self.clock, steps)

    def look(self, screen: Attended, seconds: float) -> None:
        """Feed a screen samples for some seconds, or until it ends."""
        until = self.clock() + nanoseconds(seconds)
        while screen.outcome is None and self.clock() < until:
            self.clock.advance(LOOK)
            screen.on_sample(self.rig.sample(), self.clock())

    def rest(self, screen: Attended) -> None:
        """Release all pedals and wait; store the note that is shown."""
        assert isinstance(screen, SearchScreen)
        self.notes.append(getattr(screen, "_note", ""))
        for axis in (BRAKE, THROTTLE, CLUTCH):
            self.pad.move(axis, REST)
        self.look(screen, 10.0)

    def moves(self, axis: int, *places: float) -> Act:
        """Step that moves an axis to one place after another, for a second each."""

        def step(screen: Attended) -> None:
            for place in places:
                self.pad.move(axis, place)
                self.look(screen, 1.0)

        return step

    def presses(self, axis: int, full: float = FULL) -> Act:
        """Step that presses a pedal, releases it, presses it fully and releases it."""
        return self.moves(axis, REST, full, REST, full, REST)

    def both(self, screen: Attended) -> None:
        """Press brake and throttle together until the screen reacts."""
        self.look(screen, 0.5)
        self.pad.move(BRAKE, FULL)
        self.look(screen, 0.1)
        self.pad.move(THROTTLE, FULL)
        self.look(screen, 2.0)

    def tries(self, screen: Attended) -> None:
        """Try each pedal for longer than a hold that chooses, then both until the menu opens.

        Gestures are passed on as the loop does it.
        """
        gestures = Gestures()
        for pressed in ((), (BRAKE,), (), (THROTTLE,), (), (BRAKE, THROTTLE)):
            assert screen.outcome is None
            for axis in (BRAKE, THROTTLE):
                self.pad.move(axis, FULL if axis in pressed else REST)
            for _ in range(150):
                self.clock.advance(LOOK)
                sample = self.rig.sample()
                assert sample is not None
                screen.on_sample(sample, self.clock())
                gesture = gestures.feed(sample)
                for action in () if gesture is None else actions_of_gesture(gesture):
                    if screen.feet_choose or action is Action.MENU:
                        screen.on_action(action)

    def chooses(self, taps: int) -> Act:
        """Step that taps the brake some times and then holds it down."""

        def step(screen: Attended) -> None:
            for axis in (BRAKE, THROTTLE):
                self.pad.move(axis, REST)
            self.look(screen, 4.0)
            for _ in range(taps):
                self.pad.move(BRAKE, FULL)
                self.look(screen, 0.2)
                self.pad.move(BRAKE, REST)
                self.look(screen, 0.2)
            self.pad.move(BRAKE, FULL)
            self.look(screen, 2.0)

        return step

    def everything(self) -> list[tuple[str, Step]]:
        """Steps that set up all three pedals."""
        steps: list[tuple[str, Step]] = []
        for axis in (BRAKE, THROTTLE, CLUTCH):
            steps += [("pedals", self.rest), ("pedals", self.presses(axis))]
        return [*steps, ("pedals", self.rest), ("pedals found", "Keep them")]

    @property
    def saved(self) -> Mapping[str, tuple[int, float, float]]:
        """Axis, rest and full of each pedal in the saved setting."""
        binding = saved_binding(self.history)
        pedals = () if binding is None else binding.pedals
        return {
            pedal.value: (bound.axis, bound.range.rest, bound.range.full)
            for pedal, bound in zip(Pedal, pedals, strict=False)
        }


WHOLE = {
    "brake": (BRAKE, REST, FULL),
    "throttle": (THROTTLE, REST, FULL),
    "clutch": (CLUTCH, REST, FULL),
}
