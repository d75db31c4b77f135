"""The measures written a second time, literally and slowly, to compare the real ones with.

Lists and loops over grid points (1 ms each); every position is the index of one.
"""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

Samples = Sequence[tuple[int, float, float]]
Measures = dict[str, Any]

STEP = 1_000_000  # ns between grid points
A0, V0, V1 = 9.80665, 40.0, 20.0  # m/s², m/s, m/s


def mean(values: Sequence[float]) -> float:
    """The plain mean."""
    return math.fsum(values) / len(values)


def grid(samples: Samples) -> tuple[list[float], list[float]]:
    """Brake and throttle at every ms: the newest sample at or before it, up to the last sample."""
    first, last = samples[0][0], samples[-1][0]
    brake, throttle, newest = [], [], 0
    for point in range((last - first) // STEP + 1):
        while newest + 1 < len(samples) and samples[newest + 1][0] <= first + point * STEP:
            newest += 1
        brake.append(samples[newest][1])
        throttle.append(samples[newest][2])
    return brake, throttle


def hold(window: Sequence[float], target: float, tolerance: float) -> Measures:
    """Every measure of a hold over one window."""
    n, middle = len(window), mean(window)
    spread = math.sqrt(mean([(v - middle) ** 2 for v in window]))
    time = [point * 0.001 for point in range(n)]
    half = mean(time)
    rise = math.fsum((t - half) * (v - middle) for t, v in zip(time, window, strict=True))
    return {
        "mean": middle,
        "constant_error": middle - target,
        "variable_error": spread,
        "total_error": math.sqrt(mean([(v - target) ** 2 for v in window])),
        "cv": spread / middle if middle > 0 else None,
        "swing": max(window) - min(window),
        "in_band": sum(abs(v - target) <= tolerance for v in window) / n,
        "drift": rise / math.fsum((t - half) ** 2 for t in time),
        "tremor": tremor([v - middle for v in window]) if n >= 1000 else None,
    }


def tremor(centred: Sequence[float]) -> float:
    """Root of the power of the bins from 8 to 12 Hz, each of them a sum of cosines and sines."""
    n = len(centred)
    power = []
    for bin_ in range(n // 2 + 1):
        if 8 * n <= 1000 * bin_ <= 12 * n:
            turns = [math.tau * (bin_ * point % n) / n for point in range(n)]
            real = math.fsum(v * math.cos(a) for v, a in zip(centred, turns, strict=True))
            odd = math.fsum(v * math.sin(a) for v, a in zip(centred, turns, strict=True))
            power.append(2 * (real**2 + odd**2) / n**2)
    return math.sqrt(math.fsum(power))


def floor_of(brake: Sequence[float], throttle: Sequence[float]) -> float:
    """The 5th percentile of the throttle at grid points with brake at 10 % or more."""
    braked = [t for b, t in zip(brake, throttle, strict=True) if b >= 10]
    return float(np.percentile(braked, 5)) if braked else 0.0


def candidates(throttle: Sequence[float], floor: float) -> list[tuple[int, int]]:
    """From 10 % above the floor to under 5 % above it; one open at the end is left out."""
    found, start = [], None
    for point, value in enumerate(throttle):
        if start is None and value >= floor + 10:
            start = point
        elif start is not None and value < floor + 5:
            found.append((start, point))
            start = None
    return found


def wide(throttle: Sequence[float], blip: tuple[int, int], floor: float) -> bool:
    """Whether a candidate is 30 points wide or more at half its height above the floor."""
    peak = max(throttle[blip[0] : blip[1]])
    top = blip[0] + list(throttle[blip[0] : blip[1]]).index(peak)
    first, after = stretch(throttle, top, floor + (peak - floor) / 2)
    return after - first >= 30


def before(values: Sequence[float], point: int) -> Sequence[float]:
    """What there is of the window from 0.5 to 0.1 s before a point."""
    return values[max(0, point - 500) : max(0, point - 100)]


def pressed(throttle: Sequence[float], floor: float) -> list[tuple[int, int]]:
    """Candidates of at least 15 %, at most 1.0 s, and not too narrow."""
    return [
        (start, stop)
        for start, stop in candidates(throttle, floor)
        if max(throttle[start:stop]) >= floor + 15
        and stop - start <= 1000
        and wide(throttle, (start, stop), floor)
    ]


def blips(brake: Sequence[float], throttle: Sequence[float]) -> list[tuple[int, int]]:
    """Blips with 10 % of brake in the 0.1 s before."""
    return [
        (start, stop)
        for start, stop in pressed(throttle, floor_of(brake, throttle))
        if start > 0 and mean(brake[max(0, start - 100) : start]) >= 10
    ]


def let_go(brake: Sequence[float]) -> bool:
    """Whether the brake is under 5 % at a hundred points in a row."""
    row = 0
    for value in brake:
        row = row + 1 if value < 5 else 0
        if row == 100:
            return True
    return False


def groups(brake: Sequence[float], found: Sequence[tuple[int, int]]) -> list[list[tuple[int, int]]]:
    """Blips within 2.0 s of the start before, the brake not let go between, are one run."""
    runs: list[list[tuple[int, int]]] = []
    for blip in found:
        near = runs and blip[0] - runs[-1][-1][0] <= 2000
        if near and not let_go(brake[runs[-1][-1][1] : blip[0]]):
            runs[-1].append(blip)
        else:
            runs.append([blip])
    return runs


def stretch(values: Sequence[float], at: int, level: float) -> tuple[int, int]:
    """The unbroken stretch around a point that is at or past a level."""
    first = after = at
    while first > 0 and values[first - 1] >= level:
        first -= 1
    while after < len(values) and values[after] >= level:
        after += 1
    return first, after


def pulse(throttle: Sequence[float], blip: tuple[int, int], rest: float) -> Measures | None:
    """Timing of one blip, onset and end as points; None where its peak is not above rest."""
    peak = max(throttle[blip[0] : blip[1]])
    top = blip[0] + list(throttle[blip[0] : blip[1]]).index(peak)
    tall = peak - rest
    if tall <= 0:
        return None
    onset, end = stretch(throttle, top, rest + 0.1 * tall)
    half, after_half = stretch(throttle, top, rest + 0.5 * tall)
    high = [point for point in range(onset, end) if throttle[point] >= rest + 0.9 * tall]
    return {
        "onset": onset,
        "end": end,
        "peak": peak,
        "width": (after_half - half) / 1000,
        "rise": (high[0] - onset) / 1000,
        "fall": (end - high[-1]) / 1000,
    }


def pulses(throttle: Sequence[float], run: Sequence[tuple[int, int]]) -> list[Measures] | None:
    """The pulses of a run; of those that share one onset the highest, the first of equals."""
    if not before(throttle, run[0][0]):
        return None
    rest = mean(before(throttle, run[0][0]))
    distinct: list[Measures] = []
    for blip in run:
        shape = pulse(throttle, blip, rest)
        if shape is None:
            return None
        if not distinct or shape["onset"] > distinct[-1]["onset"]:
            distinct.append(shape)
        elif shape["peak"] > distinct[-1]["peak"]:
            distinct[-1] = shape
    return distinct


def stop_of(brake: Sequence[float], end: int, following: int | None) -> int:
    """1.0 s past the end, 0.1 s before the next onset, the release, or the end of the trace."""
    stop = min(end + 1000, len(brake))
    if following is not None:
        stop = min(stop, following - 100)
    for point in range(end + 1, stop):
        if brake[point] < 5:
            return point
    return stop


def settle(brake: Sequence[float], onset: int, stop: int, base: float, band: float) -> float | None:
    """From onset to where the brake, once out of the band, first stays in it for 0.25 s."""
    inside = [abs(brake[point] - base) <= band for point in range(onset, stop)]
    if all(inside):
        return 0.0
    for point in range(inside.index(False), len(inside)):
        if len(inside) - point >= 250 and all(inside[point : point + 250]):
            return point / 1000
    return None


def coupling(change: Sequence[float], throttle: Sequence[float], rest: float, first: int) -> Any:
    """Gain by lag in s, of every lag whose likeness is the best or within 1e-9 of it."""
    y = np.array(change)
    raised = np.concatenate([np.zeros(2000), np.array(throttle) - rest, np.zeros(2000)])
    likeness, gains = {}, {}
    for lag in range(-100, 251):
        x = raised[2000 + first - lag :][: y.size]
        if (x @ x) > 0 and (y @ y) > 0:
            likeness[lag] = abs(x @ y) / math.sqrt((x @ x) * (y @ y))
            gains[lag / 1000] = x @ y / (x @ x)
    best = max(likeness.values(), default=0.0)
    return {lag / 1000: gains[lag / 1000] for lag, r in likeness.items() if r >= best - 1e-9}


def extra_distance(
    window: Sequence[float], base: Sequence[float], speed: float
) -> tuple[float, float]:
    """Extra metres down to V1, and the speed left, ms by ms with constant deceleration in each."""
    metres = [-(speed**2 - V1**2) / (2 * A0)]
    for value, full in zip(window, base, strict=True):
        slowing = A0 * min(1.0, value / full)
        left = speed - slowing * 0.001
        if left <= V1:
            metres.append((speed**2 - V1**2) / (2 * slowing))
            return math.fsum(metres), V1
        metres.append(speed * 0.001 - slowing * 0.001**2 / 2)
        speed = left
    return math.fsum([*metres, (speed**2 - V1**2) / (2 * A0)]), speed
