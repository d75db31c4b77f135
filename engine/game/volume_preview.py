"""`VolumePreview`: lets the player hear a volume by the sounds of a repetition, one by one."""

from __future__ import annotations

from drills.trace import nanoseconds
from engine.stage.brake_tone import BrakeTone
from engine.stage.speaker import Speaker

TONES = ((0.0, BrakeTone.LIGHT), (0.5, BrakeTone.ON), (1.0, BrakeTone.SILENT))
"""Tones of the preview, each with the seconds from the start of the preview to its own."""
CLICK_AT = 1.2
"""Seconds from the start of the preview to the click of the cue: after a short silence."""


class VolumePreview:
    """Preview of the volume: too light, on target, and the click of the cue if it is on."""

    def __init__(self, speaker: Speaker) -> None:
        self._speaker = speaker
        self._began: int | None = None
        self._to_come: list[tuple[float, BrakeTone | None]] = []

    def begin(self) -> None:
        """Begin the preview; its time runs from the next call of `go_on`."""
        self._began = None
        self._to_come = [*TONES, (CLICK_AT, None)]

    def go_on(self, now: int) -> None:
        """Play what is due at `now` (ns)."""
        if self._began is None:
            self._began = now
        while self._to_come and now - self._began >= nanoseconds(self._to_come[0][0]):
            _, tone = self._to_come.pop(0)
            if tone is None:
                self._speaker.click()
            else:
                self._speaker.play_tone(tone)

    def end(self) -> None:
        """End the preview: its tone falls silent, and nothing more is played."""
        if self._to_come:
            self._to_come = []
            self._speaker.play_tone(BrakeTone.SILENT)
