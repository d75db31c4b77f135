"""Devices of a joystick module: identities, plugging, opening and closing, axis values."""

import pytest

from engine.pedals.identity import Axis, Device, Identity
from engine.pedals.sdl import Devices
from tests.engine.pedals.joysticks import GUID, FakeJoysticks, Pad, scanned


def test_a_device_is_identified_by_its_model_and_its_place_among_twins() -> None:
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


def test_the_checksum_of_the_name_in_a_guid_is_ignored() -> None:
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
    pad.move(0, 0.5)

    identity = devices.identity(1)
    assert identity is not None
    assert identity.name == shown
    assert devices.value(Axis(1, 0)) == 0.5


def test_a_device_that_cannot_be_opened_is_left_out_and_others_are_not() -> None:
    jammed = Pad(0.0, name="Jammed")
    jammed.jam()

    devices = scanned(FakeJoysticks(Pad(0.0), jammed, Pad(0.0)))

    assert [device.id for device in devices.plugged] == [0, 2]
    assert set(devices.values()) == {Axis(0, 0), Axis(2, 0)}


def test_no_device_is_listed_before_the_first_rescan() -> None:
    devices = Devices(FakeJoysticks(Pad(0.0)))

    assert (devices.plugged, devices.values(), devices.identity(0)) == ((), {}, None)


def test_a_rescan_returns_which_devices_came_and_went() -> None:
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


def test_a_device_lost_and_back_between_two_rescans_is_in_both_lists() -> None:
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


def test_one_axis_reads_its_value_or_none_without_its_device() -> None:
    pad = Pad(0.25, -0.5)
    devices = scanned(FakeJoysticks(pad))

    pad.move(1, 0.125)

    assert devices.value(Axis(0, 1)) == 0.125
    assert devices.value(Axis(9, 1)) is None


def test_an_open_device_stays_open_through_a_rescan() -> None:
    pad = Pad(0.0, opening=[0.0])
    joysticks = FakeJoysticks(pad)
    devices = scanned(joysticks)
    pad.move(0, 0.5)

    joysticks.plug(Pad(0.0, name="Other"), place=0)
    devices.rescan()

    assert devices.value(Axis(0, 0)) == 0.5


def test_other_devices_without_buttons_are_closed() -> None:
    wheel, pedals, other = Pad(0.0, buttons=1), Pad(0.0, name="P"), Pad(0.0, name="O")
    devices = scanned(FakeJoysticks(other, wheel, pedals))

    devices.close_others([2])

    assert (other.openings, wheel.openings, pedals.openings) == (0, 1, 1)
    assert set(devices.values()) == {Axis(1, 0), Axis(2, 0)}
    assert [device.id for device in devices.plugged] == [0, 1, 2]


def test_a_closed_device_is_opened_again_by_the_next_rescan() -> None:
    pad = Pad(0.5)
    devices = scanned(FakeJoysticks(pad))
    devices.close_others([])
    closed = devices.value(Axis(0, 0))

    devices.rescan()

    assert closed is None
    assert devices.value(Axis(0, 0)) == 0.5
    assert pad.openings == 1


def test_an_unplugged_device_is_released() -> None:
    pad = Pad(0.5)
    joysticks = FakeJoysticks(pad)
    devices = scanned(joysticks)

    joysticks.pull(pad)
    devices.rescan()

    assert pad.openings == 0
