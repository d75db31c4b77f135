"""Sources of readings, and their calibration."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.calibration import COUNTS, UNIT, Calibration, Range
from drills.foot import SimulatedFoot
from drills.phases import Event, Phase, Transition
from drills.task import Signal, Task
from drills.trace import SECOND, Sample, nanoseconds
from engine.pedals.mouse import MOUSE_TRAVEL, MousePedals
from engine.pedals.port import CalibratedPedals, Reading
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.headless import ManualClock
from tests.engine.pedals.feet import without_counts
from tests.fakes import Steady, Unplugged
from tests.made import HOLD_TASK


def simulated(clock: ManualClock, seed: int) -> SimulatedPedals:
    """Pedals of a simulated foot of medium skill."""
    return SimulatedPedals(SimulatedFoot(0.5, seed), clock)


def brake_to(target: float) -> Task:
    """Task of a hold at a target in %."""
    return replace(HOLD_TASK, target=target)


def begin(pedals: SimulatedPedals, task: Task) -> None:
    """Begin a repetition, up to the release of the brake."""
    pedals.on_task(task)
    pedals.on_transition(Transition(Event.FREED, Phase.APPROACH, 0))


def two_seconds(seed: int) -> list[Reading]:
    """Readings of a foot that holds 60 % and answers a cue after a second."""
    clock = ManualClock()
    pedals = simulated(clock, seed)
    begin(pedals, brake_to(60.0))
    readings = []
    for ms in range(2000):
        if ms == 1000:
            pedals.on_transition(Transition(Event.CUE, Phase.ACT, 0, 0, Signal.CUE))
        clock.advance(nanoseconds(0.001))
        readings.append(pedals.read())
    return readings


def test_feet_give_percent_of_the_range_at_the_time_of_the_reading() -> None:
    clock = ManualClock()
    clock.advance(1234)
    scale = Calibration(brake=Range(0.2, 0.7), throttle=Range(1.0, 0.0))
    feet = CalibratedPedals(Steady(clock, 0.45, lambda _: 0.75), scale)

    sample = feet.sample()

    assert sample is not None
    assert (sample.time, sample.clutch) == (1234, None)
    assert sample.brake == pytest.approx(50.0)
    assert sample.throttle == pytest.approx(25.0)


@pytest.mark.parametrize(
    ("scale", "raw", "percent"),
    [(Range(-1.0, 1.0), 0.5, 75.0), (Range(-1.0, 1.0), None, None), (None, 0.5, None)],
)
def test_feet_have_a_clutch_where_both_source_and_scale_have_one(
    scale: Range | None, raw: float | None, percent: float | None
) -> None:
    class ThreePedals:
        name = "three"
        is_feet = True
        counts = True
        label = ""

        def read(self) -> Reading:
            return Reading(5, 0.25, 0.0, raw)

    feet = CalibratedPedals(ThreePedals(), Calibration(UNIT.brake, UNIT.throttle, scale))

    sample = feet.sample()

    assert without_counts(sample) == Sample(5, 25.0, 0.0, percent)


def test_feet_without_a_device_give_no_sample() -> None:
    clock = ManualClock()
    feet = CalibratedPedals(Unplugged(Steady(clock, 0.5), clock, at=10), UNIT)
    before = feet.sample()

    clock.advance(10)

    assert without_counts(before) == Sample(0, 50.0, 0.0)
    assert feet.sample() is None


@pytest.mark.parametrize(("pressed", "throttle"), [(False, 0.0), (True, 1.0)])
def test_the_mouse_brakes_by_height_and_gives_throttle_by_its_button(
    pressed: bool, throttle: float
) -> None:
    clock = ManualClock()
    clock.advance(77)
    mouse = MousePedals(lambda: (0.625, pressed), clock)

    reading = mouse.read()

    assert reading == Reading(77, 0.625, throttle, None)


def test_a_simulated_foot_of_one_seed_reads_the_same_and_of_another_not() -> None:
    first, again, other = two_seconds(4), two_seconds(4), two_seconds(5)

    assert first == again
    assert first != other


def test_a_simulated_foot_holds_its_target_and_blips_after_a_cue() -> None:
    readings = two_seconds(4)

    before = readings[700:1000]
    assert all(abs(reading.brake - 0.6) < 0.08 for reading in before)
    assert all(reading.throttle == 0.0 for reading in before)
    assert max(reading.throttle for reading in readings[1000:]) > 0.25


def test_a_simulated_device_has_steps_as_a_real_one_of_12_bits_has() -> None:
    readings = two_seconds(4)

    steps = [raw * 32768 / 8 for reading in readings for raw in (reading.brake, reading.throttle)]

    assert all(step.is_integer() and 0 <= step <= 4095 for step in steps)
    assert len(set(steps)) > 100


def test_a_simulated_foot_all_the_way_down_reads_100_percent() -> None:
    clock = ManualClock()
    pedals = simulated(clock, 3)
    feet = CalibratedPedals(pedals, SIMULATED_TRAVEL)
    rest = feet.sample()

    begin(pedals, brake_to(300.0))
    clock.advance(2 * SECOND)
    full = feet.sample()

    assert without_counts(rest) == Sample(0, 0.0, 0.0, 0.0)
    assert without_counts(full) == Sample(2 * SECOND, 100.0, 0.0, 0.0)
    assert pedals.read().brake == 4095 * 8 / 32768
    assert SIMULATED_TRAVEL.throttle.percent(4095 * 8 / 32768) == 100.0


@given(height=st.floats(0.0, 1.0))
def test_the_mouse_gives_whole_counts_within_half_a_count_of_its_height(height: float) -> None:
    mouse = MousePedals(lambda: (height, False), ManualClock())

    raw = mouse.read().brake

    assert (raw * COUNTS).is_integer()
    assert abs(raw - height) <= 0.5 / COUNTS


@pytest.mark.parametrize(("height", "percent"), [(0.0, 0.0), (0.5, 50.0), (1.0, 100.0)])
def test_the_mouse_brakes_from_the_bottom_of_the_window_to_its_top(
    height: float, percent: float
) -> None:
    feet = CalibratedPedals(MousePedals(lambda: (height, True), ManualClock()), MOUSE_TRAVEL)

    sample = feet.sample()

    assert without_counts(sample) == Sample(0, percent, 100.0)


def test_an_axis_of_16_bits_has_32768_counts_from_its_middle_to_its_end() -> None:
    assert COUNTS == 32768


def test_a_simulated_foot_moves_on_between_readings() -> None:
    often, seldom = ManualClock(), ManualClock()
    read_often, read_seldom = simulated(often, 9), simulated(seldom, 9)
    for pedals in (read_often, read_seldom):
        begin(pedals, brake_to(45.0))

    for _ in range(1500):
        often.advance(nanoseconds(0.001))
        last = read_often.read()
    seldom.advance(nanoseconds(1.5))

    assert read_seldom.read() == last


@pytest.mark.parametrize("event", [event for event in Event if event is not Event.CUE])
def test_a_simulated_foot_answers_nothing_but_a_cue(event: Event) -> None:
    clock = ManualClock()
    pedals = simulated(clock, 3)
    begin(pedals, brake_to(60.0))

    pedals.on_transition(Transition(event, Phase.WAIT, 0))
    throttles = []
    for _ in range(150):
        clock.advance(nanoseconds(0.010))
        throttles.append(pedals.read().throttle)

    assert throttles == [0.0] * 150


def test_a_simulated_foot_waits_at_a_menu_and_then_holds_the_brake_past_half() -> None:
    clock = ManualClock()
    pedals = simulated(clock, 3)
    begin(pedals, brake_to(60.0))
    clock.advance(1 * SECOND)
    pedals.read()

    pedals.on_menu()
    clock.advance(nanoseconds(7.99))
    waiting = pedals.read().brake
    clock.advance(nanoseconds(1.01))
    agreeing = [pedals.read().brake]
    clock.advance(1 * SECOND)
    agreeing.append(pedals.read().brake)

    assert waiting < 0.02
    assert min(agreeing) > 0.6


def test_a_new_task_cancels_the_choice_in_the_menu() -> None:
    clock = ManualClock()
    pedals = simulated(clock, 3)

    pedals.on_menu()
    begin(pedals, brake_to(30.0))
    clock.advance(9 * SECOND)

    assert pedals.read().brake == pytest.approx(0.3, abs=0.06)
