"""Restores a backup and dies at a step of it: `python -m tests.store.dying STEP FILE FOLDER`.

A step is a call that changes what is on the disk. Where there are fewer it ends as usual.
"""

import os
import sys
from itertools import count
from pathlib import Path

from engine.store.backup import restore

CHANGES = {"os.rename", "os.remove", "os.mkdir", "shutil.copyfile", "sqlite3.connect"}

if __name__ == "__main__":
    last, steps = int(sys.argv[1]), count(1)

    def die(event: str, _: tuple[object, ...]) -> None:
        """End this process as a kill does, when its time has come."""
        if event in CHANGES and next(steps) == last:
            os._exit(9)

    sys.addaudithook(die)
    restore(Path(sys.argv[2]), Path(sys.argv[3]), [])
