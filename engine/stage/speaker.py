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
"""Number of sounds that can play at once: enough for tones that fade while rewards still sound."""
CUE_CHANNEL = 0
"""Mixer channel reserved for the click of the cue, so that it never waits for another sound."""
FADE = 160
"""Time in which a brake tone fades in and out, in ms.

The mixer changes the volume once per BUFFER, here in thirty steps: no step is steeper than the wave
of the tone itself.
"""


class Speaker(Protocol):
    """Interface of the sound output: brake tones, cues and rewards."""

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
        """Play this brake tone until another one is asked for."""
        ...

    def click(self) -> bool:
        """Play the click that is the cue to act; returns whether it was audible."""
        ...

    def count(self) -> bool:
        """Play a beat of the count-in to a run; returns whether it was audible."""
        ...

    def make_fall(self, seconds: float) -> None:
        """Prepare the tone for `fall`, to fall for `seconds`; 0 prepares none."""
        ...

    def fall(self) -> bool:
        """Play the falling tone, the cue to ease off the brake; returns whether it was audible."""
        ...

    def end_fall(self) -> None:
        """Stop the falling tone that is the cue to ease off the brake."""
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
    """Speaker that plays nothing, for runs without sound."""

    trouble = ""

    def tune(self, volume: Volume, *, click: bool) -> None:
        """No sound here to set a volume for: do nothing."""

    def prepare(self) -> None:
        """No audio device to open here: do nothing."""

    def play_tone(self, tone: BrakeTone) -> None:
        """No speaker for the brake tone here: do nothing."""

    def click(self) -> bool:
        """No speaker for the click of the cue here: inaudible, so false."""
        return False

    def count(self) -> bool:
        """No speaker for the beat of the count-in here: inaudible, so false."""
        return False

    def make_fall(self, seconds: float) -> None:
        """No speaker for the falling tone here: prepare nothing."""

    def fall(self) -> bool:
        """No speaker for the falling tone here: inaudible, so false."""
        return False

    def end_fall(self) -> None:
        """No falling tone to stop here: do nothing."""

    def step(self, number: int) -> None:
        """No speaker for the reward of a clean repetition here: do nothing."""

    def passed(self) -> None:
        """No speaker for the reward of a passed level here: do nothing."""

    def best(self) -> None:
        """No speaker for the reward of a personal best here: do nothing."""


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
        """Open the audio device, unless the volume is off; without one, `trouble` says why."""
        if self._sounds is not None or self._volume is Volume.OFF:
            return
        try:
            with quiet_stderr():
                self._sounds = _Sounds(self._volume)
            self.trouble = ""
        except pygame.error as error:
            self.trouble = str(error) or "no audio device"

    def play_tone(self, tone: BrakeTone) -> None:
        """Play this brake tone until another one is asked for."""
        self._output.play_tone(tone)

    def click(self) -> bool:
        """Play the click that is the cue to act; returns whether it was audible."""
        return self._clicks and self._output.click()

    def count(self) -> bool:
        """Play a beat of the count-in to a run; returns whether it was audible."""
        return self._clicks and self._output.count()

    def make_fall(self, seconds: float) -> None:
        """Prepare the tone for `fall`, to fall for `seconds`; 0 prepares none."""
        self._output.make_fall(seconds)

    def fall(self) -> bool:
        """Play the falling tone, the cue to ease off the brake; returns whether it was audible."""
        return self._output.fall()

    def end_fall(self) -> None:
        """Stop the falling tone that is the cue to ease off the brake."""
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
    """All sounds of the game on an open mixer, each computed once."""

    def __init__(self, volume: Volume) -> None:
        """Open pygame's mixer. Raises pygame.error if there is no audio device."""
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
        self._channel: pygame.mixer.Channel | None = None
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
        if self._channel is not None:
            _fade_out(self._channel)
        silent = tone not in self._tones
        self._channel = None if silent else self._tones[tone].play(loops=-1, fade_ms=FADE)
        self._tone = tone

    def click(self) -> bool:
        """Play the click that is the cue to act; always audible."""
        pygame.mixer.Channel(CUE_CHANNEL).play(self._click)
        return True

    def count(self) -> bool:
        """Play a beat of the count-in to a run; always audible."""
        pygame.mixer.Channel(CUE_CHANNEL).play(self._count)
        return True

    def make_fall(self, seconds: float) -> None:
        """Compute the tone that falls for `seconds`, unless the last one did; 0: compute none."""
        if seconds > 0 and (self._fall_sound is None or self._fall_sound[0] != seconds):
            self._fall_sound = (seconds, _sound(waves.fall(seconds)))
            self._fall_sound[1].set_volume(VOLUME_SHARES[self._volume])

    def fall(self) -> bool:
        """Play the falling tone, the cue to ease off; returns whether one was prepared."""
        if self._fall_sound is None:
            return False
        self._fall_sound[1].play()
        return True

    def end_fall(self) -> None:
        """Fade out the falling tone that is the cue to ease off, if it plays."""
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


def _fade_out(channel: pygame.mixer.Channel) -> None:
    """Fade out what plays on a channel.

    What only just began to fade in has no volume yet, and SDL then lets it play on: it is stopped.
    """
    channel.fadeout(FADE)
    if channel.get_volume() == 0:
        channel.stop()


def _sound(wave: Wave) -> pygame.mixer.Sound:
    """Playable sound of a wave, with as many channels as the mixer was given."""
    _, _, channels = pygame.mixer.get_init() or (waves.RATE, -16, 2)
    samples = (np.clip(wave, -1, 1) * 32767).astype(np.int16)
    return pygame.mixer.Sound(buffer=np.repeat(samples, channels).tobytes())
