"""A foot that keeps exactly to the falling tone scores over 90 on every easing level."""

import numpy as np
import pytest

from drills.level import Level
from drills.score import Verdict
from drills.task import FALL_HOLD, Performance, Task
from drills.trace import SECOND, STEP, Trace, nanoseconds
from engine.ladder.level_files import SHIPPED, load_levels
from tests.drills.shapes import Values

EASING = [level for level in load_levels([SHIPPED]) if level.kind.name == "trail"]
CUE = 2.0
"""Seconds from the start of the trace to the cue to ease off."""
REACTION = 0.3
"""Seconds from a cue to what answers it."""
PULSE, PEAK = 0.25, 65.0
"""Seconds that a blip takes, and the throttle in % that it reaches."""
STEPS = 4095
"""Steps of a pedal of 12 bits over its travel."""
REPORT = nanoseconds(1 / 125)
"""ns between two reports of a pedal that reports 125 times a second."""

each_easing = pytest.mark.parametrize("level", EASING, ids=lambda level: level.id)
each_target = pytest.mark.parametrize("share", [0.0, 0.5, 1.0], ids=["least", "middle", "greatest"])


def task_of(level: Level, share: float) -> Task:
    """A repetition of a level, its target at a share of the way from the least to the greatest."""
    target = level.targets.least + share * (level.targets.greatest - level.targets.least)
    return level.kind.task(level, target, np.random.default_rng(1))


def pedals(task: Task, time: Values, answers: float) -> tuple[Values, Values]:
    """Brake and throttle in % at times in s from the cue, of a foot that keeps to the tone.

    It begins to ease off `answers` s after the cue, and answers each click with a blip.
    """
    fallen = np.clip((time - answers) / task.falls, 0.0, 1.0)
    throttle = np.zeros_like(time)
    for cue in task.acts:
        since = np.clip((time - task.cues[cue] - REACTION) / PULSE, 0.0, 1.0)
        throttle += PEAK * np.sin(np.pi * since)
    return task.target * (1 - fallen), throttle


def judged(level: Level, task: Task, every: int, steps: int | None, answers: float) -> Verdict:
    """Verdict on that foot, reported every so many ns and rounded to steps of the travel."""
    until = nanoseconds(CUE + answers + task.falls + 0.6)
    reports = np.arange(0, until, every, dtype=np.int64)
    brake, throttle = pedals(task, reports / SECOND - CUE, answers)
    if steps is not None:
        brake, throttle = (np.round(one / 100 * steps) * 100 / steps for one in (brake, throttle))
    cues = tuple(nanoseconds(CUE + cue) for cue in task.cues)
    done = Performance(Trace(reports, brake, throttle), 0, cues)
    return level.kind.judge(level, task, done).verdict


def test_there_are_easing_levels_with_and_without_blips() -> None:
    assert {level.own["blips"] for level in EASING} == {0, 1, 2}


@each_easing
@each_target
@pytest.mark.parametrize("answers", [REACTION, FALL_HOLD + REACTION], ids=["the cue", "the fall"])
@pytest.mark.parametrize(
    ("read", "steps"), [(STEP, None), (REPORT, STEPS)], ids=["exactly", "12 bits at 125 Hz"]
)
def test_a_foot_that_keeps_to_the_tone_scores_over_90(
    level: Level, share: float, answers: float, read: int, steps: int | None
) -> None:
    verdict = judged(level, task_of(level, share), read, steps, answers)

    assert verdict.clean
    assert verdict.score is not None
    assert verdict.score > 90
