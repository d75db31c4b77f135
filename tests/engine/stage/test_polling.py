"""Polling without a window: pedals are unplugged and plugged in again."""

import time
from collections.abc import Callable

import pygame

from drills.calibration import Range
from drills.trace import Sample
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices
from engine.stage.polling import joysticks_without_window, poll_without_window
from tests.rig import VirtualPedals

ENDS = Range(-1.0, 1.0)


def test_unplugged_pedals_are_reported_and_read_again_once_they_are_plugged_in() -> None:
    looks: list[float | None] = []
    cuts: list[int] = []
    with joysticks_without_window(), VirtualPedals() as pedals:
        rig = Rig(time.perf_counter_ns, Devices(pygame.joystick, choosing=False))
        rig.rescan()
        assert rig.devices is not None
        brake, throttle = (BoundAxis(rig.devices.plugged[0].identity, n, ENDS) for n in (0, 1))
        rig.bind(Binding(brake, throttle))
        pedals.set(0, 0.5)
        steps: dict[int, Callable[[], object]] = {
            3: pedals.unplug,
            6: pedals.plug,
            8: lambda: pedals.set(0, 0.0),
        }

        def look(sample: Sample | None, _: int) -> None:
            looks.append(None if sample is None else sample.brake)
            if len(looks) in steps:
                steps[len(looks)]()

        poll_without_window(rig, look, lambda: cuts.append(len(looks)), lambda: len(looks) == 10)

    assert looks == [75.0, 75.0, 75.0, None, None, None, 0.0, 0.0, 50.0, 50.0]
    assert cuts == [3]
