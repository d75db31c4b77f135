"""Kerbs under a made-up drive: they shake both pedals for some milliseconds.

A spike is a half sine of 5 to 25 ms, as a pedal shows that a kerb has thrown about; shaking is a
row of them.
"""

from dataclasses import replace

import numpy as np

from drills.trace import SECOND
from tests.drills.measures.drive import Drive, part_of
from tests.drills.shapes import Values, half_sine

CLEAR = 0.5
"""s, how far spikes stay from the middle of a blip where its dip is to stay true."""
HIGHEST = 44.0
"""%, how far a kerb throws the throttle at most: no farther than the lightest blip of a drive."""
APART = 0.5
"""s, least time from one kerb to the next, so that no two spikes make a wider one."""


def over_kerbs(made: Drive, clear: float, seed: int) -> Drive:
    """A drive over kerbs: spikes in both pedals while braking, alone and in rows.

    They stay `clear` s from the middle of each blip.
    """
    rng, time = np.random.default_rng(seed), made.trace.time / SECOND
    brake, throttle = made.trace.brake.copy(), made.trace.throttle.copy()
    braked, at = time[brake > 20], 0.0
    while (at := at + APART + rng.exponential(2.0)) < time[-1] - 1:
        if not np.isclose(braked[part_of(braked, at, at)], at, atol=0.01).any():
            continue
        tooth = rng.uniform(0.035, 0.06)
        for row in range(int(rng.choice([1, 1, 1, 6]))):
            spike = at + row * tooth
            if np.abs(made.onsets + 0.1 - spike).min() >= clear:
                _strike(rng, time, spike, throttle, brake)
    trace = replace(made.trace, brake=np.clip(brake, 0, 100), throttle=np.clip(throttle, 0, 100))
    return replace(made, trace=trace)


def _strike(
    rng: np.random.Generator, time: Values, at: float, throttle: Values, brake: Values
) -> None:
    """One kerb: the throttle is thrown up, and the brake up or down."""
    part = part_of(time, at, at + 0.025)
    shape = half_sine(rng.uniform(0.005, 0.025))(time[part] - at)
    thrown = np.minimum(throttle[part] + rng.uniform(12, HIGHEST) * shape, HIGHEST)
    throttle[part] = np.maximum(throttle[part], thrown)
    brake[part] += rng.choice([-1, 1]) * rng.uniform(5, 25) * shape
