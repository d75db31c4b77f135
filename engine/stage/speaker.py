"""What can be heard: tones while the target is looked for, the cue's click, small rewards."""

from __future__ import annotations

from typing import Protocol

import numpy as np
import pygame

from engine.stage import waves
from engine.stage.aim import Aim
from engine.stage.hush import hushed
from engine.stage.signals import SHARE, Volume
from engine.stage.waves import Wave

BUFFER = 256
"""samples; larger buffers start a sound 11 to 23 ms late instead of 5 to 8."""
CHANNELS = 16
"""sounds at once: tones that fade out while others begin, and the end of a reward under them."""
CUE_CHANNEL = 0
"""The channel kept for the click, so that it never waits for another sound."""
FADE = 160
"""ms, in which a tone comes and goes: the mixer fades by a step each BUFFER, and a step of a
thirtieth is no steeper than the tone itself."""


class Speaker(Protocol):
    """What the game can make heard."""

    @property
    def trouble(self) -> str:
        """Why there is no speaker, as the system tells it; nothing where none was missed yet."""
        ...

    def tune(self, volume: Volume, *, click: bool) -> None:
        """How loud everything is from now on, and whether the cue clicks."""
        ...

    def prepare(self) -> None:
        """Sounds will be wanted soon: finding a speaker takes a tenth of a second."""
        ...

    def aim(self, aim: Aim) -> None:
        """How the brake stands to the target, from now on."""
        ...

    def click(self) -> bool:
        """The cue; whether it was heard."""
        ...

    def count(self) -> bool:
        """A beat before the first cue; whether it was heard."""
        ...

    def make_fall(self, seconds: float) -> None:
        """A tone that falls for so long will be wanted; 0 for none."""
        ...

    def fall(self) -> bool:
        """The cue to ease off: the tone that was made; whether it was heard."""
        ...

    def end_fall(self) -> None:
        """The tone that falls is not wanted any more."""
        ...

    def step(self, number: int) -> None:
        """Clean repetition `number` in a row."""
        ...

    def passed(self) -> None:
        """A level is passed."""
        ...

    def best(self) -> None:
        """Better than ever before."""
        ...


class Silence:
    """No sound, whatever is asked for."""

    trouble = ""

    def tune(self, volume: Volume, *, click: bool) -> None:
        """Nothing."""

    def prepare(self) -> None:
        """Nothing."""

    def aim(self, aim: Aim) -> None:
        """Nothing."""

    def click(self) -> bool:
        """Nothing."""
        return False

    def count(self) -> bool:
        """Nothing."""
        return False

    def make_fall(self, seconds: float) -> None:
        """Nothing."""

    def fall(self) -> bool:
        """Nothing."""
        return False

    def end_fall(self) -> None:
        """Nothing."""

    def step(self, number: int) -> None:
        """Nothing."""

    def passed(self) -> None:
        """Nothing."""

    def best(self) -> None:
        """Nothing."""


class Mixer:
    """Sounds through pygame's mixer once it is prepared; silent while off or without a device."""

    def __init__(self) -> None:
        self.trouble = ""
        self._volume = Volume.MEDIUM
        self._clicks = True
        self._sounds: _Sounds | None = None

    def tune(self, volume: Volume, *, click: bool) -> None:
        """How loud everything is from now on, and whether the cue clicks."""
        self._volume, self._clicks = volume, click
        if self._sounds is not None:
            self._sounds.tune(volume)

    def prepare(self) -> None:
        """Open the mixer, where sound is wanted and there is a device."""
        if self._sounds is not None or self._volume is Volume.OFF:
            return
        try:
            with hushed():
                self._sounds = _Sounds(self._volume)
            self.trouble = ""
        except pygame.error as error:
            self.trouble = str(error) or "no audio device"

    def aim(self, aim: Aim) -> None:
        """How the brake stands to the target, from now on."""
        self._heard.aim(aim)

    def click(self) -> bool:
        """The cue; whether it was heard."""
        return self._clicks and self._heard.click()

    def count(self) -> bool:
        """A beat before the first cue; whether it was heard."""
        return self._clicks and self._heard.count()

    def make_fall(self, seconds: float) -> None:
        """A tone that falls for so long will be wanted; 0 for none."""
        self._heard.make_fall(seconds)

    def fall(self) -> bool:
        """The cue to ease off: the tone that was made; whether it was heard."""
        return self._heard.fall()

    def end_fall(self) -> None:
        """The tone that falls is not wanted any more."""
        self._heard.end_fall()

    def step(self, number: int) -> None:
        """Clean repetition `number` in a row."""
        self._heard.step(number)

    def passed(self) -> None:
        """A level is passed."""
        self._heard.passed()

    def best(self) -> None:
        """Better than ever before."""
        self._heard.best()

    @property
    def _heard(self) -> _Sounds | Silence:
        if self._sounds is None or self._volume is Volume.OFF:
            return Silence()
        return self._sounds


class _Sounds:
    """Each sound made once, in the mixer that is open."""

    def __init__(self, volume: Volume) -> None:
        """Raises pygame.error where there is no audio device."""
        pygame.mixer.init(waves.RATE, -16, 2, BUFFER)
        pygame.mixer.set_num_channels(CHANNELS)
        pygame.mixer.set_reserved(CUE_CHANNEL + 1)
        self._tones = {aim: _sound(waves.hum(aim)) for aim in waves.PITCHES}
        self._click = _sound(waves.tick())
        self._count = _sound(waves.beat())
        self._falls: tuple[float, pygame.mixer.Sound] | None = None
        self._steps = [
            _sound(waves.chime(waves.pitch(number))) for number in range(1, waves.HIGHEST + 1)
        ]
        self._passed = _sound(waves.passed_wave())
        self._best = _sound(waves.best())
        self._aim = Aim.SILENT
        self.tune(volume)

    def tune(self, volume: Volume) -> None:
        """How loud everything is from now on."""
        rewards = (*self._steps, self._passed, self._best)
        falls = [] if self._falls is None else [self._falls[1]]
        for sound in (*self._tones.values(), self._click, self._count, *falls, *rewards):
            sound.set_volume(SHARE[volume])
        self._volume = volume
        if volume is Volume.OFF:
            self.aim(Aim.SILENT)

    def aim(self, aim: Aim) -> None:
        """Fade from one tone to another; what sounds already goes on."""
        if aim is self._aim:
            return
        if self._aim in self._tones:
            self._tones[self._aim].fadeout(FADE)
        if aim in self._tones:
            self._tones[aim].play(loops=-1, fade_ms=FADE)
        self._aim = aim

    def click(self) -> bool:
        """The cue; it is heard."""
        pygame.mixer.Channel(CUE_CHANNEL).play(self._click)
        return True

    def count(self) -> bool:
        """A beat before the first cue; it is heard."""
        pygame.mixer.Channel(CUE_CHANNEL).play(self._count)
        return True

    def make_fall(self, seconds: float) -> None:
        """Make the tone that falls for so long, unless it is the one there is; 0 for none."""
        if seconds > 0 and (self._falls is None or self._falls[0] != seconds):
            self._falls = (seconds, _sound(waves.fall(seconds)))
            self._falls[1].set_volume(SHARE[self._volume])

    def fall(self) -> bool:
        """The tone that falls; whether one was made."""
        if self._falls is None:
            return False
        self._falls[1].play()
        return True

    def end_fall(self) -> None:
        """Let the tone that falls fade out, where it still sounds."""
        if self._falls is not None:
            self._falls[1].fadeout(FADE)

    def step(self, number: int) -> None:
        """Clean repetition `number` in a row."""
        self._steps[min(number, waves.HIGHEST) - 1].play()

    def passed(self) -> None:
        """A level is passed."""
        self._passed.play()

    def best(self) -> None:
        """Better than ever before."""
        self._best.play()


def _sound(wave: Wave) -> pygame.mixer.Sound:
    """A sound in the number of channels that the mixer really has."""
    _, _, channels = pygame.mixer.get_init()
    samples = (np.clip(wave, -1, 1) * 32767).astype(np.int16)
    return pygame.mixer.Sound(buffer=np.repeat(samples, channels).tobytes())
