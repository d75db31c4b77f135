"""Campaign against the program: whether a history can be lost, and whether it ends well.

    python tests/bench/campaign.py [PART ...] [--short] [--first N] [--only N ...]

Prints a table: how many attempts were made, survived, lost something, or found something wrong,
and what. It makes all parts, or those named by their first word. `--short` makes a few attempts of
each, `--first` no more than so many, and `--only` repeats some by their numbers: each draws from a
seed of its own, its part and number. The exit code is 1 where anything is lost or wrong.
"""

import argparse
import os
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
for driver in ("SDL_VIDEODRIVER", "SDL_AUDIODRIVER"):
    os.environ.setdefault(driver, "dummy")

from tests.bench.attempts import histories  # noqa: E402
from tests.bench.attempts.attempt import tally  # noqa: E402
from tests.bench.attempts.parts import PARTS  # noqa: E402
from tests.bench.attempts.table import write, write_head  # noqa: E402


def main() -> int:
    """Make the attempts and print the table; returns the exit code."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    names = list(dict.fromkeys(part.name.split()[0] for part in PARTS))
    parser.add_argument("parts", nargs="*", metavar="PART", help=f"of {', '.join(names)}")
    parser.add_argument("--short", action="store_true", help="only the first few attempts")
    parser.add_argument("--only", type=int, nargs="+", metavar="N", help="attempts by number")
    parser.add_argument("--first", type=int, metavar="N", help="no more than so many of each part")
    options = parser.parse_args()
    unknown = set(options.parts) - set(names)
    if unknown:
        parser.error(f"expected parts of {', '.join(names)}, found {', '.join(unknown)}")
    began, well = time.monotonic(), True
    write_head()
    try:
        for part in PARTS:
            if options.parts and part.name.split()[0] not in options.parts:
                continue
            count = part.short if options.short else part.count
            numbers = options.only or range(
                count if options.first is None else min(count, options.first)
            )
            if not numbers:
                continue
            found = tally(part, numbers)
            write(found)
            well = well and found.survived == found.tried
    finally:
        histories.forget()
    print(f"every attempt is seeded by its part and number; {time.monotonic() - began:.0f} s")
    return 0 if well else 1


if __name__ == "__main__":
    sys.exit(main())
