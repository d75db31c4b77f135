"""The shift button beside the pedals: pressed, too short to be seen, unplugged, and among twins."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.calibration import Range
from drills.trace import Grid, TraceBuilder, nanoseconds
from engine.pedals.bound import Binding, BoundAxis, BoundButton
from engine.pedals.identity import DeviceButton, Missing
from engine.pedals.rig import SHIFT_GONE, Rig
from engine.pedals.sdl import Devices
from engine.stage.headless import ManualClock
from tests.engine.pedals.joysticks import FakeJoysticks, Pad

ENDS = Range(-1.0, 1.0)
PADDLE = 4


def pedal_pad() -> Pad:
    """Pedals without a button."""
    return Pad(-1.0, -1.0)


def shifter(name: str = "Shifter") -> Pad:
    """A shifter, which has buttons and not one axis."""
    return Pad(name=name, guid="e" * 32, buttons=6)


class Played:
    """A rig whose pedals are on the first of some devices, and whose shift button on another."""

    def __init__(self, *pads: Pad, on: int = 1, button: int = PADDLE) -> None:
        """`on` is the place of the device with the button."""
        self.clock = ManualClock()
        self.joysticks = FakeJoysticks(*pads)
        self.rig = Rig(self.clock, Devices(self.joysticks))
        self.rig.rescan()
        assert self.rig.devices is not None
        pedals, device = (self.rig.devices.plugged[place].identity for place in (0, on))
        axes = [BoundAxis(pedals, axis, ENDS) for axis in (0, 1)]
        self.binding = Binding(*axes, shift=BoundButton(device, button))
        self.trouble = self.rig.bind(self.binding)

    def shift(self, after: float = 0.01) -> bool | None:
        """Whether the shift button is down in the sample some seconds later."""
        self.clock.advance(nanoseconds(after))
        sample = self.rig.sample()
        assert sample is not None
        return sample.shift


def test_a_sample_tells_whether_the_button_is_down() -> None:
    lever = shifter()
    played = Played(pedal_pad(), lever)

    states = []
    for down in (set(), {PADDLE}, {PADDLE, 1}, {1}):
        lever.down = down
        states.append(played.shift())

    assert states == [False, True, True, False]
    assert played.rig.has_shift


def test_without_a_bound_button_a_sample_has_no_shift() -> None:
    clock = ManualClock()
    rig = Rig(clock, Devices(FakeJoysticks(pedal_pad(), shifter())))
    rig.rescan()
    assert rig.devices is not None
    pedals = rig.devices.plugged[0].identity
    rig.bind(Binding(*(BoundAxis(pedals, axis, ENDS) for axis in (0, 1))))

    sample = rig.sample()

    assert sample is not None
    assert sample.shift is None
    assert not rig.has_shift


def test_a_press_that_ends_before_the_next_reading_is_in_that_reading() -> None:
    played = Played(pedal_pad(), shifter())

    taken = played.rig.takes(DeviceButton(1, PADDLE))

    assert taken
    assert [played.shift(), played.shift()] == [True, False]


def test_a_press_reads_as_down_for_two_milliseconds_and_a_held_one_no_longer() -> None:
    lever = shifter()
    played = Played(pedal_pad(), lever)

    lever.down = {PADDLE}
    short = [played.shift(0.0005)]
    lever.down = set()
    short += [played.shift(after) for after in (0.0015, 0.0005)]
    lever.down = {PADDLE}
    held = [played.shift(0.01), played.shift(0.01)]
    lever.down = set()
    held.append(played.shift(0.0005))

    assert short == [True, True, False]
    assert held == [True, True, False]


def test_a_press_just_before_the_shifter_was_unplugged_is_none_after_that() -> None:
    lever = shifter()
    played = Played(pedal_pad(), lever)

    played.rig.takes(Button(1, PADDLE))
    played.joysticks.replug(lever)
    played.rig.rescan()

    assert played.shift() is False


@given(
    reads=st.lists(st.floats(0.0003, 0.02), min_size=91, max_size=91),
    presses=st.sets(st.sampled_from(range(0, 90, 18)), min_size=1),
)
def test_no_press_however_short_is_lost_on_the_grid(reads: list[float], presses: set[int]) -> None:
    played = Played(pedal_pad(), shifter())
    builder = TraceBuilder()

    for number, after in enumerate(reads):
        if number in presses:
            played.rig.takes(DeviceButton(1, PADDLE))
        played.clock.advance(nanoseconds(after))
        sample = played.rig.sample()
        assert sample is not None
        builder.add(sample)

    shift = Grid.of(builder.trace()).shift
    assert shift is not None
    rises = int((shift[1:] > shift[:-1]).sum() + (shift[0] > 0))
    assert rises == len(presses)


def test_another_button_is_no_shift() -> None:
    played = Played(pedal_pad(), shifter())

    taken = [played.rig.takes(button) for button in (DeviceButton(1, 3), DeviceButton(0, PADDLE))]

    assert taken == [False, False]
    assert played.shift() is False


def test_the_device_of_the_button_stays_open_where_no_buttons_choose() -> None:
    lever, other = shifter(), Pad(0.0, name="Other", guid="f" * 32, buttons=3)
    played = Played(pedal_pad(), lever, other)
    devices = Devices(played.joysticks, choosing=False)
    rig = Rig(played.clock, devices)

    rig.bind(played.binding)

    assert [len(devices.button_counts), rig.has_shift] == [2, True]


def test_pedals_go_on_while_the_shifter_is_unplugged_and_every_screen_says_so() -> None:
    lever = shifter()
    played = Played(pedal_pad(), lever)

    played.joysticks.pull(lever)
    cut = played.rig.rescan().cut

    assert not cut
    assert played.rig.trouble is None
    assert played.shift() is None
    assert (played.rig.has_shift, played.rig.means.note) == (False, SHIFT_GONE)


def test_a_shifter_that_is_plugged_in_again_is_read_again() -> None:
    lever = shifter()
    played = Played(pedal_pad(), lever)
    played.joysticks.pull(lever)
    played.rig.rescan()
    played.joysticks.plug(lever)

    played.rig.rescan()
    lever.down = {PADDLE}

    assert played.shift() is True
    assert played.rig.means.note == ""


def test_pedals_are_bound_without_their_shifter() -> None:
    lever = shifter()
    played = Played(pedal_pad(), lever)
    played.joysticks.pull(lever)
    rig = Rig(played.clock, Devices(played.joysticks))

    trouble = rig.bind(played.binding)

    assert trouble is None
    assert rig.shift == played.binding.shift
    assert not rig.has_shift


def test_of_two_like_shifters_the_bound_one_is_read() -> None:
    first, second = shifter(), shifter()
    played = Played(pedal_pad(), first, second, on=2)
    states = []

    for down in (first, second):
        first.down, second.down = set(), set()
        down.down = {PADDLE}
        states.append(played.shift())

    assert states == [False, True]


def test_a_twin_that_comes_back_is_not_taken_for_the_bound_shifter() -> None:
    first, second = shifter(), shifter()
    played = Played(pedal_pad(), first, second, on=2)
    played.joysticks.replug(first)
    played.rig.rescan()

    first.down = {PADDLE}
    by_twin = played.shift()
    second.down = {PADDLE}

    assert [by_twin, played.shift()] == [False, True]


def test_a_button_on_the_device_of_the_pedals_is_read() -> None:
    wheel = Pad(-1.0, -1.0, name="Wheel", buttons=9)
    played = Played(wheel, on=0)

    wheel.down = {PADDLE}

    assert played.shift() is True


def test_the_loss_of_the_pedals_is_told_as_before() -> None:
    pad = pedal_pad()
    played = Played(pad, shifter())

    played.joysticks.pull(pad)

    assert played.rig.rescan().cut
    assert played.rig.trouble is Missing.ABSENT


@pytest.mark.parametrize(("button", "choose"), [(0, False), (2, False), (3, True)])
def test_buttons_are_named_in_hints_only_where_all_of_them_choose(
    button: int, choose: bool
) -> None:
    played = Played(pedal_pad(), shifter(), button=button)

    assert played.rig.means.buttons is choose


def test_buttons_of_another_wheel_still_choose() -> None:
    wheel = Pad(0.0, name="Wheel", guid="f" * 32, buttons=9)
    played = Played(pedal_pad(), shifter(), wheel, button=0)

    assert played.rig.means.buttons


def test_while_a_shift_button_is_sought_every_press_is_taken_and_none_chooses() -> None:
    played = Played(pedal_pad(), shifter())

    played.rig.seek_shift(seek=True)
    taken = played.rig.takes(DeviceButton(1, 0))
    sought = played.rig.pressed, played.rig.means.buttons
    played.rig.seek_shift(seek=False)

    assert played.binding.shift is not None
    assert (taken, *sought) == (True, replace(played.binding.shift, button=0), False)
    assert not played.rig.takes(DeviceButton(1, 0))
    assert played.rig.pressed is None
