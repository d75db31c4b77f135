"""Program `stillfoot-game` of the frozen folder: the game, without a console beside it."""

import multiprocessing
import sys

from engine.__main__ import run_game

if __name__ == "__main__":
    # A process started for another core is this program too: it does its work in here and ends.
    multiprocessing.freeze_support()
    sys.exit(run_game())
