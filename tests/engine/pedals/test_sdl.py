"""Devices and bound pedals on a joystick module: plugs, unplugs, names, buttons, silent axes."""

from collections.abc import Mapping

import pytest

from engine.commands.demo import ManualClock
from engine.pedals.binding import Binding, BoundAxis
from engine.pedals.calibration import Range
from engine.pedals.identity import Axis, Changes, Device, Identity, Missing
from engine.pedals.port import Reading
from engine.pedals.sdl import Devices, SdlPedals
from tests.engine.pedals.joysticks import GUID, FakeJoysticks, Pad

FULL = Range(-1.0, 1.0)
INVERTED = Range(1.0, -1.0)


def scanned(joysticks: FakeJoysticks) -> Devices:
    """Devices that have looked once."""
    devices = Devices(joysticks)
    devices.rescan()
    return devices


def bound(devices: Devices, instance: int, axis: int, ends: Range = FULL) -> BoundAxis:
    """An axis of a device that is plugged in."""
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
    binding = Binding(**{name: bound(devices, *place) for name, place in axes.items()})
    return SdlPedals(devices, binding, ManualClock())


def raw(pedals: SdlPedals) -> tuple[float, float] | None:
    """Brake and throttle as they are read."""
    reading = pedals.read()
    return None if reading is None else (reading.brake, reading.throttle)


def test_every_device_is_told_by_model_and_place_among_its_twins() -> None:
    joysticks = FakeJoysticks(
        Pad(0.0, 0.0, name="Twin"),
        Pad(0.0, name="Single", guid="f" * 32),
        Pad(0.0, 0.0, name="Twin"),
        Pad(0.0, name="Twin"),
    )

    devices = scanned(joysticks)

    guid = "03006d04000099c2000011010000"
    assert devices.plugged == (
        Device(0, Identity(guid, "Twin", 2, ordinal=0, twins=2)),
        Device(1, Identity("f" * 28, "Single", 1, ordinal=0, twins=1)),
        Device(2, Identity(guid, "Twin", 2, ordinal=1, twins=2)),
        Device(3, Identity(guid, "Twin", 1, ordinal=0, twins=1)),
    )


def test_the_checksum_of_the_name_in_a_guid_tells_nothing_apart() -> None:
    one, other = (
        Pad(0.0, guid="0300" + "aaaa" + GUID[8:]),
        Pad(0.0, guid="0300" + "bbbb" + GUID[8:]),
    )

    devices = scanned(FakeJoysticks(one, other))

    assert [device.identity.twins for device in devices.plugged] == [2, 2]


@pytest.mark.parametrize("digit", [0, 3, 8, 31])
def test_every_other_digit_of_a_guid_tells_devices_apart(digit: int) -> None:
    changed = GUID[:digit] + "e" + GUID[digit + 1 :]

    devices = scanned(FakeJoysticks(Pad(0.0), Pad(0.0, guid=changed)))

    assert [device.identity.twins for device in devices.plugged] == [1, 1]


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        (b"Pedal \xff\xfe", "Pedal \\xff\\xfe"),
        (b"\xc3\xa9t\xc3", "\u00e9t\\xc3"),
        ("a\x1b[2Jb", "a\\x1b[2Jb"),
        ("", "unnamed device"),
    ],
)
def test_a_device_of_any_name_is_usable_and_its_name_can_be_shown(
    name: str | bytes, shown: str
) -> None:
    pad = Pad(-1.0, -1.0, name=name)

    devices = scanned(FakeJoysticks(Pad(0.0, name="Other"), pad))
    pedals = pedals_on(devices, brake=(1, 0), throttle=(1, 1))
    pad.move(0, 0.5)

    identity = devices.identity(1)
    assert identity is not None
    assert identity.name == shown
    assert raw(pedals) == (0.5, -1.0)


def test_a_device_that_cannot_be_opened_is_left_out_and_others_are_not() -> None:
    jammed = Pad(0.0, name="Jammed")
    jammed.jam()

    devices = scanned(FakeJoysticks(Pad(0.0), jammed, Pad(0.0)))

    assert [device.id for device in devices.plugged] == [0, 2]
    assert set(devices.values()) == {Axis(0, 0), Axis(2, 0)}


def test_nothing_is_known_before_the_first_look() -> None:
    devices = Devices(FakeJoysticks(Pad(0.0)))

    assert (devices.plugged, devices.values(), devices.identity(0)) == ((), {}, None)


def test_a_look_tells_what_came_and_what_went() -> None:
    one, two = Pad(0.0, name="One"), Pad(0.0, name="Two")
    joysticks = FakeJoysticks(one, two)
    devices = Devices(joysticks)

    first = devices.rescan()
    joysticks.pull(one)
    joysticks.plug(Pad(0.0, name="Three"))
    second = devices.rescan()
    third = devices.rescan()

    names = [
        [[device.identity.name for device in part] for part in changes]
        for changes in (first, second, third)
    ]
    assert names == [[["One", "Two"], []], [["Three"], ["One"]], [[], []]]
    assert second.lost == first.added[:1]


def test_a_device_lost_and_back_within_one_look_is_among_both() -> None:
    pad = Pad(0.0)
    joysticks = FakeJoysticks(pad)
    devices = scanned(joysticks)

    joysticks.replug(pad)
    changes = devices.rescan()

    assert ([device.id for device in changes.added], [device.id for device in changes.lost]) == (
        [1],
        [0],
    )


def test_an_identity_is_known_while_its_device_is_there() -> None:
    pad = Pad(0.0)
    joysticks = FakeJoysticks(pad, Pad(0.0, name="Other"))
    devices = scanned(joysticks)
    there = devices.identity(0)

    joysticks.pull(pad)
    devices.rescan()

    assert there == Identity("03006d04000099c2000011010000", "Pedals", 1, 0, 1)
    assert devices.identity(0) is None


def test_every_axis_of_every_device_is_read() -> None:
    joysticks = FakeJoysticks(Pad(0.25, -0.5), Pad(), Pad(0.75))

    values = scanned(joysticks).values()

    assert values == {Axis(0, 0): 0.25, Axis(0, 1): -0.5, Axis(2, 0): 0.75}


def test_one_axis_reads_what_it_is_at_and_nothing_where_its_device_is_not_there() -> None:
    pad = Pad(0.25, -0.5)
    devices = scanned(FakeJoysticks(pad))

    pad.move(1, 0.125)

    assert devices.value(Axis(0, 1)) == 0.125
    assert devices.value(Axis(9, 1)) is None


def test_an_open_device_stays_open_through_a_look() -> None:
    pad = Pad(0.0, opening=[0.0])
    joysticks = FakeJoysticks(pad)
    devices = scanned(joysticks)
    pad.move(0, 0.5)

    joysticks.plug(Pad(0.0, name="Other"), place=0)
    devices.rescan()

    assert devices.value(Axis(0, 0)) == 0.5


def test_devices_without_buttons_that_are_not_kept_are_closed() -> None:
    wheel, pedals, other = Pad(0.0, buttons=1), Pad(0.0, name="P"), Pad(0.0, name="O")
    devices = scanned(FakeJoysticks(other, wheel, pedals))

    devices.keep([2])

    assert (other.openings, wheel.openings, pedals.openings) == (0, 1, 1)
    assert set(devices.values()) == {Axis(1, 0), Axis(2, 0)}
    assert [device.id for device in devices.plugged] == [0, 1, 2]


def test_a_closed_device_is_open_again_after_the_next_look() -> None:
    pad = Pad(0.5)
    devices = scanned(FakeJoysticks(pad))
    devices.keep([])
    closed = devices.value(Axis(0, 0))

    devices.rescan()

    assert closed is None
    assert devices.value(Axis(0, 0)) == 0.5
    assert pad.openings == 1


def test_a_lost_device_is_let_go_of() -> None:
    pad = Pad(0.5)
    joysticks = FakeJoysticks(pad)
    devices = scanned(joysticks)

    joysticks.pull(pad)
    devices.rescan()

    assert pad.openings == 0


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
    axes = {"brake": 2, "throttle": 0, "clutch": 1}
    binding = Binding(**{name: bound(devices, 0, axis) for name, axis in axes.items()})
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
def test_an_axis_that_has_told_nothing_yet_reads_at_rest(ends: Range) -> None:
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


def test_an_axis_that_has_told_something_goes_on_through_connecting_anew() -> None:
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


def test_a_replugged_device_that_has_told_nothing_yet_reads_at_rest() -> None:
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


def test_pedals_read_nothing_while_their_device_is_away_and_go_on_when_it_is_back() -> None:
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


def test_pedals_on_two_devices_read_nothing_while_one_is_away() -> None:
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
    """Whether pedals say that they lost a device, before and after connecting anew."""
    before = pedals.lost(changes)
    pedals.connect()
    return before, pedals.lost(changes)


def test_a_device_lost_and_back_within_one_look_is_told_before_and_after_connecting() -> None:
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


def test_another_device_that_comes_and_goes_breaks_nothing() -> None:
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
def test_any_bound_device_that_is_lost_is_told(lost: int) -> None:
    pads: Mapping[str, Pad] = {name: Pad(-1.0, name=name) for name in ("b", "t", "c")}
    joysticks = FakeJoysticks(*pads.values())
    devices = scanned(joysticks)
    pedals = pedals_on(devices, brake=(0, 0), throttle=(1, 0), clutch=(2, 0))

    joysticks.pull(list(pads.values())[lost])

    assert pedals.lost(devices.rescan())
