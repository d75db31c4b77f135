"""The rig: its pedals and devices as devices are plugged in and out."""

import pytest

from drills.calibration import COUNTS, UNIT, Calibration, Range
from drills.trace import Pedal, Sample
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.finder import Found
from engine.pedals.identity import Axis, Missing
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.sdl import Devices
from engine.stage.headless import ManualClock
from tests.engine.pedals.feet import without_counts
from tests.engine.pedals.joysticks import FakeJoysticks, Pad
from tests.fakes import Steady

ENDS = Range(-1.0, 1.0)


def plugged(*pads: Pad) -> tuple[FakeJoysticks, Rig]:
    """Rig whose devices are plugged in and scanned once."""
    joysticks = FakeJoysticks(*pads)
    rig = Rig(ManualClock(), Devices(joysticks))
    rig.rescan()
    return joysticks, rig


def binding_of(rig: Rig, clutch: bool = False) -> Binding:
    """Binding of brake, throttle and perhaps clutch on the first device."""
    assert rig.devices is not None
    device = rig.devices.plugged[0].identity
    axes = [BoundAxis(device, axis, ENDS) for axis in range(3)]
    return Binding(axes[0], axes[1], axes[2] if clutch else None)


def test_bound_pedals_are_read_in_percent() -> None:
    _, rig = plugged(Pad(0.5, -0.5, -1.0))

    trouble = rig.bind(binding_of(rig))

    assert trouble is None
    assert (rig.source, rig.is_feet) == ("pedals", True)
    assert rig.sample() == Sample(0, 75.0, 25.0, counts=(COUNTS // 2, -COUNTS // 2))


def test_pedals_that_are_not_plugged_in_are_not_bound() -> None:
    pad = Pad(-1.0, -1.0)
    joysticks, rig = plugged(pad)
    binding = binding_of(rig)
    joysticks.pull(pad)
    rig.rescan()

    assert rig.bind(binding) is Missing.ABSENT
    assert (rig.pedals, rig.source, rig.is_feet) == (None, "", False)
    assert rig.sample() is None


def test_a_rig_without_devices_binds_nothing_and_reports_no_changes() -> None:
    clock = ManualClock()
    _, other = plugged(Pad(-1.0, -1.0))
    rig = Rig(clock, pedals=CalibratedPedals(Steady(clock, 0.6), UNIT))

    assert rig.bind(binding_of(other)) is Missing.ABSENT
    assert rig.rescan().changes == ((), ())
    assert rig.values() == {}
    assert without_counts(rig.sample()) == Sample(0, 60.0, 0.0)


@pytest.mark.parametrize(("clutch", "count"), [(False, 2), (True, 3)])
def test_a_rig_has_a_clutch_if_one_is_bound(clutch: bool, count: int) -> None:
    _, rig = plugged(Pad(-1.0, -1.0, -1.0))

    before = rig.there
    rig.bind(binding_of(rig, clutch))

    assert before == {Pedal.BRAKE, Pedal.THROTTLE}
    assert len(rig.there) == count


def test_unplugged_pedals_are_reported_and_read_again_once_back() -> None:
    pad = Pad(-1.0, -1.0)
    joysticks, rig = plugged(pad)
    rig.bind(binding_of(rig))

    joysticks.pull(pad)
    gone, while_gone = rig.rescan(), rig.sample()
    joysticks.plug(pad)
    back = rig.rescan()

    assert (gone.cut, back.cut) == (True, False)
    assert while_gone is None
    assert without_counts(rig.sample()) == Sample(0, 0.0, 0.0)


def test_pedals_unplugged_and_back_between_two_rescans_are_reported_and_read_again() -> None:
    pad = Pad(-1.0, -1.0)
    joysticks, rig = plugged(pad)
    rig.bind(binding_of(rig))

    joysticks.replug(pad)
    found = rig.rescan()

    assert found.cut
    assert (len(found.changes.added), len(found.changes.lost)) == (1, 1)
    assert rig.sample() is not None


def test_another_device_that_comes_and_goes_cuts_nothing() -> None:
    joysticks, rig = plugged(Pad(-1.0, -1.0))
    rig.bind(binding_of(rig))
    other = Pad(0.0, name="Wheel", guid="03000000c31c000099c2000011010000")

    joysticks.plug(other)
    came = rig.rescan()
    joysticks.pull(other)
    went = rig.rescan()

    assert (came.cut, went.cut) == (False, False)
    assert len(came.changes.added) == len(went.changes.lost) == 1


def test_looking_for_pedals_opens_every_device_and_playing_closes_those_not_bound() -> None:
    _, rig = plugged(Pad(-1.0, -1.0), Pad(0.25, name="Other", guid="0" * 32))
    rig.bind(binding_of(rig))
    pedals, playing = rig.pedals, set(rig.values())

    rig.play_with(None)
    looking = set(rig.values())
    rig.play_with(pedals)

    assert playing == {Axis(0, 0), Axis(0, 1)}
    assert looking == {Axis(0, 0), Axis(0, 1), Axis(1, 0)}
    assert set(rig.values()) == playing


def test_the_pedals_in_use_keep_their_calibration() -> None:
    clock = ManualClock()
    scale = Calibration(Range(0.0, 0.5), Range(0.0, 1.0))
    rig = Rig(clock)

    rig.play_with(CalibratedPedals(Steady(clock, 0.25), scale))

    assert without_counts(rig.sample()) == Sample(0, 50.0, 0.0)
    assert rig.pedals is not None
    assert rig.pedals.calibration == scale


def test_twins_that_were_both_replugged_cannot_be_told_apart() -> None:
    pads = Pad(-1.0), Pad(-1.0)
    joysticks, rig = plugged(*pads)
    assert rig.devices is not None
    brake, throttle = (device.identity for device in rig.devices.plugged)
    rig.bind(Binding(BoundAxis(brake, 0, ENDS), BoundAxis(throttle, 0, ENDS)))

    for pad in pads:
        joysticks.pull(pad)
    rig.rescan()
    gone = rig.trouble
    for pad in pads:
        joysticks.plug(pad)
    rig.rescan()

    assert (gone, rig.trouble) == (Missing.ABSENT, Missing.AMBIGUOUS)
    assert rig.sample() is None


@pytest.mark.parametrize("clutch", [False, True])
def test_the_axes_of_bound_pedals_are_given_while_they_are_plugged_in(clutch: bool) -> None:
    pad = Pad(-1.0, -1.0, -1.0)
    joysticks, rig = plugged(pad)
    unbound = rig.bound
    rig.bind(binding_of(rig, clutch))

    bound = rig.bound
    joysticks.pull(pad)
    rig.rescan()

    assert (unbound, rig.bound) == ({}, {})
    pedals = list(Pedal) if clutch else [Pedal.BRAKE, Pedal.THROTTLE]
    assert bound == {pedal: Found(Axis(0, axis), ENDS) for axis, pedal in enumerate(pedals)}


def test_a_mouse_is_bound_to_no_device() -> None:
    _, rig = plugged(Pad(-1.0, -1.0))
    rig.play_with(CalibratedPedals(Steady(ManualClock(), 0.6), UNIT))

    assert rig.bound == {}
