"""Trials with a fixed order of their blocks beside those with a drawn one, by two tests."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

import numpy as np
from scipy import stats

from engine.trial.sign_flip import LEVEL, SignFlip
from engine.trial.trial import Arm
from tests.bench.intervals import share
from tests.bench.simulated_trials import FEET, Foot, differences, lots, of_a

FIXED = tuple("ABBABAAB")


def fixed_line(name: str, foot: Foot, times: int) -> str:
    """How often equal arms are told apart by lots and by a fixed order, by two tests."""
    cells = []
    for pairs in (4, 8):
        rng = np.random.default_rng(pairs)
        dips = foot.dips(times, pairs, rng)
        fixed = np.tile(of_a([Arm(one) for one in FIXED]), (times, pairs // 4))
        for arms in (fixed, lots(times, pairs, rng)):
            alike = [
                stats.mannwhitneyu(row[a].ravel(), row[~a].ravel()).pvalue
                for row, a in zip(dips, arms, strict=True)
            ]
            cells.append(share(np.array(alike) <= LEVEL))
            if pairs == 8:
                over = [SignFlip.of(one).p for one in differences(dips, arms).tolist()]
                cells.append(share(np.array(over) <= LEVEL))
    return f"{name:22}" + "".join(f"{one:24}" for one in cells)


def fixed_jobs(times: int) -> Iterator[Callable[[], str]]:
    """What the fixed order was thought to be proof against."""
    feet = {
        "plain": FEET["plain"],
        "learning": FEET["learning"],
        "autocorrelation 0.5": FEET["autocorrelation 0.5"],
        "these two": Foot(learning=0.7, within=0.15, kept=0.5),
        "all together": FEET["all together"],
    }
    for name, foot in feet.items():
        yield partial(fixed_line, name, foot, times)
