"""Attending to pedals without a window: they go, come back, and it is over."""

import time

import pygame

from drills.calibration import Range
from drills.trace import Sample
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices
from engine.stage.unseen import attend_windowless, no_window
from tests.rig import VirtualPedals

ENDS = Range(-1.0, 1.0)


def test_pedals_that_are_pulled_out_are_told_of_and_read_again_when_they_are_back() -> None:
    looks: list[float | None] = []
    cuts: list[int] = []
    with no_window(), VirtualPedals() as pedals:
        rig = Rig(time.perf_counter_ns, Devices(pygame.joystick, choosing=False))
        rig.rescan()
        assert rig.devices is not None
        brake, throttle = (BoundAxis(rig.devices.plugged[0].identity, n, ENDS) for n in (0, 1))
        rig.bind(Binding(brake, throttle))
        pedals.set(0, 0.5)
        steps = {3: pedals.unplug, 6: pedals.plug, 8: lambda: pedals.set(0, 0.0)}

        def look(sample: Sample | None, _: int) -> None:
            looks.append(None if sample is None else sample.brake)
            steps.get(len(looks), lambda: None)()

        attend_windowless(rig, look, lambda: cuts.append(len(looks)), lambda: len(looks) == 10)

    assert looks == [75.0, 75.0, 75.0, None, None, None, 0.0, 0.0, 50.0, 50.0]
    assert cuts == [3]
