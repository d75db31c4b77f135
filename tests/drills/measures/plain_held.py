"""Blips against the brake held before them, written a second time as the page of definitions says.

Positions are indices of grid points, 1 ms each.
"""

import math
from collections.abc import Sequence
from typing import Any

from tests.drills.measures.plain import (
    V0,
    Measures,
    before,
    blips,
    coupling,
    extra_distance,
    groups,
    mean,
    pulses,
    settle,
    stop_of,
)


def disturbance(
    brake: Sequence[float],
    window: tuple[int, int],
    onset: int,
    peak: float,
    base: float,
    band: float,
) -> Measures:
    """What one blip did to the brake in its window, but for coupling and distance."""
    first, stop = window
    seen = list(brake[first:stop])
    least = seen.index(min(seen))
    return {
        "dip": max(0.0, base - seen[least]),
        "dip_at": (first + least - onset) / 1000,
        "dip_at_50": max(0.0, base - seen[least]) * 50 / peak,
        "rebound": max(0.0, max(seen[least:]) - base),
        "surge": max(0.0, max(seen) - base),
        "surge_at": (first + seen.index(max(seen)) - onset) / 1000,
        "offset": mean(seen[-200:]) - base,
        "swing": max(seen) - min(seen),
        "settle": settle(brake, onset, stop, base, band),
        "shortfall": math.fsum(max(0.0, base - v) for v in seen) / 1000,
        "excess": math.fsum(max(0.0, v - base) for v in seen) / 1000,
    }


def lead(brake: Sequence[float], window: tuple[int, int], shape: Measures, base: float) -> Any:
    """How long before the onset of the first blip the brake left, in s; None for a small dip."""
    first, stop = window
    points = range(first, min(stop, shape["end"] + 100))
    least = min(points, key=lambda point: brake[point])
    if base - brake[least] < 5:
        return None
    held = [point for point in points if point < least and brake[point] >= base - 3]
    left = held[-1] + 1 if held else first
    return (shape["onset"] - left) / 1000


def run_of(
    brake: Sequence[float],
    throttle: Sequence[float],
    run: Sequence[tuple[int, int]],
    after: int | None = None,
    band: float = 5.0,
    base_over: tuple[int, int] | None = None,
) -> Measures | None:
    """A run with its blips, or None where it is not scored.

    `after` is the onset that follows the run. `base_over` is where the base is averaged if a cue or
    a beat asks for the first blip, else it is from 0.5 to 0.1 s before the first onset.
    """
    shaped = pulses(throttle, run)
    if shaped is None:
        return None
    first_onset = shaped[0]["onset"]
    opens, closes = (first_onset - 500, first_onset - 100) if base_over is None else base_over
    opens, closes = max(0, opens), max(0, closes)
    held = brake[opens:closes]
    if len(held) < 100 or mean(held) <= 0:
        return None
    rest, base = mean(before(throttle, run[0][0])), mean(held)
    onsets = [shape["onset"] for shape in shaped] + ([] if after is None else [after])
    speed, parts, stop = V0, [], 0
    for number, shape in enumerate(shaped):
        following = onsets[number + 1] if number + 1 < len(onsets) else None
        first = closes if number == 0 else shape["onset"] - 100
        stop = stop_of(brake, shape["end"], following)
        part = disturbance(brake, (first, stop), shape["onset"], shape["peak"], base, band)
        change = [value - base for value in brake[first:stop]]
        part["couplings"] = coupling(change, throttle, rest, first)
        held_on = [base] * len(change)
        part["extra_distance"], speed = extra_distance(brake[first:stop], held_on, speed)
        if number == 0:
            left = lead(brake, (first, stop), shape, base)
        parts.append(shape | part)
    whole = brake[closes:stop]
    swing = max(whole) - min(whole)
    own = {"base": base, "swing": swing, "lead": left, "start": closes, "stop": stop}
    return whole_run(parts) | own


def recording(
    brake: Sequence[float], throttle: Sequence[float], band: float = 5.0
) -> list[Measures | None]:
    """Every run of a recording, each with its blips; None for one that is not scored."""
    runs = groups(brake, blips(brake, throttle))
    shapes = [pulses(throttle, run) for run in runs]
    following = [None if later is None else later[0]["onset"] for later in [*shapes, None][1:]]
    return [
        run_of(brake, throttle, run, after, band)
        for run, after in zip(runs, following, strict=True)
    ]


def whole_run(parts: list[Measures]) -> Measures:
    """Of a run: the worst, the sums and the mean of its blips."""
    run: Measures = {"blips": parts, "mean_dip": mean([part["dip"] for part in parts])}
    for name in ("dip", "rebound", "surge"):
        run[name] = max(part[name] for part in parts)
    for name in ("settle", "offset"):
        run[name] = parts[-1][name]
    for name in ("shortfall", "excess", "extra_distance"):
        run[name] = math.fsum(part[name] for part in parts)
    return run
