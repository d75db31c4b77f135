"""A stab to the stop of a 12-bit pedal whose full was set a little short of it, on every level."""

import numpy as np
import pytest

from drills.calibration import Range
from drills.kinds.asked_size import peaks_asked, with_size
from drills.level import Level
from drills.score import Reason
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from tests.drills.kinds.made import TIME, Made, lines, made, square
from tests.drills.kinds.zone_case import on_line
from tests.drills.shapes import Values

STEPS = 4095
THROTTLE = Range(rest=0.0, full=0.99)
"""Raw values of a throttle that goes from 0 to 1, "fully" having been a little too weak."""
ANSWER = 0.2
"""s from a cue to the stab, or to the clutch and from there to the stab."""
STAB = 0.15
"""s that the stab lasts."""
ON_BEATS = ("run", "zone")
"""Kinds whose blips are asked on beats: a perfect foot is not behind them."""
UNBOUNDED = [
    level
    for level in (*load_levels([SHIPPED]), with_size(load_band(), 95.0))
    if "blip.most" in level.own and peaks_asked(level)[1] == 100
]


def through_the_pedal(pressed: Values) -> Values:
    """What a 12-bit pedal reads, in % as it was calibrated, that is pressed from 0 to 1."""
    counts = np.round(np.clip(pressed, 0.0, 1.0) * STEPS)
    return np.array([THROTTLE.percent(count / STEPS) for count in counts.tolist()])


def stabbed(level: Level) -> Made:
    """A repetition of a level by a perfect foot that stabs to the stop at each cue."""
    target = level.targets.least
    task = level.kind.task(level, target, np.random.default_rng(1))
    brake = lines((0, target))
    if task.line:
        brake = on_line(asked=level, peak=target)
    elif task.falls:
        brake = lines((ANSWER, target), (ANSWER + task.falls, 0.0))
    has_clutch = level.kind.name == "clutch"
    late = 2 * ANSWER if has_clutch else 0.0 if level.kind.name in ON_BEATS else ANSWER
    throttle = sum(
        (square(task.cues[cue] + late, STAB, 1.2) for cue in task.acts), np.zeros(TIME.size)
    )
    clutch = square(ANSWER, 0.5, 100.0) if has_clutch else None
    return made(level, brake, through_the_pedal(throttle), clutch)


@pytest.mark.parametrize("level", UNBOUNDED, ids=[level.id for level in UNBOUNDED])
def test_a_throttle_at_its_stop_is_never_too_big(level: Level) -> None:
    one = stabbed(level)

    assert one.done.trace.throttle.max() > 101 or not one.task.acts
    assert one.verdict.reason is not Reason.HEAVY
    assert one.verdict.clean


def test_there_are_levels_of_every_kind_with_blips() -> None:
    assert {level.kind.name for level in UNBOUNDED} == {"blip", "run", "trail", "clutch", "zone"}
