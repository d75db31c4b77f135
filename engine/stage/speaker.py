"""Sounds made with numpy: a tone while the brake is on target, the cue click, a step up a scale."""

from __future__ import annotations

from typing import Protocol

import numpy as np
import pygame
from numpy.typing import NDArray

from engine.stage.hush import hushed

RATE = 48_000
"""Hz."""
BUFFER = 256
"""samples; larger buffers start a sound 11 to 23 ms late instead of 5 to 8."""
LOUD = 0.35
"""1, of full scale: clear beside a fan, kind to an ear."""
SCALE = (0, 2, 4, 7, 9)
"""semitones of the steps within an octave (a pentatonic scale, where nothing sounds wrong)."""
ROOT = 262.0
"""Hz, the first step."""
HIGHEST = 15
"""steps, where the scale stops climbing: three octaves."""

Wave = NDArray[np.float64]


class Speaker(Protocol):
    """What the game can make heard."""

    def switch(self, on: bool) -> None:
        """Whether anything is to be heard."""
        ...

    def prepare(self) -> None:
        """Sounds will be wanted soon: finding a speaker takes a tenth of a second."""
        ...

    def tone(self, on: bool) -> None:
        """Start or stop the tone of a brake on target."""
        ...

    def click(self) -> None:
        """The cue."""
        ...

    def step(self, number: int) -> None:
        """Clean repetition `number` in a row."""
        ...


class Silence:
    """No sound, whatever is asked for."""

    def switch(self, on: bool) -> None:
        """Nothing."""

    def prepare(self) -> None:
        """Nothing."""

    def tone(self, on: bool) -> None:
        """Nothing."""

    def click(self) -> None:
        """Nothing."""

    def step(self, number: int) -> None:
        """Nothing."""


class Mixer:
    """Sounds through pygame's mixer once it is prepared; silent while off or without a device."""

    def __init__(self) -> None:
        self._on = True
        self._sounds: _Sounds | None = None

    def switch(self, on: bool) -> None:
        """Whether anything is to be heard."""
        self._on = on
        if self._sounds is not None and not on:
            self._sounds.tone(False)

    def prepare(self) -> None:
        """Open the mixer, where sound is wanted and there is a device."""
        if self._on and self._sounds is None:
            self._sounds = _open()

    def tone(self, on: bool) -> None:
        """Start or stop the tone of a brake on target."""
        self._heard.tone(on)

    def click(self) -> None:
        """The cue."""
        self._heard.click()

    def step(self, number: int) -> None:
        """Clean repetition `number` in a row."""
        self._heard.step(number)

    @property
    def _heard(self) -> _Sounds | Silence:
        return self._sounds if self._on and self._sounds is not None else Silence()


class _Sounds:
    """Each sound made once, in the mixer that is open."""

    def __init__(self) -> None:
        """Raises pygame.error where there is no audio device."""
        pygame.mixer.init(RATE, -16, 2, BUFFER)
        self._tone = _sound(hum())
        self._click = _sound(tick())
        self._steps = [_sound(chime(pitch(number))) for number in range(1, HIGHEST + 1)]
        self._on = False

    def tone(self, on: bool) -> None:
        """Start or stop the tone of a brake on target."""
        if on and not self._on:
            self._tone.play(loops=-1, fade_ms=40)
        elif self._on and not on:
            self._tone.fadeout(40)
        self._on = on

    def click(self) -> None:
        """The cue."""
        self._click.play()

    def step(self, number: int) -> None:
        """Clean repetition `number` in a row."""
        self._steps[min(number, HIGHEST) - 1].play()


def _open() -> _Sounds | None:
    """The sounds; None where there is no audio device."""
    try:
        with hushed():
            return _Sounds()
    except pygame.error:
        return None


def pitch(number: int) -> float:
    """Frequency in Hz of step `number` (from 1) of the scale."""
    octave, step = divmod(number - 1, len(SCALE))
    return float(ROOT * 2.0 ** (octave + SCALE[step] / 12))


def hum() -> Wave:
    """A soft tone, shape (n,), that loops without a seam: whole periods of 220 and 440 Hz."""
    time = np.arange(RATE // 10) / RATE
    return 0.25 * (np.sin(2 * np.pi * 220 * time) + 0.3 * np.sin(2 * np.pi * 440 * time))


def tick() -> Wave:
    """A short click with its energy at once, shape (n,): 20 ms."""
    time = np.arange(RATE // 50) / RATE
    return np.sin(2 * np.pi * 1500 * time) * np.exp(-time / 0.004)


def chime(frequency: float) -> Wave:
    """A struck note, shape (n,): 0.35 s."""
    time = np.arange(RATE * 35 // 100) / RATE
    note = np.sin(2 * np.pi * frequency * time) + 0.2 * np.sin(6 * np.pi * frequency * time)
    return 0.8 * note * np.exp(-time / 0.09) * np.minimum(time / 0.004, 1)


def _sound(wave: Wave) -> pygame.mixer.Sound:
    """A sound in the number of channels that the mixer really has."""
    _, _, channels = pygame.mixer.get_init()
    samples = (np.clip(wave, -1, 1) * LOUD * 32767).astype(np.int16)
    return pygame.mixer.Sound(buffer=np.repeat(samples, channels).tobytes())
