"""The scripted repetitions of every kind, played without a window, have the measures they say."""

import math

import numpy as np
import pytest

from drills.kinds import KINDS
from drills.level import Level
from drills.level_file import parse_level
from drills.measures.catalogue import CATALOGUE
from drills.phases import OVER, Event, Phase
from drills.repetition import Repetition
from drills.score import Verdict
from drills.trace import SECOND, Sample, nanoseconds
from tests.game.kinds import KINDS as SCRIPTED
from tests.game.kinds import Scripted

READ = nanoseconds(0.001)
"""Time between two reads, in ns."""
CLOSE = {"s": 0.004, "": 0.02}
"""Amounts by which a measure may be off, by its unit; others by a point: read every ms, the pedals
tremble by 0.02 % as in the game."""
TREMOR, TREMBLES = 0.02, 9.0
"""Percent and Hz by which a pressed brake trembles."""


def written(scripted: Scripted) -> Level:
    """The level of a scripted repetition."""
    return parse_level(scripted.text, scripted.id, KINDS, "scripted")


def verdict_on(scripted: Scripted) -> Verdict:
    """Verdict on a repetition that is played by its plan."""
    level, now, began = written(scripted), 0, None
    task = level.kind.task(level, 60.0, np.random.default_rng(1))
    repetition = Repetition(task, now)
    starts = Event.CUE if task.cues else Event.STEADY
    while repetition.phase not in OVER:
        now += READ
        rest = 0.0 if repetition.phase is Phase.RELEASE else scripted.rest
        pedals = (rest, 0.0, 0.0) if began is None else scripted.plan((now - began) / SECOND)
        brake, throttle, clutch = pedals
        trembles = TREMOR * math.sin(math.tau * TREMBLES * now / SECOND) if brake > 0 else 0.0
        for transition in repetition.feed(Sample(now, brake + trembles, throttle, clutch)):
            if transition.event is starts and began is None:
                began = transition.time
    done = repetition.performance()
    assert done is not None
    return level.kind.judge(level, task, done).verdict


@pytest.mark.parametrize("scripted", SCRIPTED, ids=lambda scripted: scripted.kind)
def test_a_plan_has_the_measures_that_it_says(scripted: Scripted) -> None:
    verdict = verdict_on(scripted)

    assert verdict.clean
    for name, expected in scripted.known.items():
        allowed = CLOSE.get(CATALOGUE[name].unit, 1.0)
        assert verdict.measures[name] == pytest.approx(expected, abs=allowed), name


def test_every_kind_is_scripted_but_the_mixed_one_and_those_that_are_played_by_ear() -> None:
    seen = {name for name, kind in KINDS.items() if not kind.needs_sound}

    assert {scripted.kind for scripted in SCRIPTED} == seen - {"mixed"}
