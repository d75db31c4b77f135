"""Command `stillfoot`, which is also `python -m stillfoot`, of an installed package."""

import sys

from engine.__main__ import run

if __name__ == "__main__":
    sys.exit(run())
