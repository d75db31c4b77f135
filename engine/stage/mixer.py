"""Speaker on pygame's mixer: opens the audio device, notices its loss, and opens it again."""

from __future__ import annotations

import pygame

from drills.braking_zone import Line
from drills.trace import nanoseconds
from engine.stage.brake_tone import BrakeTone
from engine.stage.earcon import Earcon
from engine.stage.sdl_setup import quiet_stderr
from engine.stage.signals import Volume
from engine.stage.sounds import Opens, Sounds
from engine.stage.speaker import Silence
from engine.stage.waves import Wave

RETRY = nanoseconds(5)
"""Least time between two attempts to open a missing audio device, in ns.

An attempt that fails takes 0.13 s on Linux, measured where neither server nor sound card runs.
"""
LOST = "the audio device is gone"
"""Trouble of an audio device that the system took away, until it is tried again."""
STALLED = "the audio device stands still"
"""Trouble of an audio device that no longer plays what it is given."""


class Mixer:
    """Speaker on pygame's mixer; silent until prepared, at volume off, or without a device."""

    def __init__(self, opens: Opens = pygame.mixer.init) -> None:
        """`opens` opens pygame's mixer."""
        self._opens = opens
        self._volume = Volume.MEDIUM
        self._clicks = True
        self._ear = False
        self._trouble = ""
        self._sounds: Sounds | None = None
        # After a failed attempt the wait begins with the next call of `recover`.
        self._next_attempt: int | None = None

    @property
    def trouble(self) -> str:
        """Why there is no sound; empty if there is some, or if the volume is off."""
        if self._volume is Volume.OFF:
            return ""
        stalled = self._sounds is not None and self._sounds.stalled
        return STALLED if stalled else self._trouble

    @property
    def is_heard(self) -> bool:
        """Whether sounds are audible: the volume is not off, and nothing is known to be wrong."""
        return self._volume is not Volume.OFF and not self.trouble

    @property
    def ear(self) -> bool:
        """Whether the brake of a repetition is to be heard before its verdict."""
        return self._ear and self._volume is not Volume.OFF

    def tune(self, volume: Volume, *, click: bool, ear: bool = False) -> None:
        """Set the volume of all sounds, whether the cue clicks, and whether `ear` asks for more."""
        self._volume, self._clicks, self._ear = volume, click, ear
        if self._sounds is not None:
            self._sounds.tune(volume)

    def prepare(self) -> None:
        """Open the audio device, unless the volume is off; without one, `trouble` says why."""
        if self._sounds is not None or self._volume is Volume.OFF:
            return
        try:
            with quiet_stderr():
                # A mixer on a lost device is still open, and would not open a second time.
                pygame.mixer.quit()
                self._sounds = Sounds(self._volume, self._opens)
            self._trouble = ""
        except pygame.error as error:
            self._trouble = str(error) or "no audio device"
            self._next_attempt = None

    def lose(self) -> None:
        """Note that the system took the audio device away; the next `recover` opens it again."""
        if self._sounds is not None:
            self._sounds, self._trouble, self._next_attempt = None, LOST, 0

    def recover(self, now: int) -> None:
        """Open a missing audio device at `now` (ns), RETRY after the last attempt at the soonest.

        A device that only stands still is left open: closing it would wait until it plays on.
        """
        if self._sounds is None and self._next_attempt is not None and now >= self._next_attempt:
            self.prepare()
        if self._next_attempt is None:
            self._next_attempt = now + RETRY

    def check(self, now: int) -> None:
        """Look, at `now` (ns), whether the audio device still plays what it is given."""
        if self._sounds is not None:
            self._sounds.check(now)

    def play_tone(self, tone: BrakeTone) -> None:
        """Play this brake tone until another one is asked for."""
        self._output.play_tone(tone)

    def click(self) -> bool:
        """Play the click that is the cue to act; returns whether it was audible."""
        return self._clicks and self._output.click()

    def count(self) -> bool:
        """Play a beat of the count-in to a run; returns whether it was audible."""
        return self._clicks and self._output.count()

    def knock(self, *, high: bool) -> bool:
        """Play a knock of the second task, high or low; returns whether it was audible.

        It is no cue: whether cues click has no say in it.
        """
        return self._output.knock(high=high)

    def make_fall(self, guide: Line) -> None:
        """Prepare the tone for `fall`, to take the course of `guide`; empty: none."""
        self._output.make_fall(guide)

    def fall(self) -> bool:
        """Play the falling tone, the cue to ease off the brake; returns whether it was audible."""
        return self._output.fall()

    def end_fall(self) -> None:
        """Stop the falling tone that is the cue to ease off the brake."""
        self._output.end_fall()

    def step(self, number: int, after: Wave | None = None) -> None:
        """Play the reward for clean repetition `number` of a streak, once `after` has ended."""
        self._output.step(number, after)

    def play(self, earcon: Earcon, after: Wave | None = None) -> None:
        """Play the short sound that says this, once the wave `after`, shape (n, 2), has ended."""
        self._output.play(earcon, after)

    def play_curve(self, wave: Wave) -> bool:
        """Play a stereo wave, shape (n, 2), such as a brake as sound; returns whether audible."""
        return self._output.play_curve(wave)

    def end_curve(self) -> None:
        """Stop the wave of `play_curve`, if it plays."""
        self._output.end_curve()

    def end_feedback(self) -> None:
        """Stop all verdicts, moments and curves that still sound."""
        self._output.end_feedback()

    @property
    def _output(self) -> Sounds | Silence:
        if self._sounds is None or self._volume is Volume.OFF:
            return Silence()
        return self._sounds
