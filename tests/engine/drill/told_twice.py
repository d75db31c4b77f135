"""What a repetition did, by the page of definitions alone: each measure, and its place in time.

Positions are grid points, 1 ms each; nothing of the product is used but the data of a repetition.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from drills.level import Level
from engine.store import Record
from tests.drills.measures import plain
from tests.drills.measures.plain_ladder import easing, kept
from tests.drills.shapes import Values

MS = 1_000_000
"""Nanoseconds between two grid points."""


@dataclass
class Facts:
    """What the brake did in one repetition."""

    zero: int
    """Grid point of the time 0 of a picture of the repetition."""
    cue: int
    """Grid point of the first cue."""
    values: dict[str, float] = field(default_factory=dict)
    """Measures by name, the signed ones with their sign."""
    places: dict[str, tuple[int, float]] = field(default_factory=dict)
    """Grid point and deviation (points) of each measure that has a place on the curve."""
    dips: list[float] = field(default_factory=list)
    """Dip of each blip, in points."""
    base: float = 0.0
    """Brake that was held, in %."""

    def put(self, name: str, at: int, deviation: float) -> None:
        """Add a measure whose size is the deviation of its place."""
        self.values[name] = abs(deviation)
        self.places[name] = at, deviation

    def furthest(self, limits: Mapping[str, float]) -> str:
        """The measure furthest over its limit, or else nearest to it.

        A brake that came off altogether is told as that, where the dip is over.
        """
        loads = {name: abs(self.values[name]) / limit for name, limit in limits.items()}
        gone = self.dips and self.base - max(self.dips) < 5
        if gone and loads.get("dip", 0.0) > 1:
            return "dip"
        return max(loads, key=lambda name: loads[name])


def facts(level: Level, record: Record) -> Facts | None:
    """What the brake did in a repetition; None for one that has too little to measure."""
    trace = record.trace
    assert trace is not None
    samples = [
        (int(time), brake, throttle)
        for time, brake, throttle in zip(trace.time, trace.brake, trace.throttle, strict=True)
    ]
    columns = plain.grid(samples)
    brake, throttle = np.array(columns[0]), np.array(columns[1])
    cues = [-((samples[0][0] - cue) // MS) for cue in record.cues]
    match level.kind.name:
        case "squeeze":
            return _squeeze(level, record, brake, cues[0])
        case "trail":
            return _way_down(level, record, brake, throttle, cues[0])
        case "run":
            beat = cues[2]
            return _blips(brake, throttle, cues[0], (beat - 900, beat - 400), record.target)
    return _blips(brake, throttle, cues[0], (cues[0] - 400, cues[0] + 100), record.target)


def _squeeze(level: Level, record: Record, brake: Values, cue: int) -> Facts:
    """From the cue over the window of the level: overshoot, and where the brake ended."""
    found = Facts(cue, cue)
    stop = cue + round(1000 * level.own["duration"])
    off = brake - record.target
    top = cue + int(np.argmax(off[cue:stop]))
    found.put("overshoot", top, max(0.0, float(off[top])))
    _end(found, off, stop)
    return found


def _end(found: Facts, off: Values, stop: int) -> None:
    """Add where the brake came to rest: the mean of the last 0.2 s, in their middle."""
    mean = float(off[stop - 200 : stop].mean())
    found.values["offset"] = mean
    found.places["offset"] = stop - 100, mean


def _pulses(throttle: Values) -> list[plain.Measures]:
    pressed = plain.pressed(list(throttle), 0.0)
    return (plain.pulses(list(throttle), pressed) or []) if pressed else []


def _base(brake: Values, held: tuple[int, int], target: float, found: Facts) -> None:
    """Add what was held before the foot could answer."""
    found.base = float(brake[held[0] : held[1]].mean())
    found.values["base_error"] = found.base - target
    found.places["base_error"] = (held[0] + held[1]) // 2, found.base - target


def _blips(
    brake: Values, throttle: Values, cue: int, held: tuple[int, int], target: float
) -> Facts | None:
    """Every blip of a repetition against what was held before the first."""
    pulses = _pulses(throttle)
    if not pulses or pulses[0]["onset"] < held[1]:
        return None
    found = Facts(pulses[0]["onset"], cue)
    _base(brake, held, target, found)
    off = brake - found.base
    parts: dict[str, list[int]] = {"dip": [], "surge": [], "rebound": []}
    for number, pulse in enumerate(pulses):
        later = pulses[number + 1]["onset"] if number + 1 < len(pulses) else None
        opens = pulse["onset"] - 100 if number else held[1]
        stop = plain.stop_of(list(brake), pulse["end"], later)
        low = opens + int(np.argmin(off[opens:stop]))
        parts["dip"].append(low)
        parts["surge"].append(opens + int(np.argmax(off[opens:stop])))
        parts["rebound"].append(low + int(np.argmax(off[low:stop])))
    found.dips = [max(0.0, float(-off[at])) for at in parts["dip"]]
    for name, sign in (("dip", -1), ("surge", 1), ("rebound", 1)):
        at = max(parts[name], key=lambda point: sign * off[point])
        found.put(name, at, sign * max(0.0, sign * float(off[at])))
    _end(found, off, stop)
    return found


def _way_down(
    level: Level, record: Record, brake: Values, throttle: Values, cue: int
) -> Facts | None:
    """The brake against its ramp, and each blip against its chord."""
    pulses = _pulses(throttle)
    found = Facts(cue, cue)
    _base(brake, (cue - 400, cue + 100), record.target, found)
    spans = [(pulse["onset"], pulse["end"]) for pulse in pulses]
    ease = level.own["ease"]
    measured = easing(list(brake), cue, found.base, record.target, ease, spans)
    if measured["ramp_worst"] is None:
        return None
    start = cue + round(1000 * measured["release_start"])
    slope = record.target / ease / 1000
    lasts = -(-round(1e9 * ease * float(brake[start]) / record.target) // MS)
    points = np.array([at for at in kept(start, len(brake), spans) if at - start < lasts])
    off = brake[points] - (brake[start] - slope * (points - start))
    worst = int(np.argmax(np.abs(off)))
    found.put("ramp_worst", int(points[worst]), float(off[worst]))
    for number, (onset, end) in enumerate(spans):
        later = spans[number + 1][0] - 50 if number + 1 < len(spans) else len(brake)
        stop = min(end + 300, later)
        released = np.flatnonzero(brake[end + 1 : stop] < 5)
        stop = end + 1 + int(released[0]) if released.size else stop
        ends = (onset - 100, stop - 25)
        levels = (brake[onset - 150 : onset - 50].mean(), brake[stop - 50 : stop].mean())
        away = brake[onset - 100 : stop] - np.interp(np.arange(onset - 100, stop), ends, levels)
        # Past the last anchor the chord goes on straight.
        beyond = np.arange(stop - 25, stop) - (stop - 25)
        away[-25:] -= (levels[1] - levels[0]) / (ends[1] - ends[0]) * beyond
        found.dips.append(max(0.0, float(-away.min())))
        for name, sign in (("dip", -1), ("surge", 1)):
            at = int(np.argmax(sign * away))
            if sign * away[at] > found.values.get(name, 0.0):
                found.put(name, onset - 100 + at, float(away[at]))
    return found
