"""Practice without a window that goes on until it is killed.

    python -m tests.bench.attempts.playing WHAT DATA EVENTS

WHAT is `set`, `five` or `warm-up`, played over and over, a day each, or `trial`, one that is longer
than anybody waits for. Each verdict that is stored is a line of the events file.
"""

import sys
from contextlib import closing
from dataclasses import replace
from itertools import count
from pathlib import Path

from engine.stage.events import Events
from engine.stage.headless import NoLights
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.store import History, open_history
from tests.bench.attempts.practice import practise
from tests.engine.five.learning_foot import LEVELS
from tests.engine.trial.two_positions import Trying

PAIRS = 16
"""Pairs of blocks in a trial, the most there can be."""


def compare(history: History, file: Path) -> None:
    """Play a trial of two foot positions."""
    trying = Trying(history)
    with closing(Events(file, trying.clock)) as events:
        stage = Stage(NoLights(), Silence(), events, (trying.foot,))
        trying.setting = replace(trying.setting, stage=stage)
        trying.begin(PAIRS)
        trying.walk(at_once=True)


def main(what: str, data: str, name: str) -> None:
    """Open the history and play until killed."""
    file = Path(name)
    with open_history(Path(data), LEVELS) as history:
        if what == "trial":
            compare(history, file)
            return
        for number in count():
            practise(what, history, file, number)


if __name__ == "__main__":
    main(*sys.argv[1:])
