"""The loop: what it passes to a screen of devices and focus, and what it draws after a cue."""

from tests.scripted import printed

LOOP = """
import time
import pygame
from engine.pedals.rig import Rig
from engine.kit import theme, widgets
from engine.kit.base import Screen
from engine.stage.events import Events
from engine.stage.loop import Loop
from engine.stage.window_shape import Shape
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.stage.window import Window
"""
"""Beginning of every script: all that a loop is made of."""

SCRIPT = """
from drills.calibration import UNIT
from engine.pedals.port import CalibratedPedals, Reading
from engine.pedals.rig import Replugging
from engine.pedals.identity import Changes, Device, Identity
from engine.stage.scene import Scene

def clock():
    return 4 * time.perf_counter_ns()  # four times as fast, to keep the test short

DEVICE = Device(3, Identity("0" * 28, "Pedals", 2, 0, 1))

class Cut(Rig):
    def rescan(self):
        return Replugging(Changes((), (DEVICE,)), cut=True)

class Witness(Screen[bool]):
    name = "witness"
    feet_choose = True
    def __init__(self, *events):
        super().__init__()
        self.events, self.seen, self.begun = events, [], False
    def on_action(self, action):
        self.seen.append(action.value)
    def on_focus(self, focused, now):
        # Some builds of pygame report the focus again though it has not changed.
        line = f"focus {focused}"
        self.seen += [line] if line not in self.seen[-1:] else []
    def on_devices(self, *, cut):
        self.seen.append(f"cut {cut}")
    def on_sample(self, sample, now):
        if not self.begun:
            self.begun, self.from_ = True, now
            for event in self.events:
                pygame.event.post(pygame.event.Event(event))
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
class ByMouse(Braking):
    is_feet = False
mouse = Rig(clock, pedals=CalibratedPedals(ByMouse(), UNIT))
main, other = (Cut(clock, pedals=CalibratedPedals(Braking(), UNIT)) for _ in range(2))
stage = Stage(window, Silence(), events)
LOST, GAINED, GONE = (
    pygame.WINDOWFOCUSLOST, pygame.WINDOWFOCUSGAINED, pygame.JOYDEVICEREMOVED
)
screens = [
    (Witness(GONE), main),
    (Witness(GONE), other),
    (Witness(), mouse),
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


def test_screens_learn_of_plugs_and_focus_and_feet_choose_only_with_the_focus() -> None:
    lines = printed(LOOP + SCRIPT)

    assert lines == [
        # Only a screen that uses the unplugged pedals learns that they were cut off.
        "['focus True', 'cut True', 'go']",
        "['focus True', 'cut False', 'go']",
        # A brake that is no pedal chooses nothing.
        "['focus True']",
        # Without the focus the brake chooses nothing, and the next screen knows of it.
        "['focus True', 'focus False']",
        "['focus False']",
        "['focus False', 'focus True', 'go']",
    ]


CUED = """
import gc
from drills.calibration import UNIT
from engine.pedals.port import CalibratedPedals, Reading
from engine.stage.scene import Pace, Scene

clock = time.perf_counter_ns
window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
pygame.joystick.init()
class Noting(Events):
    noted = []
    def note(self, event, fields=None, at=None):
        self.noted.append((event, (fields or {}).get("name")))
events = Noting(None, clock)
stage = Stage(window, Silence(), events)

class Idle:
    name, is_feet, counts, label = "idle", True, True, ""
    def read(self):
        return Reading(clock(), 0.0, 0.0)

class Cued(Screen[bool]):
    def __init__(self, pace):
        super().__init__()
        self.name = pace.name
        self.at, self.seen, self.drawn, self.collects = pace, [], 0, set()
    @property
    def pace(self):
        return self.at
    def paint(self, canvas, press):
        self.drawn += 1
    def on_sample(self, sample, now):
        self.collects.add(gc.isenabled())
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
    drawn = events.noted.count(("drawn", screen.name))
    print([names[colour] for colour in screen.seen], screen.drawn, drawn, *screen.collects)
"""


def test_after_the_cue_the_screen_is_dark_without_collecting_garbage_or_redrawn() -> None:
    lines = printed(LOOP + CUED)

    assert lines == [
        # In a dark screen the dark comes back, nothing is drawn and nothing collected.
        "['cue', 'ground'] 0 0 False",
        # A screen that is drawn is drawn once, when the flash is over, and that is noted.
        "['cue', 'ground'] 1 1 True",
    ]


UNOPENED = """
from engine.pedals.sdl import Devices
from engine.stage.scene import Scene
from tests.engine.pedals.joysticks import FakeJoysticks, Pad

clock = time.perf_counter_ns
window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
pygame.joystick.init()
class Noting(Events):
    def note(self, event, fields=None, at=None):
        if event == "device not opened":
            print(event, fields)
events = Noting(None, clock)
held = Pad(0.0, name="Held")
held.jam()
joysticks = FakeJoysticks(denied=["Denied"])
rig = Rig(clock, Devices(joysticks))
rig.rescan()

class Watching(Screen[bool]):
    name, told, posted = "watching", 0, 0
    def on_devices(self, *, cut):
        self.told += 1
    def on_sample(self, sample, now):
        if self.posted == 3:
            self.outcome = True
            return
        if self.posted == 1:
            joysticks.plug(held)
        self.posted += 1
        pygame.event.post(pygame.event.Event(pygame.JOYDEVICEADDED))

screen = Watching()
def flow():
    yield Scene(screen, rig, Stage(window, Silence(), events))
Loop(window, rig, events).run(flow())
print(screen.told)
"""


def test_a_device_that_cannot_be_opened_is_noted_once_and_the_screen_learns_of_it() -> None:
    lines = printed(LOOP + UNOPENED)

    assert lines == [
        "device not opened {'name': 'Denied', 'denied': True}",
        "device not opened {'name': 'Held', 'denied': False}",
        "1",
    ]
