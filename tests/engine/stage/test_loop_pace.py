"""The loop looks at the pedals as often as a screen's pace says, and works while it is still."""

from drills.trace import SECOND, nanoseconds
from engine.stage.loop import PERIODS
from engine.stage.scene import Pace
from engine.stage.scene_view import FRAME
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
MOVED = """
class Moved(Paced):
    def __init__(self, pace, looks, events):
        super().__init__(pace)
        self.wanted, self.events, self.seen = looks, dict(events), []
    def on_sample(self, sample, now):
        self.seen.append(window.cursor.is_visible)
        for event in self.events.pop(len(self.seen), ()):
            pygame.event.post(event)
        self.outcome = True if len(self.seen) >= self.wanted else None

def to(x):
    return [pygame.event.Event(pygame.MOUSEMOTION, pos=(x, 9), rel=(1, 0), buttons=(0, 0, 0))]

KEY = [pygame.event.Event(pygame.KEYDOWN, key=pygame.K_DOWN)]
pygame.event.clear()
for pace, looks, posted in (
    (Pace.STILL, 260, {1: to(5), 3: to(6), 30: to(7)}),
    (Pace.STILL, 12, {1: to(8), 3: to(9), 6: KEY, 9: to(10)}),
    (Pace.DARK, 9, {1: to(11), 3: to(12)}),
):
    screen = Moved(pace, looks, posted)
    loop.Loop(window, rig, events).run(Scene(screen, rig, stage) for _ in range(1))
    changes = [n + 1 for n in range(1, looks) if screen.seen[n] != screen.seen[n - 1]]
    print(pace.value, screen.seen[0], *changes)
    window.cursor.hide()
"""


def test_the_pointer_shows_while_the_mouse_moves_but_never_while_pedals_are_measured() -> None:
    # A look is 16 ms after the last one, and what is posted at one is handled before the next.
    assert printed(PACED + MOVED) == [
        # Where the mouse lies at first shows nothing; 2 s after the last move it hides.
        "still False 4 156",
        # A key hides it, and the next move shows it.
        "still False 2 7 10",
        "dark False",
    ]


def test_the_key_for_full_screen_is_not_heard_while_pedals_are_measured() -> None:
    assert printed(PACED + FULL_SCREEN) == ["dark False", "live True"]


def test_the_first_look_comes_at_once_and_a_period_lies_between_two_looks() -> None:
    assert printed(PACED + LOOKS) == [f"0 {PERIODS[pace]} {PERIODS[pace]}" for pace in Pace]


def test_background_work_is_done_on_still_screens_alone_between_looks_that_draw() -> None:
    # Of three looks the first draws, and the last ends the screen.
    assert printed(PACED + WORK) == ["1" if pace is Pace.STILL else "" for pace in Pace]


def test_a_still_screen_is_late_by_less_than_a_picture_and_each_of_its_looks_may_draw() -> None:
    # A reading may come early by a millisecond.
    assert FRAME + nanoseconds(0.001) <= PERIODS[Pace.STILL] < SECOND / 60
