"""Sound output: brake tones, the cue's click, and short sounds for success."""

from __future__ import annotations

from typing import Protocol

import numpy as np
import pygame

from engine.stage import waves
from engine.stage.brake_tone import BrakeTone
from engine.stage.sdl_setup import quiet_stderr
from engine.stage.signals import VOLUME_SHARES, Volume
from engine.stage.waves import Wave

BUFFER = 256
"""Size of the mixer's buffer, in samples. Larger ones delay a sound by 11 to 23 ms, not 5 to 8."""
CHANNELS = 16
"""Number of sounds that can play at once: tones that fade into each other over a last reward."""
CUE_CHANNEL = 0
"""Mixer channel reserved for the click, so that it never waits for another sound."""
FADE = 160
"""Time in which a tone fades in and out, in ms.

The mixer changes the volume once per BUFFER, here in thirty steps: none is steeper than the tone.
"""


class Speaker(Protocol):
    """Interface of the sound output."""

    @property
    def trouble(self) -> str:
        """The system's reason why there is no sound; empty if there is none or none was tried."""
        ...

    def tune(self, volume: Volume, *, click: bool) -> None:
        """Set the volume of all sounds, and whether the cue clicks."""
        ...

    def prepare(self) -> None:
        """Open the audio device ahead of time, which takes a tenth of a second."""
        ...

    def play_tone(self, tone: BrakeTone) -> None:
        """Play this brake tone until another one is set."""
        ...

    def click(self) -> bool:
        """Play the click of the cue; returns whether it was audible."""
        ...

    def count(self) -> bool:
        """Play a beat of the count-in; returns whether it was audible."""
        ...

    def make_fall(self, seconds: float) -> None:
        """Prepare the falling tone for `fall`, lasting `seconds`; 0 prepares none."""
        ...

    def fall(self) -> bool:
        """Play the falling tone, the cue to ease off; returns whether it was audible."""
        ...

    def end_fall(self) -> None:
        """Stop the falling tone."""
        ...

    def step(self, number: int) -> None:
        """Play the reward for the clean repetition `number` of a streak, counted from 1."""
        ...

    def passed(self) -> None:
        """Play the reward for a passed level."""
        ...

    def best(self) -> None:
        """Play the reward for a new personal best."""
        ...


class Silence:
    """Speaker that plays nothing."""

    trouble = ""

    def tune(self, volume: Volume, *, click: bool) -> None:
        """Do nothing."""

    def prepare(self) -> None:
        """Do nothing."""

    def play_tone(self, tone: BrakeTone) -> None:
        """Do nothing."""

    def click(self) -> bool:
        """Do nothing."""
        return False

    def count(self) -> bool:
        """Do nothing."""
        return False

    def make_fall(self, seconds: float) -> None:
        """Do nothing."""

    def fall(self) -> bool:
        """Do nothing."""
        return False

    def end_fall(self) -> None:
        """Do nothing."""

    def step(self, number: int) -> None:
        """Do nothing."""

    def passed(self) -> None:
        """Do nothing."""

    def best(self) -> None:
        """Do nothing."""


class Mixer:
    """Speaker on pygame's mixer; silent until prepared, at volume off, or without a device."""

    def __init__(self) -> None:
        self.trouble = ""
        self._volume = Volume.MEDIUM
        self._clicks = True
        self._sounds: _Sounds | None = None

    def tune(self, volume: Volume, *, click: bool) -> None:
        """Set the volume of all sounds, and whether the cue clicks."""
        self._volume, self._clicks = volume, click
        if self._sounds is not None:
            self._sounds.tune(volume)

    def prepare(self) -> None:
        """Open the mixer, unless the volume is off; without a device, `trouble` says why."""
        if self._sounds is not None or self._volume is Volume.OFF:
            return
        try:
            with quiet_stderr():
                self._sounds = _Sounds(self._volume)
            self.trouble = ""
        except pygame.error as error:
            self.trouble = str(error) or "no audio device"

    def play_tone(self, tone: BrakeTone) -> None:
        """Play this brake tone until another one is set."""
        self._output.play_tone(tone)

    def click(self) -> bool:
        """Play the click of the cue; returns whether it was audible."""
        return self._clicks and self._output.click()

    def count(self) -> bool:
        """Play a beat of the count-in; returns whether it was audible."""
        return self._clicks and self._output.count()

    def make_fall(self, seconds: float) -> None:
        """Prepare the falling tone for `fall`, lasting `seconds`; 0 prepares none."""
        self._output.make_fall(seconds)

    def fall(self) -> bool:
        """Play the falling tone, the cue to ease off; returns whether it was audible."""
        return self._output.fall()

    def end_fall(self) -> None:
        """Stop the falling tone."""
        self._output.end_fall()

    def step(self, number: int) -> None:
        """Play the reward for the clean repetition `number` of a streak, counted from 1."""
        self._output.step(number)

    def passed(self) -> None:
        """Play the reward for a passed level."""
        self._output.passed()

    def best(self) -> None:
        """Play the reward for a new personal best."""
        self._output.best()

    @property
    def _output(self) -> _Sounds | Silence:
        if self._sounds is None or self._volume is Volume.OFF:
            return Silence()
        return self._sounds


class _Sounds:
    """Sounds of the open mixer, each computed once."""

    def __init__(self, volume: Volume) -> None:
        """Open the mixer. Raises pygame.error if there is no audio device."""
        pygame.mixer.init(waves.RATE, -16, 2, BUFFER)
        pygame.mixer.set_num_channels(CHANNELS)
        pygame.mixer.set_reserved(CUE_CHANNEL + 1)
        self._tones = {tone: _sound(waves.brake_tone(tone)) for tone in waves.PITCHES}
        self._click = _sound(waves.click())
        self._count = _sound(waves.beat())
        self._fall_sound: tuple[float, pygame.mixer.Sound] | None = None
        self._steps = [
            _sound(waves.chime(waves.pitch(number))) for number in range(1, waves.HIGHEST_STEP + 1)
        ]
        self._passed = _sound(waves.passed_wave())
        self._best = _sound(waves.best())
        self._tone = BrakeTone.SILENT
        self.tune(volume)

    def tune(self, volume: Volume) -> None:
        """Set the volume of all sounds."""
        rewards = (*self._steps, self._passed, self._best)
        falls = [] if self._fall_sound is None else [self._fall_sound[1]]
        for sound in (*self._tones.values(), self._click, self._count, *falls, *rewards):
            sound.set_volume(VOLUME_SHARES[volume])
        self._volume = volume
        if volume is Volume.OFF:
            self.play_tone(BrakeTone.SILENT)

    def play_tone(self, tone: BrakeTone) -> None:
        """Fade from the current brake tone to this one."""
        if tone is self._tone:
            return
        if self._tone in self._tones:
            self._tones[self._tone].fadeout(FADE)
        if tone in self._tones:
            self._tones[tone].play(loops=-1, fade_ms=FADE)
        self._tone = tone

    def click(self) -> bool:
        """Play the click of the cue; always audible."""
        pygame.mixer.Channel(CUE_CHANNEL).play(self._click)
        return True

    def count(self) -> bool:
        """Play a beat of the count-in; always audible."""
        pygame.mixer.Channel(CUE_CHANNEL).play(self._count)
        return True

    def make_fall(self, seconds: float) -> None:
        """Compute the falling tone, unless the last one took as long; 0 seconds: none."""
        if seconds > 0 and (self._fall_sound is None or self._fall_sound[0] != seconds):
            self._fall_sound = (seconds, _sound(waves.fall(seconds)))
            self._fall_sound[1].set_volume(VOLUME_SHARES[self._volume])

    def fall(self) -> bool:
        """Play the falling tone; returns whether one was prepared."""
        if self._fall_sound is None:
            return False
        self._fall_sound[1].play()
        return True

    def end_fall(self) -> None:
        """Fade the falling tone out, if it plays."""
        if self._fall_sound is not None:
            self._fall_sound[1].fadeout(FADE)

    def step(self, number: int) -> None:
        """Play the reward for the clean repetition `number` of a streak, counted from 1."""
        self._steps[min(number, waves.HIGHEST_STEP) - 1].play()

    def passed(self) -> None:
        """Play the reward for a passed level."""
        self._passed.play()

    def best(self) -> None:
        """Play the reward for a new personal best."""
        self._best.play()


def _sound(wave: Wave) -> pygame.mixer.Sound:
    """Sound from a wave, with as many channels as the mixer was given."""
    _, _, channels = pygame.mixer.get_init()
    samples = (np.clip(wave, -1, 1) * 32767).astype(np.int16)
    return pygame.mixer.Sound(buffer=np.repeat(samples, channels).tobytes())
