"""Pedals bound to devices on a joystick module: readings, silent axes, twins, replugging."""

from collections.abc import Mapping

import pytest

from drills.calibration import Range
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Changes, Missing
from engine.pedals.port import Reading
from engine.pedals.sdl import Devices, SdlPedals
from engine.stage.headless import ManualClock
from tests.engine.pedals.joysticks import FakeJoysticks, Pad, scanned

FULL = Range(-1.0, 1.0)
INVERTED = Range(1.0, -1.0)


def bound(devices: Devices, instance: int, axis: int, ends: Range = FULL) -> BoundAxis:
    """Bound axis of a device that is plugged in."""
    identity = devices.identity(instance)
    assert identity is not None
    return BoundAxis(identity, axis, ends)


def pedals_on(devices: Devices, **axes: tuple[int, int]) -> SdlPedals:
    """Pedals by name on (instance id, axis), connected, with a clock at 0."""
    pedals = unconnected(devices, **axes)
    assert pedals.connect() is None
    return pedals


def unconnected(devices: Devices, **axes: tuple[int, int]) -> SdlPedals:
    """Pedals by name on (instance id, axis)."""
    pedals = {name: bound(devices, *place) for name, place in axes.items()}
    binding = Binding(pedals["brake"], pedals["throttle"], pedals.get("clutch"))
    return SdlPedals(devices, binding, ManualClock())


def raw(pedals: SdlPedals) -> tuple[float, float] | None:
    """Brake and throttle of the current reading."""
    reading = pedals.read()
    return None if reading is None else (reading.brake, reading.throttle)


def test_connecting_pedals_keeps_the_buttons_of_the_wheel_and_closes_the_rest() -> None:
    wheel, other = Pad(0.0, name="Wheel", buttons=12), Pad(0.0, name="Stick")
    brake, throttle = Pad(-1.0, name="Brake"), Pad(-1.0, name="Throttle")
    devices = scanned(FakeJoysticks(wheel, other, brake, throttle))

    pedals_on(devices, brake=(2, 0), throttle=(3, 0))

    assert [pad.openings for pad in (wheel, other, brake, throttle)] == [1, 0, 1, 1]


def test_a_reading_has_the_bound_axes_and_the_time_after_they_were_read() -> None:
    pad = Pad(-1.0, -1.0, -1.0)
    devices = scanned(FakeJoysticks(pad))
    clock = ManualClock()
    clock.advance(77)
    binding = Binding(*(bound(devices, 0, axis) for axis in (2, 0, 1)))
    pedals = SdlPedals(devices, binding, clock)
    pedals.connect()
    for axis, value in enumerate((0.25, 0.5, 0.75)):
        pad.move(axis, value)

    reading = pedals.read()

    assert reading == Reading(77, brake=0.75, throttle=0.25, clutch=0.5)
    assert (pedals.name, pedals.is_feet) == ("pedals", True)


def test_without_a_clutch_a_reading_has_none() -> None:
    devices = scanned(FakeJoysticks(Pad(-0.5, 0.5)))

    reading = pedals_on(devices, brake=(0, 0), throttle=(0, 1)).read()

    assert reading == Reading(0, -0.5, 0.5, None)


def test_pedals_that_are_not_connected_give_no_reading() -> None:
    devices = scanned(FakeJoysticks(Pad(-1.0, -1.0)))

    assert unconnected(devices, brake=(0, 0), throttle=(0, 1)).read() is None


@pytest.mark.parametrize("ends", [FULL, INVERTED])
def test_an_axis_that_has_not_reported_yet_reads_at_rest(ends: Range) -> None:
    pad = Pad(ends.rest, ends.rest, opening=[0.0, 0.0])
    devices = scanned(FakeJoysticks(pad))
    binding = Binding(bound(devices, 0, 0, ends), bound(devices, 0, 1, ends))
    pedals = SdlPedals(devices, binding, ManualClock())
    pedals.connect()

    silent = raw(pedals)
    pad.move(0, 0.25)
    told = raw(pedals)
    pad.move(0, 0.0)
    passing = raw(pedals)

    assert silent == (ends.rest, ends.rest)
    assert told == (0.25, ends.rest)
    assert passing == (0.0, ends.rest)


def test_an_axis_that_has_reported_keeps_its_value_when_connected_again() -> None:
    pad, other = Pad(-1.0, -1.0), Pad(0.0, name="Other")
    joysticks = FakeJoysticks(pad)
    devices = scanned(joysticks)
    pedals = pedals_on(devices, brake=(0, 0), throttle=(0, 1))
    pedals.read()

    joysticks.plug(other)
    devices.rescan()
    connected = pedals.connect()
    pad.move(0, 0.0)

    assert connected is None
    assert raw(pedals) == (0.0, -1.0)
    assert other.openings == 0


def test_a_replugged_device_that_has_not_reported_yet_reads_at_rest() -> None:
    pad = Pad(-1.0, -1.0, opening=[0.0, 0.0])
    joysticks = FakeJoysticks(pad)
    devices = scanned(joysticks)
    pedals = pedals_on(devices, brake=(0, 0), throttle=(0, 1))
    pad.move(0, 0.5)
    before = raw(pedals)

    joysticks.replug(pad)
    devices.rescan()
    pedals.connect()

    assert before == (0.5, -1.0)
    assert raw(pedals) == (-1.0, -1.0)


def test_an_axis_of_a_device_that_was_closed_meanwhile_reads_at_rest_until_it_moves() -> None:
    pad = Pad(-1.0, -1.0, opening=[0.0, 0.0])
    devices = scanned(FakeJoysticks(pad))
    pedals = pedals_on(devices, brake=(0, 0), throttle=(0, 1))
    pad.move(0, 0.5)
    pad.move(1, 0.25)
    before = raw(pedals)

    devices.close_others([])
    closed = raw(pedals)
    devices.rescan()

    assert (before, closed, raw(pedals)) == ((0.5, 0.25), None, (-1.0, -1.0))


def test_pedals_give_no_reading_while_their_device_is_unplugged() -> None:
    pad = Pad(-1.0, -0.5)
    joysticks = FakeJoysticks(pad)
    devices = scanned(joysticks)
    pedals = pedals_on(devices, brake=(0, 0), throttle=(0, 1))

    joysticks.pull(pad)
    devices.rescan()
    away = (pedals.connect(), pedals.read())
    joysticks.plug(pad)
    devices.rescan()
    back = (pedals.connect(), raw(pedals))

    assert away == (Missing.ABSENT, None)
    assert back == (None, (-1.0, -0.5))


def test_pedals_on_two_devices_give_no_reading_while_one_is_unplugged() -> None:
    brake, throttle = Pad(-1.0, name="Brake"), Pad(-1.0, name="Throttle")
    joysticks = FakeJoysticks(brake, throttle)
    devices = scanned(joysticks)
    pedals = pedals_on(devices, brake=(0, 0), throttle=(1, 0))

    joysticks.pull(throttle)
    devices.rescan()

    assert (pedals.connect(), pedals.read()) == (Missing.ABSENT, None)


def test_a_twin_that_is_replugged_keeps_its_pedal_and_so_does_the_other() -> None:
    brake, throttle = Pad(-0.25), Pad(-0.5)
    joysticks = FakeJoysticks(brake, throttle)
    devices = scanned(joysticks)
    pedals = pedals_on(devices, brake=(0, 0), throttle=(1, 0))

    joysticks.replug(brake)
    devices.rescan()
    connected = pedals.connect()

    assert connected is None
    assert raw(pedals) == (-0.25, -0.5)


def test_twins_that_cannot_be_told_apart_are_not_read() -> None:
    brake, throttle = Pad(-0.25), Pad(-0.5)
    joysticks = FakeJoysticks(brake, throttle)
    devices = scanned(joysticks)
    pedals = pedals_on(devices, brake=(0, 0), throttle=(1, 0))

    joysticks.replug(brake)
    joysticks.replug(throttle)
    devices.rescan()

    assert (pedals.connect(), pedals.read()) == (Missing.AMBIGUOUS, None)


def losses(pedals: SdlPedals, changes: Changes) -> tuple[bool, bool]:
    """Whether pedals report a lost device, before and after connecting again."""
    before = pedals.lost(changes)
    pedals.connect()
    return before, pedals.lost(changes)


def test_a_device_lost_and_back_within_one_rescan_is_reported_before_and_after_connecting() -> None:
    pad = Pad(-1.0, -1.0)
    joysticks = FakeJoysticks(pad)
    devices = scanned(joysticks)
    pedals = pedals_on(devices, brake=(0, 0), throttle=(0, 1))

    joysticks.replug(pad)
    first = losses(pedals, devices.rescan())
    joysticks.replug(pad)
    second = losses(pedals, devices.rescan())
    none = losses(pedals, devices.rescan())

    assert (first, second, none) == ((True, True), (True, True), (False, False))


def test_another_device_that_comes_and_goes_is_not_reported() -> None:
    joysticks = FakeJoysticks(Pad(-1.0, -1.0))
    devices = scanned(joysticks)
    pedals = pedals_on(devices, brake=(0, 0), throttle=(0, 1))
    other = Pad(0.0, name="Other")

    joysticks.plug(other)
    come = losses(pedals, devices.rescan())
    joysticks.pull(other)
    gone = losses(pedals, devices.rescan())

    assert (come, gone) == ((False, False), (False, False))


@pytest.mark.parametrize("lost", [0, 1, 2])
def test_any_lost_bound_device_is_reported(lost: int) -> None:
    pads: Mapping[str, Pad] = {name: Pad(-1.0, name=name) for name in ("b", "t", "c")}
    joysticks = FakeJoysticks(*pads.values())
    devices = scanned(joysticks)
    pedals = pedals_on(devices, brake=(0, 0), throttle=(1, 0), clutch=(2, 0))

    joysticks.pull(list(pads.values())[lost])

    assert pedals.lost(devices.rescan())
