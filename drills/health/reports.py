"""Reports of a device, rebuilt from reads of an axis that come more or less often than they do.

A read finds a change in the interval since the read before it, so every time is late by up to one
read, evenly spread. A report that brings no change cannot be seen; where an axis moves by two
steps or more from report to report and goes on the same way, none of them lacks a change.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.trace import SECOND, Times, Values

LONGEST = 0.25
"""Longest time between two changes that may be the device's and not a foot at rest, in s."""
ENOUGH = 60
"""Least number of times between reports for which only sure movements are taken: among a few, noise
picks the long ones."""
LEAST = 8
"""Least number of times between reports that anything is said of."""
PAUSE = 2.0
"""Longest time between two reads, in usual ones, that still dates a change; drawing takes more."""
LATE = 2.5
"""Usual times between reports after which one is late."""


@dataclass(frozen=True)
class Timing:
    """How often a device reports, and how evenly."""

    interval: float
    """Mean time between reports, in s, without outliers: those farther from the median than half of
    it. Error: 3 %; a device that reports about as often as it is read, or more
    often, is told as often as it is read."""
    p99: float
    """99th percentile of the time between reports, in s, without times in which reading paused for
    so long that one may have been missed, and only where a movement was sure. Error: one read."""
    jitter: float
    """Standard deviation of the time between reports, in s, without the same outliers. The share of
    the reads, 1/6 of the square of the time between two, is taken off (Sheppard's correction, twice
    1/12 as an interval has two ends). Error: 5 % of 400 reports, and a quarter of a read."""
    late: int
    """Number of reports that came later than 2.5 such intervals after the one before; no error, but
    that a report of the same value cannot be seen."""
    count: int
    """Number of times between reports that this was measured on."""


def report_timing(time: Times, counts: Times, fast: Sequence[float]) -> Timing | None:
    """How often an axis reports, from reads at `time` (ns) of `counts`, both of shape (n,).

    `fast` are the least changes from report to report, in counts, that are a sure movement; the
    first that leaves enough is taken. None where the axis hardly moved.
    """
    read = usual_read(time)
    found = np.zeros(0)
    for least in fast:
        found, _ = _intervals(time, counts, least, read)
        if found.size >= ENOUGH:
            break
    if found.size < LEAST:
        return None
    middle = float(np.median(found))
    near = found[np.abs(found - middle) <= middle / 2]
    spread = max(float(near.var()) - read**2 / 6, 0.0)
    sure, pauses = _intervals(time, counts, fast[0], read)
    whole = sure[pauses <= max(PAUSE * read, middle / 2)]
    interval = float(near.mean())
    p99 = float(np.percentile(whole if whole.size >= LEAST else found, 99))
    late = int(np.sum(whole > LATE * interval))
    return Timing(interval, p99, spread**0.5, late, int(found.size))


def usual_read(time: Times) -> float:
    """Median time between reads at `time` (ns, two or more), in s."""
    return float(np.median(np.diff(time))) / SECOND


def reports(time: Times, counts: Times, interval: float) -> Values:
    """Counts of each report, in order, from reads of an axis that reports every `interval` s.

    `time` in ns and `counts` have the shape (n,), with one read at least. Every change is a report,
    and where there is none for longer, each interval repeats the count.
    """
    at = np.concatenate([[0], np.flatnonzero(np.diff(counts)) + 1])
    ends = np.append(time[at[1:]], time[-1])
    times = np.maximum(np.rint((ends - time[at]) / SECOND / interval), 1).astype(np.int64)
    return np.repeat(counts[at].astype(np.float64), times)


def _intervals(time: Times, counts: Times, least: float, read: float) -> tuple[Values, Values]:
    """Times in s between successive changes of at least `least` counts in one direction.

    And the longest time between two reads within each, in s, where `read` is the usual one; of
    changes that came with a longer one it is not known when they were.
    """
    reads, moves = np.diff(time) / SECOND, np.diff(counts)
    at = np.flatnonzero(moves)
    if at.size < 2:
        return np.zeros(0), np.zeros(0)
    between = np.diff(time[at + 1]) / SECOND
    pauses = np.maximum.reduceat(reads[: at[-1] + 1], at[:-1] + 1)
    fast = np.abs(moves[at]) >= least
    dated = reads[at] <= PAUSE * read
    onward = np.sign(moves[at][1:]) == np.sign(moves[at][:-1])
    sure = fast[1:] & fast[:-1] & dated[1:] & dated[:-1] & onward & (between <= LONGEST)
    return between[sure], pauses[sure]
