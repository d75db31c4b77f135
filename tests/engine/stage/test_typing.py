"""Typing on a screen that asks for text: each key either types or acts, never both."""

from tests.scripted import printed

SCRIPT = """
import time
import pygame
from engine.pedals.rig import Rig
from engine.kit import theme, widgets
from engine.kit.base import Screen
from engine.stage.events import Events
from engine.stage.loop import Loop
from engine.stage.scene import Scene
from engine.stage.window_shape import Shape
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.stage.window import Window

def pressed(key):
    return pygame.event.Event(pygame.KEYDOWN, key=key)

def typed(text):
    return pygame.event.Event(pygame.TEXTINPUT, text=text)

EVENTS = (
    *(pressed(pygame.K_a), typed("a"), pressed(pygame.K_SPACE), typed(" ")),
    *(pressed(pygame.K_BACKSPACE), pressed(pygame.K_TAB), pressed(pygame.K_RETURN)),
    pressed(pygame.K_ESCAPE),
)

class Witness(Screen[bool]):
    name = "witness"
    def __init__(self, hears):
        super().__init__()
        self.hears_text, self.seen = hears, []
    def on_action(self, action):
        self.seen.append(action.value)
        self.outcome = True if action.value == "back" else None
    def on_text(self, text):
        self.seen.append(repr(text))
    def on_sample(self, sample, now):
        if not self.seen:
            self.seen.append("")
            for event in EVENTS:
                pygame.event.post(event)

clock = time.perf_counter_ns
window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
events = Events(None, clock)
rig, stage = Rig(clock), Stage(window, Silence(), events)
screens = [Witness(True), Witness(False)]
Loop(window, rig, events).run(
    Scene(screen, rig, stage) for screen in screens
)
for screen in screens:
    print(" ".join(screen.seen[1:]))
"""


def test_a_key_types_a_letter_or_is_an_action_and_never_both() -> None:
    lines = printed(SCRIPT)

    assert lines == [
        # Of the two events of the space bar, only the one with its text counts.
        r"'a' '' ' ' '\x08' next go back",
        "go next go back",
    ]
