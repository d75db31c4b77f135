"""Sounds of the game as waves: numpy arrays of shape (n,), n samples at RATE, from -1 to 1."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drills.braking_zone import Line, at_line
from engine.stage.brake_tone import BrakeTone

RATE = 48_000
"""Sampling rate of all sounds, in Hz."""


@dataclass(frozen=True)
class AimTone:
    """How one of the tones sounds that guide the brake to its target."""

    pitch: float
    """Pitch of its first partial, in Hz."""
    partials: tuple[float, ...]
    """Loudness of its partials, multiples of its pitch, relative to the first."""
    volume: float
    """Its peak, as a share of full scale: low, as a tone may last for seconds."""
    pulses: float = 0.0
    """Number of times that it swells and ebbs in a second; 0 for a steady tone."""


AIM_TONES: Mapping[BrakeTone, AimTone] = {
    BrakeTone.LIGHT: AimTone(220.0, tuple(n**-0.5 for n in range(1, 9)), 0.11, pulses=4.0),
    BrakeTone.ON: AimTone(440.0, (1.0, 0.5, 0.2), 0.105),
    BrakeTone.HEAVY: AimTone(880.0, (1.0, 0.3), 0.05, pulses=8.0),
}
"""Tones that guide the brake, an octave apart: low for light and high for heavy.

Only the one on target is steady. The low one has many partials, as a small speaker loses its first.
"""
TONE_LENGTH = 0.5
"""Length of a brake tone, in s; as it is looped, it holds whole periods and whole pulses of all."""
EBB = 0.15
"""Least loudness of a pulsed tone between its pulses, as a share of its loudness at their peaks."""

CLICK_LENGTH = 0.060
"""Length of the cue's click and of a beat of the count-in, in s."""
CLICK_VOLUME = 0.95
"""Volume of the cue's click, as a share of full scale: it is rare and must be heard over a fan."""
FALL_TO = 330.0
"""Pitch at which the falling tone for easing off ends, in Hz: a small speaker still plays it."""
FALL_OCTAVES = 2
"""Number of octaves that the falling tone is above its end while the whole brake is asked."""
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

KNOCK_LENGTH = 0.040
"""Length of a knock of the second task, in s."""
KNOCK_PITCHES = (400.0, 800.0)
"""Pitches of the low and the high knock of the second task, in Hz."""
KNOCK_VOLUMES = (0.385, 0.2485)
"""Volumes of the low and the high knock, as shares of full scale: equally loud by A-weighting, and
12 dB softer than the cue's click."""

Wave = NDArray[np.float64]


def brake_tone(tone: BrakeTone) -> Wave:
    """Wave of a brake tone, which loops without a seam."""
    sound, time = AIM_TONES[tone], seconds_of(TONE_LENGTH)
    wave = scaled(partials(sound.pitch, sound.partials, time))
    swell = (1 + np.cos(2 * np.pi * sound.pulses * time)) / 2
    return sound.volume * wave * (EBB + (1 - EBB) * swell)


def click() -> Wave:
    """Wave of the click that is the cue to act, loudest at its first moment."""
    return CLICK_VOLUME * _struck()


def click_over_fall() -> Wave:
    """Wave of the same click where the falling tone plays: with it, it stays under full scale."""
    return FALL_CLICK_VOLUME * _struck()


def beat() -> Wave:
    """Wave of a beat of the count-in: a knock as short as the cue's click, but lower and softer."""
    time = seconds_of(CLICK_LENGTH)
    knock = sine(520, time) * np.exp(-time / 0.012)
    return 0.6 * CLICK_VOLUME * scaled(knock * fade_out(time.size, 0.010))


def knock(*, high: bool) -> Wave:
    """Wave of a knock of the second task, a high one to be counted or a low one."""
    time = seconds_of(KNOCK_LENGTH)
    ringing = sine(KNOCK_PITCHES[high], time) * np.exp(-time / 0.012)
    return KNOCK_VOLUMES[high] * scaled(ringing * fade_out(time.size, 0.010))


def fall(guide: Line) -> Wave:
    """Wave of a tone whose pitch is the brake that should be left, with a click to begin with.

    `guide` is that course as corners: s from the beginning, the first at 0, and the share of the
    brake left, whose first half and second half are an octave each.
    """
    time = seconds_of(guide[-1][0])
    left = at_line(guide, time + 0.5 / RATE)
    # The pitch half way between two samples holds from one to the next (midpoint rule).
    turned = np.cumsum(FALL_TO * 2.0 ** (FALL_OCTAVES * left), dtype=np.float64) / RATE
    tone = partials(1.0, FALL_PARTIALS, np.concatenate([[0.0], turned[:-1]]))
    wave: Wave = FALL_VOLUME * scaled(tone) * np.minimum(time / FALL_RISE, 1)
    wave *= fade_out(time.size, 0.08)
    struck = _struck()
    wave[: struck.size] += FALL_CLICK_VOLUME * struck
    return wave


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
    time = seconds_of(CLICK_LENGTH)
    low = sine(1500, time) * np.exp(-time / 0.014)
    high = 0.5 * sine(3100, time) * np.exp(-time / 0.004)
    return scaled((low + high) * fade_out(time.size, 0.010))


def seconds_of(length: float) -> Wave:
    """Time of each sample of a wave of some length in s, shape (n,), in s from its beginning."""
    return np.arange(round(length * RATE), dtype=np.int64) / RATE


def sine(frequency: float, time: Wave) -> Wave:
    """Wave of a pure tone at a frequency in Hz, at times in s; its shape is theirs."""
    wave: Wave = np.sin(2 * np.pi * frequency * time)
    return wave


def partials(frequency: float, loud: Sequence[float], time: Wave) -> Wave:
    """Wave of a tone at a frequency in Hz: multiples of it, `loud` as ratios from the first on."""
    wave = np.zeros_like(time)
    for number, volume in enumerate(loud, start=1):
        wave += volume * sine(number * frequency, time)
    return wave


def fade_out(size: int, length: float) -> Wave:
    """Factors for a wave of `size` samples: 1 until its last `length` s, then down to 0.

    An abrupt end cracks.
    """
    left = np.arange(size - 1, -1, -1, dtype=np.int64) / RATE
    share: Wave = np.minimum(left / length, 1)
    return share


def scaled(wave: Wave) -> Wave:
    """Same wave, scaled so that its peak is 1."""
    return wave / float(np.abs(wave).max())
