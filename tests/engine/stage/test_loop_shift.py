"""The loop and the shift button: its presses are in the samples, and are no actions."""

from tests.engine.stage.test_loop import LOOP
from tests.scripted import printed

SHIFTING = """
from drills.calibration import Range
from engine.pedals.bound import Binding, BoundAxis, BoundButton
from engine.pedals.sdl import Devices
from engine.stage.scene import Scene
from tests.engine.pedals.joysticks import FakeJoysticks, Pad

clock = time.perf_counter_ns
window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
pygame.joystick.init()
events = Events(None, clock)
pads = Pad(-1.0, -1.0), Pad(name="Wheel", guid="e" * 32, buttons=9)
rig = Rig(clock, Devices(FakeJoysticks(*pads)))
rig.rescan()
feet, wheel = (device.identity for device in rig.devices.plugged)
axes = [BoundAxis(feet, axis, Range(-1.0, 1.0)) for axis in (0, 1)]
rig.bind(Binding(*axes, shift=BoundButton(wheel, 1)))

def press(button):
    event = pygame.event.Event(pygame.JOYBUTTONDOWN, instance_id=1, button=button)
    pygame.event.post(event)

class Pressed(Screen[bool]):
    def __init__(self, *buttons):
        super().__init__()
        self.buttons, self.seen, self.shifts, self.looks = buttons, [], 0, 0
        self.was_down = False
    def on_action(self, action):
        self.seen.append(action.value)
    def on_sample(self, sample, now):
        self.looks += 1
        self.shifts += sample.shift and not self.was_down
        self.was_down = sample.shift
        if self.looks == 1:
            for button in self.buttons:
                press(button)
        self.outcome = True if self.looks == 5 else None

def flow():
    for buttons in ((0, 1, 2), (1, 1), (0,)):
        screen = Pressed(*buttons)
        while screen.outcome is None:
            yield Scene(screen, rig, Stage(window, Silence(), events))
        print(screen.seen, screen.shifts, screen.means.buttons)
    rig.seek_shift(seek=True)
    screen = Pressed(0, 2)
    while screen.outcome is None:
        yield Scene(screen, rig, Stage(window, Silence(), events))
    print(screen.seen, screen.shifts, rig.pressed.words)
Loop(window, rig, events).run(flow())
"""


def test_a_shift_is_one_press_in_the_samples_and_chooses_nothing_while_others_do() -> None:
    lines = printed(LOOP + SHIFTING)

    assert lines == [
        "['go', 'back'] 1 False",
        # Two presses between two reads are one: no hand is that quick.
        "[] 1 False",
        "['go'] 0 False",
        "[] 0 button 3 of Wheel",
    ]
