"""Adds repetitions of a sitting for ever and prints the number of each one that is kept."""

import sys
from itertools import count
from pathlib import Path

from engine.practice.results import SessionKind
from engine.store import History
from tests.made import record

if __name__ == "__main__":
    with History(Path(sys.argv[1])) as history:
        session = history.begin_session(SessionKind.FIVE, record().at, 5.0, 1)
        for _ in count():
            print(history.add(record(session=session, took=2.5)), flush=True)
