"""Program `stillfoot` of the frozen folder: the command, with a console."""

import multiprocessing
import sys

from engine.__main__ import run

if __name__ == "__main__":
    # A process started for another core is this program too: it does its work in here and ends.
    multiprocessing.freeze_support()
    sys.exit(run())
