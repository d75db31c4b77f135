"""The question for the high knocks in a window: quick taps count one each; the brake answers."""

import pytest

from tests.scripted import printed

SCRIPT = """
import time
import pygame
from drills.calibration import UNIT
from engine.drill.count_screen import CountAnswer
from engine.kit import theme, widgets
from engine.kit.base import Place
from engine.pedals.port import CalibratedPedals, Reading
from engine.pedals.rig import Rig
from engine.stage.events import Events
from engine.stage.loop import Loop
from engine.stage.scene import Scene
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.stage.window import Window
from engine.stage.window_shape import Shape

TAPS, APART = {taps}, {apart}
FIRST, DOWN = 0.8, 0.09

class Tapping:
    name, is_feet, counts, label = "tapping", True, True, ""
    begun = None
    def read(self):
        now = time.perf_counter_ns()
        self.begun = now if self.begun is None else self.begun
        since = (now - self.begun) / 1e9 - FIRST
        number, within = divmod(since, APART)
        taps = 0 <= number < TAPS and within < DOWN
        agrees = since > TAPS * APART + 0.3
        return Reading(now, 0.8 if agrees else 0.0, 0.7 if taps else 0.0)

window = Window(Shape((640, 360)), theme.GROUND, theme.THROTTLE, widgets.icon())
pygame.joystick.init()
rig = Rig(time.perf_counter_ns, pedals=CalibratedPedals(Tapping(), UNIT))
events = Events(None, time.perf_counter_ns)
screen = CountAnswer(Place(1, 10))
def flow():
    yield Scene(screen, rig, Stage(window, Silence(), events))
Loop(window, rig, events).run(flow())
print(screen.outcome)
"""


@pytest.mark.parametrize(("taps", "apart"), [(5, 0.22), (3, 0.45), (0, 0.2)])
def test_taps_as_quick_as_a_foot_can_count_one_each(taps: int, apart: float) -> None:
    script = SCRIPT.replace("{taps}", f"{taps}").replace("{apart}", f"{apart}")

    assert printed(script) == [f"{taps}"]
