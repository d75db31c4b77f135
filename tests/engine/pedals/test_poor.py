"""Sources of poor hardware: creeping, saturating, coarse, noisy and slow, by known amounts."""

from itertools import pairwise

import numpy as np
import pytest

from drills.calibration import UNIT, Calibration, Range, counts_of
from drills.phases import Event, Phase, Transition
from drills.trace import SECOND, Pedal
from engine.pedals.poor import Coarse, Creeping, Noisy, Saturating, Seldom
from engine.pedals.port import Reading, Source
from engine.stage.headless import ManualClock
from tests.fakes import MILLISECOND, Steady
from tests.made import BLIP_TASK
from tests.moving import Ramp

INVERTED = Calibration(Range(1.0, -1.0), Range(1.0, -1.0))
STEP = 1 / 32768


def read(source: Source, clock: ManualClock, seconds: float) -> list[Reading]:
    """Readings of a source, one a millisecond."""
    readings = []
    for _ in range(round(seconds * 1000)):
        clock.advance(MILLISECOND)
        reading = source.read()
        assert reading is not None
        readings.append(reading)
    return readings


def test_creeping_pedals_read_more_each_repetition() -> None:
    clock = ManualClock()
    source = Creeping(Steady(clock, 0.6), UNIT, a_repetition=0.5)
    found = []

    for _ in range(3):
        source.on_task(BLIP_TASK)
        source.on_transition(Transition(Event.OVER, Phase.DONE, clock()))
        [reading] = read(source, clock, 0.001)
        found.append((reading.brake, reading.throttle))

    assert found == [
        pytest.approx((0.6 + crept, crept), abs=STEP) for crept in (0.005, 0.010, 0.015)
    ]


def test_one_pedal_may_creep_alone() -> None:
    clock = ManualClock()
    source = Creeping(Steady(clock, 0.6), UNIT, a_repetition=2.0, pedals=[Pedal.THROTTLE])
    source.on_task(BLIP_TASK)

    [reading] = read(source, clock, 0.001)

    assert reading.brake == 0.6
    assert reading.throttle == pytest.approx(0.02, abs=STEP)


def test_creeping_pedals_read_more_each_minute_also_on_an_inverted_axis() -> None:
    clock = ManualClock()
    source = Creeping(Steady(clock, 0.5, lambda _: 1.0), INVERTED, a_minute=1.0)

    first = source.read()
    clock.advance(120 * SECOND)
    last = source.read()

    assert first is not None
    assert last is not None
    assert last.brake == pytest.approx(first.brake - 0.04, abs=STEP)
    assert last.throttle == pytest.approx(1.0 - 0.04, abs=STEP)


def test_an_axis_that_ends_too_early_cuts_the_brake_alone() -> None:
    clock = ManualClock()
    source = Saturating(Ramp(clock), UNIT, 30.0)

    readings = read(source, clock, 10.0)

    foot = [Ramp(clock).at(reading.time) for reading in readings]
    assert max(reading.brake for reading in readings) == pytest.approx(0.3, abs=STEP)
    assert [reading.brake for reading in readings] == pytest.approx(
        [min(one.brake, 0.3) for one in foot], abs=STEP
    )
    assert [reading.throttle for reading in readings] == [one.throttle for one in foot]


@pytest.mark.parametrize("bits", [4, 8, 10])
def test_a_coarse_device_has_so_many_places_and_is_half_a_step_off_at_most(bits: int) -> None:
    clock = ManualClock()
    source = Coarse(Ramp(clock), UNIT, bits)

    readings = read(source, clock, 20.0)

    step = 1 / (2**bits - 1)
    off = [reading.brake - Ramp(clock).at(reading.time).brake for reading in readings]
    assert max(map(abs, off)) <= step / 2 + STEP
    places = np.unique([reading.brake for reading in readings])
    assert len(places) == pytest.approx(0.6 / step, abs=1.5)
    assert all(counts_of([place]) is not None for place in places.tolist())


@pytest.mark.parametrize("noise", [0.2, 2.0])
def test_noise_has_its_standard_deviation_and_no_bias(noise: float) -> None:
    clock = ManualClock()
    source = Noisy(Steady(clock, 0.6, lambda _: 0.4), UNIT, noise, seed=5)

    readings = read(source, clock, 4.0)

    brake = np.array([reading.brake for reading in readings])
    throttle = np.array([reading.throttle for reading in readings])
    assert [brake.std(), throttle.std()] == pytest.approx([noise / 100] * 2, rel=0.05)
    assert [brake.mean(), throttle.mean()] == pytest.approx([0.6, 0.4], abs=noise / 100 / 10)
    assert abs(np.corrcoef(brake, throttle)[0, 1]) < 0.1


def test_the_same_seed_makes_the_same_noise() -> None:
    def noise(seed: int) -> list[Reading]:
        clock = ManualClock()
        return read(Noisy(Steady(clock, 0.6), UNIT, 1.0, seed), clock, 0.1)

    assert noise(5) == noise(5) != noise(6)


@pytest.mark.parametrize("rate", [20.0, 60.0, 125.0, 1000.0])
def test_a_slow_device_reports_so_often_and_what_was_true_then(rate: float) -> None:
    clock = ManualClock()
    source = Seldom(Ramp(clock), rate, seed=2)

    readings = read(source, clock, 10.0)

    changes = sum(one.brake != next_.brake for one, next_ in pairwise(readings))
    assert changes / 10 == pytest.approx(rate, rel=0.02)
    oldest = max(Ramp(clock).at(one.time).brake - one.brake for one in readings)
    assert oldest <= 0.03 * (1 / rate + 0.001) + STEP


@pytest.mark.parametrize("devices", [1, 2])
def test_two_devices_report_at_times_of_their_own(devices: int) -> None:
    clock = ManualClock()

    readings = read(Seldom(Ramp(clock), 50.0, seed=3, devices=devices), clock, 2.0)

    brake, throttle = (
        {at for at in range(1, len(readings)) if pedal[at] != pedal[at - 1]}
        for pedal in (
            [one.brake for one in readings],
            [one.throttle for one in readings],
        )
    )
    assert (brake == throttle) == (devices == 1)
    assert len(throttle) == pytest.approx(100, abs=1)
