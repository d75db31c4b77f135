"""Command that dies at a step of it: `python -m tests.bench.attempts.dying STEP WORD ...`.

A step is a call that changes what is on the disk. Where there are fewer it ends as usual.
"""

import os
import sys

from engine.commands.main import main
from tests.bench.attempts.steps import steps

KILLED = 9
"""Exit code of a command that died."""


def die(_event: str) -> None:
    """End this process as a kill does."""
    os._exit(KILLED)


if __name__ == "__main__":
    with steps().at(int(sys.argv[1]), die):
        code = main(sys.argv[2:])
    sys.exit(code)
