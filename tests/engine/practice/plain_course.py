"""Slope and day effects of a course by their definition alone, in plain loops."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from math import log, sqrt
from statistics import fmean, median

import numpy as np

Repetition = tuple[int, int, int, float]
"""Day, place in the day, level and value of one repetition."""
Cells = dict[tuple[int, int], float]
"""Median of the logarithms by level and day."""


def cells(repetitions: Sequence[Repetition], least: float) -> Cells:
    """Comparable cells: no first five of a day, no first three days, no level of a single day."""
    logs = defaultdict[tuple[int, int], list[float]](list)
    for day, place, level, value in repetitions:
        if place > 5 and value == value:
            logs[level, day].append(log(max(value, least)))
    found: Cells = {}
    for level in {level for level, _ in logs}:
        days = sorted(day for of, day in logs if of == level)[3:]
        if len(days) >= 2:
            found |= {(level, day): median(logs[level, day]) for day in days}
    return found


def newest(found: Cells, back: int) -> Cells:
    """Cells of the newest `back` days of the calendar, without levels of a single day in them."""
    last = max(day for _, day in found)
    recent = {key: value for key, value in found.items() if last - key[1] < back}
    levels = [level for level, _ in recent]
    return {key: value for key, value in recent.items() if levels.count(key[0]) > 1}


def slope(found: Cells, flips: int, seed: int) -> tuple[float, float, float]:
    """Slope a day, and p of a fall and of a rise."""
    top, bottom, scores = 0.0, 0.0, defaultdict[int, float](float)
    for level in {level for level, _ in found}:
        own = {of_day: one for (of, of_day), one in found.items() if of == level}
        middle, mean = fmean(own), fmean(own.values())
        for day, value in own.items():
            u, e = day - middle, value - mean
            top, bottom = top + u * e, bottom + u * u
            scores[day] += u * e * sqrt(len(own) / (len(own) - 1))
    by_day = [scores[day] for day in sorted(scores)]
    signs = np.random.default_rng(seed).integers(0, 2, (flips, len(by_day))).tolist()
    sums = [
        sum(score if sign else -score for sign, score in zip(row, by_day, strict=True))
        for row in signs
    ]
    told, near = sum(by_day), 1e-12 * sum(map(abs, by_day))
    low, high = sum(one <= told + near for one in sums), sum(one >= told - near for one in sums)
    return top / bottom, (1 + low) / (1 + flips), (1 + high) / (1 + flips)


def effects(found: Cells, today: int) -> dict[int, float]:
    """Logarithm of each day at a level, by least squares; all levels and days must be joined."""
    levels, days = sorted({one for one, _ in found}), sorted({one for _, one in found})
    design = np.zeros((len(found), len(levels) + len(days)))
    for row, (level, day) in enumerate(found):
        design[row, levels.index(level)] = design[row, len(levels) + days.index(day)] = 1
    parts = np.linalg.lstsq(design, np.array(list(found.values())), rcond=None)[0]
    of_today = parts[levels.index(today)]
    return {day: float(of_today + parts[len(levels) + k]) for k, day in enumerate(days)}
