"""A brake as sound: what was held and what was pressed as two pitches, the throttle as noise."""

from __future__ import annotations

import numpy as np

from drills.trace import Values
from engine.stage.waves import RATE, Wave

HELD = 440.0
"""Pitch of the brake that was held, in Hz; the player's own is at it where nothing deviates."""
OCTAVE = 24.0
"""Deviation of the brake that is heard as an octave, in points."""
OCTAVES = 2.0
"""Most octaves that the brake is heard above or under what was held."""
HELD_VOLUME = 10 ** (-12 / 20)
"""Volume of the held brake, as a share of full scale: 12 dB under it."""
OWN_VOLUME = 0.4
"""Volume of the player's own brake over both sides, as a share of full scale."""
OWN_PAN = 0.6
"""Place of the player's own brake, as a share of the way from the middle to the right."""
NOISE = (2000.0, 4000.0)
"""Lowest and highest frequency of the noise that is the throttle, in Hz."""
NOISE_VOLUME = 0.2
"""Largest volume of the throttle's noise, at a throttle of 100 %, as a share of full scale."""
NOISE_SEED = 20
"""Seed of the noise, so that the same throttle always sounds the same."""
FADE = 0.015
"""Time in which such a wave begins and ends, in s, as an abrupt one cracks."""
EAR = 0.5
"""Time in which the deviation of a whole repetition is heard before its verdict, in s."""
EAR_GAP = 0.08
"""Silence between a deviation that was heard and the verdict on it, in s."""


def replay_wave(time: Values, deviation: Values, throttle: Values | None, speed: float) -> Wave:
    """Stereo wave of a brake over time, shape (n, 2), played `speed` times as fast as it was.

    `time` is in s, `deviation` in points, `throttle` in %; all of shape (k,), time rising, k > 1.
    A throttle of None is not heard.
    """
    size = max(round(float(time[-1] - time[0]) / speed * RATE), 1)
    at = time[0] + np.arange(size, dtype=np.int64) * (speed / RATE)
    octaves = np.clip(deviation / OCTAVE, -OCTAVES, OCTAVES)
    turning = np.interp(at, time, HELD * np.exp2(octaves) * (2 * np.pi / RATE))
    own = np.sin(np.cumsum(turning, dtype=np.float64))
    turn = (1 + OWN_PAN) * np.pi / 4
    wave = np.empty((size, 2))
    wave[:] = HELD_VOLUME * np.resize(_held(), size)[:, None]
    wave[:, 0] += OWN_VOLUME * np.cos(turn) * own
    wave[:, 1] += OWN_VOLUME * np.sin(turn) * own
    if throttle is not None:
        loud = np.interp(at, time, np.clip(throttle, 0, 100) * (NOISE_VOLUME / 100))
        wave += (loud * np.resize(_noise(), size))[:, None]
    ends = min(round(FADE * RATE), size // 2)
    wave[:ends] *= np.linspace(0, 1, ends)[:, None]
    wave[size - ends :] *= np.linspace(1, 0, ends)[:, None]
    return wave


def ear_wave(time: Values, deviation: Values) -> Wave:
    """Stereo wave of a deviation (points, at times in s) in EAR s, then a moment of silence."""
    heard = replay_wave(time, deviation, None, float(time[-1] - time[0]) / EAR)
    return np.concatenate([heard, np.zeros((round(EAR_GAP * RATE), 2))])


def _held() -> Wave:
    """One second of the held brake's tone, which repeats without a seam."""
    held: Wave = np.sin(2 * np.pi * HELD * np.arange(RATE, dtype=np.int64) / RATE)
    return held


def _noise() -> Wave:
    """One second of the throttle's noise with a peak of 1, which repeats without a seam."""
    low, high = (round(edge) for edge in NOISE)
    spectrum = np.zeros(RATE // 2 + 1, dtype=np.complex128)
    phases = np.random.default_rng(NOISE_SEED).uniform(0, 2 * np.pi, high - low)
    spectrum.real[low:high], spectrum.imag[low:high] = np.cos(phases), np.sin(phases)
    noise: Wave = np.fft.irfft(spectrum, RATE)
    return noise / float(np.abs(noise).max())
