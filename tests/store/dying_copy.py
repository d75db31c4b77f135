"""Program that is killed in the middle of a copy: `python -m tests.store.dying_copy FOLDER`."""

import os
import sys
from datetime import date
from itertools import count
from pathlib import Path

from engine.store import open_history
from engine.store.copies import make_copy
from tests.store.daily_copies import disk, fill, practise

KILLED = 9
"""Exit code, as of a program that was killed."""


def main(folder: str) -> None:
    """Practise on a day, and end without any tidying once its copy has begun."""
    day, calls = date(2026, 11, 28), count(1)
    with open_history(Path(folder), []) as history:
        practise(history, day)
        fill(history)
        make_copy(history, day, lambda: os._exit(KILLED) if next(calls) == 2 else None, disk())


if __name__ == "__main__":
    main(sys.argv[1])
