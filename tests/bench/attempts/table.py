"""Table of what each part of the campaign found, and a line for each thing lost or wrong."""

import sys
from collections.abc import Iterator
from typing import TextIO

from tests.bench.attempts.attempt import Tally

ROW = "{:24}{:>8}{:>10}{:>7}{:>7}"
"""Layout of a row: part, tried, survived, lost, wrong."""
NUMBERS = 3
"""Largest number of attempts that a finding names."""
MOST = 12
"""Largest number of findings that are printed of a part, the most frequent ones."""


def write_head(stream: TextIO = sys.stdout) -> None:
    """Write the head of the table."""
    print(ROW.format("", "tried", "survived", "lost", "wrong"), file=stream, flush=True)


def write(found: Tally, stream: TextIO = sys.stdout) -> None:
    """Write the row of a part, and below it what was lost or wrong."""
    counts = (found.tried, found.survived, found.lost, found.wrong)
    print(ROW.format(found.name, *counts), file=stream)
    for line in lines(found):
        print(f"    {line}", file=stream)
    stream.flush()


def lines(found: Tally) -> Iterator[str]:
    """A line for each finding, the most frequent first, and how it can be seen again."""
    often = sorted(found.findings.values(), key=lambda item: -len(item[1]))
    for finding, numbers in often[:MOST]:
        which = ", ".join(map(str, numbers[:NUMBERS])) + (", ..." if numbers[NUMBERS:] else "")
        yield f"{finding.fault.value} {len(numbers)} x: {finding.what} (--only {which})"
    if often[MOST:]:
        yield f"and {len(often) - MOST} other findings"
