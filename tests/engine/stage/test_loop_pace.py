"""The loop looks at the pedals as often as a screen's pace says, and works while it is still."""

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
clock.advance(1_000_000_000)

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
rig, worked = Rig(clock), []
stage = Stage(window, Silence(), events, idle=lambda: worked.append(clock()))
screens = [Paced(pace) for pace in Pace]
loop.Loop(window, rig, events).run(Scene(screen, rig, stage) for screen in screens)
"""
LOOKS = """
for screen in screens:
    print(*(after - before for before, after in zip(screen.looks, screen.looks[1:])))
"""
WORK = """
for screen in screens:
    print(*(screen.looks[1:].index(at) for at in worked if at in screen.looks[1:]))
"""

FULL_SCREEN = """
class Pressed(Paced):
    def on_focus(self, focused, now):
        pygame.event.post(pygame.event.Event(pygame.KEYDOWN, key=pygame.K_F11))

for pace in (Pace.DARK, Pace.LIVE):
    loop.Loop(window, rig, events).run(Scene(Pressed(pace), rig, stage) for _ in range(1))
    print(pace.value, window.full)
"""


def test_the_key_for_full_screen_is_not_heard_while_pedals_are_measured() -> None:
    assert printed(PACED + FULL_SCREEN) == ["dark False", "live True"]


def test_the_first_look_comes_at_once_and_a_period_lies_between_two_looks() -> None:
    assert printed(PACED + LOOKS) == [f"0 {PERIODS[pace]} {PERIODS[pace]}" for pace in Pace]


def test_background_work_is_done_on_still_screens_alone_between_looks_that_draw() -> None:
    # Of three looks the first draws, and the last ends the screen.
    assert printed(PACED + WORK) == ["1" if pace is Pace.STILL else "" for pace in Pace]
