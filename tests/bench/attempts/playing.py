"""Practice without a window that goes on until it is killed.

    python -m tests.bench.attempts.playing WHAT DATA EVENTS

WHAT is `set`, `five`, `warm-up` or `trial`, played over and over by a simulated foot through the
same flows as in the game. Each verdict that is stored is a line of the events file.
"""

import sys
from collections.abc import Callable, Mapping
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np

from drills.foot import SimulatedFoot
from drills.trace import SECOND
from engine.drill.attempt import Setting
from engine.drill.set import run_set
from engine.five.flow import five_minutes, warm_up
from engine.ladder.level_files import load_band
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL
from engine.stage.events import Events
from engine.stage.headless import ManualClock, NoLights, run_headless
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.store import History, open_history
from tests.engine.five.learning_foot import LEVELS, Feet
from tests.engine.trial.two_positions import Trying

BEGAN = datetime(2024, 6, 1, 18, tzinfo=UTC)
SKILL = 0.6
MINUTES = 5.0
PAIRS = 16
"""Pairs of blocks in a trial, the most there can be."""
DAYS = 10_000
"""More days than anybody waits for."""


def practise(what: str, history: History, events: Callable[[ManualClock], Events]) -> None:
    """Play sets, sessions or warm-ups, one a day."""
    band = load_band()
    for number in range(DAYS):
        clock = ManualClock()
        foot = Feet(SimulatedFoot(SKILL, number), clock, "")
        rig = Rig(clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
        day = BEGAN + timedelta(days=number)
        with closing(events(clock)) as file:
            setting = Setting(
                rig,
                Stage(NoLights(), Silence(), file, (foot,)),
                history,
                np.random.default_rng(number),
                lambda day=day, clock=clock: day + timedelta(seconds=clock() / SECOND),  # type: ignore[misc]
                levels=LEVELS,
            )
            if what == "set":
                run_headless(run_set(LEVELS[number % 3], setting, 10), clock)
            elif what == "five":
                run_headless(five_minutes(setting, history, band, MINUTES), clock)
            else:
                run_headless(warm_up(setting, history, band), clock)


def compare(history: History, events: Callable[[ManualClock], Events]) -> None:
    """Play a trial of two foot positions, which is longer than anybody waits for."""
    trying = Trying(history)
    with closing(events(trying.clock)) as file:
        stage = Stage(NoLights(), Silence(), file, (trying.foot,))
        trying.setting = replace(trying.setting, stage=stage)
        trying.begin(PAIRS)
        trying.walk(at_once=True)


def main(what: str, data: str, file: str) -> None:
    """Open the history and play until killed."""

    def events(clock: ManualClock) -> Events:
        return Events(Path(file), clock)

    kinds: Mapping[str, Callable[[History], None]] = {
        "trial": lambda history: compare(history, events),
        **{
            name: lambda history, name=name: practise(name, history, events)  # type: ignore[misc]
            for name in ("set", "five", "warm-up")
        },
    }
    with open_history(Path(data), LEVELS) as history:
        kinds[what](history)


if __name__ == "__main__":
    main(*sys.argv[1:])
