"""How fast a repetition is judged, against the same quantities from general-purpose libraries.

    python tests/bench/measures.py [ROUNDS [SECONDS]]

One repetition of 10 s at 1 kHz with three blips goes through grid, measures and score, and in the
same run through control, scipy.signal and scipy.integrate: the median of ROUNDS times (101). Then
recordings of 10 s to 1 h, or of SECONDS at most.
"""

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

import control
import numpy as np
from scipy import integrate, interpolate, optimize, signal

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.judging import pulses_on  # noqa: E402
from drills.measures.blip import find_blips  # noqa: E402
from drills.measures.device import DeviceHistory, Watched, device_fault  # noqa: E402
from drills.measures.disturbance import measure_run  # noqa: E402
from drills.measures.jumps import without_jumps  # noqa: E402
from drills.measures.runs import measure_recording  # noqa: E402
from drills.measures.sampling import measure_sampling, report_interval  # noqa: E402
from drills.score import weigh  # noqa: E402
from drills.trace import STEP, Grid, Trace  # noqa: E402

ROUNDS = 101
LENGTHS = (10, 60, 600, 3600)
"""Seconds, lengths of the recordings."""
LIMITS = {"dip": 15.0, "surge": 15.0, "settle": 0.6}
BLIPS = (3.0, 4.6, 6.2)  # s, onsets of the blips
BEFORE = DeviceHistory((70.0, 70.0), 0.1, (0.001,))


def repetition(seconds: int, seed: int = 3) -> Trace:
    """Three blips in every ten seconds, with a dip, a rebound and some noise."""
    rng = np.random.default_rng(seed)
    time_s = np.arange(seconds * 1000) / 1000
    phase = time_s % 10
    throttle = np.zeros(time_s.size)
    brake = 60 + rng.normal(0, 0.3, time_s.size)
    for onset in BLIPS:
        since = phase - onset
        throttle += np.where((since > 0) & (since < 0.25), 80 * np.sin(np.pi * since / 0.25), 0)
        late = since - 0.04
        brake -= np.where(late > 0, 20 * np.exp(-late / 0.15) * np.sin(12 * late), 0)
    return Trace(np.arange(time_s.size, dtype=np.int64) * STEP, brake, throttle)


def ours(trace: Trace) -> None:
    """The whole verdict."""
    grid = Grid.of(trace)
    run = measure_run(grid, find_blips(grid))
    measures = {name: getattr(run, name) for name in LIMITS}
    weigh(measures, LIMITS)
    measure_sampling(trace, int(trace.time[0]))


def pedals(trace: Trace) -> None:
    """What the pedals did: jumps, pulses, reports, faults."""
    clean, jumps = without_jumps(trace)
    pulses = tuple(pulses_on(Grid.of(clean)))
    watched = Watched(clean, int(trace.time[0]), int(trace.time[-1]), pulses, jumps)
    device_fault(watched, BEFORE)
    BEFORE.after(clean, report_interval(clean, pulses))


def theirs(trace: Trace) -> None:
    """The same quantities, each from the library function that a person would reach for."""
    seconds = trace.time / 1e9
    grid = np.arange(seconds.size) / 1000
    throttle = interpolate.interp1d(seconds, trace.throttle, kind="previous")(grid)
    brake = interpolate.interp1d(seconds, trace.brake, kind="previous")(grid)
    peaks, _ = signal.find_peaks(throttle, height=15, distance=200)
    for share in (0.1, 0.5, 0.9):
        signal.peak_widths(throttle, peaks, share)
    for peak in peaks:
        start, stop = peak - 225, peak + 1125
        base = brake[start - 400 : start].mean()
        change, time_s = brake[start:stop] - base, grid[: stop - start]
        control.step_info(brake[start:stop], time_s, yfinal=base, SettlingTimeThreshold=0.08)
        reach = throttle[start - 250 : stop + 100]
        products = signal.correlate(reach, change, "valid")
        powers = signal.correlate(reach**2, np.ones(change.size), "valid")
        likeness = np.abs(products) / np.sqrt(powers * (change @ change))
        best = int(np.argmax(likeness))
        optimize.curve_fit(lambda x, gain: gain * x, reach[best : best + change.size], change)
        integrate.simpson(np.maximum(-change, 0), dx=0.001)
        integrate.simpson(np.maximum(change, 0), dx=0.001)
        slowing = 9.80665 * np.minimum(1, brake[start:stop] / base)
        speed = 40 - integrate.cumulative_trapezoid(slowing, dx=0.001, initial=0)
        integrate.simpson(speed, dx=0.001)


def middle(work: Callable[[Trace], object], trace: Trace, rounds: int) -> float:
    """Median time of the work in ms."""
    times = []
    for _ in range(rounds):
        began = time.perf_counter()
        work(trace)
        times.append(1000 * (time.perf_counter() - began))
    return statistics.median(times)


def main() -> None:
    """Print the tables."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS
    longest = int(sys.argv[2]) if len(sys.argv) > 2 else LENGTHS[-1]
    trace = repetition(10)
    ours(trace)
    theirs(trace)
    fast, slow = middle(ours, trace, rounds), middle(theirs, trace, rounds)
    print(f"whole verdict    {fast:8.3f} ms   aim: under 2")
    print(f"pedals judged    {middle(pedals, trace, rounds):8.3f} ms   aim: under 1 more")
    print(f"libraries        {slow:8.3f} ms")
    print(f"ratio            {slow / fast:8.2f}      aim: at least 5")
    print("recording      ms   ms a second of it")
    for seconds in (one for one in LENGTHS if one <= longest):
        long = repetition(seconds)
        took = middle(measure_recording, long, 3)
        print(f"{seconds:7d} s {took:9.1f} {took / seconds:10.4f}")


if __name__ == "__main__":
    main()
