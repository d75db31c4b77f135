"""The measures of a braking zone written a second time, literally and slowly, to compare with."""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from tests.drills.measures import plain, plain_chord
from tests.drills.measures.plain import Measures, mean

Corners = Sequence[tuple[float, float]]


def asked(line: Corners, seconds: float) -> float:
    """Brake asked so many s after the braking point: straight between corners, level beyond."""
    if seconds <= line[0][0]:
        return line[0][1]
    for (at, brake), (then, later) in pairwise(line):
        if seconds <= then:
            return brake + (later - brake) * (seconds - at) / (then - at)
    return line[-1][1]


def zone(
    brake: Sequence[float], throttle: Sequence[float], start: int, point: int, line: Corners
) -> Measures | None:
    """Every measure of a zone whose first knock and braking point are grid points."""
    peak, turn_in = line[0][1], point + round(line[-1][0] * 1000)
    on = braked(brake, start, point, turn_in, 0.1 * peak)
    if on is None:
        return None
    found = plain.pressed(throttle, 0.0)
    shapes = plain.pulses(throttle, found) or [] if found else []
    window = turn_in
    for shape in shapes:
        if shape["onset"] > on:
            window = min(max(shape["onset"] - 100, on + 200), turn_in)
            break
    window = min(window, len(brake))
    squeezed = range(on, min(on + 500, window))
    reached = next((k for k in range(on, window) if brake[k] >= 0.9 * peak), None)
    begins = min(squeezed.stop if reached is None else reached + 100, len(brake))
    off = released(brake, on, max([begins, *(shape["end"] for shape in shapes[-1:])]))
    ends = turn_in + 300 if off is None else min(max(off, turn_in), turn_in + 300)
    compared = [
        k
        for k in range(begins, min(ends, len(brake)))
        if not any(shape["onset"] - 100 <= k < shape["end"] + 300 for shape in shapes)
    ]
    meant = {k: asked(line, k / 1000) for k in range(begins - point - 300, ends - point)}
    fits = {lag: [brake[k] - meant[k - point - lag] for k in compared] for lag in range(0, 301, 10)}
    sums = {lag: math.fsum(away * away for away in fits[lag]) for lag in fits}
    best = [lag for lag in sums if sums[lag] <= min(sums.values()) * (1 + 1e-9) + 1e-9]
    enough = len(compared) >= 300
    return {
        "brake_on": (on - point) / 1000,
        "rise": None if reached is None else (reached - on) / 1000,
        "peak_error": max(brake[k] for k in squeezed) - peak,
        "lags": {lag / 1000 for lag in best},
        "line_error": math.sqrt(min(sums.values()) / len(compared)) if enough else None,
        "fits": {lag / 1000: fits[lag] for lag in fits} if enough else None,
        "reversals": turns([brake[k] for k in compared]) if enough else None,
        "off_at": None if off is None else (off - turn_in) / 1000,
        "blips": {
            lag / 1000: joined(brake, throttle, found, shapes, begins, late_line(line, point + lag))
            for lag in best
            if shapes
        },
    }


def braked(
    brake: Sequence[float], start: int, point: int, turn_in: int, level: float
) -> int | None:
    """First point of the stretch at or over a level that holds the braking point, or the next."""
    for k in range(point, min(turn_in, len(brake))):
        if brake[k] >= level:
            while k > start and brake[k - 1] >= level:
                k -= 1
            return k
    return None


def released(brake: Sequence[float], on: int, after: int) -> int | None:
    """First point under 5 % from `after` on, or where the stretch under 5 % there began."""
    for k in range(after, len(brake)):
        if brake[k] < 5:
            while k == after and after > on and brake[after - 1] < 5:
                k = after = after - 1
            return k
    return None


def turns(brake: Sequence[float]) -> int:
    """Rises of over 2 points, each counted once it has come down by over 2 points before."""
    count, falling, least, most = 0, False, math.inf, -math.inf
    for value in brake:
        if falling:
            least = min(least, value)
            if value - least > 2:
                count, falling, most = count + 1, False, value
        else:
            most = max(most, value)
            if most - value > 2:
                falling, least = True, value
    return count


def late_line(line: Corners, begins: int) -> Callable[[float], float]:
    """Brake of a line that begins at a grid point, at any grid point."""
    return lambda k: asked(line, (k - begins) / 1000)


def joined(
    brake: Sequence[float],
    throttle: Sequence[float],
    found: Sequence[tuple[int, int]],
    shapes: Sequence[Measures],
    past: int,
    asks: Callable[[float], float],
) -> list[Measures]:
    """Each blip against its chord, or empty where it is not measured; close ones share a chord.

    `asks` is the brake asked at a grid point, as late as the foot was.
    """
    rest, speed = mean(plain.before(throttle, found[0][0])), plain.V0
    stops, groups = list[int](), list[list[int]]()
    for number, shape in enumerate(shapes):
        following = shapes[number + 1]["onset"] if number + 1 < len(shapes) else None
        stop = plain_chord.stop_of(brake, shape["end"], following)
        near = groups and shapes[groups[-1][-1]]
        if near and stops[-1] == shape["onset"] - 50 and stops[-1] - near["end"] < 100:
            groups[-1].append(number)
        else:
            groups.append([number])
        stops.append(stop)
    blips: list[Measures] = []
    for group in groups:
        first, last, stop = shapes[group[0]]["onset"], shapes[group[-1]]["end"], stops[group[-1]]
        if first < 100 or stop - last < 100:
            blips += [{} for _ in group]
            past = stop
            continue
        begins, ends = first - 100, stop - 25
        pitch = (asks(ends) - asks(begins)) / (ends - begins)
        bend = [asks(k) - asks(begins) - pitch * (k - begins) for k in range(len(brake))]
        plain_brake = [value - bent for value, bent in zip(brake, bend, strict=True)]
        held = mean(plain_brake[max(0, first - 150) : first - 50])
        slope = (mean(plain_brake[stop - 50 : stop]) - held) / (ends - begins)
        chord = [held + slope * (k - begins) + bend[k] for k in range(len(brake))]
        for number in group:
            onset, until = shapes[number]["onset"], stops[number]
            seen, line = list(brake[onset - 100 : until]), chord[onset - 100 : until]
            change = [value - level for value, level in zip(seen, line, strict=True)]
            metres, speed = plain.extra_distance(seen, [max(c, 1e-9) for c in line], speed)
            part = {
                "before": chord[onset - 100],
                "after": chord[until - 25],
                "carry": chord[until - 25] - chord[onset - 100],
                "dip": max(0.0, -min(change)),
                "surge": max(0.0, max(change)),
                "shortfall": math.fsum(max(0.0, -value) for value in change) / 1000,
                "excess": math.fsum(max(0.0, value) for value in change) / 1000,
                "stop": until,
                "couplings": plain.coupling(change, throttle, rest, onset - 100),
                "extra_distance": metres,
            }
            straight = part | {"after": chord[until - 25] - bend[until - 25]}
            blips.append(part | plain_chord.roll(plain_brake, onset, straight, past))
            past = until
    return blips
