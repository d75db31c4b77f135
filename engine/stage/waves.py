"""Sounds of the game as waves: numpy arrays of shape (n,), n samples at RATE, from -1 to 1."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from drills.task import FALL_HOLD
from engine.stage.brake_tone import BrakeTone

RATE = 48_000
"""Sampling rate of all sounds, in Hz."""
SCALE = (0, 2, 4, 7, 9)
"""Steps of the pentatonic scale of the rewards, in semitones above its root; any two sound well
together."""
ROOT = 262.0
"""Pitch of the first step of the scale of the rewards, in Hz."""
HIGHEST_STEP = 15
"""Number of the highest step of the scale of the rewards, three octaves above the root."""

PITCHES: Mapping[BrakeTone, float] = {
    BrakeTone.LIGHT: 165.0,
    BrakeTone.ON: 220.0,
    BrakeTone.HEAVY: 330.0,
}
"""Pitches of the brake tones, in Hz: light is a fourth below on-target, heavy a fifth above it."""
TONE_LENGTH = 0.2
"""Length of a brake tone, in s; as it is looped, it holds whole periods of every pitch."""
TONE_VOLUMES: Mapping[BrakeTone, float] = {
    BrakeTone.LIGHT: 0.11,
    BrakeTone.ON: 0.16,
    BrakeTone.HEAVY: 0.08,
}
"""Volumes of the brake tones, as shares of full scale.

They are low, as a tone may last for seconds, and lowest for the heavy one, as high tones sound
louder. The on-target tone is the fullest.
"""

CLICK_LENGTH = 0.060
"""Length of the cue's click and of a beat of the count-in, in s."""
CLICK_VOLUME = 0.95
"""Volume of the cue's click, as a share of full scale: it is rare and must be heard over a fan."""
FALL_FROM = 1320.0
"""Pitch at which the falling tone for easing off begins, in Hz: two octaves over its end, which a
small speaker still plays."""
FALL_PARTIALS = (1.0, 0.5, 0.33, 0.25)
"""Loudness of the partials of the falling tone, the first at its pitch (ratios): a small speaker
that loses the low ones still tells its pitch by the others."""
FALL_VOLUME = 0.35
"""Volume of the falling tone, as a share of full scale."""
FALL_CLICK_VOLUME = 0.60
"""Volume of the click that the falling tone begins with, as a share of full scale: with the tone it
stays under 1."""
FALL_RISE = 0.020
"""Time that the falling tone takes to its full volume under its click, in s."""
NOTE_VOLUME = 0.5
"""Volume of the rewards, as a share of full scale: clear beside a fan, but not shrill."""

Wave = NDArray[np.float64]


def brake_tone(tone: BrakeTone) -> Wave:
    """Wave of a brake tone, which loops without a seam."""
    pitch, time = PITCHES[tone], _time(TONE_LENGTH)
    octave = 0.3 if tone is BrakeTone.ON else 0.1
    wave = _sine(pitch, time) + octave * _sine(2 * pitch, time)
    return TONE_VOLUMES[tone] * wave / (1 + octave)


def click() -> Wave:
    """Wave of the click that is the cue to act, loudest at its first moment."""
    return CLICK_VOLUME * _struck()


def beat() -> Wave:
    """Wave of a beat of the count-in: a knock as short as the cue's click, but lower and softer."""
    time = _time(CLICK_LENGTH)
    knock = _sine(520, time) * np.exp(-time / 0.012)
    return 0.6 * CLICK_VOLUME * _scaled(knock * _fade_out(time, 0.010))


def fall(seconds: float) -> Wave:
    """Wave of a tone that holds for FALL_HOLD, then falls two octaves evenly in `seconds`.

    It begins with a click. The share of the fall so far is the share of the brake that should have
    been released.
    """
    time = _time(FALL_HOLD + seconds)
    falling = np.maximum(time - FALL_HOLD, 0)
    # The integral of the pitch: whole periods up to each moment.
    fallen = seconds / (2 * math.log(2)) * (1 - 2.0 ** (-2 * falling / seconds))
    periods = FALL_FROM * (np.minimum(time, FALL_HOLD) + fallen)
    tone = np.zeros_like(time)
    for number, loud in enumerate(FALL_PARTIALS, start=1):
        tone += loud * np.sin(2 * np.pi * number * periods)
    wave: Wave = FALL_VOLUME * _scaled(tone) * np.minimum(time / FALL_RISE, 1)
    wave *= _fade_out(time, 0.08)
    struck = _struck()
    wave[: struck.size] += FALL_CLICK_VOLUME * struck
    return wave


def chime(frequency: float) -> Wave:
    """Wave of a struck note at a frequency in Hz, the reward for a clean repetition."""
    time = _time(0.35)
    note = _sine(frequency, time) + 0.2 * _sine(3 * frequency, time)
    struck = note * np.exp(-time / 0.09) * np.minimum(time / 0.004, 1)
    return NOTE_VOLUME * _scaled(struck * _fade_out(time, 0.03))


def passed_wave() -> Wave:
    """Wave of the reward for a passed level: a low, open chord that swells and fades."""
    time = _time(1.1)
    chord = sum(_sine(196.0 * ratio, time) / ratio for ratio in (1, 3 / 2, 2, 5 / 2, 3))
    swell = np.minimum(time / 0.15, 1) * np.exp(-time / 0.5)
    return NOTE_VOLUME * _scaled(chord * swell * _fade_out(time, 0.3))


def best() -> Wave:
    """Wave of the reward for a personal best: five small bells in a quick upward run."""
    bells = np.zeros(round(0.75 * RATE))
    for number, ratio in enumerate((1, 5 / 4, 3 / 2, 2, 5 / 2)):
        at = round(number * 0.065 * RATE)
        time = np.arange(bells.size - at, dtype=np.int64) / RATE
        # A bell's second partial lies 2.76 times as high as its first (common practice).
        bell = _sine(784.0 * ratio, time) + 0.35 * _sine(2.76 * 784.0 * ratio, time)
        bells[at:] += bell * np.exp(-time / 0.12) * np.minimum(time / 0.002, 1)
    return NOTE_VOLUME * _scaled(bells * _fade_out(_time(0.75), 0.1))


def pitch(number: int) -> float:
    """Frequency in Hz of step `number` (from 1) of the scale that rewards climb."""
    octave, step = divmod(number - 1, len(SCALE))
    return float(ROOT * 2.0 ** (octave + SCALE[step] / 12))


def at_rate(wave: Wave, rate: int) -> Wave:
    """Same sound, of shape (n,), for a device that takes `rate` samples a second, not RATE."""
    if rate == RATE:
        return wave
    at = np.arange(round(wave.size * rate / RATE), dtype=np.int64) * (RATE / rate)
    # What follows the last sample is the first: a tone loops.
    resampled: Wave = np.interp(at, np.arange(wave.size, dtype=np.int64), wave, period=wave.size)
    return resampled


def _struck() -> Wave:
    """Wave of a click with a peak of 1, loudest at its first moment."""
    time = _time(CLICK_LENGTH)
    low = _sine(1500, time) * np.exp(-time / 0.014)
    high = 0.5 * _sine(3100, time) * np.exp(-time / 0.004)
    return _scaled((low + high) * _fade_out(time, 0.010))


def _time(seconds: float) -> Wave:
    return np.arange(round(seconds * RATE), dtype=np.int64) / RATE


def _sine(frequency: float, time: Wave) -> Wave:
    wave: Wave = np.sin(2 * np.pi * frequency * time)
    return wave


def _fade_out(time: Wave, seconds: float) -> Wave:
    """Factors for a wave: 1 until the last `seconds`, then down to 0, as an abrupt end cracks."""
    share: Wave = np.clip((time[-1] - time) / seconds, 0, 1)
    return share


def _scaled(wave: Wave) -> Wave:
    """Same wave, scaled so that its peak is 1."""
    return wave / float(np.abs(wave).max())
