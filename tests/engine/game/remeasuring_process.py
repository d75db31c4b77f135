"""Remeasures a history for ever: `python -m tests.engine.game.remeasuring_process FOLDER`.

It prints how many repetitions are done after each batch that is stored.
"""

import sys
from datetime import date
from pathlib import Path

from engine.game.remeasuring import BackgroundRemeasurer
from engine.store import open_history
from engine.store.remeasure import copy_before, is_copied
from tests.earlier import LEVELS

if __name__ == "__main__":
    with open_history(Path(sys.argv[1]), LEVELS) as history:
        if not is_copied(history):
            copy_before(history, date(2024, 5, 17), lambda: None)
        work = BackgroundRemeasurer(history, LEVELS)
        state = work.state
        while work.state is not None:
            work.step()
            if work.state is not None and work.state != state:
                state = work.state
                print(state.done, flush=True)
