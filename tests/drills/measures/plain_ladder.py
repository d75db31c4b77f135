"""Runs at a tempo, the release and the clutch written a second time, literally and slowly.

Lists and loops over grid points (1 ms each), as in `plain`; every position is the index of one.
"""

import math
from collections.abc import Sequence

from tests.drills.measures.plain import Measures, mean


def whole_ns(difference: float) -> float:
    """A difference of two times in s, both of whole ns."""
    return round(difference * 1e9) / 1e9


def spacing_error(onsets: Sequence[float], tempo: float) -> float | None:
    """Root mean square of what each interval between two onsets is away from the tempo."""
    squares = []
    for k in range(len(onsets) - 1):
        squares.append(whole_ns(onsets[k + 1] - onsets[k] - tempo) ** 2)
    return math.sqrt(mean(squares)) if squares else None


def lateness(onsets: Sequence[float], cues: Sequence[float]) -> list[float]:
    """Of each blip, its onset minus its own cue."""
    late = []
    for k in range(len(onsets)):
        late.append(whole_ns(onsets[k] - cues[k]))
    return late


def kept(first: int, after: int, pulses: Sequence[tuple[int, int]]) -> list[int]:
    """Points from first on and before after that are in no window of a pulse (onset, end)."""
    points = []
    for point in range(first, after):
        if not any(onset - 100 <= point < end + 300 for onset, end in pulses):
            points.append(point)
    return points


def release_start(
    brake: Sequence[float], cue: int, base: float, b0: float, pulses: Sequence[tuple[int, int]]
) -> int | None:
    """First point of the rest that begins a hundred of it in a row under base - max(3, b0 / 20)."""
    rest = kept(cue, len(brake), pulses)
    for k in range(len(rest) - 99):
        stays = True
        for later in rest[k : k + 100]:
            if not brake[later] < base - max(3, 0.05 * b0):
                stays = False
        if stays:
            return rest[k]
    return None


def base_at(brake: Sequence[float], cue: int) -> float:
    """Mean brake from 0.4 s before a cue until 0.1 s after it."""
    return mean(brake[max(0, cue - 400) : cue + 100])


def reversals(brake: Sequence[float]) -> int:
    """Turns upward by more than 2 %; the next one counts after a fall by more than 2 %."""
    count, falling, turn = 0, True, math.inf
    for value in brake:
        if falling:
            turn = min(turn, value)
            if value - turn > 2:
                count, falling, turn = count + 1, False, value
        else:
            turn = max(turn, value)
            if turn - value > 2:
                falling, turn = True, value
    return count


def easing(
    brake: Sequence[float],
    cue: int,
    base: float,
    b0: float,
    seconds: float,
    pulses: Sequence[tuple[int, int]] = (),
) -> Measures:
    """Every measure of a release of b0 from the cue on, without the windows of pulses."""
    names = ("release_start", "release_time", "ramp_error", "ramp_worst", "reversals")
    measures: Measures = dict.fromkeys(names)
    start = release_start(brake, cue, base, b0, pulses)
    if start is None:
        return measures
    measures["release_start"] = (start - cue) / 1000
    for point in range(start, len(brake)):
        if brake[point] < 5:
            measures["release_time"] = (point - start) / 1000
            break
    b = brake[start]
    seen, away = [], []
    for point in kept(start, len(brake), pulses):
        # In whole nanoseconds, as all times are.
        if (point - start) * 1_000_000 >= round(1e9 * seconds * b / b0):
            break
        seen.append(brake[point])
        away.append(abs(brake[point] - (b - b0 / seconds * (point - start) / 1000)))
    if len(seen) >= 300:
        measures["ramp_error"] = math.sqrt(mean([value**2 for value in away]))
        measures["ramp_worst"] = max(away)
        measures["reversals"] = reversals(seen)
    return measures


def clutch(
    travel: Sequence[float], cue: int, onset: int, end: int, report_interval: float | None
) -> Measures:
    """Every measure of a clutch, and whether it was down before the onset and up after the end."""
    down = up = None
    for point in range(cue, len(travel)):
        if down is None and travel[point] >= 50:
            down = point
        if down is not None and up is None and travel[point] < 20:
            up = point
    under = [travel[point] >= 50 for point in range(onset, end)]
    tie = 0.020
    if report_interval is not None and report_interval > tie:
        tie = report_interval
    return {
        "clutch_down": None if down is None else (down - cue) / 1000,
        "clutch_up": None if up is None else (up - cue) / 1000,
        "under_clutch": under.count(True) / len(under),
        "down_in_order": None if down is None else down < onset or (down - onset) / 1000 < tie,
        "up_in_order": None if up is None else up > end or (end - up) / 1000 < tie,
    }
