"""`Tuned`: the screen for sound, light and motion on recording lights and a recording speaker."""

from dataclasses import replace

import pygame

from drills.trace import nanoseconds
from engine.game.sound_and_light import SoundAndLight
from engine.kit.canvas import Fonts
from engine.stage.actions import Action
from engine.stage.signals import Signals
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.fakes import Lamp, a_stage
from tests.loudspeaker import Loudspeaker

VOLUME, CLICK, FLASH, EAR, MOTION, FULL, BACK = range(7)


class Tuned:
    """The screen with lights and a speaker that record what they are told."""

    def __init__(self, signals: Signals, trouble: str = "") -> None:
        self.lamp, self.speaker = Lamp(), Loudspeaker(trouble)
        self.saved: list[Signals] = []
        stage = replace(a_stage(lamp=self.lamp), speaker=self.speaker)
        stage.tune(signals)
        self.screen = SoundAndLight(signals, stage, self.saved.append)

    def choose(self, place: int, times: int = 1) -> None:
        """Select the choice at a place, from the first, and choose it some times."""
        for _ in range(place):
            self.screen.on_action(Action.NEXT)
        for _ in range(times):
            self.screen.on_action(Action.GO)

    def drawn(self) -> RecordingCanvas:
        """Canvas with the drawn screen."""
        pygame.font.init()
        canvas = RecordingCanvas((1920, 1080), Fonts())
        self.screen.paint(canvas, 0.0)
        return canvas

    def look(self, *seconds: float) -> None:
        """Let the screen go on at these times on its clock, in s."""
        for second in seconds:
            self.screen.on_sample(None, nanoseconds(second))

    def said(self) -> list[str]:
        """Texts on the screen."""
        return [text.text for text in self.drawn().texts]

    def note(self, label: str) -> str:
        """Note beside a choice."""
        said = self.said()
        return said[said.index(label) + 1]
