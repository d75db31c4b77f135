"""Gaps between reads of the pedals, and numbered moves that nobody read."""

from typing import Any

import numpy as np

from drills.repetition import SETTLING_IN

MARKS = 64  # numbers given to moves before they begin again
COUNT = 1 / 32768  # raw, one step of an axis

Reads = list[tuple[int, int]]  # ns, and the mark that the brake carried


def mark_of(raw: float) -> int:
    """The number that a raw brake value carries."""
    return round(raw / COUNT) % MARKS


def windows(events: list[dict[str, Any]]) -> list[tuple[float, float]]:
    """The measured windows in ns."""
    found, opened = [], None
    for event in events:
        if event.get("phase") == "wait":
            opened = event["t"] * 1e9 + SETTLING_IN
        elif event.get("phase") == "done" and opened is not None:
            found.append((opened, event["t"] * 1e9))
            opened = None
    return found


def report(reads: Reads, spans: list[tuple[float, float]]) -> dict[str, Any]:
    """Gaps between reads, and moves missed, inside the spans (ns)."""
    times = np.array([time for time, _ in reads], dtype=float)
    marks = np.array([mark for _, mark in reads])
    gaps, missed, moves = [], 0, 0
    for start, stop in spans:
        inside = (times >= start) & (times <= stop)
        gaps.append(np.diff(times[inside]) / 1e6)
        steps = np.diff(marks[inside]) % MARKS
        moves += int(steps.sum())
        missed += int(np.maximum(steps - 1, 0).sum())
    every = np.concatenate(gaps)
    return {
        "seconds": sum(stop - start for start, stop in spans) / 1e9,
        "p50": float(np.percentile(every, 50)),
        "p99": float(np.percentile(every, 99)),
        "max": float(every.max()),
        "missed": 1000 * missed / max(moves, 1),
    }
