"""Fake speaker for tests, which records what it was asked to play."""

from drills.braking_zone import Line
from engine.stage.brake_tone import BrakeTone
from engine.stage.earcon import Earcon
from engine.stage.signals import Volume
from engine.stage.waves import RATE, Wave


class Loudspeaker:
    """Speaker that records its settings and every sound it was asked to play."""

    def __init__(self, trouble: str = "") -> None:
        self.trouble = trouble
        self.volume = Volume.MEDIUM
        self.clicks = True
        self.heard: list[str] = []
        self.back = False
        """Whether the audio device could be opened again."""
        self.ear = False
        self.ended = 0
        """Number of times that verdicts, moments and curves were ended."""
        self._falls = 0.0

    @property
    def is_heard(self) -> bool:
        """Whether sounds are audible."""
        return self.volume is not Volume.OFF and not self.trouble

    def tune(self, volume: Volume, *, click: bool, ear: bool = False) -> None:
        """Set the volume, whether cues click, and whether brakes are heard before verdicts."""
        self.volume, self.clicks, self.ear = volume, click, ear

    def prepare(self) -> None:
        """Open the audio device again if it is back."""
        self.recover(0)

    def lose(self) -> None:
        """Lose the audio device."""
        self.trouble = "the audio device is gone"

    def recover(self, now: int) -> None:
        """Open the audio device again if it is back."""
        if self.back:
            self.trouble = ""

    def check(self, now: int) -> None:
        """Look at no audio device."""

    def play_tone(self, tone: BrakeTone) -> None:
        """Record a tone that differs from the one before."""
        sound = f"tone {tone.value}"
        tones = [heard for heard in self.heard if heard.startswith("tone")]
        if tones[-1:] != [sound]:
            self.heard.append(sound)

    def click(self) -> bool:
        """Record the click of a cue, if it is audible."""
        return self._clicks("click")

    def count(self) -> bool:
        """Record the click of a count-in, if it is audible."""
        return self._clicks("count")

    def knock(self, *, high: bool) -> bool:
        """Record a knock of the second task, if it is audible."""
        if self.is_heard:
            self.heard.append("high knock" if high else "low knock")
        return self.is_heard

    def make_fall(self, guide: Line) -> None:
        """Set how long the falling tone lasts, in s."""
        self._falls = guide[-1][0] if guide else 0.0

    def fall(self) -> bool:
        """Record the falling tone, if it is audible."""
        if self.is_heard and self._falls:
            self.heard.append(f"fall {self._falls:g}")
        return self.is_heard and self._falls > 0

    def end_fall(self) -> None:
        """Record the end of the falling tone, if there was one."""
        if self._falls:
            self.heard.append("fall ends")

    def _clicks(self, what: str) -> bool:
        if self.clicks and self.is_heard:
            self.heard.append(what)
        return self.clicks and self.is_heard

    def step(self, number: int, after: Wave | None = None) -> None:
        """Record the sound of a step, and what is heard before it."""
        self._record(f"step {number}", after)

    def play(self, earcon: Earcon, after: Wave | None = None) -> None:
        """Record a short sound, and what is heard before it."""
        self._record(earcon.value, after)

    def play_curve(self, wave: Wave) -> bool:
        """Record a brake as sound, if it is audible."""
        if self.is_heard:
            self.heard.append(f"curve {len(wave) / RATE:.1f}")
        return self.is_heard

    def end_curve(self) -> None:
        """Record the end of a brake as sound."""
        self.heard.append("curve ends")

    def end_feedback(self) -> None:
        """Count that all verdicts, moments and curves were ended."""
        self.ended += 1

    def _record(self, sound: str, after: Wave | None) -> None:
        self.heard += [sound] if after is None else [f"ear {len(after) / RATE:.1f}", sound]
