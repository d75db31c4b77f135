"""Adds repetitions to a history for ever and prints the number of each one that is kept."""

import sys
from itertools import count
from pathlib import Path

from engine.store import History
from tests.made import record

if __name__ == "__main__":
    with History(Path(sys.argv[1])) as history:
        for _ in count():
            print(history.add(record()), flush=True)
