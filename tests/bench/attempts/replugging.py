"""Unplugs and replugs three virtual devices of SDL: `python -m tests.bench.attempts.replugging N`.

Brake and throttle are on a device each, beside a wheel. N seeds what comes and goes when. Prints a
line for each thing that is wrong: other pedals read than those that were moved, a repetition that a
cut did not void, or one that was voided by a wheel's cut.
"""

import random
import sys
from collections.abc import Iterator
from contextlib import ExitStack

import numpy as np

from drills.calibration import Range
from drills.phases import Event, Phase, Transition
from drills.score import Reason
from drills.task import Task
from engine.drill.attempt import Setting
from engine.drill.set import run_set
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices
from engine.stage.headless import ManualClock
from engine.stage.polling import joysticks_without_window, sdl_events
from tests.engine.five.unattended import DATE, FIRST
from tests.fakes import MILLISECOND, Audience, a_stage
from tests.rig import VirtualPedals

STEPS = 15
"""Times that something comes, goes or moves before the repetition."""
REST, FULL = -1.0, 0.9
ENDS = Range(REST, FULL)
NEAR = 0.01
"""Points by which a position may be off: half a count of a virtual axis is 0.002."""
TREMBLE = 0.02
"""Points by which the foot trembles: one that keeps a single value would be a brake that froze."""
AWAY = 100 * MILLISECOND
LONGEST = 30_000 * MILLISECOND
CUT_IN = (Phase.APPROACH, Phase.HELD, Phase.WAIT)


class Foot:
    """Listener that says where the brake is to be, and in which phase the repetition is."""

    def __init__(self) -> None:
        self.brake = 0.0
        self.phase = Phase.RELEASE
        self._target = 0.0

    def on_menu(self) -> None:
        """Let go."""
        self.brake = 0.0

    def on_task(self, task: Task) -> None:
        """Let go, to begin from a released brake."""
        self.brake, self._target, self.phase = 0.0, task.target, Phase.RELEASE

    def on_transition(self, transition: Transition) -> None:
        """Press to the target in the approach."""
        self.phase = transition.phase
        if transition.event is Event.FREED:
            self.brake = self._target

    def on_record(self, _place: int, _record: object) -> None:
        """Do nothing."""


class Desk:
    """Three devices that are plugged in and out, and the rig that reads two of them."""

    def __init__(self, seed: int, clock: ManualClock, stack: ExitStack) -> None:
        self.rng, self.clock = random.Random(seed), clock
        self.brake, self.throttle, self.wheel = self.devices = (
            VirtualPedals("Quiet Brake", 1, (REST,), product=1),
            VirtualPedals("Quiet Throttle", 1, (REST,), product=2),
            VirtualPedals("Quiet Wheel", 2, (0.0, 0.0), product=3, buttons=4),
        )
        for device in self.devices:
            stack.enter_context(device)
        found = Devices()
        found.rescan()
        by_name = {device.identity.name: device for device in found.plugged}
        bound = (BoundAxis(by_name[one.name].identity, 0, ENDS) for one in self.devices[:2])
        self.rig = Rig(clock, Devices())
        if self.rig.bind(Binding(*bound), 1) is not None:
            raise RuntimeError("the virtual pedals cannot be bound")
        self.positions = {self.brake: 0.0, self.throttle: 0.0}

    @property
    def is_whole(self) -> bool:
        """Whether both pedals are plugged in."""
        return None not in (self.brake.instance_id, self.throttle.instance_id)

    def toggle(self, device: VirtualPedals) -> None:
        """Unplug a device, or plug it in."""
        if device.instance_id is None:
            device.plug()
            self.positions.update({device: 0.0} if device in self.positions else {})
        else:
            device.unplug()

    def move(self, device: VirtualPedals, percent: float) -> None:
        """Move a pedal, where it is plugged in."""
        if device.instance_id is not None:
            device.set(0, ENDS.raw(percent))
            self.positions[device] = percent

    def hear(self) -> bool:
        """Let the rig hear what came and went; whether that cut the pedals."""
        return bool(list(sdl_events())) and self.rig.rescan().cut

    def misread(self) -> Iterator[str]:
        """What is wrong with what the rig reads now."""
        sample = self.rig.sample()
        if not self.is_whole:
            if sample is not None:
                yield "a pedal that is unplugged is read"
            return
        if sample is None:
            yield "pedals that are plugged in are not read"
            return
        for name, device in (("brake", self.brake), ("throttle", self.throttle)):
            read, wanted = getattr(sample, name), self.positions[device]
            if abs(read - wanted) > NEAR:
                yield f"the {name} reads {read:.2f}, not {wanted:.2f}"


def shuffled(desk: Desk) -> Iterator[str]:
    """Let devices come, go and move, and look at what is read after each."""
    for _ in range(STEPS):
        for _ in range(desk.rng.randint(1, 3)):
            desk.toggle(desk.rng.choice(desk.devices))
        desk.hear()
        for device in (desk.brake, desk.throttle):
            desk.move(device, desk.rng.uniform(5, 95))
        list(sdl_events())
        yield from desk.misread()
    for device in desk.devices:
        if device.instance_id is None:
            desk.toggle(device)
    desk.hear()
    for device in (desk.brake, desk.throttle):
        desk.move(device, 0.0)


def played(desk: Desk) -> Iterator[str]:
    """Play a hold in which a device is unplugged in some phase, and plugged in again soon."""
    foot, audience, clock = Foot(), Audience(), desk.clock
    rng = np.random.default_rng(1)
    setting = Setting(desk.rig, a_stage(foot, audience), None, rng, lambda: DATE, levels=[FIRST])
    cut, victim = desk.rng.choice(CUT_IN), desk.rng.choice(desk.devices)
    flow, unplugged_at, tremble = run_set(FIRST, setting, 1), 0, TREMBLE
    scene = next(flow)
    scene.screen.on_focus(True, clock())
    while not audience.records and clock() < LONGEST:
        clock.advance(MILLISECOND)
        tremble = -tremble
        desk.move(desk.brake, foot.brake + tremble)
        if not unplugged_at and foot.phase is cut:
            desk.toggle(victim)
            unplugged_at = clock()
        elif victim.instance_id is None and clock() > unplugged_at + AWAY:
            desk.toggle(victim)
        if list(sdl_events()):
            replugging = desk.rig.rescan()
            scene.screen.on_devices(cut=replugging.cut)
        scene.screen.on_sample(desk.rig.sample(), clock())
        if scene.screen.outcome is not None:
            # The verdict comes as the flow goes on, be it to another screen or to its end.
            scene = next(flow, scene)
            scene.screen.on_focus(True, clock())
    flow.close()
    if not audience.records:
        yield f"no verdict on a repetition that was cut in the phase {cut.value}"
        return
    reason = audience.records[0][1].verdict.reason
    if (reason is Reason.UNPLUGGED) is (victim is desk.wheel):
        yield f"{victim.name} unplugged in the phase {cut.value}: told as {reason.value}"


def main(seed: int) -> None:
    """Shuffle the devices, play, and print what is wrong."""
    with joysticks_without_window(), ExitStack() as stack:
        desk = Desk(seed, ManualClock(), stack)
        for fault in (*shuffled(desk), *played(desk)):
            print(f"wrong: {fault}")


if __name__ == "__main__":
    main(int(sys.argv[1]))
