"""Made-up drives of feet whose throttle comes on while the brake is on, and that is no blip.

Each begins as the drive of `drive.py`, whose blips are known, and adds a habit to it.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from drills.trace import SECOND, Trace
from tests.drills.measures.drive import FINE, Drive, drive
from tests.drills.shapes import Values

CLOSE = 0.12
"""s, how far a blip that is found may be from one that was made: after a throttle that was lifted
only just before, it is timed late, as it is counted from a higher rest."""
Zone = tuple[float, float]
"""Beginning and end of one braking zone, in s."""
Habit = Callable[[np.random.Generator, Values, Values, Values, list[Zone]], None]
"""Change of brake and throttle (%, over times in s) between and at the ends of braking zones."""


def habitual(habit: Habit, seed: int, minutes: float, rate: int) -> Drive:
    """A drive with a habit, read `rate` times a second."""
    made = drive(seed, minutes, FINE)
    time, brake, throttle = made.trace.time / SECOND, made.trace.brake.copy(), made.trace.throttle
    throttle = throttle.copy()
    habit(np.random.default_rng(seed), time, brake, throttle, list(zones(time, brake)))
    read = slice(None, None, FINE // rate)
    trace = Trace(
        made.trace.time[read], np.clip(brake, 0, 100)[read], np.clip(throttle, 0, 100)[read]
    )
    return replace(made, trace=trace)


def zones(time: Values, brake: Values) -> Iterator[Zone]:
    """The braking zones of a drive."""
    edges = np.flatnonzero(np.diff((brake > 1).astype(np.int8), prepend=0, append=0))
    for first, after in edges.reshape(-1, 2):
        if after - first > FINE:
            yield float(time[first]), float(time[after - 1])


def left_foot(
    rng: np.random.Generator, time: Values, brake: Values, throttle: Values, zones: list[Zone]
) -> None:
    """Left-foot braking: the throttle comes while the brake still goes, and goes as it comes.

    After some zones it comes for less than a second, and the brake again.
    """
    for begins, ends in zones:
        lead, off = rng.uniform(0.2, 0.6), rng.uniform(0.1, 0.3)
        early = (time > ends - lead) & (time < ends + 1.0)
        _raise(throttle, early, 100 * (time[early] - ends + lead) / 0.4)
        late = (time > begins - 0.3) & (time < begins + off)
        _raise(throttle, late, 100 * (begins + off - time[late]) / off)
        if rng.uniform() < 0.3:
            again = ends + rng.uniform(0.1, 0.4)
            part = (time > again) & (time < again + 1.1)
            brake[part] = rng.uniform(20, 60) * np.sin(np.pi * (time[part] - again) / 1.1)
            lifted = (time > again + 0.1) & (time < again + 1.0)
            throttle[lifted] = np.maximum(100 - (time[lifted] - again - 0.1) / 0.15 * 100, 0)


def overlapping(
    rng: np.random.Generator, time: Values, brake: Values, throttle: Values, zones: list[Zone]
) -> None:
    """Brake and throttle at once on straights: the brake is touched, the throttle stays or lifts.

    Some lift twice with the brake on, with the throttle between.
    """
    for (_, ends), (begins, _) in pairwise(zones):
        if begins - ends < 2.6:
            continue
        at, lasts = ends + 0.8, rng.uniform(0.4, begins - ends - 1.7)
        part = (time >= at) & (time < at + lasts)
        brake[part] = rng.uniform(8, 30) * np.minimum(1, (time[part] - at) / 0.1)
        kind = rng.integers(3)
        if kind == 1:
            throttle[part] = rng.uniform(30, 80)
        elif kind == 2:
            for lift in (at + 0.1, at + 0.1 + rng.uniform(0.3, 0.8)):
                throttle[(time >= lift) & (time < lift + 0.15)] = 0.0


def upshifting(
    rng: np.random.Generator, time: Values, brake: Values, throttle: Values, zones: list[Zone]
) -> None:
    """Upshifts with the throttle lifted, the first ones under a second apart; and a launch.

    At the launch the brake is held, the throttle comes, and the first upshift follows soon.
    """
    for (_, ends), (begins, _) in pairwise(zones):
        at = ends + 0.3
        for gear in range(int(rng.integers(1, 5))):
            at += rng.uniform(0.5, 0.95) + 0.4 * gear
            if at > begins - 0.6:
                break
            throttle[(time >= at) & (time < at + rng.uniform(0.08, 0.2))] = 0.0
    throttle[time < 1.0] = 0.0
    brake[time < 1.3] = 80.0
    throttle[(time >= 1.85) & (time < 2.0)] = 0.0


def coasting(
    rng: np.random.Generator, time: Values, brake: Values, throttle: Values, zones: list[Zone]
) -> None:
    """Neither pedal for a while after a zone, a resting foot on the brake, throttle in touches."""
    for (_, ends), (begins, _) in pairwise(zones):
        part = (time > ends) & (time < begins)
        throttle[part] = 0.0
        brake[part] = rng.uniform(0, 9)
        for at in np.arange(ends + 0.5, begins - 0.8, 0.9):
            touch = (time >= at) & (time < at + 0.4)
            throttle[touch] = rng.uniform(20, 60) * np.sin(np.pi * (time[touch] - at) / 0.4)


def balancing(
    rng: np.random.Generator, time: Values, brake: Values, throttle: Values, zones: list[Zone]
) -> None:
    """Throttle held in the end of braking for less than a second, to turn the car: no downshift."""
    for _, ends in zones:
        at = ends - rng.uniform(0.5, 0.7)
        part = (time >= at) & (time < at + rng.uniform(0.35, 0.5)) & (brake > 1)
        throttle[part] = rng.uniform(18, 40)


HABITS: Mapping[str, Habit] = {
    "left foot": left_foot,
    "overlap": overlapping,
    "upshifts": upshifting,
    "coasting": coasting,
    "balance": balancing,
}
"""Habits by name."""


def paused(seed: int, minutes: float, rate: int, *, rows: bool) -> Drive:
    """A drive that is paused six times for 20 to 90 s: in braking, or in the middle of a blip.

    With `rows` the recording goes on with both pedals at rest, else nothing is recorded. A blip
    that is cut does not count as made.
    """
    made, rng = drive(seed, minutes, rate), np.random.default_rng(seed)
    time = made.trace.time / SECOND
    braking = [begins + 0.2 for begins, _ in zones_at(made)]
    cut = rng.choice(made.onsets, 3, replace=False)
    pauses = np.sort(np.concatenate([rng.choice(braking, 3, replace=False), cut + 0.08]))
    moved, onsets, still = time.copy(), made.onsets.copy(), [np.zeros((0, 3))]
    for at in pauses:
        lasts, begins = rng.uniform(20, 90), float(moved[np.searchsorted(time, at)])
        moved[time >= at] += lasts
        onsets[made.onsets >= at] += lasts
        if rows:
            stamps = begins + np.arange(0, lasts, 1 / rate)
            still.append(np.column_stack([stamps, np.zeros_like(stamps), np.zeros_like(stamps)]))
    every = np.concatenate(
        [np.column_stack([moved, made.trace.brake, made.trace.throttle]), *still]
    )
    every = every[np.argsort(every[:, 0], kind="stable")]
    stamps_ns = np.round(every[:, 0] * SECOND).astype(np.int64)
    once = np.diff(stamps_ns, prepend=stamps_ns[0] - 1) > 0
    whole = ~np.isin(made.onsets, cut)
    trace = Trace(stamps_ns[once], every[once, 1], every[once, 2])
    return Drive(trace, onsets[whole], made.dips[whole])


def zones_at(made: Drive) -> list[Zone]:
    """The braking zones of a drive at any rate."""
    time = made.trace.time / SECOND
    fine = np.arange(0, float(time[-1]), 1 / FINE)
    held = np.searchsorted(time, fine, side="right") - 1
    return list(zones(fine, made.trace.brake[held]))


def _raise(pedal: Values, part: NDArray[np.bool_], values: Values) -> None:
    """Press a pedal to at least these values (%) in a part of it."""
    pedal[part] = np.maximum(pedal[part], np.clip(values, 0, 100))
