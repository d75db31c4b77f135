"""How well a repetition was sampled."""

from dataclasses import replace

import numpy as np
import pytest

from drills.measures.blip import Pulse
from drills.measures.sampling import (
    Sampling,
    interval_in_pulses,
    measure_sampling,
    report_interval,
)
from drills.trace import Trace
from tests.drills.shapes import near


def trace(times: list[int], brake: list[float]) -> Trace:
    """A trace of brake at times in ms."""
    values = np.array(brake, dtype=float)
    return Trace(np.array(times, dtype=np.int64) * 1_000_000, values, np.zeros(len(times)))


def test_a_steady_reading_has_its_rate_gap_and_step() -> None:
    read = trace([0, 8, 16, 24, 32], [50.0, 50.5, 51.0, 50.5, 52.0])

    assert measure_sampling(read, 0) == Sampling(
        rate=near(125), gap_p99=0.008, gap_max=0.008, resolution=0.5, report_interval=None
    )


def test_a_long_gap_shows_in_the_longest_and_not_in_the_rest_of_a_hundred() -> None:
    times = [*range(300), *range(340, 640)]

    sampling = measure_sampling(trace(times, [0.0] * 600), 0)

    assert sampling.gap_max == 0.041
    assert sampling.gap_p99 == 0.001


def test_only_gaps_inside_the_measured_window_count() -> None:
    read = trace([0, 100, 101, 102], [0.0, 1, 2, 3])

    sampling = measure_sampling(read, opens=100_000_000)

    assert sampling.gap_max == 0.001
    assert sampling.rate == pytest.approx(3 / 0.102)


def test_the_resolution_is_the_smallest_step_seen_and_a_repeat_is_none() -> None:
    sampling = measure_sampling(trace([0, 1, 2, 3], [10.0, 10.0, 30.0, 29.75]), 0)

    assert sampling.resolution == 0.25


def test_too_little_to_tell_is_said_as_none() -> None:
    assert measure_sampling(trace([5], [50.0]), 0) == Sampling(None, None, None, None, None)
    assert measure_sampling(trace([0, 9], [50.0, 50.0]), 9_000_000) == Sampling(
        rate=near(1 / 0.009),
        gap_p99=None,
        gap_max=None,
        resolution=None,
        report_interval=None,
    )


def read_every_ms(changes: list[int], clutch: bool = False) -> Trace:
    """A device read every ms for 2 s whose brake, or clutch, changes at these ms."""
    values = np.cumsum(np.isin(np.arange(2000), changes)).astype(float)
    still, time = np.zeros(2000), np.arange(2000, dtype=np.int64) * 1_000_000
    return Trace(time, still, still, values) if clutch else Trace(time, values, still)


@pytest.mark.parametrize("clutch", [False, True])
@pytest.mark.parametrize(
    ("changes", "interval"),
    [
        (list(range(8, 2000, 8)), 0.008),
        (list(range(1, 2000)), 0.001),
        (list(range(100, 181, 8)), 0.008),
        (list(range(100, 180, 8)), None),
        (list(range(10, 2000, 50)), 0.050),
        ([*range(100, 181, 8), *range(431, 1900, 250)], 0.008),
        ([*range(100, 181, 8), *range(300, 1900, 100)], 0.100),
        ([], None),
    ],
)
def test_without_a_pulse_a_device_reports_as_often_as_its_values_change(
    changes: list[int], interval: float | None, clutch: bool
) -> None:
    sampling = measure_sampling(read_every_ms(changes, clutch), 0)

    assert sampling.report_interval == pytest.approx(interval)
    assert sampling.rate == pytest.approx(1000)


def blipped(every: int, times: int) -> tuple[Trace, Pulse]:
    """A device whose throttle changes so many times in a pulse from 1 s on, every so many ms."""
    changes = np.arange(1000, 1000 + every * times, every)
    throttle = 5.0 * np.isin(np.arange(2000), changes).cumsum()
    end = 1000 + every * times
    throttle[end:] = 0.0
    brake = np.where(np.arange(2000) // 2 % 2 == 1, 0.1, 0.0)
    trace = Trace(np.arange(2000, dtype=np.int64) * 1_000_000, brake, throttle)
    return trace, Pulse(1000, end, 1.0, end / 1000, 5.0 * times, 0.1, 0.1, 0.1)


@pytest.mark.parametrize(("every", "times"), [(8, 30), (16, 12), (50, 4)])
def test_in_a_pulse_the_throttle_tells_how_often_a_device_reports(every: int, times: int) -> None:
    trace, pulse = blipped(every, times)

    assert report_interval(trace, [pulse]) == pytest.approx(every / 1000)


def test_a_pulse_with_too_few_changes_leaves_it_to_the_other_pedals() -> None:
    trace, pulse = blipped(50, 3)

    assert report_interval(trace, [pulse]) == 0.002


def test_changes_outside_the_pulses_and_from_one_to_the_next_do_not_count() -> None:
    trace, pulse = blipped(8, 30)
    first, second = (replace(pulse, onset=onset, end=onset + 0.02) for onset in (1.0, 1.16))

    assert interval_in_pulses(trace, [first, second]) == 0.008
    assert interval_in_pulses(trace, [first]) is None
