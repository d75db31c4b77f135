"""The chord of a blip on the road written a second time, literally and slowly, to compare with."""

import math
from collections.abc import Sequence

import numpy as np

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
)


def recording(brake: Sequence[float], throttle: Sequence[float]) -> list[list[Measures]]:
    """Every run, each blip with its measures, or without a dip where it is not scored."""
    runs = groups(brake, blips(brake, throttle))
    shapes = [pulses(throttle, run) for run in runs]
    found: list[list[Measures]] = []
    past = 0
    for run, shaped, later in zip(runs, shapes, [*shapes, None][1:], strict=True):
        if shaped is None:
            found.append([])
            continue
        onsets = [shape["onset"] for shape in shaped] + ([later[0]["onset"]] if later else [])
        rest, speed, parts = mean(before(throttle, run[0][0])), V0, []
        for number, shape in enumerate(shaped):
            following = onsets[number + 1] if number + 1 < len(onsets) else None
            part = blip(brake, throttle, shape, following, rest, speed)
            speed = part.pop("speed", speed)
            if part:
                part |= roll(brake, shape["onset"], part, past)
            parts.append(shape | part)
            past = stop_of(brake, shape["end"], following)
        found.append(parts)
    return found


def roll(brake: Sequence[float], onset: int, part: Measures, past: int) -> Measures:
    """How early the brake left, and the dip that is told of such a blip.

    None where the window of the blip before it ends past 0.6 s before the onset, or the trace
    begins there.
    """
    if onset - 600 < past:
        return {"early": None}
    points = [point / 1000 for point in range(-600, -300)]
    slope, level = np.polyfit(points, brake[onset - 600 : onset - 300], 1)
    ahead, last = mean(brake[onset - 400 : onset - 300]), (part["stop"] - 25 - onset) / 1000

    def wide(at: float) -> float:
        return float(ahead + (part["after"] - ahead) * (at + 0.35) / (last + 0.35))

    heading = min(float(level - 0.1 * slope), wide(-0.1))
    early = heading - mean(brake[onset - 120 : onset - 80])
    if early <= 5:
        return {"early": early}
    under = [
        wide((point - onset) / 1000) - brake[point] for point in range(onset - 100, part["stop"])
    ]
    return {"early": early, "dip": max(0.0, *under)}


def stop_of(brake: Sequence[float], end: int, following: int | None) -> int:
    """0.3 s past the end, 0.05 s before the next onset, the release, or the end of the trace."""
    stop = min(end + 300, len(brake))
    if following is not None:
        stop = min(stop, following - 50)
    for point in range(end + 1, stop):
        if brake[point] < 5:
            return point
    return stop


def blip(
    brake: Sequence[float],
    throttle: Sequence[float],
    shape: Measures,
    following: int | None,
    rest: float,
    speed: float,
) -> Measures:
    """What one blip did against its chord, and the speed it left."""
    onset, end = shape["onset"], shape["end"]
    stop = stop_of(brake, end, following)
    early = brake[max(0, onset - 150) : max(0, onset - 50)]
    if len(early) < 50 or stop - end < 100:
        return {}
    first, late = mean(early), mean(brake[stop - 50 : stop])
    opens = max(0, onset - 100)
    seen = list(brake[opens:stop])
    slope = (late - first) / ((stop - 25) - (onset - 100))
    line = [first + slope * (point - (onset - 100)) for point in range(opens, stop)]
    change = [value - held for value, held in zip(seen, line, strict=True)]
    metres, left = extra_distance(seen, [max(held, 1e-9) for held in line], speed)
    return {
        "before": first,
        "after": late,
        "carry": late - first,
        "dip": max(0.0, -min(change)),
        "surge": max(0.0, max(change)),
        "swing": max(seen) - min(seen),
        "shortfall": math.fsum(max(0.0, -value) for value in change) / 1000,
        "excess": math.fsum(max(0.0, value) for value in change) / 1000,
        "stop": stop,
        "couplings": coupling(change, throttle, rest, opens),
        "extra_distance": metres,
        "speed": left,
    }
