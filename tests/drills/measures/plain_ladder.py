"""Runs at a tempo, the release and the clutch written a second time, literally and slowly.

Lists and loops over grid points (1 ms each), as in `plain`; every position is the index of one.
"""

import math
from collections.abc import Sequence

from tests.drills.measures.plain import Measures, mean


def spacing_error(onsets: Sequence[float], tempo: float) -> float | None:
    """Root mean square of what each interval between two onsets is away from the tempo."""
    squares = []
    for k in range(len(onsets) - 1):
        squares.append(((onsets[k + 1] - onsets[k]) - tempo) ** 2)
    return math.sqrt(mean(squares)) if squares else None


def lateness(onsets: Sequence[float], cues: Sequence[float]) -> list[float]:
    """Of each blip, its onset minus its own cue."""
    late = []
    for k in range(len(onsets)):
        late.append(onsets[k] - cues[k])
    return late


def release_start(brake: Sequence[float], cue: int, b0: float) -> int | None:
    """First point from the cue on that begins a hundred in a row under 0.95 b0."""
    for point in range(cue, len(brake) - 99):
        stays = True
        for later in range(point, point + 100):
            if not brake[later] < 0.95 * b0:
                stays = False
        if stays:
            return point
    return None


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
    b0: float,
    seconds: float,
    pulses: Sequence[tuple[int, int]] = (),
) -> Measures:
    """Every measure of a release from the cue on, without the windows of pulses (onset, end)."""
    start = release_start(brake, cue, b0)
    if start is None:
        names = ("release_start", "release_time", "ramp_error", "ramp_worst", "reversals")
        return dict.fromkeys(names)
    time = None
    for point in range(start, len(brake)):
        if time is None and brake[point] < 5:
            time = (point - start) / 1000
    seen, away = [], []
    for point in range(start, min(start + round(seconds * 1000), len(brake))):
        if any(onset - 100 <= point < end + 300 for onset, end in pulses):
            continue
        ramp = brake[start] - brake[start] / seconds * (point - start) / 1000
        seen.append(brake[point])
        away.append(abs(brake[point] - ramp))
    return {
        "release_start": (start - cue) / 1000,
        "release_time": time,
        "ramp_error": math.sqrt(mean([value**2 for value in away])) if away else None,
        "ramp_worst": max(away) if away else None,
        "reversals": reversals(seen),
    }


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
