"""Does something to a data folder and dies at a step of it.

`python -m tests.store.dying_at repair|open STEP FOLDER`. A step is a call that changes what is on
the disk. Where there are fewer it ends as usual.
"""

import os
import sys
from datetime import date
from itertools import count
from pathlib import Path

from engine.salvage.repair import repair
from engine.store import open_history
from tests.store.dying import CHANGES

if __name__ == "__main__":
    last, steps = int(sys.argv[2]), count(1)

    def die(event: str, _: tuple[object, ...]) -> None:
        """End this process as a kill does, when its time has come."""
        if event in {*CHANGES, "os.link"} and next(steps) == last:
            os._exit(9)

    sys.addaudithook(die)
    folder = Path(sys.argv[3])
    if sys.argv[1] == "repair":
        repair(folder, [], today=date(2026, 5, 6))
    else:
        open_history(folder, []).close()
