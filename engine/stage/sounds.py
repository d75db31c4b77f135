"""All sounds of the game on an open audio device, and whether that device still plays them."""

from __future__ import annotations

from typing import Protocol

import numpy as np
import pygame

from drills.braking_zone import Line
from drills.trace import nanoseconds
from engine.stage import earcon_waves, waves
from engine.stage.brake_tone import BrakeTone
from engine.stage.earcon import Earcon
from engine.stage.signals import VOLUME_SHARES, Volume
from engine.stage.waves import Wave

BUFFER = 256
"""Size of the mixer's buffer, in samples. Larger ones delay a sound by 11 to 23 ms, not 5 to 8."""
CHANNELS = 16
"""Number of sounds that can play at once: enough for tones that fade while rewards still sound."""
CUE_CHANNEL = 0
"""Mixer channel reserved for the click of the cue, so that it never waits for another sound."""
PROBE_CHANNEL = 1
"""Mixer channel reserved for the silent probe, which ends soon if the audio device plays on."""
PROBE_LENGTH = 0.010
"""Length of the silent probe, in s."""
PATIENCE = nanoseconds(0.5)
"""Time after which a probe that has not ended shows that the audio device stands still, in ns.

A device takes sound in lumps, mostly of some ms, by radio of 0.2 s (from memory): a probe ends
late, but not as late as this.
"""
FADE = 80
"""Time in which a brake tone fades in and out, in ms: a foot that left the band hears so at once.

The mixer changes the volume once per BUFFER, here in fifteen steps: no step is steeper than the
wave of the loudest tone.
"""


class Opens(Protocol):
    """Function that opens pygame's mixer, as `pygame.mixer.init` does; raises pygame.error."""

    def __call__(
        self,
        frequency: int,
        size: int,
        channels: int,
        buffer: int,
        *,
        allowedchanges: int,
    ) -> None:
        """Open the mixer at a sampling rate in Hz, a sample size in bits, channels and buffer."""
        ...


class Sounds:
    """All sounds of the game on an open mixer, each computed once."""

    def __init__(self, volume: Volume, opens: Opens) -> None:
        """Open pygame's mixer by `opens`. Raises pygame.error if there is no audio device.

        SDL is allowed no change, so it converts the sounds for a device at another rate.
        """
        opens(waves.RATE, -16, 2, BUFFER, allowedchanges=0)
        pygame.mixer.set_num_channels(CHANNELS)
        pygame.mixer.set_reserved(PROBE_CHANNEL + 1)
        self.stalled = False
        """Whether the audio device stands still, as the last check found it."""
        self._probe = _sound(np.zeros(round(PROBE_LENGTH * waves.RATE)))
        self._probed = 0
        self._tones = {tone: _sound(waves.brake_tone(tone)) for tone in waves.AIM_TONES}
        self._click, self._softer_click = _sound(waves.click()), _sound(waves.click_over_fall())
        self._count = _sound(waves.beat())
        self._knocks = {high: _sound(waves.knock(high=high)) for high in (False, True)}
        self._fall_sound: tuple[Line, pygame.mixer.Sound] | None = None
        steps = range(1, earcon_waves.HIGHEST_STEP + 1)
        self._steps = [_sound(earcon_waves.clean(number)) for number in steps]
        self._earcons = {what: _sound(earcon_waves.earcon(what)) for what in earcon_waves.VERDICTS}
        self._curve: pygame.mixer.Sound | None = None
        self._tone = BrakeTone.SILENT
        self._channel: pygame.mixer.Channel | None = None
        self.tune(volume)

    def tune(self, volume: Volume) -> None:
        """Set the volume of all sounds."""
        rewards = (*self._steps, *self._earcons.values())
        others = [] if self._fall_sound is None else [self._fall_sound[1]]
        others += [] if self._curve is None else [self._curve]
        cues = (self._click, self._softer_click, self._count, *self._knocks.values())
        for sound in (*self._tones.values(), *cues, *others, *rewards):
            sound.set_volume(VOLUME_SHARES[volume])
        self._volume = volume
        if volume is Volume.OFF:
            self.play_tone(BrakeTone.SILENT)

    def check(self, now: int) -> None:
        """Look, at `now` (ns), whether the device stands still: a probe that does not end says so.

        The probe is started again as soon as it has ended.
        """
        channel = pygame.mixer.Channel(PROBE_CHANNEL)
        if not channel.get_busy():
            self.stalled = False
            channel.play(self._probe)
            self._probed = now
        elif now - self._probed >= PATIENCE:
            self.stalled = True

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
        """Play the click that is the cue to act; returns whether it was audible."""
        falls = self._fall_sound is not None and self._fall_sound[1].get_num_channels() > 0
        return self._cue(self._softer_click if falls else self._click)

    def count(self) -> bool:
        """Play a beat of the count-in to a run; returns whether it was audible."""
        return self._cue(self._count)

    def knock(self, *, high: bool) -> bool:
        """Play a knock of the second task; returns whether it was audible.

        It has no channel of its own, so that it never cuts off a cue.
        """
        return not self.stalled and self._knocks[high].play() is not None

    def make_fall(self, guide: Line) -> None:
        """Compute the tone with the course of `guide`, unless the last one had it.

        An empty guide has none to compute.
        """
        if guide and (self._fall_sound is None or self._fall_sound[0] != guide):
            self._fall_sound = (guide, self._at_volume(waves.fall(guide)))

    def fall(self) -> bool:
        """Play the falling tone, the cue to ease off; returns whether it was audible."""
        if self._fall_sound is None or self.stalled:
            return False
        return self._fall_sound[1].play() is not None

    def end_fall(self) -> None:
        """Fade out the falling tone that is the cue to ease off, if it plays."""
        if self._fall_sound is not None:
            self._fall_sound[1].fadeout(FADE)

    def step(self, number: int, after: Wave | None = None) -> None:
        """Play the reward for the clean repetition `number` of a streak, counted from 1.

        It comes as soon as the wave `after`, shape (n, 2), has ended.
        """
        self._play_after(after, self._steps[min(number, earcon_waves.HIGHEST_STEP) - 1])

    def play(self, earcon: Earcon, after: Wave | None = None) -> None:
        """Play the short sound that says this, as soon as the wave `after` has ended.

        One that marks a moment is computed when it is first played: nothing is measured then.
        """
        if earcon not in self._earcons:
            self._earcons[earcon] = self._at_volume(earcon_waves.earcon(earcon))
        self._play_after(after, self._earcons[earcon])

    def play_curve(self, wave: Wave) -> bool:
        """Play a wave, shape (n, 2) or (n,), and end the one that plays; returns whether so."""
        self.end_curve()
        self._curve = self._at_volume(wave)
        return not self.stalled and self._curve.play() is not None

    def end_curve(self) -> None:
        """Fade out the wave of `play_curve`, if it plays."""
        if self._curve is not None:
            self._curve.fadeout(FADE)
            self._curve = None

    def end_feedback(self) -> None:
        """Fade out all verdicts, moments and curves that still play."""
        self.end_curve()
        for sound in (*self._steps, *self._earcons.values()):
            sound.fadeout(FADE)

    def _play_after(self, first: Wave | None, sound: pygame.mixer.Sound) -> None:
        """Play a sound or, where there is a first wave, a curve that is both one after another."""
        if first is None:
            sound.play()
            return
        self.end_curve()
        self._curve = pygame.mixer.Sound(buffer=_sound(first).get_raw() + sound.get_raw())
        self._curve.set_volume(VOLUME_SHARES[self._volume])
        self._curve.play()

    def _at_volume(self, wave: Wave) -> pygame.mixer.Sound:
        sound = _sound(wave)
        sound.set_volume(VOLUME_SHARES[self._volume])
        return sound

    def _cue(self, sound: pygame.mixer.Sound) -> bool:
        """Play a cue, unless the device stands still: it would sound late, as a second cue."""
        if not self.stalled:
            pygame.mixer.Channel(CUE_CHANNEL).play(sound)
        return not self.stalled


def _fade_out(channel: pygame.mixer.Channel) -> None:
    """Fade out what plays on a channel.

    What only just began to fade in has no volume yet, and SDL then lets it play on: it is stopped.
    """
    channel.fadeout(FADE)
    if channel.get_volume() == 0:
        channel.stop()


def _sound(wave: Wave) -> pygame.mixer.Sound:
    """Playable sound of a wave, shape (n,) or in stereo (n, 2).

    It is at the rate and with as many channels as the mixer was given.
    """
    rate, _, channels = pygame.mixer.get_init() or (waves.RATE, -16, 2)
    sides = wave if wave.ndim == 2 else np.repeat(wave[:, None], channels, axis=1)
    if sides.shape[1] != channels:
        sides = np.repeat(sides.mean(axis=1)[:, None], channels, axis=1)
    resampled = np.stack([waves.at_rate(side, rate) for side in sides.T], axis=1)
    samples = (np.clip(resampled, -1, 1) * 32767).astype(np.int16)
    return pygame.mixer.Sound(buffer=samples.tobytes())
