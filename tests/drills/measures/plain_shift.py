"""The shift measured in plain Python, sample by sample, from what the page of measures says."""

from collections.abc import Sequence

Pulse = tuple[int, int]
"""First grid point of a throttle pulse, and the first after it."""


def plain_shifts(
    throttle: Sequence[float], button: Sequence[float], pulses: Sequence[Pulse]
) -> list[float | None]:
    """Time in s from each pulse's peak to its press; None where none came."""
    presses = [k for k in range(1, len(button)) if button[k] == 1 and button[k - 1] == 0]
    found: list[float | None] = []
    for place, (first, after) in enumerate(pulses):
        peak = first
        for k in range(first, after):
            if throttle[k] > throttle[peak]:
                peak = k
        best = None
        for press in presses:
            if not first - 500 <= press < after + 500:
                continue
            if place > 0 and 2 * press + 1 < pulses[place - 1][1] + first:
                continue
            if place + 1 < len(pulses) and 2 * press + 1 >= after + pulses[place + 1][0]:
                continue
            if best is None or abs(press - peak) < abs(best - peak):
                best = press
        found.append(None if best is None else (best - peak) / 1000)
    return found


def plain_farthest(times: Sequence[float | None]) -> float | None:
    """The time farthest from 0 with its sign; None where one is missing, or all are."""
    worst = 0.0
    for time in times:
        if time is None:
            return None
        if abs(time) > abs(worst):
            worst = time
    return worst if times else None
