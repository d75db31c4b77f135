"""Which devices are opened, and how often, on fake joysticks that count it."""

from drills.calibration import Range
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Axis, Identity, short_guid
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices, Unopened
from engine.stage.headless import ManualClock
from tests.engine.pedals.joysticks import GUID, FakeJoysticks, OpenPad, Pad

OTHER, THIRD = "e" * 32, "f" * 32
FULL = Range(-1.0, 1.0)


def pedals() -> Pad:
    """Device of two axes that pedals are bound to."""
    return Pad(-1.0, -1.0)


def bound(*pads: Pad, choosing: bool) -> tuple[FakeJoysticks, Rig]:
    """Rig that is bound to the first device, and was never asked to look for pedals."""
    joysticks = FakeJoysticks(*pads)
    rig = Rig(ManualClock(), Devices(joysticks, choosing=choosing))
    identity = Identity(short_guid(GUID), "Pedals", 2, ordinal=0, twins=1)
    assert rig.bind(Binding(BoundAxis(identity, 0, FULL), BoundAxis(identity, 1, FULL))) is None
    return joysticks, rig


def test_pedals_are_bound_without_opening_anything_else() -> None:
    wheel, shifter = Pad(0.0, guid=OTHER, buttons=9), Pad(0.0, guid=THIRD)
    joysticks, rig = bound(pedals(), wheel, shifter, choosing=False)

    joysticks.replug(wheel)
    joysticks.plug(Pad(0.0, guid=THIRD), place=0)
    rig.rescan()

    assert (wheel.opened, shifter.opened) == (0, 0)
    assert rig.devices is not None
    assert set(rig.devices.values()) == {Axis(0, 0), Axis(0, 1)}


def test_in_the_game_a_device_is_opened_for_its_buttons_and_one_without_only_to_learn_it() -> None:
    wheel, shifter = Pad(0.0, guid=OTHER, buttons=9), Pad(0.0, guid=THIRD)
    joysticks, rig = bound(pedals(), wheel, shifter, choosing=True)

    for pad in (wheel, shifter):
        joysticks.replug(pad)
    rig.rescan()

    assert rig.devices is not None
    assert rig.devices.buttons == {short_guid(GUID): False, "e" * 28: True, "f" * 28: False}
    assert (wheel.opened, wheel.openings) == (2, 1)
    assert (shifter.opened, shifter.openings) == (1, 0)


def test_a_device_that_is_known_to_have_no_buttons_is_not_opened_in_the_game() -> None:
    wheel, shifter = Pad(0.0, guid=OTHER, buttons=9), Pad(0.0, guid=THIRD)
    devices = Devices(FakeJoysticks(pedals(), wheel, shifter))
    devices.recall({"e" * 28: True, "f" * 28: False})

    devices.rescan({short_guid(GUID)})

    assert (wheel.opened, shifter.opened) == (1, 0)
    assert [device.id for device in devices.plugged] == [0, 1]


def test_a_device_that_turns_out_to_have_no_buttons_is_closed_at_once() -> None:
    shifter = Pad(0.0, guid=THIRD)
    devices = Devices(FakeJoysticks(pedals(), shifter))

    devices.rescan({short_guid(GUID)})

    assert (shifter.opened, shifter.openings) == (1, 0)
    assert [device.id for device in devices.plugged] == [0, 1]


def test_a_device_stays_known_to_have_buttons_though_another_of_its_guid_has_none() -> None:
    devices = Devices(FakeJoysticks(Pad(0.0, buttons=9), Pad(0.0, name="Other")))

    devices.rescan()

    assert devices.buttons == {short_guid(GUID): True}


def test_every_device_is_opened_while_pedals_are_looked_for() -> None:
    pads = pedals(), Pad(0.0, guid=OTHER, buttons=9), Pad(0.0, guid=THIRD)
    _, rig = bound(*pads, choosing=True)

    rig.play_with(None)

    assert [pad.openings for pad in pads] == [1, 1, 1]


def test_a_device_that_is_open_is_not_opened_again() -> None:
    pad, wheel = pedals(), Pad(0.0, guid=OTHER, buttons=9)
    joysticks, rig = bound(pad, wheel, choosing=True)

    joysticks.plug(Pad(0.0, guid=THIRD), place=0)
    rig.rescan()
    rig.play_with(None)

    assert (pad.opened, wheel.opened) == (1, 1)


def test_another_model_of_a_bound_guid_is_opened_and_closed_again() -> None:
    other = Pad(0.0, guid=GUID[:4] + "0000" + GUID[8:], name="Other")

    bound(pedals(), other, choosing=False)

    assert (other.opened, other.openings) == (1, 0)


class Moving(FakeJoysticks):
    """Joysticks of which the first is unplugged between listing and opening."""

    first: Pad | None = None

    def open_device(self, index: int, /) -> OpenPad:
        """Unplug the first device, then open the device at a place."""
        if self.first is not None:
            self.pull(self.first)
            self.first = None
        return super().open_device(index)


def test_a_device_that_moved_to_the_place_of_another_is_not_taken_for_it() -> None:
    shifter, pad, wheel = Pad(0.0, guid=THIRD), pedals(), Pad(0.0, guid=OTHER)
    joysticks = Moving(shifter, pad, wheel)
    joysticks.first = shifter
    devices = Devices(joysticks, choosing=False)

    devices.rescan({short_guid(GUID)})
    moved = devices.values(), wheel.openings
    devices.rescan({short_guid(GUID)})

    assert moved == ({}, 0)
    assert set(devices.values()) == {Axis(1, 0), Axis(1, 1)}


def test_devices_that_cannot_be_opened_are_named_if_they_are_needed() -> None:
    held, unneeded = Pad(0.0, name="Held"), Pad(0.0, name="Unneeded", guid=OTHER)
    held.jam()
    unneeded.jam()
    joysticks = FakeJoysticks(pedals(), held, unneeded, denied=["Unreadable"])
    devices = Devices(joysticks, choosing=False)

    devices.rescan({short_guid(GUID)})
    bound_ones = devices.unopened
    devices.rescan()

    unreadable = Unopened("Unreadable", denied=True)
    assert bound_ones == (Unopened("Held", denied=False), unreadable)
    assert devices.unopened == (*bound_ones[:1], Unopened("Unneeded", denied=False), unreadable)


def test_a_device_that_cannot_be_opened_any_more_is_not_listed_any_more() -> None:
    pad = pedals()
    devices = Devices(FakeJoysticks(pad))
    devices.rescan()
    devices.close_others([])
    pad.jam()

    changes = devices.rescan()

    assert [device.id for device in changes.lost] == [0]
    assert devices.plugged == ()


def test_a_bound_device_that_cannot_be_opened_again_is_missing() -> None:
    pad = pedals()
    joysticks, rig = bound(pad, choosing=False)
    joysticks.pull(pad)
    pad.jam()
    joysticks.plug(pad)

    rig.rescan()

    assert rig.sample() is None
    assert rig.trouble is not None
