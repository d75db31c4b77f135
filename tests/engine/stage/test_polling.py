"""Polling without a window: pedals are unplugged and plugged in again."""

import time
from collections.abc import Callable

import pygame
import pytest

from drills.calibration import Range
from drills.trace import Sample
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Identity
from engine.pedals.listing import Joystick, SdlJoysticks
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices
from engine.stage.loop import PERIODS
from engine.stage.polling import LATE, joysticks_without_window, poll_without_window, wait
from engine.stage.scene import Pace
from tests.rig import VirtualPedals

ENDS = Range(-1.0, 1.0)


def test_unplugged_pedals_are_reported_and_read_again_once_they_are_plugged_in() -> None:
    looks: list[float | None] = []
    cuts: list[int] = []
    with joysticks_without_window(), VirtualPedals() as pedals:
        rig = Rig(time.perf_counter_ns, Devices(choosing=False))
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


class CountedJoysticks:
    """pygame.joystick, with the names of the devices that were opened, in order."""

    def __init__(self) -> None:
        self.opened: list[str] = []

    def get_count(self) -> int:
        """Number of devices plugged in."""
        return pygame.joystick.get_count()

    def Joystick(self, index: int, /) -> Joystick:  # noqa: N802 (pygame's name)
        """Open a device and note its name."""
        joystick = pygame.joystick.Joystick(index)
        self.opened.append(joystick.get_name())
        return joystick


def test_only_bound_pedals_are_opened_whatever_is_plugged_in_meanwhile() -> None:
    counted = CountedJoysticks()
    looks: list[float | None] = []
    with joysticks_without_window(), VirtualPedals("Wheel", product=2, buttons=9) as wheel:
        wheel.leave()
        with VirtualPedals("Pedals"), VirtualPedals("Shifter", product=3) as shifter:
            shifter.leave()
            rig = Rig(time.perf_counter_ns, Devices(SdlJoysticks(counted), choosing=False))
            [_, listed, _] = SdlJoysticks().listed()
            identity = Identity(listed.guid, "Pedals", 3, ordinal=0, twins=1)
            assert rig.bind(Binding(*(BoundAxis(identity, axis, ENDS) for axis in (0, 1)))) is None
            steps: dict[int, Callable[[], object]] = {
                2: wheel.unplug,
                3: lambda: wheel.plug().leave(),
                5: shifter.unplug,
            }

            def look(sample: Sample | None, _: int) -> None:
                looks.append(None if sample is None else sample.brake)
                if len(looks) in steps:
                    steps[len(looks)]()

            poll_without_window(rig, look, lambda: None, lambda: len(looks) == 8)

    assert looks == [0.0] * 8
    assert counted.opened == ["Pedals"]


@pytest.mark.parametrize(("late", "caught_up"), [(0, True), (LATE - 1, True), (LATE, False)])
def test_a_deadline_that_was_missed_is_caught_up_with_unless_it_is_a_frame_old(
    late: int, caught_up: bool
) -> None:
    deadline = 5_000_000

    assert wait(lambda: deadline + late, deadline) == (deadline if caught_up else deadline + late)


def test_pedals_are_read_the_more_often_the_more_depends_on_their_timing() -> None:
    periods = [PERIODS[pace] for pace in (Pace.DARK, Pace.LIVE, Pace.ROAD, Pace.STILL)]

    assert periods == sorted(set(periods))
    # 2000 readings a second in the dark: twice as many as a pedal of 1000 Hz reports.
    assert periods[0] == 500_000
