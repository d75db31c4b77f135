"""Earcons as waves: the verdict on one repetition, and the moments worth marking."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np

from engine.stage.earcon import Earcon
from engine.stage.waves import RATE, Wave, fade_out, partials, scaled, seconds_of, sine

CLEAN_PITCHES = (784.0, 1175.0)
"""Pitches of the two notes of a clean repetition, in Hz: a rising fifth, which no other has.

A single note of a scale is nearly as the beginning of late or missed (0.2 apart, two notes 0.6, in
tests/bench/sounds.py).
"""
CLEAN_NOTE = 0.090
"""Time from the first note of a clean repetition to its second, in s."""
SCALE = (0, 2, 4, 7, 9)
"""Steps of the pentatonic scale that clean repetitions climb, in semitones above its root; any two
sound well together."""
HIGHEST_STEP = 8
"""Number of the highest step: as many clean repetitions in a row as pass a level."""
SPOKEN = 523.0
"""Pitch at which the verdicts dip, surge and late begin, in Hz, so that they differ by what follows
alone."""
GLIDE = 5
"""Semitones by which a verdict glides: down for brake lost, up for too much of it."""
GLIDE_TIME = 0.200
"""Time that such a glide takes, in s."""
VOICE = (1.0, 0.5, 0.25)
"""Loudness of the partials of such a verdict, as ratios: a small speaker plays the upper ones."""
LATE_GAP = 0.140
"""Time from the first note of the verdict late to its second, in s."""
KNOCK = 300.0
"""Pitch of the two knocks of a void repetition, in Hz."""
KNOCK_GAP = 0.110
"""Time from the first knock of a void repetition to its second, in s."""
HOLLOW = (1.0, 0.0, 0.6, 0.0, 0.4)
"""Loudness of the partials of the verdict missed, as ratios: the odd ones alone sound hollow."""
VERDICT_VOLUMES: Mapping[Earcon, float] = {
    Earcon.DIP: 0.30,
    Earcon.SURGE: 0.25,
    Earcon.LATE: 0.35,
    Earcon.MISSED: 0.25,
    Earcon.VOID: 0.45,
}
"""Volume of each verdict that is not clean, as a share of full scale: about as loud as each other,
A-weighted, but for the softer knocks, and no louder than the reward."""
CLEAN_VOLUME = 0.40
"""Volume of the reward for a clean repetition, as a share of full scale."""
NOTE_VOLUME = 0.5
"""Volume of the moments, as a share of full scale: clear beside a fan, but not shrill."""
CHORD = (1.0, 3 / 2, 2.0, 5 / 2, 3.0)
"""Notes of the chord of a passed level, as ratios to its lowest; each is softer as it is higher."""
CHORD_ROOT = 196.0
"""Lowest note of the chord of a passed level, in Hz."""
BELL = 659.0
"""Pitch of the first bell of a best, in Hz: no clean repetition begins there."""
GLINT = 1176.0
"""Pitch of the high partial that tells a passed level on a small speaker, in Hz."""
GLINT_LOUD = 10 ** (-12 / 20)
"""Loudness of that partial, as a share of that of the lowest note: 12 dB under it."""


def clean(number: int) -> Wave:
    """Wave of the reward for the clean repetition `number` of a streak, from 1: two notes up."""
    octave, step = divmod(min(number, HIGHEST_STEP) - 1, len(SCALE))
    ratio = 2.0 ** (octave + SCALE[step] / 12)
    first, second = (_struck(ratio * pitch, 0.20, 0.07) for pitch in CLEAN_PITCHES)
    first[round(CLEAN_NOTE * RATE) :] *= 0.5
    return CLEAN_VOLUME * scaled(_one_after_another([first, second], CLEAN_NOTE))


def earcon(what: Earcon) -> Wave:
    """Wave of the short sound that says this."""
    return VERDICT_VOLUMES.get(what, NOTE_VOLUME) * scaled(_WAVES[what]())


def _glide(semitones: int) -> Wave:
    """Verdict that glides by some semitones, up or down, and rests there for a moment."""
    time = seconds_of(GLIDE_TIME + 0.06)
    pitch = SPOKEN * 2.0 ** (semitones / 12 * np.minimum(time / GLIDE_TIME, 1))
    periods = np.cumsum(pitch, dtype=np.float64) / RATE
    return _spoken(partials(1.0, VOICE, periods))


def _late() -> Wave:
    note = partials(SPOKEN, VOICE, seconds_of(0.09))
    note *= fade_out(note.size, 0.03) * fade_out(note.size, 0.004)[::-1]
    return _spoken(_one_after_another([note, note], LATE_GAP))


def _void() -> Wave:
    time = seconds_of(0.10)
    knock = partials(KNOCK, (1.0, 0.0, 0.7), time) * np.exp(-time / 0.018)
    knock *= np.minimum(time / 0.001, 1) * fade_out(time.size, 0.02)
    return _spoken(_one_after_another([knock, knock], KNOCK_GAP))


def _missed() -> Wave:
    return _spoken(partials(SPOKEN * 2 ** (-GLIDE / 12), HOLLOW, seconds_of(0.22)))


def _spoken(wave: Wave) -> Wave:
    """A verdict without a crack at its ends."""
    ends = fade_out(wave.size, 0.005)[::-1] * fade_out(wave.size, 0.05)
    return wave * ends


def _passed() -> Wave:
    return _chord(CHORD_ROOT, 1.1)


def _retained() -> Wave:
    """A chord a sixth higher that falls back into the one of passing: home once more."""
    return _one_after_another([_chord(CHORD_ROOT * 5 / 3, 0.27), _chord(CHORD_ROOT, 1.0)], 0.22)


def _chord(root: float, length: float) -> Wave:
    """Open chord on a root in Hz with a glint on it, struck and fading."""
    time = seconds_of(length)
    wave = GLINT_LOUD * sine(GLINT * root / CHORD_ROOT, time)
    for ratio in CHORD:
        wave += sine(root * ratio, time) / ratio
    wave *= np.minimum(time / 0.002, 1) * np.exp(-time / 0.5)
    return wave * fade_out(time.size, min(0.3, length / 2))


def _best() -> Wave:
    """Five small bells in a quick upward run; a bell's second partial is 2.76 times its first."""
    bells = []
    for ratio in (1, 5 / 4, 3 / 2, 2, 5 / 2):
        time = seconds_of(0.4)
        bell = sine(BELL * ratio, time) + 0.35 * sine(2.76 * BELL * ratio, time)
        bells.append(bell * np.exp(-time / 0.12) * np.minimum(time / 0.002, 1))
    run = _one_after_another(bells, 0.065)
    return run * fade_out(run.size, 0.1)


def _row() -> Wave:
    """Four equal wooden notes and one an octave higher: one more, and again."""
    notes = [_wooden(440.0)] * 4 + [_wooden(880.0)]
    return _one_after_another(notes, 0.080)


def _wooden(pitch: float) -> Wave:
    """A note as of a wooden bar, whose second partial is tuned to four times its first."""
    time = seconds_of(0.25)
    fast, slow = np.exp(-time / 0.025), np.exp(-time / 0.06)
    note = slow * sine(pitch, time) + 0.8 * fast * sine(4 * pitch, time)
    return note * np.minimum(time / 0.001, 1) * fade_out(time.size, 0.05)


def _day_done() -> Wave:
    """Two long notes down, each over its own octave, which come to rest: the day is over."""
    first, second = (
        _struck(pitch, 0.45, 0.25) + 0.6 * _struck(pitch / 2, 0.45, 0.25)
        for pitch in (587.0, 392.0)
    )
    first[round(0.25 * RATE) :] *= 0.5
    return _one_after_another([first, second], 0.25)


def _struck(pitch: float, length: float, fades: float) -> Wave:
    """A struck note of some length that fades, by a factor of e in `fades`, both in s."""
    time = seconds_of(length)
    note = partials(pitch, (1.0, 0.15), time) * np.exp(-time / fades)
    return note * np.minimum(time / 0.004, 1) * fade_out(time.size, 0.03)


def _one_after_another(sounds: Sequence[Wave], apart: float) -> Wave:
    """Sounds that begin `apart` s after each other and ring on, as one wave."""
    starts = [round(number * apart * RATE) for number in range(len(sounds))]
    together = np.zeros(max(at + sound.size for at, sound in zip(starts, sounds, strict=True)))
    for at, sound in zip(starts, sounds, strict=True):
        together[at : at + sound.size] += sound
    return together


_WAVES: Mapping[Earcon, Callable[[], Wave]] = {
    Earcon.DIP: lambda: _glide(-GLIDE),
    Earcon.SURGE: lambda: _glide(GLIDE),
    Earcon.LATE: _late,
    Earcon.MISSED: _missed,
    Earcon.VOID: _void,
    Earcon.PASSED: _passed,
    Earcon.RETAINED: _retained,
    Earcon.BEST: _best,
    Earcon.ROW: _row,
    Earcon.DAY_DONE: _day_done,
}
VERDICTS = (Earcon.DIP, Earcon.SURGE, Earcon.LATE, Earcon.MISSED, Earcon.VOID)
"""Earcons that say how a repetition ended; the others mark moments, which are rare."""
