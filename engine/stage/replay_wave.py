"""`replay_wave`: the brake of a replay as sound, beside a tone for what was held."""

from __future__ import annotations

import numpy as np

from drills.trace import Values
from engine.stage.waves import RATE, Wave

HELD = 440.0
"""Pitch of the brake that was held, in Hz."""
OCTAVE = 24.0
"""Deviation of the brake that is an octave, in points."""
VOLUME = 0.125
"""Volume of each tone, as a share of full scale."""
NOISE = 0.04
"""Volume of the noise of a full throttle, as a share of full scale."""
RIGHT = 0.6
"""How far right the brake's own tone is: 0 in the middle, 1 at the right alone."""
EDGE = 0.02
"""Time that the sound takes to its full volume, and from it to silence at its end, in s."""


def replay_wave(time: Values, deviation: Values, throttle: Values | None, speed: float) -> Wave:
    """Wave of a replay, shape (n, 2): a steady tone, the brake beside it, the throttle as noise.

    `time` is in s, shape (m,), `deviation` in points, `throttle` in % or None; `speed` is a share
    of real time.
    """
    count = max(round((time[-1] - time[0]) / speed * RATE), 2)
    at = np.linspace(time[0], time[-1], count)
    pitch = HELD * np.exp2(np.interp(at, time, deviation) / OCTAVE)
    own = VOLUME * np.sin(2 * np.pi / RATE * np.cumsum(pitch, dtype=np.float64))
    number = np.arange(count, dtype=np.int64)
    held = VOLUME * np.sin(2 * np.pi * HELD / RATE * number)
    if throttle is not None:
        noise = np.random.default_rng(0).uniform(-NOISE, NOISE, count)
        own += noise * np.interp(at, time, throttle) / 100
    edge = np.minimum(number, number[::-1]) / (EDGE * RATE)
    both = np.column_stack((held + (1 - RIGHT) * own, held + own))
    wave: Wave = both * np.minimum(edge, 1.0)[:, None]
    return wave
