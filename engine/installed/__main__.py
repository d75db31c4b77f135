"""Commands of an installed package: `stillfoot` (`python -m stillfoot`) and `stillfoot-game`."""

import sys

from engine.__main__ import run, run_game

__all__ = ["run", "run_game"]

if __name__ == "__main__":
    sys.exit(run())
