"""The repetition screen plays every form of task."""

import json

import numpy as np
import pygame
import pytest

from drills.calibration import UNIT
from drills.repetition import Repetition
from drills.task import AT_REST, Task
from drills.trace import Pedal
from engine.drill.repetition_screen import RepetitionScreen
from engine.kit.base import Place
from engine.kit.canvas import Fonts
from engine.pedals.port import CalibratedPedals
from engine.stage.headless import ManualClock
from engine.stage.scene import Pace
from tests.drills.test_tasks import EASE, RUN, SHIFT, SQUEEZE
from tests.drills.test_zone_task import ZONE
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.fakes import MILLISECOND, Lamp, Steady, a_stage
from tests.made import BLIP

FREE = Task(target=60.0, start={Pedal.THROTTLE: AT_REST}, wait=0.5, lasts=0.5)
"""Task that begins wherever the brake is."""


@pytest.mark.parametrize(
    "task",
    [RUN, EASE, SQUEEZE, SHIFT, FREE, ZONE],
    ids=["run", "ease", "squeeze", "shift", "free", "zone"],
)
def test_any_task_can_be_begun_announced_and_drawn(task: Task) -> None:
    clock = ManualClock()
    screen = RepetitionScreen(BLIP, task, Place(1, 1), a_stage(), 0)
    pedals = CalibratedPedals(Steady(clock, 0.0), UNIT)
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())

    for _ in range(20):
        clock.advance(MILLISECOND)
        screen.on_sample(pedals.sample(), clock())
    screen.paint(canvas, 0.0)

    assert json.dumps(screen.details(), allow_nan=False)
    assert "60" in [text.text for text in canvas.texts]


def test_a_squeeze_is_lit_until_its_cue_and_goes_dark_with_it() -> None:
    clock, lamp = ManualClock(), Lamp()
    screen = RepetitionScreen(BLIP, SQUEEZE, Place(1, 1), a_stage(lamp=lamp), 0)
    brake = np.concatenate([np.zeros(1400), np.linspace(0.0, 0.6, 200), np.full(2000, 0.6)])
    paces = []

    for value in brake.tolist():
        clock.advance(MILLISECOND)
        sample = CalibratedPedals(Steady(clock, value), UNIT).sample()
        if screen.outcome is None:
            screen.on_sample(sample, clock())
            paces.append((screen.pace, list(lamp.shown)))

    assert lamp.shown == ["dark", "cue"]
    assert {pace for pace, shown in paces if not shown} == {Pace.LIVE}
    assert {pace for pace, shown in paces if shown} == {Pace.DARK}
    assert isinstance(screen.outcome, Repetition)
    assert screen.outcome.void is None
