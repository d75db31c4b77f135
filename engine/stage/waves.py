"""The sounds as waves, made with numpy: shape (n,) each, within -1 and 1, n samples at RATE."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from engine.stage.aim import Aim

RATE = 48_000
"""Hz."""
SCALE = (0, 2, 4, 7, 9)
"""semitones of the steps within an octave (a pentatonic scale, where nothing sounds wrong)."""
ROOT = 262.0
"""Hz, the first step."""
HIGHEST = 15
"""steps, where the scale stops climbing: three octaves."""

PITCHES: Mapping[Aim, float] = {Aim.LIGHT: 165.0, Aim.ON: 220.0, Aim.HEAVY: 330.0}
"""Hz of the tones of the aim: a fourth below the one on target, and a fifth above it."""
HUM = 0.2
"""s, length of such a tone, which loops: every pitch has whole periods in it."""
SOFT: Mapping[Aim, float] = {Aim.LIGHT: 0.11, Aim.ON: 0.16, Aim.HEAVY: 0.08}
"""1, of full scale: a tone that goes on for seconds must not tire, and higher ones are heard
louder. The one on target is the fullest."""

CLICK = 0.060
"""s, length of the click."""
CLICK_LOUD = 0.95
"""1, of full scale: it may come once in ten seconds and must be heard over a fan."""
FALL_FROM = 660.0
"""Hz, where the falling tone begins: twice the highest tone of the aim."""
FALL_LOUD = 0.6
"""1, of full scale at its first moment, and about half of that from then on."""
NOTE_LOUD = 0.5
"""1, of full scale, of everything else: clear beside a fan, kind to an ear."""

Wave = NDArray[np.float64]


def hum(aim: Aim) -> Wave:
    """The tone of an aim, without a seam where it loops."""
    pitch, time = PITCHES[aim], _time(HUM)
    octave = 0.3 if aim is Aim.ON else 0.1
    return SOFT[aim] * (_sine(pitch, time) + octave * _sine(2 * pitch, time)) / (1 + octave)


def tick() -> Wave:
    """The cue: a click with its energy at once."""
    time = _time(CLICK)
    struck = _sine(1500, time) * np.exp(-time / 0.014) + 0.5 * _sine(3100, time) * np.exp(
        -time / 0.004
    )
    return CLICK_LOUD * _scaled(struck * _ending(time, 0.010))


def beat() -> Wave:
    """A beat of the count-in: a knock, lower and softer than the cue and as short."""
    time = _time(CLICK)
    knock = _sine(520, time) * np.exp(-time / 0.012)
    return 0.6 * CLICK_LOUD * _scaled(knock * _ending(time, 0.010))


def fall(seconds: float) -> Wave:
    """A tone that falls two octaves evenly, to be followed by a brake on its way to nothing.

    It begins with the energy of a click, and how far it has come is how far the brake should be.
    """
    time = _time(seconds)
    octaves = -2 * time / seconds
    phase = FALL_FROM * seconds / (-2 * math.log(2)) * (2.0**octaves - 1)
    tone = np.sin(2 * np.pi * phase) + 0.2 * np.sin(4 * np.pi * phase)
    struck = 1 + 0.8 * np.exp(-time / 0.02)
    wave: Wave = FALL_LOUD * _scaled(tone * struck * _ending(time, 0.08))
    return wave


def chime(frequency: float) -> Wave:
    """A struck note."""
    time = _time(0.35)
    note = _sine(frequency, time) + 0.2 * _sine(3 * frequency, time)
    struck = note * np.exp(-time / 0.09) * np.minimum(time / 0.004, 1)
    return NOTE_LOUD * _scaled(struck * _ending(time, 0.03))


def passed_wave() -> Wave:
    """A level is passed: a chord that swells and goes, open and low."""
    time = _time(1.1)
    chord = sum(_sine(196.0 * ratio, time) / ratio for ratio in (1, 3 / 2, 2, 5 / 2, 3))
    swell = np.minimum(time / 0.15, 1) * np.exp(-time / 0.5)
    return NOTE_LOUD * _scaled(chord * swell * _ending(time, 0.3))


def best() -> Wave:
    """A best: five small bells, quickly upward."""
    bells = np.zeros(round(0.75 * RATE))
    for number, ratio in enumerate((1, 5 / 4, 3 / 2, 2, 5 / 2)):
        at = round(number * 0.065 * RATE)
        time = np.arange(bells.size - at) / RATE
        # A bell's second partial lies 2.76 times as high as its first (common practice).
        bell = _sine(784.0 * ratio, time) + 0.35 * _sine(2.76 * 784.0 * ratio, time)
        bells[at:] += bell * np.exp(-time / 0.12) * np.minimum(time / 0.002, 1)
    return NOTE_LOUD * _scaled(bells * _ending(_time(0.75), 0.1))


def pitch(number: int) -> float:
    """Frequency in Hz of step `number` (from 1) of the scale."""
    octave, step = divmod(number - 1, len(SCALE))
    return float(ROOT * 2.0 ** (octave + SCALE[step] / 12))


def _time(seconds: float) -> Wave:
    return np.arange(round(seconds * RATE)) / RATE


def _sine(frequency: float, time: Wave) -> Wave:
    wave: Wave = np.sin(2 * np.pi * frequency * time)
    return wave


def _ending(time: Wave, seconds: float) -> Wave:
    """1 until so many s before the end, then down to 0: a wave that stops short would crack."""
    share: Wave = np.clip((time[-1] - time) / seconds, 0, 1)
    return share


def _scaled(wave: Wave) -> Wave:
    """As loud as can be."""
    return wave / float(np.abs(wave).max())
