"""The loop's own dealings: what it hears of devices and focus reaches the screen, and no more."""

from tests.scripted import printed

SCRIPT = """
import time
import pygame
from drills.calibration import UNIT
from engine.pedals.port import CalibratedPedals, Reading
from engine.pedals.rig import Rig, Replugging
from engine.pedals.identity import Changes, Device, Identity
from engine.kit.base import Screen
from engine.kit import theme, widgets
from engine.stage.events import Events
from engine.stage.loop import Loop
from engine.stage.scene import Scene
from engine.stage.shape import Shape
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.stage.window import Window

def clock():
    return 4 * time.perf_counter_ns()  # nothing is waited for here that a faster clock changes

DEVICE = Device(3, Identity("0" * 28, "Pedals", 2, 0, 1))

class Cut(Rig):
    def rescan(self):
        return Replugging(Changes((), (DEVICE,)), cut=True)

class Witness(Screen[bool]):
    name = "witness"
    feet_choose = True
    def __init__(self, *told):
        super().__init__()
        self.told, self.seen, self.begun = told, [], False
    def on_action(self, action):
        self.seen.append(action.value)
    def on_focus(self, focused, now):
        # Some builds tell of the focus again where it was there all along.
        said = f"focus {focused}"
        self.seen += [said] if said not in self.seen[-1:] else []
    def on_devices(self, *, cut):
        self.seen.append(f"cut {cut}")
    def on_sample(self, sample, now):
        if not self.begun:
            self.begun, self.from_ = True, now
            for one in self.told:
                pygame.event.post(pygame.event.Event(one))
        done = "go" in self.seen or now - self.from_ > 3.0e9
        self.outcome = True if done else None

class Braking:
    name, is_feet, counts, label = "braking", True, True, ""
    def __init__(self):
        self.begun = clock()
    def read(self):
        now = clock()
        return Reading(now, 0.8 if now - self.begun > 0.6e9 else 0.0, 0.0)

window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
pygame.joystick.init()
events = Events(None, clock)
main, other = (Cut(clock, pedals=CalibratedPedals(Braking(), UNIT)) for _ in range(2))
stage = Stage(window, Silence(), events)
LOST, GAINED, GONE = (
    pygame.WINDOWFOCUSLOST, pygame.WINDOWFOCUSGAINED, pygame.JOYDEVICEREMOVED
)
screens = [
    (Witness(GONE), main),
    (Witness(GONE), other),
    (Witness(LOST), main),
    (Witness(), main),
    (Witness(GAINED), main),
]
def flow():
    for screen, rig in screens:
        rig.pedals.source.begun = clock()
        while screen.outcome is None:
            yield Scene(screen, rig, stage)
Loop(window, main, events).run(flow())
for screen, _ in screens:
    print(screen.seen)
"""


def test_plugs_and_focus_reach_the_screen_and_feet_are_heard_with_the_focus_alone() -> None:
    lines = printed(SCRIPT)

    assert lines == [
        # Pedals that were cut are told of where they are played with, and nowhere else.
        "['focus True', 'cut True', 'go']",
        "['focus True', 'cut False', 'go']",
        # Without the focus the brake goes on from nothing, and the next screen knows it.
        "['focus True', 'focus False']",
        "['focus False']",
        "['focus False', 'focus True', 'go']",
    ]


CUED = """
import time
import pygame
from drills.calibration import UNIT
from engine.pedals.port import CalibratedPedals, Reading
from engine.pedals.rig import Rig
from engine.kit import theme, widgets
from engine.kit.base import Screen
from engine.stage.events import Events
from engine.stage.loop import Loop
from engine.stage.scene import Pace, Scene
from engine.stage.shape import Shape
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.stage.window import Window

clock = time.perf_counter_ns
window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
pygame.joystick.init()
events = Events(None, clock)
stage = Stage(window, Silence(), events)

class Idle:
    name, is_feet, counts, label = "idle", True, True, ""
    def read(self):
        return Reading(clock(), 0.0, 0.0)

class Cued(Screen[bool]):
    name = "cued"
    def __init__(self, pace):
        super().__init__()
        self.at, self.seen, self.drawn = pace, [], 0
    @property
    def pace(self):
        return self.at
    def paint(self, canvas, press):
        self.drawn += 1
    def on_sample(self, sample, now):
        if not self.seen:
            self.begun = now
            window.darken() if self.at is Pace.DARK else None
            window.flash(needed=True)
        colour = tuple(window.surface.get_at((639, 0)))[:3]
        if colour not in self.seen:
            self.seen.append(colour)
        if not window.lit and now - self.begun > 0.15e9 and len(self.seen) > 1:
            self.outcome = True

rig = Rig(clock, pedals=CalibratedPedals(Idle(), UNIT))
screens = [Cued(Pace.DARK), Cued(Pace.STILL)]
def flow():
    for screen in screens:
        while screen.outcome is None:
            yield Scene(screen, rig, stage)
Loop(window, rig, events).run(flow())
for screen in screens:
    names = {theme.GROUND: "ground", theme.THROTTLE: "cue"}
    print([names[colour] for colour in screen.seen], screen.drawn)
"""


def test_after_the_cue_it_is_dark_again_or_the_picture_comes_back() -> None:
    lines = printed(CUED)

    assert lines == [
        # In the dark nothing but the dark follows, and nothing is drawn.
        "['cue', 'ground'] 0",
        # Tried out over a picture, the picture waits, and is drawn once when it is over.
        "['cue', 'ground'] 1",
    ]
