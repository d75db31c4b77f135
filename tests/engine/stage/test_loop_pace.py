"""The loop looks at the pedals as often as the pace of a screen says."""

from engine.stage.loop import PERIODS
from engine.stage.scene import Pace
from tests.scripted import printed

PACED = """
import pygame
from engine.kit import theme, widgets
from engine.kit.base import Screen
from engine.pedals.rig import Rig
from engine.stage import loop
from engine.stage.events import Events
from engine.stage.headless import ManualClock
from engine.stage.scene import Pace, Scene
from engine.stage.window_shape import Shape
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.stage.window import Window

clock = ManualClock()

def arrive(clock, deadline):
    clock.advance(deadline - clock())
    return deadline

loop.wait = arrive  # no time passes but what the loop asks for

class Paced(Screen[bool]):
    name = "paced"
    def __init__(self, pace):
        super().__init__()
        self.at, self.looks = pace, []
    @property
    def pace(self):
        return self.at
    def paint(self, canvas, press):
        pass
    def on_focus(self, focused, now):
        self.looks = [now]
    def on_sample(self, sample, now):
        self.looks.append(clock())
        self.outcome = True if len(self.looks) > 3 else None

window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
pygame.joystick.init()
events = Events(None, clock)
rig, stage = Rig(clock), Stage(window, Silence(), events)
screens = [Paced(pace) for pace in Pace]
loop.Loop(window, rig, events).run(Scene(screen, rig, stage) for screen in screens)
for screen in screens:
    print(*(after - before for before, after in zip(screen.looks, screen.looks[1:])))
"""


def test_the_first_look_comes_at_once_and_a_period_lies_between_two_looks() -> None:
    assert printed(PACED) == [f"0 {PERIODS[pace]} {PERIODS[pace]}" for pace in Pace]
