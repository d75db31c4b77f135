"""Adds repetitions of a session for ever and prints the number of each one that is stored."""

import sys
from itertools import count
from pathlib import Path

from engine.five.saved import begin_session
from engine.practice.results import SessionKind
from engine.store import open_history
from engine.store.repetitions import add_repetition
from tests.made import record

if __name__ == "__main__":
    with open_history(Path(sys.argv[1]), []) as history:
        session = begin_session(history, SessionKind.FIVE, record().at, 5.0, 1)
        for _ in count():
            print(add_repetition(history, record(session=session, took=2.5)), flush=True)
