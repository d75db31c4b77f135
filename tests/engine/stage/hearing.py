"""What can be heard of a wave: its pitch, its bands, and what a small speaker leaves of it."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from engine.stage.waves import RATE, Wave

SMALL = 400
"""Frequency in Hz under which a small speaker loses sound, as a second-order high-pass."""
LOOK = 0.2
"""Time in which sounds are to be told apart, in s."""
FRAMES = 8
"""Number of frames that this time is cut into."""
EDGES = 150 * 2 ** (np.arange(34) / 6)
"""Edges of bands of a sixth of an octave, in Hz: narrower ones are no easier to hear."""


def loudest_pitch(wave: Wave) -> float:
    """Frequency of the largest component of a wave, in Hz."""
    return float(np.argmax(np.abs(np.fft.rfft(wave))) * RATE / wave.size)


def spectrum(wave: Wave) -> Wave:
    """Power of a wave in each quarter of an octave from 100 Hz up, shape (28,), of norm 1."""
    binned = bands(wave, 100 * 2 ** (np.arange(29) / 4))
    normed: Wave = binned / np.linalg.norm(binned)
    return normed


def bands(wave: Wave, edges: Wave) -> Wave:
    """Power of a wave between the edges of bands in Hz, shape (len(edges) - 1,)."""
    power = np.abs(np.fft.rfft(wave, max(wave.size, RATE // 5))) ** 2
    pitches = np.fft.rfftfreq(max(wave.size, RATE // 5), 1 / RATE)
    binned: Wave = np.histogram(pitches, edges, weights=power)[0]
    return binned


def a_weight(pitch: NDArray[np.floating[Any]]) -> Wave:
    """Gain of A-weighting at frequencies in Hz (IEC 61672)."""
    square = pitch**2
    ends = (square + 20.6**2) * (square + 12194**2)
    middle = np.sqrt((square + 107.7**2) * (square + 737.9**2))
    weight: Wave = 1.2589 * 12194**2 * square**2 / (ends * middle)
    return weight


def level(wave: Wave) -> float:
    """A-weighted level of the loudest fifth of a second of a wave, in dB of full scale."""
    heard = np.fft.irfft(np.fft.rfft(wave) * a_weight(np.fft.rfftfreq(wave.size, 1 / RATE)))
    window = RATE // 5
    power = np.convolve(np.pad(heard**2, window), np.ones(window) / window, "valid").max()
    return float(10 * np.log10(2 * power))


def loss_on_small_speaker(wave: Wave) -> float:
    """What a small speaker takes from a wave, in dB.

    The gain of such a high-pass at f is (f / 400)^2 / sqrt(1 + (f / 400)^4) (Butterworth).
    """
    ratio = np.fft.rfftfreq(wave.size, 1 / RATE) / SMALL
    power = np.abs(np.fft.rfft(wave)) ** 2
    left = np.sum(power * ratio**4 / (1 + ratio**4)) / np.sum(power)
    return float(-10 * np.log10(left))


def picture(wave: Wave) -> Wave:
    """What is heard of a wave in its first LOOK s: amplitude by frame and band, of norm 1."""
    size = round(LOOK * RATE / FRAMES)
    begun = np.zeros(size * FRAMES)
    begun[: wave.size] = wave[: begun.size]
    seen = np.sqrt([bands(frame, EDGES) for frame in begun.reshape(FRAMES, size)])
    normed: Wave = seen / np.linalg.norm(seen)
    return normed


def unlike(one: Wave, other: Wave) -> float:
    """How unlike two sounds are in their first LOOK s: from 0 for the same to 1."""
    return 1 - float(np.sum(picture(one) * picture(other)))
