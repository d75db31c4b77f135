"""Made-up weeks of blips, by how deep they dip."""

from datetime import date, timedelta

import numpy as np

from drills.deviation import AROUND_BLIP, Deviation
from drills.typical import median_of
from engine.progress.weeks import Week


def size_of(dip: float) -> float:
    """Size in % of the blips with a median dip in points: larger blips, larger dips."""
    return 45.0 + dip


def blip(depth: float) -> Deviation:
    """A blip that dips by a depth in points, and then overshoots a little."""
    time = np.arange(*AROUND_BLIP, 0.004)
    dip = -depth * np.exp(-(((time - 0.2) / 0.09) ** 2))
    return Deviation(time, dip + 0.3 * depth * np.exp(-(((time - 0.45) / 0.1) ** 2)), AROUND_BLIP)


def week(last: date, depth: float, count: int = 5) -> Week:
    """A week of blips around a depth in points, of which half are drawn."""
    blips = tuple(blip(depth * (0.5 + number / (count - 1))) for number in range(count))
    size = size_of(depth)
    return Week(
        *(last - timedelta(days=6), last, blips, median_of(blips), 2 * count),
        *(depth, size, depth * 60 / size),
    )
