"""Interface of the sound output: brake tones, the cue's click, and short sounds for success."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from drills.braking_zone import Line
from engine.stage.brake_tone import BrakeTone
from engine.stage.earcon import Earcon
from engine.stage.signals import Volume

if TYPE_CHECKING:
    from engine.stage.waves import Wave


class Speaker(Protocol):
    """Interface of the sound output: brake tones, cues and rewards."""

    @property
    def trouble(self) -> str:
        """Why there is no sound; empty if there is some, or if none is wanted."""
        ...

    @property
    def is_heard(self) -> bool:
        """Whether sounds are audible, as far as is known; a device is expected to open."""
        ...

    @property
    def ear(self) -> bool:
        """Whether the brake of a repetition is to be heard before its verdict."""
        ...

    def tune(self, volume: Volume, *, click: bool, ear: bool = False) -> None:
        """Set the volume of all sounds, and whether the cue clicks.

        `ear` is whether the brake of a repetition is to be heard before its verdict.
        """
        ...

    def prepare(self) -> None:
        """Open the audio device ahead of time, which takes a tenth of a second."""
        ...

    def lose(self) -> None:
        """Note that the system took the audio device away: no sound is audible from now on."""
        ...

    def recover(self, now: int) -> None:
        """Open a missing audio device again at `now` (ns), if the last attempt is not too recent.

        It may take a tenth of a second, so it belongs outside measured windows.
        """
        ...

    def check(self, now: int) -> None:
        """Look, at `now` (ns), whether the audio device still plays what it is given.

        Checks half a second apart or more find a device that stands still.
        """
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

    def knock(self, *, high: bool) -> bool:
        """Play a knock of the second task, high or low; returns whether it was audible."""
        ...

    def make_fall(self, guide: Line) -> None:
        """Prepare the tone for `fall`, to take the course of `guide`; an empty one prepares none.

        It is that of `Task.guide`: s from the cue, and the share of the brake left.
        """
        ...

    def fall(self) -> bool:
        """Play the falling tone, the cue to ease off the brake; returns whether it was audible."""
        ...

    def end_fall(self) -> None:
        """Stop the falling tone that is the cue to ease off the brake."""
        ...

    def step(self, number: int, after: Wave | None = None) -> None:
        """Play the reward for the clean repetition `number` of a streak, counted from 1.

        It comes as soon as the wave `after`, shape (n, 2), has ended; None: at once.
        """
        ...

    def play(self, earcon: Earcon, after: Wave | None = None) -> None:
        """Play the short sound that says this, once `after` has ended, as in `step`."""
        ...

    def play_curve(self, wave: Wave) -> bool:
        """Play a stereo wave, shape (n, 2), such as a brake as sound; returns whether audible.

        The one that plays already ends.
        """
        ...

    def end_curve(self) -> None:
        """Stop the wave of `play_curve`, if it plays."""
        ...

    def end_feedback(self) -> None:
        """Stop all verdicts, moments and curves that still sound, before anything is measured."""
        ...


class Silence:
    """Speaker that plays nothing, for runs without sound."""

    trouble = ""
    is_heard = False
    ear = False

    def tune(self, volume: Volume, *, click: bool, ear: bool = False) -> None:
        """No sound here to set a volume for: do nothing."""

    def prepare(self) -> None:
        """No audio device to open here: do nothing."""

    def lose(self) -> None:
        """No audio device to lose here: do nothing."""

    def recover(self, now: int) -> None:
        """No audio device to open again here: do nothing."""

    def check(self, now: int) -> None:
        """No audio device to look at here: do nothing."""

    def play_tone(self, tone: BrakeTone) -> None:
        """No speaker for the brake tone here: do nothing."""

    def click(self) -> bool:
        """No speaker for the click of the cue here: inaudible, so false."""
        return False

    def count(self) -> bool:
        """No speaker for the beat of the count-in here: inaudible, so false."""
        return False

    def knock(self, *, high: bool) -> bool:
        """No speaker for the knocks of the second task here: inaudible, so false."""
        return False

    def make_fall(self, guide: Line) -> None:
        """No speaker for the falling tone here: prepare nothing."""

    def fall(self) -> bool:
        """No speaker for the falling tone here: inaudible, so false."""
        return False

    def end_fall(self) -> None:
        """No falling tone to stop here: do nothing."""

    def step(self, number: int, after: Wave | None = None) -> None:
        """No speaker for the reward of a clean repetition here: do nothing."""

    def play(self, earcon: Earcon, after: Wave | None = None) -> None:
        """No speaker for short sounds here: do nothing."""

    def play_curve(self, wave: Wave) -> bool:
        """No speaker for a brake as sound here: inaudible, so false."""
        return False

    def end_curve(self) -> None:
        """No brake to stop as sound here: do nothing."""

    def end_feedback(self) -> None:
        """No verdict to stop here: do nothing."""
